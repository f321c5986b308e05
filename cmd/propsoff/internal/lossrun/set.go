package lossrun

import (
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/link"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Receivers is how many ways there are; receiver i does what link.OnLoss(i) says.
const Receivers = 3

// Set is three crafts that fly what the pilot's own flies, each with a receiver of its own, and what is measured of each. They are
// looked on only: nothing of theirs acts on the pilot's own.
type Set struct {
	own    sim.Config
	stored Stored
	values pulse.Frame // what the third receiver has stored
	craft  [Receivers]*practice.Practice
	run    [Receivers]Run
	snap   sim.Snapshot
	given  []pulse.Reading // room for the readings of a step
	lift   bool            // what is planted in the receiver is to be lifted
	alone  bool            // they began at a point of the map: no hand reaches them, and after the first step their radio is silent
	steps  int64
}

// WithReceiver is a craft with another receiver; what it has stored is for SendsStored.
func WithReceiver(cfg sim.Config, way link.OnLoss, stored pulse.Frame) sim.Config {
	cfg.Link.OnLoss, cfg.Link.Stored = way, pulse.Frame{}
	if way == link.SendsStored {
		cfg.Link.Stored = stored
	}
	return cfg
}

// New begins three crafts where the pilot's own is: its place, attitude, speed, armed or not, with the faults that are planted in
// it, but for its receiver's.
func New(own *practice.Practice, stored Stored) *Set {
	s := &Set{own: own.Craft(), stored: stored}
	state := own.Bench().State()
	s.values = stored.Frame(&s.own, &state.LastValid)
	_, s.lift = own.Faults().Planted(fault.Receiver)
	heard := state.Slot.Link.Heard || state.Slot.Link.Phase != link.Never
	last := state.LastValid
	if own.Bench().Config().Link.OnLoss == link.RepeatsLast {
		last = state.Slot.Link.Last
	}
	for i := range s.craft {
		way := link.OnLoss(i)
		cfg := WithReceiver(s.own, way, s.values)
		from := state
		l := &from.Slot.Link
		l.Heard, l.Last = heard && way != link.FallsSilent, pulse.Frame{}
		if l.Heard && way == link.RepeatsLast {
			l.Last = last
		}
		s.craft[i] = practice.New(cfg)
		s.craft[i].Bench().Restore(from)
		s.craft[i].LikeFaults(own)
		s.run[i] = NewRun(&cfg)
	}
	return s
}

// NewAt begins three crafts at a point of the map of a lost link, at a tick. Their radio falls silent after the first step.
func NewAt(own *practice.Practice, stored Stored, at *lossmap.Point) *Set {
	s := &Set{own: own.Craft(), stored: stored, alone: true}
	last := lossmap.Held(&s.own, at.Throttle)
	s.values = stored.Frame(&s.own, &last)
	for i := range s.craft {
		cfg := WithReceiver(s.own, link.OnLoss(i), s.values)
		s.craft[i] = lossmap.Begin(&cfg, at)
		state := s.craft[i].Bench().State()
		state.Tick = own.Tick()
		s.craft[i].Bench().Restore(state)
		s.run[i] = NewRun(&cfg)
	}
	return s
}

// Step runs the next millisecond of all three with the readings that fall on it.
func (s *Set) Step(readings []pulse.Reading) {
	if s.steps++; s.alone {
		readings = s.given[:0]
		if s.steps == 2 {
			readings = append(readings, pulse.Reading{Kind: pulse.Link})
		}
	} else {
		readings = s.but(readings)
	}
	for i, p := range s.craft {
		p.Step(readings)
		p.Snapshot(&s.snap)
		if p.Faults().Silent(s.snap.Tick) { // a silence that an instructor planted is one too
			s.snap.In.Transmitter = false
		}
		s.run[i].Step(&s.snap, p.Bench().SlotRan(), p.Happenings())
	}
	s.forgive()
	if s.craft[link.SendsStored].Bench().SlotRan() {
		s.store()
	}
}

// but leaves out of some readings what an instructor plants in receivers: these three are what they are.
func (s *Set) but(readings []pulse.Reading) []pulse.Reading {
	s.given = s.given[:0]
	if s.lift {
		s.lift = false
		s.given = append(s.given, pulse.Reading{Kind: pulse.Instructor, Value: fault.Lift(fault.Receiver)})
	}
	for i := range readings {
		if d, _ := pulse.InstructorOf(readings[i].Value); readings[i].Kind != pulse.Instructor || d != fault.Receiver {
			s.given = append(s.given, readings[i])
		}
	}
	return s.given
}

// forgive forgets a silence that was over before any of the three noticed it, as when another radio takes over.
func (s *Set) forgive() {
	for i := range s.run {
		if r := &s.run[i]; r.Phase != Back || r.Back != s.snap.Tick || r.Touched() {
			return
		}
	}
	for i := range s.run {
		s.run[i].forget()
	}
}

// store keeps in the third receiver what is chosen; while the radio is heard, with its throttle where that stands. A receiver reads its
// stored values afresh in every slot, so nothing else need change.
func (s *Set) store() {
	b := s.craft[link.SendsStored].Bench()
	if s.run[link.SendsStored].Phase != Off {
		state := b.State()
		s.values = s.stored.Frame(&s.own, &state.LastValid)
	}
	b.Config().Link.Stored = s.values
}

// Choose stores other values in the third receiver; while the radio is silent it would be a receiver that thinks of something
// else in flight, so then it does nothing and reports false.
func (s *Set) Choose(stored Stored) bool {
	if s.run[link.SendsStored].Phase == Off {
		return false
	}
	s.stored = stored
	s.store()
	return true
}

// Stored is what is chosen.
func (s *Set) Stored() Stored { return s.stored }

// Craft is craft i, to be looked at.
func (s *Set) Craft(i int) *practice.Practice { return s.craft[i] }

// Run is what is measured of craft i.
func (s *Set) Run(i int) Run { return s.run[i] }
