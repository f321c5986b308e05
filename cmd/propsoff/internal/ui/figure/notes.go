package figure

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// notes writes what happened in the last ten seconds beside its moment, whole: a note cut short says nothing. The newest stand at the top;
// a note that finds its place taken is pushed down, and one that would run off the paper stands higher. Those for which there is no room
// are counted in one line.
func (b *Board) notes(r ink.Rect) {
	v := b.V
	v.Lines = v.Lines[:0]
	one, gap := ink.BlockHeight(b.Small, 1), 3*b.U
	need, shown, room := 0.0, 0, r.H-one // room: with the line that counts
	for i := len(v.Happenings) - 1; i >= 0; i-- {
		h := v.Happenings[i]
		if h.Tick < v.Snap.Tick-live.ChartTicks {
			break
		}
		if h.Tick > v.Snap.Tick {
			continue
		}
		n := ui.Note{At: b.depth(r, h.Tick), Text: b.Say(tell.Note(h, v.Config))}
		n.Lines, _ = ink.CountLines(n.Text, r.W, b.Small, ink.Regular)
		v.Lines = append(v.Lines, n)
		if need += ink.BlockHeight(b.Small, n.Lines) + gap; need <= room {
			shown = len(v.Lines)
		}
	}
	if need-gap <= r.H {
		shown = len(v.Lines)
	} else if shown == 0 { // not even the newest: as much of it as there is room for
		v.Lines[0].Lines, shown = max(1, int((room-gap)/ink.LineHeight(b.Small))), 1
	}
	need = -gap
	if shown < len(v.Lines) {
		need = one
	}
	for _, n := range v.Lines[:shown] {
		need += ink.BlockHeight(b.Small, n.Lines) + gap
	}
	y := r.Y
	for _, n := range v.Lines[:shown] {
		h := ink.BlockHeight(b.Small, n.Lines)
		top := max(y, min(n.At-one/2, r.Bottom()-need))
		b.noteText(ink.Rect{X: r.X, Y: top, W: r.W, H: h}, n.At, n.Lines, n.Text)
		y, need = top+h+gap, need-h-gap
	}
	if left := len(v.Lines) - shown; left > 0 && y+one <= r.Bottom()+0.5 {
		b.noteText(ink.Rect{X: r.X, Y: y, W: r.W, H: one}, v.Lines[shown].At, 1, b.Say(tell.AndMore(left)))
	}
}

func (b *Board) noteText(r ink.Rect, at float64, lines int, text string) {
	mid := r.Y + ink.BlockHeight(b.Small, 1)/2
	x := r.X - 3*b.U
	pts := [...]ink.Point{{X: x - 10*b.U, Y: at}, {X: x - 8*b.U, Y: at}, {X: x - 2*b.U, Y: mid}, {X: x, Y: mid}}
	b.Polyline("note-lead", pts[:], ink.Paint{Line: ink.Rule})
	b.Block("note", r.X, r.Y, ink.Style{Size: b.Small, Within: r}, ink.Block{Width: r.W, MaxLines: lines, Shorten: true}, text)
}
