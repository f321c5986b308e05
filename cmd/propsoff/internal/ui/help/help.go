// Package help is one sheet: all keys, and the cautions.
package help

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/cmd/propsoff/internal/ui/screen"
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{Place: ui.OnHelp, Shared: []ui.Action{ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen, ui.ShowHelp, ui.Leave}}
}

// part is the sheet in the window.
type part struct{ screen.Base }

// New makes the sheet.
func New(*screen.Screen) screen.Sheet { return part{} }

func (part) About() *ui.About { return About() }

func (part) Draw(p *ink.Page, v *ui.View) { Draw(p, v) }

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws every key, and the cautions, the transmitting radio first.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	r := b.Actions(b.SheetArea(), ui.OnHelp)
	b.Group("help")
	d := b.Down(r, 4*b.U)
	d.Say("title", words.T("help-sheet.title"), ink.Style{Size: b.TextSize(20), Weight: ink.Bold})
	columns, highest := 3, 44*b.U // of a row
	if b.Tall {
		columns, highest = 2, 72*b.U
	}
	all, most := columnsOf(v, [3][]row{}, columns), 0
	for _, rows := range all {
		most = max(most, len(rows))
	}
	_, cautions := b.cautionsFit(d.R, b.Body, b.Body, 2)
	keys, rest := d.R.CutTop(min(float64(most)*ui.Clamp(d.R.H*0.6/float64(most), 27*b.U, highest), d.R.H-cautions-b.Gap), b.Gap)
	for c, rows := range all {
		for i := range rows {
			b.row(keys.Cell(i*columns+c, columns, most, 0), &rows[i])
		}
	}
	b.cautions(rest, b.TextSize(24), 2)
}

// row draws a heading, or a key and what it does: on two lines where they are needed and there is room.
func (b *board) row(r ink.Rect, row *row) {
	r.W -= 8 * b.U
	if row.key == "" {
		b.Fitted(row.name, r, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint}, b.Say(row.text))
		return
	}
	w := b.CapWidth(b.Cap, row.key)
	key, text := r.CutLeft(max(w, 44*b.U), 7*b.U)
	b.KeyCap(row.name+" key", key.Right()-w/2, key.Centre().Y, min(b.Cap, r.H-b.U), row.key)
	size := b.Small
	if r.H > ink.BlockHeight(b.Head, 2) {
		size = b.Head
	}
	h := min(b.SayHeight(row.text, text.W, ink.Style{Size: size}), ink.BlockHeight(size, 2))
	if h > r.H+2*b.U {
		h = ink.BlockHeight(size, 1)
	}
	text.Y, text.H = text.Centre().Y-h/2, h
	b.Down(text, 0).Say(row.name+" help", row.text, ink.Style{Size: size})
}
