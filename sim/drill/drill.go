// Package drill: cue, what must follow, what must not; verdicts; which drill is next.
//
// A drill is data (Config). Step advances a run of it by one tick: it is told what the bench shows (Facts, happenings) and what the
// pupil answered, and gives back events: bench inputs to be put, when the cue is due, how each try ended. Everything is an
// integer, nothing here reads a clock, and nothing counts but what the bench saw happen or the pupil answered. What is followed (Following) is
// measured elsewhere, and comes in as whole numbers.
package drill

import (
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// The limits of one drill: how many there are of each at most.
const (
	MostCases    = 16
	MostWants    = 16 // that must follow, in one case
	MostNevers   = 8
	MostSteps    = 4 // of preparation
	MostPuts     = 24
	MostChoices  = 12
	MostTries    = 60
	MostAttempts = 120 // tries, void ones included, after which the run ends
)

// Config is one drill.
type Config struct {
	// Code is its word in files and logbooks.
	Code string
	// Cases are its variants; each try takes one. They come in turn, or, where Shuffled, in an order that the seed decides anew each
	// time round.
	Cases    []Case
	Shuffled bool
	// Tries is the most tries of a run. A run counts as learned when the last InARow tries were right or, where InARow is 0, when
	// Right of the last Of were. It ends when that is so or the tries are used up.
	Tries     uint16
	InARow    uint16
	Right, Of uint16
	// Times are how long hands must rest and stay; what is 0 is as in UsualTimes.
	Times Times
}

// Times say when hands are at rest, and when they have gone somewhere.
type Times struct {
	// Rest is how long hands must lie still before the wait for the cue begins, in ticks; Band is how far from where it lay a stick may wander in it.
	Rest int32
	Band pulse.Width
	// Dwell is how long a stick or the mode switch must stay where it was asked to go, in ticks: a sweep through is not going there.
	Dwell int32
}

// UsualTimes are those of a drill that says nothing else (ours): hands that tremble stay well within a twenty-fifth of the travel, and whoever flicks
// past the middle of a switch is gone from it within a tenth of a second.
func UsualTimes() Times { return Times{Rest: 500, Band: pulse.Micros(40), Dwell: 150} }

// times are those that count.
func (c *Config) times() Times {
	t, usual := c.Times, UsualTimes()
	if t.Rest == 0 {
		t.Rest = usual.Rest
	}
	if t.Band == 0 {
		t.Band = usual.Band
	}
	if t.Dwell == 0 {
		t.Dwell = usual.Dwell
	}
	return t
}

// Case is one variant: how the bench is set, the cue, what must follow.
type Case struct {
	Craft Craft
	// Set are the bench inputs at its beginning; all of them are named, so that nothing is left over from the try before.
	Set []Put
	// Before is what must be so before the cue comes, one step after the other. The wants of the last one must go on holding until the
	// cue comes: to break them is a false start.
	Before []Preparation
	// NextPack is the voltage in mV of the pack that is connected once the old one has been taken off; 0 keeps the old voltage.
	NextPack int32
	// WaitLow and WaitHigh bound the wait for the cue, in ticks; it comes at a random time between them. Where they differ the cue counts
	// as unannounced.
	WaitLow, WaitHigh int32
	// With are bench inputs at the cue and some time after it, in order of time.
	With []Timed
	// Wants must all follow the cue within Within ticks: in their order where InOrder, else in any.
	Wants   []Want
	InOrder bool
	Within  int32
	// Nevers must not happen from the cue on. One that already holds at the cue counts only once it has ceased and comes again.
	Nevers []Want
	// Mark is what one stick is to follow from the cue on; where there is one, its end is all that is wanted.
	Mark mark.Config
	// Choices is how many answers there are to choose from, 0 for none. KeepOrder shows them as they stand in the file.
	Choices   uint8
	KeepOrder bool
}

// Preparation is one step of preparation: bench inputs, then what must be so.
type Preparation struct {
	Puts  []Put
	Until []Want
}

// Timed is a bench input, Put, that comes After ticks after the cue.
type Timed struct {
	After int32
	Put
}

// WantKind says what a Want is about.
type WantKind uint8

// The kinds. Those marked "happens" are true in one tick only, the others as long as they last. Each is something that the bench
// shows, except Answer, which the pupil gives.
const (
	_             WantKind = iota
	Armed                  // A: 1 armed, 0 disarmed
	Ready                  // disarmed, and nothing refuses
	Refuses                // A: set of refusals, all of which stand now
	OnlyThose              // A: set of refusals: exactly these stand now
	Clear                  // A: set of refusals, none of which stands now
	Refused                // happens: arming was asked for and refused; A: any of this set, 0 for any at all
	DisarmedBy             // happens: A: set of causes, one bit each
	Link                   // A: set of link.Phase, one bit each
	Mode                   // A: layout.Mode that the craft is in
	Motors                 // A: 1 turning, 0 still
	Stick                  // A: 0 throttle, 1 roll, 2 pitch, 3 yaw; B: set of Zone. As the hand holds it
	ArmSwitch              // A: 1 on, 0 off. As the hand holds it
	SecondSwitch           // A: 1 on, 0 off. As the hand holds it
	ModeSwitch             // A: layout.Mode. As the hand holds it
	Transmitter            // A: 1 on, 0 off
	Power                  // A: 1 on, 0 off
	Cable                  // A: 1 in, 0 out
	Level                  // A: 1 within the tilt limit, 0 beyond it
	Menu                   // A: pulse.MenuClosed, MenuCraft, MenuCamera
	Checked                // A: 1 the propellers were checked
	Flying                 // A: 1 off the ground
	Happens                // happens: A: happening.Code; B: its number A, −1 for any
	Gesture                // happens: A: pattern of the craft's set, from 0
	MenuValue              // happens: A: item, B: value
	MenuLeft               // happens: A: 1 kept, 0 put back
	Answer                 // happens: A: choice, from 0
	Followed               // happens: the mark was followed to its end, and the hand could be measured
	Flies                  // Task: the craft is in the air and keeps to it
	Leaves                 // Task: it is in the air and does not
	TouchesDown            // happens: A, B: faster than that, and not so fast, both in mm/s as in a Span
	HoverThrottle          // the throttle stands where the craft hovers (HoverSpan). As the hand holds it
	WantKinds
)

// Want is one thing that must follow, must not happen, or must be so. What A, B and Task mean stands beside each kind.
type Want struct {
	Kind WantKind
	A, B int32
	Task Task
	// For is how many ticks it must have held; with 0 a moment is enough.
	For int32
}

// goes reports whether a want is about where a hand goes: it counts once the hand has stayed there.
func (w *Want) goes() bool { return w.Kind == Stick || w.Kind == ModeSwitch || w.Kind == Mode }

// control is what a want about where a hand goes is about.
func (w *Want) control() Job {
	if w.Kind == Stick {
		return Throttle + Job(w.A&3)
	}
	return ModeJob
}

// passes reports whether a hand may sweep through a place on its way to another: it is not an end.
func (w *Want) passes() bool {
	return w.goes() && (w.Kind != Stick || w.B&(1<<Down|1<<Low|1<<High) == 0)
}

// Happening reports whether the kind is true in one tick only.
func (k WantKind) Happening() bool {
	switch k {
	case Refused, DisarmedBy, Happens, Gesture, MenuValue, MenuLeft, Answer, Followed, TouchesDown:
		return true
	}
	return false
}
