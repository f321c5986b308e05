package drill

import (
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// still is where hands lie that have come to rest: the sticks by how far they may wander, the switches by their positions.
type still struct {
	sticks      [Yaw + 1]pulse.Width
	arm, second layout.Place
	mode        uint8
}

// stillAt is where the hands lie in this tick.
func stillAt(in *Input) (s still) {
	copy(s.sticks[:], in.Facts.Held[:])
	s.arm, s.second, s.mode = in.Facts.Arm, in.Facts.Second, in.Facts.HandMode
	return s
}

// has reports whether the hands of this tick still lie there.
func (s *still) has(in *Input, band pulse.Width) bool {
	for j, at := range s.sticks {
		held := in.Facts.Held[j]
		if held.Valid() != at.Valid() || max(held-at, at-held) > band {
			return false
		}
	}
	return s.arm == in.Facts.Arm && s.second == in.Facts.Second && s.mode == in.Facts.HandMode
}

// settle begins the wait once the hands have lain still for long enough. What is no longer as it was asked for is asked for again.
func (s *State) settle(cfg *Config, in *Input, out *Events) {
	c, t := &cfg.Cases[s.Case], cfg.times()
	if broken(c, in) >= 0 {
		s.lastStep(c, in, out)
		return
	}
	if !c.Flown() && !s.still.has(in, t.Band+trembles(c)) { // hands that fly do not lie still
		s.Since, s.still = in.Tick, stillAt(in)
	}
	if in.Tick < s.Since+int64(t.Rest) {
		return
	}
	s.Phase, s.Since = Waiting, in.Tick
	r := random(s.seed, uint64(s.Attempt), 2)
	s.Due = in.Tick + int64(c.WaitLow) + int64(r.below(uint64(c.WaitHigh-c.WaitLow)+1))
	out.add(Event{Kind: WaitBegins, Case: s.Case})
	if s.Due <= in.Tick {
		s.cue(cfg, in, out)
	}
}

// lastStep asks for the last step of preparation again.
func (s *State) lastStep(c *Case, in *Input, out *Events) {
	s.Phase, s.Since, s.At = Preparing, in.Tick, uint8(len(c.Before)-1)
	out.add(Event{Kind: BeforeStep, Case: s.Case, Number: int32(s.At)})
}

// prepareAgain goes back to the last step of preparation where the craft no longer flies as it did, want i of that step: that is no false start.
func (s *State) prepareAgain(c *Case, i int, in *Input, out *Events) bool {
	if !c.Before[len(c.Before)-1].Until[i].flown() {
		return false
	}
	s.forget()
	s.lastStep(c, in, out)
	return true
}

// broken is the first want of the last step of preparation that does not hold any more, −1 for none.
func broken(c *Case, in *Input) int {
	if n := len(c.Before); n > 0 {
		for i := range c.Before[n-1].Until {
			if w := &c.Before[n-1].Until[i]; !w.Kind.Happening() && !w.holds(in) {
				return i
			}
		}
	}
	return -1
}

// trembles is by how much a stick seems to move from one reading to the next where the case itself has planted noise.
func trembles(c *Case) (by pulse.Width) {
	for i := range c.Set {
		if f := &c.Set[i].Fault; f.Deed == fault.Noisy {
			by = max(by, 2*pulse.Micros(int(f.B)))
		}
	}
	return by
}
