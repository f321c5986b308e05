package learn

import (
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// stickSeen is what was seen of a stick in this question.
type stickSeen struct {
	axis   int // −1 before the high end
	up     bool
	rest   int32   // where it rested before
	high   float64 // where it was held
	low    float64
	atHigh [input.MaxAxes]int16 // where every axis stood then, in tenths of a percent of its range
	atLow  [input.MaxAxes]int16
	since  int64 // of this step
	let    int32 // where it stands, let go
	stays  bool
}

func (s *stickSeen) begin() { *s = stickSeen{axis: -1} }

func (l *Learner) judgeStick() {
	switch l.step {
	case HighEnd:
		l.judgeHigh()
	case LowEnd:
		l.judgeLow()
	case LetGo:
		l.judgeLetGo()
	}
}

// judgeHigh looks for the one axis that moved to its end.
func (l *Learner) judgeHigh() {
	if l.phase == Returning {
		if !l.home(-1) {
			return
		}
		l.phase = Moving
	}
	m := l.look()
	l.phase, l.candidate = Moving, none()
	if l.broughtHome(m) {
		if t := &l.axes[m.strongest]; t.still(l.at, endFor) {
			t.settle(l.at)
		}
		return
	}
	if m.count == 0 {
		if m.buttons && m.quiet {
			l.notice = note(WantStick).button(m.button)
		}
		l.letGoShort()
		l.sayTooLittle()
		return
	}
	i := m.strongest
	t := &l.axes[i]
	l.candidate = candidate{axis: i, button: -1, since: t.since}
	if !t.far(t.rest) {
		l.letGoShort()
		l.sayTooLittle()
		return
	}
	l.phase = Holding
	if m.count > 1 {
		if m.still {
			l.sameOrTwo(i, m.second)
		}
		return
	}
	if k := l.besideWithJob(); k >= 0 && t.still(l.at, heldFor) {
		l.sameOrTwo(i, k)
		return
	}
	if !t.atEnd(t.now, t.rest) {
		l.saySoon(i)
		return
	}
	l.candidate.holdFor = endFor
	if t.still(l.at, endFor) {
		l.takeEnd(i)
	}
}

// broughtHome reports a throttle that stood a little off its end and was brought there, which is no movement to its other end: it is to
// begin there.
func (l *Learner) broughtHome(m moved) bool {
	if l.question() != Throttle || m.strongest < 0 || m.count > 1 {
		return false
	}
	t := &l.axes[m.strongest]
	p, away := t.place(t.rest), t.off(t.rest)
	return (p > upperEnd && away > drawn || p < lowerEnd && away < -drawn) && abs(away) <= opposite
}

// sameOrTwo decides what it means that two axes stand away from rest together: one movement that moves both, or two.
func (l *Learner) sameOrTwo(i, other int) {
	t := &l.axes[i]
	mixed := l.pairOf(i, other, t.off(t.rest), l.axes[other].off(l.axes[other].rest))
	if !mixed {
		l.two(note(Two).axis(i), other, -1)
		return
	}
	if !t.still(l.at, endFor) || !t.atEnd(t.now, t.rest) {
		return
	}
	l.mix(l.apart)
	keep := l.notice
	l.takeEnd(i)
	l.notice = keep
}

// besideWithJob is an axis that has a job and stands clearly away both from where it rested and from its home; −1 for
// none.
func (l *Learner) besideWithJob() int {
	for i := range l.axes {
		t, a := &l.axes[i], l.owner(i)
		if a != nil && !l.mixed(i) && t.away(t.rest) > clear && t.away(a.home) > clear {
			return i
		}
	}
	return -1
}

// takeEnd takes the place where axis i stands as the end that is asked for.
func (l *Learner) takeEnd(i int) {
	t, s := &l.axes[i], &l.stick
	t.held = true
	if l.step == HighEnd {
		*s = stickSeen{axis: i, up: t.now > t.rest, rest: t.rest, high: float64(t.middle())}
		l.places(&s.atHigh)
		l.step = LowEnd
	} else {
		s.low = float64(t.middle())
		l.places(&s.atLow)
		l.step = LetGo
	}
	s.since = l.at
	l.phase, l.candidate, l.apart = Moving, none(), pair{-1, -1, 0}
	if l.notice.Code != Mixed {
		l.notice = note(Nothing)
	}
}

func (l *Learner) places(to *[input.MaxAxes]int16) {
	for i := range l.axes {
		if t := &l.axes[i]; !t.dead() {
			to[i] = int16(t.place(t.now))
		}
	}
}

// judgeLow waits until the stick of the high end stands at its other end.
func (l *Learner) judgeLow() {
	s := &l.stick
	t := &l.axes[s.axis]
	l.phase, l.candidate = Moving, none()
	atEnd := l.atLowEnd()
	if m := l.look2(s.axis); m >= 0 && !atEnd && l.axes[m].still(l.at, heldFor) && l.axes[m].away(l.axes[m].rest) > clear {
		n := note(Two).axis(s.axis)
		n.OtherAxis = m
		l.notice = n
		return
	}
	if abs(t.off(int32(s.high))) <= clear {
		return
	}
	if !l.onItsWay() {
		l.letGoShort()
		return
	}
	l.candidate = candidate{axis: s.axis, button: -1, since: t.since}
	l.phase = Holding
	down := (t.now < s.rest) == s.up
	switch {
	case atEnd && t.still(l.at, endFor):
		l.takeEnd(s.axis)
	case atEnd:
		l.candidate.holdFor = endFor
	case down && t.away(s.rest) > little, l.question() == Throttle:
		l.saySoon(s.axis)
	}
}

// atLowEnd tells whether the stick stands at its low end: far from its high one, and as far from its rest as was asked of that one. A
// throttle is not measured from where it rested, nor is what rested at that end.
func (l *Learner) atLowEnd() bool {
	s := &l.stick
	t := &l.axes[s.axis]
	ends := func(p int) bool { return s.up && p < lowerEnd || !s.up && p > upperEnd }
	return abs(t.off(int32(s.high))) > opposite && ends(t.place(t.now)) && (l.question() == Throttle || t.far(s.rest) || ends(t.place(s.rest)))
}

// letGoShort drops what was said of a stick that stood short of its end: it has gone home.
func (l *Learner) letGoShort() {
	if l.notice.Code == NotAtEnd {
		l.notice = note(Nothing)
	}
}

// onItsWay tells whether the stick goes to its low end: one that was let go after its high end and rests does not yet.
func (l *Learner) onItsWay() bool {
	s := &l.stick
	return l.question() == Throttle || l.axes[s.axis].away(s.rest) > little || l.atLowEnd()
}

// look2 is the axis without a job, but left out, that is farthest from its rest by more than crosstalk; −1 for none.
func (l *Learner) look2(but int) int {
	k, far := -1, crosstalk
	for i := range l.axes {
		t := &l.axes[i]
		if i == but || l.axisOf[i] >= 0 || t.dead() || l.along(i) {
			continue
		}
		if away := t.away(t.rest); away > far {
			k, far = i, away
		}
	}
	return k
}

// asFarAsItGoes is the axis that Enough takes where a stick stands short of an end.
func (l *Learner) asFarAsItGoes() (int, bool) {
	s := &l.stick
	switch l.step {
	case HighEnd:
		m := l.look()
		if m.strongest < 0 || m.count > 1 {
			return 0, false
		}
		t := &l.axes[m.strongest]
		return m.strongest, t.away(t.rest) > little && t.still(l.at, heldFor)
	case LowEnd:
		t := &l.axes[s.axis]
		return s.axis, l.onItsWay() && abs(t.off(int32(s.high))) > little && t.still(l.at, heldFor)
	}
	return 0, false
}

// judgeLetGo looks at what the stick does when it is let go.
func (l *Learner) judgeLetGo() {
	s := &l.stick
	t := &l.axes[s.axis]
	atLow := abs(t.off(int32(s.low))) <= drawn
	l.phase = Moving
	l.candidate = candidate{axis: s.axis, button: -1, since: max(t.since, s.since)}
	still := func(d int64) bool { return l.at-l.candidate.since >= d }
	switch throttle := l.question() == Throttle; {
	case throttle && atLow:
		if l.notice.Code == Springs {
			l.notice = note(Nothing)
		}
		l.phase, l.candidate.holdFor = Holding, staysFor
		if still(staysFor) {
			s.let, s.stays = t.middle(), true
			l.acceptStick()
		}
	case throttle:
		if still(letGoFor) {
			l.notice = note(Springs).axis(s.axis).share(t.place(t.now)).job(l.job())
			l.phase = Deciding
			s.let, s.stays = t.middle(), false
		}
	case atLow:
		if still(springFor) {
			l.notice = note(NoSpring).axis(s.axis).share(t.place(t.now)).job(l.job())
			l.phase = Deciding
			s.let, s.stays = t.middle(), true
		}
	case abs(t.off(int32(s.high))) > drawn:
		l.phase, l.candidate.holdFor = Holding, letGoFor
		if still(letGoFor) {
			s.let, s.stays = t.middle(), false
			l.acceptStick()
		}
	}
}

// acceptStick keeps the stick as the answer.
func (l *Learner) acceptStick() {
	s := l.stick
	if l.question() == Throttle {
		l.throttleAt = l.at
	}
	if l.notice.Code != Mixed {
		l.notice = note(Nothing)
	}
	a := answer{
		control: radio.Control{Form: radio.Axis, Axis: s.axis, Stays: s.stays},
		turned:  !s.up, home: s.let, low: s.low, high: s.high,
	}
	for p, ok := l.smallMix(&s); ok; ok = false {
		l.mix(p)
		l.mixes = l.mixes[:len(l.mixes)-1] // worth a notice, but the other axis still counts
	}
	l.accept(a)
}

// smallMix looks for an axis that was drawn along by the same share to both sides, too little to be called out before.
func (l *Learner) smallMix(s *stickSeen) (pair, bool) {
	t := &l.axes[s.axis]
	var now [input.MaxAxes]int16
	l.places(&now)
	high, low := int(s.atHigh[s.axis]-now[s.axis]), int(s.atLow[s.axis]-now[s.axis])
	if high*low >= 0 || t.dead() {
		return pair{}, false
	}
	for i := range l.axes {
		h, o := int(s.atHigh[i]-now[i]), int(s.atLow[i]-now[i])
		if i == s.axis || l.mixed(i) || abs(h) < weakMix || abs(o) < weakMix || h*o >= 0 {
			continue
		}
		a, b := h*1000/high, o*1000/low
		if abs(a-b) <= abs(a+b)/10 {
			return pair{s.axis, i, (a + b) / 2}, true
		}
	}
	return pair{}, false
}

// weakMix is the least that an axis is drawn along, in tenths of a percent, to be called mixed.
const weakMix = 40

// lateSpring notices a throttle that goes to the middle by itself right after its question: it was held down there when
// it should have been let go.
func (l *Learner) lateSpring() {
	if l.at-l.throttleAt > lateFor+stillFor {
		return
	}
	a := l.answerTo("throttle")
	if a == nil || !a.control.Stays {
		return
	}
	t := &l.axes[a.control.Axis]
	middle := (a.low + a.high) / 2
	if !t.still(l.at, letGoFor) || abs(t.off(int32(middle))) > drawn {
		return
	}
	seen := stickSeen{axis: a.control.Axis, up: !a.turned, rest: a.home, low: a.low, high: a.high, let: t.middle()}
	n := note(Springs).axis(seen.axis).share(t.place(t.now)).job("throttle")
	item := a.item
	l.forget(item)
	l.ask(item)
	l.stick, l.step, l.phase, l.notice = seen, LetGo, Deciding, n
}
