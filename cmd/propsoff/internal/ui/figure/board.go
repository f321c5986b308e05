// Package figure draws what several sheets show: sticks and switches, the chart, the craft from above, behind and beside, the state and what
// refuses.
package figure

import (
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// Board is a page being drawn for a view, with these figures to be drawn on it.
type Board struct{ *ui.Board }

// NewBoard begins a page.
func NewBoard(p *ink.Page, v *ui.View) *Board { return &Board{ui.NewBoard(p, v)} }

// Open begins the page of a sheet with all that can be done at its lower edge. It gives what is left above.
func Open(p *ink.Page, v *ui.View, on ui.Place) (*Board, ink.Rect) {
	b := NewBoard(p, v)
	v.Leaves.Of = 1
	if v.Class {
		return b, b.ClassKeys(on)
	}
	return b, b.Footer(b.SheetArea(), on)
}

// Abreast has n things drawn side by side, with a line between two.
func (b *Board) Abreast(r ink.Rect, n int, draw func(i int, cell ink.Rect)) {
	for i := range n {
		cell := r.Cell(i, n, 1, b.Gap*1.4)
		if x := cell.X - b.Gap*0.7; i > 0 {
			b.Line("edge", x, cell.Y, x, cell.Bottom(), ink.Paint{Line: ink.Grid})
		}
		draw(i, cell)
	}
}

// Takes is the height that draw takes in a column of a width: it draws on a page that nobody sees.
func (b *Board) Takes(w float64, draw func(d *ui.Down)) float64 {
	seen := b.Page
	b.Page = &b.V.Unseen
	b.Page.Reset(seen.W, seen.H, seen.Scale, seen.Theme)
	d := b.Down(ink.Rect{W: w, H: unbounded}, 0)
	draw(d)
	b.Page = seen
	return d.R.Y
}

// unbounded is higher than anything that is drawn, px.
const unbounded = 1e6

// stroke draws a line between two places.
func (b *Board) stroke(name string, from, to ink.Point, p ink.Paint) {
	b.Line(name, from.X, from.Y, to.X, to.Y, p)
}
