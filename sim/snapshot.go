package sim

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Snapshot is everything that a screen or report may know about one step. It is a plain value: read only, no pointers.
type Snapshot struct {
	// Tick is the tick that was stepped last, in ms.
	Tick int64
	In   Inputs
	// Received is the frame the craft got in the last slot that brought one; Receiving is true when the last slot did. Then Origin
	// says where it came from, and Valid that every channel needed carried a pulse.
	Received  pulse.Frame
	Receiving bool
	Origin    link.Origin
	Valid     bool
	// Link is the craft's judgement; SilentMillis the time in ms since the last valid frame, while slots bring none;
	// CleanLeftMillis what is left of the clean time, in ms.
	Link            link.Phase
	SilentMillis    int64
	CleanLeftMillis int
	Armed           bool
	Refusals        arming.Set
	// Senses is what the craft knows about itself: as told, and on the air bench by its own senses too.
	Senses arming.Conditions
	// Jobs is the meaning of Received.
	Jobs layout.Output
	Mode layout.Mode
	// Dwell is how far the arm or disarm corner has been held, in thousandths (0..1000); by sticks only.
	Dwell           int
	DwellIs         Dwelling
	StillLeftMillis int
	// Sinking: the craft sinks on a lost link; SinkLeftMillis is what is left of that.
	Sinking        bool
	SinkLeftMillis int
	AirAwake       bool
	// Motor is the speed asked of each motor, in 1/10000 of full speed.
	Motor [flight.Motors]uint16
	Seen  [pulse.Channels]Seen
	// ThrottleStillMillis is how long the throttle has stood still, 2 µs of noise allowed.
	ThrottleStillMillis int64
	// Air is the flying craft (In.Air), with Volts, its pack's voltage under load.
	Air   AirState
	Volts float64
}

// Dwelling says which corner the sticks are in.
type Dwelling uint8

const (
	NotDwelling      Dwelling = iota // in neither
	DwellingToArm                    // in the arm corner, and its time counts
	DwellingToDisarm                 // in the disarm corner
	DwellingSpent                    // in the arm corner, but it must be left first
)

// Snapshot fills dst in from the step that ran last.
func (b *Bench) Snapshot(dst *Snapshot) {
	s, cfg := &b.s, &b.cfg
	a := &s.Slot.Arming
	slot := int(cfg.SlotTicks)
	*dst = Snapshot{
		Tick: s.Tick - 1, In: s.In,
		Received: s.Facts.Link.Frame, Receiving: s.Facts.Link.Received, Origin: s.Facts.Link.Origin, Valid: s.Facts.Link.Valid,
		Link: b.linkPhase(), Armed: a.Armed, Refusals: b.Refusals(), Senses: b.conditions(),
		Jobs: s.Facts.Layout, Mode: b.mode(),
		AirAwake: s.Flight.AirAwake, Motor: s.Motor, Seen: s.Seen,
	}
	if s.In.Air {
		dst.Air, dst.Volts = s.Air, b.cfg.Body.Volts(&s.Air.Body, s.In.Powered)
	}
	if !s.In.Powered {
		return
	}
	dst.ThrottleStillMillis = s.Tick - 1 - s.RestSince
	if !s.Facts.Link.Valid && s.Slot.Link.Phase != link.Never {
		dst.SilentMillis = s.Tick - 1 - s.LastValidTick
	}
	if s.Slot.Link.Phase == link.Fresh {
		left := int(cfg.Link.CleanSlots) + 1 - int(s.Slot.Link.Clean)
		dst.CleanLeftMillis = left * slot
	}
	if a.Still < cfg.Arming.StillSlots {
		dst.StillLeftMillis = int(cfg.Arming.StillSlots-a.Still) * slot
	}
	if a.Sink > 0 {
		dst.Sinking = true
		dst.SinkLeftMillis = (int(cfg.Arming.SinkSlots) + 1 - int(a.Sink)) * slot
	}
	switch {
	case a.DisarmDwell > 0:
		dst.DwellIs, dst.Dwell = DwellingToDisarm, share(a.DisarmDwell, cfg.Arming.DisarmDwell)
	case a.ArmDwell > 0 && a.OffFirst:
		dst.DwellIs, dst.Dwell = DwellingSpent, share(a.ArmDwell, cfg.Arming.ArmDwell)
	case a.ArmDwell > 0:
		dst.DwellIs, dst.Dwell = DwellingToArm, share(a.ArmDwell, cfg.Arming.ArmDwell)
	}
}

// share is how much of a dwell has passed, in thousandths.
func share(count, of uint16) int {
	if of == 0 {
		return 1000
	}
	return min(int(count-1)*1000/int(of), 1000)
}
