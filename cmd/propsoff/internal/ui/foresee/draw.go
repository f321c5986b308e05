package foresee

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
)

// board is a page being drawn.
type board struct{ *figure.Board }

// mark stands before what the other story does not have.
const mark = "*"

// Draw draws two situations that differ in one thing, what is asked, and how each ends; or what a round came to.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnForesee)
	b := &board{on}
	f := Of(v)
	b.Group("question")
	d := b.Down(r, 4*b.U)
	if !v.Class {
		d.R = b.Section(d.R, "foresee-heading", b.Say(b.title()))
		d.Say("asked-about", f.Of, ink.Style{Size: b.Small, Colour: ink.Faint})
	}
	if !f.Kept.Empty() {
		b.Beware(d, "kept", f.Kept, ink.Style{Size: b.Body})
	}
	switch f.Phase {
	case Making:
		says := words.T("foresee.making")
		if !f.Trouble.Empty() {
			says = f.Trouble
		}
		d.Say("making", says, ink.Style{Size: b.Head, Weight: ink.Bold})
		b.drawn(d.R, figure.HandheldNow(v))
	case Over:
		b.over(d)
	default:
		b.question(d)
	}
}

// title says which question it is.
func (b *board) title() words.Text {
	f := Of(b.V)
	if f.Phase == Making || f.Phase == Over {
		return words.T("foresee.title")
	}
	return words.T("foresee.heading", words.Args{"at": words.Whole(f.Number), "of": words.Whole(f.Count)})
}

// over is what a round came to.
func (b *board) over(d *ui.Down) {
	f := Of(b.V)
	d.Say("score", f.Score, ink.Style{Size: b.Large, Weight: ink.Bold})
	d.Gap = b.Gap
	_, r := b.Foot(d.R, b.Gap, 3, "no-clearance", words.T("foresee.not-cleared"), ink.Style{Size: b.Small, Colour: ink.Faint})
	rest := b.Leafed(r, len(f.Beliefs), b.Gap, func(i int) float64 { return b.SayHeight(f.Beliefs[i], d.R.W, ink.Style{Size: b.Head}) },
		func(i int, at ink.Rect) { b.Down(at, 0).Say("belief", f.Beliefs[i], ink.Style{Size: b.Head}) })
	b.drawn(rest, figure.HandheldNow(b.V))
}

// drawn is a radio where there is room for one.
func (b *board) drawn(r ink.Rect, h *handheld.Radio) {
	least := 110 * b.U
	if b.V.Class {
		least = 200 * b.U
	}
	if r.H > least {
		_, r = r.CutTop(0, b.Gap)
		b.Handheld(r, h)
	}
}

// question is the question with its answers, or what the answer shows, over both stories.
func (b *board) question(d *ui.Down) {
	f := Of(b.V)
	if !b.V.Class {
		d.Say("begin", f.Begin, ink.Style{Size: b.Small, Colour: ink.Faint})
	}
	size := b.Head
	d.Say("is", f.Is, ink.Style{Size: size})
	if f.Phase == Shown {
		d.Say("verdict", f.Verdict, ink.Style{Size: size, Weight: ink.Bold})
	} else {
		d.Say("asks", f.Asks, ink.Style{Size: size, Weight: ink.Bold})
	}
	d.Gap = b.Gap
	b.answers(d)
	if f.Phase == Ending {
		b.Filling(d.Row(8*b.U), f.Share)
	}
	b.Abreast(d.R, len(f.Stories), b.story)
}

// answers are in one row, or on a portrait screen one below another, each with its number; the one that was given is chosen. A room needs the place for
// how it ends, once that is shown.
func (b *board) answers(d *ui.Down) {
	f := Of(b.V)
	if b.V.Class && f.Phase == Shown {
		return
	}
	columns, left := len(f.Answers), b.Cap+14*b.U
	if b.Tall && b.V.Class {
		columns = 1
	}
	wide, high := d.R.W/float64(columns)-left-8*b.U, 0.0
	for _, a := range f.Answers {
		high = max(high, b.SayHeight(a, wide, ink.Style{Size: b.Body, Weight: ink.Bold}))
	}
	rows := len(f.Answers) / columns
	high = b.ForFinger(max(b.Least(), high+10*b.U, b.Cap+8*b.U))
	all := d.Row(float64(rows) * (high + 3*b.U))
	for i, a := range f.Answers {
		cell, digit, style := all.Cell(i, columns, rows, 3*b.U), strconv.Itoa(i+1), ink.Style{Size: b.Body}
		switch {
		case i == f.Answer:
			style.Weight = ink.Bold
			b.Chosen(cell)
		case f.Phase == Asking:
			b.RoundRect("answer-edge", cell, 4*b.U, ink.Paint{Line: ink.Rule, Width: b.U})
		}
		b.KeyCap("answer-key", cell.X+b.Cap/2+6*b.U, cell.Centre().Y, b.Cap, digit)
		takes := b.SayHeight(a, wide, style)
		b.Down(ink.Rect{X: cell.X + left, Y: cell.Centre().Y - takes/2, W: wide, H: takes}, 0).Say("answer", a, style)
		if f.Phase == Asking {
			b.Hit(answerPrefix+digit, digit, cell)
		}
	}
}

// story is one of the two: how it stands, what was done, and its radio. A room sees what was done, and then how it ends.
func (b *board) story(i int, r ink.Rect) {
	f := Of(b.V)
	s := &f.Stories[i]
	b.Group("story-" + strconv.Itoa(i+1))
	d := b.Down(r, 3*b.U)
	d.Say("name", s.Name, ink.Style{Size: b.Head, Weight: ink.Bold})
	switch shows := f.Phase != Asking; {
	case b.V.Class && shows:
		size, _ := ink.Fit(r.W, b.Body, b.Px(72), ink.Bold, b.Say(tell.Armed(false)), b.Say(tell.Armed(true)))
		b.Fitted("stands", d.Row(ink.BlockHeight(size, 1)), ink.Style{Size: size, Weight: ink.Bold}, b.Say(tell.Armed(s.Snap.Armed)))
	case shows:
		d.R = b.StateHeadOf(d.R, &s.Snap, b.Px(24), b.Px(18), b.Px(34), 3*b.U)
	}
	d.Gap = b.Gap
	d.Say("end", s.End, ink.Style{Size: b.Body, Weight: ink.Bold})
	if d.Gap = 2 * b.U; !b.V.Class || f.Phase != Shown || d.R.H > 7*b.Body {
		b.steps(d, s.Steps)
	}
	rest, share := d.R, 0.4
	if b.Tall {
		share = 0.55
	}
	if low := r.H * share; low < rest.H { // as high in both
		_, rest = rest.CutTop(rest.H-low, 0)
	}
	b.radio(rest, s)
}

// steps are what was done, what the other story does not have marked. Where there is not room for all, those nearest to the last movement, and all from
// the first marked one on; what is left out is counted.
func (b *board) steps(d *ui.Down, all []tell.ForeseeStep) {
	size := b.Body
	indent := ink.Width(mark, size, ink.Bold) + 6*b.U
	style := func(s *tell.ForeseeStep) ink.Style {
		if s.Differs {
			return ink.Style{Size: size, Weight: ink.Bold}
		}
		return ink.Style{Size: size}
	}
	high := func(s *tell.ForeseeStep) float64 {
		return b.SayHeight(s.Text, d.R.W-indent, style(s)) + d.Gap
	}
	sum := 0.0
	for size = b.Body; ; size = b.Small {
		sum = 0
		for i := range all {
			sum += high(&all[i])
		}
		if sum <= d.R.H || size == b.Small || b.V.Class {
			break
		}
	}
	from, line := 0, ink.LineHeight(b.Small)+d.Gap
	for from < len(all) && !all[from].Differs && sum+line*float64(min(from, 1)) > d.R.H {
		sum -= high(&all[from])
		from++
	}
	if from > 0 {
		b.Fitted("steps-before", d.Row(ink.LineHeight(b.Small)), ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(words.T("foresee.steps-before", words.Args{"n": words.Whole(from)})))
	}
	for i := from; i < len(all); i++ {
		step := &all[i]
		if left := len(all) - i; high(step) > d.R.H-line*float64(min(left-1, 1)) {
			if d.R.H >= line {
				b.Fitted("steps-left", d.Row(ink.LineHeight(b.Small)), ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(words.T("foresee.steps-left", words.Args{"n": words.Whole(left)})))
			}
			return
		}
		row := d.Row(high(step) - d.Gap)
		if step.Differs {
			b.Text("mark", row.X, row.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top}, mark)
		}
		b.Down(ink.Rect{X: row.X + indent, Y: row.Y, W: row.W - indent, H: row.H}, 0).Say("step", step.Text, style(step))
	}
}

// radio is the radio as it stands, the control marked that the last movement moves, as long as it has not been made.
func (b *board) radio(r ink.Rect, s *Story) {
	f := Of(b.V)
	h := figure.Handheld(f.Radio, b.V.Say)
	figure.StandAt(h, f.Radio, &s.Sent, f.Layout)
	if f.Job != "" && f.Phase == Asking {
		h.Mark(f.Job, handheld.Moves, f.To)
		h.MarkStick(f.Job, handheld.Moves, f.Up)
	}
	b.drawn(r, h)
}
