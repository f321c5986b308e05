package figure

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// Hands is the state of the craft, the sticks and the switches.
func (b *Board) Hands(r ink.Rect) {
	levers := b.leversHeight()
	r = b.state(r, levers+b.SectionHeight()+2*b.Cap+b.Body+55*b.U)
	if levers > 0 {
		var low ink.Rect
		low, r = r.CutBottom(levers, b.Gap)
		b.levers(low)
	}
	b.Sticks(r)
}

// StateWords are the two words; both must fit, so that the sheet stays as it is when one becomes the other.
func (b *Board) StateWords() []string {
	return []string{b.Say(tell.Armed(false)), b.Say(tell.Armed(true))}
}

// state draws the word, how to change it, and what is counting down; it gives what is left below, so much at the least where that can be.
func (b *Board) state(r ink.Rect, least float64) ink.Rect {
	b.Group("state")
	rest := b.StateHead(r, b.Px(50), b.Px(24), b.Px(72), 6*b.U)

	// How to change it: three lines are kept free, so that nothing moves when the sentence changes; a longer one, or little room, moves what
	// is below.
	text, counting := b.Say(b.V.How(b.On)), b.RowHeight()+9*b.U
	room := min(ink.BlockHeight(b.Head, 3), rest.H-least-counting-b.Gap)
	room = max(room, ui.TextHeight(text, rest.W, ink.Style{Size: b.Small}))
	size, _ := ink.FitBlock(rest.W, room, b.Small, b.Large, ink.Regular, text)
	how, rest := rest.CutTop(room, 2*b.U)
	b.Block("how", how.X, how.Y, ink.Style{Size: size, Within: how}, ink.Block{Width: how.W}, text)

	line, rest := rest.CutTop(counting, b.Gap)
	b.countdown(line)
	return rest
}

func stateRole(armed bool) ink.Role {
	if armed {
		return ink.Armed
	}
	return ink.Disarmed
}

// StateWord writes the word, its middle at a height.
func (b *Board) StateWord(x, y, size float64) {
	armed := b.V.Snap.Armed
	b.Text("state", x, y, ink.Style{Size: size, Weight: ink.Bold, Colour: stateRole(armed), Anchor: ink.Middle, State: true}, b.Say(tell.Armed(armed)))
}

// StateMark tells the state by its shape: armed is a closed ring with a filled, turning motor; disarmed is a ring that
// stands open, with an empty motor at rest. It turns once in three seconds, so nothing flashes.
func (b *Board) StateMark(x, y, r float64) {
	w := math.Max(2, r*0.11)
	role := stateRole(b.V.Snap.Armed)
	if !b.V.Snap.Armed {
		b.Arc("open-ring", x, y, r-w, -0.25*math.Pi, 1.25*math.Pi, ink.Paint{Line: role, Width: w})
		b.Circle("motor-at-rest", x, y, r*0.3, ink.Paint{Line: role, Width: w})
		return
	}
	b.Circle("closed-ring", x, y, r, ink.Paint{Line: role, Width: w * 1.5})
	b.Circle("motor", x, y, r*0.3, ink.Paint{Fill: role})
	at := float64(b.V.Snap.Tick%3000) / 3000 * 2 * math.Pi
	for i := range 3 {
		from := at + float64(i)*2*math.Pi/3
		b.Arc("turning", x, y, r*0.58, from, from+1.35, ink.Paint{Line: role, Width: w * 1.3})
	}
}

// countdown draws whatever is counting: a sentence over a line that fills. Where nothing counts, mode and motors.
func (b *Board) countdown(r ink.Rect) {
	counting, share, counts := tell.Countdown(&b.V.Facts)
	line := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: b.RowHeight()}
	if !counts {
		b.Fitted("standing", line, ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(b.V.Standing()))
		return
	}
	b.Fitted("countdown", line, ink.Style{Size: b.Small, Weight: ink.Bold}, b.Say(counting))
	b.Filling(ink.Rect{X: r.X, Y: r.Bottom() - 6*b.U, W: r.W, H: 5 * b.U}, share)
}

// Filling is a line with end ticks that fills from the left.
func (b *Board) Filling(r ink.Rect, share float64) {
	y := r.Centre().Y
	b.Line("filling-way", r.X, y, r.Right(), y, ink.Paint{Line: ink.Rule})
	b.Line("filling-start", r.X, r.Y, r.X, r.Bottom(), ink.Paint{Line: ink.Rule})
	b.Line("filling-end", r.Right(), r.Y, r.Right(), r.Bottom(), ink.Paint{Line: ink.Rule})
	if w := r.W * ui.Clamp(share, 0, 1); w >= 1 {
		b.Rect("filling", ink.Rect{X: r.X, Y: y - 1.5*b.U, W: w, H: 3 * b.U}, ink.Paint{Fill: ink.Ink})
	}
}

// AfarState draws the state as a class must see it; it gives the room beside it and what is left below.
func (b *Board) AfarState(r ink.Rect) (beside, rest ink.Rect) { return b.StateAfar(r, 1) }

// StateAfar is AfarState with a word up to so many times as large, where the width has room for it.
func (b *Board) StateAfar(r ink.Rect, larger float64) (beside, rest ink.Rect) {
	b.Group("state")
	size := math.Ceil(min(b.H, b.W*ink.LeastHeight/ink.LeastWidth) * ui.ClassState / ink.CapHeight(1, ink.Bold))
	if larger > 1 {
		size, _ = ink.Fit((r.W-12*b.U)*0.84, size, larger*size, ink.Bold, b.StateWords()...)
	}
	tall := size * ink.CapHeight(1, ink.Bold)
	top, rest := r.CutTop(max(tall+10*b.U, 3*ink.LineHeight(b.Body)), 4*b.U)
	b.StateMark(top.X+tall/2, top.Centre().Y, tall/2)
	b.StateWord(top.X+tall+12*b.U, top.Centre().Y, size)
	wide := 0.0
	for _, w := range b.StateWords() {
		wide = max(wide, ink.Width(w, size, ink.Bold))
	}
	_, beside = top.CutLeft(tall+12*b.U+wide, 16*b.U)
	return beside, rest
}

// StateHead draws the state as the head of a column, as large as its width has room for between two sizes; it gives what is left below.
func (b *Board) StateHead(r ink.Rect, mark, least, most, gap float64) (rest ink.Rect) {
	size, _ := ink.Fit(r.W-mark-8*b.U, least, most, ink.Bold, b.StateWords()...)
	top, rest := r.CutTop(max(mark, ink.CapHeight(size, ink.Bold)+8*b.U), gap)
	b.StateMark(top.X+mark/2, top.Centre().Y, mark/2)
	b.StateWord(top.X+mark+8*b.U, top.Centre().Y, size)
	return rest
}

// ThreeState is the state as a class must see it, with what to do beside it, or below where it is longer; it gives what is left below.
func (b *Board) ThreeState(r ink.Rect) ink.Rect {
	beside, rest := b.AfarState(r)
	b.Group("pace")
	d := b.Down(beside, 0)
	if p := &b.V.Flight.Pace; beside.W > 9*b.Body && (p.Paused || p.Slow > 1) {
		b.ThreePace(d.Row(ink.LineHeight(b.Body)))
	}
	how, s := b.Say(b.V.How(b.On)), ink.Style{Size: b.Body}
	if beside.W < 9*b.Body || ui.TextHeight(how, d.R.W, s) > d.R.H+3*b.U {
		d = b.Down(rest, 4*b.U)
		d.Write("how", how, s)
		return d.R
	}
	d.Write("how", how, s)
	return rest
}
