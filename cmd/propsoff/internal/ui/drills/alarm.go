package drills

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
)

// answersAlarm tells whether a drill is about disarming a craft in the air.
func answersAlarm(d *drillfile.Drill) bool {
	c := &d.Config.Cases[0]
	return c.Flown() && len(c.Wants) > 0 && (c.InOrder || len(c.Wants) == 1) && c.Wants[0].Kind == drill.DisarmedBy && len(c.With) == 0
}

// alarms works out a bit more of what an alarm comes to, while the craft stands and nobody waits for a picture.
func (p *part) alarms() {
	if answersAlarm(p.view.Run.One) && !p.s.Flight.Live.Armed && !p.alarm.Known() {
		p.alarm.Step(p.alarmCraft())
	}
}

// alarmCraft is the craft of the drill that runs: when a run is over, the pupil's own is back on the bench.
func (p *part) alarmCraft() *sim.Config {
	craft := p.view.Run.One.Config.Cases[0].Craft.On(*p.s.Options.Loop.Craft())
	return &craft
}

// meaning is what is worked out of an alarm that was answered, bit by bit while its result stands there already.
type meaning struct {
	craft    *sim.Config
	reaction *facts.AlarmReaction
}

// means begins to work out what the pupil's own reaction means: the middle one of the right tries.
func (p *part) means(r *drillrun.Result) {
	if r.BrokenOff || !answersAlarm(p.view.Run.One) {
		return
	}
	craft := p.alarmCraft()
	after, ok := disarmedAfter(craft, r.Tries)
	if !ok {
		return
	}
	p.meaning = &meaning{craft, facts.React(after)}
}

// meanOn works out a bit more of it, and shows it once all is known.
func (p *part) meanOn() {
	m := p.meaning
	if m == nil || p.alarm.Step(m.craft) || m.reaction.Step(m.craft) {
		return
	}
	p.meaning = nil
	p.view.Run.Alarm, p.view.Run.Means = &p.alarm, m.reaction.Means()
}

// disarmedAfter is after how many ms hands began what disarms, in the middle one of the right tries: what else is asked of them, as the throttle, comes
// later and stops nothing. Sticks begin a dwell before they have disarmed.
func disarmedAfter(craft *sim.Config, tries []drill.Try) (ms int64, ok bool) {
	var all []int64
	for i := range tries {
		if t := &tries[i]; t.Verdict == drill.Right && t.First >= 0 {
			all = append(all, int64(t.First))
		}
	}
	ms = drill.Median(all)
	if facts.BySticks(craft) {
		ms = max(ms-int64(craft.Arming.DisarmDwell)*int64(craft.SlotTicks), 0)
	}
	return ms, len(all) > 0
}

// longestShown is the last reaction of the curve, in ms.
const longestShown = 2000

// alarm draws how far a craft still goes after an alarm by how late the hand comes, when each right try of the run disarmed on it, and says what their middle means.
func (b *board) alarm(r ink.Rect) {
	b.Group("alarm")
	run := &Of(b.V).Run
	style, line := ink.Style{Size: b.Body}, ink.BlockHeight(b.Small, 1)
	drawn := !b.V.Class || b.Tall // from afar the sentence tells it
	drawn = drawn && r.H-b.SayHeight(tell.AlarmMeans(&run.Means, true), r.W, style)-4*b.U >= 6*line
	d := b.Down(r, 4*b.U)
	d.Say("alarm-means", tell.AlarmMeans(&run.Means, drawn), style)
	plot := d.R
	if !drawn {
		return
	}
	title, plot := plot.CutTop(line, line*0.7)
	foot, plot := plot.CutBottom(line, 4*b.U)
	points := run.Alarm.Points()
	farthest := max(points[len(points)-1].Farthest, 1)
	step := figure.MarkStep(figure.RoundUp(farthest, 2))
	top := step * math.Ceil(farthest/step)
	_, plot = plot.CutLeft(ink.Width(b.Say(tell.Length(top)), b.Small, ink.Regular), 8*b.U)
	at := func(after int64, goes float64) ink.Point {
		return ink.Point{X: plot.X + plot.W*float64(after)/longestShown, Y: plot.Bottom() - plot.H*goes/top}
	}
	small := ink.Style{Size: b.Small, Colour: ink.Faint}
	b.Fitted("alarm-title", title, small, b.FirstFit(title.W, small, tell.AlarmTitle(true), tell.AlarmTitle(false)))
	for n := 0.0; n <= top*1.001; n += step {
		y := at(0, n).Y
		b.Line("alarm-grid", plot.X, y, plot.Right(), y, ink.Paint{Line: ink.Grid, Under: true})
		if room := plot.H * step / top; n > 0 && (room >= line || n > top*0.999) {
			b.Text("alarm-metres", plot.X-5*b.U, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, b.Say(tell.Length(n)))
		}
	}
	for after := int64(0); after <= longestShown; after += 500 {
		p := at(after, 0)
		b.Line("alarm-time", p.X, p.Y, p.X, p.Y+3*b.U, ink.Paint{Line: ink.Rule})
		anchor := ink.Centre
		if after == longestShown {
			anchor = ink.Right
		}
		b.Text("alarm-seconds", p.X, foot.Y+b.U, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: anchor | ink.Top}, b.Say(tell.Seconds(after)))
	}
	b.Line("alarm-axis", plot.X, plot.Bottom(), plot.Right(), plot.Bottom(), ink.Paint{Line: ink.Ink, Width: 1.5 * b.U})
	var half, far []ink.Point
	for _, p := range points {
		half, far = append(half, at(p.After, p.Half)), append(far, at(p.After, p.Farthest))
	}
	b.Polyline("alarm-half", half, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
	b.Polyline("alarm-far", far, ink.Paint{Line: ink.Refusal, Width: 2 * b.U, Dash: ink.Dash{On: 6 * b.U, Off: 4 * b.U}})
	for i := range run.Over.Tries {
		if t := &run.Over.Tries[i]; t.Verdict == drill.Right && t.First >= 0 && t.First <= longestShown {
			p := at(int64(t.First), 0)
			b.Line("alarm-try", p.X, p.Y-8*b.U, p.X, p.Y, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
		}
	}
	c := at(min(run.Means.After, longestShown), run.Means.Half)
	b.Circle("alarm-own", c.X, c.Y, 5*b.U, ink.Paint{Fill: ink.Focus})
}
