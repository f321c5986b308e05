package spoken

import (
	"math/bits"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/mark"
)

// Drill says what a drill asks for and how each try ended. It belongs to one goroutine.
type Drill struct {
	// Say is given each sentence.
	Say Say
	// Choice says answer n, counted from 1; nil as a number and the answer.
	Choice func(n int, answer words.Text) words.Text
	// GoOn says what to do to go on after a try that is looked at; empty where nothing need be done.
	GoOn words.Text
	// Hands is whose hands it is told for.
	Hands tell.DrillHands

	one     *drillfile.Drill
	limit   string // that was told last, in English: it is told again where it is another
	waits   string
	done    int    // steps of preparation that were told in this try
	lacks   uint32 // what is still to come of a step, and since when, and what was said of that
	since   int64
	saidFor uint32
}

// Eyes tells whether a drill takes eyes: it is flown, a mark is followed, or what it asks about stands in a picture alone.
func Eyes(d *drillfile.Drill) bool {
	if d.Flown() {
		return true
	}
	for i := range d.Config.Cases {
		if c := &d.Config.Cases[i]; c.Mark.On() || c.Craft.FixedMode > 0 || d.Cases[i].Motor.Place != "" {
			return true
		}
	}
	return false
}

// Leaves names the drills that take eyes; nothing where none does.
func Leaves(drills []*drillfile.Drill) words.Text {
	var names []words.Text
	for _, d := range drills {
		if Eyes(d) {
			names = append(names, tell.DrillText(d.Config.Code, d.Name))
		}
	}
	if len(names) == 0 {
		return words.Text{}
	}
	return words.T("spoken.eyes", words.Args{"n": words.Count(len(names)), "names": words.Clauses(names...)})
}

// Begins says which drill comes, what it is for, and what counts as learned.
func (d *Drill) Begins(one *drillfile.Drill) {
	*d = Drill{Say: d.Say, Choice: d.Choice, GoOn: d.GoOn, Hands: d.Hands, one: one}
	code := one.Config.Code
	d.Say(words.T("spoken.drill", words.Args{"name": tell.DrillText(code, one.Name)}), false)
	for _, t := range []words.Text{tell.DrillAbout(one, d.Hands), tell.DrillText(code, one.Caution), tell.DrillAsks(&one.Config)} {
		if !t.Empty() {
			d.Say(t, false)
		}
	}
}

// Told says an event of the drill, with the run as it stands after it.
func (d *Drill) Told(tick int64, e drill.Event, v *drillrun.View) {
	if d.one == nil {
		return
	}
	c, own := &d.one.Config.Cases[e.Case], &d.one.Cases[e.Case]
	switch e.Kind {
	case drill.TryBegins:
		d.done, d.lacks, d.saidFor = 0, 0, 0
		d.other(&d.limit, tell.DrillLimit(c))
	case drill.BeforeStep:
		d.Say(d.text(own.Before[e.Number]), false)
		d.lacks, d.saidFor, d.since = 0, 0, tick
	case drill.RestBegins:
		d.Say(words.T("drill.rest"), false)
	case drill.WaitBegins:
		d.other(&d.waits, tell.DrillWait(c))
	case drill.CueNow:
		d.cue(own, v)
	case drill.WantDone:
		if n := len(c.Wants); n > 1 && bits.OnesCount32(v.State.Done) < n {
			d.Say(words.T("spoken.seen", words.Args{"what": tell.WantSentence(c.Wants[e.Number])}), false)
		}
	case drill.TryEnds:
		d.ends(&e.Try, own, v)
	case drill.LookBegins:
		if !v.Alone && !d.GoOn.Empty() {
			d.Say(d.GoOn, false)
		}
	}
}

// other says a sentence where it is another than the one that was said last.
func (d *Drill) other(was *string, t words.Text) {
	if now := words.English().Say(t); now != *was {
		*was = now
		d.Say(t, false)
	}
}

// text is a text of the drill's file.
func (d *Drill) text(s string) words.Text { return tell.DrillText(d.one.Config.Code, s) }

// cue gives the call, then the answers that there are.
func (d *Drill) cue(own *drillfile.Words, v *drillrun.View) {
	call := d.text(own.Say)
	if call.Empty() {
		call = words.T("drill.do")
	}
	d.Say(call, true)
	for n, i := range drill.Choices(&d.one.Config, &v.State, nil) {
		answer := d.text(own.Choices[i])
		if d.Choice != nil {
			d.Say(d.Choice(n+1, answer), false)
		} else {
			d.Say(words.T("spoken.answer", words.Args{"n": words.Whole(n + 1), "answer": answer}), false)
		}
	}
}

// ends says how a try ended: the verdict with the time at once, then what the hand did, why it was so, and what to remember.
func (d *Drill) ends(t *drill.Try, own *drillfile.Words, v *drillrun.View) {
	var time words.Text
	if t.Reaction >= 0 {
		time = tell.Seconds(int64(t.Reaction))
	}
	d.Say(words.T("spoken.verdict", words.Args{"verdict": tell.VerdictWord(t.Verdict), "time": time}), true)
	if h := &t.Hand; h.Axis != mark.NoAxis {
		d.Say(tell.HandSentence(h), false)
	}
	if t.Verdict == drill.Right {
		return
	}
	c := &d.one.Config.Cases[t.Case]
	for _, t := range []words.Text{tell.DrillDid(&v.Did), tell.TryWhy(*t, own, &d.one.Config), tell.DrillCame(*t, c, v.State.Done), tell.DrillAfter(d.one, int(t.Case), d.Hands)} {
		if !t.Empty() {
			d.Say(t, false)
		}
	}
}

// lackFor is how long something must be missing before it is said what (ours): the hands have had time to do what was asked.
const lackFor = 4000

// Look says what is still to come before the call where the hands have stopped short of it. v is the run as it stands at a tick.
func (d *Drill) Look(tick int64, v *drillrun.View) {
	if d.one == nil || !v.On || v.State.Phase != drill.Preparing {
		return
	}
	c := &d.one.Config.Cases[v.State.Case]
	if v.Missing != d.lacks {
		d.lacks, d.since = v.Missing, tick
	}
	if d.lacks == 0 || d.lacks == d.saidFor || tick-d.since < lackFor || int(v.State.At) >= len(c.Before) {
		return
	}
	d.saidFor = d.lacks
	var all []words.Text
	for i, w := range c.Before[v.State.At].Until {
		if d.lacks>>i&1 == 1 {
			all = append(all, tell.WantSentence(w))
		}
	}
	d.Say(words.T("spoken.to-come", words.Args{"what": words.Clauses(all...)}), false)
}

// Ended says what a run came to.
func (d *Drill) Ended(run *drillrun.Result) {
	d.one = nil
	d.Say(words.T("spoken.over", words.Args{"learned": words.Flag(run.Learned), "left": words.Flag(run.BrokenOff), "sum": tell.DrillCount(drill.Summarise(run.Tries))}), false)
}

// Asks tells what of the bench must be heard to answer the case that runs: where the sticks stand, as their picture would show.
func (d *Drill) Asks(v *drillrun.View) (sticks bool) {
	if d.one == nil || !v.On || v.State.Phase != drill.Running {
		return false
	}
	return d.one.Config.Cases[v.State.Case].Choices > 0 && d.one.Cases[v.State.Case].Picture == "sticks"
}

// Propellers says which way each motor turns and each propeller lifts where the call asks to look at them; nothing elsewhere.
func (d *Drill) Propellers(e drill.Event, s *sim.Snapshot, craft *sim.Config) {
	if d.one == nil || e.Kind != drill.CueNow || d.one.Config.Cases[e.Case].Choices == 0 || d.one.Cases[e.Case].Picture != "propellers" {
		return
	}
	d.Say(tell.PropellersSeen(s.In.Hands, craft.Body.Turns), false)
}
