package drillrun

import (
	"slices"

	"propsoff.example/input"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// hands follows whose doing it is what the bench sees, run or not: what was planted or taken before a run counts in it.
type hands struct {
	by input.By
	// tutor: the instructor's radio has the sticks, or goes against the pupil's arm switch.
	tutor [2]bool
	// own are the faults that the drill has put and that were not seen yet, back those of the instructor that were put back after one; planted
	// those of the instructor that stand, planting that one was planted or lifted in this tick.
	own      []int32
	back     []int32
	planted  fault.Set
	planting bool
	// refused are refusals that the pupil's hand met.
	refused []int32
}

// mostRefused bounds what is kept for a window that does not ask (ours).
const mostRefused = 4096

// follow takes what happened in a tick.
func (h *hands) follow(by input.By, happened []happening.Happening) {
	h.by, h.planting = by, false
	for i := range happened {
		switch e := &happened[i]; e.Code {
		case happening.Instructed:
			h.instructed(pulse.Deed(e.A), e.B)
		case happening.Refused:
			if h.other(false) == NoOther && h.by.Pupil() && len(h.refused) < mostRefused {
				h.refused = append(h.refused, e.A)
			}
		}
	}
}

func (h *hands) instructed(d pulse.Deed, number int32) {
	value := pulse.InstructorValue(d, number)
	switch i, j := slices.Index(h.own, value), slices.Index(h.back, value); {
	case j >= 0:
		h.back = slices.Delete(h.back, j, j+1)
		h.planted |= 1 << d
	case d == pulse.DeedHands:
		h.tutor[0] = number != 0
	case d == pulse.DeedArmOff:
		h.tutor[1] = number != 0
	case d == pulse.DeedLiftAll:
		if h.planted = 0; i >= 0 {
			h.own = slices.Delete(h.own, i, i+1)
		} else {
			h.planting = true
		}
	case i >= 0:
		h.own = slices.Delete(h.own, i, i+1)
		h.planted &^= 1 << (d % pulse.DeedLift) // it is the drill's from here on
	case d > pulse.DeedLift && d-pulse.DeedLift < fault.Count:
		h.planting, h.planted = true, h.planted&^(1<<(d-pulse.DeedLift))
	case d < fault.Count && fault.Right(d, number):
		h.planting, h.planted = true, h.planted|1<<d
	}
}

// other is what is not the pupil's own hand now. A drill that begins lifts what was planted before.
func (h *hands) other(begins bool) Other {
	switch {
	case h.by == input.ByDemo:
		return Demo
	case h.by == input.ByScript:
		return Script
	case h.tutor[0] || h.tutor[1]:
		return Instructor
	case h.planting, h.planted != 0 && !begins && !slices.Contains(h.own, fault.LiftAll()):
		return Planted
	}
	return NoOther
}
