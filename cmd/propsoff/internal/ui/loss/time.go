package loss

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
)

// lines names the lines of a craft's time.
var lines = [...]string{"radio", "link", "armed", "motors"}

// span is how many ms the time of all three covers: to what happened last, and on while something is still to come.
func (b *board) span() int64 {
	last := int64(1600)
	for i := range b.l.Crafts {
		c := &b.l.Crafts[i]
		if since, ok := c.Run.Since(c.Snap.Tick); ok && c.Run.Phase == lossrun.Off && (c.Snap.Armed || c.Snap.Air.Flying) {
			last = max(last, since)
		}
		for _, m := range tell.LossMarks(c.told()) {
			last = max(last, m.Ms)
		}
	}
	return int64(figure.RoundUp(math.Ceil(float64(last)*1.05), 2000))
}

// barsHeight is what the lines of a craft's time take, with the words under their axis.
func (b *board) barsHeight() float64 { return float64(len(lines)+1) * ink.BlockHeight(b.Small, 1) }

// leastTime is what the time of a craft takes without a word of what happened.
func (b *board) leastTime() float64 { return b.SectionHeight() + b.barsHeight() }

// timeHeight is what the time of a craft takes, with so many marks, at most of some room.
func (b *board) timeHeight(phase lossrun.Phase, marks int, room float64) float64 {
	if phase == lossrun.Waiting {
		return b.SectionHeight() + ink.BlockHeight(b.Small, 1)
	}
	return min(b.leastTime()+9*b.U+float64(max(marks, 4))*ink.LineHeight(b.Small), room*0.66)
}

// time draws a craft's time since the radio went off: one line each for radio, link, armed and motors, to the same scale for
// all three, and under them what happened, in words.
func (b *board) time(r ink.Rect, c *Craft, span int64) {
	d := b.Down(b.Section(r, "time-heading", b.Say(words.T("loss.time-title"))), 5*b.U)
	if c.Run.Phase == lossrun.Waiting {
		d.Say("time-to-come", tell.LossNothing(&c.Facts), ink.Style{Size: b.Small, Colour: ink.Faint})
		return
	}
	b.bars(d.Row(b.barsHeight()), c, span)
	b.marks(d.R, c)
}

// bars draws the four lines: a bar while it stands, a thin line while it does not. A dashed line stands at the silence limit,
// a tent where the craft reached the ground.
func (b *board) bars(r ink.Rect, c *Craft, span int64) {
	run := &c.Run
	label := 0.0
	for i := range lines {
		label = max(label, ink.Width(b.Say(tell.LossLine(i)), b.Small, ink.Regular)+6*b.U)
	}
	line := r.H / float64(len(lines)+1)
	plot := ink.Rect{X: r.X + label, Y: r.Y, W: r.W - label, H: r.H - line}
	at := func(tick int64) float64 {
		return plot.X + ui.Clamp(float64(tick-run.Off)/float64(span), 0, 1)*plot.W
	}
	radio := lossrun.Band{}
	if run.Back != lossrun.NotYet {
		radio.N, radio.At[0] = 1, run.Back
	}
	for i, band := range [len(lines)]*lossrun.Band{&radio, &run.Link, &run.Arms, &run.Turns} {
		y := plot.Y + (float64(i)+0.5)*line
		b.Text("time-line", r.X, y, ink.Style{Size: b.Small, Anchor: ink.Middle}, b.Say(tell.LossLine(i)))
		on, from := band.First, plot.X
		for k := 0; k <= band.N; k++ {
			to := at(c.Snap.Tick)
			if k < band.N {
				to = at(band.At[k])
			}
			switch {
			case to-from < 0.5:
			case on:
				role := [len(lines)]ink.Role{ink.Ink, ink.Ink, ink.Armed, ink.Ink}[i]
				b.Rect(lines[i]+" bar", ink.Rect{X: from, Y: y - 0.28*line, W: max(to-from, 1), H: 0.56 * line}, ink.Paint{Fill: role})
			default:
				b.Line(lines[i]+" off", from, y, to, y, ink.Paint{Line: ink.Rule})
			}
			from, on = to, !on
		}
	}
	bottom := plot.Bottom()
	b.Line("time-axis", plot.X, bottom, plot.Right(), bottom, ink.Paint{Line: ink.Rule})
	if run.Limit != lossrun.NotYet {
		b.Line("silence-limit", at(run.Limit), plot.Y, at(run.Limit), bottom, ink.Paint{Line: ink.Link, Width: 1.5 * b.U, Dash: ink.Dash{On: 3 * b.U, Off: 2 * b.U}})
	}
	if run.Down != lossrun.NotYet {
		b.StartMark("ground-reached", at(run.Down), bottom-4*b.U)
	}
	// Three words under the axis: its beginning, its middle, its end.
	for i, anchor := range [...]ink.Anchor{ink.Left, ink.Centre, ink.Right} {
		x := plot.X + plot.W*float64(i)/2
		b.Line("time-mark", x, bottom, x, bottom+3*b.U, ink.Paint{Line: ink.Rule})
		b.Text("time-mark-word", x, bottom+3*b.U, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: anchor | ink.Top}, b.Say(tell.LossAxis(span*int64(i)/2)))
	}
}

// marks writes what happened, a line each; where there is no room for all, what matters least is left out.
func (b *board) marks(r ink.Rect, c *Craft) {
	longest := tell.LossMark{Ms: 99_990}
	small, gap := ink.Style{Size: b.Small}, ink.LineHeight(b.Small)-ink.BlockHeight(b.Small, 1)
	_, texts := r.CutLeft(ink.Width(b.Say(longest.At()), b.Small, ink.Bold)+4*b.U, 6*b.U)
	marks := tell.LossMarks(c.told())
	for len(marks) > 0 {
		need, least := -max(gap, 2*b.U), 0
		for i := range marks {
			need += b.SayHeight(marks[i].Text, texts.W, small) + max(gap, 2*b.U)
			if marks[i].Weight < marks[least].Weight {
				least = i
			}
		}
		if need <= r.H+0.5 {
			break
		}
		marks = append(marks[:least], marks[least+1:]...)
	}
	d := b.Down(texts, gap)
	for i := range marks {
		at, happened := ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: ink.Right | ink.Top, Within: r}, small
		if marks[i].ToCome {
			at.Weight, at.Colour, happened.Colour = ink.Regular, ink.Faint, ink.Faint
		}
		b.Text("mark-time", texts.X-6*b.U, d.R.Y, at, b.Say(marks[i].At()))
		d.Say("mark", marks[i].Text, happened)
	}
}
