package learn

import (
	"math"
	"slices"

	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// A radio file that somebody else learned is not learned again but tried: all directions at once, then each control once. What answers
// must be what the file has for it.

// Try begins to try a file on the device of info. Nothing of the file is changed but that it was given, and that only where nothing was
// left out.
func Try(info input.Info, file radio.File) *Learner {
	l := begun(info, Options{StickMode: file.StickMode, ModeGiven: true})
	l.tried = &file
	full := file.Filled(&info)
	for _, c := range full.Controls {
		if a, ok := l.fromFile(c); ok {
			l.found = append(l.found, a)
		}
	}
	l.own()
	l.tryAll()
	return l
}

// Tries reports whether a radio file is tried, and nothing is learned.
func (l *Learner) Tries() bool { return l.tried != nil }

// tryAll asks everything, from the beginning.
func (l *Learner) tryAll() {
	l.plan = append(l.plan[:0], Item{Question: TopRight})
	add := func(c *radio.Control) {
		if c.With == "" { // else it is the same piece of the radio as another
			l.plan = append(l.plan, Item{Question: Once, Job: c.Job})
		}
	}
	for _, job := range sticksInOrder {
		if c, ok := l.tried.Control(job); ok {
			add(&c)
		}
	}
	for i := range l.tried.Controls {
		if c := &l.tried.Controls[i]; !slices.Contains(sticksInOrder[:], c.Job) {
			add(c)
		}
	}
	l.ask(0)
}

// fromFile is a control as if it had been found; false for one that this radio has not, and for one that is the same piece as another.
func (l *Learner) fromFile(c radio.Control) (a answer, ok bool) {
	if c.With != "" {
		return a, false
	}
	a = answer{item: -1, control: c}
	if c.Form != radio.Axis {
		for _, b := range c.Buttons {
			switch {
			case b == radio.None:
			case b < 0 || b >= min(l.info.Buttons, input.MaxButtons):
				return a, false
			default:
				a.buttons.add(b)
			}
		}
		return a, len(c.Buttons) > 0
	}
	if c.Axis < 0 || c.Axis >= len(l.axes) || l.axes[c.Axis].dead() || c.Scale == nil {
		return a, false
	}
	a.turned = c.Scale.Low > c.Scale.High
	a.low, a.high = float64(c.Scale.Low)/2, float64(c.Scale.High)/2
	if r := c.Reach; r != nil {
		a.low, a.high = float64(r.Low), float64(r.High)
		if a.turned {
			a.low, a.high = a.high, a.low
		}
	}
	a.knob = len(c.Positions) == 0 && !slices.Contains(sticksInOrder[:], c.Job)
	return a, a.low != a.high
}

// triedFile is the file, given no longer where all of it was tried.
func (l *Learner) triedFile() radio.File {
	f := *l.tried
	f.Given = f.Given && slices.ContainsFunc(l.plan, func(i Item) bool { return !i.Answered })
	return f
}

// leave leaves out what is asked and what comes after it, up to an item of the plan.
func (l *Learner) leave(until int) {
	for i := l.now; i < until; i++ {
		l.plan[i].Skipped = !l.plan[i].Answered
	}
	l.next()
}

// handsOff tells whether no stick that springs back is held: each is about the middle, or where it rested at first.
func (l *Learner) handsOff() bool {
	if l.homes == nil {
		for i := range l.axes {
			l.homes = append(l.homes, l.axes[i].rest)
		}
	}
	for k := range l.found {
		a := &l.found[k]
		if a.control.Form != radio.Axis || a.control.Stays || a.control.IsSwitch() {
			continue
		}
		t := &l.axes[a.control.Axis]
		if p := t.place(t.now); (p < lowerEnd || p > upperEnd) && t.away(l.homes[a.control.Axis]) > returned {
			return false
		}
	}
	return true
}

// wayOf is where a stick or knob stands between its low end, 0, and its high end, 1000.
func (l *Learner) wayOf(a *answer) int {
	return int((float64(l.axes[a.control.Axis].now) - a.low) * 1000 / (a.high - a.low))
}

// placeOf is the position in which a switch of the file stands, and whether it has stood there for a while; was is the one before. On an
// axis it is −1 where the file has none.
func (l *Learner) placeOf(k, was int, d int64) (place int, stands bool) {
	c := &l.found[k].control
	if c.Form != radio.Axis {
		if c.Momentary {
			was = -1
		}
		return l.position(k, was), l.at-l.once.since(l, c) >= d
	}
	t, best := &l.axes[c.Axis], 0
	now := float64(t.middle())
	off := func(p int) float64 { return math.Abs(float64(c.Positions[p].At)/2 - now) }
	for p := range c.Positions {
		if off(p) < off(best) {
			best = p
		}
	}
	if off(best) > max(t.span()*stepped/1000, 3*float64(c.Positions[best].Spread)/10) {
		best = -1
	}
	return best, t.still(l.at, d)
}
