package tworadios

import (
	"propsoff.example/input/pair"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// mostLevers bounds how many controls of both radios are moved.
const mostLevers = 32

// situation is one in which nothing changes any more: where the levers stand, what the pupil's radio has told of its own, and what pair and craft are.
type situation struct {
	at, told    [mostLevers]uint8
	out, silent bool // the pupil's plug is out; his transmitter is off
	powered     bool
	held        pair.Held
	slot        sim.SlotState
}

// move is one movement: a kind of step, and which lever goes where.
type move struct {
	kind  prove.Kind
	lever int
	to    uint8
}

// came is what came of one movement: in which slot after it the craft first became armed and disarmed, −1 for never, how many slots it took until nothing
// changed any more, and what the craft then hears.
type came struct {
	armed, disarmed, slots int
	sent                   pulse.Frame
	heard                  bool
}

// walk is a search under way.
type walk struct {
	l      *Layout
	cfg    *sim.Config
	both   *prove.Layout
	levers []lever
	pupils int // so many levers are the pupil's, and stand first
	all    []situation
	// from and by are how each was first reached, −1 for the beginning.
	from    []int
	by      []move
	at      map[situation]int
	partial bool
	// seen is told of each step.
	seen func(from int, m move, to *situation, c *came)
	log  happening.Log
}

func newWalk(l *Layout) *walk {
	w := &walk{l: l, cfg: &l.Config, both: bothOf(l), at: map[situation]int{}}
	w.levers = w.leversOf(&l.Radio, 0, false)
	w.pupils = len(w.levers)
	w.levers = append(w.levers, w.leversOf(&l.His, len(l.Radio.Controls), true)...)
	var s situation
	if len(w.levers) > mostLevers {
		w.partial = true
		return w
	}
	for n := range w.levers {
		s.at[n] = uint8(w.levers[n].rest)
	}
	s.told = s.at
	w.settle(&s)
	w.note(s, -1, move{})
	return w
}

// note keeps a situation that was not met before.
func (w *walk) note(s situation, from int, by move) {
	if _, met := w.at[s]; met {
		return
	}
	w.at[s] = len(w.all)
	w.all, w.from, w.by = append(w.all, s), append(w.from, from), append(w.by, by)
}

// run goes through every situation that can be reached.
func (w *walk) run(stop func() bool) {
	for i := 0; i < len(w.all); i++ {
		if len(w.all) > mostSituations || i&0xff == 0 && stop != nil && stop() {
			w.partial = true
			return
		}
		for _, m := range w.moves(&w.all[i]) {
			to, c := w.step(&w.all[i], m)
			if w.seen != nil {
				w.seen(i, m, &to, &c)
			}
			w.note(to, i, m)
		}
	}
}

// moves are all that can be made from a situation: before the pack is connected, only that.
func (w *walk) moves(s *situation) (out []move) {
	if !s.powered {
		return []move{{prove.PowerOn, -1, 0}}
	}
	for n := range w.levers {
		v := &w.levers[n]
		for to := range v.places {
			if to == int(s.at[n]) {
				continue
			}
			kind := prove.Move
			if v.springs && to == v.rest {
				kind = prove.LetGo
			}
			out = append(out, move{kind, n, uint8(to)})
		}
	}
	plug, link := move{prove.PlugOut, -1, 0}, move{prove.PupilOff, -1, 0}
	if s.out {
		plug.kind = prove.PlugIn
	}
	if s.silent {
		link.kind = prove.PupilOn
	}
	return append(out, plug, link)
}

// told is what the two radios have told.
func (w *walk) told(s *situation) (pupil, his pair.Side) {
	known := func(off bool) pair.Known {
		if off {
			return pair.Off
		}
		return pair.On
	}
	pupil = pair.Side{Frame: w.frame(&s.told, 0, w.pupils), Has: true, Plug: known(s.out), Link: known(s.silent)}
	his = pair.Side{Frame: w.frame(&s.at, w.pupils, len(w.levers)), Has: true, Plug: pair.On, Link: pair.On}
	return pupil, his
}

// settle has the pair look at what is told.
func (w *walk) settle(s *situation) (sent pulse.Frame, heard bool) {
	pupil, his := w.told(s)
	s.held = w.l.Pair.Settle(s.held, &pupil, &his)
	return w.l.Pair.Sends(s.held, &pupil, &his), s.held.Hands || pupil.There()
}

// step makes one movement, and waits until nothing changes any more.
func (w *walk) step(from *situation, m move) (to situation, c came) {
	to = *from
	switch m.kind {
	case prove.PowerOn:
		to.powered, to.slot = true, w.cfg.PowerUp()
	case prove.PlugOut:
		to.out = true
	case prove.PlugIn:
		to.out = false
		w.settle(&to) // the plug is told first, and then how everything stands
	case prove.PupilOff, prove.PupilOn:
		to.silent = m.kind == prove.PupilOff
	default:
		to.at[m.lever] = m.to
	}
	if !to.out {
		to.told = to.at
	}
	// What the instructor's radio tells is no part of what the pupil's told.
	for n := w.pupils; n < len(w.levers); n++ {
		to.told[n] = to.at[n]
	}
	c = came{armed: -1, disarmed: -1}
	c.sent, c.heard = w.settle(&to)
	for first := m.kind == prove.PowerOn; ; first = false {
		was := to.slot
		w.log.N = 0
		to.slot, _ = sim.StepSlot(w.cfg, to.slot, &sim.SlotInput{Transmitting: c.heard, Sent: c.sent, First: first}, 0, &w.log)
		for _, h := range w.log.All() {
			switch {
			case h.Code == happening.Armed && c.armed < 0:
				c.armed = c.slots
			case h.Code == happening.Disarmed && c.disarmed < 0:
				c.disarmed = c.slots
			}
		}
		c.slots++
		if to.slot == was && !first {
			return to, c
		}
	}
}
