package learn

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/learn"
)

// schedule lists all questions one below the other: answered with what was found, the one asked in bold, the rest faint. Where there is no
// room for all, those about the one that is asked.
func (b *board) schedule(r ink.Rect) {
	b.Group("schedule")
	l := &b.V.Learn
	r = b.Section(r, "schedule-heading", b.Say(tell.AskedTitle(l)))
	h := ui.Clamp(r.H/float64(max(len(l.Plan), 1)), ink.BlockHeight(b.Small, 1)+2*b.U, 26*b.U)
	b.List("schedule", r, len(l.Plan), l.Now, h, func(row ink.Rect, i int) { b.scheduled(row, &l.Plan[i], i == l.Now) })
}

// scheduled draws one question of the schedule.
func (b *board) scheduled(r ink.Rect, item *learn.Item, now bool) {
	style, found := ink.Style{Size: b.Small, Colour: ink.Faint}, words.Text{}
	c := ink.Point{X: r.X + 8*b.U, Y: r.Centre().Y}
	switch {
	case now:
		b.Triangle("asked-now", ink.Paint{Fill: ink.Ink}, ink.Point{X: c.X - 4*b.U, Y: c.Y - 5*b.U}, ink.Point{X: c.X + 5*b.U, Y: c.Y}, ink.Point{X: c.X - 4*b.U, Y: c.Y + 5*b.U})
		style.Weight, style.Colour = ink.Bold, ink.Ink
		found = words.T("ask.now")
	case item.Skipped:
		b.Line("asked-skipped", c.X-5*b.U, c.Y, c.X+5*b.U, c.Y, ink.Paint{Line: ink.Faint, Width: 2 * b.U})
		found = words.T("learned.skipped")
	case item.Answered:
		b.tick("asked-done", c)
		style.Colour = ink.Ink
		if k := answer(b.V, item.Job); k != nil {
			found = tell.Learned(k)
		} else if item.Question == learn.StickMode {
			found = words.T("ask.mode-word", words.Args{"n": words.Whole(b.V.Learn.StickMode)})
		}
	default:
		b.Circle("asked-later", c.X, c.Y, 3*b.U, ink.Paint{Line: ink.Rule})
	}
	_, text := r.CutLeft(19*b.U, 0)
	if says := b.Say(found); says != "" && (item.Question != b.V.Learn.Question || ink.Width(says, b.Small, style.Weight) < text.W*0.6) { // the one that is asked is marked besides
		var right ink.Rect
		right, text = text.CutRight(min(ink.Width(says, b.Small, style.Weight)+2*b.U, text.W*0.6), 4*b.U)
		b.Fitted("asked-found", right, ink.Style{Size: style.Size, Weight: style.Weight, Colour: style.Colour, Anchor: ink.Right}, says)
	}
	b.Fitted("asked-name", text, style, b.Say(tell.PlanWord(item)))
	b.Line("asked-rule", r.X, r.Bottom(), r.Right(), r.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
}

// inColumns draws n rows of a height up to most down as many columns as they need, at most three, in large text where there is room in one; it
// gives what is left below.
func (b *board) inColumns(r ink.Rect, n int, most float64, draw func(cell ink.Rect, i int, s ink.Style)) ink.Rect {
	if n == 0 {
		return r
	}
	least, columns := ink.BlockHeight(b.Small, 1)+2*b.U, 1
	if b.V.Class && n > 8 { // all are of the same size there: the page is filled rather than its left edge
		columns = 2
	}
	for columns < 3 && least*float64((n+columns-1)/columns) > r.H {
		columns++
	}
	rows := (n + columns - 1) / columns
	height, s := max(min(most, r.H/float64(rows)), ink.BlockHeight(b.Small, 1)), ink.Style{Size: b.Head}
	if height < ink.BlockHeight(b.Head, 1)+b.U || columns > 1 {
		s.Size = b.Small
	}
	area, rest := r.CutTop(height*float64(rows), b.Gap)
	for i := range n {
		draw(area.Cell(i/rows+i%rows*columns, columns, rows, 0), i, s)
	}
	return rest
}

// onceMore lists every control and ticks off those that have moved once more.
func (b *board) onceMore(r ink.Rect) {
	b.Group("replay")
	all := b.V.Learn.Replayed
	seen, most := 0, 26*b.U
	for i := range all {
		if all[i].Seen {
			seen++
		}
	}
	if b.V.Class {
		most = 44 * b.U
	}
	if b.V.Class && !b.Tall {
		var right ink.Rect
		right, r = r.CutRight(r.W*0.45, b.Gap)
		b.RadioNow(right, nil)
		b.Group("replay")
	}
	r = b.Section(r, "replay-heading", b.Say(words.T("learn-title.replay", words.Args{"seen": words.Whole(seen), "all": words.Whole(len(all))})))
	b.restRadio(b.inColumns(r, len(all), most, func(cell ink.Rect, i int, s ink.Style) {
		c := ink.Point{X: cell.X + 8*b.U, Y: cell.Centre().Y}
		if all[i].Seen {
			b.tick("replayed", c)
			s.Colour = ink.Faint
		} else {
			b.Circle("to-replay", c.X, c.Y, 4*b.U, ink.Paint{Line: ink.Ink, Width: 1.2 * b.U})
		}
		text := tell.JobName(all[i].Job)
		if k := answer(b.V, all[i].Job); k != nil && cell.W > 0.9*r.W {
			text = tell.LearnedLine(k, true)
		}
		_, cell = cell.CutLeft(20*b.U, 0)
		b.Fitted("replay", cell, s, b.Say(text))
	}))
}

// restRadio draws the radio in what is left below a list, where that is worth it.
func (b *board) restRadio(r ink.Rect) {
	if r.H > 120*b.U {
		b.RadioNow(r, nil)
	}
}

// done draws what was learned, beside it the radio.
func (b *board) done(r ink.Rect) {
	if b.V.Class || b.Tall {
		b.restRadio(b.answered(r))
		return
	}
	left, right := r.CutLeft(r.W*0.6, b.Gap*1.6)
	b.answered(left)
	b.RadioNow(b.Section(right, "radio-heading", b.Say(words.T("learn-title.radio", words.Args{"mode": words.Whole(ui.StickMode(b.V.Learn.StickMode))}))), nil)
}

// answered draws what was learned and where it is kept; it gives what is left below.
func (b *board) answered(r ink.Rect) (rest ink.Rect) {
	b.Group("question")
	d := b.Down(r, 3*b.U)
	d.Say("question", tell.Ask(&b.V.Learn, ""), ink.Style{Size: max(b.TextSize(20), b.Large), Weight: ink.Bold})
	kept, title := words.ID("learn-title.kept-where"), words.ID("learn-title.learned")
	if b.V.Learn.Trying {
		kept, title = "learn-title.tried-where", "learn-title.tried"
	}
	if v := b.V; v.Kept == "" {
		d.Lines(6, "kept", ui.BreakLong(b.Say(words.T("learn-title.not-kept", words.Args{"why": v.KeptError})), d.R.W, b.Head, ink.Regular), ink.Style{Size: b.Head})
	} else {
		d.Say("kept", words.T(kept), ink.Style{Size: b.Head})
		d.Lines(4, "kept-in", ui.BreakLong(v.Kept, d.R.W, b.Head, ink.Bold), ink.Style{Size: b.Head, Weight: ink.Bold})
	}
	_, r = d.R.CutTop(0, b.Gap)
	r = b.Section(r, "answers-heading", b.Say(words.T(title)))
	if n := len(b.V.Learn.Spare); n > 0 {
		var row ink.Rect
		row, r = r.CutBottom(ink.LineHeight(b.Body), 2*b.U)
		b.Fitted("spare", row, ink.Style{Size: b.Body}, b.Say(words.T("learn-title.spare", words.Args{"n": words.Count(n)})))
	}
	return b.answers(r)
}

// answers lists the controls with what was found of each, then the questions that were skipped.
func (b *board) answers(r ink.Rect) (rest ink.Rect) {
	l := &b.V.Learn
	var all [][2]words.Text
	for i := range l.Answers {
		all = append(all, [2]words.Text{tell.JobName(l.Answers[i].Job), tell.LearnedInFull(&l.Answers[i])})
	}
	for i := range l.Plan {
		if l.Plan[i].Skipped && l.Plan[i].Question < learn.More {
			all = append(all, [2]words.Text{tell.PlanWord(&l.Plan[i]), words.T("learned.skipped")})
		}
	}
	return b.inColumns(r, len(all), 24*b.U, func(cell ink.Rect, i int, s ink.Style) {
		name := 0.0
		for k := range all {
			name = max(name, ink.Width(b.Say(all[k][0]), s.Size, ink.Regular))
		}
		b.Line("answer-rule", cell.X, cell.Bottom(), cell.Right()-8*b.U, cell.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
		job, found := cell.CutLeft(name+b.U, 9*b.U)
		s.Colour = ink.Faint
		b.Fitted("answer-job", job, s, b.Say(all[i][0]))
		found.W -= 8 * b.U
		s.Colour, s.Weight = ink.Ink, ink.Bold
		short := all[i][1]
		if i < len(l.Answers) {
			short = tell.Learned(&l.Answers[i])
		}
		b.Fitted("answer", found, s, b.FirstFit(found.W, s, all[i][1], short))
	})
}
