package sheet

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// classFlight draws the flying craft for a room: from behind and from above, with how it flies in words where there is room.
func (b *board) classFlight(r ink.Rect) {
	b.Group("flight")
	s := &b.v.Snap
	words := phrase.FlightStands(b.v.flightFacts(s))
	n, _ := ink.CountLines(words, r.W, b.body, ink.Bold)
	h := ink.BlockHeight(b.body, n)
	if h > r.H {
		return
	}
	b.Block("flight stands", r.X, r.Y, ink.Style{Size: b.body, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, words)
	_, r = r.CutTop(h, 5*b.u)
	re, p := &b.v.Flight.Replay, &b.v.Flight.Pace
	if re.On || p.Paused || p.Slow > 1 {
		var row ink.Rect
		row, r = r.CutTop(max(25*b.u, b.cap+2*b.u), 4*b.u)
		if re.On {
			b.lookBack(row, re)
		} else {
			b.threePace(row)
		}
	}
	if r.H < 100*b.u {
		return
	}
	fl := newFlying(s, b.v.Config, b.v.Flight.Trail)
	b.upright("behind", r.Cell(0, 2, 1, b.gap), eyeBehind(fl.facing), &fl)
	b.downward(r.Cell(1, 2, 1, b.gap), &fl)
}
