package loss

import (
	"math"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
)

// board is a page being drawn, with what this sheet draws on it.
type board struct {
	*figure.Board
	l *View
}

// Draw draws three crafts with three receivers on one radio, and what each does when that goes silent.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnLoss)
	b := &board{on, Of(v)}
	if b.l.Map != nil && b.l.Map.Level {
		b.drawMap(r)
		return
	}
	if v.Class {
		b.class(r)
		return
	}
	left, right := b.Split(r, r.W*0.215, r.H*0.26, 1.4)
	if b.Tall {
		words, sticks := left.CutLeft(left.W*0.52, b.Gap)
		b.radio(words)
		b.hands(sticks)
	} else {
		b.hands(b.radio(left))
	}
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
		b.PaceLine(d.Row(max(20*b.U, b.Cap)))
	}
	b.Group("stored")
	d.R = b.SectionOf(d.R, "stored-heading", words.T("loss.stored-title"), words.T("loss.stored-brief"))
	d.Say("stored-values", tell.LossStored(b.l.Stored, v.Config), ink.Style{Size: b.Body, Weight: ink.Bold})
	d.Say("stored-from", tell.LossStoredFrom(b.l.Stored, v.Config), ink.Style{Size: b.Small, Colour: ink.Faint})
	return d.R
}

// hands draws the sticks that all three get, and the switches as words.
func (b *board) hands(r ink.Rect) {
	all := figure.Levers(b.V)
	line := ink.LineHeight(b.Small)
	low, sticks := r.CutBottom(float64(len(all))*line, 4*b.U)
	b.Group("sticks")
	room := sticks.W > 250*b.U || sticks.H > 2*(4*b.Body+3*b.Cap) // what stands on one another says nothing
	for i, g := range figure.Gimbals[ui.StickMode(b.V.StickMode)] {
		if !room {
			break
		}
		cell := sticks.Cell(i, 1, 2, 4*b.U)
		if sticks.W > 250*b.U {
			cell = sticks.Cell(i, 2, 1, b.Gap)
		}
		b.Stick(cell, g, [2]string{"left", "right"}[i])
	}
	b.Group("switches")
	b.List("switches", low, len(all), -1, line, func(row ink.Rect, i int) {
		b.Fitted(all[i].Name+" switch", row, ink.Style{Size: b.Small}, b.Say(all[i].Stands(b.V)))
	})
}

// as draws with one of the three in the place of the pilot's own craft.
func (b *board) as(c *Craft, draw func()) {
	v := b.V
	snap, cfg, refusals, told := v.Snap, v.Config, v.Refusals, v.Facts
	v.Snap, v.Config, v.Refusals, v.Facts = c.Snap, &c.Craft, c.Refusals, c.Facts
	draw()
	v.Snap, v.Config, v.Refusals, v.Facts = snap, cfg, refusals, told
}

// flying are the three as they fly, to the same scales.
func (b *board) flying() (all [lossrun.Receivers]figure.Flying) {
	for i := range all {
		c := &b.l.Crafts[i]
		all[i] = figure.NewFlying(&c.Snap, &c.Craft, c.Trail)
	}
	figure.SameScales(all[:])
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
	b.Abreast(r, len(all), func(i int, cell ink.Rect) {
		c := &b.l.Crafts[i]
		b.as(c, func() {
			rest := b.does(cell, c)
			time, mid := rest.CutBottom(min(b.timeHeight(c.Run.Phase, marks, rest.H), max(rest.H-asks-6*b.U, b.leastTime())), 6*b.U)
			b.time(time, c, span)
			if c.asks() {
				b.asks(mid)
			} else {
				b.picture(mid, c, &all[i])
			}
		})
	})
}

// does draws a craft's receiver, its state, what it does and its numbers; it gives what is left below.
func (b *board) does(r ink.Rect, c *Craft) ink.Rect {
	b.Group(codes.OnLoss(c.Craft.Link.OnLoss))
	d := b.Down(r, 3*b.U)
	row := d.Row(ink.BlockHeight(b.Large, 1))
	ours, trade := tell.OnLoss(c.Craft.Link.OnLoss)
	b.Fitted("receiver", row, ink.Style{Weight: ink.Bold, Size: b.sizeForAll(func(c *Craft, most float64) (float64, bool) {
		ours, trade := tell.OnLoss(c.Craft.Link.OnLoss)
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
	row = d.Row(float64(n/columns) * (b.NumberHeight(b.Large) + 3*b.U))
	for i := range n {
		names, number := tell.LossNumber(i, c.told())
		b.Number(row.Cell(i, columns, n/columns, 3*b.U), names, number, b.Large)
	}
	return d.R
}

// doesLines is for how many lines of usual text what a craft does has room at most.
const doesLines = 5

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
	if b.asksHeight(r.W, rows, size) > r.H { // what is cured is told where there is room
		rows = slices.DeleteFunc(slices.Clone(rows), func(row ui.Row) bool { return !row.Stands })
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

// class draws the three for a room, one over the other: the state word of each as large as on the bench, beside it the
// receiver's way and the numbers that matter, below it what the craft does or asks for.
func (b *board) class(r ink.Rect) {
	v := b.V
	b.Group("radio")
	word := b.Say(words.Listed(tell.LossRadio(on(v)), tell.LossSilent(&b.l.Crafts[0].Run, b.l.Crafts[0].Snap.Tick)))
	left, body := 52*b.U+ink.Width(word, b.Body, ink.Bold), ink.Style{Size: b.Body}
	row, r := r.CutTop(b.SayHeight(next(v), r.W-left, body)+2*b.U, 10*b.U)
	b.RadioSign(row.X+16*b.U, row.Centre().Y+1*b.U, on(v))
	b.Text("radio-word", row.X+38*b.U, row.Centre().Y, ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Middle}, word)
	body.Within = row
	b.Block("loss-next", row.X+left, row.Y+b.U, body, ink.Block{Width: row.W - left}, b.Say(next(v)))
	all, span := b.flying(), b.span()
	for i := range all {
		c, cell := &b.l.Crafts[i], r.Cell(i, 1, lossrun.Receivers, 7*b.U)
		b.Line("loss-edge", cell.X, cell.Y-3.5*b.U, cell.Right(), cell.Y-3.5*b.U, ink.Paint{Line: ink.Grid})
		b.as(c, func() { b.classCraft(cell, c, &all[i], span) })
	}
}

// classCraft draws one of them.
func (b *board) classCraft(r ink.Rect, c *Craft, fl *figure.Flying, span int64) {
	beside, low := b.StateAfar(r, 1)
	beside.H = r.H
	b.Group(codes.OnLoss(c.Craft.Link.OnLoss))
	var room ink.Rect
	if low.H > 13*b.Body { // a portrait screen has room for the picture and the time below
		room, low = low.CutBottom(low.H-4*b.Body, 6*b.U)
		beside.H = low.Bottom() - beside.Y
	}
	if picture := beside.W - 12.6*b.Body; room.Empty() && c.Snap.In.Air && picture > 4.5*b.Body && beside.H > 5*b.Body {
		var at ink.Rect
		at, beside = beside.CutRight(min(picture, beside.H*1.6), 14*b.U)
		b.Shaft(at, figure.EyeBeside(b.across()), fl)
	}
	b.facts(beside, c)

	if c.Snap.In.Air && !room.Empty() {
		var shaft ink.Rect
		shaft, room = room.CutLeft(room.W*0.36, 14*b.U)
		b.Shaft(shaft, figure.EyeBeside(b.across()), fl)
	}
	if !room.Empty() {
		b.time(room, c, span)
	}
	low.W = beside.X - low.X - 10*b.U
	does := b.Say(tell.LossShort(c.told()))
	if c.asks() && c.Snap.Refusals != 0 {
		b.classAsks(low, does)
		return
	}
	at, _ := ink.FitBlock(low.W, min(low.H, 2.6*b.Body), b.Body, 1.6*b.Body, ink.Bold, does)
	b.Block("does", low.X, low.Y, ink.Style{Size: at, Weight: ink.Bold, Within: low.Inset(-2 * b.U)},
		ink.Block{Width: low.W, MaxLines: max(1, int((low.H+3*b.U)/ink.LineHeight(at))), Shorten: true}, does)
}

// facts are the lines beside the state word: the receiver's way, the trade's word where there is room for it, numbers.
func (b *board) facts(r ink.Rect, c *Craft) {
	ours, trade := tell.OnLoss(c.Craft.Link.OnLoss)
	gap := ink.LineHeight(b.Body) - ink.BlockHeight(b.Body, 1)
	say := func(d *ui.Down, trades bool) {
		d.Gap = gap
		d.Say("fact", ours, ink.Style{Size: b.Body, Weight: ink.Bold})
		if trades {
			d.Say("fact", trade, ink.Style{Size: b.Body, Colour: ink.Faint})
		}
		if c.Craft.Link.OnLoss == facts.SendsStored && c.Run.Phase == lossrun.Waiting {
			d.Say("fact", tell.LossStoredShort(b.l.Stored, b.V.Config), ink.Style{Size: b.Body})
		}
		for i := range tell.LossNumbers {
			if i == 0 || c.Snap.In.Air {
				d.Whole("fact", tell.LossClassNumber(i, c.told()), ink.Style{Size: b.Body})
			}
		}
	}
	all := b.Takes(r.W, func(d *ui.Down) { say(d, true) }) - gap
	say(b.Down(r, 0), all <= r.H+0.5)
}

// classAsks writes what refuses arming in few words, one after the other as they fit, each crossed off as it is cured.
func (b *board) classAsks(r ink.Rect, title string) {
	size := b.Body
	line, high := ink.LineHeight(size), ink.BlockHeight(size, 1)
	b.Text("does", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top}, title)
	x, y := r.X+ink.Width(title, size, ink.Bold)+0.8*size, r.Y
	for _, row := range b.V.RefusalRows() {
		why, stands := b.V.Facts.Of(row.Refusal)
		if !stands { // what is crossed off was cured
			why = facts.Refusing{Refusal: row.Refusal, Cure: facts.Plan{OK: true}}
		}
		text := b.Say(tell.LossAsk(why, &b.V.Facts))
		w := 0.9*size + ink.Width(text, size, ink.Regular)
		if x+w > r.Right() && x > r.X {
			x, y = r.X, y+line
		}
		if y+high > r.Bottom()+3*b.U {
			return
		}
		b.WhyMark(x+4.5*b.U, y+high/2, row.Stands)
		style := ink.Style{Size: size, Anchor: ink.Top}
		if !row.Stands {
			style.Colour = ink.Faint
		}
		b.CrossText("asks "+codes.Refusal(row.Refusal), x+0.9*size, y, style, text, row.Crossed)
		x += w + 0.9*size
	}
}
