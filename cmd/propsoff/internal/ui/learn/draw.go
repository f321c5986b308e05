package learn

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/input/learn"
	"propsoff/input/radio"
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

// title writes the question of a sheet, large.
func (b *board) title(d *ui.Down, t words.Text) {
	b.Group("question")
	big := max(b.TextSize(22), b.Large)
	if b.V.Class && b.Tall {
		big *= 1.5
	}
	size, _ := ink.FitBlock(d.R.W, ink.BlockHeight(big, 2), b.Head, big, ink.Bold, b.Say(t))
	d.Say("question", t, ink.Style{Size: size, Weight: ink.Bold})
}

// asked draws the question, how far it is, what was noticed and found; it gives what is left below.
func (b *board) asked(r ink.Rect) ink.Rect {
	l := &b.V.Learn
	d := b.Down(r, 3*b.U)
	b.title(d, tell.Ask(l, Carries(b.V, l.Job)))
	if !b.V.Class {
		d.Say("before", tell.AskFirst(l), ink.Style{Size: b.Head, Colour: ink.Faint})
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
	c := lastFound(b.V)
	if c == nil || b.V.Class {
		return
	}
	placed := c.Spot.View != radio.NoView || slices.Contains(radio.Needed(), c.Job) // sticks have their places
	var clicks words.Text
	if b.V.Learn.CanClick && len(c.Positions) == 0 {
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
	}
}

// tick is the mark of what is done.
func (b *board) tick(name string, c ink.Point) {
	b.Tick(name, c.X, c.Y, 6*b.U, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
}
