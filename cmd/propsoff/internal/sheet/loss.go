package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
)

// LossView is what the sheet of three receivers on a lost link knows. The sticks, the radio and the pace are those of View.Snap and
// View.Flight.
type LossView struct {
	Crafts [lossrun.Receivers]LossCraft
	Stored lossrun.Stored
	// Flown: the demonstration's own pilot drives. Steady: it hovers. Pilot is what it comes to with the pilot's own craft.
	Flown, Steady bool
	Pilot         facts.Pilot
}

// LossCraft is one of them.
type LossCraft struct {
	// Config is the craft with its receiver, as it now is; Facts are those of it and of Snap.
	Config sim.Config
	Snap   sim.Snapshot
	Facts  facts.Facts
	Run    lossrun.Run
	// Trail as in FlightView.
	Trail []TrailPoint
	// Refusals has been fed with every snapshot that was shown.
	Refusals *Refusals
}

// asks tells whether it is to be shown what the craft asks for before it can be armed again.
func (c *LossCraft) asks() bool { return c.Run.Phase == lossrun.Back && !c.Snap.Armed }

// words is the craft as its sentences need it.
func (c *LossCraft) words() phrase.LossCraft {
	return phrase.LossCraft{Cfg: &c.Config, Run: &c.Run, Snap: &c.Snap, Facts: &c.Facts}
}

// showsLoss tells whether an action is there to be done on the sheet of three receivers; known is false for all others. Its own
// pilot may be meddled with, a script or take may not.
func (v *View) showsLoss(a Action, on Place) (shows, known bool) {
	free := !v.playing() || v.Loss.Flown
	switch {
	case a == SwitchRadio && on == OnLoss, a == LossFly, a == LossAnew:
		return free, true
	case a == LossStored: // a receiver does not think of something else in the air
		return free && v.Loss.Crafts[facts.SendsStored].Run.Phase != lossrun.Off, true
	}
	return false, false
}

// Loss draws three crafts with three receivers on one radio, and what each does when that goes silent.
func Loss(p *ink.Page, v *View) {
	b := newBoard(p, v)
	if v.Class {
		b.lossClass()
		return
	}
	r := b.footer(b.sheetArea(), OnLoss)
	if b.tall {
		top, low := r.CutTop(r.H*0.26, b.gap)
		words, sticks := top.CutLeft(top.W*0.52, b.gap)
		b.lossRadio(words)
		b.lossSticks(sticks)
		b.lossCrafts(low)
		return
	}
	left, right := r.CutLeft(r.W*0.215, b.gap*1.4)
	rest := b.lossRadio(left)
	b.lossSticks(rest)
	b.lossCrafts(right)
}

// lossKeys are the keys as the sentences name them.
func (v *View) lossKeys() phrase.LossKeys {
	return phrase.LossKeys{Radio: v.keyHere(SwitchRadio, OnLoss), Fly: v.keyHere(LossFly, OnLoss), Anew: v.keyHere(LossAnew, OnLoss), Bench: v.keyWords(OnLoss), Short: v.Class}
}

// lossOn tells whether the radio is heard.
func (v *View) lossOn() bool {
	return v.Snap.In.Transmitting() && v.Loss.Crafts[0].Run.Phase != lossrun.Off
}

// lossNext says what to do now; one who paused is told how time goes on, and one whom a drill asks nothing else.
func (v *View) lossNext() string {
	if v.Facts.Plain || v.Snap.In.Air && v.Flight.Pace.Paused {
		return v.how(OnLoss)
	}
	return phrase.LossNext(&v.Loss.Crafts[0].Run, &v.Facts, v.lossKeys(), phrase.LossPilot{Flown: v.Loss.Flown, Steady: v.Loss.Steady, Comes: v.Loss.Pilot})
}

// lossRadio is the radio, since when it is silent, what to do, and what the third receiver has stored; it gives what is left.
func (b *board) lossRadio(r ink.Rect) ink.Rect {
	v := b.v
	b.Group("radio")
	on := v.lossOn()
	sign := b.Px(34)
	size, _ := ink.Fit(r.W-sign-8*b.u, b.Px(15), b.Px(34), ink.Bold, phrase.LossRadio(true), phrase.LossRadio(false))
	row, r := r.CutTop(b.Px(34), 4*b.u)
	b.radioSign(row.X+sign*0.42, row.Centre().Y+2*b.u, on)
	b.Text("radio word", row.X+sign+6*b.u, row.Centre().Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Middle}, phrase.LossRadio(on))
	run := &v.Loss.Crafts[0].Run
	row, r = r.CutTop(ink.BlockHeight(b.head, 1), 4*b.u)
	b.fitted("radio since", row, ink.Style{Size: b.head}, phrase.LossSilent(run, v.Loss.Crafts[0].Snap.Tick))

	block := func(name string, size float64, weight ink.Weight, colour ink.Role, most int, words string) {
		n, _ := ink.CountLines(words, r.W, size, weight)
		n = min(n, most)
		h := ink.BlockHeight(size, n)
		b.Block(name, r.X, r.Y, ink.Style{Size: size, Weight: weight, Colour: colour, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, words)
		_, r = r.CutTop(h, 5*b.u)
	}
	next := v.lossNext()
	size, _ = ink.FitBlock(r.W, ink.BlockHeight(b.head, 7), b.small, b.head, ink.Bold, next)
	block("loss next", size, ink.Bold, ink.Ink, 12, next)
	if run.Phase != lossrun.Waiting && run.Before.Air {
		block("loss height", b.small, ink.Regular, ink.Ink, 2, phrase.LossHeight(run))
	}
	if p := &v.Flight.Pace; v.Snap.In.Air && (p.Paused || p.Slow > 1) {
		var row ink.Rect
		row, r = r.CutTop(max(20*b.u, b.cap), 4*b.u)
		b.threePace(row)
	}
	b.Group("stored")
	r = b.section(r, "stored heading", phrase.LossStoredTitle())
	block("stored values", b.body, ink.Bold, ink.Ink, 3, phrase.LossStored(v.Loss.Stored, v.Config))
	block("stored from", b.small, ink.Regular, ink.Faint, 3, phrase.LossStoredFrom(v.Loss.Stored, v.Config))
	return r
}

// lossSticks draws the sticks that all three get, and the switches as words.
func (b *board) lossSticks(r ink.Rect) {
	all, n := b.v.levers()
	line := ink.LineHeight(b.small)
	low, sticks := r.CutBottom(float64(n)*line, 4*b.u)
	b.Group("sticks")
	for i, g := range gimbals[stickMode(b.v.StickMode)] {
		cell := sticks.Cell(i, 1, 2, 4*b.u)
		if sticks.W > 250*b.u {
			cell = sticks.Cell(i, 2, 1, b.gap)
		}
		b.stick(cell, g, [2]string{"left", "right"}[i])
	}
	b.Group("switches")
	for i := range all[:n] {
		l := &all[i]
		words := phrase.ClassSwitch(l.name, "", "–")
		if w := b.v.Snap.In.Sent[l.channel]; b.v.Snap.In.HasSent {
			if at := l.live(w); at >= 0 {
				words = phrase.ClassSwitch(l.name, l.at[at].word, phrase.Micros(w))
			}
		}
		b.fitted(l.name+" switch", ink.Rect{X: low.X, Y: low.Y + float64(i)*line, W: low.W, H: line}, ink.Style{Size: b.small}, words)
	}
}

// as draws with one of the three in the place of the pilot's own craft.
func (b *board) as(c *LossCraft, draw func()) {
	v := b.v
	snap, cfg, refusals, told := v.Snap, v.Config, v.Refusals, v.Facts
	v.Snap, v.Config, v.Refusals, v.Facts = c.Snap, &c.Config, c.Refusals, c.Facts
	draw()
	v.Snap, v.Config, v.Refusals, v.Facts = snap, cfg, refusals, told
}

// lossCrafts draws the three side by side, to the same scales.
func (b *board) lossCrafts(r ink.Rect) {
	v := &b.v.Loss
	var all [lossrun.Receivers]flying
	top, wide := 0.0, 0.0
	for i := range v.Crafts {
		all[i] = newFlying(&v.Crafts[i].Snap, &v.Crafts[i].Config, v.Crafts[i].Trail)
		top, wide = max(top, all[i].top), max(wide, all[i].wide)
	}
	span := b.lossSpan()
	marks, asks := 0, 0.0
	for i := range v.Crafts {
		c := &v.Crafts[i]
		marks = max(marks, len(phrase.LossMarks(c.words())))
		if c.asks() {
			b.as(c, func() { asks = max(asks, b.rowsHeight(r.Cell(0, len(all), 1, b.gap*1.4).W, b.v.refusals(), b.small)) })
		}
	}
	for i := range all {
		all[i].top, all[i].wide = top, wide
		cell := r.Cell(i, len(all), 1, b.gap*1.4)
		if i > 0 {
			x := cell.X - b.gap*0.7
			b.Line("loss edge", x, cell.Y, x, cell.Bottom(), ink.Paint{Line: ink.Grid})
		}
		b.as(&v.Crafts[i], func() { b.lossCraft(cell, &v.Crafts[i], &all[i], span, marks, asks) })
	}
}

// lossCraft draws one: its receiver's way, its state, what it does, its numbers, what it looks like or what it asks for, and its time.
func (b *board) lossCraft(r ink.Rect, c *LossCraft, fl *flying, span int64, marks int, asks float64) {
	ours, trade := phrase.OnLoss(c.Config.Link.OnLoss)
	b.Group(ours)
	words := c.words()
	row, r := r.CutTop(ink.BlockHeight(b.large, 1), 3*b.u)
	w := ink.Width(trade, b.small, ink.Regular)
	b.fitted("receiver", ink.Rect{X: row.X, Y: row.Y, W: row.W - w - 6*b.u, H: row.H}, ink.Style{Size: b.large, Weight: ink.Bold}, ours)
	b.Text("trade's word", row.Right(), row.Centre().Y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, trade)

	mark := b.Px(28)
	size, _ := ink.Fit(r.W-mark-8*b.u, b.Px(18), b.Px(40), ink.Bold, stateWords[:]...)
	row, r = r.CutTop(max(mark, ink.CapHeight(size, ink.Bold))+2*b.u, 4*b.u)
	b.stateMark(row.X+mark/2, row.Centre().Y, mark/2)
	b.stateWord(row.X+mark+8*b.u, row.Centre().Y, size)

	const lines = 4
	does := phrase.LossDoes(words)
	h := ink.BlockHeight(b.body, lines)
	at, _ := ink.FitBlock(r.W, h, b.small, b.large, ink.Regular, does)
	b.Block("does", r.X, r.Y, ink.Style{Size: at, Within: r}, ink.Block{Width: r.W, MaxLines: lines + 1, Shorten: true}, does)
	_, r = r.CutTop(h, 3*b.u)

	n, columns := 1, 1
	if c.Snap.In.Air {
		n, columns = phrase.LossNumbers, 2
	}
	name, value := ink.BlockHeight(b.small, 1), ink.BlockHeight(b.large, 1)
	if c.Run.Phase == lossrun.Waiting { // there is nothing to tell yet
		n = 0
	}
	row, r = r.CutTop(float64(n/columns)*(name+value+3*b.u), 3*b.u)
	for i := range n {
		cell := row.Cell(i, columns, n/columns, 3*b.u)
		label, text := phrase.LossNumber(i, words)
		top, below := cell.CutTop(name, 0)
		b.fitted("number name", top, ink.Style{Size: b.small, Colour: ink.Faint}, label)
		b.fitted("number", below, ink.Style{Size: b.large, Weight: ink.Bold}, text)
	}

	time, mid := r.CutBottom(min(b.lossTimeHeight(c.Run.Phase, marks, r.H), r.H-asks-6*b.u), 6*b.u)
	b.lossTime(time, c, span)
	if c.asks() {
		b.lossAsks(mid)
		return
	}
	b.lossPicture(mid, c, fl)
}

// lossAsks draws what refuses arming, each crossed off as it is cured.
func (b *board) lossAsks(r ink.Rect) {
	rows := b.v.refusals()
	if len(rows) == 0 {
		rows = append(rows, Row{Text: phrase.LossFreeNow(), Stands: false})
	}
	size := b.body
	for size > b.small && b.rowsHeight(r.W, rows, size) > r.H {
		size--
	}
	b.rowsFor(r, rows, size)
}

// rowsHeight is the height that rowsFor takes for all of some rows.
func (b *board) rowsHeight(w float64, rows []Row, size float64) float64 {
	h := 0.0
	for _, row := range rows {
		n, _ := ink.CountLines(row.Text, w-1.2*size, size, ink.Regular)
		h += ink.BlockHeight(size, n) + 3*b.u
	}
	return h
}

// lossPicture draws the craft in the air from the side, with where it has been; on the desk bench its motors.
func (b *board) lossPicture(r ink.Rect, c *LossCraft, fl *flying) {
	if r.H < 60*b.u {
		return
	}
	if !c.Snap.In.Air {
		b.fromAbove(r)
		return
	}
	b.upright("beside", r, eyeBeside(b.lossAcross()), fl)
}

// lossAcross is the way in rad from north that lies across the pictures, from left to right: where the craft that has gone furthest
// since the radio went off has gone, so that all of its way is seen; before, the way that the noses point.
func (b *board) lossAcross() float64 {
	far, across := 1.0, headingOf(b.v.Loss.Crafts[0].Run.Before.Att)
	for i := range b.v.Loss.Crafts {
		c := &b.v.Loss.Crafts[i]
		if c.Run.Phase == lossrun.Waiting {
			return facing(&c.Snap, c.Trail)
		}
		d := c.Snap.Air.Body.Pos.Sub(c.Run.Before.Place)
		if n := math.Hypot(d.X, d.Y); n > far {
			far, across = n, math.Atan2(d.Y, d.X)
		}
	}
	return across
}

// lossSpan is how many ms the time of all three covers: to what happened last, and on while something is still to come.
func (b *board) lossSpan() int64 {
	last := int64(1600)
	for i := range b.v.Loss.Crafts {
		c := &b.v.Loss.Crafts[i]
		if since, ok := c.Run.Since(c.Snap.Tick); ok && (c.Run.Phase == lossrun.Off && (c.Snap.Armed || c.Snap.Air.Flying)) {
			last = max(last, since)
		}
		for _, m := range phrase.LossMarks(c.words()) {
			last = max(last, m.Ms)
		}
	}
	return int64(roundUp(math.Ceil(float64(last)*1.05), 2000))
}
