package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// link draws the way from the radio to the craft and how the craft judges it; it gives what is left.
func (b *board) link(r ink.Rect) ink.Rect {
	b.Group("link")
	rest := b.section(r, "link heading", phrase.LinkTitle())
	way := phrase.ReceiversWay(&b.v.Facts)
	lines, _ := ink.CountLines(way, rest.W, b.small, ink.Regular)
	row, rest := rest.CutTop(34*b.u, b.u)
	b.linkDrawing(row)
	foot, rest := rest.CutTop(ink.BlockHeight(b.small, lines), b.gap)
	b.Block("receiver", foot.X, foot.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: foot}, ink.Block{Width: foot.W}, way)
	return rest
}

// linkDrawing is a radio, a line, and a craft. The line is whole for a good link, broken into dashes for a fresh one,
// and cut in two with a bar across each end for a lost one; over it stands the word.
func (b *board) linkDrawing(r ink.Rect) {
	s := &b.v.Snap
	y := r.Bottom() - 11*b.u
	on := s.In.Transmitting() && b.v.Facts.Silent != facts.Unexplained
	b.radioSign(r.X+15*b.u, y, on)
	b.craftSign(r.Right()-15*b.u, y, s.In.Powered)
	x1, x2 := r.X+36*b.u, r.Right()-36*b.u
	mid := (x1 + x2) / 2
	word := phrase.LinkLine(&b.v.Facts)
	b.Text("link word", mid, r.Y+8*b.u, ink.Style{Size: b.body, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: r}, word)
	role := ink.Ink
	if s.Link != facts.Good {
		role = ink.Link
	}
	ailing := s.SilentMillis >= 100
	p := ink.Paint{Line: role, Width: 2 * b.u}
	switch {
	case b.v.Facts.Hearing == facts.ItsReceiver:
		// The radio is silent and the receiver goes on by itself: the way is cut, and what comes to the craft begins at a ring.
		cut, ring := x1+(x2-x1)*0.25, x1+(x2-x1)*0.55
		b.Line("link stub", x1, y, cut, y, p)
		b.Line("link cut", cut, y-5*b.u, cut, y+5*b.u, p)
		b.Circle("receiver alone", ring, y, 5*b.u, ink.Paint{Line: ink.Link, Width: 2 * b.u})
		b.Line("link", ring+5*b.u, y, x2, y, p)
		b.arrowTip(x2, y, role)
	case s.Link.Up() && s.In.Powered && !ailing:
		if s.Link == facts.Fresh {
			p.Dash = ink.Dash{On: 7 * b.u, Off: 5 * b.u}
		}
		b.Line("link", x1, y, x2, y, p)
		b.arrowTip(x2, y, role)
	default:
		half := (x2 - x1) / 2
		if !on {
			half *= 0.35
		} else {
			half *= 0.8
		}
		b.Line("link stub", x1, y, x1+half, y, p)
		b.Line("link cut", x1+half, y-5*b.u, x1+half, y+5*b.u, p)
		b.Line("link cut", x2-8*b.u, y-5*b.u, x2-8*b.u, y+5*b.u, p)
		b.Line("link stub", x2-8*b.u, y, x2, y, p)
	}
}

func (b *board) arrowTip(x, y float64, role ink.Role) {
	tip := [...]ink.Point{{X: x - 7*b.u, Y: y - 4*b.u}, {X: x, Y: y}, {X: x - 7*b.u, Y: y + 4*b.u}}
	b.Polyline("link arrow", tip[:], ink.Paint{Line: role, Width: 2 * b.u})
}

// radioSign is a small radio; while it sends, arcs leave its aerial.
func (b *board) radioSign(x, y float64, sends bool) {
	w, h := 26*b.u, 15*b.u
	p := ink.Paint{Line: ink.Ink, Width: 1.4 * b.u}
	b.RoundRect("radio", ink.Rect{X: x - w/2, Y: y - h/2 + 2*b.u, W: w, H: h}, 4*b.u, p)
	b.Line("aerial", x, y-h/2+2*b.u, x, y-h/2-6*b.u, p)
	b.Circle("radio stick", x-6*b.u, y+2*b.u, 2.5*b.u, ink.Paint{Line: ink.Ink, Width: 1.2 * b.u})
	b.Circle("radio stick", x+6*b.u, y+2*b.u, 2.5*b.u, ink.Paint{Line: ink.Ink, Width: 1.2 * b.u})
	if sends {
		for i := range 2 {
			b.Arc("radio sends", x, y-h/2-6*b.u, (4+4*float64(i))*b.u, -0.3*math.Pi, 0.12*math.Pi, p)
		}
	}
}

// craftSign is a small craft from above; without power it is drawn in dashes.
func (b *board) craftSign(x, y float64, powered bool) {
	p := ink.Paint{Line: ink.Ink, Width: 1.4 * b.u}
	if !powered {
		p.Line, p.Dash = ink.Rule, ink.Dash{On: 2 * b.u, Off: 2 * b.u}
	}
	d := 7 * b.u
	b.Line("arm of craft", x-d, y-d, x+d, y+d, p)
	b.Line("arm of craft", x-d, y+d, x+d, y-d, p)
	for _, q := range [4]ink.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}} {
		b.Circle("motor of craft", x+q.X*d, y+q.Y*d, 3.5*b.u, p)
	}
}
