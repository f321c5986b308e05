package figure

import (
	"math"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/sim/flight"
)

// CraftLeast is the least height in which the craft can be drawn.
func (b *Board) CraftLeast() float64 {
	return b.SectionHeight() + 4*ink.BlockHeight(b.Small, 1) + 44*b.U
}

// Craft draws the craft from above with its four motors, from behind and from the side. It has no propellers.
func (b *Board) Craft(r ink.Rect) {
	b.Group("craft")
	rest := b.SectionOf(r, "craft-heading", tell.CraftTitle(b.V.CraftName), tell.CraftTitle(""))
	line := ink.BlockHeight(b.Small, 1)
	compact := rest.H < 170*b.U
	words, lines := b.Say(craftStands(b.V)), 1
	if !compact {
		lines, _ = ink.CountLines(words, rest.W, b.Small, ink.Regular)
		lines = min(lines, 2)
	}
	stands, rest := rest.CutTop(ink.BlockHeight(b.Small, lines), 2*b.U)
	b.Block("craft-stands", stands.X, stands.Y, ink.Style{Size: b.Small, Within: stands}, ink.Block{Width: rest.W, MaxLines: lines, Shorten: true}, words)
	if b.gogglesInstead(rest) {
		return
	}
	main, side := rest.CutLeft(rest.W*0.6, b.Gap)
	b.FromAbove(main)
	views := [2]struct {
		name, word string
		eye        func(p Solid) ink.Point
	}{
		{"behind", b.Say(tell.ViewFrom("behind", compact)), func(p Solid) ink.Point { return ink.Point{X: p.X, Y: -p.Z} }},
		{"side", b.Say(tell.ViewFrom("side", compact)), func(p Solid) ink.Point { return ink.Point{X: p.Y, Y: -p.Z} }},
	}
	for i, view := range views {
		cell := side.Cell(i, 1, 2, 4*b.U)
		if compact {
			cell = side.Cell(i, 2, 1, 4*b.U)
		}
		label, box := cell.CutBottom(line, 2*b.U)
		b.Text("view-from "+view.name, label.Centre().X, label.Y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Top, Within: r}, view.word)
		b.drawing(view.name, box, view.eye)
		b.Line(view.name+" ground", box.X, box.Bottom(), box.Right(), box.Bottom(), ink.Paint{Line: ink.Rule})
	}
}

// FromAbove draws the craft from above, the words for each motor beside it.
func (b *Board) FromAbove(r ink.Rect) {
	line := ink.BlockHeight(b.Small, 1)
	label, box := r.CutBottom(line, 2*b.U)
	b.Text("view-from-above", label.Centre().X, label.Y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Top, Within: r}, b.Say(tell.ViewFrom("above", false)))
	// The words stand over and under the craft, or to its sides: where it can be drawn larger.
	w := 0.0
	for _, place := range tell.Places() {
		w = max(w, ink.Width(b.Say(place), b.Small, ink.Regular)+2*b.U)
	}
	words := box
	if over, beside := min(box.W, box.H-4*line), min(box.W-2*w, box.H); over >= beside {
		words.W = min(words.W, max(over, 2*w+8*b.U))
		box.Y, box.H = box.Y+2*line, box.H-4*line
	} else {
		words.W = beside + 2*w
		words.H = min(words.H, max(beside, 4*line))
		box.X, box.W = box.X+w, box.W-2*w
	}
	words.X, words.Y = box.Centre().X-words.W/2, box.Centre().Y-words.H/2
	eye := func(p Solid) ink.Point { return ink.Point{X: p.X, Y: -p.Y} }
	b.drawing("above", box, eye)
	for i, place := range tell.Places() {
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
		speed := b.V.Snap.Motor[i]
		b.Text("motor-place", x, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: anchor | ink.Top, Within: r}, b.Say(place))
		b.Text("motor "+codes.Places()[i], x, y+line, ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: anchor | ink.Top, Within: r},
			b.Say(tell.Motor(speed, b.V.Config.Flight.IdleSpeed)))
	}
}

// Solid is a place on the craft: right, forward and up of its middle, the arms' ends at ±1.
type Solid struct{ X, Y, Z float64 }

// turned tilts a place to the right by the craft's tilt.
func (b *Board) turned(p Solid) Solid {
	s, c := math.Sincos(float64(b.V.Snap.In.Craft.TiltTenths) * math.Pi / 1800)
	return Solid{p.X*c + p.Z*s, p.Y, -p.X*s + p.Z*c}
}

// motorPlace is where a motor sits, in the order of the snapshot.
func motorPlace(i int) Solid {
	p := Solid{-1, 1, 0.1}
	if i%2 == 1 {
		p.X = 1
	}
	if i >= 2 {
		p.Y = -1
	}
	return p
}

// drawing draws the craft as seen by an eye, as large as fits.
func (b *Board) drawing(name string, r ink.Rect, eye func(Solid) ink.Point) {
	scale := min(r.W, r.H) / 2 / 1.5
	if name != "above" {
		scale = min(r.W/2/1.3, r.H/2/1.3)
	}
	c := r.Centre()
	if name != "above" {
		c.Y = r.Bottom() - b.lowest(eye)*scale
	}
	at := func(p Solid) ink.Point {
		q := eye(b.turned(p))
		return ink.Point{X: c.X + q.X*scale, Y: c.Y + q.Y*scale}
	}
	var speeds [flight.Motors]float64
	for i := range speeds {
		speeds[i] = float64(b.V.Snap.Motor[i]) / flight.FullSpeed
	}
	b.Figure(name, at, scale, speeds)
}

// Figure draws the craft as seen from above, from behind or from the side: at brings its places onto the page, speeds are the shares at
// which its motors turn.
func (b *Board) Figure(name string, at func(Solid) ink.Point, scale float64, speeds [flight.Motors]float64) {
	b.V.Pts = b.V.Pts[:0]
	line := ink.Paint{Line: ink.Ink, Width: 1.5 * b.U}
	arm := ink.Paint{Line: ink.Ink, Width: max(2*b.U, scale*0.1)}
	for i := range flight.Motors {
		m := motorPlace(i)
		from, to := at(Solid{m.X * 0.2, m.Y * 0.2, 0}), at(Solid{m.X, m.Y, 0})
		b.Line(name+" arm", from.X, from.Y, to.X, to.Y, arm)
		b.motor(name, i, at, scale, speeds[i])
	}
	// The body, longer than wide, and the nose.
	b.outline(name+" body", at, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.U}, bodyEdges(name)...)
	if name == "above" {
		b.outline(name+" nose", at, ink.Paint{Fill: ink.Ink}, Solid{-0.16, 0.42, 0}, Solid{0.16, 0.42, 0}, Solid{0, 0.72, 0})
		return
	}
	if name == "side" {
		b.outline(name+" nose", at, ink.Paint{Fill: ink.Ink}, Solid{0, 0.55, 0.14}, Solid{0, 0.55, -0.1}, Solid{0, 0.8, 0.02})
	}
	// Feet and pack tell which way is up.
	for _, x := range [2]float64{-0.3, 0.3} {
		for _, y := range [2]float64{-0.35, 0.35} {
			f, t := at(Solid{x, y, -0.12}), at(Solid{x * 1.3, y * 1.1, -0.42})
			b.Line(name+" foot", f.X, f.Y, t.X, t.Y, line)
		}
	}
}

// lowest is how far below its middle the craft reaches as an eye sees it: there it stands on the ground.
func (b *Board) lowest(eye func(Solid) ink.Point) float64 {
	low := 0.0
	for _, x := range [2]float64{-1, 1} {
		for _, y := range [2]float64{-1, 1} {
			low = max(low, eye(b.turned(Solid{x * 0.39, y * 0.385, -0.42})).Y, eye(b.turned(Solid{x * 1.14, y * 1.14, -0.06})).Y,
				eye(b.turned(Solid{x * 1.14, y * 1.14, 0.24})).Y, eye(b.turned(Solid{x * 0.22, y * 0.4, 0.4})).Y)
		}
	}
	return low
}

// bodyEdges is the outline of body and pack as each eye sees it.
func bodyEdges(name string) []Solid {
	switch name {
	case "above":
		return []Solid{{-0.3, -0.5, 0}, {-0.3, 0.5, 0}, {0.3, 0.5, 0}, {0.3, -0.5, 0}}
	case "side":
		return []Solid{{0, -0.55, -0.12}, {0, -0.55, 0.16}, {0, -0.4, 0.16}, {0, -0.4, 0.38}, {0, 0.3, 0.38}, {0, 0.3, 0.16}, {0, 0.55, 0.16}, {0, 0.55, -0.12}}
	}
	return []Solid{{-0.34, 0, -0.12}, {-0.34, 0, 0.16}, {-0.22, 0, 0.16}, {-0.22, 0, 0.38}, {0.22, 0, 0.38}, {0.22, 0, 0.16}, {0.34, 0, 0.16}, {0.34, 0, -0.12}}
}

// outline draws a closed shape; one that is seen edge-on becomes a line.
func (b *Board) outline(name string, at func(Solid) ink.Point, p ink.Paint, edge ...Solid) {
	v := b.V
	v.Pts = v.Pts[:0]
	lo, hi := ink.Point{X: math.Inf(1), Y: math.Inf(1)}, ink.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, e := range edge {
		q := at(e)
		lo, hi = ink.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}, ink.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
		v.Pts = append(v.Pts, q)
	}
	if least := 4 * b.U; hi.X-lo.X < least || hi.Y-lo.Y < least {
		b.Line(name, lo.X, lo.Y, hi.X, hi.Y, ink.Paint{Line: ink.Ink, Width: least})
		return
	}
	b.Polygon(name, v.Pts, p)
}

// motor draws a motor: from above a ring with a sector that grows with the speed, else a bell on the arm's end. A motor
// that stands still is an empty ring.
func (b *Board) motor(name string, i int, at func(Solid) ink.Point, scale, speed float64) {
	m := motorPlace(i)
	if name != "above" {
		f, t := at(Solid{m.X, m.Y, -0.06}), at(Solid{m.X, m.Y, 0.22})
		b.Line(name+" motor", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(3*b.U, scale*0.28)})
		return
	}
	c := at(m)
	r := scale * 0.42
	b.Circle("motor-ring", c.X, c.Y, r, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.U})
	if speed > 0 {
		w := max(2*b.U, r*0.3)
		b.Arc("motor-speed", c.X, c.Y, r-w/2-2.5*b.U, -math.Pi/2, -math.Pi/2+2*math.Pi*min(speed, 1), ink.Paint{Line: ink.Armed, Width: w})
	}
	b.Circle("motor-shaft", c.X, c.Y, max(1.5*b.U, r*0.14), ink.Paint{Fill: ink.Ink})
}
