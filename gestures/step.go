package gestures

import "propsoff.example/sim/happening"

// Step advances a set by one slot and gives the index of the pattern that was made, −1 for none, and the first of several made
// together. The log may be nil.
func Step(cfg *Config, set []State, in *Input, tick int64, log *happening.Log) int {
	m := moment{cfg: cfg, near: -1}
	valid := in.Valid && m.see(in)
	set = set[:min(len(set), len(cfg.Patterns))]
	complete, due := false, false
	for i := range set {
		p, s := &cfg.Patterns[i], &set[i]
		if p.Count == 0 {
			continue
		}
		if !in.Live {
			m.hush(p, s, valid)
			continue
		}
		m.advance(i, p, s, valid)
		if valid {
			m.follow(p, s)
		}
		if valid && s.Time == p.Parts[s.Part].Dwell+1 {
			complete = complete || s.Phase == Standing
			due = due || s.Phase == Close
		}
	}
	made := -1
	if complete {
		made = m.make(set, in.StickMode, tick, log)
	}
	if due {
		m.close(set)
	}
	if made < 0 && m.near >= 0 {
		log.Add(tick, happening.GestureNear, int32(m.near), int32(m.how)|int32(m.about)<<8)
	}
	return made
}

// hush is a slot in which gestures do not count: chains are given up, and what the sticks stand in is spent.
func (m *moment) hush(p *Pattern, s *State, valid bool) {
	stood := s.Part == 0 && (s.Phase == Standing || s.Phase == Held || s.Phase == HeldOver)
	switch {
	case !valid && s.Phase == Spent && s.Wait == 0:
		s.Free = false
	case !valid && stood:
		*s = State{Phase: Spent}
	case !valid:
		*s = State{}
	case s.Phase == Spent && s.Wait == 0 && m.look(p, s.Part).loose == 0:
		s.Free = s.Part > 0 && m.look(p, 0).loose != 0
	case stood && m.look(p, 0).loose == 0, m.look(p, 0).tight == 0:
		*s = State{Phase: Spent}
	default:
		*s = State{Phase: Away}
	}
}

// advance is a slot in which gestures count, for one pattern by itself.
func (m *moment) advance(i int, p *Pattern, s *State, valid bool) {
	part := &p.Parts[s.Part]
	if s.Time > 0 && s.Time <= part.Dwell {
		s.Time++
	}
	if s.Wait > 0 && s.Wait < 2*part.Within+2 {
		s.Wait++
	}
	if s.Again > 0 && s.Again <= p.Parts[0].Dwell {
		s.Again++
	}
	if !valid || m.startsAgain(p, s) {
		return
	}
	v := m.look(p, s.Part)
	switch s.Phase {
	case Unseen:
		s.Phase = Away
		if v.tight == 0 {
			s.Phase = Spent
		}
		return
	case Spent:
		goes := s.Wait > 0 && s.Wait <= 2*part.Within+1 // a chain that still has time
		if v.loose == 0 && (goes || s.Wait == 0) {
			return
		}
		if s.Phase = Away; !goes {
			v = m.again(p, s)
		}
	case Standing:
		if v.loose == 0 {
			if s.Time == part.Dwell+1 && s.Part+1 < p.Count {
				m.hold(p, s)
			}
			return
		}
		// Half the dwell (ours): a hand that only passes through has not tried.
		if 2*int(s.Time-1) >= int(part.Dwell) {
			m.missed(i, p, m.why(p, s.Part, v.lost, happening.NearEarly), v.lost)
			s.Told = true
		}
		s.Phase, s.Time = Away, 0
	case Held, HeldOver:
		next := m.look(p, s.Part+1)
		if s.Phase == HeldOver {
			if next.loose == 0 {
				if v.loose != 0 {
					*s = State{Phase: Spent, Part: s.Part + 1, Wait: 1, Free: s.Free}
				}
				return
			}
			s.Phase = Held
		}
		if next.tight == 0 {
			*s = State{Phase: Standing, Part: s.Part + 1, Time: 1, Wait: 1, Free: s.Free}
			return
		}
		if v.loose == 0 {
			return
		}
		*s = State{Phase: Away, Part: s.Part + 1, Wait: 1, Free: s.Free}
		v = next
	}
	m.arrive(i, p, s, v)
}

// hold is a part that is made and is not the last.
func (m *moment) hold(p *Pattern, s *State) {
	*s = State{Phase: Held, Part: s.Part, Free: s.Free}
	if m.look(p, s.Part+1).loose == 0 {
		s.Phase = HeldOver
	}
}

// startsAgain takes a chain that waits for a later part back to its first one, once that has been made again.
func (m *moment) startsAgain(p *Pattern, s *State) bool {
	switch {
	case s.Again == 0:
	case m.look(p, 0).loose != 0:
		s.Again = 0
	case s.Again == p.Parts[0].Dwell+1:
		*s = State{}
		m.hold(p, s)
		return true
	}
	return false
}

// follow notes that the sticks have left the first part since it was made, and that they came into it again while a later one is
// waited for.
func (m *moment) follow(p *Pattern, s *State) {
	if s.Part == 0 || s.Free && (s.Wait == 0 || s.Again > 0 || s.Phase == Standing) {
		return
	}
	v := m.look(p, 0)
	if !s.Free {
		s.Free = v.loose != 0
	} else if v.tight == 0 {
		s.Again = 1
	}
}

// again lets a pattern begin again: with the time that has passed in its first part, where the sticks have come into that again; spent,
// where they have stood in it since it was made.
func (m *moment) again(p *Pattern, s *State) view {
	free, since := s.Part == 0 || s.Free, s.Again
	*s = State{Phase: Away}
	v := m.look(p, 0)
	switch {
	case since > 0:
		s.Phase, s.Time = Standing, since
	case v.tight == 0 && !free:
		s.Phase = Spent
	}
	return v
}

// arrive is what a pattern makes of sticks that have not stood in it so far.
func (m *moment) arrive(i int, p *Pattern, s *State, v view) {
	late := false
	if s.Part > 0 {
		within := p.Parts[s.Part].Within
		if late = s.Wait > within+1; s.Wait > 2*within+1 {
			late, v = false, m.again(p, s)
		}
	}
	if late && v.tight == 0 {
		m.missed(i, p, happening.NearLate, 0)
		v = m.again(p, s)
	} else if late && s.Again > 0 {
		v = m.again(p, s) // the chain from its beginning, before its time is over
	}
	if s.Phase == Spent || s.Phase == Standing {
		return
	}
	if v.tight == 0 {
		s.Phase, s.Time, s.Again = Standing, 1, 0
		return
	}
	if s.Phase == Close && (v.loose > 1 || v.away) {
		s.Phase, s.Time = Away, 0
	}
	if s.Phase == Away && v.tight == 1 && !v.far {
		s.Phase = Close
		if !s.Told {
			s.Time = 1
		}
	}
	if v.away {
		s.Told = false
	}
}
