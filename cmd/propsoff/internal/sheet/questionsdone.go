package sheet

import (
	"unicode/utf8"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
)

// answered draws what was learned and where it is kept; it gives what is left below.
func (b *board) answered(r ink.Rect) (rest ink.Rect) {
	b.Group("question")
	size := max(b.TextSize(20), b.large)
	h, _ := b.Block("question", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, phrase.Ask(&b.v.Learn, ""))
	_, r = r.CutTop(h, 6*b.u)
	text := phrase.KeptWhere()
	if b.v.Kept == "" {
		text = phrase.NotKeptWhy(b.v.KeptError)
	}
	text = breakLong(text, r.W, b.head, ink.Regular)
	h, _ = b.Block("kept", r.X, r.Y, ink.Style{Size: b.head, Within: r}, ink.Block{Width: r.W, MaxLines: 6, Shorten: true}, text)
	_, r = r.CutTop(h, 3*b.u)
	if b.v.Kept != "" {
		h, _ = b.Block("kept in", r.X, r.Y, ink.Style{Size: b.head, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W, MaxLines: 4, Shorten: true}, breakLong(b.v.Kept, r.W, b.head, ink.Bold))
		_, r = r.CutTop(h, 0)
	}
	_, r = r.CutTop(0, b.gap)
	r = b.section(r, "answers heading", phrase.AnswersTitle())
	if n := len(b.v.Learn.Spare); n > 0 {
		row, rest := r.CutBottom(ink.LineHeight(b.body), 2*b.u)
		b.fitted("spare", row, ink.Style{Size: b.body}, phrase.SpareTitle(n))
		r = rest
	}
	return b.answers(r)
}

// restRadio draws the radio in what is left below a list, where that is worth it.
func (b *board) restRadio(r ink.Rect) {
	if r.H > 120*b.u {
		b.radioDrawing(r)
	}
}

// answers lists the controls with what was found of each, then the questions that were skipped, in as many columns as they
// need.
func (b *board) answers(r ink.Rect) (rest ink.Rect) {
	l := &b.v.Learn
	type entry struct{ job, found string }
	var all []entry
	for i := range l.Answers {
		all = append(all, entry{l.Answers[i].Job, phrase.LearnedInFull(&l.Answers[i])})
	}
	for i := range l.Plan {
		if l.Plan[i].Skipped && l.Plan[i].Question < learn.More {
			all = append(all, entry{phrase.PlanWord(&l.Plan[i]), phrase.Skipped()})
		}
	}
	if len(all) == 0 {
		return r
	}
	least := ink.BlockHeight(b.small, 1) + 2*b.u
	columns := 1
	for columns < 3 && least*float64((len(all)+columns-1)/columns) > r.H {
		columns++
	}
	rows := (len(all) + columns - 1) / columns
	height := min(24*b.u, r.H/float64(rows))
	size := b.head
	if height < ink.BlockHeight(b.head, 1)+b.u || columns > 1 {
		size = b.small
	}
	height = max(height, ink.BlockHeight(size, 1))
	area := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: height * float64(rows)}
	name := 0.0
	for i := range all {
		name = max(name, ink.Width(all[i].job, size, ink.Regular))
	}
	for i := range all {
		cell := area.Cell(i/rows+i%rows*columns, columns, rows, 0)
		cell.W -= 8 * b.u
		y := cell.Centre().Y
		b.Text("answer job", cell.X, y, ink.Style{Size: size, Colour: ink.Faint, Anchor: ink.Middle, Within: cell}, all[i].job)
		b.fitted("answer", ink.Rect{X: cell.X + name + 10*b.u, Y: cell.Y, W: cell.W - name - 10*b.u, H: cell.H}, ink.Style{Size: size, Weight: ink.Bold}, all[i].found)
		b.Line("answer rule", cell.X, cell.Bottom(), cell.Right(), cell.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
	}
	_, rest = r.CutTop(area.H, b.gap)
	return rest
}

// breakLong puts a space into every word that is wider than a line, such as the path of a file, where the line ends.
func breakLong(text string, w, size float64, weight ink.Weight) string {
	out := make([]byte, 0, len(text)+8)
	sum := 0.0
	for i, r := range text {
		step := ink.Advance(r, size, weight)
		switch {
		case r == ' ':
			sum = 0
		case sum+step > w && i > 0:
			out, sum = append(out, ' '), step
		default:
			sum += step
		}
		out = utf8.AppendRune(out, r)
	}
	return string(out)
}
