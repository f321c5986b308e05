package start

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// sketch is a picture in which 1 is the way from its middle to an edge: x to the right, y down.
type sketch struct {
	*board
	c    ink.Point
	d    float64
	line ink.Paint
}

func (s *sketch) at(x, y float64) ink.Point { return ink.Point{X: s.c.X + x*s.d, Y: s.c.Y + y*s.d} }

// stroke draws a line through some places: x, y, x, y …
func (s *sketch) stroke(xy ...float64) {
	pts := make([]ink.Point, len(xy)/2)
	for i := range pts {
		pts[i] = s.at(xy[2*i], xy[2*i+1])
	}
	s.Polyline("picture", pts, s.line)
}

func (s *sketch) ring(x, y, r float64) {
	s.Circle("picture", s.c.X+x*s.d, s.c.Y+y*s.d, r*s.d, s.line)
}

func (s *sketch) box(x, y, wide, high, round float64) {
	s.RoundRect("picture", ink.Rect{X: s.c.X + x*s.d, Y: s.c.Y + y*s.d, W: wide * s.d, H: high * s.d}, round*s.d, s.line)
}

// picture draws what a door leads to, in lines alone.
func (b *board) picture(door int, r ink.Rect) {
	q := r.Square()
	s := &sketch{b, q.Centre(), q.W/2 - 2*b.U, ink.Paint{Line: ink.Ink, Width: max(1.5*b.U, q.W*0.014)}}
	switch door {
	case Plug: // a radio, and its cable with a plug at the end
		s.box(-0.8, -0.5, 1.6, 0.9, 0.16)
		for _, x := range [...]float64{-0.42, 0.42} {
			s.ring(x, -0.02, 0.25)
			s.stroke(x, -0.02, x+0.09, -0.16)
			s.ring(x+0.09, -0.16, 0.06)
		}
		s.stroke(0, -0.5, 0, -0.95)
		s.stroke(0, 0.4, 0, 0.62, 0.1, 0.75, 0.42, 0.75)
		s.box(0.42, 0.6, 0.26, 0.3, 0.05)
		s.box(0.68, 0.65, 0.2, 0.2, 0.01)
	case Practise: // a craft from behind, hovering over the ground
		s.box(-0.2, -0.2, 0.4, 0.26, 0.08)
		for _, side := range [...]float64{-1, 1} {
			s.stroke(side*0.2, -0.08, side*0.66, -0.18)
			s.box(side*0.66-0.07, -0.3, 0.14, 0.16, 0.02)
			s.stroke(side*0.66-0.3, -0.36, side*0.66+0.3, -0.36)
			s.stroke(side*0.12, 0.06, side*0.2, 0.2)
			s.stroke(side*0.66, 0.3, side*0.66, 0.5)
			s.stroke(side*0.66-0.08, 0.42, side*0.66, 0.5, side*0.66+0.08, 0.42)
		}
		s.stroke(-0.9, 0.78, 0.9, 0.78)
	case Check: // a lever with three positions, and a tick
		s.ring(0, 0.62, 0.22)
		for i, x := range [...]float64{-0.62, 0, 0.62} {
			y := -0.3 - 0.28*math.Cos(x*math.Pi/2)
			if i == 2 {
				thick := *s
				thick.line.Width *= 3
				thick.stroke(x*0.24, 0.62-0.2, x, y)
				continue
			}
			s.stroke(x*0.24, 0.62-0.22, x*0.75, y*0.75+0.12)
			s.ring(x*0.8, y*0.8+0.05, 0.06)
		}
		s.stroke(0.46, -0.72, 0.62, -0.54, 0.94, -0.94)
	case Teach: // somebody who shows a line on a board
		s.box(-0.25, -0.85, 1.15, 0.9, 0.03)
		s.stroke(-0.12, -0.2, 0.1, -0.3, 0.3, -0.62, 0.5, -0.4, 0.76, -0.68)
		s.ring(-0.62, -0.12, 0.17)
		s.stroke(-0.92, 0.85, -0.9, 0.4, -0.8, 0.22, -0.62, 0.14, -0.44, 0.2, -0.34, 0.3)
		s.stroke(-0.5, 0.24, -0.16, 0.2, 0.1, -0.1)
		s.stroke(-0.36, 0.85, -0.36, 0.42)
	}
}
