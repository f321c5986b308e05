package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// raw draws every axis and every button that the radio has, live.
func (b *board) raw(r ink.Rect) {
	b.Group("raw")
	axes, buttons := len(b.v.Device.Axes), b.v.Device.Buttons
	r = b.section(r, "axes heading", phrase.AxesTitle(axes))
	cellW := ink.Width(strconv.Itoa(max(buttons, 10)), b.small, ink.Bold) + 6*b.u
	perRow := max(1, min(int(r.W/cellW), 16))
	lines := (buttons + perRow - 1) / perRow
	// Rows shrink, and axes take more columns, until both fit.
	least := b.rowHeight() + 1.5*b.u
	room := r.H - b.gap - b.sectionHeight()
	columns := 1
	for columns < 4 && float64((axes+columns-1)/columns+lines)*least > room {
		columns++
	}
	rows := (axes + columns - 1) / columns
	step := clamp(room/float64(max(rows+lines, 1)), least, 34*b.u)
	area := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: step * float64(rows)}
	for i := range axes {
		b.rawAxis(area.Cell(i%rows*columns+i/rows, columns, rows, 0), i, columns)
	}
	_, r = r.CutTop(area.H, b.gap)
	r = b.section(r, "buttons heading", phrase.ButtonsTitle(buttons))
	area = ink.Rect{X: r.X, Y: r.Y, W: r.W, H: step * float64(lines)}
	for i := range buttons {
		cell := area.Cell(i, perRow, lines, 0)
		h := min(cell.H-1.5*b.u, 22*b.u)
		b.rawButton(ink.Rect{X: cell.X, Y: cell.Centre().Y - h/2, W: cell.W - 3*b.u, H: h}, i)
	}
}

// rawAxis is a mark on a line with end ticks; the axis that is seen moving has a heavier mark and a bold number.
func (b *board) rawAxis(r ink.Rect, i, columns int) {
	l := &b.v.Learn
	a := b.v.Device.Axes[i]
	y := r.Centre().Y
	style := ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}
	if l.Axis == i {
		style.Weight, style.Colour = ink.Bold, ink.Ink
	}
	number := ink.Width("00", b.small, ink.Bold)
	b.Text("axis number", r.X+number, y, style, strconv.Itoa(i+1))
	x := r.X + number + 8*b.u
	value := "–"
	if l.Begun {
		value = strconv.Itoa(int(l.Raw.Axes[i]))
	}
	if a.Hat && columns < 3 {
		value = phrase.HatAxis() + " " + value
	}
	if columns > 1 {
		r.W -= 8 * b.u
	}
	right := r.Right() - ink.Width("-32768", b.small, ink.Bold) - 6*b.u
	if columns < 3 {
		right -= ink.Width(phrase.HatAxis(), b.small, ink.Bold) - 4*b.u
	}
	b.Text("axis value", r.Right(), y, ink.Style{Size: b.small, Weight: style.Weight, Anchor: ink.Right | ink.Middle}, value)
	t := 4 * b.u
	b.Line("axis way", x, y, right, y, ink.Paint{Line: ink.Rule})
	b.Line("axis end", x, y-t, x, y+t, ink.Paint{Line: ink.Rule})
	b.Line("axis end", right, y-t, right, y+t, ink.Paint{Line: ink.Rule})
	if s := l.Shares[i]; l.Begun && s >= 0 {
		at := x + (right-x)*clamp(float64(s)/1000, 0, 1)
		if l.Axis == i {
			b.Circle("axis moves", at, y, 6*b.u, ink.Paint{Fill: ink.Focus, Line: ink.Focus})
			return
		}
		b.Rect("axis mark", ink.Rect{X: at - 2*b.u, Y: y - 5*b.u, W: 4 * b.u, H: 10 * b.u}, ink.Paint{Fill: ink.Ink})
	}
}

func (b *board) rawButton(r ink.Rect, i int) {
	style := ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}
	paint := ink.Paint{Line: ink.Rule}
	if b.v.Learn.Raw.Button(i) {
		style.Colour, style.Weight = ink.Paper, ink.Bold
		paint = ink.Paint{Fill: ink.Ink, Line: ink.Ink}
	}
	b.RoundRect("button", r, 2*b.u, paint)
	b.Text("button number", r.Centre().X, r.Centre().Y, style, strconv.Itoa(i+1))
}
