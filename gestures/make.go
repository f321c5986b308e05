package gestures

import "propsoff.example/sim/happening"

// make decides which of the patterns that are complete are made, and gives the first.
func (m *moment) make(set []State, mode uint8, tick int64, log *happening.Log) int {
	first := -1
	for i := range set {
		if m.complete(set, i) && !m.waits(set, i, mode) && (first < 0 || m.above(i, first)) {
			first = i
		}
	}
	if first < 0 {
		return -1
	}
	together := m.done(set, first, 0, tick, log)
	for i := range set {
		if i != first && m.complete(set, i) && m.goesWith(i, together) && !m.waits(set, i, mode) {
			together = m.done(set, i, together, tick, log)
		}
	}
	for i := range set {
		s := &set[i]
		switch {
		case s.Phase == Standing && s.Part+1 == m.cfg.Patterns[i].Count && !m.goesWith(i, together):
			m.spend(i, s)
		case s.Phase == Close:
			s.Told, s.Time = true, 0
		}
	}
	return first
}

// single stands for a pattern that was made and goes with no other.
const single = 0

// done is a pattern that is made. It gives the set of those made so far.
func (m *moment) done(set []State, i int, together uint64, tick int64, log *happening.Log) uint64 {
	s := &set[i]
	log.Add(tick, happening.Gesture, int32(i), int32(s.Time-1)*int32(m.cfg.SlotTicks))
	m.spend(i, s)
	if i >= MostTogether {
		return single
	}
	return together | 1<<i
}

func (m *moment) spend(i int, s *State) {
	free := s.Part > 0 && m.look(&m.cfg.Patterns[i], 0).loose != 0
	*s = State{Phase: Spent, Part: s.Part, Free: free}
}

// goesWith reports whether a pattern is declared to go with all those made so far.
func (m *moment) goesWith(i int, together uint64) bool {
	return i < MostTogether && together != single && m.cfg.Patterns[i].With&together == together
}

func (m *moment) complete(set []State, i int) bool {
	s, p := &set[i], &m.cfg.Patterns[i]
	return s.Phase == Standing && s.Part+1 == p.Count && s.Time == p.Parts[s.Part].Dwell+1
}

// waits reports whether the sticks stand in a pattern that asks for all that this one asks and for more.
func (m *moment) waits(set []State, i int, mode uint8) bool {
	for k := range set {
		p := &m.cfg.Patterns[k]
		if k == i || set[k].Phase != Standing || set[k].Part+1 != p.Count || m.together(i, k) {
			continue
		}
		if Contains(m.cfg, k, i, mode) && m.order(k, i) < 0 {
			return true
		}
	}
	return false
}

// together reports whether two patterns are declared to go together.
func (m *moment) together(a, b int) bool {
	return a < MostTogether && b < MostTogether && m.cfg.Patterns[a].With>>b&1 == 1
}

// order is below 0 where a asks for more than b: more directions, or as many and more parts.
func (m *moment) order(a, b int) int {
	p, q := &m.cfg.Patterns[a], &m.cfg.Patterns[b]
	if n := asked(&q.Parts[q.Count-1]) - asked(&p.Parts[p.Count-1]); n != 0 {
		return n
	}
	return int(q.Count) - int(p.Count)
}

// above reports whether a goes before b.
func (m *moment) above(a, b int) bool {
	n := m.order(a, b)
	return n < 0 || n == 0 && a < b
}

// asked counts the directions that a part asks for.
func asked(p *Part) int {
	n := 0
	for _, z := range p.Zones {
		if z != Any {
			n++
		}
	}
	return n
}

// close records sticks that stood for a whole dwell where a pattern wants all directions but one, unless that makes another pattern.
func (m *moment) close(set []State) {
	other := false
	for i := range set {
		s := &set[i]
		other = other || s.Phase == Held || s.Phase == HeldOver || s.Phase == Spent || s.Phase == Standing && s.Part+1 == m.cfg.Patterns[i].Count
	}
	for i := range set {
		s, p := &set[i], &m.cfg.Patterns[i]
		if s.Phase != Close || s.Time != p.Parts[s.Part].Dwell+1 {
			continue
		}
		s.Told, s.Time = true, 0
		if other {
			continue
		}
		v := m.look(p, s.Part)
		d := v.lost
		if v.loose == 0 {
			d = v.missing
		}
		m.missed(i, p, m.why(p, s.Part, d, happening.NearCorner), d)
	}
}

// why is how a direction misses its zone: a stick that was to stay in the middle and went to an end went too far.
func (m *moment) why(p *Pattern, part uint8, d Direction, how happening.Near) happening.Near {
	if p.Parts[part].Zones[d] == Middle && (m.at[kind(p)][d][Low]|m.at[kind(p)][d][High])&isStill != 0 {
		return happening.NearOvershot
	}
	return how
}

// missed keeps a near miss to be recorded: in one slot only that of the pattern that asks for the most.
func (m *moment) missed(i int, p *Pattern, how happening.Near, d Direction) {
	if m.near < 0 || m.above(i, m.near) {
		m.near, m.how, m.about = i, how, d
	}
}
