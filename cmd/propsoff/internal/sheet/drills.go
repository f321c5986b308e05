package sheet

import "strconv"

// DrillsView is what the sheet of drills knows. Its texts are made by whoever fills it, in the words of phrase.
type DrillsView struct {
	// Course is what the course is called, Pupil who practises; empty for nobody named. Typing: the name is typed.
	Course, Pupil string
	Typing        bool
	// Rows are the drills in the order of the course, Selected the one looked at; Next says which is next and why.
	Rows     []DrillRow
	Selected int
	Next     string
	// About, Caution and Results are of the one looked at.
	About, Caution string
	Results        []string
	// Kept says where the results go, or why they go nowhere.
	Kept string
	// Run is the run under way, or the one that has just ended.
	Run RunView
	// Trouble says why a run was ended, or why none begins; empty for none.
	Trouble string
}

// DrillRow is one drill of the course.
type DrillRow struct {
	Name string
	// Stands says in a few words how it stands; Mark is its shape.
	Stands string
	Mark   DrillMark
}

// DrillMark is the shape by which a drill's standing is told.
type DrillMark uint8

// The marks.
const (
	MarkNew      DrillMark = iota // an empty ring
	MarkDue                       // a ring with a dot
	MarkLearned                   // a half-filled ring
	MarkMastered                  // a tick in a ring
	MarkFailed                    // a cross
)

// RunView is a run of a drill.
type RunView struct {
	// On: a drill runs. Over: it has ended, and what came of it is shown.
	On, Over bool
	Name     string
	// Try and Most: this is try Try of at most Most.
	Try, Most int
	// Heading says in one or two words what is asked for: first, wait, now, the verdict. Say is what is to be done, large.
	Heading, Say string
	// Cue: Say is the cue itself, Alarm the urgent one.
	Cue, Alarm bool
	// Picture is the name of the cue's picture; empty for none.
	Picture string
	// Steps are what must be so, or must follow.
	Steps []DrillStep
	// Choices in the order in which they are shown, Mark the one that the key takes.
	Choices []string
	Mark    int
	// Verdict is shown after a try, with why; Right its shape.
	Verdict, Why, After string
	Right               bool
	// Sum is what the tries came to so far.
	Sum string
	// Caution is shown as long as the drill runs.
	Caution string
	// HideMode: the mode is to be found out, so no word tells it. HidePlanted: so is a fault, and the propellers are shown.
	HideMode, ShowPropellers bool
}

// DrillStep is one thing that must be so.
type DrillStep struct {
	Text string
	Done bool
}

// drillPrefix and choicePrefix with a number from 1 name hit areas of drills and of answers.
const (
	drillPrefix  = "drill-"
	answerPrefix = "answer-"
)

// DrillOf finds the index in DrillsView.Rows of a hit area, AnswerOf that in RunView.Choices.
func DrillOf(code string) (int, bool) { return numberOf(code, drillPrefix) }

// AnswerOf finds the index in RunView.Choices of a hit area.
func AnswerOf(code string) (int, bool) { return numberOf(code, answerPrefix) }

// numberOf is the number from 0 that one from 1 after a prefix stands for.
func numberOf(code, prefix string) (int, bool) {
	if len(code) <= len(prefix) || code[:len(prefix)] != prefix {
		return 0, false
	}
	n, err := strconv.Atoi(code[len(prefix):])
	return n - 1, err == nil && n > 0
}

// answering tells whether an answer is asked for.
func (v *View) answering() bool { return v.Drills.Run.On && len(v.Drills.Run.Choices) > 0 }

// showsDrills tells whether an action of the sheet of drills is there to be done; known is false for other actions.
func (v *View) showsDrills(a Action, on Place) (shows, known bool) {
	r := &v.Drills.Run
	switch a {
	case BeginDrill:
		return !r.On && len(v.Drills.Rows) > 0 || v.answering(), true
	case DrillAbove, DrillBelow:
		return !r.On && len(v.Drills.Rows) > 1 || v.answering(), true
	case LeaveDrill:
		return r.On, true
	case CallPupil:
		return !r.On, true
	case PropellersRight:
		return r.On && r.ShowPropellers, true
	case SwitchRadio, SwitchPack, PlugCable, TiltCraft, NudgeCraft, TurnMenu:
		if on == OnDrills {
			return r.On, true
		}
	}
	return false, false
}
