package sheet

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	ck "propsoff/input/check"
	"propsoff/sim/prove"
)

// CheckView is what the sheet of check may know.
type CheckView struct {
	// Needs says what to do where nothing can be checked; Check is nothing then.
	Needs string
	// Name of the radio that is checked.
	Name  string
	Check ck.View
	// Selected is the control whose items are shown; one more than the last is the radio as a whole.
	Selected int
	// Findings: what warns or fails is listed in place of the table. From is the first that is shown, from 0.
	Findings bool
	From     int
}

// checkRow names, with a number from 1, the hit areas of the table.
const checkRow = "check-row-"

// CheckRowOf finds the index of a row's hit area; one more than the last control is the radio as a whole.
func CheckRowOf(code string) (int, bool) {
	if len(code) <= len(checkRow) || code[:len(checkRow)] != checkRow {
		return 0, false
	}
	n, err := strconv.Atoi(code[len(checkRow):])
	return n - 1, err == nil && n > 0
}

// Check draws the controls check: what to move now, each control as it is held, what was measured of it, and the verdict.
func Check(p *ink.Page, v *View) {
	b := newBoard(p, v)
	if v.Class {
		b.classCheck()
		return
	}
	r := b.footer(b.sheetArea(), OnCheck)
	if v.Check.Needs != "" {
		b.checkNeeds(r)
		return
	}
	r = b.checkAsk(r)
	if b.tall {
		top, bottom := r.CutTop(r.H*0.4, b.gap)
		b.checkHands(top)
		b.checkRight(bottom)
		return
	}
	left, right := r.CutLeft(r.W*0.36, b.gap*1.6)
	b.checkHands(left)
	b.checkRight(right)
}

func (b *board) checkRight(r ink.Rect) {
	if b.v.Check.Findings {
		b.checkFindings(r)
		return
	}
	need := b.sectionHeight() + 7*b.checkLine()
	head, n := b.sectionHeight()+b.rowHeight()+2*b.u, float64(len(b.v.Check.Check.Controls)+1)
	if advice := 3*ink.LineHeight(b.body) + 6*b.u; r.H-need-advice-b.gap > head+n*b.checkRowLeast() {
		need += advice
	}
	rows := n*34*b.u + head
	top, bottom := r.CutTop(math.Min(r.H-need-5*b.u, rows), 5*b.u)
	b.checkTable(top)
	b.checkDetail(bottom)
}

// checkAsk draws what to do now and how far the check is; it gives what is left below.
func (b *board) checkAsk(r ink.Rect) ink.Rect {
	b.Group("ask")
	v := &b.v.Check.Check
	ask, sum := phrase.CheckAsk(v), phrase.CheckSum(v)
	if v.Settled {
		ask, sum = sum, ask
	}
	if !b.v.Class {
		r = b.section(r, "check heading", phrase.CheckTitle())
	}
	lines := 2
	if b.v.Class {
		lines = 4
	}
	size, _ := ink.FitBlock(r.W, ink.BlockHeight(b.large, lines), b.head, b.large, ink.Bold, ask)
	n, _ := ink.CountLines(ask, r.W, size, ink.Bold)
	row, r := r.CutTop(ink.BlockHeight(size, n), 4*b.u)
	b.Block("ask", row.X, row.Y, ink.Style{Size: size, Weight: ink.Bold, Within: row}, ink.Block{Width: row.W}, ask)
	row, r = r.CutTop(math.Max(ink.BlockHeight(b.body, 1), 14*b.u), b.gap)
	w := ink.Width(sum, b.body, ink.Regular)
	b.Text("sum", row.X, row.Centre().Y, ink.Style{Size: b.body, Anchor: ink.Middle, Within: row}, sum)
	if x := row.X + w + 12*b.u; x < row.Right()-60*b.u {
		done := 0.0
		if n := len(v.Items); n > 0 {
			done = float64(n-v.Count[ck.Waiting]) / float64(n)
		}
		b.filling(ink.Rect{X: x, Y: row.Centre().Y - 4*b.u, W: row.Right() - x, H: 8 * b.u}, done)
	}
	return r
}

// verdictMark tells a verdict by shape and colour.
func (b *board) verdictMark(x, y, d float64, v ck.Verdict) {
	b.outcomeMark(x, y, d, [ck.VerdictCount]prove.Outcome{ck.Waiting: prove.Undecided, ck.Passes: prove.Holds, ck.Warns: prove.WithIt, ck.Fails: prove.Broken}[v])
}

// checkLine is the height of one line of items.
func (b *board) checkLine() float64 { return ink.LineHeight(b.body) + 0.5*b.u }

// checkColumns are the shares of the table's columns: control, low end, high end, rest, noise, jumps, verdict.
var checkColumns = [7]float64{2.5, 1.15, 1.15, 1.1, 1.05, 1, 1.35}

// checkCells are the items that have a column of their own.
var checkCells = [...]struct {
	column int
	kind   ck.Kind
}{{1, ck.LowEnd}, {2, ck.HighEnd}, {3, ck.Centre}, {4, ck.Noise}, {5, ck.Jumps}}

// checkRowLeast is the least height of a row of the table.
func (b *board) checkRowLeast() float64 { return ink.LineHeight(b.small) }

// checkTable draws one line for each control, and one for the radio as a whole.
func (b *board) checkTable(r ink.Rect) {
	b.Group("table")
	v := &b.v.Check.Check
	r = b.section(r, "table heading", phrase.CheckControls())
	var parts [7]ink.Part
	for i, s := range checkColumns {
		parts[i] = ink.Share(s, 0)
	}
	columns := r.Columns(b.v.cells[:0], 4*b.u, parts[:]...)
	b.v.cells = columns
	head, r := r.CutTop(b.rowHeight(), 2*b.u)
	for i, c := range columns {
		at := ink.Rect{X: c.X, Y: head.Y, W: c.W, H: head.H}
		b.cell("column", at, ink.Style{Size: b.small, Colour: ink.Faint}, phrase.CheckColumn(i), i > 0)
	}
	n := len(v.Controls) + 1
	height := math.Min(r.H/float64(n), 34*b.u)
	shown := n
	if least := ink.LineHeight(b.small) + b.u; height < least { // no room for all: those round the selected one
		shown = max(1, int(r.H/least))
		height = r.H / float64(shown)
	}
	from := clampInt(b.v.Check.Selected-shown/2, 0, n-shown)
	for i := from; i < from+shown; i++ {
		row := ink.Rect{X: r.X, Y: r.Y + float64(i-from)*height, W: r.W, H: height - 1.5*b.u}
		b.checkControl(row, columns, i)
		if row.H >= 24*b.u {
			b.Hit(checkRow+strconv.Itoa(i+1), "", row)
		}
	}
}

// cell writes a text into a cell, at its right edge where right.
func (b *board) cell(name string, r ink.Rect, s ink.Style, text string, right bool) {
	w := ink.Width(text, s.Size, s.Weight)
	if right && w <= r.W {
		s.Anchor = ink.Right | ink.Middle
		b.Text(name, r.Right(), r.Centre().Y, s, text)
		return
	}
	b.fitted(name, r, s, text)
}

// checkControl draws one row; i is one more than the last control for the radio as a whole.
func (b *board) checkControl(row ink.Rect, columns []ink.Rect, i int) {
	v := &b.v.Check.Check
	style := ink.Style{Size: b.small}
	if i == b.v.Check.Selected {
		b.RoundRect("row looked at", row, 3*b.u, ink.Paint{Fill: ink.Panel})
		x, y := row.X, row.Centre().Y
		tip := [...]ink.Point{{X: x - 1*b.u, Y: y - 4*b.u}, {X: x + 5*b.u, Y: y}, {X: x - 1*b.u, Y: y + 4*b.u}}
		b.Polygon("looked at", tip[:], ink.Paint{Fill: ink.Focus})
		style.Weight = ink.Bold
	}
	at := func(c int) ink.Rect { return ink.Rect{X: columns[c].X, Y: row.Y, W: columns[c].W, H: row.H} }
	first := at(0)
	first.X, first.W = first.X+8*b.u, first.W-8*b.u
	which, name := i, phrase.CheckOfRadio()
	if i < len(v.Controls) {
		name = phrase.CheckName(&v.Controls[i])
	} else {
		which = -1
	}
	b.fitted("control", first, style, name)
	style.Weight = ink.Regular
	d := 3.6 * b.u
	for k := range v.Items {
		it := &v.Items[k]
		if it.Control != which {
			continue
		}
		column, text := -1, phrase.CheckShort(it)
		for _, c := range checkCells {
			if c.kind == it.Kind {
				column = c.column
			}
		}
		cell := ink.Rect{}
		switch {
		case column > 0:
			cell = at(column)
		case it.Kind == ck.Positions, it.Kind == ck.Dropouts:
			cell = at(1)
			cell.W = at(2).Right() - cell.X
		case it.Kind == ck.Rate:
			cell = at(3)
			cell.W = at(5).Right() - cell.X
		default:
			continue
		}
		if it.Verdict != ck.Waiting || it.Known && it.Kind != ck.Jumps && it.Kind != ck.Dropouts {
			b.cell(it.Kind.Code(), ink.Rect{X: cell.X + 2*d, Y: cell.Y, W: cell.W - 2*d, H: cell.H}, style, text, true)
		}
		if it.Verdict > ck.Passes {
			w := math.Min(ink.Width(text, b.small, ink.Regular), cell.W-2*d)
			b.verdictMark(math.Max(cell.X+d, cell.Right()-w-d-3*b.u), cell.Centre().Y, d, it.Verdict)
		}
	}
	last := at(6)
	worst := b.v.Check.worst(which)
	word := phrase.CheckVerdict(worst)
	b.Text("so far", last.Right()-6*b.u, last.Centre().Y, ink.Style{Size: b.small, Weight: ink.Bold, Anchor: ink.Right | ink.Middle}, word)
	b.verdictMark(last.Right()-10*b.u-ink.Width(word, b.small, ink.Bold)-d, last.Centre().Y, 1.15*d, worst)
}

// worst is the verdict that stands for a control (−1: the radio as a whole): what fails, else what warns, else what waits.
func (v *CheckView) worst(control int) ck.Verdict {
	worst, waits := ck.Passes, false
	for i := range v.Check.Items {
		if it := &v.Check.Items[i]; it.Control == control {
			waits = waits || it.Verdict == ck.Waiting
			worst = max(worst, it.Verdict)
		}
	}
	if worst == ck.Passes && waits {
		return ck.Waiting
	}
	return worst
}

// findings are the items that fail, then those that warn, as indexes.
func (v *CheckView) findings(dst []int) []int {
	for _, verdict := range [2]ck.Verdict{ck.Fails, ck.Warns} {
		for i := range v.Check.Items {
			if v.Check.Items[i].Verdict == verdict {
				dst = append(dst, i)
			}
		}
	}
	return dst
}
