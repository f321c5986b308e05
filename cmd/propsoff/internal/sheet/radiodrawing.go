package sheet

import "propsoff/cmd/propsoff/internal/ink"

// radioDrawing draws a radio from the front. Where it is known which hand carries what, the throttle is down; else both sticks are in
// their middles.
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
	for _, x := range [4]float64{0.1, 0.24, 0.76, 0.9} {
		at := ink.Point{X: body.X + body.W*x, Y: body.Y}
		b.Line("radio switch", at.X, at.Y, at.X, at.Y-h*0.09, ink.Paint{Line: ink.Ink, Width: 3 * b.u})
	}
	screen := ink.Rect{X: body.Centre().X - w*0.08, Y: body.Bottom() - h*0.24, W: w * 0.16, H: h * 0.13}
	b.RoundRect("radio screen", screen, 2*b.u, ink.Paint{Line: ink.Rule})

	size := min(body.H*0.72, w*0.34)
	for i, g := range gimbals[stickMode(b.v.Learn.StickMode)] {
		x := body.X + body.W*[2]float64{0.24, 0.76}[i]
		well := ink.Rect{X: x - size/2, Y: body.Centre().Y - size/2, W: size, H: size}
		b.RoundRect("radio well", well, 7*b.u, ink.Paint{Line: ink.Rule, Width: 1.2 * b.u})
		at := well.Centre()
		if b.v.Learn.ModeKnown && g.up == throttle {
			at.Y = well.Inset(well.W * 0.16).Bottom()
		}
		b.Circle("radio stick", at.X, at.Y, max(5*b.u, well.W*0.08), ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.u})
	}
}
