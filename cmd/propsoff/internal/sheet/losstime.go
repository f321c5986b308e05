package sheet

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/phrase"
)

// lossLines is how many lines a craft's time has: radio, link, armed, motors.
const lossLines = 4

// lossTimeHeight is what the time of a craft takes, with so many marks, at most of some room.
func (b *board) lossTimeHeight(phase lossrun.Phase, marks int, room float64) float64 {
	line := ink.BlockHeight(b.small, 1)
	if phase == lossrun.Waiting {
		return b.sectionHeight() + line
	}
	h := b.sectionHeight() + (lossLines+1)*line + 5*b.u + float64(max(marks, 4))*ink.LineHeight(b.small) + 4*b.u
	return min(h, room*0.66)
}

// lossTime draws a craft's time since the radio went off: one line each for radio, link, armed and motors, to the same scale for
// all three, and under them what happened, in words.
func (b *board) lossTime(r ink.Rect, c *LossCraft, span int64) {
	rest := b.section(r, "time heading", phrase.LossTimeTitle())
	if c.Run.Phase == lossrun.Waiting {
		b.Block("time to come", rest.X, rest.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: rest}, ink.Block{Width: rest.W}, phrase.LossNothing(&c.Facts))
		return
	}
	line := ink.BlockHeight(b.small, 1)
	var box ink.Rect
	box, rest = rest.CutTop((lossLines+1)*line, 5*b.u)
	b.lossBars(box, c, span)
	b.lossMarks(rest, c)
}

// lossBars draws the four lines: a bar while it stands, a thin line while it does not. A dashed line stands at the silence limit,
// a tent where the craft reached the ground.
func (b *board) lossBars(r ink.Rect, c *LossCraft, span int64) {
	run := &c.Run
	line := r.H / (lossLines + 1)
	label := 0.0
	for i := range lossLines {
		label = max(label, ink.Width(phrase.LossLine(i), b.small, ink.Regular))
	}
	plot := ink.Rect{X: r.X + label + 6*b.u, Y: r.Y, W: r.W - label - 6*b.u, H: line * lossLines}
	at := func(tick int64) float64 {
		return plot.X + clamp(float64(tick-run.Off)/float64(span), 0, 1)*plot.W
	}
	now := at(c.Snap.Tick)
	radio := lossrun.Band{}
	if run.Back != lossrun.NotYet {
		radio.N, radio.At[0] = 1, run.Back
	}
	roles := [lossLines]ink.Role{ink.Ink, ink.Ink, ink.Armed, ink.Ink}
	for i, band := range [lossLines]*lossrun.Band{&radio, &run.Link, &run.Arms, &run.Turns} {
		y := plot.Y + (float64(i)+0.5)*line
		b.Text("time line", r.X, y, ink.Style{Size: b.small, Anchor: ink.Middle}, phrase.LossLine(i))
		on, from := band.First, plot.X
		for k := 0; k <= band.N; k++ {
			to := now
			if k < band.N {
				to = at(band.At[k])
			}
			switch {
			case to-from < 0.5:
			case on:
				b.Rect(phrase.LossLine(i)+" bar", ink.Rect{X: from, Y: y - 0.28*line, W: max(to-from, 1), H: 0.56 * line}, ink.Paint{Fill: roles[i]})
			default:
				b.Line(phrase.LossLine(i)+" off", from, y, to, y, ink.Paint{Line: ink.Rule})
			}
			from, on = to, !on
		}
	}
	bottom := plot.Bottom()
	b.Line("time axis", plot.X, bottom, plot.Right(), bottom, ink.Paint{Line: ink.Rule})
	if run.Limit != lossrun.NotYet {
		b.Line("silence limit", at(run.Limit), plot.Y, at(run.Limit), bottom, ink.Paint{Line: ink.Link, Width: 1.5 * b.u, Dash: ink.Dash{On: 3 * b.u, Off: 2 * b.u}})
	}
	if run.Down != lossrun.NotYet {
		b.startMark("ground reached", at(run.Down), bottom-4*b.u)
	}
	// Three words under the axis: its beginning, its middle, its end.
	for i := range 3 {
		ms := span * int64(i) / 2
		x := plot.X + plot.W*float64(i)/2
		b.Line("time mark", x, bottom, x, bottom+3*b.u, ink.Paint{Line: ink.Rule})
		b.Text("time mark word", x, bottom+3*b.u, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: [...]ink.Anchor{ink.Left, ink.Centre, ink.Right}[i] | ink.Top}, phrase.LossAxis(ms))
	}
}

// lossMarks writes what happened, a line each; where there is no room for all, what matters least is left out.
func (b *board) lossMarks(r ink.Rect, c *LossCraft) {
	marks := phrase.LossMarks(c.words())
	line := ink.LineHeight(b.small)
	column := ink.Width("−00.00 s", b.small, ink.Bold) + 6*b.u
	need := func(m *phrase.LossMark) int {
		n, _ := ink.CountLines(m.Text, r.W-column, b.small, ink.Regular)
		return n
	}
	room := int((r.H + ink.LineHeight(b.small) - ink.BlockHeight(b.small, 1) + 0.5) / line)
	for {
		sum, least := 0, 0
		for i := range marks {
			sum += need(&marks[i])
			if marks[i].Weight < marks[least].Weight {
				least = i
			}
		}
		if sum <= room || len(marks) == 0 {
			break
		}
		marks = append(marks[:least], marks[least+1:]...)
	}
	y := r.Y
	for i := range marks {
		m := &marks[i]
		style := ink.Style{Size: b.small, Weight: ink.Bold, Within: r}
		if m.ToCome {
			style.Weight, style.Colour = ink.Regular, ink.Faint
		}
		style.Anchor = ink.Right | ink.Top
		b.Text("mark time", r.X+column-6*b.u, y, style, m.At())
		style.Anchor, style.Weight = ink.Left, ink.Regular
		b.Block("mark", r.X+column, y, style, ink.Block{Width: r.W - column}, m.Text)
		y += float64(need(m)) * line
	}
}
