package prove

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/link"
)

// rules holds one step against every rule that one step can break. What such a rule says is worked out from the frame that
// the receiver handed on and from the spans, not from what the bench concluded of them.
func (x *space) rules(m move, costs bool, key uint64) {
	e := &x.e
	from, to := &x.from.slot.Arming, &x.to.slot.Arming
	says := func(r Rule, c Cause, digit int) { x.breaks(r, c, m, costs, key, digit) }
	if !e.on && x.half.facts.Link.Received && !x.from.slot.Link.Heard {
		says(UnheardIsSilent, MakesUpFrames, -1)
	}
	if to.Armed && e.on && x.cfg.Arming.By == arming.BySwitch && x.half.facts.Link.Received {
		x.armOff(says)
	}
	switch {
	case !from.Armed && to.Armed:
		if b := x.broken(NoCause, m, costs, key, -1); x.firstArmed == nil || b.cost.Less(x.firstArmed.cost) {
			x.firstArmed = b
		}
		x.becameArmed(m, says)
	case from.Armed && !to.Armed:
		x.disarmed(says)
	}
}

// armOff looks for a craft that is armed though the arm channel of this frame stands where it should have disarmed.
func (x *space) armOff(says func(Rule, Cause, int)) {
	l := &x.cfg.Layout
	w := x.e.width(l.Arm)
	switch {
	case w.Valid() && !l.ArmSpan.Contains(w):
		says(ArmControlDisarms, StaysArmed, -1)
	case !w.Valid() && x.e.kind != Wait && x.e.digit >= 0 && x.h.digits[x.e.digit].carries(l.Arm):
		says(ArmControlDisarms, ArmNoPulse, x.e.digit)
	}
}

func (x *space) becameArmed(m move, says func(Rule, Cause, int)) {
	e, a, l := &x.e, &x.cfg.Arming, &x.cfg.Layout
	thr := e.width(l.Throttle)
	switch {
	case thr >= a.LowThrottle:
		says(ThrottleUpNeverArms, AgainstThrottle, -1)
	case asksPower(thr):
		says(ThrottleUpNeverArms, LowMarkHigh, -1)
	}
	switch s := &x.to.slot; {
	case !x.half.facts.Link.Valid || s.Link.Phase != link.Good:
		says(RefusalNeverArms, AgainstLink, -1)
	case e.missing():
		says(RefusalNeverArms, AgainstMissing, -1)
	case e.secondOff():
		says(RefusalNeverArms, AgainstSecond, -1)
	case a.OnlySelfLevelling && !s.Layout.Mode.SelfLevelling():
		says(RefusalNeverArms, AgainstMode, -1)
	case e.craft:
		says(RefusalNeverArms, AgainstCraft, -1)
	case x.ownRefusals() != 0:
		says(RefusalNeverArms, AgainstOwnList, -1)
	}
	x.springs(says)
	if !e.on {
		switch x.cfg.Link.OnLoss {
		case link.SendsStored:
			says(StoredNeverArms, MakesUpFrames, -1)
			return
		case link.RepeatsLast:
			says(HeldNeverArms, MakesUpFrames, -1)
			return
		}
	}
	if a.By == arming.BySticks {
		if thr >= a.LeaveThrottle || e.width(l.Yaw) < a.LeaveRight {
			says(OnlyArmControlArms, ByOtherControl, m.digit)
		}
		return
	}
	switch m.kind {
	case PowerOn, RadioOn: // these have rules of their own; a switch moved while frames were missing arms when they come
	case Wait:
		says(OnlyArmControlArms, ByTimeAlone, -1)
	case Move, LetGo:
		if d := &x.h.digits[m.digit]; !d.carries(l.Arm) {
			cause := ByOtherControl
			if x.h.noPulse(d, x.from.hands) >= 0 {
				cause = ControlNoPulse
			}
			says(OnlyArmControlArms, cause, m.digit)
		}
	case Tremble:
		says(OnlyArmControlArms, NoiseCrosses, m.digit)
	default:
		says(OnlyArmControlArms, ByOtherControl, -1)
	}
}

// ownRefusals is the bench's own list right after it became armed: it must be empty.
func (x *space) ownRefusals() arming.Set {
	s, f := &x.to.slot, &x.half.facts
	in := arming.Input{
		Phase: s.Link.Phase, Received: f.Link.Received, Valid: f.Link.Valid, Origin: f.Link.Origin, Throttle: f.Layout.Throttle, Yaw: f.Layout.Yaw,
		Arm: f.Layout.Arm, Second: f.Layout.Second, Mode: s.Layout.Mode, Missing: f.Layout.Missing, Craft: arming.Conditions{Cable: x.e.craft},
	}
	return arming.Refusals(&x.cfg.Arming, &s.Arming, &in)
}

func (x *space) disarmed(says func(Rule, Cause, int)) {
	e, a, l := &x.e, &x.cfg.Arming, &x.cfg.Layout
	x.springs(says)
	x.cornered = x.cornered || cornerHeld(disarmedBy(&x.log), x.cfg)
	if !e.on || x.from.slot.Arming.Sink > 0 {
		return // a loss, or the end of sinking
	}
	if !x.half.facts.Link.Valid {
		for i := range x.h.digits {
			d := &x.h.digits[i]
			if c := x.h.noPulse(d, x.to.hands); c >= 0 && c != l.Arm {
				says(NothingElseDisarms, ControlNoPulse, i)
				return
			}
		}
	}
	var off bool
	if a.By == arming.BySwitch {
		w := e.width(l.Arm)
		off = x.half.facts.Link.Received && !l.ArmSpan.Contains(w)
	} else {
		off = x.half.facts.Link.Valid && e.width(l.Throttle) < a.LeaveThrottle && e.width(l.Yaw) <= a.LeaveLeft
	}
	switch {
	case !off:
		says(NothingElseDisarms, ByOtherControl, e.digit)
	case e.kind == Tremble && a.By == arming.BySwitch: // by sticks it is the dwell that ends then
		says(NothingElseDisarms, NoiseCrosses, e.digit)
	}
}

// springs looks for an arm switch that armed or disarmed when it was let go.
func (x *space) springs(says func(Rule, Cause, int)) {
	if d := x.e.digit; x.e.kind == LetGo && x.h.digits[d].carries(x.cfg.Layout.Arm) {
		says(ArmControlStays, SpringsBack, d)
	}
}
