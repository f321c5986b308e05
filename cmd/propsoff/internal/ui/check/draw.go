package check

import (
	"math"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	ck "propsoff.example/input/check"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws the controls check: what to move now, each control as it is held, what was measured of it, and the verdict.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnCheck)
	b := &board{on}
	if v.Class {
		b.class(r)
		return
	}
	r = b.Section(r, "check-heading", b.Say(words.T("check.title")))
	if !Of(v).Needs.Empty() {
		b.needs(r)
		return
	}
	r = b.ask(r, 2)
	left, right := b.Split(r, r.W*0.36, r.H*0.4, 1.6)
	b.hands(left)
	if Of(v).Findings {
		b.findings(b.Section(right, "findings-heading", b.Say(tell.CheckFindings(len(Of(v).findings())))))
		return
	}
	b.measured(right)
}

// needs says what to do where nothing can be checked, beside the sticks as they are.
func (b *board) needs(r ink.Rect) {
	d := b.Down(r, b.Gap*1.5)
	b.needed(d, b.TextSize(22), ink.BlockHeight(b.TextSize(22), 2))
	left, right := b.Split(d.R, d.R.W*0.5, d.R.H*0.5, 2)
	b.Sticks(left)
	b.looksAt(right)
}

// needed writes what is missing, as large as a height leaves room for.
func (b *board) needed(d *ui.Down, most, height float64) {
	b.Group("ask")
	size, _ := ink.FitBlock(d.R.W, height, b.Head, most, ink.Bold, b.Say(Of(b.V).Needs))
	d.Say("needs", Of(b.V).Needs, ink.Style{Size: size, Weight: ink.Bold})
}

// ask draws what to do now, in so many lines, and how far the check is; it gives what is left below.
func (b *board) ask(r ink.Rect, lines int) ink.Rect {
	b.Group("ask")
	v := &Of(b.V).Check
	ask, sum := tell.CheckAsk(v), tell.CheckSum(v)
	if v.Settled {
		ask, sum = sum, ask
	}
	size, _ := ink.FitBlock(r.W, ink.BlockHeight(b.Large, lines), b.Head, b.Large, ink.Bold, b.Say(ask))
	d := b.Down(r, 4*b.U)
	d.Say("ask", ask, ink.Style{Size: size, Weight: ink.Bold})
	d.Gap = b.Gap
	left, style := ink.Width(b.Say(sum), b.Body, ink.Regular)+12*b.U, ink.Style{Size: b.Body}
	if left > d.R.W-60*b.U { // no room beside it for how far the check is
		d.Say("sum", sum, style)
		return d.R
	}
	row := d.Row(max(ink.BlockHeight(b.Body, 1), 14*b.U))
	b.Fitted("sum", row, style, b.Say(sum))
	done := 0.0
	if n := len(v.Items); n > 0 {
		done = float64(n-v.Count[ck.Waiting]) / float64(n)
	}
	_, bar := row.CutLeft(left, 0)
	b.Filling(ink.Rect{X: bar.X, Y: bar.Centre().Y - 4*b.U, W: bar.W, H: 8 * b.U}, done)
	return d.R
}

// measured is the table of all controls, over the items of the one that is looked at.
func (b *board) measured(r ink.Rect) {
	need := b.SectionHeight() + 7*b.itemHeight()
	head, n := b.SectionHeight()+b.RowHeight()+2*b.U, float64(len(Of(b.V).Check.Controls)+1)
	if advice := 3*ink.LineHeight(b.Body) + 6*b.U; r.H-need-advice-b.Gap > head+n*ink.LineHeight(b.Small) {
		need += advice
	}
	top, bottom := r.CutTop(min(r.H-need-5*b.U, n*34*b.U+head), 5*b.U)
	b.table(top)
	b.detail(bottom)
}

// columns are the shares of the table's columns: control, low end, high end, rest, noise, jumps, verdict.
var columns = [7]float64{2.5, 1.15, 1.15, 1.1, 1.05, 1, 1.35}

// cells are the items that have a column of their own, or from one to another.
var cells = map[ck.Kind][2]int{ck.LowEnd: {1, 1}, ck.HighEnd: {2, 2}, ck.Centre: {3, 3}, ck.Noise: {4, 4}, ck.Jumps: {5, 5}, ck.Positions: {1, 2}, ck.Dropouts: {1, 2}, ck.Rate: {3, 5}}

// table draws one line for each control, and one for the radio as a whole: all, or those round the selected one.
func (b *board) table(r ink.Rect) {
	b.Group("table")
	v := Of(b.V)
	r = b.Section(r, "table-heading", b.Say(words.T("check.controls")))
	var parts [len(columns)]ink.Part
	for i, share := range columns { // as wide as its heading at the least
		parts[i] = ink.Share(max(share*r.W/9.7, ink.Width(b.Say(tell.CheckColumn(i)), b.Small, ink.Regular)), 0)
	}
	b.V.Cells = r.Columns(b.V.Cells[:0], 4*b.U, parts[:]...)
	head, r := r.CutTop(b.RowHeight(), 2*b.U)
	for i, c := range b.V.Cells {
		b.cell("column", ink.Rect{X: c.X, Y: head.Y, W: c.W, H: head.H}, ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(tell.CheckColumn(i)), i > 0)
	}
	n := len(v.Check.Controls) + 1
	b.ListAll("controls", r, n, v.Selected, max(min(r.H/float64(n), 34*b.U), ink.LineHeight(b.Small)+b.U), func(row ink.Rect, i int) {
		line := row
		line.H -= 1.5 * b.U
		b.control(line, i)
		if row.H >= b.Least() {
			b.Hit(rowPrefix+strconv.Itoa(i+1), "", row)
		}
	})
}

// cell writes a text into a cell, at its right edge where right.
func (b *board) cell(name string, r ink.Rect, s ink.Style, text string, right bool) {
	if right && ink.Width(text, s.Size, s.Weight) <= r.W {
		s.Anchor = ink.Right | ink.Middle
		b.Text(name, r.Right(), r.Centre().Y, s, text)
		return
	}
	b.Fitted(name, r, s, text)
}

// control draws one row; i is one more than the last control for the radio as a whole.
func (b *board) control(row ink.Rect, i int) {
	v := Of(b.V)
	style := ink.Style{Size: b.Small}
	if i == v.Selected {
		b.RoundRect("chosen", row, 3*b.U, ink.Paint{Fill: ink.Panel}) // a row has no room for a frame
		x, y := row.X, row.Centre().Y
		b.Triangle("chosen-mark", ink.Paint{Fill: ink.Focus}, ink.Point{X: x - b.U, Y: y - 4*b.U}, ink.Point{X: x + 5*b.U, Y: y}, ink.Point{X: x - b.U, Y: y + 4*b.U})
		style.Weight = ink.Bold
	}
	at := func(from, to int) ink.Rect {
		return ink.Rect{X: b.V.Cells[from].X, Y: row.Y, W: b.V.Cells[to].Right() - b.V.Cells[from].X, H: row.H}
	}
	which, name := i, words.T("check.whole-radio")
	if i < len(v.Check.Controls) {
		name = tell.CheckName(&v.Check.Controls[i])
	} else {
		which = -1
	}
	_, first := at(0, 0).CutLeft(8*b.U, 0)
	b.Fitted("control", first, style, b.Say(name))
	style.Weight = ink.Regular
	d := 3.6 * b.U
	for _, it := range v.items(which) {
		columns, ok := cells[it.Kind]
		if !ok {
			continue
		}
		cell, text := at(columns[0], columns[1]), b.Say(tell.CheckShort(it))
		if it.Verdict != ck.Waiting || it.Known && it.Kind != ck.Jumps && it.Kind != ck.Dropouts {
			_, value := cell.CutLeft(2*d, 0)
			b.cell(it.Kind.Code(), value, style, text, true)
		}
		if it.Verdict > ck.Passes {
			w := min(ink.Width(text, b.Small, ink.Regular), cell.W-2*d)
			b.VerdictMark(max(cell.X+d, cell.Right()-w-d-3*b.U), cell.Centre().Y, d, it.Verdict)
		}
	}
	last, worst := at(6, 6), v.worst(which)
	word := b.Say(tell.CheckVerdict(worst))
	b.Text("so-far", last.Right()-6*b.U, last.Centre().Y, ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: ink.Right | ink.Middle}, word)
	b.VerdictMark(last.Right()-10*b.U-ink.Width(word, b.Small, ink.Bold)-d, last.Centre().Y, 1.15*d, worst)
}

// class draws the check for a room: what to do, the sticks, and the items of the control that is moved; at the end the findings.
func (b *board) class(r ink.Rect) {
	if b.Tall {
		b.Larger(1.3)
	}
	b.Large = math.Ceil(b.Body * 1.5)
	if !Of(b.V).Needs.Empty() {
		d := b.Down(r, b.Gap)
		b.needed(d, b.Large*1.4, r.H*0.4)
		b.looksAt(d.R)
		return
	}
	r = b.ask(r, 4)
	left, right := b.Split(r, r.W*0.42, r.H*0.42, 1.2)
	b.classHands(left)
	if Of(b.V).Findings {
		b.findings(right)
		return
	}
	b.classItems(right)
}

// classHands draws the sticks, and of the levers the one that is looked at: all of them would be too small to be read from afar.
func (b *board) classHands(r ink.Rect) {
	b.Group("hands")
	v := Of(b.V)
	if i := v.Selected; i < len(v.Check.Controls) && v.Check.Controls[i].Form != ck.Stick {
		var low ink.Rect
		r, low = r.CutTop(r.H*0.55, b.Gap)
		b.lever(low, &v.Check.Controls[i], i == v.Check.Control)
	}
	b.BothSticks(r, b.stick)
}

// classItems writes the items of the control that is looked at.
func (b *board) classItems(r ink.Rect) {
	b.Group("items")
	which, name := Of(b.V).control()
	items := Of(b.V).items(which)
	line := ui.Clamp(r.H/float64(len(items)+1), ink.LineHeight(b.Body)+3*b.U, 2.2*ink.LineHeight(b.Body))
	d := b.Down(r, 0)
	b.Fitted("items-heading", d.Row(line), ink.Style{Size: b.Body, Weight: ink.Bold}, b.Say(name))
	for _, it := range items {
		if line > d.R.H+1 {
			return
		}
		row, m := d.Row(line), b.Body*0.32
		b.VerdictMark(row.X+m+b.U, row.Centre().Y, m, it.Verdict)
		_, row = row.CutLeft(2*m+10*b.U, 0)
		row = b.AtRight(row, it.Kind.Code()+" verdict", b.Say(tell.CheckVerdict(it.Verdict)), ink.Style{Size: b.Body, Weight: ink.Bold}, b.U, 9*b.U)
		b.Fitted(it.Kind.Code()+" item", row, ink.Style{Size: b.Body}, b.Say(tell.CheckItem(it.Kind))+": "+b.Say(tell.CheckValue(it)))
	}
	if d.R.H > b.H*0.25 {
		b.looksAt(d.R)
	}
}
