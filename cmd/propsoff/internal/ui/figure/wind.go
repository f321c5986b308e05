package figure

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// titles are what a view is called, with the wind where it is told of one: in words where the pilot stands, as from there an arrow shows but its part across. The longest is first.
func titles(where string, wind int32) (all []words.Text) {
	from := func(short bool) words.Text {
		return words.Of("flight.from", where, words.Args{"short": words.Flag(short)})
	}
	if blows := tell.Wind(wind, where == "stand"); !blows.Empty() {
		all = append(all, words.Clauses(from(false), blows), words.Clauses(from(true), blows), words.Clauses(from(true), tell.Wind(wind, false)), blows, tell.Wind(wind, false))
	}
	return append(all, from(false), from(true))
}

// windArrow draws which way the wind blows before an eye, at the upper right of a picture, on a ground of its own.
func (b *Board) windArrow(where string, in ink.Rect, e Eye, f *Flying) {
	tenths, from, _, _ := pulse.WindOf(f.Wind)
	side := 30 * b.U
	if tenths == 0 || in.W < 3*side || in.H < 2*side {
		return
	}
	s, c := math.Sincos(float64(from) * flight.Degree)
	blows := vec.V{X: -c, Y: -s}
	x, y := blows.Dot(e.right), -blows.Dot(e.up)
	if math.Hypot(x, y) < 0.3 { // towards the eye or away from it
		return
	}
	box := ink.Rect{X: in.Right() - side, Y: in.Y, W: side, H: side}
	b.Rect(where+" wind-ground", box, ink.Paint{Fill: ink.Paper})
	b.arrow(where+" wind", box, x, y)
}

// WindFromAbove draws which way a wind blows, seen from above by a pilot who looks up the page: from so many degrees to the right of ahead.
func (b *Board) WindFromAbove(name string, box ink.Rect, from int32) {
	s, c := math.Sincos(float64(from) * flight.Degree)
	b.Circle(name+"-round", box.Centre().X, box.Centre().Y, box.W/2-b.U, ink.Paint{Line: ink.Rule, Width: b.U})
	b.arrow(name, box, -s, c)
}

// arrow fills a square with an arrow along x, y on the page.
func (b *Board) arrow(name string, box ink.Rect, x, y float64) {
	mid, half, d := box.Centre(), box.W*0.42, 7*b.U
	place := func(along, across float64) ink.Point {
		return ink.Point{X: mid.X + x*along - y*across, Y: mid.Y + y*along + x*across}
	}
	tail, neck, tip := place(-half, 0), place(half-d, 0), place(half, 0)
	b.Line(name, tail.X, tail.Y, neck.X, neck.Y, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
	b.Polygon(name+"-head", []ink.Point{tip, place(half-d, -0.6*d), place(half-d, 0.6*d)}, ink.Paint{Fill: ink.Ink})
}
