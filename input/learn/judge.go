package learn

import (
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// judge decides what the controls as they stand at l.at mean for the open question.
func (l *Learner) judge() {
	if !l.begun || l.phase == Finished {
		return
	}
	q := l.question()
	if q >= StickMode { // hands are on every control
		for i := range l.axes {
			l.axes[i].count(l.at)
		}
	}
	for i := range l.axes {
		if t := &l.axes[i]; !t.shake.said && (l.notice.Code == Nothing || l.notice.Code == StillMoving) {
			l.notice = note(Restless).axis(i).share(t.tremble * 4 / 5)
			t.shake.said = true
		}
	}
	if l.phase == Settling {
		l.settle()
		return
	}
	if q.stick() || q.through() {
		l.callOut()
		l.lateSpring()
	}
	switch q = l.question(); {
	case q.stick():
		l.judgeStick()
	case q.through():
		l.judgeThrough(false)
	case q == TopRight:
		l.judgeCorners()
	case q == Replay:
		l.judgeReplay()
	case q == Once:
		l.judgeOnce()
	}
}

// settle waits until every axis and button has been still for a while, and takes that as the rest.
func (l *Learner) settle() {
	still := l.at-l.buttonsAt >= stillFor
	for i := range l.axes {
		still = still && l.axes[i].still(l.at, stillFor)
	}
	if !still {
		l.restless()
		return
	}
	for i := range l.axes {
		l.axes[i].settle(l.at)
	}
	if l.tried != nil && !l.handsOff() {
		l.phase = Returning
		return
	}
	l.rest = l.raw.Buttons
	for b := range l.pressed {
		l.pressed[b] = times{-1, -1}
	}
	l.phase = Moving
	switch l.notice.Code {
	case StillMoving:
		l.notice = note(Nothing)
	default: // still worth reading
	}
	if l.again != nil {
		l.fromThere(l.again)
	}
	l.begin()
}

// begin clears what was seen of a movement.
func (l *Learner) begin() {
	l.stick.begin()
	l.through.begin(l)
	l.corners.begin(l)
	l.rows = l.rows[:0]
	for k := range l.found {
		p := l.position(k, l.found[k].first)
		l.rows = append(l.rows, rowSeen{p, p, l.at})
	}
	switch l.question() {
	case Replay:
		l.replay.begin(l)
	case Once:
		l.once.begin(l)
	}
}

// restless looks at the end of each window at what keeps everything waiting. What trembles is allowed for from then on:
// a worn or noisy axis must not stop the questions. What moves over more than that is a hand.
func (l *Learner) restless() {
	if l.at-l.window < windowFor {
		return
	}
	for i := range l.axes {
		t := &l.axes[i]
		if t.still(l.at, stillFor) {
			continue
		}
		swing := t.swing()
		if swing > mostTremble {
			l.notice = note(StillMoving).axis(i).share(swing)
			continue
		}
		l.notice = note(Restless).axis(i).share(swing)
		t.tremble = max(t.tremble, swing+swing/4+1) // slower than what shake looks for
	}
	l.window = l.at
	for i := range l.axes {
		l.axes[i].watch()
	}
}

// callOut names controls that have a job and move, and follows them, so that one that goes back to where it was found
// is never called out.
func (l *Learner) callOut() {
	for i := range l.axes {
		t, a := &l.axes[i], l.owner(i)
		switch {
		case a != nil:
			if !t.still(l.at, heldFor) {
				continue
			}
			if t.away(t.rest) > clear && t.away(a.home) > clear && !l.mixed(i) && l.phase != Returning {
				l.notice = note(Taken).job(a.control.Job).axis(i)
			}
			if t.still(l.at, stillFor) && t.away(t.rest) > 0 {
				t.settle(l.at)
			}
		case l.question().stick():
			l.restAgain(i)
		}
	}
	for k := range l.found {
		a := &l.found[k]
		if a.control.Form == radio.Axis {
			continue
		}
		if away, stands := l.rowAway(k); away && stands && l.rows[k].position != a.first && l.phase != Returning {
			n := note(Taken).job(a.control.Job)
			_, n.Button = sourceOf(&a.control)
			if a.control.Form == radio.Row && a.control.Buttons[l.rows[k].position] >= 0 {
				n.Button = a.control.Buttons[l.rows[k].position]
			}
			l.notice = n
		}
	}
}

// mixed reports whether axis i is known to be moved along by the movement of another.
func (l *Learner) mixed(i int) bool {
	for _, p := range l.mixes {
		if p.other == i || p.axis == i {
			return true
		}
	}
	return false
}

// along reports whether axis i, which has no job, stands where the movement of another is known to bring it.
func (l *Learner) along(i int) bool {
	for _, p := range l.mixes {
		if a := &l.axes[p.axis]; p.other == i && abs(l.axes[i].off(l.axes[i].rest)-a.off(a.rest)*p.share/1000) <= drawn {
			return true
		}
	}
	return false
}

// restAgain corrects the rest of an axis that was not at home when the question began: the hand still held the stick of
// the question before, and drew this one along, or held this one too early.
func (l *Learner) restAgain(i int) {
	t := &l.axes[i]
	if i == l.stick.axis || !t.still(l.at, againFor) || !t.resting() {
		return
	}
	mid := int32((int64(t.axis.Min) + int64(t.axis.Max)) / 2)
	nearer := t.away(mid)+trembling < abs(t.place(t.rest)-t.place(mid))
	if away := t.away(t.rest); away > 0 && (away <= drawn || t.sprung() && nearer) {
		t.settle(l.at)
	}
}

// moved is what moved in this question among the controls without a job, by where it stands now. The strongest is the
// axis farthest from its rest, the second one the next; −1 for none.
type moved struct {
	strongest, second int
	count             int  // axes that stand away from rest by more than crosstalk
	still             bool // all of these stand still
	buttons           bool // some button stands otherwise than at the beginning
	button            int  // the first of them
	quiet             bool // no button changed for a moment
}

// changedButtons are the buttons without a job that stand otherwise than when the question began.
func (l *Learner) changedButtons() (first int, some bool) {
	if l.raw.Buttons == l.rest {
		return -1, false
	}
	for b := range min(l.info.Buttons, input.MaxButtons) {
		if l.buttonOf[b] < 0 && l.rest.has(b) != l.raw.Button(b) {
			return b, true
		}
	}
	return -1, false
}

func (l *Learner) look() moved {
	m := moved{strongest: -1, second: -1, still: true, quiet: l.at-l.buttonsAt >= heldFor}
	far, next := 0, 0
	for i := range l.axes {
		t := &l.axes[i]
		if l.axisOf[i] >= 0 || t.dead() || l.along(i) {
			continue
		}
		away := t.away(t.rest)
		if away > crosstalk {
			m.count++
			m.still = m.still && t.still(l.at, heldFor)
		}
		switch {
		case away > far:
			m.second, next = m.strongest, far
			m.strongest, far = i, away
		case away > next:
			m.second, next = i, away
		}
	}
	m.button, m.buttons = l.changedButtons()
	return m
}

// home reports whether every control without a job is back where it rested, axis but left out.
func (l *Learner) home(but int) bool {
	for i := range l.axes {
		if i != but && l.axisOf[i] < 0 && !l.axes[i].dead() && l.axes[i].away(l.axes[i].rest) > returned {
			return false
		}
	}
	_, some := l.changedButtons()
	return !some
}

// two gives a notice of two controls that moved at once; all must go back.
func (l *Learner) two(n Notice, otherAxis, otherButton int) {
	n.OtherAxis, n.OtherButton = otherAxis, otherButton
	if n.Axis >= 0 && l.owner(n.Axis) != nil {
		n.Job = l.owner(n.Axis).control.Job
	}
	if otherAxis >= 0 && l.owner(otherAxis) != nil {
		n.OtherJob = l.owner(otherAxis).control.Job
	}
	l.notice, l.phase, l.candidate = n, Returning, none()
}

// pairOf looks at two axes that stand away from rest together, the stronger first, and tells whether it is a mix: the
// same two moved before in this question, in the same proportion. Having moved together only once counts as two
// movements at once.
func (l *Learner) pairOf(axis, other int, off, otherOff int) bool {
	now := pair{axis, other, otherOff * 1000 / off}
	was := l.apart
	l.apart = now
	a, b := &l.axes[axis], &l.axes[other]
	same := was.axis == axis && was.other == other
	if was.axis == other && was.other == axis && was.share != 0 { // nearly alike: either may be the stronger one
		was.share = 1_000_000 / was.share
		same = true
	}
	if !same || abs(was.share-now.share) > 60+abs(now.share)/10 {
		return false
	}
	return a.left < 0 || b.left < 0 || abs64(a.left-b.left) <= alikeFor
}

// mix keeps a mix and says so.
func (l *Learner) mix(p pair) {
	l.mixes = append(l.mixes, p)
	n := note(Mixed).axis(p.axis).share(p.share).job(l.job())
	n.OtherAxis = p.other
	if a := l.owner(p.other); a != nil {
		n.OtherJob = a.control.Job
	}
	l.notice = n
}

// sayTooLittle gives a notice of an axis that moved a little and stays there.
func (l *Learner) sayTooLittle() {
	for i := range l.axes {
		t := &l.axes[i]
		if l.axisOf[i] >= 0 || t.dead() || !t.still(l.at, wordAfter) || l.along(i) {
			continue
		}
		if away := t.away(t.rest); away > little && !t.far(t.rest) {
			l.notice = note(TooLittle).axis(i).share(away)
			return
		}
	}
}

// saySoon gives a notice of an axis that moved far and stands still short of its end; a stick that stands in the middle
// has only gone home.
func (l *Learner) saySoon(axis int) {
	t := &l.axes[axis]
	if p := t.place(t.now); t.still(l.at, wordAfter) && (l.question().through() || p > 600 || p < 400) {
		l.notice = note(NotAtEnd).axis(axis).share(p)
	}
}
