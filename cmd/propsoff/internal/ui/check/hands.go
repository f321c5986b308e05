package check

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	ck "propsoff.example/input/check"
	"propsoff.example/sim/pulse"
)

// hands draws the sticks at their true side with the way that each has gone, and below them every other control.
func (b *board) hands(r ink.Rect) {
	b.Group("hands")
	v := &Of(b.V).Check
	mode := ui.StickMode(b.V.StickMode)
	r = b.Section(r, "hands-heading", b.Say(words.T("check.hands", words.Args{"n": words.Whole(mode)})))
	others := Of(b.V).others()
	n := len(others)
	rows := (n + 6) / 7
	columns := 0
	if rows > 0 {
		columns = (n + rows - 1) / rows
	}
	sticks := r
	if n > 0 {
		slot := 46 * b.U
		if b.Tall {
			slot = 80 * b.U
		}
		least := float64(rows)*(2*ink.LineHeight(b.Small)+slot) + float64(rows-1)*4*b.U
		h := min(r.W/2, r.H-least-b.Gap-2*(b.Body+6*b.U)) + 2*(b.Body+6*b.U)
		sticks, r = r.CutTop(max(h, 90*b.U), b.Gap)
	}
	b.BothSticks(sticks, b.stick)
	if n == 0 {
		return
	}
	b.Group("levers")
	height := min(r.H, float64(rows)*130*b.U)
	if low := float64(rows) * 96 * b.U; r.H-low > 110*b.U {
		height = min(height, low)
	}
	area, below := r.CutTop(height, b.Gap)
	if !b.V.Class {
		b.RadioNow(below, b.askedFor)
	}
	b.Group("levers")
	for k, i := range others {
		b.lever(area.Cell(k, columns, rows, 4*b.U), &v.Controls[i], i == v.Control)
	}
}

// askedFor marks the control that is asked for on the drawn radio.
func (b *board) askedFor(d *handheld.Radio) {
	if v := &Of(b.V).Check; v.Control >= 0 && v.Control < len(v.Controls) {
		job := v.Controls[v.Control].Job
		d.Mark(job, handheld.Chosen, -1)
		d.MarkStick(job, handheld.Chosen, 0)
	}
}

// stick draws one stick: the well, how far it was taken, and the corner that the direction check asks for.
func (b *board) stick(r ink.Rect, g figure.Gimbal, name string) {
	line := b.Body + 4*b.U
	size := max(min(r.W, r.H-2*line-4*b.U), 20*b.U)
	top := r.Y + (r.H-2*line-4*b.U-size)/2
	well := ink.Rect{X: r.Centre().X - size/2, Y: top + line + 2*b.U, W: size, H: size}
	b.Reading(name+" up", well.Centre().X, top+line/2, 0, 0, g.Up)
	b.Reading(name+" across", well.Centre().X, well.Bottom()+2*b.U+line/2, 0, 0, g.Across)
	in := well.Inset(10 * b.U)
	across, up := Of(b.V).stickOf(g.Across), Of(b.V).stickOf(g.Up)
	if across != nil && up != nil && across.Known && up.Known {
		a, z := figure.Place(in, across.Low, true, up.Low, true), figure.Place(in, across.High, true, up.High, true)
		if z.X-a.X > 3*b.U || a.Y-z.Y > 3*b.U {
			seen := ink.Rect{X: a.X, Y: z.Y, W: max(z.X-a.X, b.U), H: max(a.Y-z.Y, b.U)}
			b.Rect(name+" seen", seen.Inset(-1.5*b.U), ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.3 * b.U, Dash: ink.Dash{On: 3 * b.U, Off: 2 * b.U}})
		}
	}
	b.Well(name, well, g)
	if Of(b.V).Check.Ask == ck.AskCorners {
		d := 22 * b.U
		p := ink.Paint{Line: ink.Ink, Width: 2 * b.U}
		b.Line(name+" corner", well.Right()-d, well.Y+d, well.Right(), well.Y+d, p)
		b.Line(name+" corner", well.Right()-d, well.Y, well.Right()-d, well.Y+d, p)
		there := ck.Passes // both of its directions stand at their high ends
		for _, c := range Of(b.V).Check.Corners {
			if j := Of(b.V).Check.Controls[c.Control].Job; !c.There && (j == figure.JobFacts[g.Across].Word || j == figure.JobFacts[g.Up].Word) {
				there = ck.Waiting
			}
		}
		b.VerdictMark(well.Right()-d-8*b.U, well.Y+d/2, 5*b.U, there)
	}
}

// lever draws one switch or knob: its value, its slot with the positions seen, and its name.
func (b *board) lever(r ink.Rect, c *ck.Control, asked bool) {
	line := ink.LineHeight(b.Small)
	if asked {
		b.RoundRect("lever-asked-for", r, 4*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.4 * b.U})
	}
	in := r.Inset(2 * b.U)
	head, rest := in.CutTop(line, 2*b.U)
	foot, slot := rest.CutBottom(line, 2*b.U)
	value, style := "–", ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: ink.Centre}
	if c.Known {
		value = b.Say(tell.Plain(tell.Micros(c.Width)))
	}
	b.Down(head.Inset(-1), 0).Lines(1, "lever-value", value, style)
	style.Weight = ink.Regular
	if asked {
		style.Weight = ink.Bold
	}
	name := b.Say(tell.CheckName(c))
	if ink.Width(name, style.Size, style.Weight) > foot.W {
		name = b.Say(tell.CheckTag(c))
	}
	b.Down(ink.Rect{X: foot.X + b.U, Y: foot.Y, W: foot.W - 1.5*b.U, H: foot.H + 1}, 0).Lines(1, "lever-name", name, style)

	x := slot.Centre().X
	slot.Y, slot.H = slot.Y+5*b.U, slot.H-10*b.U
	at := func(w pulse.Width) float64 { return slot.Bottom() - slot.H*ui.Clamp(figure.Share(w), 0, 1) }
	b.Line("lever-slot", x, slot.Y, x, slot.Bottom(), ink.Paint{Line: ink.Rule, Width: 2 * b.U})
	if c.Form == ck.Switch {
		for _, p := range c.Places {
			if p.Seen {
				b.Circle("place-seen", x, at(p.Width), 3.6*b.U, ink.Paint{Fill: ink.Focus})
			} else {
				b.Circle("place", x, at(p.Width), 3.6*b.U, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.2 * b.U})
			}
		}
	} else if c.Known && c.High > c.Low {
		b.Line("lever-seen", x, at(c.High), x, at(c.Low), ink.Paint{Line: ink.Focus, Width: 5 * b.U})
	}
	if c.Known {
		b.Rect("lever", ink.Rect{X: x - 9*b.U, Y: at(c.Width) - 3*b.U, W: 18 * b.U, H: 6 * b.U}, ink.Paint{Fill: ink.Ink})
	}
}
