package figure

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// ThreePace is how time runs, in one line.
func (b *Board) ThreePace(r ink.Rect) {
	p := &b.V.Flight.Pace
	b.paceMark(r.X+6*b.U, r.Centre().Y, p.Paused, p.Slow > 1)
	b.Fitted("pace", ink.Rect{X: r.X + 19*b.U, Y: r.Y, W: r.W - 19*b.U, H: r.H}, ink.Style{Size: b.Body, Weight: ink.Bold}, b.Say(tell.PaceWords(p.Paused, p.Slow)))
}

// The hit areas of a replay without an action of their own: a second back and on.
const (
	ReplayBack = "replay-back"
	ReplayOn   = "replay-on"
)

// PaceRow draws how time runs, or where the replay stands, and what the ghost means.
func (b *Board) PaceRow(r ink.Rect) {
	b.Group("pace")
	p, re := &b.V.Flight.Pace, &b.V.Flight.Replay
	x := r.X
	y := r.Centre().Y
	b.paceMark(x+6*b.U, y, p.Paused, p.Slow > 1)
	x += 19 * b.U
	words := b.Say(tell.PaceWords(p.Paused, p.Slow))
	size := b.Body
	box := b.Text("pace", x, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Middle, Within: r}, words)
	x = box.Right() + 10*b.U
	if re.On {
		b.LookBack(ink.Rect{X: x, Y: r.Y, W: r.Right() - x, H: r.H}, re)
		return
	}
	if _, haunts := ui.Ghost(&b.V.Snap, b.V.Config); !haunts {
		return
	}
	sample := 22 * b.U
	means := b.Say(tell.GhostMeans(b.V.Snap.Mode, b.V.Snap.Sinking, false))
	w := min(ink.Width(means, b.Small, ink.Regular)+1, r.Right()-x-sample-6*b.U)
	x = r.Right() - w - sample - 6*b.U
	b.Line("ghost-sample", x, y, x+sample, y, ink.Paint{Line: ink.Focus, Width: 1.6 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}})
	b.Fitted("ghost-means", ink.Rect{X: x + sample + 6*b.U, Y: r.Y, W: w, H: r.H}, ink.Style{Size: b.Small, Colour: ink.Faint}, means)
}

// paceMark tells by its shape: a triangle runs, two bars stand, a triangle behind a bar is slow.
func (b *Board) paceMark(x, y float64, paused, slow bool) {
	d := 5 * b.U
	if paused {
		b.Rect("paused", ink.Rect{X: x - d, Y: y - d, W: 0.7 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
		b.Rect("paused", ink.Rect{X: x + 0.3*d, Y: y - d, W: 0.7 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
		return
	}
	if slow {
		b.Rect("slow", ink.Rect{X: x - 1.3*d, Y: y - d, W: 0.5 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
	}
	b.V.Pts = append(b.V.Pts[:0], ink.Point{X: x - 0.5*d, Y: y - d}, ink.Point{X: x + d, Y: y}, ink.Point{X: x - 0.5*d, Y: y + d})
	b.Polygon("runs", b.V.Pts, ink.Paint{Fill: ink.Ink})
}

// LookBack draws the bar of time of a look back, with the keys that go a second back and on.
func (b *Board) LookBack(r ink.Rect, re *ui.Replay) {
	y := r.Centre().Y
	box := b.Text("replay", r.X, y, ink.Style{Size: b.Body, Weight: ink.Bold, Colour: ink.Focus, Anchor: ink.Middle, Within: r}, b.Say(words.T("flight.replay")))
	x := box.Right() + 8*b.U
	wide := max(25*b.U, b.Cap+2*b.U)
	right := r.Right() - wide
	back := ink.Rect{X: x, Y: r.Y, W: wide, H: r.H}
	on := ink.Rect{X: right, Y: r.Y, W: wide, H: r.H}
	b.KeyCap("replay-back-key", back.Centre().X, y, b.Cap, ui.CapWord("Left"))
	b.KeyCap("replay-on-key", on.Centre().X, y, b.Cap, ui.CapWord("Right"))
	b.Hit(ReplayBack, "Left", back)
	b.Hit(ReplayOn, "Right", on)
	words := b.Say(tell.ReplayAt(re.At, re.Length))
	w := ink.Width(b.Say(tell.ReplayAt(29_900, 30_000)), b.Small, ink.Regular) + 8*b.U
	b.Text("replay-at", right-4*b.U, y, ink.Style{Size: b.Small, Anchor: ink.Right | ink.Middle, Within: r}, words)
	bar := ink.Rect{X: back.Right() + 5*b.U, Y: y - 5*b.U, W: right - w - back.Right() - 12*b.U, H: 10 * b.U}
	if bar.W < 10*b.U {
		return
	}
	share := 0.0
	if re.Length > 0 {
		share = ui.Clamp(float64(re.At)/float64(re.Length), 0, 1)
	}
	b.Filling(bar, share)
	b.Circle("replay-place", bar.X+bar.W*share, y, 4*b.U, ink.Paint{Fill: ink.Ink})
}
