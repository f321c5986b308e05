// Package prove searches every reachable situation of a layout and gives the shortest way to a broken rule.
//
// It drives the bench's own step of link, layout and arming (sim.StepSlot), once a slot, and no second model of it. It reads
// no clock: it reports its progress to a callback, which may stop the search.
package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Layout is what is searched: a craft and what a radio can send to it.
type Layout struct {
	Config sim.Config
	Radio  handset.Radio
}

// Options are those of a Search. The zero value searches everything.
type Options struct {
	// Progress, where given, is called every so many situations; if it returns true, the search ends with a partial report.
	Progress func(Progress) (stop bool)
	// MostBytes bounds the memory for situations, in bytes; 0 means 2 GiB. A search that needs more ends with a partial report.
	MostBytes int64
	// Workers is how many processors are used at once; 0 means all that there are. What is found does not depend on it.
	Workers int
	// grain is how many situations one of them takes at a time; 0 is a good measure.
	grain uint32
}

// Progress is how far a search has come.
type Progress struct {
	// Situations is how many were found so far, in all passes together; Open is how many steps to situations are known and not yet
	// taken, some of which will turn out to lead to the same one.
	Situations, Open uint64
	// Movements and Slots are how far from the beginning the search has come: it goes by human movements first, then by time.
	Movements, Slots int
	// Again: this is not the first pass: what some step contradicted is looked at once more, told apart more finely.
	Again bool
	// Broken is how many rules this pass has found a step to break: whoever wants to know no more than whether one is may stop here.
	Broken int
	// Expected is about how many situations the first pass, which takes most of the time, will have found at its end; 0 while that is not
	// known, in a small search, and in every later pass. It was within an eighth of the truth wherever it was held against a whole search.
	Expected uint64
}

// Report is what a search found.
type Report struct {
	// Partial: the search was stopped or ran out of memory. What it found broken is broken all the same.
	Partial bool
	// Situations is how many were searched, one by one; Standing is how many they stand for when every position of every switch is
	// told apart, even those that arming never reads. Edges is how many steps lead on from them, each counted; Steps is how many times a
	// slot of the bench was gone through, in all passes together.
	Situations uint64
	Standing   float64
	Edges      uint64
	Steps      uint64
	// Bytes is the most memory that situations took at any one time.
	Bytes int64
	// Results has one for each Rule, in order, including those not asked.
	Results []Result
}

// Count is how many rules came to this outcome.
func (r *Report) Count(o Outcome) (n int) {
	for i := range r.Results {
		if r.Results[i].Outcome == o {
			n++
		}
	}
	return n
}

// Verdict is what a search came to as a whole.
type Verdict uint8

const (
	AllHold      Verdict = iota // every rule was searched to its end, and none is broken
	SomeBroken                  // a rule is broken, however far the search came
	Unfinished                  // nothing was found broken, but not everything was searched
	VerdictCount                // one more than the last
)

// Code is the verdict's name in reports.
func (v Verdict) Code() string {
	return code([]string{"all-hold", "some-broken", "unfinished"}, int(v))
}

// Verdict is what the results come to together.
func (r *Report) Verdict() Verdict {
	switch {
	case r.Count(Broken) > 0:
		return SomeBroken
	case r.Partial || r.Count(Undecided) > 0:
		return Unfinished
	}
	return AllHold
}

// Result is what came of one rule.
type Result struct {
	Rule    Rule
	Outcome Outcome
	// Searched is how many situations (for rules about positions: how many positions) the rule was held against.
	Searched uint64
	// Way is nil unless Outcome is Broken or WithIt. Where something cannot be reached (CanArm, CanDisarm, EveryModeReached), it is
	// not the shortest of anything, but an honest try that ends without it.
	Way *Way
	// Cause is the code of what is at fault; Control (an index into Layout.Radio.Controls, −1 for none), Position (−1 for none), Mode
	// and Value (depending on the cause: eighths of a µs, ms, or a channel's number from 1) are its details.
	Cause             Cause
	Control, Position int
	Mode              layout.Mode
	Value             int64
	// Turning: the way was looked for with motors that turn at its end; there may be a shorter one with motors that stand still.
	Turning bool
	// Gesture is the index in Layout.Config.Gestures of the gesture that breaks a rule about gestures; Part is the part of it in
	// which the sticks then stand, counted from 0, where the rule is about that.
	Gesture, Part int
}

// Kind is what is done in a Step.
type Kind uint8

const (
	Start      Kind = iota // how everything stands at the beginning: the craft without power, the radio on, every control at its normal place
	Move                   // Control is moved from From to To
	LetGo                  // a switch that springs back is let go: free, no movement of its own
	RadioOff               // the transmitter falls silent
	RadioOn                // the transmitter sends again
	PowerOn                // the craft gets its pack
	PowerOff               // the pack is taken away
	CableIn                // the set-up cable goes in; it stands for every condition of the craft that refuses
	CableOut               // the set-up cable comes out
	Nudge                  // the craft is moved
	Wait                   // nothing moves for Ms
	Tremble                // nothing moves, but noise takes Control from From to To
	Tilt                   // the craft is tilted by Value tenths of a degree
	Level                  // it stands level again; this and the next ones only where two layouts are compared
	PackSags               // its pack falls to Value mV
	PackWell               // its pack is well again
	CameraMenu             // its camera's menu is opened
	MenuShut               // that menu is left
	PupilOff               // the pupil's transmitter falls silent; this and the next ones only where an instructor's radio is beside it
	PupilOn                // it sends again
	PlugOut                // the pupil's plug is pulled out: nothing that he moves is seen
	PlugIn                 // it is plugged in again
	KindCount              // one more than the last
)

// Counts reports whether a step of a kind is a human movement: the beginning, a wait, and what springs back or trembles by itself are none.
func (k Kind) Counts() bool { return k != Start && k != Wait && k != LetGo && k != Tremble }

// Zone says where a stick or knob stands.
type Zone uint8

const (
	AtLow    Zone = iota // at its low end
	NearLow              // short of it
	AtRest               // where it stands when let go
	NearHigh             // short of the high end
	AtHigh               // at its high end
)

// Step is one human movement, or a wait.
type Step struct {
	Kind Kind
	// At is the time in ms since the craft first got power in this way, negative before that; Ms is how long a Wait lasts.
	At, Ms int64
	// Control is an index into Layout.Radio.Controls, −1 for none. FromPosition and ToPosition are positions of a switch, or
	// the Zone of a stick or knob; From and To are the widths.
	Control                  int
	FromPosition, ToPosition int
	From, To                 pulse.Width
	// Value is what a Kind says of it.
	Value int32
	// Then is what the bench did in this step, or during this wait.
	Then Event
}

// Event is a set of what happened in a step.
type Event uint16

const (
	Armed       Event = 1 << iota // it became armed
	Disarmed                      // it became disarmed
	LinkLost                      // no valid frame for the silence limit
	LinkBack                      // the first valid frame again
	LinkClean                     // the clean time has passed
	Sinking                       // it began to sink
	SinkEnded                     // the pilot has control again
	Refused                       // arming was refused
	ModeChanged                   // another flight mode
	Settled                       // it has stood still long enough
	GestureMade                   // a gesture was made
	MenuOpens                     // a gesture opened a menu
)

// Way is how to get to a broken rule: as numbered human steps, and as readings with which the bench replays them.
type Way struct {
	Steps []Step
	// Movements counts the human movements; the start, waits and letting go are left out. Ms is how long it takes from the
	// first movement to the end.
	Movements int
	Ms        int64
	// Readings are the way as input: in order of time, At in µs from 0, whole milliseconds. At 0 they say how everything
	// stands; the first movement comes one slot later.
	Readings []pulse.Reading
	// Each is, where there are two radios, what the pupil's and the instructor's tell by themselves; Readings is what comes of both then.
	Each [2][]pulse.Reading
	// Final is the tick (ms) at which the rule is broken, and Claim what must hold once that has been stepped.
	Final int64
	Claim Claim
}

// Claim is the state in which a way ends, for a replay to be checked against.
type Claim struct {
	Armed bool
	// Mode is a layout.Mode, Phase a link.Phase.
	Mode, Phase uint8
	Sinking     bool
	// Happens is a happening.Code that the bench records in that very tick, 0 for none.
	Happens uint8
}
