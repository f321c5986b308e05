package prove

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// abilities holds the rules about what must be possible against what was found possible, and says what stands in the way.
func (s *search) abilities() {
	c := &s.l.Config
	l := &c.Layout
	sticks := c.Arming.By == arming.BySticks
	tryToArm := func(t *teller) {
		t.power()
		t.ready()
		if sticks {
			t.reach(l.Throttle, false)
			t.reach(l.Yaw, true)
			t.wait(int(c.Arming.ArmDwell) + 1)
			return
		}
		t.visit(l.Arm)
	}
	s.straight(tryToArm)
	switch {
	case s.armed != nil:
		s.holds(CanArm, s.main)
	case s.unsure:
		s.r.Partial = true
	case s.complete:
		t := newTeller(s.firm)
		tryToArm(t)
		r := s.whyNotArmed()
		if s.blocked && t.moving.by >= 0 {
			r.Cause, r.Gesture = MenuFirst, t.moving.by
		}
		s.broken(CanArm, r, t.end())
	}
	if r, ok := s.whyNotDisarmed(); !ok {
		s.broken(CanDisarm, r, s.try(s.firm, func(t *teller) {
			tryToArm(t)
			if sticks {
				t.reach(l.Throttle, false)
				t.reach(l.Yaw, false)
				t.wait(int(c.Arming.DisarmDwell) + 1)
			}
		}))
	} else if s.complete {
		s.holds(CanDisarm, s.main)
	}
	if s.complete {
		s.holds(ArmControlStays, s.main)
		if s.armed == nil || !s.cornered {
			s.holds(CornerDisarmsInFlight, s.main) // sticks never disarm, so there is nothing for it to come with
		}
	}
}

// armsFirmly looks for a way to being armed that owes nothing to noise; real is as of canArm.
func (s *search) armsFirmly() (way *Way, real, is bool) {
	x, fits := newSpace(s.firm, noWatch)
	if !fits {
		return nil, false, true
	}
	x.few, x.goal = only{some: true, channels: 1<<pulse.Channels - 1}, (*step).becameArmed
	w, end := s.walk(x)
	if x.target == nil {
		return nil, false, end != explore.Complete
	}
	way, real = x.way(w, x.target)
	return way, real, true
}

// straight takes the sticks straight into the arm corner and looks whether a gesture opens a menu there first.
func (s *search) straight(tryToArm func(*teller)) {
	t := newTeller(s.firm)
	tryToArm(t)
	if t.moving.by >= 0 && !t.slot.Arming.Armed {
		s.broken(ArmingOpensNoMenu, Result{Cause: MenuFirst, Searched: 1, Control: -1, Position: -1, Gesture: t.moving.by}, t.end())
		return
	}
	s.holds(ArmingOpensNoMenu, 1)
}

// reaches reports whether the control on a channel has a place for which is holds, and which of its widths comes nearest
// by the measure off.
func (s *search) reaches(channel int8, is func(sign, pulse.Width) bool, off func(pulse.Width) pulse.Width) (r Result, ok bool) {
	control, at := s.firm.find(channel)
	r = Result{Control: at, Position: -1, Value: int64(channel) + 1}
	if control == nil {
		r.Cause = NoControl
		return r, false
	}
	classes := s.firm.classesOf(at)
	first := true
	for i := range classes {
		k := &classes[i]
		if !k.sign.valid {
			continue
		}
		if is(k.sign, k.width) {
			return r, true
		}
		for _, w := range k.edges {
			if first || off(w) < off(pulse.Width(r.Value)) {
				r.Value, first = int64(w), false
			}
		}
	}
	if first {
		r.Cause, r.Value = NeverPulse, int64(channel)+1
	}
	return r, false
}

// spanOff is how far a width lies outside a span.
func spanOff(s layout.Span) func(pulse.Width) pulse.Width {
	return func(w pulse.Width) pulse.Width { return max(s.Low-w, w-s.High, 0) }
}

func lowest(w pulse.Width) pulse.Width  { return w }
func highest(w pulse.Width) pulse.Width { return -w }

// NeverArms says why a radio cannot arm a craft, judged by where its controls can stand; false where all can stand as arming asks.
func NeverArms(l *Layout) (Result, bool) {
	quiet := l.quiet()
	s := search{l: &quiet, firm: &hands{cfg: &quiet.Config, radio: &quiet.Radio}}
	r := s.whyNotArmed()
	r.Rule, r.Outcome = CanArm, Broken
	return r, r.Cause != Unexplained
}

// whyNotArmed says what stands in the way of arming.
func (s *search) whyNotArmed() Result {
	c := &s.l.Config
	l, a := &c.Layout, &c.Arming
	any := func(sign, pulse.Width) bool { return true }
	for _, ch := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode} {
		if ch == layout.NoChannel {
			continue
		}
		if r, ok := s.reaches(ch, any, lowest); !ok {
			return r
		}
	}
	need := func(channel int8, cause Cause, is func(sign, pulse.Width) bool, off func(pulse.Width) pulse.Width) *Result {
		r, ok := s.reaches(channel, is, off)
		if ok {
			return nil
		}
		r.Cause = cause
		return &r
	}
	inside := func(g sign, _ pulse.Width) bool { return g.inside }
	outside := func(g sign, _ pulse.Width) bool { return !g.inside }
	if r := need(l.Throttle, ThrottleNeverLow, func(_ sign, w pulse.Width) bool { return w < a.LowThrottle }, lowest); r != nil {
		return *r
	}
	if a.By == arming.BySticks {
		if r := need(l.Yaw, YawNeverRight, func(_ sign, w pulse.Width) bool { return w >= a.YawRight }, highest); r != nil {
			return *r
		}
	} else {
		if r := need(l.Arm, ArmNeverOn, inside, spanOff(l.ArmSpan)); r != nil {
			return *r
		}
		if r := need(l.Arm, ArmNeverOff, outside, lowest); r != nil {
			return *r
		}
	}
	if l.Second != layout.NoChannel {
		if r := need(l.Second, SecondNeverOn, inside, spanOff(l.SecondSpan)); r != nil {
			return *r
		}
	}
	if a.OnlySelfLevelling {
		if l.Mode == layout.NoChannel {
			if !l.FixedMode.SelfLevelling() {
				return Result{Cause: NeverSelfLevelling, Mode: l.FixedMode, Control: -1, Position: -1}
			}
		} else if r := need(l.Mode, NeverSelfLevelling, func(g sign, _ pulse.Width) bool { return g.mode.SelfLevelling() }, lowest); r != nil {
			return *r
		}
	}
	if r := s.armTurned(); r != nil {
		return *r
	}
	return Result{Cause: Unexplained, Control: -1, Position: -1}
}

// whyNotDisarmed says what stands in the way of disarming by the arm control; true where nothing does.
func (s *search) whyNotDisarmed() (Result, bool) {
	c := &s.l.Config
	l, a := &c.Layout, &c.Arming
	if a.By == arming.BySwitch {
		r, ok := s.reaches(l.Arm, func(g sign, _ pulse.Width) bool { return !g.inside }, lowest)
		if !ok && r.Cause == NoCause {
			r.Cause = ArmNeverOff
			_, control := s.firm.find(l.Arm)
			for _, k := range s.firm.classesOf(control) {
				if !k.sign.valid {
					r.Cause, r.Position, r.Value = ArmNoPulse, k.position, int64(k.width)
				}
			}
		}
		return r, ok
	}
	if r, ok := s.reaches(l.Throttle, func(_ sign, w pulse.Width) bool { return w < a.LowThrottle }, lowest); !ok {
		if r.Cause == NoCause {
			r.Cause = ThrottleNeverLow
		}
		return r, false
	}
	if r, ok := s.reaches(l.Yaw, func(_ sign, w pulse.Width) bool { return w <= a.YawLeft }, lowest); !ok {
		if r.Cause == NoCause {
			r.Cause = YawNeverLeft
		}
		return r, false
	}
	if s.armed != nil && s.complete && !s.cornered {
		return Result{Cause: Unexplained, Control: -1, Position: -1}, false
	}
	return Result{}, true
}
