package prove

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// pairWay draws the way to a difference: both radios beside one another as they stand in the step looked at, and below them each step as A and as B take it.
func (b *board) pairWay(r ink.Rect, c *CompareView) {
	o := c.other()
	at := ui.ClampInt(c.Step, 0, len(o.Steps)-1)
	b.Group("pair")
	d := b.Down(r, 3*b.U)
	if b.V.Class {
		d.Lines(2, "way", b.Say(o.Way), ink.Style{Size: b.Body, Weight: ink.Bold})
	} else {
		d.R = b.Section(d.R, "way-heading", b.Say(o.Way))
	}
	share, lines := 0.36, 2
	if b.V.Class {
		share, lines = 0.34, 1
	}
	number, clock := b.pairColumns(o.Steps)
	need := b.endsHeight(d.R, &o, number, clock) + 3*b.Gap
	for i := range o.Steps {
		need += b.pairHeight(d.R, &o.Steps[i], number, clock)
	}
	radios, list := d.R.CutTop(ui.Clamp(d.R.H-need, d.R.H*share, d.R.H*0.6), b.Gap)
	for i := range o.Sides {
		cell := b.side(radios, i, 0, 0)
		head := b.Down(cell, 2*b.U)
		head.Lines(lines, "side", b.Say(tell.EachOf(i, o.Names[i])), ink.Style{Size: b.Body, Weight: ink.Bold})
		if side := &o.Sides[i]; head.R.H > 60*b.U && side.Radio != nil {
			b.Group("radio-of-" + b.Say(tell.Letters()[i]))
			b.moves(head.R, side, at)
			b.Group("pair")
		}
	}
	ends, list := list.CutBottom(b.endsHeight(list, &o, number, clock), b.Gap)
	b.pairSteps(list, &o, at, number, clock)
	b.Line("ends-rule", ends.X, ends.Y-b.Gap/2, ends.Right(), ends.Y-b.Gap/2, ink.Paint{Line: ink.Grid})
	for i := range o.Ends {
		b.Down(b.side(ends, i, number, clock), 0).Say("end", tell.EachOf(i, o.Ends[i]), ink.Style{Size: b.Body, Weight: ink.Bold})
	}
}

// side is the half of a place that is A's or B's, between a column of numbers and one of times.
func (b *board) side(r ink.Rect, i int, number, clock float64) ink.Rect {
	r.X, r.W = r.X+number, r.W-number-clock
	return r.Cell(i, 2, 1, b.Gap)
}

// endsHeight is what it takes to say what each does at the end.
func (b *board) endsHeight(r ink.Rect, o *Other, number, clock float64) (high float64) {
	for i := range o.Ends {
		cell := b.side(r, i, number, clock)
		high = max(high, ui.TextHeight(ui.BreakLong(b.Say(tell.EachOf(i, o.Ends[i])), cell.W, b.Body, ink.Bold), cell.W, ink.Style{Size: b.Body, Weight: ink.Bold}))
	}
	return min(high, r.H*0.5)
}

// pairColumns are how wide the numbers and the times are; in a room times are left out.
func (b *board) pairColumns(all []tell.ComparedStep) (number, clock float64) {
	one := make([]tell.ProvedStep, len(all))
	for i, s := range all {
		one[i] = tell.ProvedStep{Number: s.Number, At: s.At}
	}
	return b.columns(one)
}

// apart tells whether a step is not the same with A and B.
func (b *board) apart(t [2]words.Text) bool { return b.Say(t[0]) != b.Say(t[1]) }

// pairHeight is the height of a step in which A and B stand beside one another where they are not the same.
func (b *board) pairHeight(r ink.Rect, s *tell.ComparedStep, number, clock float64) (high float64) {
	for _, part := range [...]struct {
		text [2]words.Text
		ink.Style
	}{{s.Text, ink.Style{Size: b.Body}}, {s.Then, ink.Style{Size: b.Body, Weight: ink.Bold}}} {
		if !b.apart(part.text) {
			high += ui.TextHeight(b.Say(part.text[0]), r.W-number-clock, part.Style)
			continue
		}
		most := 0.0
		for i := range part.text {
			most = max(most, ui.TextHeight(b.pairSaid(i, part.text), b.side(r, i, number, clock).W, part.Style))
		}
		high += most
	}
	return max(high+6*b.U, b.Least())
}

// pairSaid is what stands in the column of A or B.
func (b *board) pairSaid(i int, text [2]words.Text) string {
	if text[i].Empty() {
		return ""
	}
	return b.Say(tell.EachOf(i, text[i]))
}

// pairSteps draws the steps, as many as there is room for; the one looked at is marked, and each can be pressed.
func (b *board) pairSteps(r ink.Rect, o *Other, at int, number, clock float64) {
	high, sum := make([]float64, len(o.Steps)), 0.0
	for i := range o.Steps {
		high[i] = b.pairHeight(r, &o.Steps[i], number, clock)
		sum += high[i]
	}
	name := "pair-steps"
	from, to, line := 0, len(o.Steps), ink.Rect{}
	if sum > r.H+0.5 {
		line, r = r.CutBottom(b.leftHeight(), 0)
		usual := firstSeen(high, at, r.H)
		if high[usual] > r.H+0.5 {
			high[usual] = r.H
		}
		from, to = b.Rolled(name, r, high, at, usual)
	}
	for i := from; i < to; i++ {
		var row ink.Rect
		row, r = r.CutTop(high[i], 0)
		if i == at {
			b.Chosen(row.Inset(b.U / 2))
		}
		b.Hit(pairPrefix+strconv.Itoa(i+1), "", row)
		row.Y, row.H = row.Y+b.U, row.H-2*b.U
		b.pairStep(row, &o.Steps[i], number, clock)
	}
	if to-from == len(o.Steps) {
		return
	}
	says := tell.StepsLeft(len(o.Steps) - to)
	if from > 0 {
		says = tell.Unlisted(from, len(o.Steps)-to)
	}
	b.Fitted("steps-left", line, ink.Style{Size: b.Body, Colour: ink.Faint}, b.Say(says))
	b.TurnedBy(name, line)
}

// pairStep draws one step: once where it is the same with both, else in two columns.
func (b *board) pairStep(r ink.Rect, s *tell.ComparedStep, number, clock float64) {
	text, did := ink.Style{Size: b.Body}, ink.Style{Size: b.Body, Weight: ink.Bold}
	rest := r
	for _, part := range [...]struct {
		name string
		text [2]words.Text
		ink.Style
	}{{"step", s.Text, text}, {"step-did", s.Then, did}} {
		if !b.apart(part.text) {
			d := b.Down(ink.Rect{X: rest.X + number, Y: rest.Y, W: rest.W - number - clock, H: rest.H}, 0)
			d.Write(part.name, b.Say(part.text[0]), part.Style)
			rest.Y, rest.H = d.R.Y, d.R.H
			continue
		}
		low := rest.Y
		for i := range part.text {
			d := b.Down(b.side(rest, i, number, clock), 0)
			d.Write(part.name, b.pairSaid(i, part.text), part.Style)
			low = max(low, d.R.Y)
		}
		rest.Y, rest.H = low, rest.Bottom()-low
	}
	if s.Number != "" {
		b.Text("step-number", r.X+number-8*b.U, r.Y, ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Right | ink.Top, Within: r}, s.Number)
	}
	if clock > 0 {
		b.Text("step-time", r.Right()-4*b.U, r.Y, ink.Style{Size: b.Body, Colour: ink.Faint, Anchor: ink.Right | ink.Top, Within: r}, b.Say(s.At))
	}
}
