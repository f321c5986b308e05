package prove

import (
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
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
		classes = h.classesOf(at)
	}
	n := uint64(len(classes))
	if control != nil && control.Kind == handset.Switch {
		n = uint64(len(control.Positions))
	}
	n = max(n, 1)
	s.modesReached(h, control, at, classes, n)
	s.noGap(h, control, at, classes, n)
	s.powerUpLevels(h, control, at, classes)
	s.modeStays(h, at, classes, n)
}

// modeStays holds every position's noise against the spans of the modes.
func (s *search) modeStays(h *hands, at int, classes []class, n uint64) {
	for i := range classes {
		k := &classes[i]
		if !k.calm {
			continue
		}
		for j := range classes {
			o := &classes[j]
			if o.trembles != k.trembles || !o.sign.valid || !k.sign.valid || o.sign.mode == k.sign.mode {
				continue
			}
			r := Result{Cause: NoiseCrosses, Searched: n, Mode: o.sign.mode, Control: at, Position: k.position, Value: int64(k.width)}
			s.broken(ModeStays, r, s.wayToMode(h, func(e *step) bool {
				return e.kind == Tremble && e.from.slot.Layout.Mode == k.sign.mode && e.to.slot.Layout.Mode == o.sign.mode && e.facts.Link.Frame[s.l.Config.Layout.Mode] == o.width
			}, i))
			return
		}
	}
	s.holds(ModeStays, n)
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
		w, _ := s.walk(x)
		if x.target != nil {
			if way, real := x.way(w, x.target); real {
				return way
			}
		}
	}
	return s.try(h, func(t *teller) {
		t.power()
		for i := range h.digits {
			if h.digits[i].carries(mode) {
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
		if !t.h.digits[i].carries(channel) {
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
		if !d.carries(channel) {
			continue
		}
		best := 0
		for n := range d.classes {
			if w, of := t.h.sentOn(d, n, channel).width, t.h.sentOn(d, best, channel).width; w.Valid() && (up && w > of || !up && w < of) {
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
