package prove

import (
	"propsoff/sim/arming"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove/explore"
	"propsoff/sim/pulse"
)

// positions holds the rules about modes against every position of the mode control; the ways are searched for.
func (s *search) positions() {
	l := &s.l.Config.Layout
	if l.Mode == layout.NoChannel {
		if l.FixedMode.SelfLevelling() {
			s.holds(PowerUpLevels, 1)
			return
		}
		s.broken(PowerUpLevels, Result{Cause: AlwaysRate, Searched: 1, Mode: layout.Rate, Control: -1, Position: -1}, s.try(s.h, func(t *teller) { t.power() }))
		return
	}
	h, err := newHands(s.l, question{modes: true})
	if err != nil {
		return // newHands worked for the plain question: only too many places can be the reason, and the rules stay undecided
	}
	control, at := h.find(l.Mode)
	var classes []class
	if control != nil {
		classes = h.classes(control)
	}
	n := uint64(len(classes))
	if control != nil && control.Kind == handset.Switch {
		n = uint64(len(control.Positions))
	}
	n = max(n, 1)
	s.modesReached(h, control, at, classes, n)
	s.noGap(h, control, at, classes, n)
	s.powerUpLevels(h, control, at, classes)
}

func (s *search) modesReached(h *hands, control *handset.Control, at int, classes []class, n uint64) {
	l := &s.l.Config.Layout
	var reached, wanted [layout.Modes]bool
	for i := range l.Spans[:l.SpanCount] {
		wanted[l.Spans[i].Mode] = true
	}
	for i := range classes {
		if g := &classes[i].sign; g.valid && !g.gap {
			reached[g.mode] = true
		}
	}
	for m := range layout.Mode(layout.Modes) {
		if !wanted[m] || reached[m] {
			continue
		}
		r := Result{Cause: ModeNoPosition, Searched: n, Mode: m, Control: at, Position: -1}
		switch {
		case control == nil:
			r.Cause, r.Value = NoControl, int64(l.Mode)+1
		case control.Kind != handset.Switch:
			r.Cause = ModeNoTravel
		}
		s.broken(EveryModeReached, r, s.try(h, func(t *teller) {
			t.power()
			t.visit(l.Mode)
		}))
		return
	}
	s.holds(EveryModeReached, n)
}

func (s *search) noGap(h *hands, control *handset.Control, at int, classes []class, n uint64) {
	l := &s.l.Config.Layout
	for i := range classes {
		c := &classes[i]
		if !c.sign.valid || !c.sign.gap {
			continue
		}
		below, above := true, true
		for j := range l.Spans[:l.SpanCount] {
			below = below && c.width < l.Spans[j].Span.Low
			above = above && c.width >= l.Spans[j].Span.High
		}
		r := Result{Cause: GapBetween, Searched: n, Mode: layout.Rate, Control: at, Position: c.position, Value: int64(c.width)}
		switch {
		case below:
			r.Cause = GapBelow
		case above:
			r.Cause = GapAbove
		}
		s.broken(NoModeGap, r, s.wayToMode(h, func(e *step) bool {
			return e.on && e.facts.Link.Frame[l.Mode] == c.width && e.to.slot.Layout.Mode == layout.Rate
		}, i))
		return
	}
	s.holds(NoModeGap, n)
}

func (s *search) powerUpLevels(h *hands, control *handset.Control, at int, classes []class) {
	if control == nil { // no frame changes the mode that the craft begins with
		s.holds(PowerUpLevels, 1)
		return
	}
	normal := h.normal(control, classes)
	c := &classes[normal]
	if !c.sign.valid || c.sign.mode != layout.Rate {
		s.holds(PowerUpLevels, 1)
		return
	}
	r := Result{Cause: RateAtRest, Searched: 1, Mode: layout.Rate, Control: at, Position: c.position, Value: int64(c.width)}
	if c.sign.gap {
		r.Cause = GapAtRest
	}
	s.broken(PowerUpLevels, r, s.wayToMode(h, func(e *step) bool {
		return e.to.hands == h.start && e.to.slot.Layout.Mode == layout.Rate
	}, normal))
}

// wayToMode is the shortest way to a step in which goal is true, by the pack and the mode control alone. Where the bench never
// gets there, it is a try that ends with the mode control there.
func (s *search) wayToMode(h *hands, goal func(*step) bool, class int) *Way {
	mode := s.l.Config.Layout.Mode
	if x, fits := newSpace(h, noWatch); fits {
		x.few, x.goal = only{some: true, channels: 1 << mode}, goal
		w, _ := s.walk(x, explore.Options{})
		if x.target != nil {
			return x.way(w, x.target)
		}
	}
	return s.try(h, func(t *teller) {
		t.power()
		for i := range h.digits {
			if h.digits[i].channel == mode {
				t.set(i, class)
			}
		}
	})
}

// broken notes a rule that is broken by what the layout is, not by a step that was searched for.
func (s *search) broken(r Rule, found Result, w *Way) {
	if o := &s.r.Results[r]; o.Outcome == Undecided {
		found.Rule, found.Outcome, found.Way = r, Broken, w
		if found.Searched == 0 {
			found.Searched = max(s.main, 1)
		}
		*o = found
	}
}

func (s *search) try(h *hands, do func(*teller)) *Way {
	t := newTeller(h)
	do(t)
	return t.end()
}

// power gives the craft its pack.
func (t *teller) power() { t.do(move{PowerOn, -1}, t.hands) }

// visit takes the control on a channel to each of its places.
func (t *teller) visit(channel int8) {
	for i := range t.h.digits {
		if t.h.digits[i].channel != channel {
			continue
		}
		for n := range t.h.digits[i].classes {
			t.set(i, n)
		}
	}
}

// ready waits until nothing but hands can refuse.
func (t *teller) ready() {
	c := t.h.cfg
	t.wait(int(max(c.Arming.StillSlots, c.Link.CleanSlots)) + 2)
}

// reach takes the stick on a channel as far as it goes.
func (t *teller) reach(channel int8, up bool) {
	for i := range t.h.digits {
		d := &t.h.digits[i]
		if d.channel != channel {
			continue
		}
		best := 0
		for n := range d.classes {
			if w := d.classes[n].width; d.classes[n].sign.valid && (up && w > d.classes[best].width || !up && w < d.classes[best].width) {
				best = n
			}
		}
		t.set(i, best)
	}
}

// find gives the control on a channel, and its index; nil and −1 where the radio has none.
func (h *hands) find(channel int8) (*handset.Control, int) {
	for i := range h.radio.Controls {
		if h.radio.Controls[i].Channel == channel {
			return &h.radio.Controls[i], i
		}
	}
	return nil, -1
}

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
	switch {
	case s.armed != nil:
		s.holds(CanArm, s.main)
	case s.complete:
		s.broken(CanArm, s.whyNotArmed(), s.try(s.h, tryToArm))
	}
	if r, ok := s.whyNotDisarmed(); !ok {
		s.broken(CanDisarm, r, s.try(s.h, func(t *teller) {
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

// reaches reports whether the control on a channel has a place for which is holds, and which of its widths comes nearest
// by the measure off.
func (s *search) reaches(channel int8, is func(sign, pulse.Width) bool, off func(pulse.Width) pulse.Width) (r Result, ok bool) {
	control, at := s.h.find(channel)
	r = Result{Control: at, Position: -1, Value: int64(channel) + 1}
	if control == nil {
		r.Cause = NoControl
		return r, false
	}
	classes := s.h.classes(control)
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
	s := search{l: l, h: &hands{cfg: &l.Config, radio: &l.Radio}}
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
			control, _ := s.h.find(l.Arm)
			for _, k := range s.h.classes(control) {
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
