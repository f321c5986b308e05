package tworadios

import (
	"propsoff.example/input"
	"propsoff.example/input/pair"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// side is what one of the two radios tells while a way is made, as a source.
type side struct {
	next []pulse.Reading
	all  []pulse.Reading
}

func (s *side) tell(at int64, r pulse.Reading) {
	r.At = at
	s.next, s.all = append(s.next, r), append(s.all, r)
}

func (s *side) Name() string          { return "" }
func (s *side) Wake() <-chan struct{} { return nil }
func (s *side) Close() error          { return nil }

func (s *side) Poll(dst []pulse.Reading, _ int64) ([]pulse.Reading, error) {
	dst, s.next = append(dst, s.next...), nil
	return dst, nil
}

var _ input.Source = (*side)(nil)

// maker makes a way on the whole bench, with both radios as one source before it.
type maker struct {
	w          *walk
	s          situation
	pupil, his side
	both       *pair.Source
	try        *prove.Trying
}

func (w *walk) maker() (*maker, error) {
	m := &maker{w: w, s: w.all[0]}
	var err error
	if m.both, err = pair.New(&m.pupil, &m.his, w.l.Pair); err != nil {
		return nil, err
	}
	pupil, his := w.told(&m.s)
	for i, s := range [...]*side{&m.pupil, &m.his} {
		s.tell(0, pulse.Reading{Kind: pulse.Plug, Value: 1})
		s.tell(0, pulse.Reading{Kind: pulse.Link, Value: 1})
		s.tell(0, pulse.Reading{Kind: pulse.Controls, Frame: [...]pulse.Frame{pupil.Frame, his.Frame}[i]})
	}
	m.pupil.tell(0, pulse.Reading{Kind: pulse.Power})
	if mode := w.l.Radio.StickMode; mode != 0 && mode != 2 {
		m.pupil.tell(0, pulse.Reading{Kind: pulse.StickMode, Value: int32(mode)})
	}
	m.try = prove.NewTrying(w.both, m.heard(0))
	return m, nil
}

// heard is what the craft hears of both until then. What only tells of the hand-over is left out: it changes nothing.
func (m *maker) heard(at int64) (out []pulse.Reading) {
	all, _ := m.both.Poll(nil, at) // these sources never end
	for i := range all {
		if all[i].Kind != pulse.Instructor {
			out = append(out, all[i])
		}
	}
	return out
}

// do makes one movement, and waits for so many slots after it.
func (m *maker) do(v move, slots int) {
	at, st := m.try.At(), prove.Step{Kind: v.kind, Control: -1}
	to, _ := m.w.step(&m.s, v)
	switch v.kind {
	case prove.PowerOn:
		m.pupil.tell(at, pulse.Reading{Kind: pulse.Power, Value: 1})
	case prove.PlugOut:
		m.pupil.tell(at, pulse.Reading{Kind: pulse.Plug})
	case prove.PlugIn:
		m.pupil.tell(at, pulse.Reading{Kind: pulse.Plug, Value: 1})
	case prove.PupilOff:
		m.pupil.tell(at, pulse.Reading{Kind: pulse.Link})
	case prove.PupilOn:
		m.pupil.tell(at, pulse.Reading{Kind: pulse.Link, Value: 1})
	default:
		l := &m.w.levers[v.lever]
		from, is := l.places[m.s.at[v.lever]], l.places[v.to]
		st.Control, st.From, st.To = l.control, from.width, is.width
		c := &m.w.both.Radio.Controls[l.control]
		st.FromPosition, st.ToPosition = prove.PlaceOf(c, from.width), prove.PlaceOf(c, is.width)
	}
	pupil, his := m.w.told(&to)
	if v.lever >= m.w.pupils {
		m.his.tell(at, pulse.Reading{Kind: pulse.Controls, Frame: his.Frame})
	} else if v.lever >= 0 && !to.out || v.kind == prove.PlugIn {
		m.pupil.tell(at, pulse.Reading{Kind: pulse.Controls, Frame: pupil.Frame})
	}
	m.try.Do(st, m.heard(at))
	m.try.Wait(slots)
	m.s = to
}

// to goes to a situation by the movements that first led there.
func (m *maker) to(i int) {
	var path []int
	for ; m.w.from[i] >= 0; i = m.w.from[i] {
		path = append(path, i)
	}
	for n := len(path) - 1; n >= 0; n-- {
		v := m.w.by[path[n]]
		_, c := m.w.step(&m.s, v)
		m.do(v, max(c.slots-2, 0))
	}
}

// end finishes the way.
func (m *maker) end() *prove.Way {
	w := m.try.End()
	w.Each = [2][]pulse.Reading{m.pupil.all, m.his.all}
	return w
}

// way is that to a hit, nil where it does not come out so on the whole bench.
func (j *judge) way(h *hit) *prove.Way {
	m, err := j.w.maker()
	if err != nil {
		return nil
	}
	m.to(h.from)
	to, c := j.w.step(&m.s, h.m)
	m.do(h.m, h.slot)
	armed := to.slot.Arming.Armed
	switch {
	case h == &j.arms:
		armed = c.armed >= 0
	case h == &j.disarms:
		armed = c.disarmed < 0
	}
	if m.try.Armed() != armed {
		return nil
	}
	return m.end()
}

// try is an honest try at what cannot be done.
func (j *judge) try(r prove.Rule) *prove.Way {
	m, err := j.w.maker()
	if err != nil {
		return nil
	}
	if r == prove.TutorCanDisarm {
		m.to(j.w.by0(&j.armed))
		j.w.tryDisarm(m)
		return m.end()
	}
	power := move{prove.PowerOn, -1, 0}
	_, c := j.w.step(&m.s, power)
	m.do(power, max(c.slots-2, 0))
	cfg, pairs := j.w.cfg, &j.l.Pair
	if r == prove.TutorCanTake {
		j.w.sweep(m, j.w.pupils, len(j.w.levers), pairs.Switch)
		return m.end()
	}
	j.w.sweep(m, j.w.pupils, len(j.w.levers), cfg.Layout.Arm)
	j.w.sweep(m, 0, j.w.pupils, cfg.Layout.Arm)
	return m.end()
}

// by0 is the situation in which a hit ends.
func (w *walk) by0(h *hit) int {
	to, _ := w.step(&w.all[h.from], h.m)
	return w.at[to]
}

// sweep takes the lever on a channel, of those from first to end, to its last place, or to its first where it stands there.
func (w *walk) sweep(m *maker, first, end int, channel int8) {
	for n := first; n < end; n++ {
		v := &w.levers[n]
		if channel < 0 || !w.carries(n, channel) || len(v.places) < 2 {
			continue
		}
		to := uint8(len(v.places) - 1)
		if m.s.at[n] == to {
			to = 0
		}
		one := move{prove.Move, n, to}
		_, c := w.step(&m.s, one)
		m.do(one, max(c.slots-2, 0))
	}
}

// tryDisarm has the instructor do what he can: take the sticks and hold the corner, or take his arm switch off.
func (w *walk) tryDisarm(m *maker) {
	l := &w.cfg.Layout
	if w.cfg.Arming.By == arming.BySwitch {
		w.sweep(m, w.pupils, len(w.levers), l.Arm)
		return
	}
	w.sweep(m, w.pupils, len(w.levers), w.l.Pair.Switch)
	for n := w.pupils; n < len(w.levers); n++ {
		if (w.carries(n, l.Throttle) || w.carries(n, l.Yaw)) && m.s.at[n] != 0 {
			one := move{prove.Move, n, 0}
			_, c := w.step(&m.s, one)
			m.do(one, max(c.slots-2, 0))
		}
	}
}
