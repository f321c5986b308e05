package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/vec"
)

// lossClass draws the three for a room, one over the other: the state word of each as large as on the bench, beside it the
// receiver's way and the numbers that matter, below it what the craft does or asks for.
func (b *board) lossClass() {
	h, _ := b.classSizes(1.45)
	r := b.classKeys(OnLoss, SwitchRadio, LossFly, LossStored, LossAnew, TurnFullScreen, Leave)
	v := b.v
	b.Group("radio")
	on := v.lossOn()
	word := phrase.LossRadio(on)
	if since := phrase.LossSilent(&v.Loss.Crafts[0].Run, v.Loss.Crafts[0].Snap.Tick); since != "" {
		word += ", " + since
	}
	left, next := 52*b.u+ink.Width(word, b.body, ink.Bold), v.lossNext()
	n, _ := ink.CountLines(next, r.W-left, b.body, ink.Regular)
	row, r := r.CutTop(ink.BlockHeight(b.body, n)+2*b.u, 10*b.u)
	b.radioSign(row.X+16*b.u, row.Centre().Y+1*b.u, on)
	b.Text("radio word", row.X+38*b.u, row.Centre().Y, ink.Style{Size: b.body, Weight: ink.Bold, Anchor: ink.Middle}, word)
	b.Block("loss next", row.X+left, row.Y+b.u, ink.Style{Size: b.body, Within: row}, ink.Block{Width: row.W - left}, next)
	size := math.Ceil(h * classState / ink.CapHeight(1, ink.Bold))
	span := b.lossSpan()
	for i := range v.Loss.Crafts {
		cell := r.Cell(i, 1, lossrun.Receivers, 7*b.u)
		b.Line("loss edge", cell.X, cell.Y-3.5*b.u, cell.Right(), cell.Y-3.5*b.u, ink.Paint{Line: ink.Grid})
		c := &v.Loss.Crafts[i]
		b.as(c, func() { b.lossClassCraft(cell, c, size, span) })
	}
}

func (b *board) lossClassCraft(r ink.Rect, c *LossCraft, size float64, span int64) {
	ours, _ := phrase.OnLoss(c.Config.Link.OnLoss)
	b.Group(ours)
	words := c.words()
	tall := size * ink.CapHeight(1, ink.Bold)
	top, low := r.CutTop(tall+8*b.u, 3*b.u)
	b.stateMark(top.X+tall/2, top.Centre().Y, tall/2)
	b.stateWord(top.X+tall+10*b.u, top.Centre().Y, size)
	x := top.X + tall + 24*b.u + ink.Width(stateWords[0], size, ink.Bold)
	beside := ink.Rect{X: x, Y: r.Y, W: r.Right() - x, H: r.H}

	facts := b.lossClassFacts(c)
	room := ink.Rect{}
	if low.H > 13*b.body { // a portrait screen has room for the picture and the time below
		room, low = low.CutBottom(low.H-4*b.body, 6*b.u)
	}
	if picture := beside.W - 12.6*b.body; room.Empty() && c.Snap.In.Air && picture > 4.5*b.body && beside.H > 5*b.body {
		var at ink.Rect
		at, beside = beside.CutRight(min(picture, beside.H*1.6), 14*b.u)
		b.lossShaft(at, c)
	}
	y, line := beside.Y, ink.LineHeight(b.body)
	for i, text := range facts {
		if y+ink.BlockHeight(b.body, 1) > beside.Bottom() {
			break
		}
		style := ink.Style{Size: b.body, Weight: factWeight(i)}
		if i == 1 {
			style.Colour = ink.Faint
		}
		b.fitted("fact", ink.Rect{X: beside.X, Y: y, W: beside.W, H: line}, style, text)
		y += line
	}

	if c.Snap.In.Air && !room.Empty() {
		var shaft ink.Rect
		shaft, room = room.CutLeft(room.W*0.36, 14*b.u)
		b.lossShaft(shaft, c)
	}
	if !room.Empty() {
		b.lossTime(room, c, span)
	}
	low.W = x - low.X - 10*b.u
	does := phrase.LossShort(words)
	if c.asks() && c.Snap.Refusals != 0 {
		b.lossClassAsks(low, does)
		return
	}
	at, _ := ink.FitBlock(low.W, min(low.H, 2.6*b.body), b.body, 1.6*b.body, ink.Bold, does)
	b.Block("does", low.X, low.Y, ink.Style{Size: at, Weight: ink.Bold, Within: low.Inset(-2 * b.u)},
		ink.Block{Width: low.W, MaxLines: max(1, int((low.H+3*b.u)/ink.LineHeight(at))), Shorten: true}, does)
}

// lossShaft draws how high a craft is, over the ground, small beside the way that it may fall.
func (b *board) lossShaft(r ink.Rect, c *LossCraft) {
	fl := newFlying(&c.Snap, &c.Config, c.Trail)
	fl.top = b.lossTop()
	e := eyeBeside(b.lossAcross())
	step := markStep(fl.top)
	strip := max(ink.Width(phrase.Length(fl.top), b.small, ink.Regular), ink.Width(phrase.Length(step), b.small, ink.Regular)) + 9*b.u
	in := ink.Rect{X: r.X + strip, Y: r.Y + 0.5*b.body, W: r.W - strip, H: r.H - 0.5*b.body - 7*b.u}
	m := fl.model(e, min(in.W/4.2, in.H/6.5))
	perMetre := (in.H - 1.2*m.scale) / fl.top
	feet := in.Bottom() - clearance(&c.Snap, &c.Config.Body)*perMetre
	m.mid = ink.Point{X: in.Centre().X, Y: max(feet-m.below(), in.Y)}
	b.heightScale("shaft", in, fl.top, step, perMetre)
	b.groundMarks("shaft", in, e, &fl, step, perMetre)
	b.trailing("shaft", in, &fl, func(p vec.V) ink.Point {
		d := p.Sub(c.Snap.Air.Body.Pos)
		return ink.Point{X: m.mid.X + d.Dot(e.right)*perMetre, Y: in.Bottom() - max(-p.Z-c.Config.Body.HalfHeight, 0)*perMetre}
	})
	b.pointer("shaft", in.X, feet)
	b.flyer("shaft", &m, &fl)
}

// factWeight makes the first fact, the receiver's way, bold.
func factWeight(i int) ink.Weight {
	if i == 0 {
		return ink.Bold
	}
	return ink.Regular
}

// lossClassFacts are the lines beside the state word: the receiver's way, the trade's word, numbers.
func (b *board) lossClassFacts(c *LossCraft) []string {
	ours, trade := phrase.OnLoss(c.Config.Link.OnLoss)
	lines := []string{ours, trade}
	if c.Config.Link.OnLoss == facts.SendsStored && c.Run.Phase == lossrun.Waiting {
		lines = append(lines, phrase.LossStoredShort(b.v.Loss.Stored, b.v.Config))
	}
	n := 1
	if c.Snap.In.Air {
		n = phrase.LossNumbers
	}
	for i := range n {
		if text := phrase.LossClassNumber(i, c.words()); text != "" {
			lines = append(lines, text)
		}
	}
	return lines
}

// lossTop is the height at the upper end of the scale of all three, m.
func (b *board) lossTop() float64 {
	top := 0.0
	for i := range b.v.Loss.Crafts {
		c := &b.v.Loss.Crafts[i]
		fl := newFlying(&c.Snap, &c.Config, c.Trail)
		top = max(top, fl.top)
	}
	return top
}

// lossClassAsks writes what refuses arming in few words, one after the other as they fit, each crossed off as it is cured.
func (b *board) lossClassAsks(r ink.Rect, title string) {
	size := b.body
	line, high := ink.LineHeight(size), ink.BlockHeight(size, 1)
	b.Text("does", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top}, title)
	x, y := r.X+ink.Width(title, size, ink.Bold)+0.8*size, r.Y
	for _, row := range b.v.refusals() {
		why, stands := b.v.Facts.Of(row.Refusal)
		if !stands { // what is crossed off was cured
			why = facts.Refusing{Refusal: row.Refusal, Cure: facts.Plan{OK: true}}
		}
		text := phrase.LossAsk(why, &b.v.Facts)
		w := 0.9*size + ink.Width(text, size, ink.Regular)
		if x+w > r.Right() && x > r.X {
			x, y = r.X, y+line
		}
		if y+high > r.Bottom()+3*b.u {
			return
		}
		b.whyMark(x+4.5*b.u, y+high/2, row.Stands)
		style := ink.Style{Size: size, Anchor: ink.Top}
		if !row.Stands {
			style.Colour = ink.Faint
		}
		b.CrossText("asks "+phrase.Refusal(row.Refusal), x+0.9*size, y, style, text, row.Crossed)
		x += w + 0.9*size
	}
}
