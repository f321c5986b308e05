package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/flight"
)

// craftLeast is the least height in which the craft can be drawn.
func (b *board) craftLeast() float64 {
	return b.sectionHeight() + 4*ink.BlockHeight(b.small, 1) + 44*b.u
}

// craft draws the craft from above with its four motors, from behind and from the side. It has no propellers.
func (b *board) craft(r ink.Rect) {
	b.Group("craft")
	rest := b.section(r, "craft heading", phrase.CraftTitle(b.v.CraftName))
	line := ink.BlockHeight(b.small, 1)
	compact := rest.H < 170*b.u
	words, lines := b.v.craftStands(), 1
	if !compact {
		lines, _ = ink.CountLines(words, rest.W, b.small, ink.Regular)
		lines = min(lines, 2)
	}
	stands, rest := rest.CutTop(ink.BlockHeight(b.small, lines), 2*b.u)
	b.Block("craft stands", stands.X, stands.Y, ink.Style{Size: b.small, Within: stands}, ink.Block{Width: rest.W, MaxLines: lines, Shorten: true}, words)
	if b.gogglesInstead(rest) {
		return
	}
	main, side := rest.CutLeft(rest.W*0.6, b.gap)
	b.fromAbove(main)
	views := [2]struct {
		name, word string
		eye        func(p solid) ink.Point
	}{
		{"behind", phrase.ViewFrom("behind", compact), func(p solid) ink.Point { return ink.Point{X: p.x, Y: -p.z} }},
		{"side", phrase.ViewFrom("side", compact), func(p solid) ink.Point { return ink.Point{X: p.y, Y: -p.z} }},
	}
	for i, view := range views {
		cell := side.Cell(i, 1, 2, 4*b.u)
		if compact {
			cell = side.Cell(i, 2, 1, 4*b.u)
		}
		label, box := cell.CutBottom(line, 2*b.u)
		b.Text("view from "+view.name, label.Centre().X, label.Y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Centre | ink.Top, Within: r}, view.word)
		b.drawing(view.name, box, view.eye)
		b.Line(view.name+" ground", box.X, box.Bottom(), box.Right(), box.Bottom(), ink.Paint{Line: ink.Rule})
	}
}

// fromAbove draws the craft from above, the words for each motor beside it.
func (b *board) fromAbove(r ink.Rect) {
	line := ink.BlockHeight(b.small, 1)
	label, box := r.CutBottom(line, 2*b.u)
	b.Text("view from above", label.Centre().X, label.Y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Centre | ink.Top, Within: r}, phrase.ViewFrom("above", false))
	// The words stand over and under the craft, or to its sides: where it can be drawn larger.
	w := ink.Width("front right", b.small, ink.Regular) + 2*b.u
	words := box
	if over, beside := min(box.W, box.H-4*line), min(box.W-2*w, box.H); over >= beside {
		words.W = min(words.W, max(over, 2*w+8*b.u))
		box.Y, box.H = box.Y+2*line, box.H-4*line
	} else {
		words.W = beside + 2*w
		words.H = min(words.H, max(beside, 4*line))
		box.X, box.W = box.X+w, box.W-2*w
	}
	words.X, words.Y = box.Centre().X-words.W/2, box.Centre().Y-words.H/2
	eye := func(p solid) ink.Point { return ink.Point{X: p.x, Y: -p.y} }
	b.drawing("above", box, eye)
	for i, place := range phrase.Places() {
		at := eye(b.turned(motorPlace(i)))
		x, anchor := words.X, ink.Left
		// Upside down, the left motors are seen on the right.
		if at.X > 0.01 || math.Abs(at.X) <= 0.01 && i%2 == 1 {
			x, anchor = words.Right(), ink.Right
		}
		y := words.Y
		if at.Y > 0 {
			y = words.Bottom() - 2*line
		}
		speed := b.v.Snap.Motor[i]
		b.Text("motor place", x, y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: anchor | ink.Top, Within: r}, place)
		b.Text("motor "+place, x, y+line, ink.Style{Size: b.small, Weight: ink.Bold, Anchor: anchor | ink.Top, Within: r},
			phrase.Motor(speed, b.v.Config.Flight.IdleSpeed))
	}
}

// solid is a place on the craft: right, forward and up of its middle, the arms' ends at ±1.
type solid struct{ x, y, z float64 }

// turned tilts a place to the right by the craft's tilt.
func (b *board) turned(p solid) solid {
	s, c := math.Sincos(float64(b.v.Snap.In.Craft.TiltTenths) * math.Pi / 1800)
	return solid{p.x*c + p.z*s, p.y, -p.x*s + p.z*c}
}

// motorPlace is where a motor sits, in the order of the snapshot.
func motorPlace(i int) solid {
	p := solid{-1, 1, 0.1}
	if i%2 == 1 {
		p.x = 1
	}
	if i >= 2 {
		p.y = -1
	}
	return p
}

// drawing draws the craft as seen by an eye, as large as fits.
func (b *board) drawing(name string, r ink.Rect, eye func(solid) ink.Point) {
	scale := min(r.W, r.H) / 2 / 1.5
	if name != "above" {
		scale = min(r.W/2/1.3, r.H/2/1.3)
	}
	c := r.Centre()
	if name != "above" {
		c.Y = r.Bottom() - b.lowest(eye)*scale
	}
	at := func(p solid) ink.Point {
		q := eye(b.turned(p))
		return ink.Point{X: c.X + q.X*scale, Y: c.Y + q.Y*scale}
	}
	var speeds [flight.Motors]float64
	for i := range speeds {
		speeds[i] = float64(b.v.Snap.Motor[i]) / flight.FullSpeed
	}
	b.figure(name, at, scale, speeds)
}

// figure draws the craft as seen from above, from behind or from the side: at brings its places onto the page, speeds are the shares at
// which its motors turn.
func (b *board) figure(name string, at func(solid) ink.Point, scale float64, speeds [flight.Motors]float64) {
	b.v.pts = b.v.pts[:0]
	line := ink.Paint{Line: ink.Ink, Width: 1.5 * b.u}
	arm := ink.Paint{Line: ink.Ink, Width: max(2*b.u, scale*0.1)}
	for i := range flight.Motors {
		m := motorPlace(i)
		from, to := at(solid{m.x * 0.2, m.y * 0.2, 0}), at(solid{m.x, m.y, 0})
		b.Line(name+" arm", from.X, from.Y, to.X, to.Y, arm)
		b.motor(name, i, at, scale, speeds[i])
	}
	// The body, longer than wide, and the nose.
	b.outline(name+" body", at, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.u}, bodyEdges(name)...)
	if name == "above" {
		b.outline(name+" nose", at, ink.Paint{Fill: ink.Ink}, solid{-0.16, 0.42, 0}, solid{0.16, 0.42, 0}, solid{0, 0.72, 0})
		return
	}
	if name == "side" {
		b.outline(name+" nose", at, ink.Paint{Fill: ink.Ink}, solid{0, 0.55, 0.14}, solid{0, 0.55, -0.1}, solid{0, 0.8, 0.02})
	}
	// Feet and pack tell which way is up.
	for _, x := range [2]float64{-0.3, 0.3} {
		for _, y := range [2]float64{-0.35, 0.35} {
			f, t := at(solid{x, y, -0.12}), at(solid{x * 1.3, y * 1.1, -0.42})
			b.Line(name+" foot", f.X, f.Y, t.X, t.Y, line)
		}
	}
}

// lowest is how far below its middle the craft reaches as an eye sees it: there it stands on the ground.
func (b *board) lowest(eye func(solid) ink.Point) float64 {
	low := 0.0
	for _, x := range [2]float64{-1, 1} {
		for _, y := range [2]float64{-1, 1} {
			low = max(low, eye(b.turned(solid{x * 0.39, y * 0.385, -0.42})).Y, eye(b.turned(solid{x * 1.14, y * 1.14, -0.06})).Y,
				eye(b.turned(solid{x * 1.14, y * 1.14, 0.24})).Y, eye(b.turned(solid{x * 0.22, y * 0.4, 0.4})).Y)
		}
	}
	return low
}

// bodyEdges is the outline of body and pack as each eye sees it.
func bodyEdges(name string) []solid {
	switch name {
	case "above":
		return []solid{{-0.3, -0.5, 0}, {-0.3, 0.5, 0}, {0.3, 0.5, 0}, {0.3, -0.5, 0}}
	case "side":
		return []solid{{0, -0.55, -0.12}, {0, -0.55, 0.16}, {0, -0.4, 0.16}, {0, -0.4, 0.38}, {0, 0.3, 0.38}, {0, 0.3, 0.16}, {0, 0.55, 0.16}, {0, 0.55, -0.12}}
	}
	return []solid{{-0.34, 0, -0.12}, {-0.34, 0, 0.16}, {-0.22, 0, 0.16}, {-0.22, 0, 0.38}, {0.22, 0, 0.38}, {0.22, 0, 0.16}, {0.34, 0, 0.16}, {0.34, 0, -0.12}}
}

// outline draws a closed shape; one that is seen edge-on becomes a line.
func (b *board) outline(name string, at func(solid) ink.Point, p ink.Paint, edge ...solid) {
	v := b.v
	v.pts = v.pts[:0]
	lo, hi := ink.Point{X: math.Inf(1), Y: math.Inf(1)}, ink.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, e := range edge {
		q := at(e)
		lo, hi = ink.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}, ink.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
		v.pts = append(v.pts, q)
	}
	if least := 4 * b.u; hi.X-lo.X < least || hi.Y-lo.Y < least {
		b.Line(name, lo.X, lo.Y, hi.X, hi.Y, ink.Paint{Line: ink.Ink, Width: least})
		return
	}
	b.Polygon(name, v.pts, p)
}

// motor draws a motor: from above a ring with a sector that grows with the speed, else a bell on the arm's end. A motor
// that stands still is an empty ring.
func (b *board) motor(name string, i int, at func(solid) ink.Point, scale, speed float64) {
	m := motorPlace(i)
	if name != "above" {
		f, t := at(solid{m.x, m.y, -0.06}), at(solid{m.x, m.y, 0.22})
		b.Line(name+" motor", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(3*b.u, scale*0.28)})
		return
	}
	c := at(m)
	r := scale * 0.42
	b.Circle("motor ring", c.X, c.Y, r, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.u})
	if speed > 0 {
		w := max(2*b.u, r*0.3)
		b.Arc("motor speed", c.X, c.Y, r-w/2-2.5*b.u, -math.Pi/2, -math.Pi/2+2*math.Pi*min(speed, 1), ink.Paint{Line: ink.Armed, Width: w})
	}
	b.Circle("motor shaft", c.X, c.Y, max(1.5*b.u, r*0.14), ink.Paint{Fill: ink.Ink})
}
