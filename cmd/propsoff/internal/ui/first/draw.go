package first

import (
	"math"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/sim/flight"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws what must have been seen before the first flight, and the propellers.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	size, air := b.TextSize(20), v.Snap.In.Air
	var r ink.Rect
	if v.Class {
		r = b.ClassKeys(ui.OnFirst, NextMotor, TurnPropeller, PropellersChecked, GoOut, ui.TurnFullScreen, ui.ShowHelp, ui.Leave)
		size = b.Body * 1.3
	} else {
		r = b.Footer(b.SheetArea(), ui.OnFirst)
	}
	b.Group("first")
	size, _ = ink.Fit(r.W, b.Body, size, ink.Bold, b.Say(tell.FirstTitle(true)), b.Say(tell.FirstTitle(false)))
	d := b.Down(r, 4*b.U)
	d.Say("title", tell.FirstTitle(air), ink.Style{Size: size, Weight: ink.Bold})
	if !v.Class {
		d.Say("what", tell.FirstWhat(air), ink.Style{Size: b.Head})
	}
	b.outing(d)
	left, right := d.R.CutLeft(d.R.W*0.44, b.Gap*1.6)
	if b.Tall {
		left, right = d.R.CutTop(d.R.H*0.4, b.Gap)
	}
	b.needs(left)
	b.puzzle(right)
}

// outing says what the last flight came to, where it came to grief.
func (b *board) outing(d *ui.Down) {
	v := Of(b.V)
	if v.Came == NoOuting {
		return
	}
	came, style := tell.FlightCame(v.Came == Flipped), ink.Style{Size: b.Head, Weight: ink.Bold}
	if !v.Planted { // else it is for the pupil to find out
		came = tell.WrongPropellers(v.Turns, v.Tried, v.Came == Flipped)
	}
	row := d.Row(b.SayHeight(came, d.R.W-22*b.U, style))
	b.Warning(row.X, row.Y+ink.BlockHeight(b.Head, 1)/2)
	_, row = row.CutLeft(22*b.U, 0)
	b.Down(row, 0).Say("outing", came, style)
}

// needs lists what must have been seen: a box with a tick in it, or an empty one, what it is, and how it was seen or can be.
func (b *board) needs(r ink.Rect) {
	b.Group("needs")
	v := Of(b.V)
	r = b.Section(r, "needs-heading", b.Say(words.T("first.heading")))
	left := 0
	for i := range NeedCount {
		if !v.done(i) {
			left++
		}
	}
	style := ink.Style{Size: b.Large, Weight: ink.Bold}
	ready := tell.FirstReady(b.V.Snap.In.Air, left, b.V.KeyFor(GoOut, ui.OnFirst))
	foot, r := r.CutBottom(b.SayHeight(ready, r.W, style), 6*b.U)
	b.Down(foot, 0).Say("ready", ready, style)

	// The names as large as they fit, the sentences below a little smaller.
	name, small := style, ink.Style{Size: b.Body}
	if b.V.Class {
		name.Size = b.Body
	}
	_, text := r.CutLeft(ink.BlockHeight(name.Size, 1), 8*b.U)
	height := func(seen bool) (sum float64) {
		for i := range NeedCount {
			sum += b.SayHeight(tell.Need(i), text.W, name) + 4*b.U
			if seen {
				sum += b.SayHeight(b.seen(i), text.W, small)
			}
		}
		return sum
	}
	for !b.V.Class && height(true) > r.H && name.Size > b.Small {
		name.Size, small.Size = name.Size-1, max(small.Size-1, b.Small)
	}
	seen := !b.V.Class && height(true) <= r.H
	space := ui.Clamp((r.H-height(seen))/NeedCount, 0, 22*b.U)
	d := b.Down(text, 0)
	for i := range NeedCount {
		d.Row(3 * b.U)
		b.NeedMark(r.X, d.R.Y, ink.BlockHeight(name.Size, 1), v.done(i))
		d.Say("need", tell.Need(i), name)
		if seen {
			small.Colour = ink.Ink
			if v.done(i) {
				small.Colour = ink.Faint
			}
			d.Say("need-seen", b.seen(i), small)
		}
		d.Row(space)
	}
}

// seen says how a need was met, or how it can be.
func (b *board) seen(need int) words.Text {
	key := func(a ui.Action) words.Text { return words.AsIs(b.V.House.KeyOf(a)) }
	switch v := Of(b.V); {
	case !v.done(need):
		return tell.NeedHow(need, tell.FirstKeys{Check: key(ui.OnCheck.Open()), First: key(ui.OnFirst.Open()), Radio: key(ui.SwitchRadio), Checked: key(PropellersChecked),
			Played: b.V.Playing(), Drives: b.V.Driver == ui.Radio, LetDrive: b.V.KeyToRadio(ui.OnFirst), Radios: len(b.V.Radios)})
	case need == NeedPropellers:
		return words.T("first.propellers-seen")
	default:
		return tell.NeedSeen(v.Needs[need].Tick, v.Needs[need].How)
	}
}

// puzzle draws the four motors from above, what turns how, and the propeller on each.
func (b *board) puzzle(r ink.Rect) {
	b.Group("propellers")
	r = b.Section(r, "puzzle-heading", b.Say(words.T("first.puzzle-heading")))
	for _, rule := range [...]words.Text{words.T("first.puzzle-not-told"), words.T("first.puzzle-rules")} {
		if style := (ink.Style{Size: b.Small}); !b.V.Class {
			var row ink.Rect
			row, r = r.CutBottom(b.SayHeight(rule, r.W, style), 3*b.U)
			b.Down(row, 0).Say("puzzle-rule", rule, style)
		}
	}
	// Motors stand in the corners of a square as far as their words leave one.
	line := ink.BlockHeight(b.Small, 1)
	words := float64(len(b.MotorWords(&Of(b.V).Propellers, 0))) * line
	cell := r.Cell(0, 2, 2, 0)
	radius := max(min((cell.H-words)/2-8*b.U, cell.W/2-6*b.U), 10*b.U)
	reach := ui.Clamp(cell.W/2, radius*1.2, max(radius*1.2, min(cell.W-radius-8*b.U, radius*2.2)))
	if b.V.Class { // words need all the width there is
		reach = cell.W / 2
	}
	c := r.Centre()
	b.Group("propellers")
	at := func(i int) ink.Point {
		p := ink.Point{X: c.X - reach, Y: c.Y - radius - 7*b.U}
		if i%2 == 1 {
			p.X = c.X + reach
		}
		if i >= 2 {
			p.Y = c.Y + radius + 7*b.U
		}
		return p
	}
	b.puzzleBody(c, radius, at)
	for i := range flight.Motors {
		b.PuzzleMotor(&Of(b.V).Propellers, i, at(i), radius, r)
	}
}

// puzzleBody is the craft without its motors: arms that end at their rings, and a body with a nose.
func (b *board) puzzleBody(c ink.Point, radius float64, at func(int) ink.Point) {
	for i := range flight.Motors {
		p := at(i)
		d := math.Hypot(p.X-c.X, p.Y-c.Y)
		k := (d - radius - b.U) / d
		b.Line("arm", c.X+(p.X-c.X)*0.1, c.Y+(p.Y-c.Y)*0.1, c.X+(p.X-c.X)*k, c.Y+(p.Y-c.Y)*k, ink.Paint{Line: ink.Ink, Width: 4 * b.U})
	}
	w, h := radius*0.36, radius*0.62
	b.Rect("body", ink.Rect{X: c.X - w, Y: c.Y - h, W: 2 * w, H: 2 * h}, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.U})
	b.V.Pts = append(b.V.Pts[:0], ink.Point{X: c.X - w*0.7, Y: c.Y - h - 1.5*b.U}, ink.Point{X: c.X + w*0.7, Y: c.Y - h - 1.5*b.U}, ink.Point{X: c.X, Y: c.Y - h - radius*0.4})
	b.Polygon("nose", b.V.Pts, ink.Paint{Fill: ink.Ink})
}
