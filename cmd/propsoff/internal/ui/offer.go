package ui

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// Offer is a row to be pressed: what it is, and in a smaller line how it stands.
type Offer struct {
	Says, Stands words.Text
	// Size of the text; 0 is that of sentences that matter.
	Size float64
	// Marked: the key takes this one. Next: it is the one to begin with, and says so.
	Marked, Next bool
}

// offerInset is the room before and behind the text of an offer, offerMark that of its mark, in pixels of the least window.
const (
	offerInset = 10
	offerMark  = 18
)

// OfferHeight is the height of an offer so wide: what its text takes, and no less than a finger needs.
func (b *Board) OfferHeight(w float64, o *Offer) float64 {
	text := w - (2*offerInset+offerMark)*b.U
	says, stands := b.offerStyles(o)
	h := b.SayHeight(o.says(), text, says)
	if !o.Stands.Empty() {
		h += b.SayHeight(o.Stands, text, stands) + 2*b.U
	}
	return max(h+14*b.U, b.Px(leastByFinger))
}

// says is what an offer is, with the word for the one to begin with.
func (o *Offer) says() words.Text {
	if o.Next {
		return words.T("sheet.next", words.Args{"what": o.Says})
	}
	return o.Says
}

func (b *Board) offerStyles(o *Offer) (says, stands ink.Style) {
	size := o.Size
	if size == 0 {
		size = b.Large
	}
	return ink.Style{Size: size, Weight: ink.Bold}, ink.Style{Size: max(b.Small, min(b.Body, size))}
}

// Offer draws one, to be clicked under a name.
func (b *Board) Offer(r ink.Rect, name, key string, o *Offer) {
	says, stands := b.offerStyles(o)
	paint := ink.Paint{Line: ink.Rule, Fill: ink.Panel, Width: b.U}
	if o.Marked {
		paint.Line, paint.Width = ink.Focus, 3*b.U
	}
	b.RoundRect("offer-box", r.Inset(1.5*b.U), 5*b.U, paint)
	if o.Marked {
		x, y, d := r.X+offerInset*b.U, r.Centre().Y, 6*b.U
		b.Triangle("offer-mark", ink.Paint{Fill: ink.Focus}, ink.Point{X: x, Y: y - d}, ink.Point{X: x + 1.3*d, Y: y}, ink.Point{X: x, Y: y + d})
	}
	text := ink.Rect{X: r.X + (offerInset+offerMark)*b.U, W: r.W - (2*offerInset+offerMark)*b.U}
	text.H = b.SayHeight(o.says(), text.W, says)
	if !o.Stands.Empty() {
		text.H += b.SayHeight(o.Stands, text.W, stands) + 2*b.U
	}
	text.Y = r.Centre().Y - text.H/2
	d := b.Down(text, 2*b.U)
	d.Say("offer", o.says(), says)
	d.Say("offer-stands", o.Stands, stands)
	b.Hit(name, key, r)
}

// Offers draws them as a list into r, in two columns where there are more than most and the page has the width; at stays in sight, and a prefix with a
// number from 1 names what is hit.
func (b *Board) Offers(name string, r ink.Rect, rows []Offer, at, most int, prefix string) {
	columns := 1
	if len(rows) > most && !b.Tall && !b.V.Class {
		columns = 2
	}
	h, gap, w := 0.0, b.Gap*0.5, r.W/float64(columns)
	for i := range rows {
		if b.V.Class {
			rows[i].Size = b.Body
		}
		h = max(h, b.OfferHeight(w-gap, &rows[i]))
	}
	lines := (len(rows) + columns - 1) / columns
	h += gap + max((r.H-float64(lines)*(h+gap))/float64(max(lines, 1)), 0)
	b.ListAll(name, r, lines, at/columns, h, func(line ink.Rect, n int) {
		for c := range columns {
			if i := n*columns + c; i < len(rows) {
				cell := line.Cell(c, columns, 1, gap)
				cell.H -= gap
				b.Offer(cell, prefix+strconv.Itoa(i+1), "", &rows[i])
			}
		}
	})
}
