package gestures

import (
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// moment is one slot: where each direction stands, and the near miss to be recorded.
type moment struct {
	cfg   *Config
	at    [2][Directions][zones]uint8 // by job and by physical stick
	near  int
	how   happening.Near
	about Direction
}

// These may be true of a direction and a zone, one bit each.
const (
	isIn    = 1 << iota // at or beyond the edge where the zone is entered
	isStill             // not yet over the edge where it is left
	isNear              // at least halfway to the first edge
	isByIt              // at least halfway to the second
)

// see fills in where the directions stand. It reports false where a stick carries no pulse.
func (m *moment) see(in *Input) bool {
	c := m.cfg
	for d, w := range in.Sticks {
		if !w.Valid() {
			return false
		}
		at := &m.at[0][d]
		at[Any] = isIn | isStill | isNear | isByIt
		at[Low] = stands(pulse.Centre-w, pulse.Centre-c.LowIn, pulse.Centre-c.LowOut)
		at[High] = stands(w-pulse.Centre, c.HighIn-pulse.Centre, c.HighOut-pulse.Centre)
		off := max(w-pulse.Centre, pulse.Centre-w)
		at[Middle] = isNear | isByIt
		if off <= c.MiddleIn {
			at[Middle] |= isIn
		}
		if off < c.MiddleOut {
			at[Middle] |= isStill
		}
	}
	for i, job := range OnSticks(in.StickMode) {
		m.at[1][i] = m.at[0][job]
	}
	return true
}

// stands is how a direction stands at a distance from the centre, towards an end entered and left at these.
func stands(off, in, out pulse.Width) uint8 {
	b := uint8(0)
	if off >= in {
		b |= isIn
	}
	if off >= out {
		b |= isStill
	}
	if 2*int(off) >= int(in) {
		b |= isNear
	}
	if 2*int(off) >= int(out) {
		b |= isByIt
	}
	return b
}

func kind(p *Pattern) int {
	if p.Physical {
		return 1
	}
	return 0
}

// view is how the sticks stand with regard to one part.
type view struct {
	tight, loose  int       // directions that do not stand in it, by the edge of coming and by that of going
	missing, lost Direction // the first of each
	far, away     bool      // one is not even near, coming and going
}

func (m *moment) look(p *Pattern, part uint8) view {
	at := &m.at[kind(p)]
	var v view
	for d := Directions - 1; d < Directions; d-- { // downwards, so that the first one is kept
		b := at[d][p.Parts[part].Zones[d]]
		if b&isIn == 0 {
			v.tight++
			v.missing = d
		}
		if b&isStill == 0 {
			v.loose++
			v.lost = d
		}
		v.far = v.far || b&isNear == 0
		v.away = v.away || b&isByIt == 0
	}
	return v
}
