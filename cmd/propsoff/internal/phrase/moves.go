package phrase

import (
	"strconv"

	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// moveSentence tells what the sticks did besides flying, and what the instructor did; empty for any other happening.
func moveSentence(h happening.Happening, cfg *sim.Config) string {
	switch h.Code {
	case happening.StickMode:
		return "Stick mode " + strconv.Itoa(int(h.A)) + "."
	case happening.Gesture:
		return "Gesture made: " + gestureName(h.A, cfg) + ", held for " + Seconds(int64(h.B)) + "."
	case happening.GestureNear:
		return "Nearly a gesture, " + gestureName(h.A, cfg) + ": " + nearSentence(h.A, h.B, cfg) + "."
	case happening.MenuMark, happening.MenuValue, happening.MenuLeft:
		return menuLine(h, cfg)
	case happening.Instructed:
		if s, ok := FaultSentence(pulse.Deed(h.A), h.B, &cfg.Layout); ok {
			return s
		}
		return instructedSentence(pulse.Deed(h.A), h.B)
	}
	return ""
}

// GestureCode is the code word of a craft's gesture, counted from 0; its number where the craft does not have it.
func GestureCode(n int32, cfg *sim.Config) string {
	if cfg.Gestures == nil || n < 0 || int(n) >= len(cfg.Gestures.Patterns) {
		return strconv.Itoa(int(n) + 1)
	}
	return cfg.Gestures.Patterns[n].Code
}

func gestureName(n int32, cfg *sim.Config) string {
	if cfg == nil || cfg.Gestures == nil || n < 0 || int(n) >= len(cfg.Gestures.Patterns) {
		return "number " + strconv.Itoa(int(n)+1)
	}
	return cfg.Gestures.Patterns[n].Name
}

// instructedSentence tells what the instructor did. A pupil's record leaves these lines out, all but what his radio does to the sticks and
// to the arm switch.
func instructedSentence(d pulse.Deed, number int32) string {
	switch d {
	case pulse.DeedHands:
		return pick(number, "The instructor's radio has the sticks.", "The pupil's radio has the sticks again.")
	case pulse.DeedArmOff:
		return pick(number, "The instructor's radio goes against the pupil's arm switch: that counts as off until it was seen off.",
			"The instructor's radio no longer goes against the pupil's arm switch.")
	case pulse.DeedMark:
		return "Instructor's mark " + strconv.Itoa(int(number)) + "."
	}
	return "Instructor: " + strconv.Itoa(int(d)) + " " + strconv.Itoa(int(number)) + "."
}

var nearWords = [happening.NearCount]string{
	happening.NearEarly:    "early",
	happening.NearCorner:   "corner",
	happening.NearOvershot: "overshot",
	happening.NearLate:     "late",
}

// Directions of a gesture by job, and by physical stick.
var (
	jobDirections   = [...]string{"throttle", "roll", "pitch", "yaw"}
	stickDirections = [...]string{"left stick across", "left stick up and down", "right stick across", "right stick up and down"}
)

// NearOf takes apart how a gesture was nearly made: the code word of the way, and the control that it is about, empty where it is
// about none.
func NearOf(gesture, near int32, cfg *sim.Config) (way, control string) {
	n := happening.Near(near)
	way = word(nearWords[:], int(n), "near")
	if n != happening.NearCorner && n != happening.NearOvershot {
		return way, ""
	}
	words := jobDirections
	if g := cfg.Gestures; g != nil && gesture >= 0 && int(gesture) < len(g.Patterns) && g.Patterns[gesture].Physical {
		words = stickDirections
	}
	return way, words[near>>8&3]
}

// nearSentence says what was wrong.
func nearSentence(gesture, near int32, cfg *sim.Config) string {
	way, control := NearOf(gesture, near, cfg)
	switch happening.Near(near) {
	case happening.NearEarly:
		return "let go too early"
	case happening.NearCorner:
		return control + " did not get where it should be"
	case happening.NearOvershot:
		return control + " went too far"
	case happening.NearLate:
		return "the next part came too late"
	}
	return way
}

// Deed is the code word of what an instructor did.
func Deed(d pulse.Deed) string {
	switch d {
	case pulse.DeedHands:
		return "hands"
	case pulse.DeedArmOff:
		return "arm-off"
	case pulse.DeedMark:
		return "mark"
	case pulse.DeedLiftAll:
		return "lift-all"
	}
	if s := FaultDeed(d); s != "" {
		return s
	}
	return strconv.Itoa(int(d))
}
