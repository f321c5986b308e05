package tell

import (
	"propsoff/assets/words"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// positionDistance is how far the nearest edge is.
func positionDistance(p *switches.Position) pulse.Width { return max(p.Width-p.Edge, p.Edge-p.Width) }

// positionFine reports whether whole µs are too coarse for a position: near its edge, and where value and distance would contradict each
// other.
func positionFine(p *switches.Position) bool {
	d := pulse.Micros(positionDistance(p).Whole())
	if p.Width < p.Edge {
		d = -d
	}
	return p.HasEdge && (positionDistance(p) < 10*pulse.Eighths || pulse.Micros(p.Width.Whole())-d != p.Edge)
}

// PositionAt is where a position stands, in µs.
func PositionAt(p *switches.Position) words.Value {
	if positionFine(p) {
		return Exact(p.Width)
	}
	return Micros(p.Width)
}

// PositionPlace calls a position by its switch and where it stands.
func PositionPlace(s *switches.Switch, p *switches.Position) words.Text {
	return words.T("layout.place", words.Args{"name": SwitchName(s), "at": PositionAt(p)})
}

// PositionValue is where a position stands and how far it spreads, where that was measured.
func PositionValue(p *switches.Position, measured bool) words.Text {
	spread := words.Value(words.Text{})
	if measured && p.Spread != 0 { // in tenths of a µs, rounded up
		spread = words.Fixed{N: (int64(p.Spread)*10 + pulse.Eighths - 1) / pulse.Eighths, Places: 1}
	}
	return words.T("layout.value", words.Args{"at": PositionAt(p), "spread": spread})
}

// positionFar is how far the nearest edge is, and says nothing for a position on it.
func positionFar(p *switches.Position) words.Value {
	switch d := positionDistance(p); {
	case d == 0:
		return words.Text{}
	case positionFine(p):
		return Exact(d)
	default:
		return Micros(d)
	}
}

// noiseTimes is how many times its noise a position is from its edge: "6.5×".
func noiseTimes(p *switches.Position) words.Text {
	n := words.Fixed{N: int64(p.Times()), Places: 1}
	if n.N >= 100 {
		n = words.Fixed{N: n.N / 10}
	}
	return words.T("layout.times", words.Args{"n": n})
}

// PositionMargin is how far the nearest edge is.
func PositionMargin(p *switches.Position, measured bool) words.Text {
	if !p.HasEdge {
		return words.T("layout.no-edge")
	}
	times := words.Text{}
	if measured && p.Spread != 0 {
		times = noiseTimes(p)
	}
	return words.T("layout.margin", words.Args{"far": positionFar(p), "edge": Exact(p.Edge), "times": times})
}
