package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/gestures"
	"propsoff/sim/pulse"
)

// bandHeight is what stands below the sticks: two lines of the sentence that matters now, the last try, and a warning.
func (b *board) bandHeight(r ink.Rect) float64 {
	return min(ink.BlockHeight(b.large, 2)+2*ink.LineHeight(b.head)+16*b.u, r.H*0.5)
}

// gestureBand says what is missing now, how the last try went, and what else the sticks do where they stand.
func (b *board) gestureBand(r ink.Rect, p *gestures.Pattern, g *gestures.Glance) {
	b.Group("now")
	v := b.v
	b.Line("now rule", r.X, r.Y, r.Right(), r.Y, ink.Paint{Line: ink.Grid})
	_, r = r.CutTop(4*b.u, 0)
	now := v.gestureNow(p, g)
	if v.Class {
		h := b.lines(r, "missing", now, b.body, ink.Bold, 5)
		_, r = r.CutTop(h, b.gap)
		d := 1.6 * b.body
		ring, words := ink.Rect{X: r.X, Y: r.Y, W: 2 * d, H: 2 * d}, r
		words.X, words.W = ring.Right()+b.gap, r.W-ring.W-b.gap
		if r.H < 2*d {
			return
		}
		b.dwellRing(ring, g, p)
		b.lastTry(ink.Rect{X: words.X, Y: ring.Y, W: words.W, H: ring.H}, p)
		_, r = r.CutTop(ring.H, b.gap)
		b.cornerNote(r, b.body)
		return
	}
	d := ink.LineHeight(b.large)
	ring := ink.Rect{X: r.X, Y: r.Y + 2*b.u, W: 2 * d, H: 2 * d}
	b.dwellRing(ring, g, p)
	_, r = r.CutLeft(ring.W, b.gap)
	// A warning of a corner stands at the foot, so that nothing moves when it comes.
	foot, r := r.CutBottom(ink.BlockHeight(b.head, 1), 2*b.u)
	b.cornerNote(foot, b.head)
	row, r := r.CutBottom(ink.BlockHeight(b.head, 1), 2*b.u)
	b.lastTry(row, p)
	size, _ := ink.FitBlock(r.W, r.H, b.small, b.large, ink.Bold, now)
	b.lines(r, "missing", now, size, ink.Bold, 9)
}

// lines writes a text in as many lines as there is room for, at most so many; it gives the height.
func (b *board) lines(r ink.Rect, name, text string, size float64, w ink.Weight, most int) float64 {
	n, _ := ink.CountLines(text, r.W, size, w)
	n = max(1, min(n, most, int((r.H+0.3*size)/ink.LineHeight(size))))
	h, _ := b.Block(name, r.X, r.Y, ink.Style{Size: size, Weight: w, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, text)
	return h
}

// cornerNote warns of the corner in which the sticks stand; it gives its height, 0 for none.
func (b *board) cornerNote(r ink.Rect, size float64) float64 {
	words, ok := b.v.cornerWords()
	if !ok || r.H < ink.BlockHeight(size, 1)-1 {
		return 0
	}
	b.warning(r.X, r.Y+ink.BlockHeight(size, 1)/2)
	return b.lines(ink.Rect{X: r.X + 18*b.u, Y: r.Y, W: r.W - 18*b.u, H: r.H}, "corner", words, size, ink.Bold, 3)
}

// cornerWords says what else the corner does in which the sticks stand.
func (v *View) cornerWords() (string, bool) {
	arms, there := v.corner()
	if !there {
		return "", false
	}
	words := phrase.CornerNow(&v.Facts, arms)
	return words, words != ""
}

// gestureNow is the sentence that matters now.
func (v *View) gestureNow(p *gestures.Pattern, g *gestures.Glance) string {
	menu := ""
	if v.Gestures.Goggles.Open {
		menu = v.Gestures.Goggles.Name
	}
	if s := phrase.GesturesBlocked(&v.Facts, menu, v.KeyFor(TurnMenu, OnGestures)); s != "" {
		return s
	}
	set := v.Config.Gestures
	if p == nil || set == nil {
		return ""
	}
	mode := stickMode(v.StickMode)
	stand := phrase.GestureStand(p.StickZones(int(g.Part), uint8(mode)))
	left := int64(-1)
	if g.Left >= 0 {
		left = int64(g.Left) * int64(max(set.SlotTicks, 1))
	}
	at := onSticks(p, g.At, mode)
	switch {
	case g.Release && g.Phase == gestures.HeldOver:
		return phrase.GestureReleaseNext()
	case g.Release:
		return phrase.GestureRelease(v.Gestures.Try.Held)
	case g.Phase == gestures.Standing:
		return phrase.GestureHold(millis(set, g.Slots), millis(set, g.Dwell))
	case g.Part > 0:
		return phrase.GestureNext(stand, left)
	case v.Gestures.Try.Running < 0 && g.Missing > 1 || g.Missing > 2:
		return phrase.GestureBegin(stand, millis(set, g.Dwell))
	}
	worst, most := 0, pulse.Width(-1)
	for i := range at {
		if off := max(at[i].Off, -at[i].Off); !at[i].In && off > most {
			worst, most = i, off
		}
	}
	if most < 0 {
		return phrase.GestureBegin(stand, millis(set, g.Dwell))
	}
	return phrase.GestureMissing(worst, at[worst])
}

// dwellRing fills as a part is held; in it stands for how long. A part that is made fills it, with a tick.
func (b *board) dwellRing(r ink.Rect, g *gestures.Glance, p *gestures.Pattern) {
	c, d := r.Centre(), min(r.W, r.H)/2
	w := math.Max(2, d*0.16)
	b.Circle("dwell way", c.X, c.Y, d, ink.Paint{Line: ink.Rule})
	if p == nil || b.v.Config.Gestures == nil {
		return
	}
	set := b.v.Config.Gestures
	if g.Phase == gestures.Spent && b.v.Gestures.Try.Held {
		b.Circle("dwell full", c.X, c.Y, d, ink.Paint{Line: ink.Focus, Width: w})
		s := d * 0.42
		pts := [...]ink.Point{{X: c.X - s*0.9, Y: c.Y}, {X: c.X - s*0.2, Y: c.Y + s*0.75}, {X: c.X + s, Y: c.Y - s*0.85}}
		b.Polyline("dwell made", pts[:], ink.Paint{Line: ink.Ink, Width: w})
		return
	}
	if g.Phase == gestures.Standing && g.Share > 0 {
		b.Arc("dwell gone", c.X, c.Y, d-w/2, -math.Pi/2, -math.Pi/2+2*math.Pi*min(float64(g.Share)/1000, 1), ink.Paint{Line: ink.Focus, Width: w})
	}
	ms := millis(set, g.Dwell)
	if g.Phase == gestures.Standing {
		ms = millis(set, g.Slots)
	}
	words := phrase.ShortSeconds(ms)
	size, fits := ink.Fit(2*(d-w)-4*b.u, b.small, b.large, ink.Bold, words)
	if fits {
		b.Text("dwell time", c.X, c.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle}, words)
	}
}

// lastTry is the verdict on the last try, with a mark, and how long the one under way has taken.
func (b *board) lastTry(r ink.Rect, p *gestures.Pattern) {
	t := &b.v.Gestures.Try
	x := r.X
	verdict := phrase.NoTryYet()
	if t.Done && p != nil {
		d := ink.CapHeight(b.head, ink.Bold) * 0.6
		w := math.Max(1.5, d*0.3)
		cx, cy := x+d+b.u, r.Centre().Y
		if t.Made {
			pts := [...]ink.Point{{X: cx - d*0.9, Y: cy}, {X: cx - d*0.2, Y: cy + d*0.75}, {X: cx + d, Y: cy - d*0.85}}
			b.Polyline("try made", pts[:], ink.Paint{Line: ink.Link, Width: w})
			verdict = phrase.GestureMade(t.Took)
		} else {
			b.Line("try missed", cx-d*0.7, cy-d*0.7, cx+d*0.7, cy+d*0.7, ink.Paint{Line: ink.Ink, Width: w})
			b.Line("try missed", cx-d*0.7, cy+d*0.7, cx+d*0.7, cy-d*0.7, ink.Paint{Line: ink.Ink, Width: w})
			verdict = phrase.GestureMissed(p, t.How, t.Direction, uint8(stickMode(b.v.StickMode)), t.Early)
			if t.Other != "" {
				verdict = phrase.GestureOther(t.Other)
			}
		}
		x += 2*d + 7*b.u
	}
	row := ink.Rect{X: x, Y: r.Y, W: r.Right() - x, H: r.H}
	if running := phrase.GestureTime(t.Running); !b.v.Class {
		w := ink.Width(running, b.head, ink.Regular) + 2*b.u
		if w < row.W*0.5 {
			b.Text("try time", row.Right(), row.Centre().Y, ink.Style{Size: b.head, Colour: ink.Faint, Anchor: ink.Right | ink.Middle, Within: row}, running)
			row.W -= w + 8*b.u
		}
	}
	if b.v.Class {
		n, _ := ink.CountLines(verdict, row.W, b.body, ink.Bold)
		row.Y += max(0, (row.H-ink.BlockHeight(b.body, min(n, 2)))/2)
		b.lines(row, "verdict", verdict, b.body, ink.Bold, 2)
		return
	}
	b.fitted("verdict", row, ink.Style{Size: b.head, Weight: ink.Bold}, verdict)
}

// gestureSteps draws the steps of a chain side by side, each with both sticks small; the one asked for is framed, those made are ticked.
func (b *board) gestureSteps(r ink.Rect, set *gestures.Config, p *gestures.Pattern, g *gestures.Glance) {
	b.Group("steps")
	if set == nil {
		d := gestures.Default(b.v.Config.SlotTicks)
		set = &d
	}
	mode := uint8(stickMode(b.v.StickMode))
	recorded := b.v.Gestures.Record.on()
	n := int(p.Count)
	for i := range n {
		cell := r.Cell(i, max(n, 2), 1, 6*b.u)
		at := int(g.Part)
		if !recorded && i == at {
			b.RoundRect("step now", cell, 4*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 2 * b.u})
		} else {
			b.RoundRect("step", cell, 4*b.u, ink.Paint{Line: ink.Rule})
		}
		in := cell.Inset(5 * b.u)
		small := ink.Rect{X: in.X, Y: in.Y, W: min(in.H*2+3*b.u, in.W*0.4), H: in.H}
		b.smallSticks("step", small, p.StickZones(i, mode))
		in.X, in.W = small.Right()+6*b.u, in.Right()-small.Right()-6*b.u
		if !recorded && i < at {
			d := b.small * 0.45
			in.W -= 2*d + 6*b.u
			x, y := in.Right()+d+4*b.u, in.Centre().Y
			pts := [...]ink.Point{{X: x - d*0.9, Y: y}, {X: x - d*0.2, Y: y + d*0.75}, {X: x + d, Y: y - d*0.85}}
			b.Polyline("step made", pts[:], ink.Paint{Line: ink.Link, Width: math.Max(1.5, d*0.35)})
		}
		words := phrase.GestureStep(set, p, i)
		if b.v.Class {
			words = phrase.GestureStepShort(i)
		}
		size, _ := ink.FitBlock(in.W, in.H, b.small, b.head, ink.Regular, words)
		lines, _ := ink.CountLines(words, in.W, size, ink.Regular)
		lines = max(1, min(lines, int((in.H+2*b.u)/ink.LineHeight(size))))
		b.Block("step words", in.X, in.Centre().Y-ink.BlockHeight(size, lines)/2, ink.Style{Size: size, Within: cell}, ink.Block{Width: in.W, MaxLines: lines, Shorten: true}, words)
	}
}
