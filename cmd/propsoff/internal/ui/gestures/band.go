package gestures

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/gestures"
	"propsoff.example/sim/pulse"
)

// band says what is missing now, how the last try went, and what else the sticks do where they stand.
func (b *board) band(r ink.Rect, p *gestures.Pattern, g *gestures.Glance) {
	b.Group("now")
	b.Line("now-rule", r.X, r.Y, r.Right(), r.Y, ink.Paint{Line: ink.Grid})
	_, r = r.CutTop(4*b.U, 0)
	now := b.Say(missing(b.V, p, g))
	if b.V.Class {
		d := b.Down(r, b.Gap)
		d.Lines(5, "missing", now, ink.Style{Size: b.Body, Weight: ink.Bold})
		if high := 3.2 * b.Body; d.R.H >= high {
			ring, try := d.Row(high).CutLeft(high, b.Gap)
			b.dwell(ring, g, p)
			b.try(try, p)
			b.CornerNote(d.R, b.Body)
		}
		return
	}
	ring, r := r.CutLeft(2*ink.LineHeight(b.Large), b.Gap)
	b.dwell(ink.Rect{X: ring.X, Y: ring.Y + 2*b.U, W: ring.W, H: ring.W}, g, p)
	// A warning of a corner stands at the foot, so that nothing moves when it comes.
	foot, r := r.CutBottom(b.CornerHeight(r.W, b.Head), 2*b.U)
	b.CornerNote(foot, b.Head)
	row, r := r.CutBottom(ink.BlockHeight(b.Head, 1), 2*b.U)
	b.try(row, p)
	size, _ := ink.FitBlock(r.W, r.H, b.Small, b.Large, ink.Bold, now)
	b.Lines(r, "missing", now, size, 9)
}

// missing is the sentence that matters now.
func missing(v *ui.View, p *gestures.Pattern, g *gestures.Glance) words.Text {
	if s := blocked(v); !s.Empty() {
		return s
	}
	set := v.Config.Gestures
	if p == nil || set == nil {
		return words.Text{}
	}
	stand := tell.GestureStand(p.StickZones(int(g.Part), mode(v)))
	left := int64(-1)
	if g.Left >= 0 {
		left = millis(set, g.Left)
	}
	switch {
	case g.Release && g.Phase == gestures.HeldOver:
		return words.T("gesture.release-next")
	case g.Release:
		return words.T("gesture.release", words.Args{"made": words.Flag(Of(v).Try.Held)})
	case g.Phase == gestures.Standing:
		return words.T("gesture.held", words.Args{"held": tell.ShortSeconds(millis(set, g.Slots)), "of": tell.ShortSeconds(millis(set, g.Dwell))})
	case g.Part > 0:
		return tell.GestureNext(stand, left)
	}
	at := onSticks(p, g.At, mode(v))
	worst, most := -1, pulse.Width(-1)
	for i := range at {
		if off := max(at[i].Off, -at[i].Off); !at[i].In && off > most {
			worst, most = i, off
		}
	}
	way := words.Text{}
	if worst >= 0 {
		way, _ = further(v, at[worst], worst)
	}
	if way.Empty() || Of(v).Try.Running < 0 && g.Missing > 1 || g.Missing > 2 {
		return words.T("gesture.begin", words.Args{"time": tell.Seconds(millis(set, g.Dwell)), "stand": stand})
	}
	return words.T("gesture.missing", words.Args{"stick": tell.StickName(worst / 2), "move": way})
}

// dwell is a ring that fills as a part is held; in it stands for how long. A part that is made fills it, with a tick.
func (b *board) dwell(r ink.Rect, g *gestures.Glance, p *gestures.Pattern) {
	c, d := r.Centre(), min(r.W, r.H)/2
	w := math.Max(2, d*0.16)
	b.Circle("dwell-way", c.X, c.Y, d, ink.Paint{Line: ink.Rule})
	set := b.V.Config.Gestures
	if p == nil || set == nil {
		return
	}
	if g.Phase == gestures.Spent && Of(b.V).Try.Held {
		b.Circle("dwell-full", c.X, c.Y, d, ink.Paint{Line: ink.Focus, Width: w})
		b.Tick("dwell-made", c.X, c.Y, d*0.42, ink.Paint{Line: ink.Ink, Width: w})
		return
	}
	ms := millis(set, g.Dwell)
	if g.Phase == gestures.Standing {
		ms = millis(set, g.Slots)
		b.filling("dwell-gone", c, d-w/2, share(g), w)
	}
	words := b.Say(tell.ShortSeconds(ms))
	if size, fits := ink.Fit(2*(d-w)-4*b.U, b.Small, b.Large, ink.Bold, words); fits {
		b.Text("dwell-time", c.X, c.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle}, words)
	}
}

// share is how much of the time that a part is to be held has gone, 0 … 1; 0 while it is not held.
func share(g *gestures.Glance) float64 {
	if g.Phase != gestures.Standing {
		return 0
	}
	return min(float64(g.Share)/1000, 1)
}

// filling is a share of a ring, from its top on clockwise.
func (b *board) filling(name string, c ink.Point, d, share, width float64) {
	if share > 0 {
		b.Arc(name, c.X, c.Y, d, -math.Pi/2, -math.Pi/2+2*math.Pi*share, ink.Paint{Line: ink.Focus, Width: width})
	}
}

// try is the verdict on the last try, with a mark, and how long the one under way has taken.
func (b *board) try(r ink.Rect, p *gestures.Pattern) {
	t := &Of(b.V).Try
	verdict := words.T("gesture.no-try")
	if t.Done && p != nil {
		d := ink.CapHeight(b.Head, ink.Bold) * 0.6
		w := math.Max(1.5, d*0.3)
		mark, rest := r.CutLeft(2*d+2*b.U, 5*b.U)
		r = rest
		switch c := mark.Centre(); {
		case t.Made:
			b.Tick("try-made", c.X, c.Y, d, ink.Paint{Line: ink.Link, Width: w})
			verdict = words.T("gesture.made-in", words.Args{"time": tell.ShortSeconds(t.Took)})
		default:
			b.Cross("try-missed", c.X, c.Y, d*0.7, ink.Paint{Line: ink.Ink, Width: w})
			if verdict = words.T("gesture.other-made", words.Args{"name": t.Other}); t.Other.Empty() {
				verdict = tell.GestureMissed(p, t.How, t.Direction, mode(b.V), t.Early)
			}
		}
	}
	if b.V.Class {
		s := ink.Style{Size: b.Body, Weight: ink.Bold}
		r.Y += max(0, (r.H-b.SayHeight(verdict, r.W, s))/2)
		b.Lines(r, "verdict", b.Say(verdict), b.Body, 2)
		return
	}
	running := ""
	if blocked(b.V).Empty() {
		running = b.Say(tell.GestureTime(t.Running))
	}
	if w := ink.Width(running, b.Head, ink.Regular) + 2*b.U; w < r.W*0.5 {
		r = b.AtRight(r, "try-time", running, ink.Style{Size: b.Head, Colour: ink.Faint}, 2*b.U, 8*b.U)
	}
	b.Fitted("verdict", r, ink.Style{Size: b.Head, Weight: ink.Bold}, b.Say(verdict))
}

// steps draws the steps of a chain side by side, each with both sticks small; the one asked for is framed, those made are ticked.
func (b *board) steps(r ink.Rect, p *gestures.Pattern, g *gestures.Glance) {
	b.Group("steps")
	set := b.V.Config.Gestures
	if set == nil {
		d := gestures.Default(b.V.Config.SlotTicks)
		set = &d
	}
	now := int(g.Part)
	if Of(b.V).Recording.on() {
		now = -1
	}
	for i := range int(p.Count) {
		cell := r.Cell(i, max(int(p.Count), 2), 1, 6*b.U)
		frame := ink.Paint{Line: ink.Rule}
		if i == now {
			frame = ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 2 * b.U}
		}
		b.RoundRect("step-frame", cell, 4*b.U, frame)
		in := cell.Inset(5 * b.U)
		small, in := in.CutLeft(min(in.H*2+3*b.U, in.W*0.4), 6*b.U)
		b.smallSticks("step", small, p.StickZones(i, mode(b.V)))
		if i < now {
			d := b.Small * 0.45
			var mark ink.Rect
			mark, in = in.CutRight(2*d, 6*b.U)
			b.Tick("step-made", mark.Centre().X, mark.Centre().Y, d, ink.Paint{Line: ink.Link, Width: math.Max(1.5, d*0.35)})
		}
		text := b.Say(tell.GestureStep(set, p, i))
		if b.V.Class {
			text = b.Say(words.T("gesture.step", words.Args{"n": words.Whole(i + 1)}))
		}
		size, _ := ink.FitBlock(in.W, in.H, b.Small, b.Head, ink.Regular, text)
		style := ink.Style{Size: size, Within: cell}
		most := max(1, int((in.H+2*b.U)/ink.LineHeight(size)))
		tall := min(ui.TextHeight(text, in.W, style), ink.BlockHeight(size, most))
		b.Block("step-words", in.X, in.Centre().Y-tall/2, style, ink.Block{Width: in.W, MaxLines: most, Shorten: true}, text)
	}
}
