package drills

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// sketch is a picture in which 1 is the way from its middle to an edge: x to the right, y down.
type sketch struct {
	*board
	c ink.Point
	d float64
}

func (s *sketch) at(x, y float64) ink.Point { return ink.Point{X: s.c.X + x*s.d, Y: s.c.Y + y*s.d} }

func (s *sketch) box(p ink.Paint, x, y, wide, high float64) {
	s.Rect("picture", ink.Rect{X: s.c.X + x*s.d, Y: s.c.Y + y*s.d, W: wide * s.d, H: high * s.d}, p)
}

func (s *sketch) disc(p ink.Paint, x, y, r float64) {
	s.Circle("picture", s.c.X+x*s.d, s.c.Y+y*s.d, r*s.d, p)
}

func (s *sketch) stroke(p ink.Paint, x0, y0, x1, y1 float64) {
	s.Polyline("picture", []ink.Point{s.at(x0, y0), s.at(x1, y1)}, p)
}

func (s *sketch) area(p ink.Paint, points ...ink.Point) { s.Polygon("picture", points, p) }

// picture draws the picture of a cue: what it is about.
func (b *board) picture(r ink.Rect, name string) {
	q := r.Square()
	s := &sketch{b, q.Centre(), q.W/2 - 4*b.U}
	w := max(2*b.U, s.d*0.04)
	line, bold, full, red := ink.Paint{Line: ink.Ink, Width: w}, ink.Paint{Line: ink.Ink, Width: 2.2 * w}, ink.Paint{Fill: ink.Ink}, ink.Paint{Fill: ink.Refusal}
	both := [2]float64{-1, 1}
	switch name {
	case "alarm": // a warning triangle with a stroke and a dot in it
		s.area(ink.Paint{Line: ink.Refusal, Width: 3 * w, Fill: ink.Paper}, s.at(0, -0.85), s.at(0.95, 0.75), s.at(-0.95, 0.75))
		s.box(red, -0.07, -0.35, 0.14, 0.62)
		s.disc(red, 0, 0.5, 0.1)
	case "sticks": // two gimbals with their sticks
		for _, side := range both {
			x := side * 0.52
			s.box(line, x-0.42, -0.42, 0.84, 0.84)
			s.stroke(line, x, -0.42, x, 0.42)
			s.stroke(line, x-0.42, 0, x+0.42, 0)
			s.disc(full, x, 0, 0.13)
		}
	case "arm-switch", "mode-switch": // a lever with two or three places, in the last of them
		places := map[string]int{"arm-switch": 2, "mode-switch": 3}[name]
		s.disc(line, 0, 0.45, 0.3)
		for i := range places {
			p := ink.Paint{Line: ink.Rule, Width: w, Dash: ink.Dash{On: 4 * b.U, Off: 4 * b.U}}
			if i == places-1 {
				p = ink.Paint{Line: ink.Ink, Width: 5 * w}
			}
			sin, cos := math.Sincos(-math.Pi/2 + (float64(i)-float64(places-1)/2)*0.75)
			s.stroke(p, 0.3*cos, 0.45+0.3*sin, 1.15*cos, 0.45+1.15*sin)
		}
	case "motors", "craft", "propellers": // the craft from above
		for _, x := range both {
			for _, y := range both {
				s.stroke(bold, x*0.12, y*0.12, x*0.6, y*0.6)
				s.disc(line, x*0.6, y*0.6, 0.34)
				switch name {
				case "propellers":
					s.stroke(bold, x*0.6-0.3, y*0.6-0.08, x*0.6+0.3, y*0.6+0.08)
				case "motors":
					s.disc(full, x*0.6, y*0.6, 0.12)
				}
			}
		}
		s.box(ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: w}, -0.17, -0.28, 0.34, 0.56)
		s.area(full, s.at(-0.1, -0.3), s.at(0.1, -0.3), s.at(0, -0.46))
	case "link": // waves from a mast, and a craft that hears them
		s.stroke(bold, -0.6, 0.7, -0.6, -0.2)
		for i, mast := 0, s.at(-0.6, -0.2); i < 3; i++ {
			s.Arc("picture", mast.X, mast.Y, (0.35+0.3*float64(i))*s.d, -0.8, 0.8, line)
		}
		s.box(bold, 0.55, -0.4, 0.35, 0.4)
	case "pack": // a battery with its plug
		s.box(bold, -0.8, -0.35, 1.2, 0.7)
		s.stroke(bold, 0.4, -0.12, 0.65, -0.12)
		s.stroke(bold, 0.4, 0.12, 0.65, 0.12)
		s.box(line, 0.65, -0.22, 0.25, 0.44)
	case "menu", "list": // lines, one of them framed in a menu, each with a box to be ticked in a list
		s.box(line, -0.7, -0.85, 1.4, 1.7)
		for i := range 4 {
			y := -0.55 + 0.38*float64(i)
			s.stroke(bold, -0.3, y, 0.45, y)
			if name == "list" {
				s.box(line, -0.56, y-0.09, 0.18, 0.18)
			} else if i == 1 {
				s.box(line, -0.58, y-0.14, 1.16, 0.28)
			}
		}
	}
}
