package practice

// Later moves everything that counts from a tick by so many, so that a copy of what was can go on now. What chance makes of a tick (a
// control that trembles, frames that are late or lost) is made of the new ticks.
func (p *Practice) Later(by int64) {
	s := p.bench.State()
	s.Tick += by
	s.LastValidTick += by
	s.RestSince += by
	for i := range s.Way.Due[:s.Way.N] {
		s.Way.Due[i] += by
	}
	p.bench.Restore(s)
	p.faults.state.Later(by)
}
