package learn

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws the learning of a radio: what the craft is to do, a drawing of it that moves with the stick, what every axis draws, what was
// found so far and what was noticed. Once all is answered, what was learned and where it is kept.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	r := b.askingArea(ui.OnQuestions)
	if v.Learn.Question >= learn.Done {
		b.done(r)
		return
	}
	r = b.asked(r)
	if v.Class { // the room reads the question; the numbers are for whoever holds the radio
		b.picture(r)
		return
	}
	list, middle, pens := b.Three(r, [3]float64{19, 42, 39}, b.Gap*1.6, 0.56, 0.3)
	b.schedule(list)
	if v.Learn.Question == learn.StickMode && !b.Tall { // which axis answers is no question here
		middle.W = r.Right() - middle.X
		b.picture(middle)
		return
	}
	b.picture(middle)
	b.raw(pens)
}

// askingArea draws the keys of a sheet that asks something, and the choice between radios while there is one; it gives what is left above.
func (b *board) askingArea(on ui.Place) ink.Rect {
	var r ink.Rect
	if b.V.Class {
		b.ClassSizes(1.3)
		r = b.Actions(b.SheetArea(), on)
		b.Group("driver")
		if len(b.V.Notices) > 0 {
			r = b.Notice(r, b.V.Notices[0])
		}
	} else {
		r = b.Footer(b.SheetArea(), on)
	}
	if b.V.ChoosesRadio() {
		r = b.Choice(r)
	}
	return r
}

// titled is how the question of a sheet is written: large, in a column of a width.
func (b *board) titled(text string, w float64) ink.Style {
	big := max(b.TextSize(22), b.Large)
	if b.V.Class && b.Tall {
		big *= 1.5
	}
	size, _ := ink.FitBlock(w, ink.BlockHeight(big, 2), b.Head, big, ink.Bold, text)
	return ink.Style{Size: size, Weight: ink.Bold}
}

// before is the style of what must be so before the movement.
func (b *board) before() ink.Style { return ink.Style{Size: b.Head, Colour: ink.Faint} }

// questionRoom is the height that the longest question needs, and what must be before it: so what is drawn below stays where it is from one
// question to the next.
func (b *board) questionRoom(w, gap float64) (high float64) {
	l := &b.V.Learn
	for _, item := range l.Plan {
		for _, step := range stepsOf[item.Question] {
			v := learn.View{Question: item.Question, Job: item.Job, Step: step, FreeLeft: l.FreeLeft}
			if l.Trying {
				v.Trying, v.Answers = true, l.Answers
			}
			text := b.Say(tell.Ask(&v, Carries(b.V, v.Job)))
			h := ui.TextHeight(text, w, b.titled(text, w)) + gap
			if !b.V.Class {
				h += b.SayHeight(tell.AskFirst(&v), w, b.before()) + gap
			}
			high = max(high, h)
		}
	}
	return high
}

// stepsOf are the steps of each question, but for the last one of a stick, of which little is said.
var stepsOf = [...][]learn.Step{
	learn.Pitch: {learn.HighEnd, learn.LowEnd}, learn.Yaw: {learn.HighEnd, learn.LowEnd}, learn.Roll: {learn.HighEnd, learn.LowEnd},
	learn.Throttle: {learn.HighEnd, learn.LowEnd}, learn.Arm: {learn.Through}, learn.Mode: {learn.Through}, learn.Also: {learn.Through},
	learn.More: {learn.Through}, learn.StickMode: {learn.Choose}, learn.TopRight: {learn.Corners}, learn.Replay: {learn.Each},
	learn.Once: {learn.ItsWay, learn.AndBack},
}

// asked draws the question, how far it is, what was noticed and found; it gives what is left below.
func (b *board) asked(r ink.Rect) ink.Rect {
	l := &b.V.Learn
	d := b.Down(r, 3*b.U)
	head := b.Down(d.Row(b.questionRoom(d.R.W, d.Gap)-d.Gap), d.Gap)
	b.Group("question")
	text := b.Say(tell.Ask(l, Carries(b.V, l.Job)))
	head.Write("question", text, b.titled(text, d.R.W))
	if !b.V.Class {
		head.Say("before", tell.AskFirst(l), b.before())
	}
	phase, large := tell.AskPhase(l, b.V.Out), ink.Style{Size: b.Large}
	if l.Step == learn.Choose && !b.V.Out {
		phase = words.T("ask.hands-move")
	}
	row := d.Row(ui.Clamp(b.SayHeight(phase, d.R.W, large), ink.BlockHeight(b.Large, 1), ink.BlockHeight(b.Large, 2)) + 9*b.U)
	b.Down(row, 0).Say("phase", phase, large)
	if l.HoldFor > 0 && l.Held > 0 && !b.V.Out {
		b.Filling(ink.Rect{X: row.X, Y: row.Bottom() - 7*b.U, W: row.W, H: 6 * b.U}, float64(l.Held)/float64(l.HoldFor))
	}
	b.noticed(d)
	return d.R
}

// noticed keeps a line for what was noticed, and one for what was found last, so that the drawing stays where it is.
func (b *board) noticed(d *ui.Down) {
	notice, style := tell.Noticed(b.V.Learn.Notice), ink.Style{Size: b.Head, Weight: ink.Bold}
	if b.V.Out {
		notice = words.Text{} // what it tells of a control is so no longer
	}
	one := ink.BlockHeight(b.Head, 1)
	row := d.Row(max(b.SayHeight(notice, d.R.W-18*b.U, style), one))
	b.Beware(b.Down(row, 0), "noticed", notice, style)
	if b.V.Class {
		return
	}
	c := lastFound(b.V)
	if c == nil {
		if b.V.Learn.Question < learn.Arm { // nothing is found of sticks that could be said here
			return
		}
		d.Row(ink.BlockHeight(b.Body, 1) + 4*b.U)
		return
	}
	placed := c.Spot.View != radio.NoView || slices.Contains(radio.Needed(), c.Job) // sticks have their places
	var clicks words.Text
	if b.V.Learn.CanClick && !c.IsSwitch() {
		clicks = b.V.KeyHere(Clicks, ui.OnQuestions)
	}
	found := words.T("ask.found", words.Args{"name": tell.JobName(c.Job), "what": tell.LearnedInFull(c), "key": b.V.KeyHere(ui.ShowSeats, ui.OnQuestions), "placed": words.Flag(placed), "clicks": clicks})
	d.Gap = 7 * b.U
	d.Lines(2, "last-found", b.Say(found), ink.Style{Size: b.Body})
}

// picture draws what is asked for.
func (b *board) picture(r ink.Rect) {
	switch b.V.Learn.Step {
	case learn.HighEnd, learn.LowEnd, learn.LetGo:
		b.leaning(r)
	case learn.Through:
		b.through(r)
	case learn.Choose:
		b.stickModes(r)
	case learn.Corners:
		b.corners(r)
	case learn.Each:
		b.onceMore(r)
	case learn.ItsWay, learn.AndBack:
		b.tried(r)
	}
}

// tick is the mark of what is done.
func (b *board) tick(name string, c ink.Point) {
	b.Tick(name, c.X, c.Y, 6*b.U, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
}
