package drills

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
)

// board is a page with the sheet of drills on it.
type board struct{ *figure.Board }

// Draw draws the course of drills, or the drill that runs.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	var r ink.Rect
	if v.Class {
		r = b.ClassKeys(ui.OnDrills, Begin, Above, Below, PropellersRight, LeaveRun, ui.TurnFullScreen, ui.ShowHelp, ui.Leave)
	} else {
		r = b.Footer(b.SheetArea(), ui.OnDrills)
	}
	if d := Of(v); d.Run.On || d.Run.Over {
		b.run(r)
	} else {
		b.course(r)
	}
}

// course lists the drills; beside them stands what there is to know of the one looked at.
func (b *board) course(r ink.Rect) {
	b.Group("course")
	v := Of(b.V)
	size := b.TextSize(20)
	if b.V.Class {
		size = b.Body * 1.2
	}
	d := b.Down(r, 2*b.U)
	b.Fitted("title", d.Row(ink.BlockHeight(size, 1)), ink.Style{Size: size, Weight: ink.Bold}, b.Say(tell.DrillsTitle(v.Course)))
	d.Lines(2, "pupil", b.Say(tell.DrillsPupil(v.Pupil, v.Typing, b.V.House.KeyOf(CallPupil))), ink.Style{Size: b.Head})
	d.Gap = 6 * b.U
	bold := ink.Style{Size: b.Head, Weight: ink.Bold}
	if b.V.Class && !v.Trouble.Empty() { // a class has no notices at its foot
		d.Say("trouble", v.Trouble, bold)
	} else {
		d.Say("next", v.Next, bold)
	}
	share := 0.66
	if b.V.Class { // one column, its names whole, and what the drill is about told whole
		share = 0.57
	}
	left, right := d.R.CutLeft(d.R.W*share, b.Gap*1.6)
	if b.Tall {
		left, right = d.R.CutTop(d.R.H*0.58, b.Gap)
	}
	b.rows(left)
	b.facts(right)
}

// numbered is the name of a drill with its number in the course.
func (b *board) numbered(i int) string { return strconv.Itoa(i+1) + "  " + b.Say(Of(b.V).Rows[i].Name) }

// rows lists the drills in columns that hold their names whole, as many as there is room for around the one looked at; it counts
// those that are left.
func (b *board) rows(r ink.Rect) {
	v := Of(b.V)
	n := len(v.Rows)
	if n == 0 {
		return
	}
	least := max(ink.BlockHeight(b.Small, 1)+6*b.U, 24.1*b.U) // never less than can be clicked
	widest := 0.0
	for i := range v.Rows {
		widest = max(widest, ink.Width(b.numbered(i), b.Small, ink.Bold))
	}
	columns := 1
	for columns < 3 && float64((n+columns-1)/columns)*least > r.H && (r.W-float64(columns)*b.Gap)/float64(columns+1) > widest+b.indent(least)+6*b.U {
		columns++
	}
	rows, first := (n+columns-1)/columns, 0
	if float64(rows)*least > r.H {
		var line ink.Rect
		line, r = r.CutBottom(ink.BlockHeight(b.Small, 1), 2*b.U)
		rows = max(1, int(r.H/least))
		first = ui.ClampInt(v.Selected-rows*columns/2, 0, n-rows*columns)
		b.Fitted("drills-left", line, ink.Style{Size: b.Small, Weight: ink.Bold}, b.Say(tell.Unlisted(first, max(0, n-first-rows*columns))))
	}
	r.H = float64(rows) * min(r.H/float64(rows), 2*least)
	for k := range min(n-first, rows*columns) {
		column := r.Cell(k/rows, columns, 1, b.Gap)
		b.row(column.Cell(k%rows, 1, rows, 0), first+k)
	}
}

// row is one drill: its mark, its name, and how it stands where there is room for that; else its mark tells, and the words beside the list do.
func (b *board) row(r ink.Rect, i int) {
	v := Of(b.V)
	style := ink.Style{Size: b.Small}
	if i == v.Selected {
		style.Weight = ink.Bold
		b.Rect("selected", r.Inset(0.5*b.U), ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.5 * b.U})
	}
	indent := b.indent(r.H)
	d := (indent - 14*b.U) / 2
	b.mark(r.X+4*b.U+d, r.Centre().Y, d, v.Rows[i].Mark)
	name, stands := b.numbered(i), b.Say(v.Rows[i].Stands)
	_, in := r.CutLeft(indent-4*b.U, 0)
	in.W -= 4 * b.U
	if w := ink.Width(stands, b.Small, ink.Regular) + 2*b.U; w+6*b.U+ink.Width(name, b.Small, style.Weight)+2*b.U < in.W {
		var right ink.Rect
		right, in = in.CutRight(w, 6*b.U)
		b.Fitted("stands "+strconv.Itoa(i+1), right, ink.Style{Size: b.Small, Colour: ink.Faint}, stands)
	}
	b.Fitted("drill "+strconv.Itoa(i+1), in, style, name)
	b.Hit(drillPrefix+strconv.Itoa(i+1), "", r)
}

// indent is what the mark takes in a row of a height, with the room around it.
func (b *board) indent(h float64) float64 { return min(h-6*b.U, ink.BlockHeight(b.Small, 1)) + 14*b.U }

// mark tells by its shape how a drill stands.
func (b *board) mark(x, y, d float64, m Mark) {
	line := ink.Paint{Line: ink.Ink, Width: max(1.3*b.U, d*0.16)}
	d -= line.Width / 2
	switch m {
	case Failed:
		b.Cross("failed", x, y, d*0.7, line)
		return
	case Due:
		b.Circle("due", x, y, d*0.42, ink.Paint{Fill: ink.Ink})
	case Learned:
		b.Arc("learned", x, y, d*0.5, -1.57, 1.57, ink.Paint{Line: ink.Ink, Width: d})
	case Mastered:
		b.Tick("mastered", x, y, d*0.55, line)
	}
	b.Circle("ring", x, y, d, line)
}

// facts is what there is to know of the drill looked at.
func (b *board) facts(r ink.Rect) {
	v := Of(b.V)
	if v.Selected < 0 || v.Selected >= len(v.Rows) {
		return
	}
	b.Group("facts")
	row := &v.Rows[v.Selected]
	if !b.V.Class {
		kept := words.AsIs(ui.BreakLong(b.Say(v.Kept), r.W, b.Small, ink.Regular))
		_, r = b.Foot(r, 6*b.U, 3, "kept", kept, ink.Style{Size: b.Small, Colour: ink.Faint})
	}
	d := b.Down(r, 6*b.U)
	body := ink.Style{Size: b.Body}
	if !b.V.Class { // the list has both
		d.Lines(2, "name", b.Say(row.Name), ink.Style{Size: b.Large, Weight: ink.Bold})
		d.Say("fact", row.Stands, body)
	}
	d.Say("fact", v.About, body)
	if y := d.R.Y; !v.Caution.Empty() {
		_, in := d.R.CutLeft(18*b.U, 0)
		c := b.Down(in, d.Gap)
		if c.Say("fact", v.Caution, body); c.R.Y > y {
			b.Warning(d.R.X, y+ink.LineHeight(b.Body)/2)
		}
		d.Row(c.R.Y - y - d.Gap)
	}
	for _, t := range v.Results {
		if !d.Whole("fact", t, body) {
			return
		}
	}
}
