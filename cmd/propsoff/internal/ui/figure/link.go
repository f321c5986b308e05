package figure

import (
	"math"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/pulse"
)

// Link draws the way from the radio to the craft and how the craft judges it; it gives what is left.
func (b *Board) Link(r ink.Rect) ink.Rect {
	b.Group("link")
	d := b.Down(b.Section(r, "link-heading", b.Say(words.T("link.title"))), b.U)
	b.linkDrawing(d.Row(34 * b.U))
	d.Gap = b.Gap
	d.Say("receiver", tell.ReceiversWay(&b.V.Facts), ink.Style{Size: b.Small, Colour: ink.Faint})
	return d.R
}

// linkDrawing is a radio, a line, and a craft. The line is whole for a good link, broken into dashes for a fresh one,
// and cut in two with a bar across each end for a lost one; over it stands the word.
func (b *Board) linkDrawing(r ink.Rect) {
	s := &b.V.Snap
	y := r.Bottom() - 11*b.U
	on := s.In.Transmitting() && b.V.Facts.Silent != facts.Unexplained
	x1, x2 := r.X+36*b.U, r.Right()-36*b.U
	mid := (x1 + x2) / 2
	word := b.Say(tell.LinkLine(&b.V.Facts))
	size, _ := ink.Fit(r.W-60*b.U, b.Small, b.Body, ink.Bold, word)
	b.Text("link-word", mid, r.Y+8*b.U, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: r}, word)
	if ink.Width(word, size, ink.Bold) < r.W-60*b.U { // a long word tells it alone
		b.RadioSign(r.X+15*b.U, y, on)
		b.craftSign(r.Right()-15*b.U, y, s.In.Powered)
	}
	role := ink.Ink
	if s.Link != facts.Good {
		role = ink.Link
	}
	p := ink.Paint{Line: role, Width: 2 * b.U}
	cut := func(from, at float64) { // a stub of the way, with a bar across its end
		b.Line("link-stub", from, y, at, y, p)
		b.Line("link-cut", at, y-5*b.U, at, y+5*b.U, p)
	}
	switch {
	case b.V.Facts.Hearing == facts.ItsReceiver:
		// The radio is silent and the receiver goes on by itself: the way is cut, and what comes to the craft begins at a ring.
		cut(x1, x1+(x2-x1)*0.25)
		ring := x1 + (x2-x1)*0.55
		b.Circle("receiver-alone", ring, y, 5*b.U, ink.Paint{Line: ink.Link, Width: 2 * b.U})
		b.Line("link", ring+5*b.U, y, x2, y, p)
		b.arrowTip(x2, y, role)
	case s.Link.Up() && s.In.Powered && s.SilentMillis < 100:
		if s.Link == facts.Fresh {
			p.Dash = ink.Dash{On: 7 * b.U, Off: 5 * b.U}
		}
		b.Line("link", x1, y, x2, y, p)
		b.arrowTip(x2, y, role)
	default:
		half := (x2 - x1) / 2 * 0.8
		if !on {
			half = (x2 - x1) / 2 * 0.35
		}
		cut(x1, x1+half)
		cut(x2, x2-8*b.U)
	}
}

func (b *Board) arrowTip(x, y float64, role ink.Role) {
	b.Polyline("link-arrow", []ink.Point{{X: x - 7*b.U, Y: y - 4*b.U}, {X: x, Y: y}, {X: x - 7*b.U, Y: y + 4*b.U}}, ink.Paint{Line: role, Width: 2 * b.U})
}

// RadioSign is a small radio; while it sends, arcs leave its aerial.
func (b *Board) RadioSign(x, y float64, sends bool) {
	w, h := 26*b.U, 15*b.U
	p := ink.Paint{Line: ink.Ink, Width: 1.4 * b.U}
	b.RoundRect("radio", ink.Rect{X: x - w/2, Y: y - h/2 + 2*b.U, W: w, H: h}, 4*b.U, p)
	b.Line("aerial", x, y-h/2+2*b.U, x, y-h/2-6*b.U, p)
	for _, side := range [2]float64{-6, 6} {
		b.Circle("radio-stick", x+side*b.U, y+2*b.U, 2.5*b.U, ink.Paint{Line: ink.Ink, Width: 1.2 * b.U})
	}
	if sends {
		for i := range 2 {
			b.Arc("radio-sends", x, y-h/2-6*b.U, (4+4*float64(i))*b.U, -0.3*math.Pi, 0.12*math.Pi, p)
		}
	}
}

// craftSign is a small craft from above; without power it is drawn in dashes.
func (b *Board) craftSign(x, y float64, powered bool) {
	p := ink.Paint{Line: ink.Ink, Width: 1.4 * b.U}
	if !powered {
		p.Line, p.Dash = ink.Rule, ink.Dash{On: 2 * b.U, Off: 2 * b.U}
	}
	d := 7 * b.U
	b.Cross("arm-of-craft", x, y, d, p)
	for _, q := range [4]ink.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}} {
		b.Circle("motor-of-craft", x+q.X*d, y+q.Y*d, 3.5*b.U, p)
	}
}

// Channels draws the value of every channel with a job, and of every other that carries a pulse; it gives what is left.
func (b *Board) Channels(r ink.Rect) ink.Rect {
	b.Group("channels")
	s := &b.V.Snap
	var shown []int
	for c := range pulse.Channels {
		// The keyboard's extra switch is worth a line only once it has been moved, also in a take of it.
		idle := b.V.Driver != ui.Radio && s.In.Sent[c] == pulse.Low
		if b.Say(tell.Job(&b.V.Config.Layout, c)) != "" || s.In.HasSent && s.In.Sent[c] != pulse.Missing && !idle {
			shown = append(shown, c)
		}
	}
	made := b.V.Facts.Hearing == facts.ItsReceiver
	r = b.SectionOf(r, "channels-heading", words.T("sheet.channels", words.Args{"heard": words.Flag(s.Receiving), "made": words.Flag(made)}), words.T("sheet.channels", words.Args{"heard": words.Flag(true), "made": words.Flag(false)}))
	columns := max(1, int(r.W/(8.2*b.Small)))
	rows := (len(shown) + columns - 1) / columns
	h := b.RowHeight() + b.U
	area, rest := r.CutTop(float64(rows)*h, b.Gap)
	for i, c := range shown {
		// Down the columns, as a list is read.
		cell := area.Cell(i%rows*columns+i/rows, columns, rows, 0)
		b.channel(ink.Rect{X: cell.X, Y: cell.Y, W: cell.W - 8*b.U, H: h}, c, made)
	}
	return rest
}

func (b *Board) channel(r ink.Rect, c int, made bool) {
	s := &b.V.Snap
	y := r.Centre().Y
	style := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Middle}
	x := r.X + ink.Width("16", b.Small, ink.Regular)
	job := style
	style.Anchor |= ink.Right
	b.Text("channel-number", x, y, style, strconv.Itoa(c+1))
	b.Text("channel-job", x+5*b.U, y, job, b.Say(tell.Job(&b.V.Config.Layout, c)))
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
