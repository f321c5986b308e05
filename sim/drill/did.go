package drill

import (
	"slices"

	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
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
	DidFly                      // the craft did not keep to Bound: it was beyond its Side, at Flew
	DidLeave                    // it kept to all for By ticks at most, then no longer to Bound: it was beyond its Side, at Flew
	DidBriefly                  // it kept to all at the end, but for By ticks only
	DidTouch                    // it touched down at Flew, in mm/s
)

// Did is what the hand did in a try that was not right.
type Did struct {
	Kind         DidKind
	Job, Instead Job
	// By is a time in ticks, Way and At are a way and a place in pulse widths; Zones is a set of Zone.
	By      int64
	Way, At pulse.Width
	Zones   int32
	Bound   Bound
	Side    int8
	Flew    int32
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
	from := &w.Before
	if w.Called && t.Verdict != FalseStart && t.Verdict != Anticipated { // what moved before the call is no answer to it
		from = w.Held(w.Cue)
	}
	for j := Throttle; j < Jobs; j++ {
		jobs[j] = w.follow(j, from)
	}
	first, flew := firstMoved(&jobs), Did{}
	switch {
	case t.Verdict == Right || t.Verdict == Void:
	case flewOf(c, t, w, &flew):
		return flew
	case t.Why == CameLate:
		return Did{Kind: DidLate, By: int64(t.Reaction - c.Within)}
	case c.planted(): // what was sent is not what the hand did
	case t.Verdict == FalseStart || t.Verdict == Anticipated:
		return early(w, &jobs, first)
	case t.Verdict == TooLate:
		return missed(c, int(t.Number), w, from, &jobs, first)
	case t.Why == NeverSeen && int(t.Number) < len(c.Nevers):
		return w.slipped(c, w.control(&c.Nevers[t.Number]), &jobs)
	case t.Why == OutOfOrder && int(t.Number) < len(c.Wants):
		return ahead(w.control(&c.Wants[t.Number]), &jobs)
	}
	return Did{}
}

// planted reports whether a case has a fault planted.
func (c *Case) planted() bool {
	fault := func(p Put) bool { return p.Fault.Deed != 0 }
	return slices.ContainsFunc(c.Set, fault) || slices.ContainsFunc(c.Before, func(b Preparation) bool { return slices.ContainsFunc(b.Puts, fault) }) ||
		slices.ContainsFunc(c.With, func(t Timed) bool { return fault(t.Put) })
}

// follow is what one control did from a moment on.
func (w *Way) follow(j Job, begin *Moment) path {
	from := begin.Held[j]
	c := path{at: -1, low: from, high: from}
	for i := range w.n {
		m := w.At(i)
		held := m.Held[j]
		if m.Tick < begin.Tick || !held.Valid() || !from.Valid() {
			continue
		}
		c.low, c.high = min(c.low, held), max(c.high, held)
		if c.at < 0 && m.left(j, begin) {
			c.at = m.Tick
		}
	}
	c.way = max(c.high-from, from-c.low)
	return c
}

// left reports whether a control is no longer where it was at a moment before: a switch in another position, a stick some way off.
func (m *Moment) left(j Job, before *Moment) bool {
	switch j {
	case Arm:
		return m.Arm != before.Arm
	case Second:
		return m.Second != before.Second
	case ModeJob:
		return m.Mode != before.Mode
	}
	return max(m.Held[j]-before.Held[j], before.Held[j]-m.Held[j]) > moved
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

// asked is how often a case wants a control to be moved.
func (w *Way) asked(c *Case, j Job) (n int) {
	for i := range c.Wants {
		if w.control(&c.Wants[i]) == j {
			n++
		}
	}
	return n
}

// missed is a hand that did not do what was asked in time, by what it did from a moment on.
func missed(c *Case, n int, w *Way, from *Moment, jobs *[Jobs]path, first Job) Did {
	if n >= len(c.Wants) {
		return Did{}
	}
	want := &c.Wants[n]
	j, corner := w.control(want), want.Kind == DisarmedBy && want.A>>happening.BySticks&1 == 1
	switch {
	case first == NoJob && (j != NoJob || corner):
		return Did{Kind: DidNothing, Job: j}
	case corner && j == NoJob:
		return cornered(jobs)
	case j == NoJob:
	case jobs[j].at < 0 && w.asked(c, first) == 0 && !c.Flown(): // hands that fly move other sticks all the time
		d := moving(DidOther, first, jobs)
		d.Job, d.Instead = j, first
		return d
	case jobs[j].at < 0:
		return Did{Kind: DidNothing, Job: j}
	case w.asked(c, j) > 1: // its way is that of more than one want
	case want.Kind == Stick:
		return w.reached(c, want, j, &jobs[j], from.Held[j])
	case !want.isAt(w.At(w.n - 1)):
		return Did{Kind: DidElsewhere, Job: j}
	}
	return Did{}
}

// isAt reports whether the switch that a want is about stands where it is to be.
func (w *Want) isAt(m *Moment) bool {
	switch w.Kind {
	case Mode, ModeSwitch:
		return int32(m.Mode) == w.A+1
	case SecondSwitch:
		return at(m.Second, w.A)
	case DisarmedBy:
		return at(m.Arm, 0)
	case Refused:
		return at(m.Arm, 1)
	}
	return at(m.Arm, w.A)
}

// cornered is how near the sticks came to the corner that disarms: throttle low and yaw left.
func cornered(jobs *[Jobs]path) Did {
	for _, j := range [...]Job{Throttle, Yaw} {
		switch c := &jobs[j]; {
		case c.low <= pulse.FullyLow:
		case c.at < 0:
			return Did{Kind: DidNothing, Job: j}
		default:
			return Did{Kind: DidShort, Job: j, Zones: 1 << Low, Way: c.way, At: c.low}
		}
	}
	return Did{}
}

// reached is how near a stick came to where it was asked to go, from where it was.
func (w *Way) reached(c *Case, want *Want, j Job, of *path, from pulse.Width) Did {
	since, longest := w.stay(j, want.B)
	switch {
	case since >= 0 && since > w.Cue+int64(c.Within):
		return Did{Kind: DidLate, By: since - w.Cue - int64(c.Within)}
	case since >= 0: // it is there, and not yet for as long as it is to be
		return Did{}
	case longest >= 0:
		return Did{Kind: DidThrough, Job: j, Zones: want.B, Way: of.way, By: longest}
	}
	d := Did{Kind: DidShort, Job: j, Zones: want.B, Way: of.way, At: of.high}
	if of.high-from < from-of.low {
		d.At = of.low
	}
	if here := int32(1) << zone(from); d.At > from && want.B < here || d.At < from && want.B&(2*here-1) == 0 {
		return Did{Kind: DidWrongWay, Job: j, Way: of.way}
	}
	return d
}

// stay is since when a stick has stood in these zones at the end, and how long it did so at most before; −1 for never.
func (w *Way) stay(j Job, zones int32) (since, longest int64) {
	since, longest = -1, -1
	for i := range w.n {
		m := w.At(i)
		switch in := zones>>m.Sticks[j-Throttle]&1 == 1; {
		case in && since < 0:
			since = m.Tick
		case !in && since >= 0:
			since, longest = -1, max(longest, m.Tick-since)
		}
	}
	return since, longest
}

// slipped is a hand that moved what it must not.
func (w *Way) slipped(c *Case, j Job, jobs *[Jobs]path) Did {
	switch {
	case j == NoJob || jobs[j].at < 0:
		return Did{}
	case w.asked(c, j) == 0:
		return ahead(j, jobs)
	case j <= Yaw:
		return moving(DidWrongWay, j, jobs)
	case j == ModeJob:
		return moving(DidElsewhere, j, jobs)
	}
	return Did{}
}

// ahead is a hand that moved what it was not to move yet, or not at all: first of all, or after something else.
func ahead(j Job, jobs *[Jobs]path) Did {
	if j == NoJob || jobs[j].at < 0 {
		return Did{}
	}
	for k := Throttle; k < Jobs; k++ {
		if k != j && jobs[k].at >= 0 && jobs[k].at <= jobs[j].at {
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
