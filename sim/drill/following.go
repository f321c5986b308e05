package drill

import (
	"propsoff.example/sim/flight"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// Following is the mark of the try under way, and how far the hand has led the craft after it. Its zero value is none.
type Following struct {
	// Run is the mark; On: it is followed now.
	Run mark.Run
	On  bool

	asked float64
	since int64
}

// Step follows a run by a tick, before the run takes it in: s is where the run stood, ctl how the craft is flown. It reports whether the mark has come to
// its end in this tick: then its record is to be measured, and the run told (Input.Followed).
func (f *Following) Step(cfg *Config, s *State, in *Input, ctl *flight.Control) (over bool) {
	if int(s.Case) >= len(cfg.Cases) || s.Phase != Running || !cfg.Cases[s.Case].Mark.On() {
		f.On = false
		return false
	}
	m := &cfg.Cases[s.Case].Mark
	if !f.On || f.since != s.Given {
		r := random(s.seed, uint64(s.Attempt), 5)
		f.On, f.since, f.asked = true, s.Given, 0
		f.Run.Begin(*m, r.next())
	}
	if f.Run.Over() {
		return false
	}
	stick := 0.0
	if held := in.Facts.Held[Roll+Job(m.Axis-mark.Roll)]; held.Valid() {
		stick = min(max(float64(held-pulse.Centre)/float64(pulse.Travel), -1), 1)
	}
	f.asked = mark.Ideal(m, ctl, f.asked, stick)
	f.Run.Step(stick, f.asked, f.asked) // the ideal craft: it stands where it was asked to
	return f.Run.Over()
}
