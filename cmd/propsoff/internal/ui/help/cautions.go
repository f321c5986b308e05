package help

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/cmd/propsoff/internal/ui/screen"
)

// AboutCautions is what there is to know of the sheet of the first start.
func AboutCautions() *ui.About {
	return &ui.About{
		Place:  ui.OnCautions,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen, ui.Leave},
		Own:    []ui.Act{{Action: ui.Understood, Physical: "Enter"}},
		Does: func(_ *ui.View, a ui.Action) words.Text {
			if a == ui.Leave { // there is no sheet to go back to
				return tell.Does(a.Code(), false, 0)
			}
			return words.Text{}
		},
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
	b.RoundRect("understood-frame", read, 6*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 2 * b.U})
	key, h := b.V.House.KeyOf(ui.Understood), 26*b.U
	w := b.CapWidth(h, key)
	b.KeyCap("understood-key", read.X+16*b.U+w/2, read.Centre().Y, h, key)
	_, text := read.CutLeft(w+28*b.U, 0)
	text = text.Inset(2 * b.U)
	size, _ := ink.FitBlock(text.W, text.H, b.Body, b.Large, ink.Bold, b.Say(words.T("help-sheet.cautions-read")))
	style := ink.Style{Size: size, Weight: ink.Bold}
	_, text = text.CutTop((text.H-b.SayHeight(words.T("help-sheet.cautions-read"), text.W, style))/2, 0)
	b.Down(text, 0).Say("understood", words.T("help-sheet.cautions-read"), style)
	b.Hit(ui.Understood.Code(), key, read)
	b.cautions(rest, b.TextSize(34), 1)
}

// cautionsFit is the largest size of text from least to most at which the cautions fit into so many columns, and what they take then.
func (b *board) cautionsFit(r ink.Rect, least, most float64, columns int) (size, height float64) {
	all := tell.Cautions()
	each := (len(all) + columns - 1) / columns
	w := r.Cell(0, columns, 1, b.Gap*1.6).W
	takes := func(size float64) (tallest float64) {
		sum := 0.0
		for i, t := range all {
			if i%each == 0 {
				sum = b.SectionHeight()
			}
			sum += b.SayHeight(t, w-2*size, ink.Style{Size: size, Weight: ui.CautionWeight(i)}) + size*0.7
			tallest = max(tallest, sum)
		}
		return tallest
	}
	for size = least; size < most && takes(size+1) <= r.H; size++ {
	}
	return size, takes(size)
}

// cautions writes the cautions, numbered; the first, which can hurt somebody at this very moment, in bold.
func (b *board) cautions(r ink.Rect, most float64, columns int) {
	b.Group("cautions")
	all := tell.Cautions()
	each := (len(all) + columns - 1) / columns
	size, height := b.cautionsFit(r, b.Body, most, columns)
	spare := ui.Clamp((r.H-height)/float64(each), 0, 40*b.U) // what room is left stands between them
	r = b.Section(r, "cautions-heading", b.Say(words.T("help-sheet.cautions")))
	var d *ui.Down
	for i, t := range all {
		cell := r.Cell(i/each, columns, 1, b.Gap*1.6)
		if i%each == 0 {
			d = b.Down(ink.Rect{X: cell.X + 2*size, Y: cell.Y + spare/2, W: cell.W - 2*size, H: cell.H - spare/2}, size*0.7+spare)
		}
		b.Text("caution-number", cell.X, d.R.Y, ink.Style{Size: size, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top}, strconv.Itoa(i+1))
		d.Say("caution", t, ink.Style{Size: size, Weight: ui.CautionWeight(i)})
	}
}
