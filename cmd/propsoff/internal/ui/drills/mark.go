package drills

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/vec"
)

// followed draws a mark that is followed: the line that is the mark, which stands, and the craft before it, by as much off as it is off the mark. So
// only how far off is seen and never the mark's own way, as the model asks for by which the hand is measured (package hand). Beneath, how much of it is
// still to come.
func (b *board) followed(r ink.Rect, m *mark.Config) {
	run := &Of(b.V).Run
	if !b.V.Class {
		hands := ink.Rect{}
		if b.Tall {
			r, hands = r.CutTop(r.H*0.64, b.Gap)
		} else {
			r, hands = r.CutLeft(r.W*0.64, b.Gap*1.6)
		}
		b.hands(hands, &shown{sticks: true})
	}
	b.Group("mark")
	line := ink.BlockHeight(b.Body, 1)
	foot, r := r.CutBottom(line+10*b.U, b.Gap)
	b.left(foot)
	off := 0.0
	if run.Followed.On {
		off = run.Followed.Off
	}
	c, half := r.Centre(), min(r.H/2, r.W/2)
	reach, size, from := min(r.W/2, half*1.6), half/1.2, half*0.95
	eye, att, lean := figure.EyeBehind(0), ui.TurnBy(vec.V{X: -off}), -off
	switch m.Axis {
	case mark.Pitch: // forward is nose down, and the nose is at the right
		eye, att, lean = figure.EyeBeside(0), ui.TurnBy(vec.V{Y: off}), -off
	case mark.Yaw:
		eye, att, lean = figure.EyeAbove, ui.TurnBy(vec.V{Z: -off}), -math.Pi/2-off
		reach, size, from = half, half/1.9, half*0.5
	}
	stand, hers := ink.Paint{Line: ink.Ink, Width: 2 * b.U, Dash: ink.Dash{On: 10 * b.U, Off: 6 * b.U}}, ink.Paint{Line: ink.Focus, Width: 3 * b.U}
	if m.Axis == mark.Yaw {
		b.Line("mark-line", c.X, c.Y-half, c.X, c.Y+half, stand)
	} else {
		b.Line("mark-line", c.X-reach, c.Y, c.X+reach, c.Y, stand)
	}
	b.Still("marked", eye, att, c, size)
	// A stroke goes on from the craft as far as the line does, so that it is seen by how little it is off.
	sin, cos := math.Sincos(lean)
	to := max(min(reach, half/max(math.Abs(sin), 0.01)), from)
	b.Line("mark-craft", c.X+cos*from, c.Y+sin*from, c.X+cos*to, c.Y+sin*to, hers)
	if m.Axis != mark.Yaw {
		b.Line("mark-craft", c.X-cos*from, c.Y-sin*from, c.X-cos*to, c.Y-sin*to, hers)
	}
}

// left draws how much of the mark is still to come: a line that is used up, and its time.
func (b *board) left(r ink.Rect) {
	f := &Of(b.V).Run.Followed
	if !f.On || f.Whole == 0 {
		return
	}
	text := b.Say(tell.HandLeft(f.Left))
	wide := ink.Width(b.Say(tell.HandLeft(f.Whole)), b.Body, ink.Regular) + b.Gap
	bar, say := r.CutLeft(max(r.W-wide, 0), b.Gap)
	y := bar.Centre().Y
	b.Line("mark-whole", bar.X, y, bar.Right(), y, ink.Paint{Line: ink.Rule, Width: 1.5 * b.U})
	b.Line("mark-left", bar.X, y, bar.X+bar.W*float64(f.Left)/float64(f.Whole), y, ink.Paint{Line: ink.Ink, Width: 5 * b.U})
	b.Text("mark-time", say.X, say.Centre().Y, ink.Style{Size: b.Body, Anchor: ink.Left | ink.Middle}, text)
}

// hand is what the newest try that followed a mark said of the hand, its zero value where none did.
func (r *Run) hand() *mark.Hand {
	tries := r.Tries
	if r.Over != nil {
		tries = r.Over.Tries
	}
	return lastHand(tries)
}

func lastHand(tries []drill.Try) *mark.Hand {
	for i := len(tries) - 1; i >= 0; i-- {
		if h := &tries[i].Hand; h.Measured {
			return h
		}
	}
	return &mark.Hand{}
}

// before is what the same axis in the same mode was measured as the time before, nil for none.
func before(runs []drill.Run, now *mark.Hand) *mark.Hand {
	for i := len(runs) - 1; i >= 0 && now.Measured; i-- {
		if h := lastHand(runs[i].Tries); h.Measured && h.Axis == now.Axis && h.Mode == now.Mode {
			return h
		}
	}
	return nil
}

// measured draws the delay on a scale of time, the one of the time before as an open ring, and says beneath it what else the run said of the hand.
func (b *board) measured(r ink.Rect, h *mark.Hand) {
	b.Group("measured")
	within, keeps := tell.HandWithin(h, Of(b.V).Run.Before), tell.HandKeepsUp(h)
	style := ink.Style{Size: b.Large, Anchor: ink.Centre}
	foot, r := r.CutBottom(b.SayHeight(within, r.W, style)+b.SayHeight(keeps, r.W, style)+b.Gap, b.Gap)
	b.ruler(r, h)
	d := b.Down(foot, b.Gap)
	d.Say("within", within, style)
	d.Say("keeps-up", keeps, style)
}

// ruler is a scale from 0 on, with a stroke every tenth of a second.
func (b *board) ruler(r ink.Rect, h *mark.Hand) {
	was := Of(b.V).Run.Before
	most := h.DelayMS + h.DelayWithin
	if was != nil {
		most = max(most, was.DelayMS)
	}
	tenths := max(int(most)/100+1, 6)
	number := ink.Style{Size: b.Body, Colour: ink.Faint, Anchor: ink.Centre | ink.Top}
	foot, r := r.CutBottom(ink.BlockHeight(b.Body, 1), 4*b.U)
	r = r.Inset(b.Gap * 2)
	x := func(ms int32) float64 { return r.X + r.W*float64(ms)/float64(tenths*100) }
	thin := ink.Paint{Line: ink.Rule, Width: 1.2 * b.U}
	b.Line("scale", r.X, r.Bottom(), r.Right(), r.Bottom(), ink.Paint{Line: ink.Ink, Width: 1.5 * b.U})
	for i := range tenths + 1 {
		at := x(int32(i) * 100)
		b.Line("scale-stroke", at, r.Y, at, r.Bottom(), thin)
		b.Text("scale-number", at, foot.Y, number, b.Say(tell.Plain(words.Whole(i*100))))
	}
	y, d := r.Centre().Y, min(r.H*0.2, 12*b.U)
	bar := ink.Rect{X: x(max(h.DelayMS-h.DelayWithin, 0)), Y: y - d, H: 2 * d}
	bar.W = max(x(h.DelayMS+h.DelayWithin)-bar.X, 2*b.U)
	b.Hatch("interval-shade", bar, ink.Ink)
	b.Rect("interval", bar, ink.Paint{Line: ink.Ink, Width: 1.5 * b.U})
	b.Line("delay", x(h.DelayMS), r.Y, x(h.DelayMS), r.Bottom(), ink.Paint{Line: ink.Focus, Width: 4 * b.U})
	if was != nil {
		b.Circle("before", x(was.DelayMS), y, d*0.8, ink.Paint{Line: ink.Ink, Width: 2 * b.U, Fill: ink.Paper})
	}
}
