package figure

import (
	"math"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/vec"
)

// CraftLeast is the least height in which the craft can be drawn.
func (b *Board) CraftLeast() float64 {
	return b.SectionHeight() + 4*ink.BlockHeight(b.Small, 1) + 44*b.U
}

// Craft draws the craft from above with its four motors, from behind and from the side.
func (b *Board) Craft(r ink.Rect) {
	b.Group("craft")
	rest := b.SectionOf(r, "craft-heading", tell.CraftTitle(&b.V.Snap, b.V.CraftName), tell.CraftTitle(&b.V.Snap, ""))
	line, most := ink.BlockHeight(b.Small, 1), 2
	compact := rest.H < 170*b.U
	if compact {
		most = 3
	}
	d := b.Down(rest, 2*b.U)
	if b.V.Goggles.Open { // half of what stands in a menu says nothing; the menu tells it
		d.Whole("craft-stands", craftStands(b.V), ink.Style{Size: b.Small})
	} else {
		stands, small := craftStands(b.V), ink.Style{Size: b.Small}
		if with := words.Row(stands, words.T("sheet.drawn")); b.SayHeight(with, d.R.W, small) <= min(ink.BlockHeight(b.Small, most), rest.H-168*b.U) {
			stands = with
		}
		d.Lines(most, "craft-stands", b.Say(stands), small)
	}
	if b.V.Goggles.Open && d.R.W >= 220*b.U && d.R.H >= 120*b.U { // what the goggles show is what is to be seen now
		b.GogglesPicture(d.R)
		return
	}
	main, side := d.R.CutLeft(d.R.W*0.6, b.Gap)
	b.FromAbove(main)
	for i, from := range [...]string{"behind", "side"} {
		cell := side.Cell(i, 1, 2, 4*b.U)
		if compact {
			cell = side.Cell(i, 2, 1, 4*b.U)
		}
		label, box := cell.CutBottom(line, 2*b.U)
		b.viewFrom(from, label, compact)
		b.drawing(from, box)
		b.Line(from+" ground", box.X, box.Bottom(), box.Right(), box.Bottom(), ink.Paint{Line: ink.Rule})
	}
}

// viewFrom says under a view from where it is.
func (b *Board) viewFrom(from string, r ink.Rect, short bool) {
	style := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Top}
	b.Text("view-from "+from, r.Centre().X, r.Y+2*b.U, style, b.FirstFit(r.W, style, words.Of("view", from, words.Args{"short": words.Flag(short)}), words.Of("view", from, words.Args{"short": words.Flag(true)})))
}

// FromAbove draws the craft from above, the words for each motor beside it.
func (b *Board) FromAbove(r ink.Rect) {
	line := ink.BlockHeight(b.Small, 1)
	label, box := r.CutBottom(line, 2*b.U)
	b.viewFrom("above", label, false)
	// The words stand over and under the craft, or to its sides: where it can be drawn larger.
	w := 0.0
	for _, place := range tell.Places() {
		w = max(w, ink.Width(b.Say(place), b.Small, ink.Regular)+2*b.U)
	}
	texts := box
	if over, beside := min(box.W, box.H-4*line), min(box.W-2*w, box.H); over >= beside {
		texts.W = min(texts.W, max(over, 2*w+8*b.U))
		box.Y, box.H = box.Y+2*line, box.H-4*line
	} else {
		texts.W = beside + 2*w
		texts.H = min(texts.H, max(beside, 4*line))
		box.X, box.W = box.X+w, box.W-2*w
	}
	worded := texts.W >= 2*w
	texts.X, texts.Y = box.Centre().X-texts.W/2, box.Centre().Y-texts.H/2
	b.drawing("above", box)
	m := model{att: b.tilted()}.shaped(&b.V.Config.Body)
	if !worded {
		return
	}
	for i, place := range tell.Places() {
		at := m.att.Turn(m.motorAt(i))
		x, anchor := texts.X, ink.Left
		// Upside down, the left motors are seen on the right.
		if at.Y > 0.01 || math.Abs(at.Y) <= 0.01 && i%2 == 1 {
			x, anchor = texts.Right(), ink.Right
		}
		y := texts.Y
		if at.X < 0 {
			y = texts.Bottom() - 2*line
		}
		b.Text("motor-place", x, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: anchor | ink.Top, Within: r}, b.Say(place))
		b.Text("motor "+codes.Places()[i], x, y+line, ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: anchor | ink.Top, Within: r},
			b.Say(tell.Motor(b.V.Snap.Motor[i], b.V.Config.Flight.IdleSpeed)))
	}
}

// drawing draws the craft as an eye sees it, as large as fits: from above in the middle, else standing on the ground.
func (b *Board) drawing(from string, r ink.Rect) {
	m := model{att: b.tilted(), eye: EyeAbove, mid: r.Centre(), scale: min(r.W, r.H) / 2 / 1.5, sweep: bellRadius}.shaped(&b.V.Config.Body)
	if from != "above" {
		m.eye, m.scale = map[string]Eye{"behind": EyeBehind(0), "side": EyeBeside(0)}[from], min(r.W, r.H)/2/1.3
		m.mid.Y = r.Bottom() - m.below()
	}
	var speeds [flight.Motors]float64
	for i := range speeds {
		speeds[i] = float64(b.V.Snap.Motor[i]) / flight.FullSpeed
	}
	b.still(from, &m, speeds)
}

// tilted is how the craft lies on the desk bench.
func (b *Board) tilted() vec.Q {
	return ui.TurnBy(vec.V{X: float64(b.V.Snap.In.Craft.TiltTenths) * math.Pi / 1800})
}

// Still draws the craft at rest in an attitude before an eye, its middle at a place of the sheet.
func (b *Board) Still(name string, e Eye, att vec.Q, mid ink.Point, scale float64) {
	m := model{att: att, eye: e, mid: mid, scale: scale}.shaped(&b.V.Config.Body)
	b.still(name, &m, [flight.Motors]float64{})
}

// still draws a craft without propellers. From above each motor is a ring with a sector that grows with its speed, 1 for the highest.
func (b *Board) still(name string, m *model, speeds [flight.Motors]float64) {
	b.assembled(name, m, func(i int) {
		if m.eye != EyeAbove {
			b.bell(name, m, i)
			return
		}
		c, r := m.at(m.motorAt(i)), m.scale*0.42
		b.Circle("motor-ring", c.X, c.Y, r, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.U})
		if speeds[i] > 0 {
			w := max(2*b.U, r*0.3)
			b.Arc("motor-speed", c.X, c.Y, r-w/2-2.5*b.U, -math.Pi/2, -math.Pi/2+2*math.Pi*min(speeds[i], 1), ink.Paint{Line: ink.Armed, Width: w})
		}
		b.Circle("motor-shaft", c.X, c.Y, max(1.5*b.U, r*0.14), ink.Paint{Fill: ink.Ink})
	})
}

// Propellers are the motors of a craft and what sits on them, as they are drawn from above.
type Propellers struct {
	// Turns is each motor's direction as seen from above and Hands the propeller on it, +1 clockwise, −1 counter-clockwise, 0
	// none (as body.Config); motors in the order front left, front right, rear left, rear right.
	Turns, Hands [flight.Motors]int8
	// Selected is the motor whose propeller the key changes, 0…3; −1 for none.
	Selected int
	// Wordless: arrows alone tell how each turns.
	Wordless bool
}

// motorPrefix and a number from 1 name the hit areas of the motors.
const motorPrefix = "motor-"

// MotorOf finds the motor, 0…3, of a hit area on the sheet before the first flight: it selects that motor, and where it is
// selected already, turns to the next propeller.
func MotorOf(code string) (int, bool) { return ui.DigitOf(code, motorPrefix, flight.Motors) }

// Puzzle draws the motors in the corners of a square as far as their words leave one, and between them, where they have words, the craft.
func (b *Board) Puzzle(v *Propellers, r ink.Rect) {
	b.Group("propellers")
	cell, c := r.Cell(0, 2, 2, 0), r.Centre()
	text := float64(len(b.motorWords(v, 0))) * ink.BlockHeight(b.Small, 1)
	radius := max(min((cell.H-text)/2-8*b.U, cell.W/2-8*b.U, (cell.W-14*b.U)/2.36), 10*b.U) // brackets between craft and edge
	reach := ui.Clamp(cell.W/2, radius*1.36+6*b.U, max(radius*1.36+6*b.U, min(cell.W-radius-8*b.U, radius*2.2)))
	if b.V.Class && !v.Wordless { // words need all the width there is
		reach = cell.W / 2
	}
	var at [flight.Motors]ink.Point
	for i := range at {
		side := [2]float64{-1, 1}
		at[i] = ink.Point{X: c.X + side[i%2]*reach, Y: c.Y + side[i/2]*(radius+7*b.U)}
	}
	if !v.Wordless {
		b.puzzleBody(c, radius, at)
	}
	for i, p := range at {
		b.puzzleMotor(v, i, p, radius, r)
	}
}

// puzzleBody is the craft without its motors: arms that end at their rings, and a body with a nose.
func (b *Board) puzzleBody(c ink.Point, radius float64, motors [flight.Motors]ink.Point) {
	for _, p := range motors {
		x, y := p.X-c.X, p.Y-c.Y
		d := math.Hypot(x, y)
		k := (d - radius - b.U) / d
		b.Line("arm", c.X+x*0.1, c.Y+y*0.1, c.X+x*k, c.Y+y*k, ink.Paint{Line: ink.Ink, Width: 4 * b.U})
	}
	w, h := radius*0.36, radius*0.62
	b.Rect("body", ink.Rect{X: c.X - w, Y: c.Y - h, W: 2 * w, H: 2 * h}, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.U})
	foot := c.Y - h - 1.5*b.U
	b.Polygon("nose", []ink.Point{{X: c.X - w*0.7, Y: foot}, {X: c.X + w*0.7, Y: foot}, {X: c.X, Y: c.Y - h - radius*0.4}}, ink.Paint{Fill: ink.Ink})
}

// puzzleMotor draws one motor in its ring, outside of which an arrow tells how it turns, with the propeller on it, whose own arrow
// tells how it must be turned to lift; and both in words.
func (b *Board) puzzleMotor(v *Propellers, i int, c ink.Point, radius float64, r ink.Rect) {
	high := ink.BlockHeight(b.Small, 1)
	selected := i == v.Selected
	// The words stand on the far side from the body.
	rows := b.motorWords(v, i)
	text := ink.Rect{X: r.X, Y: c.Y + radius + 4*b.U, W: r.W/2 - 2*b.U, H: high}
	if i%2 == 1 {
		text.X = r.Centre().X + 2*b.U
	}
	if i < 2 {
		text.Y = c.Y - radius - 5*b.U - float64(len(rows))*high
	}
	half := min(c.X-text.X, text.Right()-c.X) // they are centred at the motor
	text.X, text.W = c.X-half, 2*half
	if selected { // two brackets, one at each side
		for _, s := range [2]float64{-1, 1} {
			d := radius + 4*b.U
			x, end := c.X+s*d, c.X+s*(d-7*b.U)
			bracket := []ink.Point{{X: end, Y: c.Y - d*0.92}, {X: x, Y: c.Y - d*0.92}, {X: x, Y: c.Y + d*0.92}, {X: end, Y: c.Y + d*0.92}}
			b.Polyline("selected", bracket, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
		}
	}
	b.Circle("motor-ring", c.X, c.Y, radius*0.86, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: b.U})
	b.TurnArrow("motor-arrow", c, radius*0.97, v.Turns[i], 0.9, ink.Paint{Line: ink.Ink, Width: 1.6 * b.U})
	if v.Hands[i] != 0 {
		b.blades(c, radius*0.72, v.Hands[i])
		b.TurnArrow("propeller-arrow", c, radius*0.44, v.Hands[i], 1.9, ink.Paint{Line: ink.Focus, Width: 2.6 * b.U})
	}
	b.Circle("motor-shaft", c.X, c.Y, radius*0.1, ink.Paint{Fill: ink.Ink})

	for k, line := range rows {
		style := ink.Style{Size: b.Small, Anchor: ink.Centre}
		if k == 0 || k == len(rows)-1 && selected {
			style.Weight = ink.Bold
		}
		b.WholeLine("motor-words "+strconv.Itoa(i+1), text, style, words.AsIs(line))
		text.Y += high
	}
	b.Hit(motorPrefix+strconv.Itoa(i+1), "", ink.Rect{X: c.X - radius, Y: c.Y - radius, W: 2 * radius, H: 2 * radius})
}

// motorWords are the lines at a motor; for a class the way it turns is left to its arrow.
func (b *Board) motorWords(v *Propellers, i int) []string {
	place := b.Say(tell.Places()[i])
	switch {
	case v.Wordless:
		return []string{place}
	case b.V.Class:
		return []string{place, b.Say(tell.ClassPropeller(v.Hands[i]))}
	}
	return []string{place, b.Say(words.T("first.motor", words.Args{"clockwise": words.Flag(v.Turns[i] > 0)})), b.Say(tell.PropellerIs(v.Hands[i]))}
}

// TurnArrow draws part of a circle, to both sides of its top and of its bottom so many radians in all, with a tip at the end towards
// which it turns: clockwise where direction is positive.
func (b *Board) TurnArrow(name string, c ink.Point, radius float64, direction int8, span float64, p ink.Paint) {
	if direction == 0 {
		return
	}
	s := float64(direction)
	for _, middle := range [2]float64{-math.Pi / 2, math.Pi / 2} {
		from, to := middle-span/2, middle+span/2
		b.Arc(name, c.X, c.Y, radius, from, to, p)
		end := to
		if s < 0 {
			end = from
		}
		sin, cos := math.Sincos(end)
		tip := ink.Point{X: c.X + radius*cos, Y: c.Y + radius*sin}
		// Along the circle, and across it.
		d := max(3.2*p.Width, 4*b.U)
		ax, ay, x, y := -sin*s*d, cos*s*d, cos*d*0.75, sin*d*0.75
		b.Polygon(name+" tip", []ink.Point{{X: tip.X + ax, Y: tip.Y + ay}, {X: tip.X + x, Y: tip.Y + y}, {X: tip.X - x, Y: tip.Y - y}}, ink.Paint{Fill: p.Line})
	}
}

// blades draws a propeller of two blades from above. The leading edge is the straight one, so the two kinds are mirror images.
func (b *Board) blades(c ink.Point, radius float64, hand int8) {
	s := float64(hand)
	for _, side := range [2]float64{-1, 1} {
		b.V.Pts = b.V.Pts[:0]
		for _, q := range [...]ink.Point{{X: 0.08, Y: -0.05}, {X: 1, Y: -0.1}, {X: 1.03, Y: 0.02}, {X: 0.6, Y: 0.2}, {X: 0.25, Y: 0.16}, {X: 0.08, Y: 0.06}} {
			b.V.Pts = append(b.V.Pts, ink.Point{X: c.X + side*q.X*radius, Y: c.Y + side*s*q.Y*radius})
		}
		b.Polygon("blade", b.V.Pts, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.3 * b.U})
	}
}
