// Package drills is one sheet: the course of drills, and a drill that runs.
package drills

import (
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim/body"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/pulse"
)

// View is what the sheet of drills knows.
type View struct {
	// Course is what the course is called, Drills its drills in order; Cards say how each stands on a day.
	Course words.Text
	Drills []*drillfile.Drill
	Cards  []drill.Card
	Day    int32
	// Selected is the index of the one looked at, Next that of the one to be done next, −1 for none; Why says why that.
	Selected, Next int
	Why            drill.Reason
	// Sum is what all tries of the one looked at came to.
	Sum words.Text
	// Pupil is who practises, empty for nobody named, and Where the place where the results go.
	Pupil, Where string
	// Hands is whose hands a drill is told for.
	Hands tell.DrillHands
	// Run is the run under way, or the one that has just ended.
	Run Run
	// Trouble says why a run was ended, or why none begins; it says nothing where all is well.
	Trouble words.Text
}

// Run is a run of a drill.
type Run struct {
	// On: a drill runs. Over is what the run came to that has just ended; nil where none has. One is the drill.
	On   bool
	Over *drillrun.Result
	One  *drillfile.Drill
	// State, Missing and Tries are as in drillrun.View.
	State   drill.State
	Missing uint32
	Tries   []drill.Try
	// Choices are the places in the drill's file of the answers asked for, in the order in which they are shown, Mark the index of the one that the
	// key takes.
	Choices []int
	Mark    int
}

// asks tells whether an answer is asked for.
func (r *Run) asks() bool { return r.On && len(r.Choices) > 0 }

// Cue tells whether what is to be done now is the cue itself.
func (r *Run) Cue() bool { return r.On && r.State.Phase == drill.Running }

// tried tells whether a try is over, and the next not begun.
func (r *Run) tried() bool { return r.On && r.State.Phase == drill.Resting }

// asked is the case that runs, and its words.
func (r *Run) asked() (*drill.Case, *drillfile.Words) {
	return &r.One.Config.Cases[r.State.Case], &r.One.Cases[r.State.Case]
}

// last is the newest try.
func (r *Run) last() (t drill.Try) {
	if n := len(r.Tries); n > 0 {
		t = r.Tries[n-1]
	}
	return t
}

// try is the number of the try under way; as long as its verdict stands, of the one that is over.
func (r *Run) try() int {
	n := int(r.State.Counted)
	if !r.tried() || r.last().Verdict == drill.Void {
		n++
	}
	return min(n, int(r.One.Config.Tries))
}

// text is a text of the drill's file.
func (r *Run) text(s string) words.Text { return tell.DrillText(r.One.Config.Code, s) }

// heading says in one or two words what is asked for: first, wait, now, the verdict.
func (r *Run) heading() words.Text {
	if r.Over != nil {
		return tell.DrillHeading(drill.Over, 0)
	}
	return tell.DrillHeading(r.State.Phase, r.last().Verdict)
}

// sum is what the tries came to so far.
func (r *Run) sum() words.Text {
	if r.Over != nil {
		return tell.DrillSum(drill.Summarise(r.Over.Tries))
	}
	return tell.DrillSum(drill.Summarise(r.Tries))
}

// say says what is to be done, why the verdict is so, or what the run came to.
func (v *View) say() words.Text {
	r := &v.Run
	if r.Over != nil {
		var card *drill.Card
		if v.Pupil != "" {
			card = &v.Cards[slices.Index(v.Drills, r.One)]
		}
		return tell.DrillOver(r.Over.Learned, r.Over.BrokenOff, card, v.Day)
	}
	c, said := r.asked()
	switch r.State.Phase {
	case drill.Starting, drill.Preparing:
		if n := int(r.State.At); n < len(said.Before) {
			return r.text(said.Before[n])
		}
	case drill.Waiting:
		return words.T("drill.wait", words.Args{"unannounced": words.Flag(c.WaitHigh > c.WaitLow)})
	case drill.Running:
		if text := r.text(said.Say); !text.Empty() {
			return text
		}
		return words.T("drill.do")
	case drill.Resting:
		last := r.last()
		why := tell.TryWhy(last, said, &r.One.Config)
		if last.Reaction >= 0 {
			why = words.Row(why, tell.DrillTime(last.Reaction, last.Uncertain))
		}
		return why
	}
	return words.Text{}
}

// steps are what must be so before the cue.
func (r *Run) steps() []drill.Want {
	if p := r.State.Phase; !r.On || p != drill.Starting && p != drill.Preparing {
		return nil
	}
	if c, _ := r.asked(); int(r.State.At) < len(c.Before) {
		return c.Before[r.State.At].Until
	}
	return nil
}

// propellers tells whether the case that runs is about propellers: they are to be checked, or one is wrong on purpose.
func (r *Run) propellers() bool {
	if !r.On {
		return false
	}
	c, _ := r.asked()
	asks := func(all []drill.Want) bool {
		return slices.ContainsFunc(all, func(w drill.Want) bool { return w.Kind == drill.Checked })
	}
	wrong := func(p drill.Put) bool {
		hands, _ := pulse.PropellersOf(p.Value)
		return p.Kind == pulse.Propellers && hands != body.Directions(true)
	}
	return asks(c.Wants) || slices.ContainsFunc(c.Before, func(b drill.Preparation) bool { return asks(b.Until) || slices.ContainsFunc(b.Puts, wrong) }) ||
		slices.ContainsFunc(c.Set, wrong)
}

// With a number from 1 these name the hit areas of drills and of answers.
const (
	drillPrefix  = "drill-"
	answerPrefix = "answer-"
)

// What the sheet's own keys do.
const (
	Begin           ui.Action = "drill-begin"      // begin the one looked at, go on, or answer
	Above           ui.Action = "drill-above"      // the one above, or the answer above
	Below           ui.Action = "drill-below"      // the one below, or the answer below
	LeaveRun        ui.Action = "drill-leave"      // leave the run
	PropellersRight ui.Action = "propellers-right" // the propellers were checked
)

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnDrills, Key: "C", Flown: true,
		Shared: ui.Usual(ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu, ui.NextDriver, ui.TurnRecording),
		Own: []ui.Act{
			{Action: Begin, Physical: "Enter"},
			{Action: Above, Physical: "PageUp"},
			{Action: Below, Physical: "PageDown"},
			{Action: LeaveRun, Physical: "B"},
			{Action: PropellersRight, Physical: "K"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	r, n := &Of(v).Run, len(Of(v).Drills)
	switch a {
	case Begin:
		return !r.On && n > 0 || r.asks(), true
	case Above, Below:
		return !r.On && n > 1 || r.asks(), true
	case LeaveRun:
		return r.On, true
	case PropellersRight:
		return r.propellers(), true
	case ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu:
		return false, !r.On
	case ui.NextDriver:
		return false, r.On
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	switch r := &Of(v).Run; a {
	case Begin:
		return words.T("drill.key", words.Args{"answering": words.Flag(r.asks()), "over": words.Flag(r.Over != nil)})
	case Above, Below:
		return words.T("drill.move", words.Args{"up": words.Flag(a == Above)})
	}
	return words.Text{}
}
