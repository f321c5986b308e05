package figure

import (
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
)

// savedMark is the last moment at which a craft that broke could have been saved, where the paper reaches it.
func (b *Board) savedMark() (tick int64, ok bool) {
	tick, ok = b.V.Flight.Wreck.Mark()
	return tick, ok && tick <= b.V.Snap.Tick && tick >= b.V.Snap.Tick-live.ChartTicks
}

// savedLine draws it across the lanes.
func (b *Board) savedLine(paper ink.Rect, from, to float64) {
	if tick, ok := b.savedMark(); ok {
		y := b.depth(paper, tick)
		b.Line("saved-line", from, y, to, y, ink.Paint{Line: ink.Ink, Width: 1.6 * b.U, Dash: ink.Dash{On: 5 * b.U, Off: 3 * b.U}})
	}
}
