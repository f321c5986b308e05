package codes

import (
	"slices"

	"propsoff.example/sim/drill"
)

// The words of verdicts and of why stand in logbooks for ever.
var verdictCodes = [drill.Verdicts]string{
	drill.Right: "right", drill.Wrong: "wrong", drill.TooLate: "too-late", drill.FalseStart: "false-start", drill.Anticipated: "anticipated", drill.Void: "void",
}

var whyCodes = [drill.Whys]string{
	drill.NeverSeen: "never-seen", drill.WrongAnswer: "wrong-answer", drill.OutOfOrder: "out-of-order", drill.StillMissing: "still-missing", drill.CameLate: "came-late",
	drill.BrokeBefore: "broke-before", drill.ActedBefore: "acted-before", drill.UnderHundred: "under-hundred", drill.NotShown: "not-shown", drill.Slept: "slept",
	drill.NotMeasured: "not-measured",
}

// Keyboard is what the logbook calls the keyboard in the place of a radio.
const Keyboard = "keyboard"

// VerdictCode is the code word of a verdict.
func VerdictCode(v drill.Verdict) string { return word(verdictCodes[:], int(v), "verdict") }

// WhyCode is the code word of why a try ended so; empty for none.
func WhyCode(w drill.Why) string {
	if w == 0 {
		return ""
	}
	return word(whyCodes[:], int(w), "why")
}

// VerdictOf is the verdict of a code word; an empty one is none.
func VerdictOf(s string) (drill.Verdict, bool) {
	i, ok := codeOf(verdictCodes[:], s)
	return drill.Verdict(i), ok
}

// WhyOf is why a try ended so, by the code word; an empty one is none.
func WhyOf(s string) (drill.Why, bool) {
	i, ok := codeOf(whyCodes[:], s)
	return drill.Why(i), ok
}

// Verdicts are the code words of all verdicts.
func Verdicts() []string { return slices.Clone(verdictCodes[1:]) }
