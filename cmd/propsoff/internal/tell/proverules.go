package tell

import (
	"cmp"
	"slices"

	"propsoff/assets/words"
	"propsoff/sim/prove"
)

// Rules are all rules in their order.
func Rules() []prove.Rule {
	out := make([]prove.Rule, prove.RuleCount)
	for i := range out {
		out[i] = prove.Rule(i)
	}
	return out
}

// Rule is a rule as a sentence, without the times of a craft.
func Rule(r prove.Rule) words.Text {
	return words.Of("rule", r.Code(), words.Args{"time": words.Text{}, "sinks": words.Flag(false)})
}

// RuleFor is a rule as a sentence with this craft's own time where it promises one.
func RuleFor(l *prove.Layout, r prove.Rule) words.Text {
	c := &l.Config
	promised := (int64(c.Link.SilenceSlots) + int64(c.Arming.SinkSlots)) * int64(c.SlotTicks)
	return words.Of("rule", r.Code(), words.Args{"time": Seconds(promised), "sinks": words.Flag(c.Arming.SinkSlots > 0)})
}

// RuleShort is a rule in a few words.
func RuleShort(r prove.Rule) words.Text { return words.Of("rule-short", r.Code()) }

// contraryFound reports whether the contrary of a rule is what comes with the arming method: then that is said in place of the rule.
func contraryFound(r *prove.Result) bool {
	return r.Rule == prove.MenuSticksNeverArm && r.Outcome == prove.WithIt
}

// FoundShort is a rule in a few words, by what was found.
func FoundShort(r *prove.Result) words.Text {
	if contraryFound(r) {
		return words.T("rule-short.menu-sticks-arm")
	}
	return RuleShort(r.Rule)
}

// FoundRule is a rule as a sentence, by what was found.
func FoundRule(l *prove.Layout, r *prove.Result) words.Text {
	if contraryFound(r) {
		return words.T("prove.menu-sticks-arm")
	}
	return RuleFor(l, r.Rule)
}

// RuleNote is what must be known of a rule of this craft however it comes out; it says nothing for most.
func RuleNote(l *prove.Layout, r prove.Rule) words.Text {
	why := neverSinks(&l.Config)
	if r != prove.LossStopsMotors || why.Empty() {
		return words.Text{}
	}
	return words.T("prove.never-sinks", words.Args{"why": why})
}

// Situations is a number of what a rule is held against: situations, or positions where it is about positions.
func Situations(r prove.Rule, n uint64) words.Text {
	many := words.Args{"n": words.Grouped(n), "one": words.Flag(n == 1)}
	switch r {
	case prove.GestureNeverArms, prove.MenuSticksNeverArm, prove.ArmedOpensNoMenu, prove.GestureCanBeMade, prove.GestureAlsoDisarms:
		return words.T("prove.gesture-situations", many) // of searches of their own
	case prove.EveryModeReached, prove.NoModeGap, prove.PowerUpLevels:
		return words.T("prove.positions", many)
	case prove.OneGestureAtATime:
		return words.T("prove.gesture-pairs", many)
	}
	return words.T("prove.situations", many)
}

// HeldAgainst says how many situations a rule was held against; a rule about positions against positions.
func HeldAgainst(r prove.Rule, n uint64) words.Text {
	return words.T("prove.held", words.Args{"what": Situations(r, n)})
}

// newsworth puts what a person must know first.
var newsworth = [prove.OutcomeCount]int{prove.Broken: 0, prove.WithIt: 1, prove.Undecided: 2, prove.Holds: 3, prove.NotAsked: 4}

// NewsFirst are the indices of results as they are shown: what is broken first, what is not asked last, else in order.
func NewsFirst(results []prove.Result) []int {
	order := make([]int, len(results))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(newsworth[results[a].Outcome], newsworth[results[b].Outcome])
	})
	return order
}
