package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/sim/drill"
)

// DrillKey is what the key that begins a drill does now.
func DrillKey(answering, over bool) words.Text {
	switch {
	case answering:
		return words.T("drill.key-answer")
	case over:
		return words.T("drill.key-go-on")
	}
	return words.T("drill.key-begin")
}

// DrillMove is what the keys up and down do.
func DrillMove(up bool) words.Text {
	if up {
		return words.T("drill.move-up")
	}
	return words.T("drill.move-down")
}

// DrillsTitle heads the sheet of drills.
func DrillsTitle(course words.Text) words.Text {
	return words.T("drill.title", words.Args{"course": course})
}

// DrillsPupil says who practises; typed tells that the name is being typed.
func DrillsPupil(name string, typing bool, key string) words.Text {
	switch {
	case typing:
		return words.T("drill.pupil-typed", words.Args{"name": words.Quote(name)})
	case name == "":
		return words.T("drill.pupil-nobody", words.Args{"key": words.Quote(key)})
	}
	return words.T("drill.pupil", words.Args{"name": words.Quote(name)})
}

// DrillStands says in a few words how a drill stands on a day.
func DrillStands(c *drill.Card, day int32) words.Text {
	switch {
	case c.Box == 0:
		return words.T("drill.stands-new")
	case c.Failed && c.Last == day:
		return words.T("drill.stands-failed-today")
	case c.Failed:
		return words.T("drill.stands-failed")
	case c.Due <= day:
		return words.T("drill.stands-due")
	case c.Mastered():
		return words.T("drill.stands-mastered")
	}
	return words.T("drill.stands-due-in", words.Args{"n": words.Count(c.Due - day)}) // that it is learned its mark tells
}

// DrillNext says which drill is next and why.
func DrillNext(name words.Text, why drill.Reason) words.Text {
	switch why {
	case drill.ComesBack:
		return words.T("drill.next-back", words.Args{"name": name})
	case drill.IsNew:
		return words.T("drill.next-new", words.Args{"name": name})
	case drill.FailedToday:
		return words.T("drill.next-failed", words.Args{"name": name})
	}
	return words.T("drill.next-none")
}

// DrillHeading is the heading over what is asked for.
func DrillHeading(p drill.Phase, verdict drill.Verdict) words.Text {
	switch p {
	case drill.Preparing, drill.Starting:
		return words.T("drill.heading-first")
	case drill.Waiting:
		return words.T("drill.heading-ready")
	case drill.Running:
		return words.T("drill.heading-now")
	case drill.Resting:
		return words.T("drill.heading-verdict", words.Args{"verdict": VerdictWord(verdict)})
	}
	return words.T("drill.heading-over")
}

// VerdictWord is a verdict in a word or two, and nothing where there is none.
func VerdictWord(v drill.Verdict) words.Text {
	if v == 0 {
		return words.Text{}
	}
	return words.Of("verdict", codes.VerdictCode(v))
}

// DrillWait is said while the cue is to come.
func DrillWait(unannounced bool) words.Text {
	if unannounced {
		return words.T("drill.wait-unannounced")
	}
	return words.T("drill.wait")
}

// DrillTry counts the tries.
func DrillTry(n, most int) words.Text {
	return words.T("drill.try", words.Args{"n": words.Whole(n), "most": words.Whole(most)})
}

// DrillAsks says what counts as learned.
func DrillAsks(cfg *drill.Config) words.Text {
	if cfg.InARow > 0 {
		return words.T("drill.asks-row", words.Args{"n": words.Count(cfg.InARow)})
	}
	return words.T("drill.asks-of", words.Args{"n": words.Whole(cfg.Right), "of": words.Whole(cfg.Of)})
}

// DrillSum says what tries came to.
func DrillSum(s drill.Summary) words.Text {
	if s.Counted == 0 {
		return words.T("drill.sum-none")
	}
	var early, guessed, median, spread, uncertain, trend words.Text
	if s.FalseStarts > 0 {
		early = words.T("drill.sum-early", words.Args{"n": words.Count(s.FalseStarts)})
	}
	if s.Anticipated > 0 {
		guessed = words.T("drill.sum-guessed", words.Args{"n": words.Whole(s.Anticipated)})
	}
	if s.Timed > 0 {
		median, uncertain = inSeconds(s.Median), Clock((s.Uncertain+999)/1000)
	}
	if s.Timed > 2 {
		spread, trend = inSeconds(s.Spread), drillTrend(nearest(s.Trend, 1000))
	}
	return words.T("drill.sum", words.Args{"right": words.Whole(s.Right), "counted": words.Whole(s.Counted), "early": early, "guessed": guessed,
		"median": median, "spread": spread, "uncertain": uncertain, "trend": trend})
}

// drillTrend says by how much each try is slower than the one before; nothing for a change that is none in the digits that are shown.
func drillTrend(ms int64) words.Text {
	switch {
	case ms < 0:
		return words.T("drill.sum-faster", words.Args{"time": Clock(-ms)})
	case ms > 0:
		return words.T("drill.sum-slower", words.Args{"time": Clock(ms)})
	}
	return words.Text{}
}

// nearest is how many of a unit a number comes to, to the nearest.
func nearest(n, unit int64) int64 {
	if n < 0 {
		return -nearest(-n, unit)
	}
	return (n + unit/2) / unit
}

// hundredth is a hundredth of a second in µs: the last digit of inHundredths.
const hundredth = 10_000

// inHundredths is a time in µs as a number of seconds with two decimals, and inSeconds has the unit too.
func inHundredths(us int64) words.Fixed {
	return words.Fixed{N: nearest(us, hundredth), Places: 2, Least: 2}
}

func inSeconds(us int64) words.Text { return unit("seconds", inHundredths(us)) }

// DrillTime is a reaction time in ms with what is not known of it.
func DrillTime(ms int32, uncertain uint16) words.Text {
	return words.T("drill.time", words.Args{"time": inSeconds(int64(ms) * 1000), "uncertain": Clock(int64(uncertain))})
}

// DrillOver says what a run came to. c is how the drill stands after it, nil where results are not kept.
func DrillOver(learned, brokenOff bool, c *drill.Card, day int32) words.Text {
	switch {
	case brokenOff:
		return words.T("drill.over-left")
	case learned && c == nil:
		return words.T("drill.over-not-kept")
	case learned:
		return words.T("drill.over-learned", words.Args{"n": words.Count(c.Due - day)})
	case c == nil:
		return words.T("drill.over-again")
	}
	return words.T("drill.over-not-yet", words.Args{"n": words.Count(c.Due - day)})
}

// DrillOtherHand is said where something else than the pupil's own hand came into a drill, by its code word.
func DrillOtherHand(code string) words.Text {
	switch code {
	case "demo-pilot":
		return words.T("drill.came-in-demo")
	case "script":
		return words.T("drill.came-in-script")
	case "instructor":
		return words.T("drill.came-in-instructor")
	case "fault":
		return words.T("drill.came-in-fault")
	}
	return words.Text{}
}

// DrillKept says where results go.
func DrillKept(path string) words.Text {
	return words.T("drill.kept", words.Args{"path": words.Quote(path)})
}

// DrillNotKept says why results are kept nowhere.
func DrillNotKept(why words.Text) words.Text {
	return words.T("drill.not-kept", words.Args{"why": why})
}
