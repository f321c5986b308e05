package sheet

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/input/learn"
)

// radioDrawing draws a radio from the front, with an arrow along the way that the question asks for: on the stick that
// carries it in this stick mode, or at a switch.
func (b *board) radioDrawing(r ink.Rect) {
	b.Group("radio")
	h := min(r.H, r.W*0.56)
	w := min(r.W, h/0.52)
	h = min(h, w*0.56)
	if h < 40*b.u {
		return // what can be seen of so small a drawing is no help
	}
	body := ink.Rect{X: r.Centre().X - w/2, Y: r.Y + (r.H-h)/2 + h*0.16, W: w, H: h * 0.84}
	line := ink.Paint{Line: ink.Ink, Width: 1.8 * b.u}
	b.RoundRect("radio body", body, h*0.14, line)
	b.Line("radio aerial", body.Centre().X, body.Y, body.Centre().X, body.Y-h*0.14, ink.Paint{Line: ink.Ink, Width: 3 * b.u})
	l := &b.v.Learn

	// Four switches at the shoulders; a question about a switch marks them all: which one is for the person to choose.
	for _, x := range [4]float64{0.1, 0.24, 0.76, 0.9} {
		at := ink.Point{X: body.X + body.W*x, Y: body.Y}
		b.Line("radio switch", at.X, at.Y, at.X, at.Y-h*0.09, ink.Paint{Line: ink.Ink, Width: 3 * b.u})
		if l.Step == learn.Through {
			b.arrow("switch way", ink.Point{X: at.X + 9*b.u, Y: at.Y - h*0.02}, ink.Point{X: at.X + 9*b.u, Y: at.Y - h*0.14}, 2*b.u)
		}
	}
	screen := ink.Rect{X: body.Centre().X - w*0.08, Y: body.Bottom() - h*0.24, W: w * 0.16, H: h * 0.13}
	b.RoundRect("radio screen", screen, 2*b.u, ink.Paint{Line: ink.Rule})

	size := min(body.H*0.72, w*0.34)
	for i, g := range gimbals[stickMode(l.StickMode)] {
		x := body.X + body.W*[2]float64{0.24, 0.76}[i]
		well := ink.Rect{X: x - size/2, Y: body.Centre().Y - size/2, W: size, H: size}
		b.radioStick(well, g)
	}
}

// radioStick draws one stick of the radio where the movement starts, and the arrow where the question wants it to go.
func (b *board) radioStick(r ink.Rect, g gimbal) {
	b.RoundRect("radio well", r, 7*b.u, ink.Paint{Line: ink.Rule, Width: 1.2 * b.u})
	in := r.Inset(r.W * 0.16)
	from := in.Centre()
	if g.up == throttle {
		from.Y = in.Bottom()
	}
	rest := from
	to := from
	l := &b.v.Learn
	asked, is := askedJob(l.Question)
	if is && (g.up == asked || g.across == asked) {
		high, low := ink.Point{X: from.X, Y: in.Y}, ink.Point{X: from.X, Y: in.Bottom()}
		if g.across == asked {
			high, low = ink.Point{X: in.Right(), Y: from.Y}, ink.Point{X: in.X, Y: from.Y}
		}
		switch l.Step {
		case learn.HighEnd:
			to = high
		case learn.LowEnd:
			from, to = high, low
		case learn.LetGo:
			from, to = low, rest
		}
	}
	mark := ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.u}
	if to != from {
		b.arrow("stick way", from, to, 4*b.u)
		mark.Line = ink.Focus
	}
	b.Circle("radio stick", from.X, from.Y, max(5*b.u, r.W*0.08), mark)
}

// askedJob is the stick direction that a question is about.
func askedJob(q learn.Question) (job, bool) {
	switch q {
	case learn.Throttle:
		return throttle, true
	case learn.Roll:
		return roll, true
	case learn.Pitch:
		return pitch, true
	case learn.Yaw:
		return yaw, true
	}
	return 0, false
}

// arrow draws an upright or level arrow.
func (b *board) arrow(name string, from, to ink.Point, width float64) {
	d := width * 2.2
	dx, dy := 0.0, 0.0
	switch {
	case to.X > from.X:
		dx = 1
	case to.X < from.X:
		dx = -1
	case to.Y < from.Y:
		dy = -1
	default:
		dy = 1
	}
	neck := ink.Point{X: to.X - dx*d, Y: to.Y - dy*d}
	b.Line(name, from.X, from.Y, neck.X, neck.Y, ink.Paint{Line: ink.Focus, Width: width})
	head := [...]ink.Point{to, {X: neck.X - dy*d*0.8, Y: neck.Y + dx*d*0.8}, {X: neck.X + dy*d*0.8, Y: neck.Y - dx*d*0.8}}
	b.Polygon(name+" head", head[:], ink.Paint{Fill: ink.Focus})
}
