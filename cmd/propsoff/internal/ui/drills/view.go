// Package drills is one sheet: the course of drills, and a drill that runs.
package drills

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/mark"
)

// View is what the sheet of drills knows.
type View struct {
	// Course is what the course is called, Drills its drills in order; Cards say how each stands on a day.
	Course words.Text
	Drills []*drillfile.Drill
	Cards  []drill.Card
	Day    int32
	// Chapters are the parts of the course, none where it has none; Chapter is the one that is open, −1 for their list. Looked is the one looked at in it.
	Chapters        []screen.DrillChapter
	Chapter, Looked int
	// Selected is the index of the drill looked at, Next that of the one to be done next, −1 for none; Why says why that.
	Selected, Next int
	Why            drill.Reason
	// Sum is what all tries of the one looked at came to.
	Sum words.Text
	// Pupil is who practises, empty for nobody named, and Where the place where the results go.
	Pupil, Where string
	// Hands is whose hands a drill is told for.
	Hands tell.DrillHands
	// Gestures are those of the craft as they stand.
	Gestures []gestures.State
	// Run is the run under way, or the one that has just ended.
	Run Run
	// Trouble says why a run was ended, or why none begins; it says nothing where all is well.
	Trouble words.Text
	// Kept says why a run could not be kept; it says nothing where it was.
	Kept words.Text
}

// Run is a run of a drill.
type Run struct {
	// On: a drill runs. Over is what the run came to that has just ended; nil where none has. One is the drill.
	On   bool
	Over *drillrun.Result
	One  *drillfile.Drill
	// State, Missing, Tries and Followed are as in drillrun.View. Before is what the same axis in the same mode was measured as the time before, nil
	// for none.
	State    drill.State
	Followed drillrun.Mark
	Before   *mark.Hand
	Missing  uint32
	Tries    []drill.Try
	// Choices are the places in the drill's file of the answers asked for, in the order in which they are shown, Mark the index of the one that the
	// key takes.
	Choices []int
	Mark    int
	// Did is what the hand did in the try that is looked at, Way its way.
	Did drill.Did
	Way *drill.Way
	// Steps are the steps of the gesture that was asked for, as the hand came to them in it; Nearly says how it missed it, where it nearly made it.
	Steps  []step
	Nearly words.Text
	// Alarm is what an alarm comes to by the reaction of the hand, Means what the pupil's own means, where the drill was about that.
	Alarm *facts.AlarmCurve
	Means facts.AlarmMeans
}

// asks tells whether an answer is asked for.
func (r *Run) asks() bool { return r.Cue() && len(r.Choices) > 0 }

// looks tells whether a try that is over is looked at until the pupil goes on.
func (r *Run) looks() bool { return r.On && r.State.Phase == drill.Looking }

// replays tells whether the hand of that try is played there: a minute of following is not.
func (r *Run) replays() bool {
	if !r.looks() || r.Way == nil {
		return false
	}
	c, _ := r.asked()
	return !c.Mark.On()
}

// Cue tells whether what is to be done now is the cue itself.
func (r *Run) Cue() bool { return r.On && r.State.Phase == drill.Running }

// tried tells whether a try is over, and the next not begun.
func (r *Run) tried() bool { return r.On && (r.State.Phase == drill.Resting || r.looks()) }

// asked is the case that runs, and its words.
func (r *Run) asked() (*drill.Case, *drillfile.Words) {
	return &r.One.Config.Cases[r.State.Case], &r.One.Cases[r.State.Case]
}

// early tells whether a try is looked at that ended before its cue.
func (r *Run) early() bool { return r.looks() && r.last().Verdict == drill.FalseStart }

// last is the newest try.
func (r *Run) last() (t drill.Try) {
	if n := len(r.Tries); n > 0 {
		t = r.Tries[n-1]
	}
	return t
}

// text is a text of the drill's file.
func (r *Run) text(s string) words.Text { return tell.DrillText(r.One.Config.Code, s) }

// heading says in one or two words what is asked for: first, wait, now, the verdict.
func (r *Run) heading() words.Text {
	if r.Over != nil {
		return tell.DrillHeading(drill.Over, 0, nil)
	}
	c, _ := r.asked()
	return tell.DrillHeading(r.phase(), r.last().Verdict, c)
}

// phase is where the try stands as the sheet tells it: with nothing left to prepare the hands are to rest.
func (r *Run) phase() drill.Phase {
	if c, _ := r.asked(); r.State.Phase <= drill.Preparing && int(r.State.At) >= len(c.Before) {
		return drill.Settling
	}
	return r.State.Phase
}

// sum is what the tries came to so far, without their times: those are for the instructor.
func (r *Run) sum() words.Text {
	switch {
	case r.Over != nil && r.Over.BrokenOff: // counts neither way
		return words.Text{}
	case r.Over != nil:
		return tell.DrillCount(drill.Summarise(r.Over.Tries))
	}
	return tell.DrillCount(drill.Summarise(r.Tries))
}

// say says what is to be done, what the hand did, or what the run came to.
func (v *View) say() words.Text {
	r := &v.Run
	if r.Over != nil {
		if h := r.hand(); h.Measured {
			return tell.HandDelay(h)
		}
		return v.ended()
	}
	c, said := r.asked()
	switch r.phase() {
	case drill.Starting, drill.Preparing:
		if n := int(r.State.At); n < len(said.Before) {
			return r.text(said.Before[n])
		}
	case drill.Settling:
		if n := len(said.Before); c.Flown() && n > 0 { // what is flown goes on
			return r.text(said.Before[n-1])
		}
		return words.T("drill.rest")
	case drill.Waiting:
		return tell.DrillWait(c)
	case drill.Running:
		if text := r.text(said.Say); !text.Empty() {
			return text
		}
		return words.T("drill.do")
	case drill.Resting, drill.Looking:
		if last := r.last(); last.Hand.Measured {
			return tell.HandDelay(&last.Hand)
		}
		if did := tell.DrillDid(&r.Did); !did.Empty() {
			return did
		}
		if r.looks() && !r.Nearly.Empty() {
			return r.Nearly
		}
		if why := tell.TryWhy(r.last(), said, &r.One.Config); !why.Empty() {
			return why
		}
		return tell.DrillAfter(r.One, int(r.State.Case), v.Hands)
	}
	return words.Text{}
}

// ended says what the run came to that has just ended, and when the drill comes back.
func (v *View) ended() words.Text {
	r := &v.Run
	var card *drill.Card
	if v.Pupil != "" {
		card = &v.Cards[slices.Index(v.Drills, r.One)]
	}
	return tell.DrillOver(r.Over.Learned, r.Over.BrokenOff, card, v.Day)
}

// more is what is said beneath the task: until the craft is flown there where the throttle is to stand, before the call how long there is for it; beneath a
// verdict why it is so where the hand is told first, and what to remember.
func (r *Run) more(h tell.DrillHands, craft *sim.Config) words.Text {
	if r.On && r.State.Phase <= drill.Waiting {
		c, _ := r.asked()
		if _, there := c.FlownTo(); there && r.State.Phase <= drill.Preparing && int(r.State.At) < len(c.Before)-1 {
			return words.Row(tell.DrillHandsOver(craft), tell.DrillKeys(c, h))
		}
		return words.Row(tell.DrillLimit(c), tell.DrillKeys(c, h))
	}
	if !r.tried() || r.last().Verdict == drill.Right {
		return words.Text{}
	}
	c, said := r.asked()
	after := words.Row(tell.DrillCame(r.last(), c, r.State.Done), tell.DrillAfter(r.One, int(r.State.Case), h))
	if r.looks() && !r.Nearly.Empty() {
		return after
	}
	if did := tell.DrillDid(&r.Did); !did.Empty() && r.Did.Kind != drill.DidLate && r.Did.Kind != drill.DidEarly {
		return words.Row(tell.TryWhy(r.last(), said, &r.One.Config), after)
	}
	return after
}

// taught tells whether the sheet still shows where the hand is to go: until it has found it once in this run, and never while that is the answer.
func (r *Run) taught() bool {
	c, _ := r.asked()
	return c.Choices == 0 && r.State.Recent == 0
}

// chapterOf is the chapter of a drill, empty where the course has none.
func (v *View) chapterOf(one *drillfile.Drill) (name words.Text) {
	for _, c := range v.Chapters {
		for _, i := range c.Drills {
			if v.Drills[i] == one {
				return c.Name
			}
		}
	}
	return name
}

// steps are what must be so before the cue.
func (r *Run) steps() []drill.Want {
	if !r.prepares() {
		return nil
	}
	if c, _ := r.asked(); int(r.State.At) < len(c.Before) {
		return c.Before[r.State.At].Until
	}
	return nil
}

// touches tells whether the case that runs is about something that only its own keys move: radio, pack, cable, craft, menu.
func (r *Run) touches() bool {
	if !r.On {
		return false
	}
	c, _ := r.asked()
	about := func(all []drill.Want) bool {
		return slices.ContainsFunc(all, func(w drill.Want) bool {
			switch w.Kind {
			case drill.Transmitter, drill.Power, drill.Cable, drill.Level, drill.Clear, drill.OnlyThose, drill.Refuses:
				return true
			}
			return false
		})
	}
	return about(c.Wants) || slices.ContainsFunc(c.Before, func(b drill.Preparation) bool { return about(b.Until) })
}

// With a number from 1 these name the hit areas of chapters, of drills and of answers.
const (
	chapterPrefix = "chapter-"
	drillPrefix   = "drill-"
	answerPrefix  = "answer-"
	motorPrefix   = "answer-motor-" // with the number of the answer
	onPress       = "drill-on"      // the task, pressed while a try is looked at
)

// What the sheet's own keys do.
const (
	Begin           ui.Action = "drill-begin"      // open the chapter looked at, begin the drill looked at, go on, or answer
	Above           ui.Action = "drill-above"      // the one above, or the answer above
	Below           ui.Action = "drill-below"      // the one below, or the answer below
	LeaveRun        ui.Action = "drill-leave"      // leave the run, or go back to the chapters
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
			{Action: LeaveRun, Physical: "Backspace"},
			{Action: PropellersRight, Physical: "Period"},
		},
		Front:  []ui.Action{ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu},
		Common: []ui.Action{ui.OnForesee.Open(), ui.OnPeople.Open(), ui.NextDriver},
		Shows:  shows,
		Does:   does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	d := Of(v)
	r, n := &d.Run, d.rows()
	switch a {
	case Begin:
		return !r.On && (n > 0 || r.Over != nil) || r.asks() || r.looks(), true
	case Above, Below:
		return !r.On && r.Over == nil && n > 1 || r.On && len(r.Choices) > 1 && (r.asks() || r.looks()), true
	case LeaveRun:
		return r.On || r.Over == nil && len(d.Chapters) > 0 && d.Chapter >= 0, true
	case PropellersRight:
		return r.propellers(), true
	case ui.OnPeople.Open(), ui.OnForesee.Open(): // whoever begins a run ends it
		return false, r.On
	case ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu:
		return false, !r.touches()
	case ui.NextDriver:
		return false, r.On
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	switch d := Of(v); a {
	case Begin:
		over := d.Run.Over != nil || d.Run.looks()
		return words.T("drill.key", words.Args{"answering": words.Flag(d.Run.asks()), "over": words.Flag(over), "chapter": words.Flag(!over && d.atChapters())})
	case LeaveRun:
		return words.T("drill.back", words.Args{"run": words.Flag(d.Run.On)})
	case Above, Below:
		return words.T("drill.move", words.Args{"up": words.Flag(a == Above)})
	}
	return words.Text{}
}

// atChapters tells whether the list of chapters is shown.
func (v *View) atChapters() bool { return len(v.Chapters) > 0 && v.Chapter < 0 }

// rows is how many chapters or drills are listed.
func (v *View) rows() int {
	if v.atChapters() {
		return len(v.Chapters)
	}
	return len(v.listed())
}

// listed are the drills of the open chapter, or all of them where the course has none.
func (v *View) listed() []int {
	if len(v.Chapters) > 0 {
		return v.Chapters[v.Chapter].Drills
	}
	all := make([]int, len(v.Drills))
	for i := range all {
		all[i] = i
	}
	return all
}
