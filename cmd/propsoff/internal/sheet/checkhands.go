package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	ck "propsoff/input/check"
	"propsoff/input/radio"
	"propsoff/sim/pulse"
)

// checkHands draws the sticks at their true side with the way that each has gone, and below them every other control.
func (b *board) checkHands(r ink.Rect) {
	b.Group("hands")
	v := &b.v.Check.Check
	mode := stickMode(b.v.StickMode)
	r = b.section(r, "hands heading", phrase.CheckHands(mode))
	others := b.v.Check.others()
	n := len(others)
	rows := (n + 6) / 7
	columns := 0
	if rows > 0 {
		columns = (n + rows - 1) / rows
	}
	sticks := r
	if n > 0 {
		slot := 46 * b.u
		if b.tall {
			slot = 80 * b.u
		}
		least := float64(rows)*(2*ink.LineHeight(b.small)+slot) + float64(rows-1)*4*b.u
		h := math.Min(r.W/2, r.H-least-b.gap-2*(b.body+6*b.u)) + 2*(b.body+6*b.u)
		sticks, r = r.CutTop(math.Max(h, 90*b.u), b.gap)
	}
	for i, g := range gimbals[mode] {
		b.checkStick(sticks.Cell(i, 2, 1, b.gap), g, [2]string{"left", "right"}[i])
	}
	if n == 0 {
		return
	}
	b.Group("levers")
	height := math.Min(r.H, float64(rows)*130*b.u)
	area, _ := r.CutTop(height, 0)
	for k, i := range others {
		b.checkLever(area.Cell(k, columns, rows, 4*b.u), &v.Controls[i], i == v.Control)
	}
}

// others are the controls that are no sticks: those at the left, those on top or anywhere, those at the right.
func (v *CheckView) others() (out []int) {
	for _, side := range [4]radio.Side{radio.Left, radio.Top, radio.NoSide, radio.Right} {
		for i := range v.Check.Controls {
			if c := &v.Check.Controls[i]; c.Form != ck.Stick && c.Side == side {
				out = append(out, i)
			}
		}
	}
	return out
}

// stickOf finds the control of a job.
func (v *CheckView) stickOf(j job) *ck.Control {
	for i := range v.Check.Controls {
		if v.Check.Controls[i].Job == jobFacts[j].word {
			return &v.Check.Controls[i]
		}
	}
	return nil
}

// checkStick draws one stick: the well, how far it was taken, and the corner that the direction check asks for.
func (b *board) checkStick(r ink.Rect, g gimbal, name string) {
	line := b.body + 4*b.u
	size := math.Max(math.Min(r.W, r.H-2*line-4*b.u), 20*b.u)
	top := r.Y + (r.H-2*line-4*b.u-size)/2
	well := ink.Rect{X: r.Centre().X - size/2, Y: top + line + 2*b.u, W: size, H: size}
	b.reading(name+" up", well.Centre().X, top+line/2, 0, 0, g.up)
	b.reading(name+" across", well.Centre().X, well.Bottom()+2*b.u+line/2, 0, 0, g.across)
	in := well.Inset(10 * b.u)
	across, up := b.v.Check.stickOf(g.across), b.v.Check.stickOf(g.up)
	if across != nil && up != nil && across.Known && up.Known {
		a, z := place(in, across.Low, true, up.Low, true), place(in, across.High, true, up.High, true)
		if z.X-a.X > 3*b.u || a.Y-z.Y > 3*b.u {
			seen := ink.Rect{X: a.X, Y: z.Y, W: math.Max(z.X-a.X, b.u), H: math.Max(a.Y-z.Y, b.u)}
			b.Rect(name+" seen", seen.Inset(-1.5*b.u), ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.3 * b.u, Dash: ink.Dash{On: 3 * b.u, Off: 2 * b.u}})
		}
	}
	b.well(name, well, g)
	if b.v.Check.Check.Ask == ck.AskCorners {
		d := 22 * b.u
		p := ink.Paint{Line: ink.Ink, Width: 2 * b.u}
		b.Line(name+" corner", well.Right()-d, well.Y+d, well.Right(), well.Y+d, p)
		b.Line(name+" corner", well.Right()-d, well.Y, well.Right()-d, well.Y+d, p)
		there := ck.Passes // both of its directions stand at their high ends
		for _, c := range b.v.Check.Check.Corners {
			if j := b.v.Check.Check.Controls[c.Control].Job; !c.There && (j == jobFacts[g.across].word || j == jobFacts[g.up].word) {
				there = ck.Waiting
			}
		}
		b.verdictMark(well.Right()-d-8*b.u, well.Y+d/2, 5*b.u, there)
	}
}

// checkLever draws one switch or knob: its value, its slot with the positions seen, and its name.
func (b *board) checkLever(r ink.Rect, c *ck.Control, asked bool) {
	line := ink.LineHeight(b.small)
	if asked {
		b.RoundRect("lever asked for", r, 4*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.4 * b.u})
	}
	in := r.Inset(2 * b.u)
	head, rest := in.CutTop(line, 2*b.u)
	foot, slot := rest.CutBottom(line, 2*b.u)
	value, style := "–", ink.Style{Size: b.small, Weight: ink.Bold, Anchor: ink.Centre}
	if c.Known {
		value = phrase.Micros(c.Width)
	}
	b.centred("lever value", head, style, value)
	style.Weight = ink.Regular
	if asked {
		style.Weight = ink.Bold
	}
	name := phrase.CheckTag(c)
	if ink.Width(phrase.CheckName(c), style.Size, style.Weight) <= foot.W {
		name = phrase.CheckName(c)
	}
	b.centred("lever name", foot, style, name)

	x := slot.Centre().X
	slot.Y, slot.H = slot.Y+5*b.u, slot.H-10*b.u
	at := func(w pulse.Width) float64 { return slot.Bottom() - slot.H*clamp(share(w), 0, 1) }
	b.Line("lever slot", x, slot.Y, x, slot.Bottom(), ink.Paint{Line: ink.Rule, Width: 2 * b.u})
	if c.Form == ck.Switch {
		for _, p := range c.Places {
			if p.Seen {
				b.Circle("place seen", x, at(p.Width), 3.6*b.u, ink.Paint{Fill: ink.Focus})
			} else {
				b.Circle("place", x, at(p.Width), 3.6*b.u, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.2 * b.u})
			}
		}
	} else if c.Known && c.High > c.Low {
		b.Line("lever seen", x, at(c.High), x, at(c.Low), ink.Paint{Line: ink.Focus, Width: 5 * b.u})
	}
	if c.Known {
		b.Rect("lever", ink.Rect{X: x - 9*b.u, Y: at(c.Width) - 3*b.u, W: 18 * b.u, H: 6 * b.u}, ink.Paint{Fill: ink.Ink})
	}
}

// centred is a text in the middle of a line, shortened where it is too long.
func (b *board) centred(name string, r ink.Rect, s ink.Style, text string) {
	s.Within = r.Inset(-1)
	b.Block(name, r.X, r.Y, s, ink.Block{Width: r.W, MaxLines: 1, Shorten: true}, text)
}
