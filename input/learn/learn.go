// Package learn asks for one movement at a time, finds which control it was, and checks it end to end.
//
// It is a state machine without clock or device: raw states go in by Feed, time goes on by Tick (a still hand sends
// nothing, so time must be told), and View says what to show. What is found makes a radio.File: which axis or button,
// which way round, how far it was seen to go, where it rests and how restless it is, and the positions of a switch. The
// scale is the device's own, turned round where that is needed, and never stretched to what was seen.
package learn

import (
	"slices"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// Thresholds, all ours. Shares are tenths of a percent of an axis' own range, times are µs.
const (
	trembling   = 30  // an axis within this is still: noise of ±1 % and a little more
	mostTremble = 150 // more than this is a hand, not noise
	clear       = 350 // a movement that counts
	little      = 100 // a movement worth a word
	stepped     = 55  // positions of a switch are at least this far apart
	crept       = 30  // past the edge of the band that it leaves, an axis that only creeps
	crosstalk   = 200 // a second control that moves less than this beside the first is not meant
	beginning   = 5   // off its mean by more than this, a movement may have begun
	drawn       = 150 // a stick drawn along by another goes no farther
	returned    = 150 // back at rest after two moved at once
	upperEnd    = 650 // at an end: above this, or
	lowerEnd    = 350 // below this
	opposite    = 500 // between the two ends of a stick
	narrow      = 250 // positions of a switch lie at least so far apart from first to last
	cornered    = 900 // of its way, in the corner check

	stillFor  = 300_000   // a still hand before each question
	againFor  = 400_000   // still, before the rest is taken again
	heldFor   = 150_000   // in a position
	endFor    = 300_000   // at an end of a stick
	letGoFor  = 500_000   // a stick that was let go
	staysFor  = 1_000_000 // a throttle that was let go
	springFor = 3_000_000 // a stick that does not spring back is called out
	wordAfter = 600_000   // before a word is said about a movement that is not enough
	waitAfter = 2_500_000 // before a word is said about a stick that does not move to its corner
	settleFor = 1_500_000 // after the last position of a switch
	windowFor = 3_000_000 // of watching an axis that keeps everything waiting
	knobFor   = 120_000   // a switch takes less than this from one position to the next
	together  = 40_000    // an axis and a button that change within this are one control, told twice
	alikeFor  = 300_000   // two axes of a mix begin to move within this
	staleFor  = 1_000_000 // stamps that go back by more than this are those of a clock begun anew
	gapFor    = 5_000     // between two states, to look at how things stood before the second
	lateFor   = 2_000_000 // a throttle that springs back within this of its question was held down in it
)

// Learner asks about one device. Make it with New or Try. It is not safe for concurrent use.
type Learner struct {
	info      input.Info
	options   Options
	stickMode int

	pens   Pens
	plan   []Item
	now    int // index into plan
	step   Step
	phase  Phase
	notice Notice

	at, shift int64 // the time, and what is added to the stamps
	begun     bool  // a state was fed
	away      bool  // the device was gone: the next state begins anew
	raw       input.Raw
	axes      []track
	found     []answer
	last      int // in found: the switch found last, −1 for none
	mixes     []pair
	axisOf    [input.MaxAxes]int16 // index in found, −1 for none
	buttonOf  [input.MaxButtons]int16

	rest       pressedSet              // buttons when the question began
	again      *answer                 // to the question that is asked, and given up
	buttonsAt  int64                   // last change of a button that has no job
	pressed    [input.MaxButtons]times // of each button within this question
	window     int64                   // when watching for restless axes began
	candidate  candidate               // for View
	apart      pair                    // two that moved at once in this question
	stick      stickSeen
	through    throughSeen
	corners    cornersSeen
	replay     replaySeen
	tried      *radio.File // nil where a radio is learned
	homes      []int32     // of a try: where the axes rested at first
	once       onceSeen
	rows       []rowSeen // by index in found
	throttleAt int64     // when the throttle was let go
	// fresh: the state before is the first since the device was opened, when it may not have spoken yet; spoken: it has spoken
	// since the learning began.
	fresh, spoken bool
}

// answer is one control that was found.
type answer struct {
	item      int // index into plan
	control   radio.Control
	turned    bool
	spare     bool    // no channel was free
	knob      bool    // goes everywhere: no positions
	home      int32   // the axis' rest when it was found
	low, high float64 // ends of a stick as held, the low end of its job first
	stands    []stand // of a switch on an axis
	passed    []stand // of a knob: where it stood on its way
	buttons   pressedSet
	first     int // position of a control of buttons at the start
}

// times are those of the last press and release of a button, −1 where there was none.
type times struct{ pressed, released int64 }

type candidate struct {
	axis, button   int
	since, holdFor int64
}

// pair is two axes that one movement moves: share is how far other goes for each 1000 of axis.
type pair struct{ axis, other, share int }

func none() candidate { return candidate{axis: -1, button: -1} }

// New begins with the first question. info must be the device's own; its axes' ranges are what shares are taken of.
func New(info input.Info, options Options) *Learner {
	l := begun(info, options)
	l.makePlan()
	l.own()
	l.ask(0)
	return l
}

// begun is a learner that asks nothing yet.
func begun(info input.Info, options Options) *Learner {
	l := &Learner{info: info, stickMode: 2, last: -1}
	for _, ch := range options.Free {
		if ch >= 0 && ch < pulse.Channels && !slices.Contains(l.options.Free, ch) {
			l.options.Free = append(l.options.Free, ch)
		}
	}
	for _, job := range options.Also {
		if job != "" && !slices.Contains(l.options.Also, job) {
			l.options.Also = append(l.options.Also, job)
		}
	}
	if options.StickMode >= 1 && options.StickMode <= 4 {
		l.stickMode, l.options.ModeGiven = options.StickMode, options.ModeGiven
	}
	for i := range min(len(info.Axes), input.MaxAxes) {
		l.axes = append(l.axes, newTrack(info.Axes[i]))
	}
	return l
}

func (l *Learner) makePlan() {
	l.plan = l.plan[:0]
	for q := Pitch; q < Done; q++ {
		switch {
		case q == Also:
			for _, job := range l.options.Also {
				l.plan = append(l.plan, Item{Question: Also, Job: job})
			}
		case q == StickMode && l.options.ModeGiven, q == Once:
		default:
			l.plan = append(l.plan, Item{Question: q, Job: q.Job()})
		}
	}
}

// question is what is asked now.
func (l *Learner) question() Question {
	if l.now >= len(l.plan) {
		return Done
	}
	return l.plan[l.now].Question
}

func (l *Learner) job() string {
	if l.now >= len(l.plan) {
		return ""
	}
	return l.plan[l.now].Job
}

// Feed takes the next raw state. Its time stamp says how long the one before stood.
func (l *Learner) Feed(raw input.Raw) {
	lost := raw.Resync
	if l.begun && (l.away || raw.At+l.shift < l.at-staleFor) {
		l.shift = l.at - raw.At
		lost = true
	}
	again := l.away
	if l.away = false; again {
		l.pens.lift()
	}
	raw.At += l.shift
	gap := raw.At - l.at
	l.pass(raw.At)
	if gap >= gapFor && !lost {
		l.judge() // what stood until now
	}
	first := !l.begun
	if l.fresh && input.Woke(&l.info, &l.raw, &raw) { // what was seen before it spoke was no place of a stick
		first, lost = !l.spoken, lost || l.spoken
	}
	l.spoken = l.spoken || l.begun
	l.fresh = !l.begun || again
	for i := range l.axes {
		if lost && !first && !l.axes[i].dead() {
			l.axes[i].leave(l.at)
		}
		l.axes[i].feed(raw.Axes[i], l.at, first)
	}
	l.pens.draw(l.axes, l.at)
	l.feedButtons(&raw)
	l.raw, l.begun = raw, true
	if q := l.question(); (lost || first && l.spoken) && q != StickMode && q != Done {
		l.ask(l.now)
		if lost && !first {
			l.notice = note(Lost)
		}
	}
	l.judge()
}

// Tick lets time go on until at, on the clock of the states' stamps. A time that is past already does nothing.
func (l *Learner) Tick(at int64) {
	if l.away {
		return
	}
	if !l.begun {
		l.at = max(at, 0)
		l.window = l.at
		return
	}
	l.pass(at + l.shift)
	l.judge()
}

// pass lets every axis stand until at.
func (l *Learner) pass(at int64) {
	l.at = max(l.at, at)
	l.pens.run(l.at)
	for i := range l.axes {
		l.axes[i].stood(l.at)
	}
}

// Resume must be called when the device was gone and is there again, before the next Feed: what was learned stays, the
// open question starts again, and the clock of the stamps may have begun anew.
func (l *Learner) Resume() { l.away = l.begun }

func (l *Learner) feedButtons(raw *input.Raw) {
	if !l.begun {
		l.rest, l.buttonsAt = raw.Buttons, l.at
		return
	}
	for w := range raw.Buttons {
		if raw.Buttons[w] == l.raw.Buttons[w] {
			continue
		}
		for b := w * 64; b < min(l.info.Buttons, w*64+64); b++ {
			is := raw.Button(b)
			if is == l.raw.Button(b) {
				continue
			}
			if is {
				l.pressed[b].pressed = l.at
			} else {
				l.pressed[b].released = l.at
			}
			if l.buttonOf[b] < 0 {
				l.buttonsAt = l.at
				l.through.changed(b, l.at)
			}
		}
	}
}

// ask begins the question at index now of the plan from a still hand.
func (l *Learner) ask(now int) {
	l.now, l.phase, l.notice, l.again = now, Settling, note(Nothing), nil
	switch q := l.question(); {
	case q.stick():
		l.step = HighEnd
	case q.through():
		l.step = Through
	case q == StickMode:
		l.step = Choose
	case q == TopRight:
		l.step = Corners
	case q == Replay:
		l.step = Each
	case q == Once:
		l.step = ItsWay
	default:
		l.step, l.phase = Over, Finished
	}
	if now < len(l.plan) {
		l.plan[now].Answered, l.plan[now].Skipped = false, false
	}
	l.candidate, l.apart = none(), pair{-1, -1, 0}
	l.window = l.at
	for i := range l.axes {
		l.axes[i].watch()
	}
}

// next asks the first question of the plan that is open.
func (l *Learner) next() {
	for i := range l.plan {
		if !l.plan[i].Answered && !l.plan[i].Skipped {
			l.ask(i)
			return
		}
	}
	l.ask(len(l.plan))
}

// own makes the tables of what has a job already.
func (l *Learner) own() {
	for i := range l.axisOf {
		l.axisOf[i] = -1
	}
	for b := range l.buttonOf {
		l.buttonOf[b] = -1
	}
	for k := range l.found {
		a := &l.found[k]
		if a.control.Form == radio.Axis {
			l.axisOf[a.control.Axis] = int16(k)
		}
		for b := range l.buttonOf {
			if a.buttons.has(b) {
				l.buttonOf[b] = int16(k)
			}
		}
	}
}

// owner is the control that axis i is already, nil for none.
func (l *Learner) owner(i int) *answer {
	if k := l.axisOf[i]; k >= 0 {
		return &l.found[k]
	}
	return nil
}

// answerTo is the control that was found for a job, nil for none.
func (l *Learner) answerTo(job string) *answer {
	for k := range l.found {
		if l.found[k].control.Job == job && !l.found[k].spare {
			return &l.found[k]
		}
	}
	return nil
}

// pressedSet is a set of buttons.
type pressedSet [input.MaxButtons / 64]uint64

func (s *pressedSet) has(b int) bool { return s[b/64]>>(b%64)&1 == 1 }
func (s *pressedSet) add(b int)      { s[b/64] |= 1 << (b % 64) }
func (s *pressedSet) turn(b int)     { s[b/64] ^= 1 << (b % 64) }
