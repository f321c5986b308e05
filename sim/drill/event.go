package drill

import "propsoff.example/sim/mark"

// EventKind says what a step of a drill asks for or reports.
type EventKind uint8

// The kinds.
const (
	_ EventKind = iota
	// TryBegins: case Case is set up; where its craft is not the one on the bench, a UseCraft follows.
	TryBegins
	// UseCraft: the craft of case Case is to stand on the bench (Craft.On).
	UseCraft
	// Tell: the bench input Put is to be given to the bench at the next tick.
	Tell
	// BeforeStep: step of preparation Number is asked for now.
	BeforeStep
	// RestBegins: all that was asked for holds; hands are to lie still.
	RestBegins
	// WaitBegins: everything is as it should be; the cue comes at a time that nobody is told.
	WaitBegins
	// CueNow: the cue of case Case is to be shown and sounded now; Input.Cued then says when that was.
	CueNow
	// WantDone: want Number of the case was seen.
	WantDone
	// TryEnds: Try says how.
	TryEnds
	// LookBegins: the try that has just ended is to be shown once more, or what it measured; the run waits for Input.On.
	LookBegins
	// MarkMoved: the craft is Number mrad off the mark that is followed. Whoever runs the drill tells it, as often as is needed.
	MarkMoved
	// RunEnds: Number is 1 where it counts as learned, else 0. The pupil's own craft may go back on the bench.
	RunEnds
)

// Event is one thing that a step asks for or reports. Which fields count depends on the kind; the rest are 0.
type Event struct {
	Kind   EventKind
	Case   uint8
	Number int32
	Put    Put
	Try    Try
}

// eventRoom is the most events of one step: a try that ends, and all that the next one sets.
const eventRoom = 64

// Events is a list of fixed size that the caller owns; each Step fills it afresh.
type Events struct {
	n    int
	item [eventRoom]Event
}

// All are the events of the last Step in order, valid until the next one.
func (e *Events) All() []Event { return e.item[:e.n] }

func (e *Events) add(x Event) {
	if e.n < eventRoom {
		e.item[e.n] = x
		e.n++
	}
}

func (e *Events) tell(c uint8, puts []Put) {
	for _, p := range puts {
		e.add(Event{Kind: Tell, Case: c, Put: p})
	}
}

// Verdict is how a try ended.
type Verdict uint8

// The verdicts. Void does not count: the cue was not seen to be shown, or the program itself did not run.
const (
	_           Verdict = iota
	Right               // all that was wanted came in time, and nothing that must not
	Wrong               // something else was done
	TooLate             // not all of it came in time
	FalseStart          // the hand moved before the cue
	Anticipated         // the response came sooner after the cue than any hand can
	Void                // does not count
	Verdicts            // one more than the last
)

// Why says more about a verdict.
type Why uint8

// The reasons. The Number of a Try says which want, never or choice is meant, counted from 0.
const (
	_            Why = iota
	NeverSeen        // something happened that must not; Number: which of Case.Nevers
	WrongAnswer      // Number: the choice that was taken
	OutOfOrder       // Number: which of Case.Wants came before its turn
	StillMissing     // Number: which of Case.Wants was not seen in time (in any order: the first of those)
	CameLate         // everything came, but the last of it too late; Number: the want that came last
	BrokeBefore      // what must stand until the cue did not; Number: which want of the last step of preparation
	ActedBefore      // what the cue asks for was begun before the cue; Number: which of Case.Wants
	UnderHundred     // the first response came less than 100 ms after an unannounced cue: no hand can do that
	NotShown         // nobody said that the cue was shown
	Slept            // the program did not run for a while, or readings were lost
	NotMeasured      // too little of what the hand did went with the mark
	Whys
)

// Try is the result of one try.
type Try struct {
	// Tick is that at which it was decided.
	Tick    int64
	Case    uint8
	Verdict Verdict
	Why     Why
	Number  uint8
	// Reaction is the time in ms from the cue to the reading that completed what was wanted; −1 where none did. Uncertain is how far
	// off it may be, in ms.
	Reaction int32
	// First is the time in ms from the cue to what a hand did first of what was wanted; −1 where no reaction was timed.
	First     int32
	Uncertain uint16
	// Hand is what following a mark said of the hand; its zero value is nothing.
	Hand mark.Hand
}
