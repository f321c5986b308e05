package sheet

import (
	"path/filepath"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// Which asks which radio file applies to a radio for which only files of its kind are there: a class of identical radios.
func Which(p *ink.Page, v *View) {
	b := newBoard(p, v)
	r := b.askingArea(OnWhich)
	b.Group("question")
	words := phrase.WhichTitle(v.Device.Name, len(v.Alike))
	big := max(b.TextSize(22), b.large)
	size, _ := ink.FitBlock(r.W, ink.BlockHeight(big, 2), b.head, big, ink.Bold, words)
	h, _ := b.Block("question", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W, MaxLines: 3, Shorten: true}, words)
	_, r = r.CutTop(h, 6*b.u)
	h, _ = b.Block("why", r.X, r.Y, ink.Style{Size: b.head, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W, MaxLines: 3, Shorten: true}, phrase.WhichWhy(v.Device.Serial))
	_, r = r.CutTop(h, b.gap)

	if b.tall {
		list, drawing := r.CutTop(r.H*0.6, b.gap)
		left := b.files(list)
		drawing.Y, drawing.H = drawing.Y-left, drawing.H+left
		b.radioDrawing(drawing)
		return
	}
	list, drawing := r.CutLeft(r.W*0.62, b.gap*1.6)
	b.files(list)
	b.radioDrawing(drawing)
}

// files lists the radio files with their numbers, each with as much of what it holds as there is room for, and the answer
// that none of them is right. It gives the height that is left.
func (b *board) files(r ink.Rect) (free float64) {
	b.Group("files")
	v := b.v
	line := ink.BlockHeight(b.body, 1)
	last := max(b.cap+6*b.u, line)
	least := max(b.cap+4*b.u, 2*line+6*b.u)
	n := min(len(v.Alike), MostChoices, max(int((r.H-last-line-2*b.u)/least), 1))
	more := len(v.Alike) - n
	room := r.H - last
	if more > 0 {
		room -= line + 2*b.u
	}
	each := room / float64(max(n, 1))
	most := 0
	for i := range n {
		most = max(most, len(v.Alike[i].File.Controls))
	}
	lines := min(int((each-least)/line), most)
	row := least + float64(max(lines, 0))*line
	if lines > 0 {
		row += 4 * b.u
	}
	left := b.cap + 11*b.u
	for i := range n {
		var cell ink.Rect
		cell, r = r.CutTop(min(row, each), 0)
		digit := strconv.Itoa(i + 1)
		b.keyCap("file key", cell.X+b.cap/2+b.u, cell.Y+least/2, b.cap+b.u, digit)
		text := ink.Rect{X: cell.X + left, Y: cell.Y + 2*b.u, W: cell.W - left, H: line}
		f := &v.Alike[i].File
		b.fitted("file", text, ink.Style{Size: b.body, Weight: ink.Bold}, phrase.WhichFile(&v.Alike[i]))
		text.Y += line + b.u
		b.fitted("file path", text, ink.Style{Size: b.body, Colour: ink.Faint}, filepath.Base(v.Alike[i].Path))
		for k := range min(max(lines, 0), len(f.Controls)) {
			text.Y += line
			c := &f.Controls[k]
			b.fitted("file control", text, ink.Style{Size: b.body}, c.Job+": "+phrase.LearnedInFull(c))
		}
		b.Line("file rule", cell.X, cell.Bottom(), cell.Right(), cell.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
		b.Hit(filePrefix+digit, digit, cell)
	}
	if more > 0 {
		var cell ink.Rect
		cell, r = r.CutTop(line+2*b.u, 0)
		b.fitted("files left", cell, ink.Style{Size: b.body}, phrase.WhichMore(more))
	}
	cell, r := r.CutTop(last, 0)
	key := physicalOf(LearnAnew)
	b.keyCap("anew key", cell.X+b.capWidth(b.cap, key)/2+b.u, cell.Centre().Y, b.cap, key)
	b.fitted("anew", ink.Rect{X: cell.X + left, Y: cell.Y, W: cell.W - left, H: cell.H}, ink.Style{Size: b.body}, phrase.WhichAnew())
	return max(r.H, 0)
}
