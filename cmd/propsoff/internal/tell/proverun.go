package tell

import "propsoff/assets/words"

// Running heads a run: which script or take, and on which craft.
func Running(name, craft string, take bool) words.Text {
	return words.T("run.running", words.Args{"name": words.Quote(name), "craft": words.Quote(craft), "take": words.Flag(take)})
}

// EndsArmed says how a run leaves the craft.
func EndsArmed(armed bool) words.Text { return words.T("run.ends", words.Args{"armed": Armed(armed)}) }

// LinesLeftOut stands where lines are missing.
func LinesLeftOut(n int) words.Text { return words.T("run.left-out", words.Args{"n": words.Count(n)}) }
