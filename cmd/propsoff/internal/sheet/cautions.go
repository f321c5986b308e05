package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// Cautions draws what must be read before the first start, and the key that says it was.
func Cautions(p *ink.Page, v *View) {
	b := newBoard(p, v)
	r := b.sheetArea()
	r = b.actions(r, OnCautions)
	b.Group("cautions")
	size := b.TextSize(30)
	b.Text("title", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, phrase.CautionsTitle())
	_, r = r.CutTop(ink.BlockHeight(size, 1), b.gap)

	for _, a := range acts {
		if a.Action != Understood {
			continue
		}
		var row ink.Rect
		row, r = r.CutBottom(44*b.u, b.gap)
		b.RoundRect("understood frame", row, 6*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 2 * b.u})
		h := 26 * b.u
		w := b.capWidth(h, a.Physical)
		b.keyCap("understood key", row.X+16*b.u+w/2, row.Centre().Y, h, a.Physical)
		x := row.X + w + 28*b.u
		b.fitted("understood", ink.Rect{X: x, Y: row.Y, W: row.Right() - x - 8*b.u, H: row.H}, ink.Style{Size: b.large, Weight: ink.Bold}, phrase.CautionsRead())
		b.Hit(a.Code, a.Physical, row)
	}
	text := b.body
	for text < b.TextSize(34) && b.cautionsHeight(r.W, text+1, 1) <= r.H {
		text++
	}
	b.cautions(r, text, 1)
}

// cautionsHeight is what the cautions take in so many columns.
func (b *board) cautionsHeight(w, size float64, columns int) float64 {
	most, sum := 0.0, 0.0
	all := phrase.Cautions()
	w = (w-b.gap*1.6*float64(columns-1))/float64(columns) - 2*size
	for i, text := range all {
		if i%((len(all)+columns-1)/columns) == 0 {
			sum = 0
		}
		n, _ := ink.CountLines(text, w, size, cautionWeight(i))
		sum += ink.BlockHeight(size, n) + size*0.7
		most = max(most, sum)
	}
	return most + b.sectionHeight()
}

func cautionWeight(i int) ink.Weight {
	if i == 0 {
		return ink.Bold
	}
	return ink.Regular
}

// cautions writes the cautions, numbered; the first, which can hurt somebody at this very moment, in bold.
func (b *board) cautions(r ink.Rect, size float64, columns int) {
	b.Group("cautions")
	all := phrase.Cautions()
	r = b.section(r, "cautions heading", phrase.CautionsHeading())
	each := (len(all) + columns - 1) / columns
	// What room is left stands between them.
	spare := clamp((r.H+b.sectionHeight()-b.cautionsHeight(r.W, size, columns))/float64(each), 0, 40*b.u)
	y := r.Y
	for i, text := range all {
		if i%each == 0 {
			y = r.Y + spare/2
		}
		cell := r.Cell(i/each, columns, 1, b.gap*1.6)
		b.Text("caution number", cell.X, y, ink.Style{Size: size, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top}, strconv.Itoa(i+1))
		h, _ := b.Block("caution", cell.X+2*size, y, ink.Style{Size: size, Weight: cautionWeight(i), Within: cell}, ink.Block{Width: cell.W - 2*size}, text)
		y += h + size*0.7 + spare
	}
}
