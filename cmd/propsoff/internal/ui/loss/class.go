package loss

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/sim/vec"
)

// class draws the three for a room, one over the other: the state word of each as large as on the bench, beside it the
// receiver's way and the numbers that matter, below it what the craft does or asks for.
func (b *board) class() {
	r := b.ClassKeys(ui.OnLoss, ui.SwitchRadio, keyFly, keyStored, keyAnew, ui.TurnFullScreen, ui.Leave)
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
	beside, low := b.AfarState(r)
	beside.H = r.H
	b.Group(codes.OnLoss(c.Config.Link.OnLoss))
	var room ink.Rect
	if low.H > 13*b.Body { // a portrait screen has room for the picture and the time below
		room, low = low.CutBottom(low.H-4*b.Body, 6*b.U)
		beside.H = low.Bottom() - beside.Y
	}
	if picture := beside.W - 12.6*b.Body; room.Empty() && c.Snap.In.Air && picture > 4.5*b.Body && beside.H > 5*b.Body {
		var at ink.Rect
		at, beside = beside.CutRight(min(picture, beside.H*1.6), 14*b.U)
		b.shaft(at, c, fl)
	}
	b.facts(beside, c)

	if c.Snap.In.Air && !room.Empty() {
		var shaft ink.Rect
		shaft, room = room.CutLeft(room.W*0.36, 14*b.U)
		b.shaft(shaft, c, fl)
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
	type line struct {
		text  words.Text
		style ink.Style
	}
	ours, trade := tell.OnLoss(c.Config.Link.OnLoss)
	lines := []line{{ours, ink.Style{Size: b.Body, Weight: ink.Bold}}, {trade, ink.Style{Size: b.Body, Colour: ink.Faint}}}
	add := func(text words.Text) {
		if !text.Empty() {
			lines = append(lines, line{text, ink.Style{Size: b.Body}})
		}
	}
	if c.Config.Link.OnLoss == facts.SendsStored && c.Run.Phase == lossrun.Waiting {
		add(tell.LossStoredShort(b.l.Stored, b.V.Config))
	}
	for i := range tell.LossNumbers {
		if i == 0 || c.Snap.In.Air {
			add(tell.LossClassNumber(i, c.told()))
		}
	}
	gap := ink.LineHeight(b.Body) - ink.BlockHeight(b.Body, 1)
	need := -gap
	for _, l := range lines {
		need += b.SayHeight(l.text, r.W, l.style) + gap
	}
	if need > r.H+0.5 {
		lines = append(lines[:1], lines[2:]...)
	}
	d := b.Down(r, gap)
	for _, l := range lines {
		d.Say("fact", l.text, l.style)
	}
}

// shaft draws how high a craft is, over the ground, small beside the way that it may fall.
func (b *board) shaft(r ink.Rect, c *Craft, fl *figure.Flying) {
	e, step := figure.EyeBeside(b.across()), figure.MarkStep(fl.Top)
	strip := max(ink.Width(b.Say(tell.Length(fl.Top)), b.Small, ink.Regular), ink.Width(b.Say(tell.Length(step)), b.Small, ink.Regular)) + 9*b.U
	in := ink.Rect{X: r.X + strip, Y: r.Y + 0.5*b.Body, W: r.W - strip, H: r.H - 0.5*b.Body - 7*b.U}
	m := fl.Model(e, min(in.W/4.2, in.H/6.5))
	perMetre := (in.H - 1.2*m.Scale) / fl.Top
	feet := in.Bottom() - ui.Clearance(&c.Snap, &c.Config.Body)*perMetre
	m.Mid = ink.Point{X: in.Centre().X, Y: max(feet-m.Below(), in.Y)}
	b.HeightScale("shaft", in, fl.Top, step, perMetre)
	b.GroundMarks("shaft", in, e, fl, step, perMetre)
	b.Trailing("shaft", in, fl, func(p vec.V) ink.Point {
		d := p.Sub(c.Snap.Air.Body.Pos)
		return ink.Point{X: m.Mid.X + d.Dot(e.Right)*perMetre, Y: in.Bottom() - max(-p.Z-c.Config.Body.HalfHeight, 0)*perMetre}
	})
	b.Pointer("shaft", in.X, feet)
	b.Flyer("shaft", &m, fl)
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
