package drill

import (
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// DidKind says what there is to say of what a hand did.
type DidKind uint8

// The kinds. By is a time in ticks or a way in pulse widths.
const (
	DidNoMatter  DidKind = iota // the try was not about hands, or nothing can be said of them
	DidNothing                  // nothing moved; Job: what should have, NoJob where there is more than one
	DidEarly                    // Job moved, By ticks before the cue; By is 0 where the cue was far off
	DidLate                     // all was done, By ticks too late
	DidFirst                    // Job moved first, by By, and another was asked for
	DidToo                      // Job moved too, by By, and must not
	DidShort                    // Job went towards Zones and stopped at At
	DidThrough                  // Job was in Zones, and stayed By ticks only
	DidOther                    // Job was asked for and lay still; Instead moved by By
	DidWrongWay                 // Job was asked for and went the other way
	DidElsewhere                // Job, a switch, was moved to another position than the one asked for
)

// Did is what the hand did in a try that was not right.
type Did struct {
	Kind         DidKind
	Job, Instead Job
	// By is a time in ticks, Way and At are a way and a place in pulse widths; Zones is a set of Zone.
	By      int64
	Way, At pulse.Width
	Zones   int32
}

const (
	// moved is how far a stick must have gone to have moved, in pulse widths (ours): no hand rests so badly.
	moved = 60 * pulse.Eighths
	// farOff is how long before the cue a movement was not early but something else (ours).
	farOff = 3000
)

// path is what one control did in a try.
type path struct {
	// at is the tick at which it had moved, −1 for never. way is how far it went, low and high how far each way.
	at        int64
	way       pulse.Width
	low, high pulse.Width
}

// DidOf says what the hand did in a try that has ended.
func DidOf(cfg *Config, t *Try, w *Way) Did {
	c := &cfg.Cases[min(int(t.Case), len(cfg.Cases)-1)]
	var jobs [Jobs]path
	for j := Throttle; j < Jobs; j++ {
		jobs[j] = w.follow(j)
	}
	first := firstMoved(&jobs)
	switch t.Verdict {
	case Right, Void:
		return Did{}
	case FalseStart, Anticipated:
		return early(w, &jobs, first)
	case TooLate:
		if t.Why == CameLate {
			return Did{Kind: DidLate, By: int64(t.Reaction - c.Within)}
		}
		return missed(c, int(t.Number), w, &jobs, first)
	}
	switch {
	case t.Why == NeverSeen && int(t.Number) < len(c.Nevers):
		return w.slipped(c, w.control(&c.Nevers[t.Number]), &jobs)
	case t.Why == OutOfOrder && int(t.Number) < len(c.Wants):
		if j := w.control(&c.Wants[t.Number]); j != NoJob && jobs[j].at >= 0 {
			return moving(DidFirst, j, &jobs)
		}
	}
	return Did{}
}

// follow is what one control did from the beginning of the wait on.
func (w *Way) follow(j Job) path {
	from := w.Before.Held[j]
	c := path{at: -1, low: from, high: from}
	for i := range w.n {
		m := w.At(i)
		held := m.Held[j]
		if !held.Valid() || !from.Valid() {
			continue
		}
		c.low, c.high = min(c.low, held), max(c.high, held)
		if c.at < 0 && w.left(j, m) {
			c.at = m.Tick
		}
	}
	c.way = max(c.high-from, from-c.low)
	return c
}

// left reports whether a control is no longer where it was when the wait began: a switch in another position, a stick some way off.
func (w *Way) left(j Job, m *Moment) bool {
	switch j {
	case Arm:
		return m.Arm != w.Before.Arm
	case Second:
		return m.Second != w.Before.Second
	case ModeJob:
		return m.Mode != w.Before.Mode
	}
	return max(m.Held[j]-w.Before.Held[j], w.Before.Held[j]-m.Held[j]) > moved
}

// firstMoved is the control that moved first, NoJob where none did.
func firstMoved(jobs *[Jobs]path) Job {
	first := NoJob
	for j := Throttle; j < Jobs; j++ {
		if at := jobs[j].at; at >= 0 && (first == NoJob || at < jobs[first].at) {
			first = j
		}
	}
	return first
}

// early is a hand that moved before the cue.
func early(w *Way, jobs *[Jobs]path, first Job) Did {
	if first == NoJob {
		return Did{}
	}
	d := moving(DidEarly, first, jobs)
	d.By = w.Cue - jobs[first].at
	if d.By < 0 { // after the cue, and sooner than any hand
		return Did{}
	}
	if d.By > farOff {
		d.By = 0
	}
	return d
}

// control is the control that a want is about, NoJob where it is about none, or about more than one.
func (w *Way) control(want *Want) Job {
	switch want.Kind {
	case Stick, Mode, ModeSwitch:
		return want.control()
	case ArmSwitch:
		return Arm
	case SecondSwitch:
		return Second
	case Armed, DisarmedBy, Refused:
		if w.Before.Held[Arm].Valid() && (want.Kind != DisarmedBy || want.A>>happening.BySwitch&1 == 1) {
			return Arm
		}
	}
	return NoJob
}

// asks reports whether a case wants a control to be moved.
func (w *Way) asks(c *Case, j Job) bool {
	for i := range c.Wants {
		if w.control(&c.Wants[i]) == j {
			return true
		}
	}
	return false
}

// missed is a hand that did not do what was asked in time.
func missed(c *Case, n int, w *Way, jobs *[Jobs]path, first Job) Did {
	if n >= len(c.Wants) {
		return Did{}
	}
	want := &c.Wants[n]
	j, corner := w.control(want), want.Kind == DisarmedBy && want.A>>happening.BySticks&1 == 1
	switch {
	case want.Kind == Answer:
		return Did{}
	case first == NoJob && (j != NoJob || corner):
		return Did{Kind: DidNothing, Job: j}
	case corner && j == NoJob:
		return cornered(jobs)
	case j == NoJob:
		return Did{}
	case jobs[j].at < 0 && first != j && !w.asks(c, first):
		d := moving(DidOther, first, jobs)
		d.Job, d.Instead = j, first
		return d
	case jobs[j].at < 0:
		return Did{Kind: DidNothing, Job: j}
	case want.Kind == Stick:
		return reached(want, j, w, &jobs[j])
	}
	return Did{Kind: DidElsewhere, Job: j}
}

// cornered is how near the sticks came to the corner that disarms: throttle low and yaw left.
func cornered(jobs *[Jobs]path) Did {
	for _, j := range [...]Job{Throttle, Yaw} {
		if low := jobs[j].low; low > pulse.FullyLow {
			return Did{Kind: DidShort, Job: j, Zones: 1 << Low, Way: jobs[j].way, At: low}
		}
	}
	return Did{}
}

// reached is how near a stick came to where it was asked to go.
func reached(want *Want, j Job, w *Way, c *path) Did {
	d := Did{Kind: DidShort, Job: j, Zones: want.B, Way: c.way}
	since, longest := int64(-1), int64(-1)
	for i := range w.n {
		m := w.At(i)
		if in := want.B>>zone(m.Held[j])&1 == 1 || want.B>>Down&1 == 1 && m.Held[j].Valid() && m.Held[j] <= pulse.FullyLow; !in {
			since = -1
			continue
		}
		if since < 0 {
			since = m.Tick
		}
		end := w.To
		if i+1 < w.n {
			end = w.At(i + 1).Tick
		}
		longest = max(longest, end-since)
	}
	if longest >= 0 && want.B>>Down&1 == 0 {
		d.Kind, d.By = DidThrough, longest
		return d
	}
	if d.At = c.high; c.high-w.Before.Held[j] < w.Before.Held[j]-c.low {
		d.At = c.low
	}
	return d
}

// slipped is a hand that moved what it must not.
func (w *Way) slipped(c *Case, j Job, jobs *[Jobs]path) Did {
	switch {
	case j == NoJob || jobs[j].at < 0:
		return Did{}
	case w.asks(c, j) && j <= Yaw:
		return moving(DidWrongWay, j, jobs)
	case w.asks(c, j) && j == ModeJob:
		return moving(DidElsewhere, j, jobs)
	case w.asks(c, j):
		return Did{}
	}
	for k := Throttle; k < Jobs; k++ { // what was asked for moved before
		if w.asks(c, k) && jobs[k].at >= 0 && jobs[k].at <= jobs[j].at {
			return moving(DidToo, j, jobs)
		}
	}
	return moving(DidFirst, j, jobs)
}

// moving is a control that moved; how far is told of sticks alone.
func moving(kind DidKind, j Job, jobs *[Jobs]path) Did {
	d := Did{Kind: kind, Job: j}
	if j <= Yaw {
		d.Way = jobs[j].way
	}
	return d
}
