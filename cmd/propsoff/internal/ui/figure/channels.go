package figure

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/pulse"
	"strconv"
)

// Channels draws the value of every channel with a job, and of every other that carries a pulse; it gives what is left.
func (b *Board) Channels(r ink.Rect) ink.Rect {
	b.Group("channels")
	s := &b.V.Snap
	var shown [pulse.Channels]int
	n := 0
	for c := range pulse.Channels {
		// The keyboard's extra switch is worth a line only once it has been moved, also in a take of it.
		idle := b.V.Driver != ui.Radio && s.In.Sent[c] == pulse.Low
		if b.Say(tell.Job(&b.V.Config.Layout, c)) != "" || s.In.HasSent && s.In.Sent[c] != pulse.Missing && !idle {
			shown[n] = c
			n++
		}
	}
	made := b.V.Facts.Hearing == facts.ItsReceiver
	r = b.Section(r, "channels-heading", b.Say(tell.ChannelsTitle(s.Receiving, made)))
	columns := max(1, int(r.W/(92*b.U)))
	rows := (n + columns - 1) / columns
	h := b.RowHeight() + b.U
	area, rest := r.CutTop(float64(rows)*h, b.Gap)
	for i, c := range shown[:n] {
		// Down the columns, as a list is read.
		cell := area.Cell(i%rows*columns+i/rows, columns, rows, 0)
		b.channel(ink.Rect{X: cell.X, Y: cell.Y, W: cell.W - 8*b.U, H: h}, c, made)
	}
	return rest
}

func (b *Board) channel(r ink.Rect, c int, made bool) {
	s := &b.V.Snap
	y := r.Centre().Y
	number := ink.Width("16", b.Small, ink.Regular)
	b.Text("channel-number", r.X+number, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, strconv.Itoa(c+1))
	b.Text("channel-job", r.X+number+5*b.U, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Middle}, b.Say(tell.Job(&b.V.Config.Layout, c)))
	w := s.In.Sent[c]
	if made {
		w = s.Received[c]
	}
	value := "–"
	if (s.In.HasSent || made) && w != pulse.Missing {
		value = b.Say(tell.Plain(tell.Micros(w)))
	}
	b.Text("channel-value", r.Right(), y, ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: ink.Right | ink.Middle, Within: r}, value)
}
