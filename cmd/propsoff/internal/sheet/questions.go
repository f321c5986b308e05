package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// Questions draws the learning of a radio: what the craft is to do, a drawing of it that moves with the stick, what every axis draws,
// what was found so far and what was noticed. Once all is answered, what was learned and where it is kept.
func Questions(p *ink.Page, v *View) {
	b := newBoard(p, v)
	r := b.askingArea(OnQuestions)
	if v.Learn.Question >= learn.Done {
		b.done(r)
		return
	}
	r = b.asked(r)
	if v.Class { // the room reads the question; the numbers are for whoever holds the radio
		b.picture(r)
		return
	}
	if b.tall {
		top, pens := r.CutTop(r.H*0.56, b.gap)
		list, middle := top.CutLeft(top.W*0.3, b.gap*1.6)
		b.schedule(list)
		b.picture(middle)
		b.raw(pens)
		return
	}
	list, r := r.CutLeft(r.W*0.19, b.gap*1.6)
	b.schedule(list)
	if v.Learn.Question == learn.StickMode { // which axis answers is no question here
		b.picture(r)
		return
	}
	middle, pens := r.CutLeft(r.W*0.52, b.gap*1.6)
	b.picture(middle)
	b.raw(pens)
}

// done draws what was learned, beside it the radio.
func (b *board) done(r ink.Rect) {
	if b.v.Class || b.tall {
		b.restRadio(b.answered(r))
		return
	}
	left, right := r.CutLeft(r.W*0.6, b.gap*1.6)
	b.answered(left)
	b.radioDrawing(b.section(right, "radio heading", phrase.RadioTitle(stickMode(b.v.Learn.StickMode))))
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
	if b.v.choosing() {
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

// schedule lists all questions one below the other: answered with what was found, the one asked in bold, the rest faint. Where there is
// no room for all, those about the one that is asked.
func (b *board) schedule(r ink.Rect) {
	b.Group("schedule")
	l := &b.v.Learn
	r = b.section(r, "schedule heading", phrase.AskedTitle(l))
	least := ink.BlockHeight(b.small, 1) + 2*b.u
	n := len(l.Plan)
	fits := min(n, max(1, int(r.H/least)))
	from := max(0, min(l.Now-fits/2, n-fits))
	row := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: min(r.H/float64(max(fits, 1)), 26*b.u)}
	for i := from; i < from+fits; i++ {
		b.scheduled(row, &l.Plan[i], i == l.Now)
		row.Y += row.H
	}
}

// scheduled draws one question of the schedule.
func (b *board) scheduled(r ink.Rect, item *learn.Item, now bool) {
	l := &b.v.Learn
	style := ink.Style{Size: b.small, Colour: ink.Faint}
	c := ink.Point{X: r.X + 8*b.u, Y: r.Centre().Y}
	found := ""
	switch {
	case now:
		tri := [...]ink.Point{{X: c.X - 4*b.u, Y: c.Y - 5*b.u}, {X: c.X + 5*b.u, Y: c.Y}, {X: c.X - 4*b.u, Y: c.Y + 5*b.u}}
		b.Polygon("asked now", tri[:], ink.Paint{Fill: ink.Ink})
		style.Weight, style.Colour = ink.Bold, ink.Ink
		found = phrase.AskedNow()
	case item.Skipped:
		b.Line("asked skipped", c.X-5*b.u, c.Y, c.X+5*b.u, c.Y, ink.Paint{Line: ink.Faint, Width: 2 * b.u})
		found = phrase.Skipped()
	case item.Answered:
		b.tick("asked done", c)
		style.Colour = ink.Ink
		if k := b.v.answer(item.Job); k != nil {
			found = phrase.Learned(k)
		} else if item.Question == learn.StickMode {
			found = phrase.StickModeWord(l.StickMode)
		}
	default:
		b.Circle("asked later", c.X, c.Y, 3*b.u, ink.Paint{Line: ink.Rule})
	}
	text := ink.Rect{X: r.X + 19*b.u, Y: r.Y, W: r.W - 19*b.u, H: r.H}
	w := 0.0
	if found != "" {
		w = min(ink.Width(found, b.small, style.Weight)+2*b.u, text.W*0.6)
	}
	b.fitted("asked name", ink.Rect{X: text.X, Y: text.Y, W: text.W - w - 4*b.u, H: text.H}, style, phrase.PlanWord(item))
	if found != "" {
		style.Anchor = ink.Right
		b.fitted("asked found", ink.Rect{X: text.Right() - w, Y: text.Y, W: w, H: text.H}, style, found)
	}
	b.Line("asked rule", r.X, r.Bottom(), r.Right(), r.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
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

// asked draws the question, how far it is, what was noticed and found; it gives what is left below.
func (b *board) asked(r ink.Rect) ink.Rect {
	b.Group("question")
	l := &b.v.Learn
	words := phrase.Ask(l, b.v.carries(l.Job))
	big := max(b.TextSize(22), b.large)
	size, _ := ink.FitBlock(r.W, ink.BlockHeight(big, 2), b.head, big, ink.Bold, words)
	h, _ := b.Block("question", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, words)
	_, r = r.CutTop(h, 2*b.u)
	if first := phrase.AskFirst(l); first != "" && !b.v.Class {
		h, _ = b.Block("before", r.X, r.Y, ink.Style{Size: b.head, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W}, first)
		_, r = r.CutTop(h, 4*b.u)
	}
	words = phrase.AskPhase(l, b.v.Out)
	if l.Step == learn.Choose && !b.v.Out {
		words = phrase.HandsMove()
	}
	n, _ := ink.CountLines(words, r.W, b.large, ink.Regular)
	line, r := r.CutTop(ink.BlockHeight(b.large, min(max(n, 1), 2))+9*b.u, 2*b.u)
	b.Block("phase", line.X, line.Y, ink.Style{Size: b.large, Within: line}, ink.Block{Width: line.W, MaxLines: 2, Shorten: true}, words)
	if l.HoldFor > 0 && l.Held > 0 && !b.v.Out {
		b.filling(ink.Rect{X: line.X, Y: line.Bottom() - 7*b.u, W: line.W, H: 6 * b.u}, float64(l.Held)/float64(l.HoldFor))
	}
	return b.noticed(r)
}

// picture draws what is asked for.
func (b *board) picture(r ink.Rect) {
	switch l := &b.v.Learn; l.Step {
	case learn.HighEnd, learn.LowEnd, learn.LetGo:
		b.leaning(r)
	case learn.Through:
		b.through(r)
	case learn.Choose:
		b.stickModes(r)
	case learn.Corners:
		b.cornersCheck(r)
	case learn.Each:
		b.onceMore(r)
	}
}

// noticed keeps a line for what was noticed, and one for what was found last, so that the drawing stays where it is.
func (b *board) noticed(r ink.Rect) ink.Rect {
	l := &b.v.Learn
	text := phrase.Noticed(l.Notice)
	if b.v.Out {
		text = "" // what it tells of a control is so no longer
	}
	lines, _ := ink.CountLines(text, r.W-18*b.u, b.head, ink.Bold)
	lines = min(max(lines, 1), 3)
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
	row, r := r.CutTop(ink.BlockHeight(b.body, min(n, 2)), 7*b.u)
	b.Block("last found", row.X, row.Y, ink.Style{Size: b.body, Within: row}, ink.Block{Width: row.W, MaxLines: 2, Shorten: true}, words)
	return r
}
