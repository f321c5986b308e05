// Package arming decides armed or not, and every reason why not.
//
// Step is called once a slot, after link and layout. All state is integers, and two equal States are the same
// situation, so that a search can walk the very function that the bench runs.
package arming

import (
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

const (
	menuCraft  = pulse.MenuCraft
	menuCamera = pulse.MenuCamera
)

// By is the arming method.
type By uint8

const (
	BySwitch By = iota // the arm channel enters its span
	BySticks           // throttle low and yaw fully right, held; disarm with yaw fully left
)

// Config is how this craft arms. Times are in slots.
type Config struct {
	By By
	// LowThrottle: throttle is low below this width (1000 µs).
	LowThrottle pulse.Width
	// ArmDwell and DisarmDwell are how long the corner must be held (by sticks).
	ArmDwell, DisarmDwell uint16
	// YawRight and YawLeft are where yaw counts as fully to that side; a corner is left when yaw comes inside
	// LeaveRight or LeaveLeft, or throttle reaches LeaveThrottle.
	YawRight, YawLeft     pulse.Width
	LeaveRight, LeaveLeft pulse.Width
	LeaveThrottle         pulse.Width
	// SinkSlots is how long the craft sinks on a lost link while armed; 0 cuts at once. It cuts at once too where the throttle was
	// low in the last valid frame: a craft that stands must not start.
	SinkSlots uint16
	// StillSlots is how long the craft must have stood still since power-up.
	StillSlots uint16
	// TiltLimitTenths: a craft tilted by more than this many tenths of a degree refuses.
	TiltLimitTenths int16
	// PackLimitMilliVolts: a pack below this refuses; with 0 none does.
	PackLimitMilliVolts uint16
	// OnlySelfLevelling: the craft arms only in angle or horizon.
	OnlySelfLevelling bool
	// CameraMenuCounts: a camera's open menu refuses too.
	CameraMenuCounts bool
}

// State is everything arming remembers from slot to slot.
type State struct {
	Armed bool
	// Inside: by switch, the arm channel stood inside its span in the last valid frame.
	Inside bool
	// OffFirst: the arm control must first be seen off (by sticks: the arm corner must first be left).
	OffFirst bool
	// ArmDwell and DisarmDwell are one more than the slots since the first frame in the corner, 0 outside it. ArmDwell
	// stands at two more than its limit once the visit is spent.
	ArmDwell, DisarmDwell uint16
	// Low: the throttle was low in the last valid frame. It is kept only while it can matter: armed, not sinking, and a craft that
	// would sink.
	Low bool
	// Sink is one more than the slots since sinking began, 0 when not sinking.
	Sink uint16
	// Still is how many slots the craft has stood still since power-up, at most StillSlots.
	Still uint16
}

var _ = map[State]struct{}{}

// PowerUp is the state of a craft that has just got power: disarmed, its latches set.
func PowerUp() State { return State{OffFirst: true} }

// Input is what link, layout and craft say in this slot.
type Input struct {
	Phase           link.Phase
	Received, Valid bool
	// Origin is where the frame comes from.
	Origin        link.Origin
	Throttle, Yaw pulse.Width
	Arm, Second   layout.Place
	Mode          layout.Mode
	// Missing has the bit of every channel set that has a job and carries no valid pulse.
	Missing uint16
	Craft   Conditions
	// First is true in the very slot of power-up.
	First bool
}

// Step advances arming by one slot. The log may be nil.
func Step(cfg *Config, s State, in *Input, tick int64, log *happening.Log) State {
	s.standStill(cfg, in, tick, log)
	if s.Sink > 0 {
		s.sink(cfg, in, tick, log)
	}
	if !in.Phase.Up() {
		s.loss(cfg, tick, log)
	}
	if cfg.By == BySwitch {
		s.bySwitch(cfg, in, tick, log)
	} else {
		s.bySticks(cfg, in, tick, log)
	}
	if in.Valid {
		s.Low = cfg.SinkSlots > 0 && s.Armed && s.Sink == 0 && in.Throttle < cfg.LowThrottle
	}
	return s
}

// standStill counts the time since power-up or the last movement; once complete it stays so until power goes.
func (s *State) standStill(cfg *Config, in *Input, tick int64, log *happening.Log) {
	if s.Still >= cfg.StillSlots {
		return
	}
	if in.Craft.Moved {
		s.Still = 0
		return
	}
	if in.First {
		return
	}
	s.Still++
	if s.Still == cfg.StillSlots {
		log.Add(tick, happening.Settled, 0, 0)
	}
}

// loss is what a lost link does: it sets the latches, and while armed the craft cuts or begins to sink.
func (s *State) loss(cfg *Config, tick int64, log *happening.Log) {
	s.OffFirst = true
	s.ArmDwell, s.DisarmDwell = 0, 0
	if !s.Armed || s.Sink > 0 {
		return
	}
	if cfg.SinkSlots == 0 || s.Low {
		s.disarm(happening.ByLinkLoss, tick, log)
		return
	}
	s.Sink, s.Low = 1, false
	log.Add(tick, happening.Sinking, 0, 0)
}

// sink goes on sinking until the link is good again or the time is up.
func (s *State) sink(cfg *Config, in *Input, tick int64, log *happening.Log) {
	if in.Phase == link.Good {
		log.Add(tick, happening.SinkEnded, int32(s.Sink), 0)
		s.Sink = 0
		return
	}
	s.Sink++
	if s.Sink > cfg.SinkSlots {
		s.disarm(happening.BySinkEnd, tick, log)
	}
}

func (s *State) bySwitch(cfg *Config, in *Input, tick int64, log *happening.Log) {
	if in.Received && in.Arm == layout.Outside {
		// Leaving disarms even in a frame that is not valid, but only a valid one counts as "seen off": otherwise one
		// damaged frame would disarm and arm again by itself.
		if s.Armed {
			s.disarm(cause(happening.BySwitch, in.Origin), tick, log)
		}
		if in.Valid {
			s.Inside = false
			if in.Phase == link.Good {
				s.OffFirst = false
			}
		}
		return
	}
	if !in.Valid || s.Inside {
		return
	}
	if !s.Armed {
		if r := Refusals(cfg, s, in); r != 0 {
			log.Add(tick, happening.Refused, int32(r), int32(cfg.SetUpBy(&in.Craft)))
			s.OffFirst = true
		} else {
			s.arm(in.Origin, tick, log)
		}
	}
	s.Inside = true
}

func (s *State) bySticks(cfg *Config, in *Input, tick int64, log *happening.Log) {
	if s.Armed {
		s.disarmCorner(cfg, in, tick, log)
	} else {
		s.armCorner(cfg, in, tick, log)
	}
}

func (s *State) armCorner(cfg *Config, in *Input, tick int64, log *happening.Log) {
	// Time in the corner goes on through slots without a valid frame, but only a valid frame starts, ends or completes it.
	if s.ArmDwell > 0 && s.ArmDwell <= cfg.ArmDwell {
		s.ArmDwell++
	}
	if !in.Valid {
		return
	}
	if in.Throttle >= cfg.LeaveThrottle || in.Yaw < cfg.LeaveRight {
		s.ArmDwell, s.OffFirst = 0, false
		return
	}
	if s.ArmDwell == 0 {
		if in.Throttle >= cfg.LowThrottle || in.Yaw < cfg.YawRight {
			return // near the corner, neither in nor out
		}
		s.ArmDwell = 1
	}
	if s.ArmDwell == cfg.ArmDwell+2 {
		return // this visit has had its one change or refusal
	}
	r := Refusals(cfg, s, in)
	if s.ArmDwell == cfg.ArmDwell+1 {
		if r == 0 {
			s.arm(in.Origin, tick, log)
			return
		}
		if others := r &^ (1 << OffFirst); others != 0 {
			r = others // say what spent the visit, not that it is spent
		}
		log.Add(tick, happening.Refused, int32(r), int32(cfg.SetUpBy(&in.Craft)))
		s.ArmDwell = cfg.ArmDwell + 2
	}
	s.OffFirst = s.OffFirst || r != 0 // a refusal during the dwell spends it
}

func (s *State) disarmCorner(cfg *Config, in *Input, tick int64, log *happening.Log) {
	if s.DisarmDwell > 0 && s.DisarmDwell <= cfg.DisarmDwell {
		s.DisarmDwell++
	}
	if !in.Valid {
		return
	}
	if in.Throttle >= cfg.LeaveThrottle || in.Yaw > cfg.LeaveLeft {
		s.DisarmDwell = 0
		return
	}
	if s.DisarmDwell == 0 {
		if in.Throttle >= cfg.LowThrottle || in.Yaw > cfg.YawLeft {
			return
		}
		s.DisarmDwell = 1
	}
	if s.DisarmDwell == cfg.DisarmDwell+1 {
		s.disarm(cause(happening.BySticks, in.Origin), tick, log)
	}
}

// cause is the hand's, unless the receiver made the frame up while the radio was silent.
func cause(hand happening.Cause, from link.Origin) happening.Cause {
	switch from {
	case link.FromStore:
		return happening.ByStored
	case link.FromRepeat:
		return happening.ByRepeated
	}
	return hand
}

// arm and disarm are the only two places where Armed changes. Both leave OffFirst set: once armed, the arm control must
// be seen off before it can arm again, however the craft came to be disarmed.
func (s *State) arm(from link.Origin, tick int64, log *happening.Log) {
	s.Armed, s.OffFirst, s.ArmDwell = true, true, 0
	log.Add(tick, happening.Armed, int32(from), 0)
}

func (s *State) disarm(c happening.Cause, tick int64, log *happening.Log) {
	s.Armed, s.DisarmDwell, s.Low, s.Sink = false, 0, false, 0
	log.Add(tick, happening.Disarmed, int32(c), 0)
}
