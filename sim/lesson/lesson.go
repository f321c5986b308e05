// Package lesson finds until when a craft that broke could have been saved: it flies the last seconds again with other hands.
//
// Nothing is derived: each kind of hands is tried from every moment on which the receiver hands a frame on, the latest first, on a copy of
// the practice as it was. The hands move at once; what a person needs to see and to answer comes on top.
package lesson

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Numbers of the search, in ticks (ours): how far back it looks; in how much of that it tries every slot (before, every coarse-th, and the slots
// behind one that saved); how long after the moment of the wreck the craft must be whole; how far before it, or before a radio that fell silent, hands may
// try again; and how far back is kept, so that a craft that sank for some seconds can be tried with a radio that sends.
const (
	Reach  = 5000
	fine   = 2000
	coarse = 5
	Whole  = 2000
	Again  = 3000
	Ahead  = 1000
	kept   = 10_000
)

// Hands are what is done in place of what was done, from one moment on.
type Hands uint8

// The kinds of hands.
const (
	Disarm   Hands = iota // the arm control is put off
	LetGo                 // roll, pitch and yaw are let go to their middles, in the mode that is flown
	Level                 // the same, and the mode switch put to angle; only where another mode is flown
	Throttle              // the throttle alone is moved, and the arm switch left
	HandsCount
)

// Gas is what the throttle does meanwhile.
type Gas uint8

// The ways of the throttle.
const (
	AsItWas  Gas = iota // what it did, and then where it was
	Hovering            // where the craft hovers with a full pack
	Full
	Closed
)

// gases are the ways of the throttle that are tried with each kind of hands, the least change first.
func gases(h Hands) []Gas {
	switch h {
	case Disarm:
		return []Gas{AsItWas}
	case Throttle:
		return []Gas{Hovering, Full, Closed}
	}
	return []Gas{AsItWas, Hovering, Full}
}

// Way is what saved the craft, from the tick At on; Any is false where nothing did.
type Way struct {
	Hands Hands
	Gas   Gas
	At    int64
	Any   bool
}

// Found is what was found of a wreck.
type Found struct {
	// Broke is the tick in which it broke, From the earliest moment at which it was armed, so that hands could be tried; Broke where there is none.
	Broke, From int64
	// Turns is how its motors turn, Fitted which propellers were on them (body.Config): where they differ it could not fly, whatever hands did.
	Turns, Fitted [flight.Motors]int8
	// Of is the latest moment for each kind of hands, Last the latest of all.
	Of   [HandsCount]Way
	Last Way
	// ByHand: a hand had disarmed it by then.
	ByHand bool
	// Steps is how many ticks were flown for it.
	Steps int64
}

// Find tries everything on what was kept of a wreck. Where stop is given and tells so, it ends with what it has, and whole is false.
func Find(past *Past, stop func() bool) (f Found, whole bool) {
	s := search{past: past, found: Found{Broke: past.Broke, From: past.Broke}}
	s.moments()
	for i := range s.at {
		if may(&s.at[i], Disarm) {
			s.found.From = s.at[i].Tick()
			break
		}
	}
	for h := range HandsCount {
		if stop != nil && stop() {
			return s.found, false
		}
		if !s.latest(h, stop) {
			return s.found, false
		}
		if w := s.found.Of[h]; w.Any && (!s.found.Last.Any || w.At > s.found.Last.At) {
			s.found.Last = w
		}
	}
	return s.found, true
}

type search struct {
	past  *Past
	at    []practice.Practice // the practice before each slot, oldest first
	found Found
	p     practice.Practice
}

// moments keeps the practice as it was before every slot of the last seconds.
func (s *search) moments() {
	past := s.past
	s.at = make([]practice.Practice, 0, Reach/int(past.from.Bench().Config().SlotTicks)+1)
	past.from.CopyTo(&s.p)
	for told := past.told; s.p.Tick() <= past.Broke; s.found.Steps++ {
		b := s.p.Bench()
		if state := b.State(); s.p.Tick() >= past.Broke-Reach && state.In.Powered && state.In.Air && b.ToSlot() == 0 {
			s.at = append(s.at, practice.Practice{})
			s.p.CopyTo(&s.at[len(s.at)-1])
		}
		told = step(&s.p, told, nil)
		for _, h := range s.p.Happenings() {
			switch h.Code {
			case happening.Armed:
				s.found.ByHand = false
			case happening.Disarmed:
				s.found.ByHand = happening.Cause(h.A) == happening.BySwitch || happening.Cause(h.A) == happening.BySticks
			}
		}
	}
	s.found.Turns, s.found.Fitted = s.p.Bench().Config().Body.Turns, s.p.Bench().State().In.Hands
}

// latest finds the latest moment from which a kind of hands saves the craft; false where it was stopped.
func (s *search) latest(h Hands, stop func() bool) bool {
	tries := func(i int) bool {
		p := &s.at[i]
		if !may(p, h) {
			return false
		}
		for _, g := range gases(h) {
			w := Way{Hands: h, Gas: g, At: p.Tick(), Any: true}
			if s.saves(i, w) {
				s.found.Of[h] = w
				return true
			}
		}
		return false
	}
	for i := len(s.at) - 1; i >= 0; {
		if stop != nil && stop() {
			return false
		}
		near := s.at[i].Tick() > s.past.Broke-fine
		if tries(i) {
			for after := min(i+coarse-1, len(s.at)-1); !near && after > i; after-- {
				if s.at[after].Tick() <= s.past.Broke-fine && tries(after) {
					break
				}
			}
			return true
		}
		if near {
			i--
		} else {
			i -= coarse
		}
	}
	return true
}

// may tells whether these hands can do anything there: a craft that is disarmed hears no stick, and one that flies in angle is levelled by
// letting go.
func may(p *practice.Practice, h Hands) bool {
	state, cfg := p.Bench().State(), p.Bench().Config()
	if !state.Slot.Arming.Armed || p.Hands() == nil {
		return false
	}
	if h != Level {
		return true
	}
	_, ok := angle(&cfg.Layout)
	return ok && state.Slot.Layout.Mode != layout.Angle
}

func (s *search) saves(i int, w Way) bool {
	s.at[i].CopyTo(&s.p)
	from := s.p.Tick()
	saved := Carry(&s.p, s.past, w, nil)
	s.found.Steps += s.p.Tick() - from
	return saved
}

// Carry carries out a way on a practice as it was at the way's moment or before it, and tells whether the craft was saved: it is whole Whole ticks after
// the wreck, with its top up, comes down slower than what breaks it, and has motors that carry it or stands on the ground. see, where
// given, is shown every step.
func Carry(p *practice.Practice, past *Past, w Way, see func(*practice.Practice)) bool {
	told := past.since(p.Tick())
	hands := hands{w: w, cfg: p.Craft()}
	for p.Tick() <= past.Broke+Whole {
		told = step(p, told, &hands)
		if see != nil {
			see(p)
		}
		if lies(p) {
			return false
		}
	}
	s := p.Bench().State()
	a := &s.Air
	return a.Body.Vel.Z < sim.TooFast && a.Body.Att.Unit().Turn(down).Z > 0 && (a.Clear == 0 || s.Slot.Arming.Armed)
}

// lies tells whether the craft is broken.
func lies(p *practice.Practice) bool {
	for _, h := range p.Happenings() {
		if h.Code == happening.Broke {
			return true
		}
	}
	return false
}

// step runs the next tick with what was told of it, in other hands where they are given, and gives what is told later.
func step(p *practice.Practice, told []Told, h *hands) []Told {
	var due [mostDue]pulse.Reading
	tick, rs := p.Tick(), due[:0]
	changed := h != nil && tick >= h.w.At
	if changed && !h.begun {
		h.begun = true
		if f := p.Hands(); f != nil {
			h.held = *f
			rs = append(rs, pulse.Reading{At: tick * 1000, Kind: pulse.Controls, Frame: h.bend(*f)})
		}
	}
	for len(told) > 0 && told[0].Tick <= tick {
		r := told[0].Reading
		if changed && r.Kind == pulse.Controls {
			r.Frame = h.bend(r.Frame)
		}
		rs, told = append(rs, r), told[1:]
	}
	p.Step(rs)
	return told
}

// mostDue is the room for the readings of one tick that takes no memory; more take some.
const mostDue = 4

// hands make frames of a way out of those that were sent; held is the frame in which they began.
type hands struct {
	w     Way
	cfg   sim.Config
	begun bool
	held  pulse.Frame
}

func (h *hands) bend(f pulse.Frame) pulse.Frame {
	l := &h.cfg.Layout
	if l.Arm != layout.NoChannel { // a switch that was moved later stays
		f[l.Arm] = h.held[l.Arm]
	}
	if l.Mode != layout.NoChannel && h.w.Hands != Throttle {
		f[l.Mode] = h.held[l.Mode]
	}
	switch h.w.Hands {
	case Disarm:
		if h.cfg.Arming.By == arming.BySwitch {
			f[l.Arm] = l.ArmSpan.Outside()
		} else {
			f[l.Throttle], f[l.Yaw] = pulse.Low, pulse.Low
		}
	case Level:
		if w, ok := angle(l); ok {
			f[l.Mode] = w
		}
		fallthrough
	case LetGo:
		f[l.Roll], f[l.Pitch], f[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	}
	switch h.w.Gas {
	case Hovering:
		f[l.Throttle] = hover.Throttle(&h.cfg)
	case Full:
		f[l.Throttle] = pulse.High
	case Closed:
		f[l.Throttle] = pulse.Low
	}
	return f
}

// angle is where the mode switch asks for angle; false where it cannot.
func angle(l *layout.Config) (pulse.Width, bool) {
	if l.Mode == layout.NoChannel {
		return 0, false
	}
	for _, s := range l.Spans[:l.SpanCount] {
		if s.Mode == layout.Angle {
			return (s.Span.Low + s.Span.High) / 2, true
		}
	}
	return 0, false
}
