package learn

import (
	"path/filepath"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// filePrefix and a number from 1 name the hit areas of a choice between radio files.
const filePrefix = "file-"

// whichPart is the work behind the choice between radio files.
type whichPart struct {
	screen.Base
	s *screen.Screen
}

// NewWhich makes the choice between radio files.
func NewWhich(s *screen.Screen) screen.Sheet { return &whichPart{s: s} }

// Draw draws the sheet.
func (p *whichPart) Draw(page *ink.Page, v *ui.View) { DrawWhich(page, v) }

// AboutWhich is what there is to know of the sheet.
func AboutWhich() *ui.About { return new(whichPart).About() }

// About is what there is to know of the sheet.
func (p *whichPart) About() *ui.About {
	return &ui.About{
		Place:  ui.OnWhich,
		Shared: ui.Usual(ui.NextDriver, ui.ChooseRadio),
		Own:    []ui.Act{{Action: Anew, Physical: "Period", Do: func() { p.s.Options.Driver.LearnAnew() }}},
		Picks: []ui.Pick{{Prefix: filePrefix, Keys: true, Do: func(n int) {
			p.s.Options.Driver.Apply(n)
			p.s.Driving = p.s.Options.Driver.View()
		}}},
	}
}

// DrawWhich asks which radio file applies to a radio for which only files of its kind are there: a class of identical radios.
func DrawWhich(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	d := b.Down(b.askingArea(ui.OnWhich), 6*b.U)
	b.Group("question")
	which := b.Say(words.T("learned.which", words.Args{"name": words.Quote(v.Device.Name), "n": words.Count(len(v.Alike))}))
	d.Write("question", which, b.titled(which, d.R.W))
	d.Gap = b.Gap
	d.Say("why", words.T("learned.which-serial", words.Args{"serial": words.Quote(v.Device.Serial)}), ink.Style{Size: b.Head, Colour: ink.Faint})
	list, drawing := b.Split(d.R, d.R.W*0.62, d.R.H*0.6, 1.6)
	if free := b.files(list); b.Tall {
		drawing.Y, drawing.H = drawing.Y-free, drawing.H+free
	}
	b.RadioNow(drawing, nil)
}

// files lists the radio files with their numbers, each with as much of what it holds as there is room for, and the answer that none of them is
// right. It gives the height that is left.
func (b *board) files(r ink.Rect) (free float64) {
	b.Group("files")
	v := b.V
	line := ink.BlockHeight(b.Body, 1)
	last := max(b.Cap+6*b.U, line)
	least := max(b.Cap+4*b.U, 2*line+6*b.U, b.Least())
	n := min(len(v.Alike), ui.MostChoices, max(int((r.H-last-max(line+2*b.U, b.Least()))/least), 1))
	more, room := len(v.Alike)-n, r.H-last
	left := max(line+2*b.U, b.Least())
	if more > 0 {
		room -= left
	}
	most := 0
	each := room / float64(max(n, 1))
	list := r
	if list.H = room; more == 0 {
		list.H = r.H // nothing to turn
	}
	first, _ := b.Rolled("files", list, slices.Repeat([]float64{each}, len(v.Alike)), -1, 0)
	first = min(first, more)
	shown := v.Alike[first : first+n]
	for i := range shown {
		most = max(most, len(shown[i].File.Controls))
	}
	lines := max(min(int((each-least)/line), most), 0)
	row := least + float64(lines)*line
	if lines > 0 {
		row += 4 * b.U
	}
	d := b.Down(r, 0)
	for i := range n {
		cell := d.Row(min(row, each))
		b.file(cell, first+i, least, lines)
	}
	if more > 0 {
		says := words.T("learned.more", words.Args{"n": words.Count(more)})
		if first > 0 {
			says = tell.Unlisted(first, more-first)
		}
		row := d.Row(left)
		b.Fitted("files-left", row, ink.Style{Size: b.Body}, b.Say(says))
		b.TurnedBy("files", row)
	}
	anew := b.KeyAt(d.Row(last), "anew-key", v.House.KeyOf(Anew), b.Cap, 11*b.U)
	b.Fitted("anew", anew, ink.Style{Size: b.Body}, b.Say(words.T("learned.anew")))
	return max(d.R.H, 0)
}

// file is one radio file: its number in a head of a height, the radio it was learned from, its path and so many lines of what it holds.
func (b *board) file(cell ink.Rect, i int, head float64, lines int) {
	digit, one := strconv.Itoa(i+1), &b.V.Alike[i]
	if i < ui.MostChoices {
		b.KeyCap("file-key", cell.X+b.Cap/2+b.U, cell.Y+head/2, b.Cap+b.U, digit)
	}
	_, text := cell.CutLeft(b.Cap+11*b.U, 0)
	_, text = text.CutTop(2*b.U, 0)
	d, line, body := b.Down(text, 0), ink.BlockHeight(b.Body, 1), ink.Style{Size: b.Body}
	b.Fitted("file", d.Row(line), ink.Style{Size: b.Body, Weight: ink.Bold}, b.FirstFit(text.W, ink.Style{Size: b.Body, Weight: ink.Bold}, tell.WhichFile(one, false), tell.WhichFile(one, true)))
	d.Row(b.U)
	b.Fitted("file-path", d.Row(line), ink.Style{Size: b.Body, Colour: ink.Faint}, filepath.Base(one.Path))
	for k := range min(lines, len(one.File.Controls)) {
		c := &one.File.Controls[k]
		b.Fitted("file-control", d.Row(line), body, b.FirstFit(text.W, body, tell.LearnedLine(c, false), tell.LearnedLine(c, true)))
	}
	b.Line("file-rule", cell.X, cell.Bottom(), cell.Right(), cell.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
	b.Hit(filePrefix+digit, digit, cell)
}
