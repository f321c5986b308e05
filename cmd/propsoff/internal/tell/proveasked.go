package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/prove"
)

// WhyNotAsked says in half a sentence why a rule is not for this craft.
func WhyNotAsked(l *prove.Layout, r prove.Rule) words.Text {
	switch r {
	case prove.StoredNeverArms:
		return words.T("prove.no-stored")
	case prove.HeldNeverArms:
		return words.T("prove.no-repeated")
	case prove.UnheardIsSilent:
		if l.Config.Link.OnLoss == facts.FallsSilent {
			return words.T("prove.no-made-up")
		}
	case prove.EveryModeReached, prove.NoModeGap:
		return words.T("prove.no-mode-control", words.Args{"mode": Mode(l.Config.Layout.FixedMode)})
	case prove.ArmControlStays:
		return words.T("prove.arms-by-sticks")
	case prove.CornerDisarmsInFlight:
		return words.T("prove.arms-by-switch")
	case prove.GestureNeverArms, prove.MenuSticksNeverArm, prove.ArmedOpensNoMenu, prove.OneGestureAtATime, prove.GestureCanBeMade, prove.GestureAlsoDisarms:
		return whyNoGestures(l, r)
	case prove.CanDisarm:
		return words.T("prove.never-arms")
	}
	return words.T("prove.nothing-bears")
}

// whyNoGestures is WhyNotAsked of a rule about gestures.
func whyNoGestures(l *prove.Layout, r prove.Rule) words.Text {
	switch g := l.Config.Gestures; {
	case g == nil || len(g.Patterns) == 0:
		return words.T("prove.no-gestures")
	case r == prove.GestureAlsoDisarms && !facts.BySticks(&l.Config):
		return words.T("prove.disarms-by-switch")
	case r == prove.MenuSticksNeverArm:
		return words.T("prove.no-gesture-menu")
	}
	return words.T("prove.nothing-bears")
}
