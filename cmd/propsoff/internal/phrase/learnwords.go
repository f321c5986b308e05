package phrase

import "propsoff/input/learn"

// The code words of learning, for JSON Lines: the same in every language, and never changed.
var (
	learnQuestions = [...]string{learn.StickMode: "stick-mode", learn.Throttle: "throttle", learn.Yaw: "yaw", learn.Pitch: "pitch", learn.Roll: "roll",
		learn.Arm: "arm", learn.Mode: "mode", learn.Also: "also", learn.More: "more", learn.TopRight: "top-right", learn.Replay: "replay", learn.Done: "done"}
	learnSteps = [...]string{learn.Choose: "choose", learn.HighEnd: "high-end", learn.LowEnd: "low-end", learn.LetGo: "let-go", learn.Through: "through",
		learn.Corners: "corners", learn.Each: "each", learn.Over: "over"}
	learnPhases = [...]string{learn.Settling: "settling", learn.Moving: "moving", learn.Holding: "holding", learn.Returning: "returning",
		learn.Deciding: "deciding", learn.Finished: "finished"}
	learnMeans   = [...]string{learn.NoUse: "", learn.TakeIt: "take-it", learn.AcceptIt: "accept-it", learn.NoMore: "no-more"}
	learnNotices = [...]string{learn.Nothing: "", learn.StillMoving: "still-moving", learn.Restless: "restless", learn.TooLittle: "too-little",
		learn.NotAtEnd: "not-at-end", learn.Two: "two-at-once", learn.Taken: "taken", learn.WantStick: "want-stick", learn.StartFirst: "start-first",
		learn.TooQuick: "too-quick", learn.Mixed: "mixed", learn.Springs: "springs", learn.NoSpring: "no-spring", learn.TurnedRound: "turned-round",
		learn.NotThere: "not-there", learn.NoChannel: "no-channel", learn.MorePositions: "more-positions", learn.Lost: "readings-lost",
		learn.CannotSkip: "cannot-skip"}
)

// LearnQuestion is the code word of a question.
func LearnQuestion(q learn.Question) string { return word(learnQuestions[:], int(q), "question") }

// LearnStep is the code word of a step.
func LearnStep(s learn.Step) string { return word(learnSteps[:], int(s), "step") }

// LearnPhase is the code word of a phase.
func LearnPhase(p learn.Phase) string { return word(learnPhases[:], int(p), "phase") }

// LearnEnough is the code word of what "enough" does now; empty for nothing.
func LearnEnough(m learn.Means) string {
	if m == learn.NoUse {
		return ""
	}
	return word(learnMeans[:], int(m), "means")
}

// LearnNotice is the code word of a notice; empty for none.
func LearnNotice(c learn.Code) string {
	if c == learn.Nothing {
		return ""
	}
	return word(learnNotices[:], int(c), "notice")
}

// LearnStopped is said when learning ends before everything is answered.
func LearnStopped() string { return "stopped before the end: nothing is kept" }

// LearnNotKept is said at the end when the radio file could not be written and stands on standard output instead.
func LearnNotKept(why string) string {
	return why + "; what was learned stands on standard output, to be kept by hand"
}

// LearnKeepAgain says what can be done about a radio file that could not be written. screen: by single keys.
func LearnKeepAgain(why string, screen bool) string {
	if screen {
		return "It could not be kept: " + why + ". What was learned is not lost: mend that and press S to try again, or Q to have it printed."
	}
	return "It could not be kept: " + why + ". What was learned is not lost: mend that and write save, or save FILE to keep it elsewhere, or quit to have it printed."
}

// LearnAgain is said when there is a radio file for the radio already.
func LearnAgain(name, path string) string {
	return "There is a radio file for " + name + " already (" + path + "). It is replaced once everything is answered."
}

// LearnWait is said when the radio is pulled out in the middle.
func LearnWait(name string) string {
	return name + " was unplugged. What was learned so far is kept: plug it in again and the questions go on."
}

// LearnWords answers a line of input that means nothing.
func LearnWords(line string) string {
	return "\"" + line + "\" means nothing here. Words: enough (or an empty line), back, skip, over, 1 to 4 (which hand carries what), left, right, top, springs, call NAME, save, quit."
}

// LearnModeTaken is said where nobody can say any more which hand carries what.
func LearnModeTaken(mode int) string {
	return "Nobody can say which hand carries what, so " + StickModeTitle(mode) + " is taken. It can be changed in the radio file, or given by --stick-mode."
}

// LearnNotYet answers who wants to keep a radio file before everything is answered.
func LearnNotYet() string { return "It is kept by itself once everything is answered." }

// LearnNothingToCall answers a side or a name when no switch was found yet.
func LearnNothingToCall() string { return "No switch has been found yet that this could be about." }

// StickModeLine is one stick mode in words.
func StickModeLine(mode int) string {
	of := func(right bool) string {
		var across, up string
		for _, job := range []string{"yaw", "roll"} {
			if RightStick(job, mode) == right {
				across = job
			}
		}
		for _, job := range []string{"throttle", "pitch"} {
			if RightStick(job, mode) == right {
				up = job
			}
		}
		return up + " up and down, " + across + " across"
	}
	return HandTitle(false) + " " + of(false) + "; " + HandTitle(true) + " " + of(true)
}
