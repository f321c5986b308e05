package codes

import "propsoff/sim/drill"

// The words of verdicts and of why stand in logbooks for ever.
var verdictCodes = [drill.Verdicts]string{
	drill.Right: "right", drill.Wrong: "wrong", drill.TooLate: "too-late", drill.FalseStart: "false-start", drill.Anticipated: "anticipated", drill.Void: "void",
}

var whyCodes = [drill.Whys]string{
	drill.NeverSeen: "never-seen", drill.WrongAnswer: "wrong-answer", drill.OutOfOrder: "out-of-order", drill.StillMissing: "still-missing", drill.CameLate: "came-late",
	drill.BrokeBefore: "broke-before", drill.ActedBefore: "acted-before", drill.UnderHundred: "under-hundred", drill.NotShown: "not-shown", drill.Slept: "slept",
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

// VerdictOf and WhyOf read the code words; an empty one is none. Verdicts lists them.
func VerdictOf(s string) (drill.Verdict, bool) {
	i, ok := codeOf(verdictCodes[:], s)
	return drill.Verdict(i), ok
}

func WhyOf(s string) (drill.Why, bool) {
	i, ok := codeOf(whyCodes[:], s)
	return drill.Why(i), ok
}

func Verdicts() []string { return append([]string(nil), verdictCodes[1:]...) }

func codeOf(words []string, s string) (int, bool) {
	for i, w := range words {
		if w == s && w != "" {
			return i, true
		}
	}
	return 0, false
}
