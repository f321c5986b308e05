package loss

import (
	"math"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct {
	*figure.Board
	l *View
}

// Draw draws three crafts with three receivers on one radio, and what each does when that goes silent.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v), Of(v)}
	if v.Class {
		b.class()
		return
	}
	r := b.Footer(b.SheetArea(), ui.OnLoss)
	if b.Tall {
		top, low := r.CutTop(r.H*0.26, b.Gap)
		words, sticks := top.CutLeft(top.W*0.52, b.Gap)
		b.radio(words)
		b.hands(sticks)
		b.crafts(low)
		return
	}
	left, right := r.CutLeft(r.W*0.215, b.Gap*1.4)
	b.hands(b.radio(left))
	b.crafts(right)
}

// radio is the radio, since when it is silent, what to do, and what the third receiver has stored; it gives what is left.
func (b *board) radio(r ink.Rect) ink.Rect {
	v, run := b.V, &b.l.Crafts[0].Run
	b.Group("radio")
	d := b.Down(r, 5*b.U)
	sign := b.Px(34)
	size, _ := ink.Fit(r.W-sign-8*b.U, b.Px(15), b.Px(34), ink.Bold, b.Say(tell.LossRadio(true)), b.Say(tell.LossRadio(false)))
	row := d.Row(b.Px(34))
	b.RadioSign(row.X+sign*0.42, row.Centre().Y+2*b.U, on(v))
	b.Text("radio-word", row.X+sign+6*b.U, row.Centre().Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Middle}, b.Say(tell.LossRadio(on(v))))
	b.Fitted("radio-since", d.Row(ink.BlockHeight(b.Head, 1)), ink.Style{Size: b.Head}, b.Say(tell.LossSilent(run, b.l.Crafts[0].Snap.Tick)))

	do := b.Say(next(v))
	size, _ = ink.FitBlock(r.W, ink.BlockHeight(b.Head, 7), b.Small, b.Head, ink.Bold, do)
	d.Lines(12, "loss-next", do, ink.Style{Size: size, Weight: ink.Bold})
	if run.Phase != lossrun.Waiting && run.Before.Air {
		d.Say("loss-height", tell.LossHeight(run), ink.Style{Size: b.Small})
	}
	if p := &v.Flight.Pace; v.Snap.In.Air && (p.Paused || p.Slow > 1) {
		b.ThreePace(d.Row(max(20*b.U, b.Cap)))
	}
	b.Group("stored")
	d.R = b.Section(d.R, "stored-heading", b.Say(words.T("loss.stored-title")))
	d.Say("stored-values", tell.LossStored(b.l.Stored, v.Config), ink.Style{Size: b.Body, Weight: ink.Bold})
	d.Say("stored-from", tell.LossStoredFrom(b.l.Stored, v.Config), ink.Style{Size: b.Small, Colour: ink.Faint})
	return d.R
}

// hands draws the sticks that all three get, and the switches as words.
func (b *board) hands(r ink.Rect) {
	all, n := figure.Levers(b.V)
	line := ink.LineHeight(b.Small)
	low, sticks := r.CutBottom(float64(n)*line, 4*b.U)
	b.Group("sticks")
	for i, g := range figure.Gimbals[ui.StickMode(b.V.StickMode)] {
		cell := sticks.Cell(i, 1, 2, 4*b.U)
		if sticks.W > 250*b.U {
			cell = sticks.Cell(i, 2, 1, b.Gap)
		}
		b.Stick(cell, g, [2]string{"left", "right"}[i])
	}
	b.Group("switches")
	b.List(low, n, -1, line, func(row ink.Rect, i int) {
		b.Fitted(all[i].Name+" switch", row, ink.Style{Size: b.Small}, b.Say(all[i].Stands(b.V)))
	})
}

// as draws with one of the three in the place of the pilot's own craft.
func (b *board) as(c *Craft, draw func()) {
	v := b.V
	snap, cfg, refusals, told := v.Snap, v.Config, v.Refusals, v.Facts
	v.Snap, v.Config, v.Refusals, v.Facts = c.Snap, &c.Config, c.Refusals, c.Facts
	draw()
	v.Snap, v.Config, v.Refusals, v.Facts = snap, cfg, refusals, told
}

// flying are the three as they fly, to the same scales.
func (b *board) flying() (all [lossrun.Receivers]figure.Flying) {
	top, wide := 0.0, 0.0
	for i := range all {
		c := &b.l.Crafts[i]
		all[i] = figure.NewFlying(&c.Snap, &c.Config, c.Trail)
		top, wide = max(top, all[i].Top), max(wide, all[i].Wide)
	}
	for i := range all {
		all[i].Top, all[i].Wide = top, wide
	}
	return all
}

// crafts draws the three side by side, to the same scales, what each asks for in the same room.
func (b *board) crafts(r ink.Rect) {
	all := b.flying()
	span, marks, asks := b.span(), 0, 0.0
	for i := range all {
		c := &b.l.Crafts[i]
		marks = max(marks, len(tell.LossMarks(c.told())))
		if c.asks() {
			b.as(c, func() {
				asks = max(asks, b.asksHeight(r.Cell(0, len(all), 1, b.Gap*1.4).W, b.V.RefusalRows(), b.Small))
			})
		}
	}
	for i := range all {
		c, cell := &b.l.Crafts[i], r.Cell(i, len(all), 1, b.Gap*1.4)
		if i > 0 {
			x := cell.X - b.Gap*0.7
			b.Line("loss-edge", x, cell.Y, x, cell.Bottom(), ink.Paint{Line: ink.Grid})
		}
		b.as(c, func() {
			rest := b.does(cell, c)
			time, mid := rest.CutBottom(min(b.timeHeight(c.Run.Phase, marks, rest.H), rest.H-asks-6*b.U), 6*b.U)
			b.time(time, c, span)
			if c.asks() {
				b.asks(mid)
			} else {
				b.picture(mid, c, &all[i])
			}
		})
	}
}

// does draws a craft's receiver, its state, what it does and its numbers; it gives what is left below.
func (b *board) does(r ink.Rect, c *Craft) ink.Rect {
	b.Group(codes.OnLoss(c.Config.Link.OnLoss))
	d, small := b.Down(r, 3*b.U), ink.Style{Size: b.Small, Colour: ink.Faint}
	row := d.Row(ink.BlockHeight(b.Large, 1))
	ours, trade := tell.OnLoss(c.Config.Link.OnLoss)
	b.Fitted("receiver", row, ink.Style{Weight: ink.Bold, Size: b.sizeForAll(func(c *Craft, most float64) (float64, bool) {
		ours, trade := tell.OnLoss(c.Config.Link.OnLoss)
		return ink.Fit(row.W-ink.Width(b.Say(trade), b.Small, ink.Regular)-6*b.U, b.Small, most, ink.Bold, b.Say(ours))
	})}, b.Say(ours))
	b.Text("trades-word", r.Right(), row.Centre().Y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, b.Say(trade))
	d.R = b.StateHead(d.R, b.Px(28), b.Px(18), b.Px(40), 4*b.U)

	block := d.Row(ink.BlockHeight(b.Body, doesLines))
	b.Block("does", block.X, block.Y, ink.Style{Within: r, Size: b.sizeForAll(func(c *Craft, most float64) (float64, bool) {
		return ink.FitBlock(r.W, block.H, b.Small, most, ink.Regular, b.Say(tell.LossDoes(c.told())))
	})}, ink.Block{Width: r.W, MaxLines: doesLines + 1, Shorten: true}, b.Say(tell.LossDoes(c.told())))

	n, columns := 1, 1
	switch {
	case c.Run.Phase == lossrun.Waiting: // there is nothing to tell yet
		return d.R
	case c.Snap.In.Air:
		n, columns = tell.LossNumbers, 2
	}
	name, value := ink.BlockHeight(b.Small, 1), ink.BlockHeight(b.Large, 1)
	row = d.Row(float64(n/columns) * (name + value + 3*b.U))
	for i := range n {
		label, number := tell.LossNumber(i, c.told())
		top, low := row.Cell(i, columns, n/columns, 3*b.U).CutTop(name, 0)
		b.Fitted("number-name", top, small, b.Say(label))
		size, _ := ink.Fit(low.W, b.Small, b.Large, ink.Bold, b.Say(number))
		b.Fitted("number", low, ink.Style{Size: size, Weight: ink.Bold}, b.Say(number))
	}
	return d.R
}

// doesLines is for how many lines of usual text what a craft does has room.
const doesLines = 4

// sizeForAll is the largest size of text that each of the three has room for, as fit says of one at a size at most.
func (b *board) sizeForAll(fit func(c *Craft, most float64) (size float64, fits bool)) float64 {
	size := b.Large
	for i := range b.l.Crafts {
		size, _ = fit(&b.l.Crafts[i], size)
	}
	return size
}

// asks draws what refuses arming, each crossed off as it is cured.
func (b *board) asks(r ink.Rect) {
	rows := b.V.RefusalRows()
	if len(rows) == 0 {
		rows = append(rows, ui.Row{Text: words.T("loss.nothing-refuses")})
	}
	size := b.Body
	for size > b.Small && b.asksHeight(r.W, rows, size) > r.H {
		size--
	}
	b.RowsFor(r, rows, size)
}

// asksHeight is the height that RowsFor takes for all of some rows.
func (b *board) asksHeight(w float64, rows []ui.Row, size float64) (h float64) {
	for _, row := range rows {
		h += b.SayHeight(row.Text, w-1.2*size, ink.Style{Size: size}) + 3*b.U
	}
	return h
}

// picture draws the craft in the air from the side, with where it has been; on the desk bench its motors.
func (b *board) picture(r ink.Rect, c *Craft, fl *figure.Flying) {
	switch {
	case r.H < 60*b.U:
	case c.Snap.In.Air:
		b.Upright("beside", r, figure.EyeBeside(b.across()), fl)
	default:
		b.FromAbove(r)
	}
}

// across is the way in rad from north that lies across the pictures, from left to right: where the craft that has gone furthest
// since the radio went off has gone, so that all of its way is seen; before, the way that the noses point.
func (b *board) across() float64 {
	far, across := 1.0, ui.HeadingOf(b.l.Crafts[0].Run.Before.Att)
	for i := range b.l.Crafts {
		c := &b.l.Crafts[i]
		if c.Run.Phase == lossrun.Waiting {
			return ui.Facing(&c.Snap, c.Trail)
		}
		d := c.Snap.Air.Body.Pos.Sub(c.Run.Before.Place)
		if n := math.Hypot(d.X, d.Y); n > far {
			far, across = n, math.Atan2(d.Y, d.X)
		}
	}
	return across
}
