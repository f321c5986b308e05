package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
)

// stateWords are the two words; both must fit, so that the sheet stays as it is when one becomes the other.
var stateWords = [2]string{phrase.Armed(false), phrase.Armed(true)}

// state draws the word, how to change it, and what is counting down; it gives what is left below.
func (b *board) state(r ink.Rect) ink.Rect {
	b.Group("state")
	mark := b.Px(50)
	size, _ := ink.Fit(r.W-mark-8*b.u, b.Px(24), b.Px(72), ink.Bold, stateWords[:]...)
	row := math.Max(mark, ink.CapHeight(size, ink.Bold)+8*b.u)
	top, rest := r.CutTop(row, 6*b.u)
	b.stateMark(top.X+mark/2, top.Centre().Y, mark/2)
	b.stateWord(top.X+mark+8*b.u, top.Centre().Y, size)

	// How to change it: three lines are kept free, so that nothing moves when the sentence changes.
	text := b.v.how(b.on)
	room := ink.BlockHeight(b.head, 3)
	size, _ = ink.FitBlock(rest.W, room, b.small, b.large, ink.Regular, text)
	how, rest := rest.CutTop(room, 2*b.u)
	b.Block("how", how.X, how.Y, ink.Style{Size: size, Within: how}, ink.Block{Width: how.W}, text)

	line, rest := rest.CutTop(b.rowHeight()+9*b.u, b.gap)
	b.countdown(line)
	return rest
}

// keyWords are the keys as sentences on a sheet name them.
func (v *View) keyWords(on Place) phrase.Keys {
	return phrase.Keys{
		Drive: v.Driver == Keyboard || v.Driver == Nobody || v.Driver == Demo, Demo: v.Driver == Demo, Nobody: v.Driver == Nobody, Played: v.playing(), Ended: v.Driver == Played && v.Ended,
		Arm: keyOf(keyboard.Arm), Second: keyOf(keyboard.Second), Down: keyOf(keyboard.ThrottleDown), Zero: keyOf(keyboard.ThrottleZero),
		YawLeft: keyOf(keyboard.YawLeft), YawRight: keyOf(keyboard.YawRight), Pack: v.KeyFor(SwitchPack, on), Radio: v.KeyFor(SwitchRadio, on), TakeOver: v.KeyFor(NextDriver, on), After: int(v.Next), AfterName: v.NextName,
	}
}

func physicalOf(a Action) string {
	if act := actOf(a); act != nil {
		return act.Physical
	}
	return ""
}

// actOf is the row of an action in the table, nil for none.
func actOf(a Action) *Act {
	for i := range acts {
		if acts[i].Action == a {
			return &acts[i]
		}
	}
	return nil
}

func stateRole(armed bool) ink.Role {
	if armed {
		return ink.Armed
	}
	return ink.Disarmed
}

func (b *board) stateWord(x, y, size float64) {
	armed := b.v.Snap.Armed
	b.Text("state", x, y, ink.Style{Size: size, Weight: ink.Bold, Colour: stateRole(armed), Anchor: ink.Middle, State: true}, phrase.Armed(armed))
}

// stateMark tells the state by its shape: armed is a closed ring with a filled, turning motor; disarmed is a ring that
// stands open, with an empty motor at rest. It turns once in three seconds, so nothing flashes.
func (b *board) stateMark(x, y, r float64) {
	w := math.Max(2, r*0.11)
	role := stateRole(b.v.Snap.Armed)
	if !b.v.Snap.Armed {
		b.Arc("open ring", x, y, r-w, -0.25*math.Pi, 1.25*math.Pi, ink.Paint{Line: role, Width: w})
		b.Circle("motor at rest", x, y, r*0.3, ink.Paint{Line: role, Width: w})
		return
	}
	b.Circle("closed ring", x, y, r, ink.Paint{Line: role, Width: w * 1.5})
	b.Circle("motor", x, y, r*0.3, ink.Paint{Fill: role})
	at := float64(b.v.Snap.Tick%3000) / 3000 * 2 * math.Pi
	for i := range 3 {
		from := at + float64(i)*2*math.Pi/3
		b.Arc("turning", x, y, r*0.58, from, from+1.35, ink.Paint{Line: role, Width: w * 1.3})
	}
}

// countdown draws whatever is counting: a sentence over a line that fills. Where nothing counts, mode and motors.
func (b *board) countdown(r ink.Rect) {
	text, share, counts := phrase.Countdown(&b.v.Facts)
	style := ink.Style{Size: b.small, Anchor: ink.Top, Within: r}
	if !counts {
		style.Colour = ink.Faint
		b.fitted("standing", ink.Rect{X: r.X, Y: r.Y, W: r.W, H: b.rowHeight()}, style, b.v.standing())
		return
	}
	style.Weight = ink.Bold
	b.Text("countdown", r.X, r.Y, style, text)
	b.filling(ink.Rect{X: r.X, Y: r.Bottom() - 6*b.u, W: r.W, H: 5 * b.u}, share)
}

// filling is a line with end ticks that fills from the left.
func (b *board) filling(r ink.Rect, share float64) {
	y := r.Centre().Y
	b.Line("filling way", r.X, y, r.Right(), y, ink.Paint{Line: ink.Rule})
	b.Line("filling start", r.X, r.Y, r.X, r.Bottom(), ink.Paint{Line: ink.Rule})
	b.Line("filling end", r.Right(), r.Y, r.Right(), r.Bottom(), ink.Paint{Line: ink.Rule})
	if w := r.W * clamp(share, 0, 1); w >= 1 {
		b.Rect("filling", ink.Rect{X: r.X, Y: y - 1.5*b.u, W: w, H: 3 * b.u}, ink.Paint{Fill: ink.Ink})
	}
}
