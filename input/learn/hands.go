package learn

import (
	"slices"
	"strconv"
	"strings"

	"propsoff.example/input/radio"
)

// What the person in front of the screen does, beside moving controls.

// SetStickMode chooses the stick mode, 1 to 4, and answers that question if it is asked now.
func (l *Learner) SetStickMode(mode int) {
	if mode < 1 || mode > 4 || l.tried != nil { // a file that is tried says it
		return
	}
	l.stickMode = mode
	if l.question() == StickMode {
		l.plan[l.now].Answered = true
		l.next()
	}
}

// SetSide says where the switch that was found last sits (View.Last).
func (l *Learner) SetSide(side radio.Side) {
	if l.last >= 0 && side <= radio.Top {
		l.found[l.last].control.Side = side
	}
}

// SetSpot says where the control of a job sits; a spot without a view says that nobody knows. Sticks have their places.
func (l *Learner) SetSpot(job string, spot radio.Spot) {
	if a := l.answerTo(job); a != nil && l.tried == nil && !slices.Contains(radio.Needed(), job) {
		a.control.Spot, a.control.Side = spot, spot.Side()
	}
}

// SetCalled says what the pilot calls the switch that was found last; at most 80 letters are kept.
func (l *Learner) SetCalled(name string) {
	if l.last < 0 {
		return
	}
	name = strings.ToValidUTF8(name, "\uFFFD")
	if r := []rune(name); len(r) > 80 {
		name = string(r[:80])
	}
	l.found[l.last].control.Called = name
}

// SetMomentary corrects whether the switch that was found last springs back. A knob is left as it is.
func (l *Learner) SetMomentary(is bool) {
	if l.last >= 0 && !l.found[l.last].knob {
		l.found[l.last].control.Momentary = is
	}
}

// canSkip tells whether the question may stay without a control.
func (l *Learner) canSkip() bool {
	q := l.question()
	return q == Arm || q == Mode || q == Also || l.tried != nil && q != Done
}

// Skip leaves an Arm, Mode or Also question without a control: arming by sticks, one mode only. Of a radio file that is tried it leaves
// the open question out.
func (l *Learner) Skip() {
	switch q := l.question(); {
	case l.tried != nil:
		l.leave(l.now + 1)
	case l.canSkip():
		l.forget(l.now)
		l.plan[l.now].Skipped = true
		l.next()
	case q.stick():
		l.notice = note(CannotSkip)
	}
}

// canBack tells whether Back does anything.
func (l *Learner) canBack() bool {
	if l.tried != nil {
		return l.now < len(l.plan) && l.now > 0
	}
	return l.now < len(l.plan) && (l.now > 0 || l.step != HighEnd)
}

// Back begins the open question again if a part of it is answered, else goes to the question before and forgets its
// answer. In More it first forgets what More found last. From a corner check that found something wrong it goes to the
// control that is wrong, and comes back after.
func (l *Learner) Back() {
	if !l.canBack() {
		return
	}
	q := l.question()
	switch {
	case l.tried != nil && l.step == AndBack:
		l.ask(l.now)
	case l.tried != nil:
		l.ask(l.now - 1)
	case q.stick() && l.step != HighEnd:
		l.ask(l.now)
	case q == More && l.newest(l.now) != nil:
		was := l.newest(l.now)
		l.drop(func(a *answer) bool { return a == &l.found[len(l.found)-1] })
		l.askAgain(l.now, was)
	case q == TopRight && (l.notice.Code == TurnedRound || l.notice.Code == NotThere):
		to := slices.IndexFunc(l.plan, func(i Item) bool { return i.Job == l.notice.Job })
		l.forget(to)
		l.ask(to)
	default:
		to := l.now - 1
		was := l.newest(to)
		if l.plan[to].Question != More { // what was found there stays, and more can be added
			l.forget(to)
			l.askAgain(to, was)
			return
		}
		l.ask(to)
	}
}

// askAgain asks a question whose answer was given up: a switch must first stand where it began then, so that its way back is not taken for
// the answer, the wrong way round.
func (l *Learner) askAgain(now int, was *answer) {
	l.ask(now)
	if l.question().through() {
		l.again = was
	}
}

// fromThere has a question begin where its answer began that was given up; until it stands there, all goes back.
func (l *Learner) fromThere(was *answer) {
	c := &was.control
	if c.Form == radio.Axis {
		if t := &l.axes[c.Axis]; t.away(was.home) > returned {
			t.rest = was.home
			l.notice, l.phase = note(StartFirst).axis(c.Axis), Returning
		}
		return
	}
	stood := radio.None
	if was.first < len(c.Buttons) && c.Form == radio.Row {
		stood = c.Buttons[was.first]
	}
	for _, b := range c.Buttons {
		if b != radio.None && l.rest.has(b) != (b == stood) {
			l.rest.turn(b)
			l.notice, l.phase = note(StartFirst).button(b), Returning
		}
	}
}

// forget drops what was found at an item of the plan.
func (l *Learner) forget(item int) {
	l.drop(func(a *answer) bool { return a.item == item })
	l.plan[item].Answered, l.plan[item].Skipped = false, false
}

// newest is what was found last at an item of the plan, nil for nothing.
func (l *Learner) newest(item int) *answer {
	for k := len(l.found) - 1; k >= 0; k-- {
		if l.found[k].item == item {
			a := l.found[k]
			return &a
		}
	}
	return nil
}

func (l *Learner) drop(gone func(a *answer) bool) {
	kept := l.found[:0:0]
	for k := range l.found {
		if !gone(&l.found[k]) {
			kept = append(kept, l.found[k])
		}
	}
	if len(kept) != len(l.found) {
		l.last = -1
	}
	l.found = kept
	l.mixes = slices.DeleteFunc(l.mixes, func(p pair) bool {
		return !slices.ContainsFunc(kept, func(a answer) bool { return a.control.Form == radio.Axis && a.control.Axis == p.axis })
	})
	l.own()
}

// Restart forgets everything and begins with the first question.
func (l *Learner) Restart() {
	if l.tried != nil {
		l.tryAll()
		return
	}
	l.found, l.mixes, l.last = nil, nil, -1
	for i := range l.axes {
		l.axes[i].forget()
	}
	l.makePlan()
	l.own()
	l.ask(0)
}

// enough is what Enough would do now.
func (l *Learner) enough() Means {
	switch q := l.question(); {
	case l.phase == Deciding:
		return AcceptIt
	case l.tried != nil && q != Done:
		return Untried
	case q == StickMode:
		return TakeIt
	case !l.begun || q == Done:
		return NoUse
	case q == TopRight || q == Replay:
		return NoMore
	case l.phase == Settling || l.phase == Returning:
		if q == More {
			return NoMore
		}
		return NoUse
	case q.stick():
		if _, ok := l.asFarAsItGoes(); ok {
			return TakeIt
		}
		return NoUse
	case l.seenThrough():
		return TakeIt
	case q == More:
		return NoMore
	}
	return NoUse
}

// Enough does what View.Enough says.
func (l *Learner) Enough() {
	means, q := l.enough(), l.question()
	switch {
	case means == NoUse:
	case means == Untried:
		l.leave(len(l.plan))
	case q == StickMode:
		l.SetStickMode(l.stickMode)
	case means == NoMore:
		l.plan[l.now].Answered = q == More
		l.plan[l.now].Skipped = q != More
		l.next()
	case means == AcceptIt:
		l.acceptStick()
	case q.stick():
		i, _ := l.asFarAsItGoes()
		l.takeEnd(i)
	default:
		l.judgeThrough(true)
	}
}

// accept keeps an answer to the open question and goes on.
func (l *Learner) accept(a answer) {
	a.item, a.control.Job = l.now, l.job()
	keep := note(Nothing)
	if l.question() == More {
		if free := l.freeChannels(); len(free) > 0 {
			a.control.Job = "channel " + strconv.Itoa(free[0]+1)
		} else {
			a.spare = true
			keep = note(NoChannel)
			keep.Axis, keep.Button = a.control.Axis, -1
			if a.control.Form != radio.Axis {
				keep.Axis, keep.Button = -1, slices.Max(a.control.Buttons)
			}
		}
	} else {
		l.plan[l.now].Answered = true
	}
	l.found = append(l.found, a)
	slices.SortStableFunc(l.found, func(a, b answer) int { return a.item - b.item })
	l.last = -1
	if l.question().through() {
		l.last = slices.IndexFunc(l.found, func(b answer) bool { return b.item == a.item })
		for l.last+1 < len(l.found) && l.found[l.last+1].item == a.item {
			l.last++
		}
	}
	l.own()
	if keep.Code == Nothing && l.notice.Code == Mixed {
		keep = l.notice
		keep.Job = a.control.Job
	}
	if l.question() == More {
		l.ask(l.now)
	} else {
		l.next()
	}
	l.notice = keep
}

// freeChannels are the channels that are left for what More finds, counted from 0.
func (l *Learner) freeChannels() []int {
	var free []int
	for _, ch := range l.options.Free {
		if l.answerTo("channel "+strconv.Itoa(ch+1)) == nil && !slices.Contains(l.options.Also, "channel "+strconv.Itoa(ch+1)) {
			free = append(free, ch)
		}
	}
	return free
}
