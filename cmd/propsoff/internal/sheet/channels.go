package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/pulse"
)

// channels draws the value of every channel with a job, and of every other that carries a pulse; it gives what is left.
func (b *board) channels(r ink.Rect) ink.Rect {
	b.Group("channels")
	s := &b.v.Snap
	var shown [pulse.Channels]int
	n := 0
	for c := range pulse.Channels {
		// The keyboard's extra switch is worth a line only once it has been moved, also in a take of it.
		idle := b.v.Driver != Radio && s.In.Sent[c] == pulse.Low
		if phrase.Job(&b.v.Config.Layout, c) != "" || s.In.HasSent && s.In.Sent[c] != pulse.Missing && !idle {
			shown[n] = c
			n++
		}
	}
	made := b.v.Facts.Hearing == facts.ItsReceiver
	r = b.section(r, "channels heading", phrase.ChannelsTitle(s.Receiving, made))
	columns := max(1, int(r.W/(92*b.u)))
	rows := (n + columns - 1) / columns
	h := b.rowHeight() + b.u
	area, rest := r.CutTop(float64(rows)*h, b.gap)
	for i, c := range shown[:n] {
		// Down the columns, as a list is read.
		cell := area.Cell(i%rows*columns+i/rows, columns, rows, 0)
		b.channel(ink.Rect{X: cell.X, Y: cell.Y, W: cell.W - 8*b.u, H: h}, c, made)
	}
	return rest
}

func (b *board) channel(r ink.Rect, c int, made bool) {
	s := &b.v.Snap
	y := r.Centre().Y
	number := ink.Width("16", b.small, ink.Regular)
	b.Text("channel number", r.X+number, y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, strconv.Itoa(c+1))
	b.Text("channel job", r.X+number+5*b.u, y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Middle}, phrase.Job(&b.v.Config.Layout, c))
	w := s.In.Sent[c]
	if made {
		w = s.Received[c]
	}
	value := "–"
	if (s.In.HasSent || made) && w != pulse.Missing {
		value = phrase.Micros(w)
	}
	b.Text("channel value", r.Right(), y, ink.Style{Size: b.small, Weight: ink.Bold, Anchor: ink.Right | ink.Middle, Within: r}, value)
}
