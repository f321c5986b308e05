package figure

import (
	"math"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/flight"
	"strconv"
)

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

// PuzzleMotor draws one motor in its ring, outside of which an arrow tells how it turns, with the propeller on it, whose own arrow
// tells how it must be turned to lift; and both in words.
func (b *Board) PuzzleMotor(v *Propellers, i int, c ink.Point, radius float64, r ink.Rect) {
	line := ink.BlockHeight(b.Small, 1)
	selected := i == v.Selected
	// The words stand on the far side from the body.
	rows := b.MotorWords(v, i)
	text := ink.Rect{X: r.X, W: r.W/2 - 2*b.U}
	if i%2 == 1 {
		text.X = r.Centre().X + 2*b.U
	}
	half := textHalf(c.X, text)
	text.Y = c.Y + radius + 4*b.U
	if i < 2 {
		text.Y = c.Y - radius - 5*b.U - float64(len(rows))*line
	}
	if selected {
		b.selection(c, radius)
	}
	b.Circle("motor-ring", c.X, c.Y, radius*0.86, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: b.U})
	b.TurnArrow("motor-arrow", c, radius*0.97, v.Turns[i], 0.9, ink.Paint{Line: ink.Ink, Width: 1.6 * b.U})
	if v.Hands[i] != 0 {
		b.blades(c, radius*0.72, v.Hands[i])
		b.TurnArrow("propeller-arrow", c, radius*0.44, v.Hands[i], 1.9, ink.Paint{Line: ink.Focus, Width: 2.6 * b.U})
	}
	b.Circle("motor-shaft", c.X, c.Y, radius*0.1, ink.Paint{Fill: ink.Ink})

	for k, words := range rows {
		style := ink.Style{Size: b.Small, Anchor: ink.Centre}
		if k == 0 {
			style.Weight = ink.Bold
		}
		if k == len(rows)-1 && selected {
			style.Weight = ink.Bold
		}
		b.Fitted("motor-words "+strconv.Itoa(i+1), ink.Rect{X: c.X - half, Y: text.Y + float64(k)*line, W: 2 * half, H: line}, style, words)
	}
	b.Hit(motorPrefix+strconv.Itoa(i+1), "", ink.Rect{X: c.X - radius, Y: c.Y - radius, W: 2 * radius, H: 2 * radius})
}

// MotorWords are the lines at a motor; for a class the way it turns is left to its arrow.
func (b *Board) MotorWords(v *Propellers, i int) []string {
	place := b.Say(tell.Places()[i])
	switch {
	case v.Wordless:
		return []string{place}
	case b.V.Class:
		return []string{place, b.Say(tell.ClassPropeller(v.Hands[i]))}
	}
	return []string{place, b.Say(tell.MotorTurns(v.Turns[i])), b.Say(tell.PropellerIs(v.Hands[i]))}
}

// textHalf is half the width that words centred at x have in a field.
func textHalf(x float64, field ink.Rect) float64 { return min(x-field.X, field.Right()-x) }

// selection marks the motor whose propeller the key changes: two brackets, one at each side.
func (b *Board) selection(c ink.Point, radius float64) {
	d := radius + 4*b.U
	for _, s := range [2]float64{-1, 1} {
		x := c.X + s*d
		b.V.Pts = append(b.V.Pts[:0], ink.Point{X: x - s*7*b.U, Y: c.Y - d*0.92}, ink.Point{X: x, Y: c.Y - d*0.92}, ink.Point{X: x, Y: c.Y + d*0.92}, ink.Point{X: x - s*7*b.U, Y: c.Y + d*0.92})
		b.Polyline("selected", b.V.Pts, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
	}
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
		ax, ay := -sin*s, cos*s
		d := max(3.2*p.Width, 4*b.U)
		b.V.Pts = append(b.V.Pts[:0], ink.Point{X: tip.X + ax*d, Y: tip.Y + ay*d}, ink.Point{X: tip.X + cos*d*0.75, Y: tip.Y + sin*d*0.75}, ink.Point{X: tip.X - cos*d*0.75, Y: tip.Y - sin*d*0.75})
		b.Polygon(name+" tip", b.V.Pts, ink.Paint{Fill: p.Line})
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
