package tell

import "propsoff/assets/words"

// LearnNotKept is said at the end when the radio file could not be written and stands on standard output instead.
func LearnNotKept(why words.Text) words.Text {
	return words.T("ask.not-kept", words.Args{"why": why})
}

// LearnKeepAgain says what can be done about a radio file that could not be written. screen: by single keys.
func LearnKeepAgain(why words.Text, screen bool) words.Text {
	if screen {
		return words.T("ask.keep-again-screen", words.Args{"why": why})
	}
	return words.T("ask.keep-again", words.Args{"why": why})
}

// LearnAgain is said when there is a radio file for the radio already.
func LearnAgain(name, path string) words.Text {
	return words.T("ask.again", words.Args{"name": words.Quote(name), "path": words.Quote(path)})
}

// LearnWait is said when the radio is pulled out in the middle.
func LearnWait(name string) words.Text {
	return words.T("ask.wait", words.Args{"name": words.Quote(name)})
}

// LearnWords answers a line of input that means nothing.
func LearnWords(line string) words.Text {
	return words.T("ask.words", words.Args{"line": words.Quote(line)})
}

// LearnModeTaken is said where nobody can say any more which hand carries what.
func LearnModeTaken(mode int) words.Text {
	return words.T("ask.mode-taken", words.Args{"n": words.Whole(mode)})
}

// RightStick tells whether a stick direction (throttle, yaw, pitch, roll) is on the right stick in a stick mode from 1 to 4
// (common practice, no source).
func RightStick(job string, mode int) bool {
	switch job {
	case "yaw":
		return mode == 3 || mode == 4
	case "roll":
		return mode == 1 || mode == 2
	case "pitch":
		return mode == 2 || mode == 4
	}
	return mode == 1 || mode == 3 // throttle
}

// StickModeLine is one stick mode in words.
func StickModeLine(mode int) words.Text {
	return words.T("ask.stick-mode", words.Args{"left": stickCarries(false, mode), "right": stickCarries(true, mode)})
}

// stickCarries says what a stick carries in a stick mode.
func stickCarries(right bool, mode int) words.Text {
	up, across := "throttle", "yaw"
	if RightStick(up, mode) != right {
		up = "pitch"
	}
	if RightStick(across, mode) != right {
		across = "roll"
	}
	return words.T("ask.stick", words.Args{"up": JobName(up), "across": JobName(across)})
}
