package drills

import "propsoff/assets/words"

// View is what the sheet of drills knows.
type View struct {
	// Course is what the course is called, Pupil who practises, empty for nobody named. Typing: that name is being typed.
	Course words.Text
	Pupil  string
	Typing bool
	// Rows are the drills in the order of the course, Selected the index of the one looked at; Next says which is next and why.
	Rows     []Row
	Selected int
	Next     words.Text
	// About, Caution and Results are of the one looked at: what it is for, what to beware of, and what came of it so far.
	About, Caution words.Text
	Results        []words.Text
	// Kept says where the results go, or why they go nowhere.
	Kept words.Text
	// Run is the run under way, or the one that has just ended.
	Run Run
	// Trouble says why a run was ended, or why none begins; it says nothing where all is well.
	Trouble words.Text
}

// Row is one drill of the course.
type Row struct {
	Name words.Text
	// Stands says in a few words how it stands; Mark is its shape.
	Stands words.Text
	Mark   Mark
}

// Mark is the shape by which a drill's standing is told.
type Mark uint8

// The marks.
const (
	Untried  Mark = iota // an empty ring
	Due                  // a ring with a dot
	Learned              // a half-filled ring
	Mastered             // a tick in a ring
	Failed               // a cross
)

// Run is a run of a drill. A Text that does not apply says nothing.
type Run struct {
	// On: a drill runs. Over: it has ended, and what came of it is shown.
	On, Over bool
	Name     words.Text
	// Try and Most: this is try Try, from 1, of at most Most.
	Try, Most int
	// Heading says in one or two words what is asked for: first, wait, now, the verdict. Say is what is to be done, or why the verdict is so, large.
	Heading, Say words.Text
	// Cue: Say is the cue itself, Alarm the urgent one.
	Cue, Alarm bool
	// Picture is the name of the cue's picture, one of drillfile.Pictures; empty for none.
	Picture string
	// Steps are what must be so, or must follow.
	Steps []Step
	// Choices in the order in which they are shown, Mark the index of the one that the key takes.
	Choices []words.Text
	Mark    int
	// Judged: Heading is a verdict, Right its shape, and After is told with it.
	Judged, Right bool
	After         words.Text
	// Sum is what the tries came to so far.
	Sum words.Text
	// Caution is shown as long as the drill runs.
	Caution words.Text
	// ShowPropellers: they are to be checked, or one of them is wrong on purpose.
	ShowPropellers bool
}

// asks tells whether an answer is asked for.
func (r *Run) asks() bool { return r.On && len(r.Choices) > 0 }

// Step is one thing that must be so; Done: it is.
type Step struct {
	Text words.Text
	Done bool
}

// With a number from 1 these name the hit areas of drills and of answers.
const (
	drillPrefix  = "drill-"
	answerPrefix = "answer-"
)
