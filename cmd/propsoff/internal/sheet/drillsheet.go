package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// Drills draws the course of drills, or the drill that runs.
func Drills(p *ink.Page, v *View) {
	b := newBoard(p, v)
	var r ink.Rect
	if v.Class {
		r = b.classKeys(OnDrills, BeginDrill, DrillAbove, DrillBelow, LeaveDrill, TurnFullScreen, ShowHelp, Leave)
	} else {
		r = b.footer(b.sheetArea(), OnDrills)
	}
	if v.Drills.Run.On || v.Drills.Run.Over {
		b.drillRun(r)
		return
	}
	b.course(r)
}

// course lists the drills; beside them stands what there is to know of the one looked at.
func (b *board) course(r ink.Rect) {
	b.Group("course")
	v := &b.v.Drills
	size := b.TextSize(20)
	if b.v.Class {
		size = b.body * 1.2
	}
	row, r := r.CutTop(ink.BlockHeight(size, 1), 2*b.u)
	b.fitted("title", row, ink.Style{Size: size, Weight: ink.Bold}, phrase.DrillsTitle(v.Course))
	row, r = r.CutTop(ink.BlockHeight(b.head, 1), 2*b.u)
	b.fitted("pupil", row, ink.Style{Size: b.head}, phrase.DrillsPupil(v.Pupil, v.Typing, physicalOf(CallPupil)))
	if b.v.Class && v.Trouble != "" { // a class has no notices at its foot
		n, _ := ink.CountLines(v.Trouble, r.W, b.head, ink.Bold)
		row, r = r.CutTop(ink.BlockHeight(b.head, min(n, 4)), 6*b.u)
		b.Block("trouble", row.X, row.Y, ink.Style{Size: b.head, Weight: ink.Bold, Within: row}, ink.Block{Width: row.W, MaxLines: 4, Shorten: true}, v.Trouble)
	} else {
		row, r = r.CutTop(ink.BlockHeight(b.head, 1), 6*b.u)
		b.fitted("next", row, ink.Style{Size: b.head, Weight: ink.Bold}, v.Next)
	}
	if b.tall {
		top, low := r.CutTop(r.H*0.58, b.gap)
		b.courseRows(top)
		b.courseFacts(low)
		return
	}
	left, right := r.CutLeft(r.W*0.64, b.gap*1.6)
	b.courseRows(left)
	b.courseFacts(right)
}

// courseRows lists the drills in columns that hold their names whole, as many as there is room for around the one looked at; it counts
// those that are left.
func (b *board) courseRows(r ink.Rect) {
	v := &b.v.Drills
	n := len(v.Rows)
	if n == 0 {
		return
	}
	least := max(ink.BlockHeight(b.small, 1)+6*b.u, 24.1*b.u) // never less than can be clicked
	widest := 0.0
	for i := range v.Rows {
		widest = max(widest, ink.Width(drillNumber(i)+v.Rows[i].Name, b.small, ink.Bold))
	}
	columns := 1
	for columns < 3 && float64((n+columns-1)/columns)*least > r.H && (r.W-float64(columns)*b.gap)/float64(columns+1) > widest+b.courseIndent(least)+6*b.u {
		columns++
	}
	fit := max(1, int(r.H/least))
	rows := (n + columns - 1) / columns
	first := 0
	if rows > fit { // more than there is room for: those round the one looked at
		var line ink.Rect
		line, r = r.CutBottom(ink.BlockHeight(b.small, 1), 2*b.u)
		rows = max(1, int(r.H/least))
		first = max(0, min(v.Selected-rows*columns/2, n-rows*columns))
		b.fitted("drills left", line, ink.Style{Size: b.small, Weight: ink.Bold}, phrase.Unlisted("drill", first, max(0, n-first-rows*columns)))
	}
	h := min(r.H/float64(rows), 2*least)
	for i := first; i < min(n, first+rows*columns); i++ {
		k := i - first
		w := (r.W - float64(columns-1)*b.gap) / float64(columns)
		cell := ink.Rect{X: r.X + float64(k/rows)*(w+b.gap), Y: r.Y + float64(k%rows)*h, W: w, H: h}
		b.courseRow(cell, i)
	}
}

func (b *board) courseRow(r ink.Rect, i int) {
	v := &b.v.Drills
	row := &v.Rows[i]
	if i == v.Selected {
		b.Rect("selected", r.Inset(0.5*b.u), ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.5 * b.u})
	}
	indent := b.courseIndent(r.H)
	d := indent - 14*b.u
	b.drillMark(r.X+4*b.u+d/2, r.Centre().Y, d/2, row.Mark)
	in := ink.Rect{X: r.X + indent - 4*b.u, Y: r.Y, W: r.W - indent, H: r.H}
	number := drillNumber(i)
	w := ink.Width(row.Stands, b.small, ink.Regular) + 2*b.u
	style := ink.Style{Size: b.small}
	if i == v.Selected {
		style.Weight = ink.Bold
	}
	if w+6*b.u+ink.Width(number+row.Name, b.small, style.Weight)+2*b.u < in.W { // else its mark tells, and the words beside the list do
		name, stands := in.CutLeft(in.W-w-6*b.u, 6*b.u)
		b.fitted("drill "+number, name, style, number+row.Name)
		b.fitted("stands "+number, stands, ink.Style{Size: b.small, Colour: ink.Faint}, row.Stands)
	} else {
		b.fitted("drill "+number, in, style, number+row.Name)
	}
	b.Hit(drillPrefix+strconv.Itoa(i+1), "", r)
}

// courseIndent is what the mark takes in a row of a height, with the room around it.
func (b *board) courseIndent(h float64) float64 {
	return min(h-6*b.u, ink.BlockHeight(b.small, 1)) + 14*b.u
}

func drillNumber(i int) string { return strconv.Itoa(i+1) + "  " }

// drillMark tells by its shape how a drill stands.
func (b *board) drillMark(x, y, d float64, m DrillMark) {
	w := max(1.3*b.u, d*0.16)
	line := ink.Paint{Line: ink.Ink, Width: w}
	d -= w / 2
	switch m {
	case MarkFailed:
		b.Line("failed", x-d*0.7, y-d*0.7, x+d*0.7, y+d*0.7, line)
		b.Line("failed", x-d*0.7, y+d*0.7, x+d*0.7, y-d*0.7, line)
		return
	case MarkDue:
		b.Circle("due", x, y, d*0.42, ink.Paint{Fill: ink.Ink})
	case MarkLearned:
		b.Arc("learned", x, y, d*0.5, -1.57, 1.57, ink.Paint{Line: ink.Ink, Width: d})
	case MarkMastered:
		b.v.pts = append(b.v.pts[:0], ink.Point{X: x - d*0.5, Y: y}, ink.Point{X: x - d*0.1, Y: y + d*0.4}, ink.Point{X: x + d*0.55, Y: y - d*0.45})
		b.Polyline("mastered", b.v.pts, line)
	}
	b.Circle("ring", x, y, d, line)
}

// courseFacts is what there is to know of the drill looked at.
func (b *board) courseFacts(r ink.Rect) {
	v := &b.v.Drills
	if v.Selected < 0 || v.Selected >= len(v.Rows) {
		return
	}
	b.Group("facts")
	row := &v.Rows[v.Selected]
	h, _ := b.Block("name", r.X, r.Y, ink.Style{Size: b.large, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W, MaxLines: 2, Shorten: true}, row.Name)
	_, r = r.CutTop(h, 4*b.u)
	if v.Kept != "" && !b.v.Class {
		kept := breakLong(v.Kept, r.W, b.small, ink.Regular)
		n, _ := ink.CountLines(kept, r.W, b.small, ink.Regular)
		var foot ink.Rect
		foot, r = r.CutBottom(ink.BlockHeight(b.small, min(n, 3)), 6*b.u)
		b.Block("kept", foot.X, foot.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: foot}, ink.Block{Width: foot.W, MaxLines: 3, Shorten: true}, kept)
	}
	texts := []string{row.Stands, v.About, v.Caution}
	texts = append(texts, v.Results...)
	for i, text := range texts {
		if text == "" {
			continue
		}
		style := ink.Style{Size: b.body, Within: r}
		x := r.X
		if i == 2 { // the caution, with the mark of a notice
			x += 18 * b.u
		}
		line := ink.LineHeight(b.body)
		n, _ := ink.CountLines(text, r.Right()-x, b.body, ink.Regular)
		n = min(n, int((r.H+2*b.u)/line))
		if n < 1 {
			return
		}
		if i == 2 {
			b.warning(r.X, r.Y+line/2)
		}
		h, _ := b.Block("fact", x, r.Y, style, ink.Block{Width: r.Right() - x, MaxLines: n, Shorten: true}, text)
		_, r = r.CutTop(h, 6*b.u)
	}
}
