package learn

import (
	"slices"

	"propsoff.example/input/radio"
)

// onceSeen is what was seen of the one control that is asked for in a try.
type onceSeen struct {
	begun int64 // when the hands were off
	moved bool  // it has left where it stood
	away  bool  // a stick or knob has been elsewhere than at its high end
	low   bool  // a knob has been at its low end
	high  bool  // and at its high end

	// Of a switch: the positions in which it stood, the one in which it stands and that in which it stood at first, −1 for none.
	seen     []bool
	at, from int
	first    bool  // it stood in its first position
	last     int64 // since when it stands in its last one, after the first; −1 while it does not
}

// begin looks how everything stands before the hand moves.
func (s *onceSeen) begin(l *Learner) {
	*s = onceSeen{begun: l.at, last: -1, at: -1, from: -1}
	l.step = ItsWay
	k := l.asked()
	if k < 0 {
		return
	}
	if c := &l.found[k].control; c.IsSwitch() {
		s.seen = make([]bool, max(len(c.Buttons), len(c.Positions), 2))
		s.at, _ = l.placeOf(k, -1, 0)
		s.from = s.at
		s.stands(l.at)
	}
}

// stands takes note of the position in which a switch stands.
func (s *onceSeen) stands(at int64) {
	switch {
	case s.at < 0:
		return
	case s.at == 0:
		s.first = true
	}
	s.seen[s.at] = true
	switch {
	case s.at != len(s.seen)-1 || !s.first:
		s.last = -1
	case s.last < 0:
		s.last = at
	}
}

// count is how many positions were seen, and how many there are.
func (s *onceSeen) count() (seen, all int) {
	for _, is := range s.seen {
		if is {
			seen++
		}
	}
	return seen, len(s.seen)
}

// since is when a control of buttons came to stand as it does.
func (s *onceSeen) since(l *Learner, c *radio.Control) int64 {
	since := s.begun
	for _, b := range c.Buttons {
		if b >= 0 {
			since = max(since, l.pressed[b].pressed, l.pressed[b].released)
		}
	}
	return since
}

// asked is the control that is asked for, −1 where this radio has no such one.
func (l *Learner) asked() int {
	return slices.IndexFunc(l.found, func(a answer) bool { return a.control.Job == l.job() })
}

// nothingFor is how long nothing answers before that is said (ours).
const nothingFor = 8_000_000

// judgeOnce waits until the control that is asked for has been moved alone, as the file has it.
func (l *Learner) judgeOnce() {
	k := l.asked()
	if k < 0 {
		l.phase, l.notice = Moving, l.fileHas(Missing)
		return
	}
	if l.phase == Returning {
		if l.handsOff() && l.at-l.buttonsAt >= stillFor {
			l.phase = Settling // what stays where it was put rests there now
		}
		return
	}
	s, a := &l.once, &l.found[k]
	l.phase, l.candidate = Moving, none()
	s.moved = s.moved || l.leaves(k)
	if l.others(k) {
		return
	}
	if s.moved {
		l.phase = Holding
		l.point(k)
	} else if l.at-s.begun >= nothingFor && l.notice.Code != Another {
		l.notice = l.fileHas(NothingMoves)
	}
	switch {
	case a.control.IsSwitch():
		l.onceSwitch(k)
	case a.knob:
		l.onceKnob(a)
	default:
		l.onceStick(a)
	}
}

// fileHas gives a notice about the control that is asked for, with where the file has it.
func (l *Learner) fileHas(code Code) Notice {
	n := note(code).job(l.job())
	if c, ok := l.tried.Control(l.job()); ok {
		n.Axis, n.Button = sourceOf(&c)
	}
	return n
}

// leaves reports whether a control is away from where it rested when the question began.
func (l *Learner) leaves(k int) bool {
	a := &l.found[k]
	if a.control.Form != radio.Axis {
		now, _ := l.placeOf(k, l.once.at, 0)
		return now != l.once.from
	}
	enough := crosstalk
	if a.control.IsSwitch() {
		enough = little / 2
	}
	t := &l.axes[a.control.Axis]
	return t.away(t.rest) > enough
}

// others reports whether a control moves that is not the one asked for, and says so. Beside the one that is, only what has a job counts: some
// radios tell a control twice.
func (l *Learner) others(asked int) bool {
	moved := l.once.moved
	for i := range l.axes {
		t, k := &l.axes[i], int(l.axisOf[i])
		if k == asked || t.dead() || moved && (k < 0 || l.alongReplay(asked, k)) {
			continue
		}
		if t.away(t.rest) > crosstalk && t.still(l.at, heldFor) || t.away(t.rest) > clear && moved {
			l.another(asked, i, -1)
			return true
		}
	}
	for k := range l.found {
		if a := &l.found[k]; k != asked && a.control.Form != radio.Axis {
			if away, stands := l.rowAway(k); away && stands {
				_, b := sourceOf(&a.control)
				if p := l.rows[k].position; a.control.Form == radio.Row && p < len(a.control.Buttons) && a.control.Buttons[p] >= 0 {
					b = a.control.Buttons[p]
				}
				l.another(asked, -1, b)
				return true
			}
		}
	}
	if b, some := l.changedButtons(); some && !moved && l.at-l.buttonsAt >= heldFor {
		l.another(asked, -1, b)
		return true
	}
	return false
}

// another says that another control answers, beside the one that is asked for or in its place.
func (l *Learner) another(asked, axis, button int) {
	n := l.fileHas(Another)
	if l.once.moved {
		n.Code = Two
		if c := &l.found[asked].control; axis >= 0 && c.Form == radio.Axis {
			t, o := &l.axes[c.Axis], &l.axes[axis]
			if off := t.off(t.rest); off != 0 && l.pairOf(c.Axis, axis, off, o.off(o.rest)) {
				l.mix(l.apart)
				return
			}
		}
	}
	n.OtherAxis, n.OtherButton = axis, button
	k := -1
	if axis >= 0 {
		k = int(l.axisOf[axis])
	} else {
		k = int(l.buttonOf[button])
	}
	if k >= 0 {
		n.OtherJob = l.found[k].control.Job
	}
	l.notice, l.phase, l.candidate = n, Returning, none()
}

// right takes it that what answers is right: what was said before is over.
func (l *Learner) right() {
	if l.notice.Code != Mixed && l.notice.Code != Restless {
		l.notice = note(Nothing)
	}
}

// answeredOnce goes on to the next.
func (l *Learner) answeredOnce() {
	l.right()
	keep := l.notice
	l.plan[l.now].Answered = true
	l.next()
	l.notice = keep
}

// onceStick: to its high end, then let go, or set down where it stays.
func (l *Learner) onceStick(a *answer) {
	t, way, s := &l.axes[a.control.Axis], l.wayOf(a), &l.once
	far := t.away(t.rest) > little
	s.away = s.away || way < cornered-little
	switch {
	case l.step == AndBack:
		l.stickBack(a)
	case way >= cornered && (far || s.away):
		if t.still(l.at, heldFor) {
			l.right()
			l.step = AndBack
		}
	case way <= 1000-cornered && t.away(t.rest) > clear && t.still(l.at, heldFor):
		l.notice = l.fileHas(WrongEnd).share(way)
	case far && t.still(l.at, wordAfter):
		l.notice = l.fileHas(TooShort).share(way)
	}
}

func (l *Learner) stickBack(a *answer) {
	t, way := &l.axes[a.control.Axis], l.wayOf(a)
	switch {
	case !a.control.Stays && t.away(t.rest) > returned:
		if t.still(l.at, springFor) {
			l.notice = l.fileHas(Stayed)
		}
	case !a.control.Stays && !t.still(l.at, heldFor):
	case a.control.Stays && a.control.Job == "throttle" && way > 1000-cornered:
		if way < cornered && t.still(l.at, wordAfter) {
			l.notice = l.fileHas(NotDown).share(way)
		}
	case a.control.Stays && !t.still(l.at, letGoFor): // it may still spring back
	default:
		l.answeredOnce()
	}
}

// onceKnob: from end to end, either first.
func (l *Learner) onceKnob(a *answer) {
	t, way, s := &l.axes[a.control.Axis], l.wayOf(a), &l.once
	s.low, s.high = s.low || way <= 1000-cornered, s.high || way >= cornered
	switch {
	case !s.low || !s.high:
		if s.moved && way > 1000-cornered && way < cornered && t.still(l.at, waitAfter) {
			l.notice = l.fileHas(TooShort).share(way)
		}
	case a.control.Stays:
		if t.still(l.at, heldFor) {
			l.answeredOnce()
		}
	default:
		l.step = AndBack
		if t.away(t.rest) <= returned && t.still(l.at, heldFor) {
			l.answeredOnce()
		} else if t.still(l.at, springFor) {
			l.notice = l.fileHas(Stayed)
		}
	}
}

// onceSwitch: through all its positions, from the first to the last, and left there; or let go where it springs back.
func (l *Learner) onceSwitch(k int) {
	c, s := &l.found[k].control, &l.once
	now, stands := l.placeOf(k, s.at, heldFor)
	if !stands {
		return
	}
	_, long := l.placeOf(k, s.at, waitAfter)
	if now < 0 && c.Form == radio.Axis {
		if _, stays := l.placeOf(k, s.at, wordAfter); stays {
			l.notice = l.fileHas(NoPlace).share(l.axes[c.Axis].place(l.axes[c.Axis].now))
		}
		return
	}
	came, left := now != s.at, s.last >= 0
	s.at = now
	s.stands(l.at)
	seen, all := s.count()
	switch {
	case c.Momentary && seen == all && now == s.from:
		l.answeredOnce()
	case c.Momentary && now != s.from:
		if _, stuck := l.placeOf(k, s.at, springFor); stuck {
			l.notice = l.fileHas(Stayed)
		}
	case !c.Momentary && seen == all && s.last >= 0:
		if l.at-s.last >= letGoFor {
			l.answeredOnce()
		}
	case !c.Momentary && came && now == 0 && s.seen[all-1] && !left:
		l.notice = l.fileHas(AtFirst)
	case !c.Momentary && came && left && seen == all:
		l.notice = l.fileHas(WentBack)
	case s.moved && long && l.notice.Code != AtFirst && l.notice.Code != WentBack:
		l.notice = l.fileHas(FewPlaces)
		l.notice.Count, l.notice.Of = seen, all
	}
}
