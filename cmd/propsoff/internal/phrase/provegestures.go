package phrase

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// theGesture names the gesture of a result.
func theGesture(l *prove.Layout, r *prove.Result) string {
	return "\"" + gestureName(int32(r.Gesture), &l.Config) + "\""
}

// gestureCause says what gestures and menus have to do with a broken rule; empty for any other.
func gestureCause(l *prove.Layout, r *prove.Result) string {
	name := theGesture(l, r)
	switch r.Cause {
	case prove.GestureInArmCorner:
		return theSticks(l, r) + " stand in the arm corner (throttle low, yaw fully right): held long enough they arm the craft. Take another gesture, or arm by switch."
	case prove.MenuUnknown:
		return "The craft does not know that the menu opened by " + name + " is open: on the way through it the sticks can stand in the arm corner (throttle low, yaw fully right) long enough, and arm. " +
			"Arm by switch, or keep the throttle above the corner while you are in that menu."
	case prove.GestureInDisarmCorner:
		return gestureDisarms(l, r)
	case prove.GestureTravel:
		control, _ := controlOf(l, r)
		return "With this radio the gesture " + name + " cannot be made: " + control + " goes no further than " + Exact(pulse.Width(r.Value)) + " µs. Set its travel in the radio."
	case prove.NeverMade:
		return "With this radio the gesture " + name + " is never made, though every stick goes far enough. Look at its dwell and its time limits in the gesture file."
	}
	return ""
}

// theSticks names the sticks of a gesture where they stand as a result tells: in the step of a chain that breaks the rule.
func theSticks(l *prove.Layout, r *prove.Result) string {
	if g := l.Config.Gestures; g != nil && r.Gesture < len(g.Patterns) && g.Patterns[r.Gesture].Count > 1 {
		return "In step " + strconv.Itoa(r.Part+1) + " of the gesture " + theGesture(l, r) + " the sticks"
	}
	return "The sticks of the gesture " + theGesture(l, r)
}

// gestureDisarms says what comes with a gesture that stands in the disarm corner.
func gestureDisarms(l *prove.Layout, r *prove.Result) string {
	return theSticks(l, r) + " stand where sticks disarm (throttle low, yaw fully left): staying there disarms too, and opens no menu until the sticks have left it. Make it on the ground only."
}

// whyNoGestures says in half a sentence why a rule about gestures is not for this craft.
func whyNoGestures(l *prove.Layout, r prove.Rule) string {
	switch g := l.Config.Gestures; {
	case g == nil || len(g.Patterns) == 0:
		return "no gesture file was given"
	case r == prove.GestureAlsoDisarms && !facts.BySticks(&l.Config):
		return "this craft disarms by switch"
	case r == prove.MenuSticksNeverArm:
		return "no gesture opens a menu"
	}
	return "nothing of this craft bears on it"
}
