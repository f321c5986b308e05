package phrase

import (
	"cmp"
	"slices"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/prove"
)

// breakWords name the breaking of each rule in a few words.
var breakWords = [prove.RuleCount]string{
	prove.PowerUpNeverArms:      "power-up arms the craft",
	prove.OnlyArmControlArms:    "not only the arm control arms",
	prove.ArmControlDisarms:     "the arm control does not disarm",
	prove.NothingElseDisarms:    "something else disarms",
	prove.ThrottleUpNeverArms:   "it arms with the throttle up",
	prove.RefusalNeverArms:      "it arms against a refusal",
	prove.ClearingNeverArms:     "clearing a reason arms",
	prove.TimesAreKept:          "a time is cut short",
	prove.LossStopsMotors:       "a silent radio does not disarm",
	prove.LinkBackNeverArms:     "a returning link arms",
	prove.StoredNeverArms:       "stored values arm",
	prove.HeldNeverArms:         "repeated values arm",
	prove.UnheardIsSilent:       "values are sent before the radio is heard",
	prove.EveryModeReached:      "a mode is not reached",
	prove.NoModeGap:             "a position without a mode",
	prove.PowerUpLevels:         "no self-levelling at power-up",
	prove.CanArm:                "it cannot be armed",
	prove.CanDisarm:             "it cannot be disarmed",
	prove.ArmControlStays:       "the arm switch does not stay put",
	prove.CornerDisarmsInFlight: "sticks disarm in flight",
	prove.GestureNeverArms:      "a gesture arms",
	prove.MenuSticksNeverArm:    "sticks in a menu arm",
	prove.ArmedOpensNoMenu:      "a menu opens while armed",
	prove.OneGestureAtATime:     "two gestures at once",
	prove.GestureCanBeMade:      "a gesture cannot be made",
	prove.GestureAlsoDisarms:    "a gesture disarms",
}

// breaking is how a rule is broken in a few words, with the mode where it is about one.
func breaking(r *prove.Result) string {
	switch {
	case r.Rule >= prove.RuleCount:
		return r.Rule.Code()
	case r.Rule == prove.EveryModeReached && r.Cause != prove.NoControl:
		return "mode " + Mode(r.Mode) + " is not reached"
	}
	return breakWords[r.Rule]
}

// RuleFor is a rule as a sentence with this craft's own time where it promises one.
func RuleFor(l *prove.Layout, r prove.Rule) string {
	s := Rule(r)
	if r != prove.LossStopsMotors {
		return s
	}
	c := &l.Config
	slot := int64(c.SlotTicks)
	promised := Seconds((int64(c.Link.SilenceSlots) + int64(c.Arming.SinkSlots)) * slot)
	made := "the silence limit"
	if c.Arming.SinkSlots > 0 {
		made += " and the sinking time"
	}
	return strings.Replace(s, "the promised time", "the promised "+promised+" ("+made+")", 1)
}

// RuleNote is what must be known of a rule of this craft however it comes out; empty for most.
func RuleNote(l *prove.Layout, r prove.Rule) string {
	why := neverSinks(&l.Config)
	if r != prove.LossStopsMotors || why == "" {
		return ""
	}
	return "It is set to sink, and never does with this receiver: " + why + "."
}

// WhyNotAsked says in half a sentence why a rule is not for this craft.
func WhyNotAsked(l *prove.Layout, r prove.Rule) string {
	falls := l.Config.Link.OnLoss == facts.FallsSilent
	switch r {
	case prove.StoredNeverArms:
		return "this receiver stores no values"
	case prove.HeldNeverArms:
		return "this receiver repeats no values"
	case prove.UnheardIsSilent:
		if falls {
			return "this receiver makes nothing up"
		}
	case prove.EveryModeReached, prove.NoModeGap:
		return "this craft has no mode control and always flies in " + Mode(l.Config.Layout.FixedMode)
	case prove.ArmControlStays:
		return "this craft arms by sticks"
	case prove.CornerDisarmsInFlight:
		return "this craft arms by switch"
	case prove.GestureNeverArms, prove.MenuSticksNeverArm, prove.ArmedOpensNoMenu, prove.OneGestureAtATime, prove.GestureCanBeMade, prove.GestureAlsoDisarms:
		return whyNoGestures(l, r)
	case prove.CanDisarm:
		return "this craft never arms with this radio, so there is nothing to disarm"
	}
	return "nothing of this craft bears on it"
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
