package drills

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/vec"
)

// tasks are what the craft is to fly now: what is not so yet of the step that is prepared, what is still to come of the cue, of those that have an order
// the one whose turn it is; in a try that is looked at, what was not kept to.
func (r *Run) tasks() (all []drill.Task) {
	c, _ := r.asked()
	wants, done := r.steps(), ^r.Missing
	switch {
	case r.early():
	case r.looks() && r.last().Why == drill.NeverSeen:
		wants, done = c.Nevers, ^(1 << r.last().Number)
	case r.looks() && int(r.last().Number) < len(c.Wants):
		wants, done = c.Wants, ^(1 << r.last().Number)
	case r.Cue():
		wants, done = c.Wants, r.State.Done
	case len(wants) == 0 && len(c.Before) > 0 && r.State.Phase <= drill.Waiting: // and is to stay so
		wants, done = c.Before[len(c.Before)-1].Until, 0
	}
	for i := range wants {
		if w := &wants[i]; done>>i&1 == 0 || !r.Cue() && !r.looks() {
			if w.Kind == drill.Flies || w.Kind == drill.Leaves {
				all = append(all, w.Task)
			}
			if r.Cue() && c.InOrder {
				return all
			}
		}
	}
	return all
}

// target is a task as the drawings of the craft show it.
func target(t *drill.Task, now *drill.Flown) figure.Target {
	out := figure.Anywhere()
	out.In = t.Keeps(now)
	ends := func(b drill.Bound, low, high *float64) {
		if s := t.Spans[b]; t.Has(b) && s.Low != drill.NoLow {
			*low = float64(s.Low) / 1000
		}
		if s := t.Spans[b]; t.Has(b) && s.High != drill.NoHigh {
			*high = float64(s.High) / 1000
		}
	}
	ends(drill.OfHeight, &out.Low, &out.High)
	ends(drill.OfNorth, &out.South, &out.North)
	ends(drill.OfEast, &out.West, &out.East)
	if s := t.Spans[drill.OfDistance]; t.Has(drill.OfDistance) && s.High != drill.NoHigh {
		out.Mark, out.Round = vec.V{X: float64(t.Mark[0]) / 1000, Y: float64(t.Mark[1]) / 1000}, float64(s.High)/1000
	}
	if t.Has(drill.OfNose) {
		out.Nose, out.Within = float64(t.Nose)/1800*math.Pi, float64(t.Spans[drill.OfNose].High)/1800*math.Pi
	}
	return out
}

// flown tells whether the case that runs is about how the craft flies.
func (r *Run) flown() bool {
	if !r.On {
		return false
	}
	c, _ := r.asked()
	return c.Flown()
}

// flight draws the craft that flies a task, with where it is to fly and the figures that are asked for: from where the pilot stands, and where there is
// something on the ground to fly to, from above. A try that is looked at is played there.
func (b *board) flight(r ink.Rect) {
	b.Group("flight")
	run := &Of(b.V).Run
	snap, trail, now := b.V.Snap, b.V.Flight.Trail, drill.FactsOf(&b.V.Snap, b.V.Config).Flown
	if run.looks() && run.Way != nil && run.Way.Flight.Moments() > 0 {
		now, trail = run.again(&snap)
	}
	fl := figure.NewFlying(&snap, b.V.Config, trail)
	fl.Haunts = fl.Haunts && !run.looks()
	c, _ := run.asked()
	if c.Blows() {
		fl.Wind = snap.In.Wind
	}
	if figures := tell.FlownFigures(c, &now); len(figures) > 0 {
		r = b.figures(r, figures)
	}
	ground := false
	for _, t := range run.tasks() {
		one := target(&t, &now)
		ground = ground || one.Ground()
		fl.Show(one)
	}
	stand := figure.EyeBehind(0)
	switch {
	case !ground:
		b.Upright("stand", r, stand, &fl)
	case r.W < r.H*1.1:
		b.Upright("stand", r.Cell(0, 1, 2, b.Gap), stand, &fl)
		b.Downward(r.Cell(1, 1, 2, b.Gap), &fl)
	default:
		b.Upright("stand", r.Cell(0, 2, 1, b.Gap), stand, &fl)
		b.Downward(r.Cell(1, 2, 1, b.Gap), &fl)
	}
}

// figures writes figures in a row below a picture, large where there is room for all of them; it gives what is left for the picture.
func (b *board) figures(r ink.Rect, all []words.Text) (rest ink.Rect) {
	style, wide := ink.Style{Size: b.Head, Weight: ink.Bold}, 0.0
	for _, t := range all {
		wide = max(wide, ink.Width(b.Say(t), style.Size, style.Weight))
	}
	room := r.Cell(0, len(all), 1, b.Gap).W
	style.Size = min(style.Size, max(b.Small, style.Size*room/wide*0.99))
	row, rest := r.CutBottom(ink.BlockHeight(style.Size, 1), 4*b.U)
	for i, t := range all {
		b.Fitted("flown-figure", row.Cell(i, len(all), 1, b.Gap), style, b.Say(t))
	}
	return rest
}

// again has the craft of a snapshot be where it was at the moment of the try that is shown; it gives how it flew there, and its way so far.
func (r *Run) again(s *sim.Snapshot) (now drill.Flown, trail []ui.TrailPoint) {
	tick, f := r.replayed(s.Tick), &r.Way.Flight
	for i := range f.Moments() {
		m := f.At(i)
		if m.Tick > tick && i > 0 {
			break
		}
		now = m.Flown
		if m.Tick >= r.from() {
			trail = append(trail, ui.TrailPoint{Tick: m.Tick, Pos: placeOf(&now)})
		}
	}
	tenths := math.Pi / 1800
	body := &s.Air.Body
	body.Pos = placeOf(&now)
	body.Att = ui.TurnBy(vec.V{Z: float64(now.Nose) * tenths}).Mul(ui.TurnBy(vec.V{Y: float64(now.Pitch) * tenths})).Mul(ui.TurnBy(vec.V{X: float64(now.Bank) * tenths}))
	s.Tick = tick
	return now, trail
}

// placeOf is where a craft was, in m.
func placeOf(f *drill.Flown) vec.V {
	return vec.V{X: float64(f.North) / 1000, Y: float64(f.East) / 1000, Z: -float64(f.Height) / 1000}
}
