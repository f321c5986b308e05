package codes

import "propsoff.example/input/learn"

// The code words of learning, for JSON Lines: the same in every language, and never changed.
var (
	learnQuestions = [...]string{learn.StickMode: "stick-mode", learn.Throttle: "throttle", learn.Yaw: "yaw", learn.Pitch: "pitch", learn.Roll: "roll",
		learn.Arm: "arm", learn.Mode: "mode", learn.Also: "also", learn.More: "more", learn.TopRight: "top-right", learn.Replay: "replay", learn.Once: "once", learn.Done: "done"}
	learnSteps = [...]string{learn.Choose: "choose", learn.HighEnd: "high-end", learn.LowEnd: "low-end", learn.LetGo: "let-go", learn.Through: "through",
		learn.Corners: "corners", learn.Each: "each", learn.ItsWay: "its-way", learn.AndBack: "and-back", learn.Over: "over"}
	learnPhases = [...]string{learn.Settling: "settling", learn.Moving: "moving", learn.Holding: "holding", learn.Returning: "returning",
		learn.Deciding: "deciding", learn.Finished: "finished"}
	learnMeans   = [...]string{learn.NoUse: "", learn.TakeIt: "take-it", learn.AcceptIt: "accept-it", learn.NoMore: "no-more", learn.Untried: "untried"}
	learnNotices = [...]string{learn.Nothing: "", learn.StillMoving: "still-moving", learn.Restless: "restless", learn.TooLittle: "too-little",
		learn.NotAtEnd: "not-at-end", learn.Two: "two-at-once", learn.Taken: "taken", learn.WantStick: "want-stick", learn.StartFirst: "start-first",
		learn.TooQuick: "too-quick", learn.Mixed: "mixed", learn.Springs: "springs", learn.NoSpring: "no-spring", learn.TurnedRound: "turned-round",
		learn.NotThere: "not-there", learn.NoChannel: "no-channel", learn.MorePositions: "more-positions", learn.Lost: "readings-lost",
		learn.CannotSkip: "cannot-skip", learn.Another: "another", learn.NothingMoves: "nothing-moves", learn.Missing: "missing",
		learn.WrongEnd: "wrong-end", learn.TooShort: "too-short", learn.NotDown: "not-down", learn.AtFirst: "at-first", learn.FewPlaces: "few-places",
		learn.NoPlace: "no-place", learn.WentBack: "went-back", learn.Stayed: "stayed"}
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
