package learn

import (
	"math"
	"slices"

	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// View is all that there is to show of the learning.
type View struct {
	Question Question
	Step     Step
	Phase    Phase
	Notice   Notice
	// Job is what is asked about; empty where there is none.
	Job string
	// Plan are all questions in order, Done left out; Now is the index of the one that is asked, len(Plan) at the end.
	Plan []Item
	Now  int
	// StickMode is 1 to 4, as chosen or as marked first. Before ModeKnown nobody knows which hand carries what.
	StickMode int
	ModeKnown bool
	// Raw is the newest state; Begun is false while there is none.
	Raw   input.Raw
	Begun bool
	// Shares are where the axes stand in their own range, in tenths of a percent; −1 for an axis without a range.
	Shares [input.MaxAxes]int
	// Pens are what the axes have drawn in the newest seconds. They go on with the learner: read them before the next Feed or Tick.
	Pens *Pens
	// Lean is how the craft is to be drawn in a question about a stick, as its axis moves: from −1000 to 1000, above 0 towards the high
	// end of the job; of a throttle from 0, the ground. Zone is where it is to come to, InZone whether it is there.
	Lean   int
	Zone   [2]int
	InZone bool
	// Axis or Button is the one that is seen moving, −1 for none; Held is for how long it has stood still, HoldFor for how
	// long it must, in µs (0 where no time is waited for).
	Axis, Button  int
	Held, HoldFor int64
	// Positions are how many were seen of the control that is asked for, the first one included (Through); 0 for a knob.
	Positions int
	// Levels are the shares of the places seen so far in which the axis that is asked for stood, rising (Through on an axis
	// only; nil for buttons, a knob, and while nothing moved), and Start that in which it stood before.
	Levels []int
	Start  int
	// Answers are those so far, in the order of the plan, with what More found at the end; a skipped one is left out.
	Answers []radio.Control
	// Spare are controls that More found and for which no channel was free. Their Job is empty.
	Spare []radio.Control
	// FreeLeft is how many channels are free for further controls.
	FreeLeft int
	// Last is the index in Answers of the switch that was found last, for SetSide and SetCalled; −1 for none.
	Last int
	// CanClick tells whether SetClicks does anything to it; it has Positions where it is a switch now.
	CanClick bool
	// Corners are the four stick directions (StickMode and TopRight only), Replayed every control of the file (Replay only).
	Corners  []Corner
	Replayed []Replayed
	// Trying: a radio file is tried, and nothing is learned. Seen are how many positions were seen of the switch that is asked for, Places
	// how many the file has; 0 for what is no switch (Once only).
	Trying       bool
	Seen, Places int
	// CanSkip and CanBack tell whether Skip and Back do anything, Enough what Enough does.
	CanSkip, CanBack bool
	Enough           Means
}

// View gives what there is to show.
func (l *Learner) View() View {
	v := View{
		Question: l.question(), Step: l.step, Phase: l.phase, Notice: l.notice, Job: l.job(),
		Plan: slices.Clone(l.plan), Now: l.now, StickMode: l.stickMode, Raw: l.raw, Begun: l.begun,
		Axis: l.candidate.axis, Button: l.candidate.button, HoldFor: l.candidate.holdFor,
		Trying: l.tried != nil, CanSkip: l.canSkip(), CanBack: l.canBack(), CanClick: l.canClick(), Enough: l.enough(), Last: -1, FreeLeft: len(l.freeChannels()), Pens: &l.pens, ModeKnown: l.options.ModeGiven,
	}
	v.Lean, v.Zone, v.InZone = l.aim()
	for i := range l.plan {
		v.ModeKnown = v.ModeKnown || l.plan[i].Question == StickMode && l.plan[i].Answered
	}
	if v.Axis >= 0 || v.Button >= 0 || v.HoldFor > 0 {
		v.Held = max(0, l.at-l.candidate.since)
	}
	for i := range v.Shares {
		v.Shares[i] = -1
		if i < len(l.axes) && !l.axes[i].dead() {
			v.Shares[i] = l.axes[i].place(l.axes[i].now)
		}
	}
	if v.Question.through() && l.phase != Settling {
		l.viewThrough(&v)
	}
	for k := range l.found {
		c := l.control(&l.found[k])
		if l.found[k].spare {
			v.Spare = append(v.Spare, c)
			continue
		}
		if k == l.last {
			v.Last = len(v.Answers)
		}
		v.Answers = append(v.Answers, c)
	}
	switch v.Question {
	case Once:
		v.Seen, v.Places = l.once.count()
	case StickMode, TopRight:
		for _, job := range sticksInOrder {
			c, _ := l.corner(job)
			v.Corners = append(v.Corners, c)
		}
	case Replay:
		for k := range l.found {
			if !l.found[k].spare {
				seen := k < len(l.replay.seen) && l.replay.seen[k] && (l.phase != Settling || l.notice.Code == Lost)
				v.Replayed = append(v.Replayed, Replayed{l.found[k].control.Job, seen})
			}
		}
	}
	return v
}

// viewThrough tells the positions seen so far.
func (l *Learner) viewThrough(v *View) {
	i := l.through.axis
	if i < 0 {
		v.Positions = l.distinct()
		return
	}
	levels, knob := l.positionsOf(i, l.standsOf(i))
	if knob {
		return
	}
	v.Positions, v.Start = max(1, len(levels)), l.axes[i].place(l.axes[i].rest)
	for _, p := range levels {
		v.Levels = append(v.Levels, l.axes[i].place(int32(math.Round(p.at))))
	}
}

func (l *Learner) distinct() int {
	var seen []pressedSet
	for _, s := range l.through.visits {
		if !slices.Contains(seen, s) {
			seen = append(seen, s)
		}
	}
	return max(1, len(seen))
}

// control is an answer as it goes into a radio file, with the reach and the noise as they are known now.
func (l *Learner) control(a *answer) radio.Control {
	c := a.control
	c.Buttons = slices.Clone(c.Buttons)
	if c.Form != radio.Axis || l.tried != nil {
		return c
	}
	t := &l.axes[c.Axis]
	scale := radio.Own(t.axis)
	if a.turned {
		scale = scale.Turned()
	}
	c.Scale = &scale
	c.Noise = tenths(t.deviation(l.at))
	if low, high, ok := t.reached(l.at); ok {
		r := radio.Reach{Low: int32(math.Round(low)), Rest: a.home, High: int32(math.Round(high))}
		r.Low, r.High = min(r.Low, r.Rest), max(r.High, r.Rest)
		if r.Low < r.High {
			c.Reach = &r
		}
	}
	if a.knob || len(a.stands) == 0 {
		return c
	}
	levels, _ := l.levelsAmong(c.Axis, a.stands) // whatever they were come to like: a person may have said that it clicks
	for _, p := range levels {
		c.Positions = append(c.Positions, radio.Position{At: radio.Half(math.Round(2 * p.at)), Spread: tenths(p.spread)})
	}
	if a.turned {
		slices.Reverse(c.Positions)
	}
	return c
}

func tenths(v float64) radio.Tenth { return radio.Tenth(math.Round(min(v*10, math.MaxInt32))) }

// File is what was learned, or the file that was tried; false while a question is open. Its scales are those of the device, turned round where the
// control was, and written out, so that the file means the same without the device at hand.
func (l *Learner) File() (radio.File, bool) {
	if l.tried != nil {
		return l.triedFile(), l.question() == Done
	}
	f := radio.File{Device: radio.DeviceOf(l.info), StickMode: l.stickMode}
	for k := range l.found {
		if !l.found[k].spare {
			f.Controls = append(f.Controls, l.control(&l.found[k]))
		}
	}
	return f, l.question() == Done
}
