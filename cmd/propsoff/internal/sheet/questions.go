package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// Questions draws the learning of a radio: which movement is asked for, a drawing of it, everything that the radio sends,
// what was found so far and what was noticed. Once all is answered, what was learned and where it is kept.
func Questions(p *ink.Page, v *View) {
	b := newBoard(p, v)
	r := b.askingArea(OnQuestions)
	if v.Class {
		b.question(r) // the room reads the question; the numbers are for whoever holds the radio
		return
	}
	r = b.plan(r)
	var left, right ink.Rect
	if b.tall {
		left, right = r.CutTop(r.H*0.62, b.gap)
	} else {
		left, right = r.CutLeft(r.W*0.58, b.gap*1.6)
	}
	b.question(left)
	b.raw(right)
}

// askingArea draws the keys of a sheet that asks something, and the choice between radios while there is one; it gives what is
// left above.
func (b *board) askingArea(on Place) ink.Rect {
	if b.v.Class {
		b.classSizes(1.3)
	}
	r := b.sheetArea()
	if b.v.Class {
		r = b.classActions(r, on)
	} else {
		r = b.footer(r, on)
	}
	if b.v.Choosing && len(b.v.Radios) > 1 {
		r = b.choice(r)
	}
	return r
}

// classActions draws the keys of a sheet in class view, and what is to be noticed first.
func (b *board) classActions(r ink.Rect, on Place) ink.Rect {
	b.Group("keys")
	var shown []Act
	for _, a := range acts {
		if b.v.Shows(a, on) && a.Action != TurnSheet {
			shown = append(shown, a)
		}
	}
	columns := max(1, int(r.W/(b.small*11)))
	rows := (len(shown) + columns - 1) / columns
	columns = (len(shown) + rows - 1) / rows
	area, rest := r.CutBottom(float64(rows)*max(b.cap+3*b.u, 25*b.u)+float64(rows-1)*2*b.u, 5*b.u)
	for i, a := range shown {
		b.action(area.Cell(i, columns, rows, 2*b.u), a, on)
	}
	b.Group("driver")
	if len(b.v.Notices) > 0 {
		rest = b.notice(rest, b.v.Notices[0])
	}
	return rest
}

func (b *board) question(r ink.Rect) {
	if b.v.Learn.Question == learn.Done {
		b.answered(r)
		return
	}
	b.asked(r)
}

// plan draws all questions in a row: answered with what was found, the one asked in bold, the rest faint.
func (b *board) plan(r ink.Rect) ink.Rect {
	b.Group("plan")
	l := &b.v.Learn
	r = b.section(r, "plan heading", phrase.AskedTitle(l))
	n := 0
	for i := range l.Plan {
		if l.Plan[i].Question < learn.Done {
			n++
		}
	}
	if n == 0 {
		return r
	}
	line := ink.BlockHeight(b.small, 1)
	columns := max(1, min(n, int(r.W/(80*b.u))))
	rows := (n + columns - 1) / columns
	columns = (n + rows - 1) / rows
	area, rest := r.CutTop(float64(rows)*(2*line+7*b.u)+float64(rows-1)*3*b.u, b.gap)
	for i := range n {
		b.planned(area.Cell(i, columns, rows, 3*b.u), i, &l.Plan[i])
	}
	return rest
}

// planned draws one question of the plan.
func (b *board) planned(cell ink.Rect, i int, item *learn.Item) {
	l := &b.v.Learn
	line := ink.BlockHeight(b.small, 1)
	style := ink.Style{Size: b.small, Colour: ink.Faint}
	switch {
	case i == l.Now && l.Question < learn.Done:
		b.RoundRect("planned now", cell, 4*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.6 * b.u})
		style.Weight, style.Colour = ink.Bold, ink.Ink
	default:
		b.RoundRect("planned", cell, 4*b.u, ink.Paint{Line: ink.Grid})
	}
	c := ink.Point{X: cell.X + 12*b.u, Y: cell.Centre().Y}
	text := ink.Rect{X: cell.X + 22*b.u, Y: cell.Y + 3*b.u, W: cell.W - 24*b.u, H: line}
	found := ""
	switch {
	case item.Skipped:
		b.Line("planned skipped", c.X-5*b.u, c.Y, c.X+5*b.u, c.Y, ink.Paint{Line: ink.Faint, Width: 2 * b.u})
		found = phrase.Skipped()
	case item.Answered:
		style.Colour = ink.Ink
		b.tick("planned done", c)
		if item.Question == learn.StickMode {
			found = phrase.StickModeWord(l.StickMode)
		} else if k := b.v.answer(item.Job); k != nil {
			found = phrase.Learned(k)
		}
	default:
		b.Text("planned number", c.X, c.Y, ink.Style{Size: b.small, Weight: style.Weight, Colour: style.Colour, Anchor: ink.Centre | ink.Middle}, strconv.Itoa(i+1))
	}
	if found == "" {
		text.Y = c.Y - line/2
	}
	b.fitted("planned name", text, style, phrase.PlanWord(item))
	if found != "" {
		text.Y += line + b.u
		b.fitted("planned found", text, ink.Style{Size: b.small, Colour: ink.Faint}, found)
	}
}

// tick is the mark of what is done.
func (b *board) tick(name string, c ink.Point) {
	pts := [...]ink.Point{{X: c.X - 5*b.u, Y: c.Y}, {X: c.X - b.u, Y: c.Y + 4*b.u}, {X: c.X + 6*b.u, Y: c.Y - 5*b.u}}
	b.Polyline(name, pts[:], ink.Paint{Line: ink.Ink, Width: 2 * b.u})
}

// answer is the control found for a job, nil for none.
func (v *View) answer(job string) *radio.Control {
	for i := range v.Learn.Answers {
		if job != "" && v.Learn.Answers[i].Job == job {
			return &v.Learn.Answers[i]
		}
	}
	return nil
}

// lastFound is the switch that was found last, nil for none.
func (v *View) lastFound() *radio.Control {
	if n := v.Learn.Last; n >= 0 && n < len(v.Learn.Answers) {
		return &v.Learn.Answers[n]
	}
	return nil
}

// carries are the craft's own words for what the channel of a job named by number does.
func (v *View) carries(job string) string {
	for i := range v.Carries {
		if v.Carries[i] != "" && job == "channel "+strconv.Itoa(i+1) {
			return v.Carries[i]
		}
	}
	return ""
}

// asked draws the question, how far it is, what was noticed and found, and a picture of the movement.
func (b *board) asked(r ink.Rect) {
	b.Group("question")
	l := &b.v.Learn
	words := phrase.Ask(l, b.v.carries(l.Job))
	big := max(b.TextSize(20), b.large)
	size, _ := ink.FitBlock(r.W, ink.BlockHeight(big, 3), b.head, big, ink.Bold, words)
	h, _ := b.Block("question", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, words)
	_, r = r.CutTop(h, 3*b.u)
	if first := phrase.AskFirst(l); first != "" && !b.v.Class {
		h, _ = b.Block("before", r.X, r.Y, ink.Style{Size: b.head, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W}, first)
		_, r = r.CutTop(h, 5*b.u)
	}
	words = phrase.AskPhase(l, b.v.Out)
	n, _ := ink.CountLines(words, r.W, b.large, ink.Regular)
	phase := ink.BlockHeight(b.large, min(max(n, 1), 2))
	line, r := r.CutTop(phase+9*b.u, 2*b.u)
	b.Block("phase", line.X, line.Y, ink.Style{Size: b.large, Within: line}, ink.Block{Width: line.W, MaxLines: 2, Shorten: true}, words)
	if l.HoldFor > 0 && l.Held > 0 && !b.v.Out {
		b.filling(ink.Rect{X: line.X, Y: line.Bottom() - 7*b.u, W: line.W, H: 6 * b.u}, float64(l.Held)/float64(l.HoldFor))
	}
	if l.Question != learn.StickMode {
		r = b.noticed(r)
	}
	switch {
	case l.Question == learn.StickMode:
		b.stickModes(r)
	case l.Question == learn.TopRight:
		b.cornersCheck(r)
	case l.Question == learn.Replay:
		b.onceMore(r)
	case l.Step == learn.Through:
		b.through(r)
	default:
		b.radioDrawing(b.section(r, "radio heading", phrase.RadioTitle(stickMode(l.StickMode))))
	}
}

// noticed keeps two lines for what was noticed, so that the drawing stays where it is, and one for what was found last.
func (b *board) noticed(r ink.Rect) ink.Rect {
	l := &b.v.Learn
	lines := 2
	text := phrase.Noticed(l.Notice)
	if n, _ := ink.CountLines(text, r.W-18*b.u, b.head, ink.Bold); n > 2 {
		lines = min(n, 3)
	}
	note, r := r.CutTop(ink.BlockHeight(b.head, lines), 4*b.u)
	if text != "" {
		b.warning(note.X, note.Y+ink.BlockHeight(b.head, 1)/2)
		b.Block("noticed", note.X+18*b.u, note.Y, ink.Style{Size: b.head, Weight: ink.Bold, Within: note}, ink.Block{Width: note.W - 18*b.u, MaxLines: lines, Shorten: true}, text)
	}
	c := b.v.lastFound()
	if c == nil || b.v.Class {
		return r
	}
	words := phrase.Naming(c.Job, b.v.Typed)
	if !b.v.Naming {
		words = phrase.LastFound(c.Job, phrase.LearnedInFull(c), c.Side != radio.NoSide)
	}
	n, _ := ink.CountLines(words, r.W, b.body, ink.Regular)
	row, r := r.CutTop(ink.BlockHeight(b.body, min(n, 2)), 5*b.u)
	b.Block("last found", row.X, row.Y, ink.Style{Size: b.body, Within: row}, ink.Block{Width: row.W, MaxLines: 2, Shorten: true}, words)
	return r
}
