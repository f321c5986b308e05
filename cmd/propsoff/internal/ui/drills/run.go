package drills

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/drill"
)

// run draws the drill that runs: what is asked for, largest; below it what it is asked of; and nothing that answers it.
func (b *board) run(r ink.Rect) {
	b.Group("drill")
	run := &Of(b.V).Run
	r = b.caption(r)
	if run.Over != nil {
		b.over(r)
		return
	}
	_, r = b.Foot(r, 4*b.U, 1, "source", tell.DrillSource(run.One), ink.Style{Size: b.Small, Colour: ink.Faint})
	if caution := run.text(run.One.Caution); !caution.Empty() && run.prepares() && !b.V.Class {
		_, in := r.CutLeft(18*b.U, 0)
		foot, rest := b.Foot(in, 6*b.U, 2, "caution", caution, ink.Style{Size: b.Small})
		b.Warning(r.X, foot.Y+ink.BlockHeight(b.Small, 1)/2)
		r.H = rest.H
	}
	share := 0.3
	if b.Tall {
		share = 0.26
	}
	if c, _ := run.asked(); c.Mark.On() { // it is all about the picture
		share *= 0.6
	}
	high := r.H * share
	if more := run.more(Of(b.V).Hands, b.V.Config); run.tried() && !more.Empty() { // what there is to remember stands whole
		style := ink.Style{Size: b.Body}
		need := ink.BlockHeight(b.Large, 1) + b.SayHeight(Of(b.V).say(), r.W, ink.Style{Size: b.Head, Weight: ink.Bold}) + b.SayHeight(more, r.W, style) + 14*b.U
		high = min(max(high, need), r.H*0.7)
	}
	if run.On && !run.tried() { // what must be so first stands whole, and nothing moves when the cue comes
		c, _ := run.asked()
		for i := range c.Before {
			wide := r.W - r.W*ticksFrom - b.Gap*1.6
			high = max(high, min(b.Takes(wide, func(d *ui.Down) { b.ticksIn(d, c.Before[i].Until) }), r.H*0.5))
		}
	}
	task, rest := r.CutTop(high, b.Gap)
	b.task(task)
	b.scene(rest)
}

// prepares tells whether what is asked for now is only what comes before the cue.
func (r *Run) prepares() bool { return r.On && r.State.Phase <= drill.Settling }

// caption says over the task, small, of which chapter it is and what it is called; beside it stands the row that fills. It gives what is left
// below.
func (b *board) caption(r ink.Rect) ink.Rect {
	v := Of(b.V)
	row, rest := r.CutTop(max(ink.BlockHeight(b.Head, 1), 22*b.U), 4*b.U)
	need, have := v.Run.rights()
	d := row.H * 0.42
	step := min(2.6*d, row.W*0.5/float64(max(need, 1)))
	for i := range need {
		b.craftMark(row.Right()-d-float64(need-1-i)*step, row.Centre().Y, min(d, step*0.4), i < have)
	}
	row.W -= float64(need)*step + b.Gap
	b.Fitted("drill-name", row, ink.Style{Size: b.Body, Colour: ink.Faint}, b.Say(words.T("drill.caption", words.Args{"chapter": v.chapterOf(v.Run.One), "name": v.Run.text(v.Run.One.Name)})))
	return rest
}

// rights is how many right tries are asked for, and how many of them there are, by the rule of the drill's file.
func (r *Run) rights() (need, have int) {
	cfg, recent := &r.One.Config, r.State.Recent
	if r.Over != nil && (r.Over.Learned || r.Over.BrokenOff) {
		if need = max(int(cfg.InARow), int(cfg.Right)); r.Over.Learned {
			have = need
		}
		return need, have // of one that was left nothing counts, whatever was right
	}
	if need = int(cfg.InARow); need > 0 {
		for have < min(need, int(r.State.Counted)) && recent>>have&1 == 1 {
			have++
		}
		return need, have
	}
	for i := range min(int(cfg.Of), int(r.State.Counted)) {
		have += int(recent >> i & 1)
	}
	return int(cfg.Right), min(have, int(cfg.Right))
}

// craftMark is a craft from above, so large that d is from its middle to a side: open, or filled where a try was right.
func (b *board) craftMark(x, y, d float64, filled bool) {
	line := ink.Paint{Line: ink.Rule, Width: max(b.U, d*0.14)}
	disc := line
	if filled {
		line.Line = ink.Ink
		disc = ink.Paint{Fill: ink.Ink}
	}
	k := d * 0.58
	b.Line("right-arm", x-k, y-k, x+k, y+k, line)
	b.Line("right-arm", x-k, y+k, x+k, y-k, line)
	if !filled {
		disc.Fill = ink.Paper
	}
	for _, at := range [4]ink.Point{{X: x - k, Y: y - k}, {X: x + k, Y: y - k}, {X: x - k, Y: y + k}, {X: x + k, Y: y + k}} {
		b.Circle("right-motor", at.X, at.Y, d*0.4, disc)
	}
}

// task is what is asked for: a word for where the try stands, and under it the task, as large as there is room for; while it is prepared, what must
// be so stands beside it and is ticked off.
func (b *board) task(r ink.Rect) {
	b.Group("task")
	v := Of(b.V)
	run := &v.Run
	if run.looks() {
		b.Hit(onPress, "", r)
	}
	alarm := false
	if run.Cue() {
		_, said := run.asked()
		alarm = said.Sound == "alarm"
		frame := ink.Paint{Line: ink.Focus, Width: 3 * b.U, Fill: ink.Panel}
		if alarm {
			frame.Line, frame.Width = ink.Refusal, 6*b.U
		}
		b.Rect("now", r, frame)
		r = r.Inset(10 * b.U)
	}
	if steps := run.steps(); len(steps) > 0 {
		left, right := r.CutLeft(r.W*ticksFrom, b.Gap*1.6)
		b.ticks(right, steps)
		r = left
	}
	size := b.Large
	row, rest := r.CutTop(ink.BlockHeight(size, 1), 2*b.U)
	if verdict := run.last().Verdict; run.tried() && verdict != 0 {
		d := size * 0.45
		b.verdict(row.X+d, row.Centre().Y, d, verdict == drill.Right)
		_, row = row.CutLeft(2*d, 8*b.U)
	}
	b.Fitted("heading", row, ink.Style{Size: size, Weight: ink.Bold, Colour: ink.Faint}, b.Say(run.heading()))
	text, most := b.Say(v.say()), b.TextSize(40)
	if b.V.Class {
		most = b.Body * 2
	}
	if alarm {
		most *= 2
	}
	more, style := run.more(v.Hands, b.V.Config), ink.Style{Size: b.Body}
	need := min(b.SayHeight(more, rest.W, style), rest.H-ink.BlockHeight(b.Head, 1)-4*b.U)
	size, _ = ink.FitBlock(rest.W, rest.H-max(need, 0)-4*b.U, b.Body, most, ink.Bold, text)
	lines, _ := ink.CountLines(text, rest.W, size, ink.Bold)
	high := ink.BlockHeight(size, lines)
	if run.Cue() { // in the middle, whatever its length
		rest.Y += max((rest.H-high)/2-b.U, 0)
		b.Block("say", rest.X, rest.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre, Within: rest}, ink.Block{Width: rest.W}, text)
		return
	}
	d := b.Down(rest, 4*b.U)
	d.Write("say", text, ink.Style{Size: size, Weight: ink.Bold})
	d.Say("after", more, style)
}

// ticksFrom is where what must be so begins, as a share of the width of the task.
const ticksFrom = 0.62

// ticks are the things that must be so before the cue, each ticked where it is.
func (b *board) ticks(r ink.Rect, steps []drill.Want) { b.ticksIn(b.Down(r, 0), steps) }

func (b *board) ticksIn(d *ui.Down, steps []drill.Want) {
	style, one := ink.Style{Size: b.Body}, ink.BlockHeight(b.Body, 1)
	x := d.R.X
	_, d.R = d.R.CutLeft(one, 6*b.U)
	d.Gap = 4 * b.U
	for i, w := range steps {
		y := d.R.Y
		if style.Colour = ink.Ink; Of(b.V).Run.Missing>>i&1 == 0 {
			style.Colour = ink.Faint
		}
		if d.Say("step", tell.WantSentence(w), style); d.R.Y > y {
			b.NeedMark(x, y, one, Of(b.V).Run.Missing>>i&1 == 0)
		}
	}
}

// over is what a run came to.
func (b *board) over(r ink.Rect) {
	b.Group("task")
	v := Of(b.V)
	need, have := v.Run.rights()
	size := b.TextSize(40)
	if b.V.Class {
		size = b.Body * 2
	}
	d := b.Down(r, b.Gap)
	middle := func(name string, t words.Text, s ink.Style) {
		s.Anchor = ink.Centre
		d.Say(name, t, s)
	}
	middle("heading", v.Run.heading(), ink.Style{Size: b.Large, Weight: ink.Bold, Colour: ink.Faint})
	middle("say", v.say(), ink.Style{Size: size, Weight: ink.Bold})
	if h := v.Run.hand(); h.Measured {
		b.measured(d.Row(d.R.H-b.SayHeight(v.ended(), r.W, ink.Style{Size: b.Body})-b.Gap), h)
		middle("sum", v.ended(), ink.Style{Size: b.Body, Colour: ink.Faint})
		return
	}
	foot := b.SayHeight(v.Run.sum(), r.W, ink.Style{Size: b.Large}) + b.SayHeight(tell.DrillAsks(&v.Run.One.Config), r.W, ink.Style{Size: b.Body}) + 2*b.Gap
	row := d.Row(d.R.H - foot)
	if v.Run.Alarm != nil {
		var plot ink.Rect
		row, plot = row.CutTop(row.H*0.2, b.Gap)
		b.alarm(plot)
		b.Group("task")
	}
	rows := 1
	if b.Tall && need > 2 {
		rows = 2
	}
	cols := max((need+rows-1)/rows, 1)
	k := min(row.H*0.42/float64(rows), row.W/float64(cols)*0.36, row.W*0.16)
	for i := range need {
		x, y := float64(i%cols)-float64(cols-1)/2, float64(i/cols)-float64(rows-1)/2
		b.craftMark(row.Centre().X+x*2.7*k, row.Centre().Y+y*2.7*k, k, i < have)
	}
	middle("sum", v.Run.sum(), ink.Style{Size: b.Large})
	middle("asks", tell.DrillAsks(&v.Run.One.Config), ink.Style{Size: b.Body, Colour: ink.Faint})
}
