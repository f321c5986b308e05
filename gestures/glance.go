package gestures

import "propsoff.example/sim/pulse"

// Glance is how one pattern stands, for a screen; the sentence is made where it is shown.
type Glance struct {
	Phase Phase
	// Part is the part that is asked for, counted from 0, of Parts. While Held it is the next one, as the one before has been made.
	Part, Parts uint8
	// Share is how much of the part's dwell has passed, in thousandths: Slots of the Dwell slots.
	Share        int32
	Slots, Dwell uint16
	// Left is how many slots are left to enter this part after the one before, −1 where no limit runs.
	Left int32
	// At is how each direction stands, in the pattern's own order (by job or by physical stick).
	At [Directions]Place
	// Missing is how many directions are not in place; Worst is the one furthest off, where there are any.
	Missing uint8
	Worst   Direction
	// Release: the sticks must leave the pattern before it can begin.
	Release bool
}

// Place is where one direction stands against what a pattern asks of it: Zone, and whether it is In.
type Place struct {
	Zone Zone
	In   bool
	// Off is how far and which way the stick must go to be in place, in eighths of a µs, above 0 towards the high end; 0 where it is.
	Off pulse.Width
}

// Look says how pattern n stands, and what it lacks now. Sticks without a pulse count as being as far off as can be.
func Look(cfg *Config, n int, s State, in *Input) Glance {
	p := &cfg.Patterns[n]
	g := Glance{Phase: s.Phase, Part: s.Part, Parts: p.Count, Left: -1, Release: s.Phase == Spent || s.Phase == HeldOver}
	if (s.Phase == Held || s.Phase == HeldOver) && s.Part+1 < p.Count {
		g.Part++
	}
	part := &p.Parts[g.Part]
	g.Dwell = part.Dwell
	if s.Phase == Standing && s.Time > 0 {
		g.Slots = min(s.Time-1, part.Dwell)
		g.Share = int32(g.Slots) * 1000 / int32(max(part.Dwell, 1))
	}
	if s.Part > 0 && s.Wait > 0 && s.Phase != Standing {
		g.Left = max(int32(part.Within)+1-int32(s.Wait), 0)
	}
	jobs := OnSticks(in.StickMode)
	stays := s.Phase == Standing || s.Phase == Spent
	worst := pulse.Width(0)
	for d, zone := range part.Zones {
		w := in.Sticks[d]
		if p.Physical {
			w = in.Sticks[jobs[d]]
		}
		off := cfg.off(w, zone, stays)
		g.At[d] = Place{Zone: zone, In: off == 0, Off: off}
		if off == 0 {
			continue
		}
		g.Missing++
		if a := max(off, -off); a > worst {
			worst, g.Worst = a, Direction(d)
		}
	}
	return g
}

// off is how far and which way a stick must go to stand in a zone; 0 where it does. stays takes the edges by which it is left.
func (cfg *Config) off(w pulse.Width, zone Zone, stays bool) pulse.Width {
	low, high, middle := cfg.LowIn, cfg.HighIn, cfg.MiddleIn
	if stays {
		low, high, middle = cfg.LowOut, cfg.HighOut, cfg.MiddleOut-1
	}
	switch zone {
	case Low:
		if w <= low && w.Valid() {
			return 0
		}
		return min(cfg.LowIn-w, -1)
	case High:
		if w >= high {
			return 0
		}
		return max(cfg.HighIn-w, 1)
	case Middle:
		switch off := w - pulse.Centre; {
		case off > middle:
			return cfg.MiddleIn - off
		case off < -middle:
			return -cfg.MiddleIn - off
		}
	}
	return 0
}
