package phrase

import (
	"propsoff/sim/prove"
)

// ruleWords are the words of each rule: a few for a list, and the whole.
var ruleWords = [prove.RuleCount][2]string{
	prove.PowerUpNeverArms:      {"power-up arms nothing", "After the pack is connected, waiting alone never arms the craft."},
	prove.OnlyArmControlArms:    {"only the arm control arms", "Only the arm control arms the craft: no other movement does, nor does waiting."},
	prove.ArmControlDisarms:     {"the arm control disarms", "While the radio is heard, the arm control always disarms: the switch in one movement, sticks in one dwell."},
	prove.NothingElseDisarms:    {"nothing else disarms", "While the radio is on, no other movement and no refusal disarms a flying craft."},
	prove.ThrottleUpNeverArms:   {"no arming with throttle up", "The craft never becomes armed with the throttle at or above the low mark, or above 1000 µs."},
	prove.RefusalNeverArms:      {"no arming against a refusal", "The craft never becomes armed against any other refusal."},
	prove.ClearingNeverArms:     {"clearing a reason arms nothing", "One visit of the arm control gets one answer: taking the reason of a refusal away never arms."},
	prove.TimesAreKept:          {"no time is cut short", "Still time, clean time and dwell are waited out to the end."},
	prove.LossStopsMotors:       {"a silent radio disarms", "When the radio falls silent, the motors stand and the craft is disarmed within the promised time."},
	prove.LinkBackNeverArms:     {"a returning link arms nothing", "A radio that comes back never arms the craft."},
	prove.StoredNeverArms:       {"stored values arm nothing", "The values that the receiver has stored never arm the craft."},
	prove.HeldNeverArms:         {"repeated values arm nothing", "The last values, repeated by the receiver, never arm the craft."},
	prove.UnheardIsSilent:       {"nothing before the radio", "Before the radio was first heard, the receiver sends nothing."},
	prove.EveryModeReached:      {"every mode is reached", "Every mode that has a span is reached by some position."},
	prove.NoModeGap:             {"no position without a mode", "No position of the mode control lies outside every span."},
	prove.PowerUpLevels:         {"self-levelling at power-up", "Where the mode control stands at power-up, the craft levels itself."},
	prove.CanArm:                {"it can be armed", "This radio can arm this craft."},
	prove.CanDisarm:             {"it can be disarmed", "This radio can disarm this craft by its arm control."},
	prove.ArmControlStays:       {"the arm switch stays put", "The arm switch stays where it is put."},
	prove.CornerDisarmsInFlight: {"sticks disarm in flight too", "Low throttle and yaw fully left disarm, also in flight."},
	prove.GestureNeverArms:      {"no gesture arms", "Sticks that stand in a gesture never arm the craft, however long they stay."},
	prove.MenuSticksNeverArm:    {"sticks in a menu arm nothing", "While a menu that a gesture opened is open, no movement of the sticks arms the craft."},
	prove.ArmedOpensNoMenu:      {"armed, no menu opens", "A gesture made, or begun, while the craft is armed opens no menu."},
	prove.OneGestureAtATime:     {"one gesture at a time", "No two gestures are made in the same moment, unless the gesture file says that they go together."},
	prove.GestureCanBeMade:      {"every gesture can be made", "With this radio every gesture can be made."},
	prove.GestureAlsoDisarms:    {"a gesture disarms too", "A gesture that stands where the sticks disarm also disarms an armed craft."},
}

// Rules are all rules in their order.
func Rules() []prove.Rule {
	out := make([]prove.Rule, prove.RuleCount)
	for i := range out {
		out[i] = prove.Rule(i)
	}
	return out
}

// Rule is a rule as a sentence.
func Rule(r prove.Rule) string {
	if r < prove.RuleCount {
		return ruleWords[r][1]
	}
	return r.Code() + "."
}

// RuleShort is a rule in a few words.
func RuleShort(r prove.Rule) string {
	if r < prove.RuleCount {
		return ruleWords[r][0]
	}
	return r.Code()
}

// contrary reports whether the contrary of a rule is what comes with the arming method: then that is said in place of the rule.
func contrary(r *prove.Result) bool {
	return r.Rule == prove.MenuSticksNeverArm && r.Outcome == prove.WithIt
}

// FoundShort is a rule in a few words, by what was found.
func FoundShort(r *prove.Result) string {
	if contrary(r) {
		return "sticks in a menu arm too"
	}
	return RuleShort(r.Rule)
}

// FoundRule is a rule as a sentence, by what was found.
func FoundRule(l *prove.Layout, r *prove.Result) string {
	if contrary(r) {
		return "While a menu that a gesture opened is open, the sticks can arm the craft all the same."
	}
	return RuleFor(l, r.Rule)
}

// HeldAgainst says how many situations a rule was held against; a rule about positions against positions.
func HeldAgainst(r prove.Rule, n uint64) string {
	noun := "situation"
	switch r {
	case prove.GestureNeverArms, prove.MenuSticksNeverArm, prove.ArmedOpensNoMenu, prove.GestureCanBeMade, prove.GestureAlsoDisarms:
		noun = "gesture situation" // of searches of their own
	case prove.EveryModeReached, prove.NoModeGap, prove.PowerUpLevels:
		noun = "position"
	case prove.OneGestureAtATime:
		noun = "gesture pair"
	}
	if n != 1 {
		noun += "s"
	}
	return "held against " + Whole(n) + " " + noun
}

// Finding says what was found of a rule: why it is broken, what comes with the method, or what it was held against.
func Finding(l *prove.Layout, r *prove.Result) string {
	switch r.Outcome {
	case prove.Holds:
		return capital(HeldAgainst(r.Rule, r.Searched)) + "."
	case prove.NotAsked:
		return capital(WhyNotAsked(l, r.Rule)) + "."
	case prove.Undecided:
		return "The search was stopped before this was decided; nothing against it was found so far."
	case prove.WithIt:
		if r.Rule == prove.GestureAlsoDisarms {
			return gestureDisarms(l, r)
		}
		if r.Cause == prove.MenuUnknown {
			return gestureCause(l, r)
		}
		return "It comes with arming by sticks and cannot be set otherwise: in flight, keep clear of that corner."
	}
	return causeSentenceOf(l, r)
}

// NoCraftToProve is said where there is no craft file to search.
func NoCraftToProve() string { return "There is no craft file to search." }

// StaleProof is said where craft or radio have changed since the search.
func StaleProof() string {
	return "Craft or radio have changed since this search: press B to search again."
}

// NotSearched says why there was no search.
func NotSearched(why string) string { return "This layout cannot be searched: " + why + "." }

// WayMark begins every script that is written.
func WayMark() string { return "Written by propsoff prove: " }

// WayKind says in a few words what a way is: to a broken rule, a try at what cannot be reached, or how something comes about.
func WayKind(r *prove.Result) string {
	switch {
	case r.Outcome == prove.WithIt:
		return "how it comes about"
	case isTry(r.Rule):
		return "a try that does not get there"
	}
	return "the way to a broken rule"
}

// isTry reports whether the way of a broken rule shows that something is not reached.
func isTry(r prove.Rule) bool {
	return r == prove.CanArm || r == prove.CanDisarm || r == prove.EveryModeReached || r == prove.GestureCanBeMade
}

// WayName is what the script of a way is called: of a broken rule it names the breaking.
func WayName(r *prove.Result) string {
	what := FoundShort(r)
	if r.Outcome == prove.Broken {
		what = breaking(r)
	}
	return WayKind(r) + ": " + what
}

// WayRule says under the head of a script which rule its way is about, and what was found of it.
func WayRule(l *prove.Layout, r *prove.Result) string {
	return "Rule: " + FoundRule(l, r) + "\nFound: " + Outcome(r.Outcome, true) + ". " + Finding(l, r)
}

// WrittenTo says where the script of a way is, and what replays it.
func WrittenTo(path string) string { return "Written to " + path + "; \"propsoff run\" replays it." }
