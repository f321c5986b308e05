package handheld

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/handset"
)

// A knob's pointer swings this far to each side of straight up.
const swing = 0.75 * math.Pi

// form is what a control is drawn as.
type form uint8

const (
	lever form = iota
	slider
	knob
	button
)

// form tells what a control is drawn as: how a hand moves it tells that, and whether it has positions.
func (c *Control) form() form {
	switch c.Spot.Way {
	case handset.TurnsClockwise, handset.TurnsBack:
		return knob
	case handset.Pressed:
		return button
	}
	if c.Positions == 0 {
		return slider
	}
	return lever
}

// direction is the unit vector in which a straight control goes to its high end; y grows downwards.
func (c *Control) direction() (x, y float64) {
	switch c.Spot.Way {
	case handset.GoesRight:
		return 1, 0
	case handset.GoesDown:
		return 0, 1
	case handset.GoesLeft:
		return -1, 0
	}
	return 0, -1
}

// measure is the width and the height of a control's figure.
func (q *put) measure() (w, h float64) {
	long, thick := q.size, q.size*0.5
	switch q.form() {
	case knob:
		return q.size, q.size
	case button:
		n := max(1, q.Positions)
		if n <= 2 {
			n = 1
		}
		return q.size * 0.62 * float64(n), q.size * 0.62
	case slider:
		long, thick = q.size*1.1, q.size*0.44
	}
	if x, _ := q.direction(); x != 0 {
		return long, thick
	}
	return thick, long
}

// control draws one control with its mark and what stands beside it.
func (k *drawing) control(q *put) {
	pen := k.pen(q)
	line := ink.Paint{Line: ink.Ink, Width: 1.2 * pen}
	if q.Spot.Guessed {
		line.Dash = ink.Dash{On: 2.6 * pen, Off: 1.6 * pen}
	}
	if q.Mark != Plain {
		k.mark(q)
	}
	switch q.form() {
	case knob:
		k.knob(q, line)
	case button:
		k.button(q, line)
	default:
		k.lever(q, line)
	}
	if q.Mark == Moves && q.To >= 0 {
		k.towards(q)
	}
	if label := k.label(q.Control); label != "" && !k.Nameless {
		style := ink.Style{Size: k.Size, Weight: ink.Bold, Anchor: ink.Middle}
		if q.beside < 0 {
			style.Anchor |= ink.Right
		}
		if q.Spot.Guessed && q.Mark == Plain {
			style.Colour = ink.Faint
		}
		k.Text("control-name", q.at.X+q.beside, q.at.Y, style, label)
	}
}

// pen is the width of a thin line in a figure: of small figures it is thinner.
func (k *drawing) pen(q *put) float64 { return min(k.Pen, q.size*0.055) }

// mark is the frame round a control that stands out.
func (k *drawing) mark(q *put) {
	w, h := q.measure()
	m := k.margin()
	k.RoundRect("control-mark", ink.Rect{X: q.at.X - w/2 - m, Y: q.at.Y - h/2 - m, W: w + 2*m, H: h + 2*m}, min(w, h)*0.3, ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: max(1.4*k.Pen, m*0.7)})
}

// lever draws a slot with its positions and the lever where it stands; a slider is a slot with a handle across.
func (k *drawing) lever(q *put, line ink.Paint) {
	pen := k.pen(q)
	x, y := q.direction()
	slot := q.size * 0.16
	from, to := q.along(0), q.along(1)
	box := ink.Rect{X: min(from.X, to.X) - slot, Y: min(from.Y, to.Y) - slot, W: math.Abs(to.X-from.X) + 2*slot, H: math.Abs(to.Y-from.Y) + 2*slot}
	k.RoundRect("control-slot", box, slot, line)
	tick := q.size * 0.23
	for i := range q.Positions {
		p := q.along(float64(i) / float64(max(q.Positions-1, 1)))
		k.Page.Line("control-place", p.X-y*tick, p.Y+x*tick, p.X+y*tick, p.Y-x*tick, ink.Paint{Line: ink.Rule, Width: pen})
	}
	if q.Springs { // a stop at the end that it comes back to
		p := ink.Point{X: from.X - x*slot*1.3, Y: from.Y - y*slot*1.3}
		k.Page.Line("control-spring", p.X-y*tick, p.Y+x*tick, p.X+y*tick, p.Y-x*tick, ink.Paint{Line: ink.Ink, Width: 2 * pen})
	}
	if q.To >= 0 && q.Mark == Moves {
		p := q.along(q.To)
		k.Circle("control-to", p.X, p.Y, q.size*0.15, ink.Paint{Fill: ink.Paper, Line: ink.Focus, Width: 1.4 * pen})
	}
	at := q.along(0.5)
	solid := ink.Paint{Fill: ink.Ink}
	if q.At >= 0 {
		at = q.along(min(q.At, 1))
	} else {
		solid = ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: pen}
	}
	long, thick := q.size*0.24, q.size*0.1
	if q.Positions > 0 {
		long, thick = q.size*0.19, q.size*0.13
	}
	bat := ink.Rect{X: at.X - math.Abs(y)*long - math.Abs(x)*thick, Y: at.Y - math.Abs(x)*long - math.Abs(y)*thick, W: 2 * (math.Abs(y)*long + math.Abs(x)*thick), H: 2 * (math.Abs(x)*long + math.Abs(y)*thick)}
	k.RoundRect("control-lever", bat, thick*0.7, solid)
}

// along is a place in the slot of a straight control, from its low end to its high one.
func (q *put) along(share float64) ink.Point {
	x, y := q.direction()
	d := (share - 0.5) * q.size * 0.62
	if q.form() == slider {
		d = (share - 0.5) * q.size * 0.72
	}
	return ink.Point{X: q.at.X + x*d, Y: q.at.Y + y*d}
}

// angle is where a knob's pointer stands for a share of its way.
func (q *put) angle(share float64) float64 {
	a := (2*share - 1) * swing
	if q.Spot.Way == handset.TurnsBack {
		a = -a
	}
	return a - math.Pi/2
}

func round(c ink.Point, r, a float64) ink.Point {
	return ink.Point{X: c.X + r*math.Cos(a), Y: c.Y + r*math.Sin(a)}
}

// knob draws a knob, or a switch that is turned, with its pointer.
func (k *drawing) knob(q *put, line ink.Paint) {
	pen := k.pen(q)
	r := q.size * 0.36
	k.Circle("control-knob", q.at.X, q.at.Y, r, ink.Paint{Fill: ink.Paper, Line: line.Line, Width: line.Width, Dash: line.Dash})
	places := max(q.Positions, 2)
	for i := range places {
		a := q.angle(float64(i) / float64(places-1))
		p, o := round(q.at, r+q.size*0.04, a), round(q.at, q.size*0.49, a)
		k.Page.Line("control-place", p.X, p.Y, o.X, o.Y, ink.Paint{Line: ink.Rule, Width: pen})
	}
	if q.To >= 0 && q.Mark == Moves {
		p := round(q.at, r, q.angle(q.To))
		k.Circle("control-to", p.X, p.Y, q.size*0.11, ink.Paint{Fill: ink.Paper, Line: ink.Focus, Width: 1.4 * pen})
	}
	if q.At < 0 {
		k.Circle("control-pointer", q.at.X, q.at.Y, max(pen, r*0.22), ink.Paint{Fill: ink.Ink})
		return
	}
	tip := round(q.at, r*0.92, q.angle(min(q.At, 1)))
	k.Page.Line("control-pointer", q.at.X, q.at.Y, tip.X, tip.Y, ink.Paint{Line: ink.Ink, Width: max(1.8*pen, q.size*0.08)})
}

// button draws a push button, filled where it is pressed; of a row one for each position, the one that stands filled.
func (k *drawing) button(q *put, line ink.Paint) {
	pen := k.pen(q)
	n := max(1, q.Positions)
	if n <= 2 {
		n = 1
	}
	each := q.size * 0.62
	now := -1
	if q.At >= 0 {
		now = int(math.Round(q.At * float64(n-1)))
	}
	for i := range n {
		x := q.at.X + (float64(i)-float64(n-1)/2)*each
		k.Circle("control-button", x, q.at.Y, each*0.46, ink.Paint{Fill: ink.Paper, Line: line.Line, Width: line.Width, Dash: line.Dash})
		cap := ink.Paint{Line: ink.Rule, Width: pen}
		if n > 1 && i == now || n == 1 && q.At > 0.5 {
			cap = ink.Paint{Fill: ink.Ink}
		}
		k.Circle("control-cap", x, q.at.Y, each*0.28, cap)
	}
}

// from is where a control that must move comes from: where it stands, or where nobody knows that, the other end.
func (c *Control) from() float64 {
	if c.At < 0 || math.Abs(c.At-c.To) < 0.05 {
		return 1 - math.Round(c.To)
	}
	return c.At
}

// Backwards tells whether a control that must move has to go from its high end to its low one.
func (c *Control) Backwards() bool { return c.To < c.from() }

// towards draws the arrow that says which way a control must move. Of a place that is only guessed it would say too much.
func (k *drawing) towards(q *put) {
	if q.Spot.Guessed {
		return
	}
	m := k.margin()
	from := q.from()
	head := max(q.size*0.24, 4*k.Pen)
	w, h := q.measure()
	switch q.form() {
	case knob:
		r := q.size*0.5 + m
		a, b := q.angle(from), q.angle(q.To)
		way := math.Copysign(1, b-a)
		k.Arc("control-arrow", q.at.X, q.at.Y, r, min(a, b-way*0.3), max(a, b-way*0.3), ink.Paint{Line: ink.Focus, Width: 2 * k.Pen})
		tip := round(q.at, r, b)
		k.head(tip, round(q.at, r, b-way*0.35), head)
	case button:
		c := ink.Point{X: q.at.X - w/2 - m, Y: q.at.Y}
		k.arrow("control-arrow", ink.Point{X: c.X - q.size*0.4, Y: c.Y}, c, head)
	default:
		a, b := q.along(from), q.along(q.To)
		x, _ := q.direction()
		if x != 0 {
			a.Y -= h/2 + m + q.size*0.2
			b.Y = a.Y
		} else {
			a.X -= w/2 + m + q.size*0.2
			b.X = a.X
		}
		k.arrow("control-arrow", a, b, head)
	}
}

// arrow draws an arrow from a place to another.
func (k *drawing) arrow(name string, from, to ink.Point, head float64) {
	d := math.Hypot(to.X-from.X, to.Y-from.Y)
	if d == 0 {
		return
	}
	head = min(head, d)
	back := ink.Point{X: to.X - (to.X-from.X)/d*head*0.8, Y: to.Y - (to.Y-from.Y)/d*head*0.8}
	k.Page.Line(name, from.X, from.Y, back.X, back.Y, ink.Paint{Line: ink.Focus, Width: 2 * k.Pen})
	k.head(to, from, head)
}

// head is the head of an arrow that comes from a place.
func (k *drawing) head(tip, from ink.Point, size float64) {
	d := math.Hypot(tip.X-from.X, tip.Y-from.Y)
	if d == 0 {
		return
	}
	x, y := (tip.X-from.X)/d, (tip.Y-from.Y)/d
	b := ink.Point{X: tip.X - x*size, Y: tip.Y - y*size}
	k.Polygon("arrow-head", []ink.Point{tip, {X: b.X - y*size*0.6, Y: b.Y + x*size*0.6}, {X: b.X + y*size*0.6, Y: b.Y - x*size*0.6}}, ink.Paint{Fill: ink.Focus})
}
