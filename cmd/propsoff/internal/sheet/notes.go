package sheet

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
)

// note is one happening in the margin of the chart paper.
type note struct {
	at    float64 // where its moment is on the paper
	text  string
	lines int
}

// notes writes what happened in the last ten seconds beside its moment. The newest stand at the top; a note that finds
// its place taken is pushed down, and where the paper ends those that are left are counted in one line.
func (b *board) notes(r ink.Rect) {
	v := b.v
	v.lines = v.lines[:0]
	for i := len(v.Happenings) - 1; i >= 0; i-- {
		h := v.Happenings[i]
		if h.Tick < v.Snap.Tick-loop.ChartTicks {
			break
		}
		if h.Tick > v.Snap.Tick {
			continue
		}
		n := note{at: b.depth(r, h.Tick), text: phrase.Happening(h, v.Config)}
		n.lines, _ = ink.CountLines(n.text, r.W, b.small, ink.Regular)
		v.lines = append(v.lines, n)
	}
	one, gap := ink.BlockHeight(b.small, 1), 3*b.u
	// What all the notes below would need, each on one line, tells how many lines a note may have.
	y := r.Y
	for i, n := range v.lines {
		left := len(v.lines) - i - 1
		top := max(y, n.at-one/2)
		// A crowded paper: a note may begin above its moment's line, but never above the note before.
		if need := one + float64(min(left, 1))*(one+gap); top+need > r.Bottom() {
			top = max(y, r.Bottom()-need)
		}
		if top+one > r.Bottom() {
			return
		}
		if left > 0 && top+one+gap+one > r.Bottom()+0.5 {
			b.noteText(ink.Rect{X: r.X, Y: top, W: r.W, H: one}, n.at, 1, phrase.Earlier(left+1))
			return
		}
		room := r.Bottom() - top
		if left > 0 {
			room -= one + gap
		}
		lines := min(n.lines, 4)
		for lines > 1 && ink.BlockHeight(b.small, lines) > room {
			lines--
		}
		h := ink.BlockHeight(b.small, lines)
		b.noteText(ink.Rect{X: r.X, Y: top, W: r.W, H: h}, n.at, lines, n.text)
		y = top + h + gap
	}
}

func (b *board) noteText(r ink.Rect, at float64, lines int, text string) {
	mid := r.Y + ink.BlockHeight(b.small, 1)/2
	x := r.X - 3*b.u
	pts := [...]ink.Point{{X: x - 10*b.u, Y: at}, {X: x - 8*b.u, Y: at}, {X: x - 2*b.u, Y: mid}, {X: x, Y: mid}}
	b.Polyline("note lead", pts[:], ink.Paint{Line: ink.Rule})
	b.Block("note", r.X, r.Y, ink.Style{Size: b.small, Within: r}, ink.Block{Width: r.W, MaxLines: lines, Shorten: true}, text)
}
