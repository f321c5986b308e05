package codes

import (
	"cmp"
	"strconv"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Gesture is the code word of a craft's gesture, counted from 0; its number where the craft does not have it.
func Gesture(n int32, cfg *sim.Config) string {
	if cfg.Gestures == nil || n < 0 || int(n) >= len(cfg.Gestures.Patterns) {
		return strconv.Itoa(int(n) + 1)
	}
	return cfg.Gestures.Patterns[n].Code
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
	if Physical(gesture, cfg) {
		return way, stickDirections[near>>8&3]
	}
	return way, jobDirections[near>>8&3]
}

// Physical reports whether a craft's gesture, counted from 0, is one of sticks, whatever they carry.
func Physical(gesture int32, cfg *sim.Config) bool {
	g := cfg.Gestures
	return g != nil && gesture >= 0 && int(gesture) < len(g.Patterns) && g.Patterns[gesture].Physical
}

// deeds are the code words of what an instructor does besides planting faults and lifting them.
var deeds = map[pulse.Deed]string{pulse.DeedHands: "hands", pulse.DeedArmOff: "arm-off", pulse.DeedMark: "mark", pulse.DeedLiftAll: "lift-all"}

// Deed is the code word of what an instructor did, its number where that is unknown.
func Deed(d pulse.Deed) string { return cmp.Or(deeds[d], FaultDeed(d), strconv.Itoa(int(d))) }

// FaultDeed is the code word of planting or lifting a fault; empty for other deeds.
func FaultDeed(d pulse.Deed) string {
	if d > pulse.DeedLift {
		if c := fault.Code(d - pulse.DeedLift); c != "" {
			return "lift-" + c
		}
		return ""
	}
	return fault.Code(d)
}
