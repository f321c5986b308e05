package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/flown"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// Three draws three crafts that fly the same sticks, one in each mode, and the sticks once.
func Three(p *ink.Page, v *View) {
	b := newBoard(p, v)
	var r ink.Rect
	if v.Class {
		r = b.classKeys(OnThree, PauseFlight, SlowFlight, StandAgain, TurnFullScreen, ShowHelp, Leave)
	} else {
		r = b.footer(b.sheetArea(), OnThree)
	}
	if v.Class {
		r = b.threeState(r)
	}
	if b.tall {
		top, low := r.CutTop(r.H*0.25, b.gap)
		b.threeHands(top)
		b.threeCrafts(low)
		return
	}
	left, right := r.CutLeft(r.W*0.27, b.gap*1.4)
	b.threeHands(left)
	b.threeCrafts(right)
}

// afarState draws the state as a class must see it; it gives the room beside it and what is left below.
func (b *board) afarState(r ink.Rect) (beside, rest ink.Rect) {
	b.Group("state")
	size := math.Ceil(min(b.H, b.W*ink.LeastHeight/ink.LeastWidth) * classState / ink.CapHeight(1, ink.Bold))
	tall := size * ink.CapHeight(1, ink.Bold)
	top, rest := r.CutTop(tall+10*b.u, 4*b.u)
	b.stateMark(top.X+tall/2, top.Centre().Y, tall/2)
	b.stateWord(top.X+tall+12*b.u, top.Centre().Y, size)
	x := top.X + tall + 28*b.u + ink.Width(stateWords[0], size, ink.Bold)
	return ink.Rect{X: x, Y: top.Y, W: top.Right() - x, H: top.H}, rest
}

// threeState is the state as a class must see it, and what to do beside it; it gives what is left below.
func (b *board) threeState(r ink.Rect) ink.Rect {
	beside, rest := b.afarState(r)
	b.Group("pace")
	if line := ink.LineHeight(b.body); beside.W > 9*b.body {
		more := beside
		if p := &b.v.Flight.Pace; p.Paused || p.Slow > 1 {
			var row ink.Rect
			row, more = beside.CutTop(line, 0)
			b.threePace(row)
		}
		n := max(1, int((more.H+3*b.u)/line))
		b.Block("how", more.X, more.Y, ink.Style{Size: b.body, Within: more.Inset(-2 * b.u)}, ink.Block{Width: more.W, MaxLines: n, Shorten: true}, b.v.how(b.on))
	}
	return rest
}

// threePace is how time runs, in one line.
func (b *board) threePace(r ink.Rect) {
	p := &b.v.Flight.Pace
	b.paceMark(r.X+6*b.u, r.Centre().Y, p.Paused, p.Slow > 1)
	b.fitted("pace", ink.Rect{X: r.X + 19*b.u, Y: r.Y, W: r.W - 19*b.u, H: r.H}, ink.Style{Size: b.body, Weight: ink.Bold}, phrase.PaceWords(p.Paused, p.Slow))
}

// threeHands is the state, what is to be seen, how time runs, and the sticks.
func (b *board) threeHands(r ink.Rect) {
	if b.v.Class {
		b.threeSticks(r)
		return
	}
	b.Group("state")
	low := r
	if b.tall {
		r, low = r.CutLeft(r.W*0.5, b.gap)
	}
	mark := b.Px(32)
	size, _ := ink.Fit(r.W-mark-8*b.u, b.Px(18), b.Px(60), ink.Bold, stateWords[:]...)
	head, r := r.CutTop(max(mark, ink.CapHeight(size, ink.Bold)+6*b.u), 4*b.u)
	b.stateMark(head.X+mark/2, head.Centre().Y, mark/2)
	b.stateWord(head.X+mark+8*b.u, head.Centre().Y, size)
	words := b.v.how(b.on)
	n, _ := ink.CountLines(words, r.W, b.head, ink.Regular)
	h := ink.BlockHeight(b.head, min(n, 4))
	b.Block("how", r.X, r.Y, ink.Style{Size: b.head, Within: r}, ink.Block{Width: r.W, MaxLines: 4, Shorten: true}, words)
	_, r = r.CutTop(h, 6*b.u)
	words = phrase.ThreeWhat()
	n, _ = ink.CountLines(words, r.W, b.small, ink.Regular)
	if h = ink.BlockHeight(b.small, n); h < r.H*0.4 {
		b.Block("three what", r.X, r.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W}, words)
		_, r = r.CutTop(h, 6*b.u)
	}
	var row ink.Rect
	row, r = r.CutTop(max(25*b.u, b.cap), 4*b.u)
	b.Group("pace")
	b.threePace(row)
	if !b.tall {
		low = r
	}
	b.threeSticks(low)
}

// threeSticks draws the sticks that all three get; in a narrow column one over the other.
func (b *board) threeSticks(r ink.Rect) {
	b.Group("sticks")
	if !b.v.Class {
		r = b.section(r, "sticks heading", phrase.SticksTitle(stickMode(b.v.StickMode)))
	}
	for i, g := range gimbals[stickMode(b.v.StickMode)] {
		cell := r.Cell(i, 2, 1, b.gap)
		if r.H > r.W*1.3 {
			cell = r.Cell(i, 1, 2, b.gap)
		}
		b.stick(cell, g, [2]string{"left", "right"}[i])
	}
}

// threeCrafts draws the crafts side by side, each under the name of its mode, all to the same scales.
func (b *board) threeCrafts(r ink.Rect) {
	v := &b.v.Three
	var all [len(v.Crafts)]flying
	top, wide := 0.0, 0.0
	for i := range v.Crafts {
		all[i] = newFlying(&v.Crafts[i].Snap, b.v.Config, v.Crafts[i].Trail)
		top, wide = max(top, all[i].top), max(wide, all[i].wide)
	}
	for i := range all {
		all[i].top, all[i].wide = top, wide
		cell := r.Cell(i, len(all), 1, b.gap*1.4)
		if i > 0 {
			x := cell.X - b.gap*0.7
			b.Line("three edge", x, cell.Y, x, cell.Bottom(), ink.Paint{Line: ink.Grid})
		}
		b.threeCraft(cell, &v.Crafts[i], &all[i])
	}
}

func (b *board) threeCraft(r ink.Rect, c *ThreeCraft, fl *flying) {
	mode := phrase.Mode(c.Mode)
	b.Group("craft in " + mode)
	size := b.TextSize(24)
	if b.v.Class {
		size = b.body * 1.5
	}
	row, r := r.CutTop(ink.BlockHeight(size, 1), 0)
	b.fitted("mode", row, ink.Style{Size: size, Weight: ink.Bold}, mode)
	if !b.v.Class {
		words := phrase.ThreeMode(c.Mode, b.v.Three.Horizon)
		n, _ := ink.CountLines(words, r.W, b.small, ink.Regular)
		n = min(n, 2)
		h := ink.BlockHeight(b.small, n)
		b.Block("mode does", r.X, r.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, words)
		_, r = r.CutTop(h, 4*b.u)
	}
	// What matters most, large: bank and height.
	bank, _, _ := flown.Angles(c.Snap.Air.Body.Att.Unit())
	big := b.large
	row, r = r.CutTop(ink.BlockHeight(b.small, 1)+ink.BlockHeight(big, 1), 4*b.u)
	for i, n := range [2]struct{ name, value string }{{phrase.FlightNumber(3), phrase.Bank(bank)}, {phrase.FlightNumber(0), phrase.Metres(-c.Snap.Air.Body.Pos.Z)}} {
		cell := row.Cell(i, 2, 1, 4*b.u)
		name, value := cell.CutTop(ink.BlockHeight(b.small, 1), 0)
		b.fitted("number name", name, ink.Style{Size: b.small, Colour: ink.Faint}, n.name)
		b.fitted("number", value, ink.Style{Size: big, Weight: ink.Bold}, n.value)
	}
	if !b.v.Class {
		words := phrase.FlightStands(b.v.flightFacts(&c.Snap))
		n := 2
		h := ink.BlockHeight(b.small, n)
		b.Block("flight stands", r.X, r.Y, ink.Style{Size: b.small, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, words)
		_, r = r.CutTop(h, 4*b.u)
	}
	b.upright("behind", r.Cell(0, 1, 2, 6*b.u), eyeBehind(fl.facing), fl)
	b.downward(r.Cell(1, 1, 2, 6*b.u), fl)
}
