package learn

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/input/learn"
	"propsoff.example/sim/vec"
)

// The craft of a question is drawn at most this far from level, and the arrow of a turn so long; ringInner is where the band on which
// zones lie begins, as a share of its outer edge (all ours).
const (
	ringInner = 0.8
	mostLean  = 42 * math.Pi / 180
	mostTurn  = 64 * math.Pi / 180
)

// leaning draws the craft as the stick that answers leans, turns or lifts it, and the hatched zone that it is to come into.
func (b *board) leaning(r ink.Rect) {
	b.Group("lean")
	l := &b.V.Learn
	if title := words.Of("lean-title", l.Job); ink.Width(b.Say(title), b.Small, ink.Bold) <= r.W {
		r = b.Section(r, "lean-heading", b.Say(title))
	}
	key, r := r.CutBottom(ink.BlockHeight(b.Small, 1), 4*b.U)
	b.zoneKey(key)
	if min(r.W, r.H) < 40*b.U {
		return // what can be seen of so small a drawing is no help
	}
	switch l.Question {
	case learn.Yaw:
		b.turning(r)
	case learn.Throttle:
		b.climbing(r)
	default:
		b.tilting(r)
	}
}

// zoneKey says what hatching means, beside a piece of it.
func (b *board) zoneKey(r ink.Rect) {
	if b.V.Class {
		r.Y -= 2 * b.U
	}
	h := ink.CapHeight(b.Small, ink.Regular) * 1.3
	here := b.Say(tell.ZoneHere(false))
	w := ink.Width(here, b.Small, ink.Regular)
	x := r.Centre().X - (w+30*b.U)/2
	b.zone("zone-key", ink.Rect{X: x, Y: r.Centre().Y - h/2, W: 24 * b.U, H: h}, false)
	b.Text("zone-words", x+30*b.U, r.Centre().Y, ink.Style{Size: b.Small, Anchor: ink.Middle}, here)
}

// zone is a hatched target: its edge is dashed, and a full line once the target is reached.
func (b *board) zone(name string, z ink.Rect, in bool) {
	b.Hatch(name+" hatch", z, ink.Rule)
	b.Rect(name, z, b.ZoneEdge(in))
}

// ringZone is a zone on a ring, between two angles: 0 to the right, growing clockwise.
func (b *board) ringZone(c ink.Point, inner, outer, from, to float64, in bool) {
	at := func(r, a float64) ink.Point { return ink.Point{X: c.X + r*math.Cos(a), Y: c.Y + r*math.Sin(a)} }
	slant := (outer - inner) / outer * 0.8
	for a := from - slant + 5*b.U/outer; a < to; a += 6 * b.U / outer { // a line is cut off where it leaves the zone
		f0, f1 := ui.Clamp((from-a)/slant, 0, 1), ui.Clamp((to-a)/slant, 0, 1)
		p, q := at(inner+(outer-inner)*f0, a+slant*f0), at(inner+(outer-inner)*f1, a+slant*f1)
		b.Line("zone-hatch", p.X, p.Y, q.X, q.Y, ink.Paint{Line: ink.Rule, Under: true})
	}
	pts := b.V.Pts[:0]
	const n = 12
	for i := range n + 1 {
		pts = append(pts, at(outer, from+(to-from)*float64(i)/n))
	}
	for i := range n + 1 {
		pts = append(pts, at(inner, to-(to-from)*float64(i)/n))
	}
	pts = append(pts, pts[0])
	b.Polyline("zone", pts, b.ZoneEdge(in))
	b.V.Pts = pts
}

// needle is the mark that is to come into a zone on a ring: a triangle that points outward.
func (b *board) needle(c ink.Point, r, a, size float64) {
	s, k := math.Sincos(a)
	out := func(d, side float64) ink.Point {
		return ink.Point{X: c.X + k*(r+d) - s*side, Y: c.Y + s*(r+d) + k*side}
	}
	b.Triangle("needle", ink.Paint{Fill: ink.Ink}, out(size, 0), out(-size*0.6, size*0.7), out(-size*0.6, -size*0.7))
}

// leanEnds names what the craft does to each side of a ring, at the angle a and its mirror image.
func (b *board) leanEnds(c ink.Point, radius, a, line float64) {
	low, high := tell.LeanEnds(b.V.Learn.Job)
	x, y := radius*math.Cos(a), c.Y+radius*math.Sin(a)+line/2+3*b.U
	b.Text("lean-end", c.X-x, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}, b.Say(low))
	b.Text("lean-end", c.X+x, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}, b.Say(high))
}

// tilting draws the craft from behind or from its right side, tilted, with a ring on both sides of it.
func (b *board) tilting(r ink.Rect) {
	l := &b.V.Learn
	line := ink.BlockHeight(b.Small, 1)
	radius := min(r.W/2-8*b.U, (r.H/2-line-4*b.U)/math.Sin(mostLean+0.06))
	c := r.Centre()
	b.leanEnds(c, radius, mostLean+0.06, line)
	angle := func(lean int) float64 { return float64(lean) / 1000 * mostLean }
	tilt := angle(l.Lean)
	name, eye, leans := "behind", figure.EyeBehind(0), vec.V{X: tilt}
	if l.Question == learn.Pitch {
		name, eye, leans = "side", figure.EyeBeside(0), vec.V{Y: -tilt}
	}
	inner := radius * ringInner
	for _, side := range [2]float64{0, math.Pi} {
		b.Arc("ring", c.X, c.Y, radius, side-mostLean, side+mostLean, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U})
		level := ink.Point{X: c.X + math.Cos(side)*radius, Y: c.Y}
		b.Line("level", level.X, level.Y, c.X+math.Cos(side)*inner, level.Y, ink.Paint{Line: ink.Rule})
	}
	from, to := angle(l.Zone[0]), angle(l.Zone[1])
	switch { // the side that dips
	case l.Zone[0] > 0 || l.Zone[0] < 0 && l.Zone[1] > 0:
		b.ringZone(c, inner, radius, from, to, l.InZone)
	default:
		b.ringZone(c, inner, radius, math.Pi+from, math.Pi+to, l.InZone)
	}
	b.Still(name, eye, ui.TurnBy(leans), c, radius*0.57)
	b.needle(c, inner-9*b.U, tilt, 8*b.U)
	b.needle(c, inner-9*b.U, math.Pi+tilt, 8*b.U)
}

// turning draws the craft from above: it points up the page, and an arrow on the ring about it tells how fast it turns.
func (b *board) turning(r ink.Rect) {
	l := &b.V.Learn
	radius := min(r.W/2, r.H/1.78) - 4*b.U
	c := ink.Point{X: r.Centre().X, Y: r.Y + 4*b.U + radius}
	const up = -math.Pi / 2
	angle := func(lean int) float64 { return up + float64(lean)/1000*mostTurn }
	inner := radius * ringInner
	b.leanEnds(c, radius, up+mostTurn+math.Pi/30, ink.BlockHeight(b.Small, 1))
	b.Arc("ring", c.X, c.Y, radius, up-mostTurn, up+mostTurn, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U})
	b.ringZone(c, inner, radius, angle(l.Zone[0]), angle(l.Zone[1]), l.InZone)
	scale := radius * 0.42
	b.Still("above", figure.EyeAbove, vec.Q{W: 1}, c, scale)
	b.Line("straight", c.X, c.Y-inner+2*b.U, c.X, c.Y-scale*0.9, ink.Paint{Line: ink.Rule})
	mid, to := (inner+radius)/2, angle(l.Lean)
	if math.Abs(to-up)*mid < 14*b.U {
		b.Circle("turns-not", c.X, c.Y-mid, 5*b.U, ink.Paint{Fill: ink.Ink})
		return
	}
	head, way := 13*b.U/mid, 1.0
	if to < up {
		way = -1
	}
	b.Arc("turns", c.X, c.Y, mid, min(up, to-way*head), max(up, to-way*head), ink.Paint{Line: ink.Ink, Width: 5 * b.U})
	tip := func(rad, a float64) ink.Point { return ink.Point{X: c.X + rad*math.Cos(a), Y: c.Y + rad*math.Sin(a)} }
	b.Triangle("turns-head", ink.Paint{Fill: ink.Ink}, tip(mid, to), tip(mid-8*b.U, to-way*head), tip(mid+8*b.U, to-way*head))
}

// climbing draws the craft from behind, as high over the ground as the throttle stands, between two scales on which its feet are marked.
func (b *board) climbing(r ink.Rect) {
	l := &b.V.Learn
	wide, high := min(r.W, r.H*1.5), min(r.H, r.W*0.75)
	r = ink.Rect{X: r.Centre().X - wide/2, Y: r.Y + (r.H-high)*0.15, W: wide, H: high}
	column := max(22*b.U, r.W*0.09)
	ground := r.Bottom() - 3*b.U
	scale := min((r.W-2*column)/3.2, r.H/3.4)
	highest := r.Y + 1.0*scale + 4*b.U // of its feet
	at := func(lean int) float64 { return ground - 2*b.U - (ground-2*b.U-highest)*float64(lean)/1000 }
	b.Line("ground", r.X, ground, r.Right(), ground, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
	feet := at(l.Lean)
	for i := range 2 {
		bar := ink.Rect{X: r.X, Y: at(1000), W: column, H: at(0) - at(1000)}
		tip, side := bar.Right()+3*b.U, 1.0
		if i == 1 {
			bar.X = r.Right() - column
			tip, side = bar.X-3*b.U, -1
		}
		b.Rect("scale", bar, ink.Paint{Line: ink.Rule})
		b.zone("zone", ink.Rect{X: bar.X, Y: at(l.Zone[1]), W: bar.W, H: at(l.Zone[0]) - at(l.Zone[1])}, l.InZone)
		tri := [...]ink.Point{{X: tip, Y: feet}, {X: tip + side*13*b.U, Y: feet - 6*b.U}, {X: tip + side*13*b.U, Y: feet + 6*b.U}}
		if feet+6*b.U > ground {
			tri[2].Y = feet
		}
		b.Polygon("needle", tri[:], ink.Paint{Fill: ink.Ink})
	}
	b.Still("behind", figure.EyeBehind(0), vec.Q{W: 1}, ink.Point{X: r.Centre().X, Y: feet - figure.Feet*scale}, scale)
}
