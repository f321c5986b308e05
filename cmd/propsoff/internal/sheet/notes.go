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

// notes writes what happened in the last ten seconds beside its moment, whole: a note cut short says nothing. The newest stand at the top;
// a note that finds its place taken is pushed down, and one that would run off the paper stands higher. Those for which there is no room
// are counted in one line.
func (b *board) notes(r ink.Rect) {
	v := b.v
	v.lines = v.lines[:0]
	one, gap := ink.BlockHeight(b.small, 1), 3*b.u
	need, shown, room := 0.0, 0, r.H-one // room: with the line that counts
	for i := len(v.Happenings) - 1; i >= 0; i-- {
		h := v.Happenings[i]
		if h.Tick < v.Snap.Tick-loop.ChartTicks {
			break
		}
		if h.Tick > v.Snap.Tick {
			continue
		}
		n := note{at: b.depth(r, h.Tick), text: phrase.Note(h, v.Config)}
		n.lines, _ = ink.CountLines(n.text, r.W, b.small, ink.Regular)
		v.lines = append(v.lines, n)
		if need += ink.BlockHeight(b.small, n.lines) + gap; need <= room {
			shown = len(v.lines)
		}
	}
	if need-gap <= r.H {
		shown = len(v.lines)
	} else if shown == 0 { // not even the newest: as much of it as there is room for
		v.lines[0].lines, shown = max(1, int((room-gap)/ink.LineHeight(b.small))), 1
	}
	need = -gap
	if shown < len(v.lines) {
		need = one
	}
	for _, n := range v.lines[:shown] {
		need += ink.BlockHeight(b.small, n.lines) + gap
	}
	y := r.Y
	for _, n := range v.lines[:shown] {
		h := ink.BlockHeight(b.small, n.lines)
		top := max(y, min(n.at-one/2, r.Bottom()-need))
		b.noteText(ink.Rect{X: r.X, Y: top, W: r.W, H: h}, n.at, n.lines, n.text)
		y, need = top+h+gap, need-h-gap
	}
	if left := len(v.lines) - shown; left > 0 && y+one <= r.Bottom()+0.5 {
		b.noteText(ink.Rect{X: r.X, Y: y, W: r.W, H: one}, v.lines[shown].at, 1, phrase.Earlier(left))
	}
}

func (b *board) noteText(r ink.Rect, at float64, lines int, text string) {
	mid := r.Y + ink.BlockHeight(b.small, 1)/2
	x := r.X - 3*b.u
	pts := [...]ink.Point{{X: x - 10*b.u, Y: at}, {X: x - 8*b.u, Y: at}, {X: x - 2*b.u, Y: mid}, {X: x, Y: mid}}
	b.Polyline("note lead", pts[:], ink.Paint{Line: ink.Rule})
	b.Block("note", r.X, r.Y, ink.Style{Size: b.small, Within: r}, ink.Block{Width: r.W, MaxLines: lines, Shorten: true}, text)
}
