package help

import (
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// AboutCautions is what there is to know of the sheet of the first start.
func AboutCautions() *ui.About {
	return &ui.About{
		Place: ui.OnCautions, NoClass: true,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnTextSize, ui.TurnLanguage, ui.TurnFullScreen, ui.Leave},
		Own:    []ui.Act{{Action: ui.Understood, Physical: "Enter"}},
		Common: []ui.Action{ui.TurnSheet, ui.TurnTextSize, ui.TurnLanguage, ui.TurnFullScreen},
		Shows:  func(v *ui.View, a ui.Action) (shows, known bool) { return false, a == ui.Leave && v.InPage },
	}
}

// cautionsPart is the sheet in the window.
type cautionsPart struct{ screen.Base }

// NewCautions makes the sheet of the first start.
func NewCautions(*screen.Screen) screen.Sheet { return cautionsPart{} }

func (cautionsPart) About() *ui.About { return AboutCautions() }

func (cautionsPart) Draw(p *ink.Page, v *ui.View) { DrawCautions(p, v) }

// DrawCautions draws what must be read before the first start, and the key that says it was.
func DrawCautions(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	r := b.Actions(b.SheetArea(), ui.OnCautions)
	b.Group("cautions")
	d := b.Down(r, b.Gap)
	d.Say("title", words.T("help-sheet.cautions-title"), ink.Style{Size: b.TextSize(30), Weight: ink.Bold})
	read, rest := d.R.CutBottom(44*b.U, b.Gap)
	if i := slices.IndexFunc(v.Notices, func(n ui.Notice) bool { return n.Good }); i >= 0 { // what a key did that is not to be seen; what is amiss waits until a person has read this
		rest = b.Notice(rest, v.Notices[i])
	}
	b.RoundRect("understood-frame", read, 6*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 2 * b.U})
	key, h := b.V.House.KeyOf(ui.Understood), 26*b.U
	_, in := read.CutLeft(16*b.U, 0)
	text := b.KeyAt(in, "understood-key", key, h, 12*b.U).Inset(2 * b.U)
	size, _ := ink.FitBlock(text.W, text.H, b.Body, b.Large, ink.Bold, b.Say(words.T("help-sheet.cautions-read")))
	style := ink.Style{Size: size, Weight: ink.Bold}
	_, text = text.CutTop((text.H-b.SayHeight(words.T("help-sheet.cautions-read"), text.W, style))/2, 0)
	b.Down(text, 0).Say("understood", words.T("help-sheet.cautions-read"), style)
	b.Hit(ui.Understood.Code(), key, read)
	b.cautions(rest, b.TextSize(44), 1)
}

// cautionsFit is the largest size of text from least to most at which the cautions fit into so many columns, and what they take then.
func (b *board) cautionsFit(r ink.Rect, least, most float64, columns int) (size, height float64) {
	takes := func(size float64) float64 {
		return b.Takes(r.W, func(d *ui.Down) { d.R.Y = b.cautionsIn(d.R, columns, size, 0) })
	}
	for size = least; size < most && takes(size+1) <= r.H; size++ {
	}
	return size, takes(size)
}

// cautions writes the cautions as large as they fit; what room is left stands between them.
func (b *board) cautions(r ink.Rect, most float64, columns int) {
	b.Group("cautions")
	size, height := b.cautionsFit(r, b.Body, most, columns)
	each := (len(tell.Cautions()) + columns - 1) / columns
	b.cautionsIn(r, columns, size, ui.Clamp((r.H-height)/float64(each), 0, 40*b.U))
}

// cautionsIn writes the cautions, numbered, in columns, with so much room to spare for each; the first, which can hurt somebody at this very
// moment, in bold. It gives how far down they reach.
func (b *board) cautionsIn(r ink.Rect, columns int, size, spare float64) (low float64) {
	all := tell.Cautions()
	each := (len(all) + columns - 1) / columns
	r = b.Section(r, "cautions-heading", b.Say(words.T("help-sheet.cautions")))
	var d *ui.Down
	for i, t := range all {
		cell := r.Cell(i/each, columns, 1, b.Gap*1.6)
		if i%each == 0 {
			d = b.Down(ink.Rect{X: cell.X + 2*size, Y: cell.Y + spare/2, W: cell.W - 2*size, H: cell.H - spare/2}, size*0.7+spare)
		}
		b.Text("caution-number", cell.X, d.R.Y, ink.Style{Size: size, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top}, strconv.Itoa(i+1))
		d.Say("caution", t, ink.Style{Size: size, Weight: ui.CautionWeight(i)})
		low = max(low, d.R.Y)
	}
	return low
}
