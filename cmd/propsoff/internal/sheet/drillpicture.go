package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
)

// cuePicture draws the picture of a cue: what it is about, in thin lines.
func (b *board) cuePicture(r ink.Rect, name string) {
	q := r.Square()
	c, d := q.Centre(), q.W/2-4*b.u
	w := max(2*b.u, d*0.04)
	line := ink.Paint{Line: ink.Ink, Width: w}
	bold := ink.Paint{Line: ink.Ink, Width: 2.2 * w}
	at := func(x, y float64) ink.Point { return ink.Point{X: c.X + x*d, Y: c.Y + y*d} }
	box := func(x, y, wide, high float64) ink.Rect {
		return ink.Rect{X: c.X + x*d, Y: c.Y + y*d, W: wide * d, H: high * d}
	}
	path := func(p ink.Paint, points ...ink.Point) {
		b.v.pts = append(b.v.pts[:0], points...)
		b.Polyline("picture", b.v.pts, p)
	}
	switch name {
	case "alarm": // a warning triangle with a stroke and a dot in it
		b.v.pts = append(b.v.pts[:0], at(0, -0.85), at(0.95, 0.75), at(-0.95, 0.75))
		b.Polygon("picture", b.v.pts, ink.Paint{Line: ink.Refusal, Width: 3 * w, Fill: ink.Paper})
		b.Rect("picture", box(-0.07, -0.35, 0.14, 0.62), ink.Paint{Fill: ink.Refusal})
		b.Circle("picture", c.X, c.Y+0.5*d, 0.1*d, ink.Paint{Fill: ink.Refusal})
	case "sticks": // two gimbals with their sticks
		for _, s := range [2]float64{-1, 1} {
			b.Rect("picture", box(s*0.52-0.42, -0.42, 0.84, 0.84), line)
			path(line, at(s*0.52, -0.42), at(s*0.52, 0.42))
			path(line, at(s*0.52-0.42, 0), at(s*0.52+0.42, 0))
			b.Circle("picture", c.X+s*0.52*d, c.Y, 0.13*d, ink.Paint{Fill: ink.Ink})
		}
	case "arm-switch", "mode-switch": // a lever with two or three places
		n := 2
		if name == "mode-switch" {
			n = 3
		}
		b.Circle("picture", c.X, c.Y+0.45*d, 0.3*d, line)
		for i := range n {
			t := -math.Pi/2 + (float64(i)-float64(n-1)/2)*0.75
			from, to := at(0.3*math.Cos(t), 0.45+0.3*math.Sin(t)), at(1.15*math.Cos(t), 0.45+1.15*math.Sin(t))
			p := ink.Paint{Line: ink.Rule, Width: w, Dash: ink.Dash{On: 4 * b.u, Off: 4 * b.u}}
			if i == n-1 {
				p = ink.Paint{Line: ink.Ink, Width: 5 * w}
			}
			path(p, from, to)
		}
	case "motors", "craft", "propellers": // the craft from above
		for _, x := range [2]float64{-1, 1} {
			for _, y := range [2]float64{-1, 1} {
				path(bold, at(x*0.12, y*0.12), at(x*0.6, y*0.6))
				b.Circle("picture", c.X+x*0.6*d, c.Y+y*0.6*d, 0.34*d, line)
				if name == "propellers" {
					path(bold, at(x*0.6-0.3, y*0.6-0.08), at(x*0.6+0.3, y*0.6+0.08))
				}
				if name == "motors" {
					b.Circle("picture", c.X+x*0.6*d, c.Y+y*0.6*d, 0.12*d, ink.Paint{Fill: ink.Ink})
				}
			}
		}
		b.Rect("picture", box(-0.17, -0.28, 0.34, 0.56), ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: w})
		b.v.pts = append(b.v.pts[:0], at(-0.1, -0.3), at(0.1, -0.3), at(0, -0.46))
		b.Polygon("picture", b.v.pts, ink.Paint{Fill: ink.Ink})
	case "link": // waves from a mast, and a craft that hears them
		path(bold, at(-0.6, 0.7), at(-0.6, -0.2))
		for i := range 3 {
			b.Arc("picture", c.X-0.6*d, c.Y-0.2*d, (0.35+0.3*float64(i))*d, -0.8, 0.8, line)
		}
		b.Rect("picture", box(0.55, -0.4, 0.35, 0.4), bold)
	case "pack": // a battery with its plug
		b.Rect("picture", box(-0.8, -0.35, 1.2, 0.7), bold)
		path(bold, at(0.4, -0.12), at(0.65, -0.12))
		path(bold, at(0.4, 0.12), at(0.65, 0.12))
		b.Rect("picture", box(0.65, -0.22, 0.25, 0.44), line)
	case "menu", "list":
		b.Rect("picture", box(-0.7, -0.85, 1.4, 1.7), line)
		for i := range 4 {
			y := -0.55 + 0.38*float64(i)
			if name == "menu" && i == 1 {
				b.Rect("picture", box(-0.58, y-0.14, 1.16, 0.28), line)
			}
			path(bold, at(-0.3, y), at(0.45, y))
			if name == "list" {
				b.Rect("picture", box(-0.56, y-0.09, 0.18, 0.18), line)
			}
		}
	}
}
