package learn

import "propsoff.example/input/radio"

// replaySeen is what was seen in the replay.
type replaySeen struct {
	seen   []bool // by index in found
	active int    // the control that is away now, −1 for none, allBack while all must go back
}

// rowSeen is where a control of buttons stands, since when, and the position in which it was left.
type rowSeen struct {
	position, home int
	since          int64
}

func (s *replaySeen) begin(l *Learner) {
	if len(s.seen) != len(l.found) || l.notice.Code != Lost {
		s.seen = make([]bool, len(l.found))
	}
	s.active = allBack // the sticks may still be in their corners
}

// position is that of a control of buttons; last is the one that it keeps while none is pressed.
func (l *Learner) position(k, last int) int {
	c := &l.found[k].control
	if c.Form == radio.Axis {
		return 0
	}
	if c.Form == radio.Button {
		if l.raw.Button(c.Buttons[0]) {
			return 1
		}
		return 0
	}
	at := last
	for i, b := range c.Buttons {
		if b == radio.None {
			at = i
		}
	}
	for i, b := range c.Buttons {
		if l.raw.Button(b) {
			return i
		}
	}
	return at
}

// rowAway reports whether a control of buttons is away from the position in which it was left, and whether it stands
// there for a moment. After a while it is left there.
func (l *Learner) rowAway(k int) (away, stands bool) {
	r := &l.rows[k]
	if p := l.position(k, r.position); p != r.position {
		r.position, r.since = p, l.at
	}
	away, stands = r.position != r.home, l.at-r.since >= heldFor
	if l.at-r.since >= stillFor {
		r.home = r.position
	}
	return away, stands
}

// displaced reports whether a control is away from where it rested, and whether it stands there for a moment. One that
// stays where it is put is at rest there after a while.
func (l *Learner) displaced(k int) (away, stands bool) {
	a := &l.found[k]
	if a.control.Form != radio.Axis {
		return l.rowAway(k)
	}
	t := &l.axes[a.control.Axis]
	enough, home := clear, a.home
	switch {
	case len(a.stands) > 0: // a switch: any step counts
		enough = little / 2
	case a.knob:
		enough = crosstalk
	}
	if low, high, ok := t.reached(l.at); ok && len(a.stands) == 0 { // measured by its own way, where that is short
		enough = min(enough, t.share(int64(high-low))*enough/1000)
	}
	stays := a.control.Stays || a.knob || len(a.stands) > 0
	if stays {
		home = t.rest
	}
	away, stands = t.away(home) > enough, t.still(l.at, heldFor)
	if away && stays && t.still(l.at, stillFor) {
		l.newPosition(a, t)
		t.settle(l.at)
	}
	return away, stands
}

// newPosition takes up a place in which a switch stands and that was not known.
func (l *Learner) newPosition(a *answer, t *track) {
	s, ok := t.standing(l.at)
	if !ok || len(a.stands) == 0 {
		return
	}
	was, _ := l.levelsAmong(a.control.Axis, a.stands)
	all := append(a.stands[:len(a.stands):len(a.stands)], s)
	if now, knob := l.positionsOf(a.control.Axis, all); !knob && len(now) > len(was) {
		a.stands = all
		l.notice = note(MorePositions).job(a.control.Job).axis(a.control.Axis)
		l.notice.Count = len(now)
	}
}

// judgeReplay ticks off each control as it is moved and only it moves.
func (l *Learner) judgeReplay() {
	s := &l.replay
	l.phase, l.candidate = Moving, none()
	first, second, count, quick := -1, -1, 0, false
	for k := range l.found {
		if l.found[k].spare {
			continue
		}
		away, stands := l.displaced(k)
		if !away || first >= 0 && l.alongReplay(first, k) {
			continue
		}
		count++
		if first < 0 {
			first, quick = k, stands
		} else if second < 0 {
			second = k
		}
	}
	switch {
	case s.spoilt(count):
		l.phase = Returning
	case count > 1:
		n := note(Two)
		n.Axis, n.Button = sourceOf(&l.found[first].control)
		n.OtherAxis, n.OtherButton = sourceOf(&l.found[second].control)
		n.Job, n.OtherJob = l.found[first].control.Job, l.found[second].control.Job
		l.notice, l.phase, s.active = n, Returning, allBack
	case count == 0:
		if s.active >= 0 && !s.seen[s.active] {
			l.tick(s.active)
		}
		s.active = -1
	default:
		if s.active >= 0 && s.active != first && !s.seen[s.active] {
			l.tick(s.active) // it has gone back, and the next is away already
		}
		s.active = first
		l.phase = Holding
		l.point(first)
		if quick && !s.seen[first] {
			l.tick(first)
		}
	}
	for k, seen := range s.seen {
		if !seen && !l.found[k].spare {
			return
		}
	}
	if l.question() == Replay && s.active < 0 {
		l.plan[l.now].Answered = true
		l.next()
	}
}

// allBack stands for active while everything must go back first.
const allBack = -2

// spoilt reports whether all must still go back first.
func (s *replaySeen) spoilt(count int) bool {
	if s.active == allBack && count == 0 {
		s.active = -1
	}
	return s.active == allBack
}

func (l *Learner) tick(k int) {
	l.replay.seen[k] = true
	if l.notice.Code == Two || l.notice.Code == Lost {
		l.notice = note(Nothing)
	}
}

// alongReplay reports whether one of two controls is known to move the other along.
func (l *Learner) alongReplay(a, b int) bool {
	x, y := &l.found[a].control, &l.found[b].control
	if x.Form != radio.Axis || y.Form != radio.Axis {
		return false
	}
	for _, p := range l.mixes {
		if p.axis == x.Axis && p.other == y.Axis || p.axis == y.Axis && p.other == x.Axis {
			return true
		}
	}
	return false
}

func (l *Learner) point(k int) {
	axis, button := sourceOf(&l.found[k].control)
	l.candidate = candidate{axis: axis, button: button, since: l.at}
	if axis >= 0 {
		l.candidate.since = l.axes[axis].since
	}
}

// sourceOf is the axis or a button of a control, −1 for none.
func sourceOf(c *radio.Control) (axis, button int) {
	if c.Form == radio.Axis {
		return c.Axis, -1
	}
	for _, b := range c.Buttons {
		if b >= 0 {
			return -1, b
		}
	}
	return -1, -1
}
