package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// step is one step from situation to situation, with what came of it on the bench.
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
func (e *step) staysArmed() bool  { return e.from.slot.Arming.Armed && e.to.slot.Arming.Armed }

// width is that of a channel in the frame that the receiver handed on.
func (e *step) width(channel int8) pulse.Width { return e.facts.Link.Frame[channel] }

// sticks are the throttle and the yaw in that frame.
func (e *step) sticks() (throttle, yaw pulse.Width) {
	return e.width(e.cfg.Layout.Throttle), e.width(e.cfg.Layout.Yaw)
}

// refused reports whether anything but the arm control's own latch refuses in this slot, which has a valid frame.
func (e *step) refused() bool {
	s, cfg := &e.to.slot, e.cfg
	l := &cfg.Layout
	return e.width(l.Throttle) >= cfg.Arming.LowThrottle || s.Link.Phase != link.Good || s.Arming.Still < cfg.Arming.StillSlots ||
		e.craft || e.secondOff() || e.missing() || cfg.Arming.OnlySelfLevelling && !s.Layout.Mode.SelfLevelling()
}

// turning reports whether the motors plainly turn in this slot by what is asked of them: they idle, or the throttle asks for power.
// By sticks the throttle must have left the corners too: short of that it asks for next to nothing.
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

func judgeStill(e *step, age, grow, most uint32) (uint32, Cause) {
	if e.kind == PowerOn || e.kind == Nudge && age < most {
		grow = 0
	}
	if e.becameArmed() && grow < most {
		return grow, StillTimeShort
	}
	return grow, NoCause
}

func judgeClean(e *step, age, grow, most uint32) (uint32, Cause) {
	if !e.to.slot.Link.Phase.Up() || !e.facts.Link.Valid && age < most {
		grow = 0
	}
	// The arm control must be seen off once the clean time is over: so it is over in the slot before.
	if e.becameArmed() && age < most || happened(e.log, happening.SinkEnded) && grow < most {
		return grow, CleanTimeShort
	}
	return grow, NoCause
}

func judgeArm(e *step, age, grow, most uint32) (uint32, Cause) {
	a := &e.cfg.Arming
	thr, yaw := e.sticks()
	switch {
	case !e.to.slot.Link.Phase.Up() || e.from.slot.Arming.Armed || e.kind == PowerOn && !e.facts.Link.Valid:
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
}

func judgeDisarm(e *step, age, grow, most uint32) (uint32, Cause) {
	a := &e.cfg.Arming
	thr, yaw := e.sticks()
	switch {
	case !e.from.slot.Arming.Armed || !e.to.slot.Link.Phase.Up():
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
}

func judgeCorner(e *step, _, grow, most uint32) (uint32, Cause) {
	thr, yaw := e.sticks()
	if !e.staysArmed() || !e.facts.Link.Valid || thr >= e.cfg.Arming.LowThrottle || yaw > e.cfg.Arming.YawLeft {
		return 0, NoCause
	}
	if grow >= most {
		return grow, StaysArmed
	}
	return grow, NoCause
}

func judgeRefusal(e *step, age, _, _ uint32) (uint32, Cause) {
	a := &e.cfg.Arming
	asked, valid := happened(e.log, happening.Refused), e.facts.Link.Valid
	thr, yaw := e.sticks()
	switch {
	case age == 1 && e.becameArmed():
		return 1, ClearedArms
	case age == 1 && asked:
		return 1, RefusedTwice
	case asked:
		return 1, NoCause
	case a.By == arming.BySwitch && valid && !e.cfg.Layout.ArmSpan.Contains(e.width(e.cfg.Layout.Arm)):
		return 0, NoCause
	case a.By == arming.BySticks && (!e.to.slot.Link.Phase.Up() || valid && (thr >= a.LeaveThrottle || yaw < a.LeaveRight)):
		return 0, NoCause
	}
	return age, NoCause
}

func judgeLoss(e *step, _, grow, most uint32) (uint32, Cause) {
	if !e.staysArmed() || e.on && e.facts.Link.Valid {
		return 0, NoCause
	}
	if grow >= most {
		return grow, StopsLate
	}
	return grow, NoCause
}

// judgeTurned counts as judgeLoss does, in all bits but the lowest: that one says whether the motors turned.
func judgeTurned(e *step, age, _, most uint32) (uint32, Cause) {
	if !e.staysArmed() {
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
}

func judgePower(e *step, age, _, _ uint32) (uint32, Cause) {
	return e.atRest(age, e.kind == PowerOn)
}

func judgeBack(e *step, age, _, _ uint32) (uint32, Cause) {
	return e.atRest(age, e.kind == RadioOn && e.from.powered && e.from.slot.Link.Gap == 0)
}

// atRest is 1 from the step that begins a time in which nothing moves, until something does: nothing may arm in it.
func (e *step) atRest(age uint32, begins bool) (uint32, Cause) {
	if e.kind != Wait && e.kind != Tremble {
		age = bit(begins)
	}
	switch {
	case age == 0 || !e.becameArmed():
		return age, NoCause
	case e.kind == Tremble:
		return age, NoiseCrosses
	case e.kind == Wait:
		return age, ByTimeAlone
	}
	return age, AtOnce
}

func judgeUnseen(e *step, age, _, _ uint32) (uint32, Cause) {
	if e.kind == PowerOn {
		age = 1
	}
	switch {
	case age == 1 && e.becameArmed():
		return 1, ArmedUnseenOff
	case e.seenOff():
		return 0, NoCause
	}
	return age, NoCause
}

// seenOff reports whether the arm control plainly stands off in a frame that counts.
func (e *step) seenOff() bool {
	if e.cfg.Arming.By == arming.BySwitch {
		return e.facts.Link.Valid && !e.cfg.Layout.ArmSpan.Contains(e.width(e.cfg.Layout.Arm))
	}
	thr, yaw := e.sticks()
	return e.facts.Link.Valid && (thr >= e.cfg.Arming.LeaveThrottle || yaw < e.cfg.Arming.LeaveRight)
}

func judgeFlight(e *step, age, _, _ uint32) (uint32, Cause) {
	switch {
	case e.ended() && age == 1 && cornerHeld(disarmedBy(e.log), e.cfg):
		return 0, CornerHeld
	case !e.to.slot.Arming.Armed:
		return 0, NoCause
	case e.from.slot.Arming.Armed && e.facts.Link.Valid && e.width(e.cfg.Layout.Throttle) >= e.cfg.Arming.LeaveThrottle:
		return 1, NoCause
	}
	return age, NoCause
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

// cornerHeld reports whether a cause is the disarm corner, held by the hands or by what the receiver made up.
func cornerHeld(c happening.Cause, cfg *sim.Config) bool {
	return c == happening.BySticks || cfg.Arming.By == arming.BySticks && (c == happening.ByStored || c == happening.ByRepeated)
}
