package drills

import (
	"math/bits"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// hands draws what the task is about of sticks and switches, large, at the side where they are held. A try that is looked at is played there, a quarter
// as fast, from what was held in it.
func (b *board) hands(r ink.Rect, s *shown) {
	b.Group("hands")
	run, live := &Of(b.V).Run, b.V.Snap.In
	if run.replays() {
		d := b.Down(r, 4*b.U)
		d.Lines(3, "slowly", b.Say(words.T("drill.slowly")), ink.Style{Size: b.Body, Colour: ink.Faint})
		r = d.R
		b.held(run.Way.Held(run.replayed(b.V.Snap.Tick)))
	}
	var levers []drill.Job
	for _, j := range [...]drill.Job{drill.Arm, drill.Second, drill.ModeJob} {
		if s.levers[j] && j.Channel(&b.V.Config.Layout) >= 0 {
			levers = append(levers, j)
		}
	}
	side, sticks := r, r
	if s.sticks {
		sticks, side = b.besideRadio(r)
	}
	if least := leastSide * b.U; len(levers) > 0 && side.W > least && side.H > least && b.seated(levers) {
		r = sticks
		b.radio(side, levers)
		b.Group("hands")
	} else if len(levers) > 0 {
		side = r
		if s.sticks {
			need := 0.0
			for _, j := range levers {
				need += max(b.leverNeeds(j), min(r.W*0.17, r.H*0.62)) + b.Gap
			}
			r, side = r.CutLeft(r.W-min(need, r.W*0.62), b.Gap)
		}
		var parts []ink.Part
		for _, j := range levers {
			parts = append(parts, ink.Share(max(b.leverNeeds(j), b.Gap), 0))
		}
		for i, cell := range side.Columns(nil, b.Gap, parts...) {
			b.lever(cell, levers[i])
		}
	}
	if s.sticks {
		b.BothSticks(r, b.stick)
	}
	b.V.Snap.In = live
}

// held has the view show what was held at a moment of the try that is looked at, until it is put back.
func (b *board) held(m *drill.Moment) {
	for j := drill.Throttle; j < drill.Jobs; j++ {
		if c := j.Channel(&b.V.Config.Layout); c >= 0 {
			b.V.Snap.In.Sent[c] = m.Held[j]
		}
	}
}

// The times of a try that is looked at, in ticks (ours): how much of it before the cue, or before the end of one that had none, is played, and at most.
const (
	beforeCue = 500
	beforeEnd = 2000
	mostShown = 8000
	slower    = 4
)

// from is the tick of the try from which on it is shown again.
func (r *Run) from() int64 {
	from := r.Way.Cue - beforeCue
	if !r.Way.Called {
		from = r.Way.To - beforeEnd
	}
	return max(from, r.Way.From, r.Way.To-mostShown)
}

// replayed is the tick of the try that is shown now.
func (r *Run) replayed(now int64) int64 {
	return min(r.from()+(now-r.State.Since)/slower, r.Way.To)
}

// jobOf is the job of a stick as drills count it.
var jobOf = map[string]drill.Job{"throttle": drill.Throttle, "roll": drill.Roll, "pitch": drill.Pitch, "yaw": drill.Yaw}

// stick draws one stick in its well: what it carries, the keys that move it, where it is to go as far as that is told, and where it was.
func (b *board) stick(r ink.Rect, g figure.Gimbal, name string) {
	key := 0.0
	if b.StickCaps() && !b.V.Class {
		key = b.Cap + 4*b.U
	}
	line := ink.BlockHeight(b.Body, 1)
	size := max(min(r.W-2*key, r.H-2*line-2*key-6*b.U), 40*b.U)
	top := r.Y + (r.H-size-2*line-2*key-6*b.U)/2
	well := ink.Rect{X: r.Centre().X - size/2, Y: top + line + key + 3*b.U, W: size, H: size}
	c := well.Centre()
	if key > 0 {
		k := key / 2
		b.KeyCap(name+" up-key", c.X, well.Y-k, b.Cap, ui.KeyOf(figure.JobFacts[g.Up].High))
		b.KeyCap(name+" down-key", c.X, well.Bottom()+k, b.Cap, ui.KeyOf(figure.JobFacts[g.Up].Low))
		b.KeyCap(name+" left-key", well.X-k, c.Y, b.Cap, ui.KeyOf(figure.JobFacts[g.Across].Low))
		b.KeyCap(name+" right-key", well.Right()+k, c.Y, b.Cap, ui.KeyOf(figure.JobFacts[g.Across].High))
	}
	word := ink.Style{Size: b.Body, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}
	b.Text(name+" up", c.X, top+line/2, word, b.Say(tell.JobName(figure.JobFacts[g.Up].Word)))
	b.Text(name+" across", c.X, well.Bottom()+key+3*b.U+line/2, word, b.Say(tell.JobName(figure.JobFacts[g.Across].Word)))
	b.RoundRect(name+" well", well, 8*b.U, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U})
	across, up := b.goal(jobOf[figure.JobFacts[g.Across].Word]), b.goal(jobOf[figure.JobFacts[g.Up].Word])
	if up.narrow { // a band from side to side is seen beside the stick
		across = goal{}
	}
	if in := well.Inset(10 * b.U); across.ok || up.ok {
		b.target(name, well, in, across, up)
	}
	b.InWell(name, well, g, b.way)
}

// goal is where a control is to be, from one width to another.
type goal struct {
	from, to pulse.Width
	ok, in   bool
	// narrow: the stick alone would hide it.
	narrow bool
}

// goal is where a stick is to be now, as far as the sheet tells it.
func (b *board) goal(j drill.Job) (z goal) {
	raised := false // as far as not to be down
	for _, w := range b.goals() {
		if w.Kind == drill.HoverThrottle && j == drill.Throttle && !z.ok {
			z.from, z.to = drill.HoverSpan(b.V.Config)
			z.ok, z.narrow = true, true
		}
		set, is := w.B, w.Kind == drill.Stick && drill.Throttle+drill.Job(w.A) == j
		corner := facts.BySticks(b.V.Config) && (w.Kind == drill.DisarmedBy || w.Kind == drill.Armed && (w.A == 1) != b.V.Snap.Armed)
		switch {
		case corner && j == drill.Throttle:
			set, is = 1<<drill.Down, true
		case corner && j == drill.Yaw && w.Kind == drill.Armed && w.A == 1:
			set, is = 1<<drill.High, true
		case corner && j == drill.Yaw:
			set, is = 1<<drill.Low, true
		}
		if !is || z.ok {
			continue
		}
		raised = j == drill.Throttle && set>>drill.Down&1 == 0
		for zone := drill.Down; zone < drill.Zones; zone++ {
			from, to, ok := drill.SpanOf(zone, j == drill.Throttle, b.V.Config.Arming.LowThrottle)
			if set>>zone&1 == 0 || !ok {
				continue
			}
			if !z.ok {
				z.from, z.to = from, to
			}
			z.from, z.to, z.ok = min(z.from, from), max(z.to, to), true
		}
	}
	if !z.ok {
		z.from, z.to, z.ok = b.inGesture(j)
	}
	if low := b.V.Config.Arming.LowThrottle; raised && z.from < low {
		z.from = low
	}
	z.ok = z.ok && (z.from > pulse.Low || z.to < pulse.High) // anywhere is no place to go to
	if c := j.Channel(&b.V.Config.Layout); c >= 0 && z.ok {
		held := b.V.Snap.In.Sent[c]
		z.in = held.Valid() && (held >= z.from || z.from == pulse.Low) && (held <= z.to || z.to == pulse.High)
	}
	if j == drill.Throttle && z.ok && z.from == pulse.Low { // the low mark alone is hardly to be seen
		z.to = max(z.to, pulse.FullyLow)
	}
	return z
}

// goals are the wants whose places the sheet shows: those of the step that is prepared, and those of the cue as long as it is taught, or when a try is
// looked at; of one that began too early what should have stayed, as its cue was not called. Of those that have an order it is the one whose turn it is:
// to show a later one would tempt.
func (b *board) goals() []drill.Want {
	run := &Of(b.V).Run
	if !(run.Cue() && run.taught() || run.replays()) {
		return run.steps()
	}
	c, _ := run.asked()
	if n := len(c.Before); run.early() && n > 0 {
		return c.Before[n-1].Until
	}
	if done := bits.TrailingZeros32(^run.State.Done); c.InOrder && done < len(c.Wants) {
		return c.Wants[done : done+1]
	}
	return c.Wants
}

// target is where a stick is to go: hatched, with a dashed edge, and a full one once it is there.
func (b *board) target(name string, well, in ink.Rect, across, up goal) {
	z := well.Inset(b.U)
	if across.ok {
		x0, x1 := in.X+in.W*figure.Share(across.from), in.X+in.W*figure.Share(across.to)
		if across.from == pulse.Low {
			x0 = z.X
		}
		if across.to == pulse.High {
			x1 = z.Right()
		}
		z.X, z.W = x0, x1-x0
	}
	if up.ok {
		y0, y1 := in.Bottom()-in.H*figure.Share(up.to), in.Bottom()-in.H*figure.Share(up.from)
		if up.from == pulse.Low {
			y1 = well.Bottom() - b.U
		}
		if up.to == pulse.High {
			y0 = well.Y + b.U
		}
		if least := 8 * b.U; up.narrow && y1-y0 < least {
			y0, y1 = (y0+y1-least)/2, (y0+y1+least)/2
		}
		z.Y, z.H = y0, y1-y0
	}
	b.Rect(name+" target-ground", z.Inset(b.U), ink.Paint{Fill: ink.Panel})
	b.Hatch(name+" target-shade", z, ink.Grid)
	b.Rect(name+" target", z, b.ZoneEdge((!across.ok || across.in) && (!up.ok || up.in)))
}

// liveTicks is how much of the way of a stick is drawn while a drill runs (ours).
const liveTicks = 1500

// way draws where a stick has been: just now, or in the try that is looked at from its beginning on.
func (b *board) way(name string, in ink.Rect, g figure.Gimbal) {
	run := &Of(b.V).Run
	if !run.replays() {
		b.Been(in, g, liveTicks, 0)
		b.Polyline(name+" trail", b.V.Pts, ink.Paint{Line: figure.JobFacts[g.Up].Pen, Width: 1.5 * b.U})
		return
	}
	across, up := jobOf[figure.JobFacts[g.Across].Word], jobOf[figure.JobFacts[g.Up].Word]
	from, to := run.from(), run.replayed(b.V.Snap.Tick)
	pts := b.V.Pts[:0]
	note := func(m *drill.Moment) {
		a, u := m.Held[across], m.Held[up]
		if q := figure.Place(in, a, a.Valid(), u, u.Valid()); len(pts) == 0 || pts[len(pts)-1] != q {
			pts = append(pts, q)
		}
	}
	note(run.Way.Held(from))
	for i := range run.Way.Moments() {
		if m := run.Way.At(i); m.Tick > from && m.Tick <= to {
			note(m)
		}
	}
	b.V.Pts = pts
	b.Polyline(name+" hand", pts, ink.Paint{Line: figure.JobFacts[g.Up].Pen, Width: 2.5 * b.U})
}

// switchOf is the switch of a job as the craft has it, nil where it has none.
func (b *board) switchOf(j drill.Job) *figure.Lever {
	all := figure.Levers(b.V)
	n := slices.IndexFunc(all, func(l figure.Lever) bool { return l.Channel == j.Channel(&b.V.Config.Layout) })
	if n < 0 {
		return nil
	}
	return &all[n]
}

// leverNeeds is the width that the words of a switch take.
func (b *board) leverNeeds(j drill.Job) (need float64) {
	l := b.switchOf(j)
	if l == nil {
		return 0
	}
	for _, word := range strings.Fields(b.Say(tell.SwitchOfJob(l.Name))) {
		need = max(need, ink.Width(word, b.Body, ink.Regular)+2*b.U)
	}
	for i := range l.At {
		need = max(need, ink.Width(b.Say(l.At[i].Word), b.Body, ink.Bold)+44*b.U)
	}
	return need
}

// lever draws a switch large: its slot with its positions from high to low, the lever where it stands, and where it is to go as far as that is told.
// What a position does is written beside it only while that is taught or looked at.
func (b *board) lever(r ink.Rect, j drill.Job) {
	run := &Of(b.V).Run
	l := b.switchOf(j)
	if l == nil {
		return
	}
	line := ink.BlockHeight(b.Body, 1)
	head, rest := r.CutTop(ink.BlockHeight(b.Body, 2), 4*b.U)
	name := b.Say(tell.SwitchOfJob(l.Name))
	if !b.fit(head.W, ink.Regular, strings.Fields(name)...) {
		name = b.Say(tell.JobName(l.Name))
	}
	if ink.Width(name, b.Body, ink.Regular) <= head.W { // beside the words of the sticks
		head = ink.Rect{X: r.X, Y: rest.Y - 4*b.U - line, W: r.W, H: line}
	}
	b.Down(head, 0).Lines(2, l.Name+" name", name, ink.Style{Size: b.Body, Colour: ink.Faint})
	if b.StickCaps() && !b.V.Class {
		rest = b.leverKeys(rest, l)
	}
	var all []string
	for i := range l.At {
		all = append(all, b.Say(l.At[i].Word))
	}
	live, to := -1, b.leverGoal(l, j)
	if w := b.V.Snap.In.Sent[l.Channel]; b.V.Snap.In.HasSent && w.Valid() {
		live = l.Live(w)
	}
	h := min(rest.H/float64(len(l.At)), 90*b.U)
	x, wide := rest.X+16*b.U, min(15*b.U, max(rest.W*0.14, 10*b.U))
	told := (!run.Cue() || run.taught() && !b.V.HideMode) && b.fit(rest.Right()-x-wide-9*b.U, ink.Bold, all...)
	b.Line(l.Name+" slot", x, rest.Y+h*0.4, x, rest.Y+h*(float64(len(l.At))-0.4), ink.Paint{Line: ink.Rule, Width: 3 * b.U})
	for i := range l.At {
		y := rest.Y + h*(float64(i)+0.5)
		place := ink.Rect{X: rest.X, Y: y - h*0.4, W: rest.W, H: h * 0.8}
		if i == to {
			b.Hatch(l.Name+" target-shade", place, ink.Grid)
			b.Rect(l.Name+" target", place, b.ZoneEdge(i == live))
		}
		if i == live {
			b.RoundRect(l.Name+" lever", ink.Rect{X: x - wide, Y: y - 9*b.U, W: 2 * wide, H: 18 * b.U}, 4*b.U, ink.Paint{Fill: ink.Ink})
		} else {
			b.Circle(l.Name+" place", x, y, 5*b.U, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: b.U})
		}
		text := ink.Rect{X: x + wide + 7*b.U, Y: place.Y, W: rest.Right() - x - wide - 9*b.U, H: place.H}
		b.LeverHit(l, i, i == live, place)
		if told {
			style := ink.Style{Size: b.Body}
			if i == live {
				style.Weight = ink.Bold
			}
			b.Fitted(l.Name+" position", text, style, all[i])
		}
	}
}

// fit tells whether each of some words has room in a width.
func (b *board) fit(w float64, weight ink.Weight, all ...string) bool {
	return !slices.ContainsFunc(all, func(word string) bool { return ink.Width(word, b.Body, weight) > w })
}

// leverKeys writes the keys that move a switch above it; it gives what is left below.
func (b *board) leverKeys(r ink.Rect, l *figure.Lever) ink.Rect {
	keys := l.Keys()
	if len(keys) == 0 {
		return r
	}
	row, rest := r.CutTop(b.Cap, 4*b.U)
	x := row.X
	for _, k := range keys {
		w := b.CapWidth(b.Cap, k)
		if x+w > row.Right() {
			break
		}
		b.KeyCap(l.Name+" key", x+w/2, row.Centre().Y, b.Cap, k)
		x += w + 3*b.U
	}
	return rest
}

// leverGoal is the position in which a switch is to be now, as far as the sheet tells it; −1 for none.
func (b *board) leverGoal(l *figure.Lever, j drill.Job) int {
	cfg := &b.V.Config.Layout
	for _, w := range b.goals() {
		is := func(pulse.Width) bool { return false }
		switch {
		case j == drill.ModeJob && (w.Kind == drill.Mode || w.Kind == drill.ModeSwitch):
			is = func(x pulse.Width) bool { return int32(cfg.ModeAt(x)) == w.A }
		case j == drill.Arm && (w.Kind == drill.ArmSwitch || w.Kind == drill.Armed):
			is = func(x pulse.Width) bool { return cfg.ArmSpan.Contains(x) == (w.A == 1) }
		case j == drill.Arm && w.Kind == drill.DisarmedBy && w.A>>happening.BySwitch&1 == 1:
			is = func(x pulse.Width) bool { return !cfg.ArmSpan.Contains(x) }
		case j == drill.Second && w.Kind == drill.SecondSwitch:
			is = func(x pulse.Width) bool { return cfg.SecondSpan.Contains(x) == (w.A == 1) }
		}
		for _, x := range [...]pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
			if is(x) {
				return l.Live(x)
			}
		}
	}
	return -1
}
