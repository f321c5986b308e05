package prove

import (
	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/flight"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/link"
	"propsoff/sim/pulse"
)

// watch is a rule about what went before: it counts slots since something, and is broken by what must not happen at that
// count. The count is told by what happens alone, never by the counters of link and arming.
//
// Counting every situation apart by its age would cost time and memory, and on a bench without fault it is not needed: each
// watch has a guess at its count from the counters that the bench has anyway. Where no step of any situation contradicts the
// guess (contradicts, below), the guess bounds the true count in every situation by induction over the steps, and where the
// guess cannot break the rule, neither can the count. Only when some step contradicts it are the situations told apart by
// age, in a search of its own that finds the shortest way or that there is none.
type watch uint8

const (
	watchStill   watch = iota // slots since power-up or the last movement before the still time was complete
	watchClean                // valid slots since the link was last lost or ailing before it was good
	watchArm                  // by sticks: slots in the arm corner with nothing that refuses
	watchDisarm               // by sticks: slots in the disarm corner, for "not before its dwell"
	watchCorner               // by sticks: slots in the disarm corner, every one valid, for "after one dwell at the latest"
	watchRefusal              // 1: the arm control was refused on this visit
	watchLoss                 // armed slots without a valid frame from the radio
	watchPower                // 1: since power-up nothing moved
	watchBack                 // 1: since the radio came back after a loss nothing moved
	watchFlight               // 1: armed, and the throttle was up since
	watchTurned               // twice watchLoss, and 1 more: the motors turned when the radio fell silent, or since
	watchCount
	noWatch
)

// rule that a watch is for.
func (w watch) rule() Rule {
	switch w {
	case watchCorner:
		return ArmControlDisarms
	case watchRefusal:
		return ClearingNeverArms
	case watchLoss, watchTurned:
		return LossStopsMotors
	case watchPower:
		return PowerUpNeverArms
	case watchBack:
		return LinkBackNeverArms
	case watchFlight:
		return CornerDisarmsInFlight
	}
	return TimesAreKept
}

// askedOf reports whether a watch is for this craft. watchFlight and watchTurned are never guessed: they have a search of their own.
func (w watch) askedOf(cfg *sim.Config) bool {
	switch w {
	case watchArm, watchDisarm, watchCorner:
		return cfg.Arming.By == arming.BySticks
	}
	return w < watchFlight
}

// most is how far a watch counts.
func (w watch) most(cfg *sim.Config) uint32 {
	a := &cfg.Arming
	switch w {
	case watchStill:
		return uint32(a.StillSlots)
	case watchClean:
		return uint32(cfg.Link.CleanSlots) + 1
	case watchArm:
		return uint32(a.ArmDwell) + 1
	case watchDisarm, watchCorner:
		return uint32(a.DisarmDwell) + 1
	case watchLoss:
		return uint32(cfg.Link.SilenceSlots) + uint32(a.SinkSlots)
	case watchTurned:
		return 2*watchLoss.most(cfg) + 1
	}
	return 1
}

// step is one step from situation to situation, with what the bench told of it.
type step struct {
	cfg      *sim.Config
	from, to *situation
	facts    *sim.SlotFacts
	log      *happening.Log
	// kind and digit say what moved; digit is −1 where no control did.
	kind  Kind
	digit int
	// on: the radio transmits. craft: something about the craft refuses.
	on, craft bool
}

func (e *step) becameArmed() bool { return !e.from.slot.Arming.Armed && e.to.slot.Arming.Armed }
func (e *step) ended() bool       { return e.from.slot.Arming.Armed && !e.to.slot.Arming.Armed }

// frame that the receiver handed on.
func (e *step) width(channel int8) pulse.Width { return e.facts.Link.Frame[channel] }

// refused reports whether anything but the latch of the arm control itself refuses in this slot, which has a valid frame.
func (e *step) refused() bool {
	s, cfg := &e.to.slot, e.cfg
	l := &cfg.Layout
	return e.width(l.Throttle) >= cfg.Arming.LowThrottle || s.Link.Phase != link.Good || s.Arming.Still < cfg.Arming.StillSlots ||
		e.craft || e.secondOff() || e.missing() || cfg.Arming.OnlySelfLevelling && !s.Layout.Mode.SelfLevelling()
}

// turning reports whether the motors plainly turn in this slot by what is asked of them: they idle, or the throttle asks for power.
// With sticks it must have left the corners too: short of that it asks for next to nothing.
func (e *step) turning() bool {
	w, a := e.width(e.cfg.Layout.Throttle), &e.cfg.Arming
	return e.cfg.Flight.AtLowThrottle == flight.Idle || asksPower(w) && (a.By == arming.BySwitch || w >= a.LeaveThrottle)
}

func (e *step) secondOff() bool {
	l := &e.cfg.Layout
	return l.Second != layout.NoChannel && !l.SecondSpan.Contains(e.width(l.Second))
}

func (e *step) missing() bool {
	l := &e.cfg.Layout
	for _, c := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode} {
		if c != layout.NoChannel && !e.width(c).Valid() {
			return true
		}
	}
	return false
}

// next is the count after a step, and the cause where the step breaks the rule.
func (w watch) next(age uint32, e *step, most uint32) (uint32, Cause) {
	if !e.to.powered {
		return 0, NoCause
	}
	a := &e.cfg.Arming
	s := &e.to.slot
	grow := min(age+1, most)
	switch w {
	case watchStill:
		if e.kind == PowerOn || e.kind == Nudge && age < most {
			grow = 0
		}
		if e.becameArmed() && grow < most {
			return grow, StillTimeShort
		}
		return grow, NoCause

	case watchClean:
		switch {
		case !s.Link.Phase.Up(), !e.facts.Link.Valid && age < most:
			grow = 0
		}
		// The arm control must be seen off once the clean time is over: so it is over in the slot before.
		if e.becameArmed() && age < most || e.log.N > 0 && happened(e.log, happening.SinkEnded) && grow < most {
			return grow, CleanTimeShort
		}
		return grow, NoCause

	case watchArm:
		thr, yaw := e.width(e.cfg.Layout.Throttle), e.width(e.cfg.Layout.Yaw)
		switch {
		case !s.Link.Phase.Up() || e.from.slot.Arming.Armed || e.kind == PowerOn && !e.facts.Link.Valid:
			grow = 0
		case !e.facts.Link.Valid:
			if age == 0 {
				grow = 0
			}
		case thr >= a.LeaveThrottle || yaw < a.LeaveRight || age == 0 && (thr >= a.LowThrottle || yaw < a.YawRight) || e.refused():
			grow = 0
		}
		if e.becameArmed() && grow < most {
			return grow, ArmDwellShort
		}
		return grow, NoCause

	case watchDisarm:
		thr, yaw := e.width(e.cfg.Layout.Throttle), e.width(e.cfg.Layout.Yaw)
		switch {
		case !e.from.slot.Arming.Armed || !s.Link.Phase.Up():
			return 0, NoCause
		case !e.facts.Link.Valid:
			if age == 0 {
				grow = 0
			}
		case thr >= a.LeaveThrottle || yaw > a.LeaveLeft || age == 0 && (thr >= a.LowThrottle || yaw > a.YawLeft):
			grow = 0
		}
		if grow < most && e.ended() && cornerHeld(disarmedBy(e.log), e.cfg) {
			return grow, DisarmDwellShort
		}
		return grow, NoCause

	case watchCorner:
		thr, yaw := e.width(e.cfg.Layout.Throttle), e.width(e.cfg.Layout.Yaw)
		if !e.from.slot.Arming.Armed || !s.Arming.Armed || !e.facts.Link.Valid || thr >= a.LowThrottle || yaw > a.YawLeft {
			return 0, NoCause
		}
		if grow >= most {
			return grow, StaysArmed
		}
		return grow, NoCause

	case watchRefusal:
		asked := happened(e.log, happening.Refused)
		switch {
		case age == 1 && e.becameArmed():
			return 1, ClearedArms
		case age == 1 && asked:
			return 1, RefusedTwice
		case asked:
			return 1, NoCause
		case a.By == arming.BySwitch && e.facts.Link.Valid && !e.cfg.Layout.ArmSpan.Contains(e.width(e.cfg.Layout.Arm)):
			return 0, NoCause
		case a.By == arming.BySticks && (!s.Link.Phase.Up() || e.facts.Link.Valid && (e.width(e.cfg.Layout.Throttle) >= a.LeaveThrottle || e.width(e.cfg.Layout.Yaw) < a.LeaveRight)):
			return 0, NoCause
		}
		return age, NoCause

	case watchLoss:
		if !e.from.slot.Arming.Armed || !s.Arming.Armed || e.on && e.facts.Link.Valid {
			return 0, NoCause
		}
		if grow >= most {
			return grow, StopsLate
		}
		return grow, NoCause

	case watchTurned:
		if !e.from.slot.Arming.Armed || !s.Arming.Armed {
			return 0, NoCause
		}
		turned := bit(e.turning())
		if e.on && e.facts.Link.Valid {
			return turned, NoCause
		}
		silent, turned := min(age>>1+1, most>>1), age&1|turned
		if silent == most>>1 && turned == 1 {
			return most, StopsLate
		}
		return silent<<1 | turned, NoCause

	case watchPower, watchBack:
		switch e.kind {
		case Wait:
			grow = age
		case PowerOn:
			grow = bit(w == watchPower)
		case RadioOn:
			grow = bit(w == watchBack && e.from.powered && e.from.slot.Link.Gap == 0)
		default:
			grow = 0
		}
		if grow == 1 && e.becameArmed() {
			if e.kind == Wait {
				return grow, ByTimeAlone
			}
			return grow, AtOnce
		}
		return grow, NoCause

	case watchFlight:
		switch {
		case e.ended() && age == 1 && cornerHeld(disarmedBy(e.log), e.cfg):
			return 0, CornerHeld
		case !s.Arming.Armed:
			return 0, NoCause
		case e.from.slot.Arming.Armed && e.facts.Link.Valid && e.width(e.cfg.Layout.Throttle) >= a.LeaveThrottle:
			return 1, NoCause
		}
		return age, NoCause
	}
	return 0, NoCause
}

// guess at the count from the bench's own counters.
func (w watch) guess(s *situation, cfg *sim.Config) uint32 {
	if !s.powered {
		return 0
	}
	l, a := &s.slot.Link, &s.slot.Arming
	switch w {
	case watchStill:
		return uint32(a.Still)
	case watchClean:
		switch l.Phase {
		case link.Good:
			return uint32(cfg.Link.CleanSlots) + 1
		case link.Fresh:
			return uint32(l.Clean)
		}
		return 0
	case watchArm:
		if a.Armed || a.OffFirst {
			return 0
		}
		return uint32(a.ArmDwell)
	case watchDisarm, watchCorner:
		return uint32(a.DisarmDwell)
	case watchRefusal:
		if cfg.Arming.By == arming.BySwitch {
			return bit(a.Inside)
		}
		return bit(a.ArmDwell == cfg.Arming.ArmDwell+2)
	case watchLoss:
		return lossGuess(l, a, cfg)
	case watchPower, watchBack:
		return bit(cfg.Arming.By == arming.BySwitch || a.OffFirst || a.ArmDwell == 0)
	}
	return 0
}

func lossGuess(l *link.State, a *arming.State, cfg *sim.Config) uint32 {
	switch {
	case !a.Armed:
		return 0
	case l.Phase.Up():
		return uint32(l.Gap)
	}
	return uint32(cfg.Link.SilenceSlots) - 1 + uint32(a.Sink)
}

// upper reports whether the guess bounds the count from above: then a high count breaks the rule, else a low one does.
func (w watch) upper() bool { return w >= watchCorner }

// contradicts reports whether a step shows that the guess is no bound.
func (w watch) contradicts(before uint32, e *step, most uint32) bool {
	count, cause := w.next(before, e, most)
	after := w.guess(e.to, e.cfg)
	return cause != NoCause || w.upper() && after < count || !w.upper() && after > count
}

func happened(log *happening.Log, code happening.Code) bool {
	for i := range log.N {
		if log.Item[i].Code == code {
			return true
		}
	}
	return false
}

// disarmedBy is the cause that the bench gave for disarming in this slot, 0 for none.
func disarmedBy(log *happening.Log) happening.Cause {
	for i := range log.N {
		if log.Item[i].Code == happening.Disarmed {
			return happening.Cause(log.Item[i].A)
		}
	}
	return 0
}

// cornerHeld tells whether a cause is the disarm corner, held by the hands or by what the receiver made up.
func cornerHeld(c happening.Cause, cfg *sim.Config) bool {
	return c == happening.BySticks || cfg.Arming.By == arming.BySticks && (c == happening.ByStored || c == happening.ByRepeated)
}
