package learn

import (
	"math"
	"math/bits"
	"slices"

	"propsoff.example/input/radio"
)

// mostVisits bounds how many positions one after the other are remembered.
const mostVisits = 64

// throughSeen is what was seen of a switch or knob in this question.
type throughSeen struct {
	// visits are the positions of buttons in the order in which the switch stood in them for a moment, the resting one
	// first; the same position may come again.
	visits []pressedSet
	// changes of buttons without a job: which, and when.
	changes []change
	// The end that an axis reached first, and whether it stood at the other end after that.
	axis  int // −1 while none moved
	end   int32
	ended bool
	other bool
}

type change struct {
	button int
	at     int64
}

func (s *throughSeen) begin(l *Learner) {
	visits := append(s.visits[:0], l.free())
	*s = throughSeen{axis: -1, visits: visits, changes: s.changes[:0]}
	for i := range l.axes {
		l.axes[i].asks(l.at)
	}
}

func (s *throughSeen) changed(button int, at int64) {
	if len(s.changes) < 4*mostVisits {
		s.changes = append(s.changes, change{button, at})
	}
}

// free are the buttons that are pressed now and have no job.
func (l *Learner) free() pressedSet {
	set := pressedSet(l.raw.Buttons)
	for k := range l.found {
		for i := range set {
			set[i] &^= l.found[k].buttons[i]
		}
	}
	return set
}

// excursion is how far an axis stood from its rest in this question, at the farthest, in tenths of a percent with its
// sign.
func (l *Learner) excursion(i int) int {
	t := &l.axes[i]
	far := 0
	see := func(s *stand) {
		if e := t.share(int64(math.Round(s.dwell.mean)) - int64(t.rest)); abs(e) > abs(far) {
			far = e
		}
	}
	for k := range t.stands {
		see(&t.stands[k])
	}
	if s, ok := t.standing(l.at); ok {
		see(&s)
	}
	return far
}

// judgeThrough follows a switch or knob through its positions; it is done when it has rested for a while, or at once
// with enough.
func (l *Learner) judgeThrough(enough bool) {
	if l.phase == Returning {
		if !l.home(-1) {
			return
		}
		l.begin()
	}
	s := &l.through
	l.phase, l.candidate = Moving, none()
	if l.at-l.buttonsAt >= heldFor {
		if set := l.free(); set != s.visits[len(s.visits)-1] && len(s.visits) < mostVisits {
			s.visits = append(s.visits, set)
		}
	}
	s.axis = -1
	second, far, next := -1, stepped, stepped
	for i := range l.axes {
		if t := &l.axes[i]; l.axisOf[i] >= 0 || t.dead() || len(t.stands) == 0 && t.away(t.rest) <= stepped || l.along(i) {
			continue
		}
		switch e := abs(l.excursion(i)); {
		case e > far:
			second, next = s.axis, far
			s.axis, far = i, e
		case e > next:
			second, next = i, e
		}
	}
	if second >= 0 && next > crosstalk {
		if l.axes[s.axis].still(l.at, heldFor) && l.axes[second].still(l.at, heldFor) {
			if !l.pairOf(s.axis, second, l.excursion(s.axis), l.excursion(second)) {
				l.two(note(Two).axis(s.axis), second, -1)
				return
			}
			if l.notice.Code != Mixed {
				l.mix(l.apart)
			}
		}
		return
	}
	if s.axis >= 0 && (far > crosstalk || len(s.visits) < 2) {
		l.followAxis(enough)
		return
	}
	s.axis = -1
	l.followButtons(enough)
}

// seenThrough reports whether there is something that Enough could take.
func (l *Learner) seenThrough() bool {
	s := &l.through
	return s.axis >= 0 && abs(l.excursion(s.axis)) > little || len(s.visits) > 1
}

func (l *Learner) followButtons(enough bool) {
	s := &l.through
	b, on := l.changedButtons()
	if on {
		l.candidate = candidate{axis: -1, button: b, since: l.buttonsAt, holdFor: settleFor}
	}
	if len(s.visits) < 2 {
		l.sayQuick()
		return
	}
	if a, b := s.newlyPressed(); b >= 0 {
		l.two(note(Two).button(a), -1, b)
		return
	}
	l.phase = Holding
	if l.candidate.button < 0 {
		l.candidate = candidate{axis: -1, button: s.changes[len(s.changes)-1].button, since: l.buttonsAt, holdFor: settleFor}
	}
	if l.at-l.buttonsAt >= settleFor || enough {
		l.acceptVisits()
	}
}

// newlyPressed are the first two buttons that are pressed in the newest position and were not at the beginning, −1 where
// there are fewer.
func (s *throughSeen) newlyPressed() (a, b int) {
	a, b = -1, -1
	now := s.visits[len(s.visits)-1]
	for i := range now {
		for w := now[i] &^ s.visits[0][i]; w != 0; w &= w - 1 {
			switch k := i*64 + bits.TrailingZeros64(w); {
			case a < 0:
				a = k
			case b < 0:
				b = k
			}
		}
	}
	return a, b
}

// sayQuick gives a notice of a button that was pressed too quickly to count.
func (l *Learner) sayQuick() {
	s := &l.through
	if len(s.changes) < 2 || l.at-l.buttonsAt < heldFor || len(s.visits) > 1 {
		return
	}
	l.notice = note(TooQuick).button(s.changes[len(s.changes)-1].button)
	s.changes = s.changes[:0]
}

func (l *Learner) followAxis(enough bool) {
	s := &l.through
	t := &l.axes[s.axis]
	l.phase, l.candidate = Holding, candidate{axis: s.axis, button: -1, since: max(t.since, l.buttonsAt), holdFor: settleFor}
	if !t.still(l.at, heldFor) || l.at-l.buttonsAt < heldFor {
		return
	}
	if len(s.changes) > 0 && len(s.visits) > 1 && !l.toldTwice(t) {
		l.two(note(Two).axis(s.axis), -1, s.changes[0].button)
		return
	}
	s.reach(t)
	if !s.ended {
		if t.far(t.rest) {
			if t.still(l.at, settleFor) { // before, it is on its way through its positions
				l.saySoon(s.axis)
			}
		} else if away := t.away(t.rest); away > little && t.still(l.at, wordAfter) {
			l.notice = note(TooLittle).axis(s.axis).share(away)
		}
		if enough {
			l.acceptAxis(l.excursion(s.axis) < 0)
		}
		return
	}
	if !enough && (!t.still(l.at, settleFor) || l.at-l.buttonsAt < settleFor) {
		return
	}
	p := t.place(t.rest)
	switch middle := p >= lowerEnd && p <= upperEnd; {
	case !middle:
		l.acceptAxis(s.end < t.rest)
	case s.other:
		// Begun in the middle: the end that was visited first is the first position.
		l.acceptAxis(s.end > t.rest)
	case t.away(t.rest) <= stepped || enough:
		// It sprang back: where it rests is the first position.
		l.acceptAxis(s.end < t.rest)
	default:
		l.notice = note(StartFirst).axis(s.axis)
	}
}

// reach keeps the end at which the axis stood first, and whether it stood at the opposite end after that.
func (s *throughSeen) reach(t *track) {
	look := func(v int32) {
		off := t.share(int64(v) - int64(t.rest))
		if !t.atEnd(v, t.rest) || abs(off) <= little {
			return
		}
		switch {
		case !s.ended && abs(off) > narrow:
			s.end, s.ended = v, true
		case s.ended && (v > t.rest) != (s.end > t.rest):
			s.other = true
		}
	}
	for k := range t.stands { // what was passed through while something else was judged
		look(int32(math.Round(t.stands[k].dwell.mean)))
	}
	look(t.middle())
}

// toldTwice reports whether every button that changed did so while the axis went from one stand to the next: some
// radios tell a switch twice. The axis is then taken.
func (l *Learner) toldTwice(t *track) bool {
	within := func(at int64, s *stand) bool { return at >= s.at-s.coming-together && at <= s.at+together }
	now, _ := t.standing(l.at)
	for _, c := range l.through.changes {
		ok := within(c.at, &now)
		for k := range t.stands {
			ok = ok || within(c.at, &t.stands[k])
		}
		if !ok {
			return false
		}
	}
	return true
}

// standsOf are the stands of an axis in this question, the one that goes on among them.
func (l *Learner) standsOf(i int) []stand {
	all := slices.Clone(l.axes[i].stands)
	if s, ok := l.axes[i].standing(l.at); ok {
		all = append(all, s)
	}
	return all
}

// levelsAmong finds the levels among stands of axis i; apart is false where they cannot be positions of a switch: too many, or too near
// to each other.
func (l *Learner) levelsAmong(i int, stands []stand) (levels []level, apart bool) {
	t := &l.axes[i]
	points := make([]point, len(stands))
	for k := range stands {
		d := &stands[k].dwell
		points[k] = point{d.mean, min(d.weight, mostWeight), d.variance()}
	}
	limit := t.span() * float64(t.tremble) / 1000
	levels = levelsOf(points, limit, MostPositions)
	for k := 1; k < len(levels); k++ {
		if levels[k].at-levels[k-1].at < t.span()*stepped/1000 {
			return levels, false
		}
	}
	return levels, levels != nil
}

// positionsOf finds the levels among stands of axis i; knob is true where these are no positions of a switch, or come to too slowly.
func (l *Learner) positionsOf(i int, stands []stand) (levels []level, knob bool) {
	levels, apart := l.levelsAmong(i, stands)
	if !apart {
		return levels, true
	}
	moves, slow := 0, 0
	for k := 1; k < len(stands); k++ {
		if levelIndex(levels, stands[k].dwell.mean) != levelIndex(levels, stands[k-1].dwell.mean) {
			moves++
			if stands[k].crept || stands[k].coming > knobFor {
				slow++
			}
		}
	}
	return levels, moves > 0 && 2*slow >= moves
}

// mostWeight is the most that one stand weighs among the others, in µs: a long wait tells no more than a short one.
const mostWeight = 400_000

func levelIndex(levels []level, at float64) int {
	best := 0
	for k := range levels {
		if math.Abs(levels[k].at-at) < math.Abs(levels[best].at-at) {
			best = k
		}
	}
	return best
}

// acceptAxis takes the axis that moved as a switch or knob.
func (l *Learner) acceptAxis(turned bool) {
	i := l.through.axis
	t := &l.axes[i]
	a := answer{control: radio.Control{Form: radio.Axis, Axis: i}, turned: turned, home: t.rest, stands: l.standsOf(i)}
	levels, knob := l.positionsOf(i, a.stands)
	switch {
	case knob || len(levels) < 2:
		l.turns(&a)
		t.creeps()
	default:
		a.clicks(levels)
	}
	for _, c := range l.through.changes { // told twice
		a.buttons.add(c.button)
	}
	l.accept(a)
}

// acceptVisits makes a row of the positions that were visited.
func (l *Learner) acceptVisits() {
	visits := l.through.visits
	// Buttons that never changed are other switches; each position is what is left: one button or none.
	var changed pressedSet
	for _, v := range visits {
		for i := range v {
			changed[i] |= v[i] ^ visits[0][i]
		}
	}
	path := make([]int, len(visits))
	for k, v := range visits {
		path[k] = radio.None
		for i := range v {
			for w := v[i] & changed[i]; w != 0; w &= w - 1 {
				b := i*64 + bits.TrailingZeros64(w)
				if path[k] != radio.None {
					l.two(note(Two).button(path[k]), -1, b)
					return
				}
				path[k] = b
			}
		}
	}
	row, ok := orderOf(path)
	if !ok || len(row) > radio.MostPositions {
		first := path[0]
		if first == radio.None {
			first = path[1]
		}
		l.ask(l.now)
		l.notice = note(StartFirst).button(first)
		return
	}
	a := answer{control: radio.Control{Form: radio.Row, Buttons: row, Momentary: springsBack(path, row)}}
	if len(row) == 2 && row[0] == radio.None {
		a.control.Form, a.control.Buttons = radio.Button, row[1:]
	}
	a.first = max(0, slices.Index(row, path[0]))
	for _, b := range row {
		if b >= 0 {
			a.buttons.add(b)
		}
	}
	l.accept(a)
}
