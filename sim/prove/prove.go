// Package prove searches every reachable situation of a layout and gives the shortest way to a broken rule.
//
// It drives the bench's own link, layout and arming step (sim.StepSlot), once a slot, not a second model of it. It reads
// no clock: progress is told by a callback, which may stop the search.
package prove

import (
	"propsoff/sim"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// Layout is what is searched: a craft and a radio.
type Layout struct {
	Config sim.Config
	Radio  handset.Radio
}

// Options of a Search. The zero value searches everything.
type Options struct {
	// Progress, where given, is called every so many situations; returning true stops the search with a partial report.
	Progress func(Progress) (stop bool)
	// MostBytes bounds the memory for situations; 0 means 2 GiB. Beyond it the report is partial.
	MostBytes int64
}

// Progress is how far a search is.
type Progress struct {
	// Situations found so far, in all passes together; Open is how many steps to situations are known and not yet taken, some
	// of which will turn out to lead to the same one.
	Situations, Open uint64
	// Movements and Slots are how far from the beginning the search stands: it goes by human movements first, then by time.
	Movements, Slots int
}

// Report is what a search found.
type Report struct {
	// Partial: it was stopped or ran out of memory. What is broken is broken all the same.
	Partial bool
	// Situations were searched, one by one; Standing is how many they stand for, every position of every switch told apart
	// as it stands now, those that arming never reads included. Steps is how many times the bench was stepped.
	Situations uint64
	Standing   float64
	Steps      uint64
	// Bytes is the most memory that situations took at one time.
	Bytes int64
	// Results has one for each Rule, in order, those not asked included.
	Results []Result
}

// Count is how many rules came out in a way.
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
	AllHold    Verdict = iota // every rule was searched to its end, and none is broken
	SomeBroken                // a rule is broken, however far the search came
	Unfinished                // nothing was found broken, but not everything was searched
	VerdictCount
)

// Code is the verdict's name in reports.
func (v Verdict) Code() string {
	return code([]string{"all-hold", "some-broken", "unfinished"}, int(v))
}

// Verdict of a report.
func (r *Report) Verdict() Verdict {
	switch {
	case r.Count(Broken) > 0:
		return SomeBroken
	case r.Partial || r.Count(Undecided) > 0:
		return Unfinished
	}
	return AllHold
}

// Result of one rule.
type Result struct {
	Rule    Rule
	Outcome Outcome
	// Searched is how many situations (for rules about positions: how many positions) the rule was held against.
	Searched uint64
	// Way is nil unless Broken or WithIt. Where something cannot be reached (CanArm, CanDisarm, EveryModeReached), it is
	// not the shortest of anything but an honest try that ends without it.
	Way *Way
	// Cause is the code of what is at fault, for the sentence; Control (index into Layout.Radio.Controls, −1 none), Position
	// (−1 none), Mode and Value (by cause: µs/8, ms, or a channel's number from 1) are its details.
	Cause             Cause
	Control, Position int
	Mode              layout.Mode
	Value             int64
	// Gesture is the index in Layout.Config.Gestures of the one that a rule about gestures is broken for; Part is the part of it in
	// which the sticks stand then, counted from 0, where a rule is about that.
	Gesture, Part int
}

// Kind of a Step.
type Kind uint8

const (
	Start    Kind = iota // how everything stands at the beginning: the craft without power, the radio on, every control at its normal place
	Move                 // Control is moved from From to To
	LetGo                // a switch that springs back is let go: free, no movement of its own
	RadioOff             // the transmitter falls silent
	RadioOn              //
	PowerOn              // the craft gets its pack
	PowerOff             //
	CableIn              // the set-up cable; it stands for every condition of the craft that refuses
	CableOut             //
	Nudge                // the craft is moved
	Wait                 // nothing moves for Ms
	KindCount
)

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
	// At is the time in ms since the craft first got power in this way (before that negative); Ms how long a Wait lasts.
	At, Ms int64
	// Control is the index into Layout.Radio.Controls, −1 for none. FromPosition and ToPosition are positions of a switch, and
	// a Zone for a stick or knob; From and To are the widths.
	Control                  int
	FromPosition, ToPosition int
	From, To                 pulse.Width
	// Then is what the bench did in this step (of a wait: during it).
	Then Event
}

// Event is a set of what happened in a step.
type Event uint16

const (
	Armed Event = 1 << iota
	Disarmed
	LinkLost
	LinkBack
	LinkClean
	Sinking
	SinkEnded
	Refused
	ModeChanged
	Settled
	GestureMade
	MenuOpens
)

// Way is how to get to a broken rule: numbered human steps, and the same as readings that the bench replays.
type Way struct {
	Steps []Step
	// Movements counts the human movements; the start, waits and letting go are left out. Ms is how long it takes from the
	// first movement to the end.
	Movements int
	Ms        int64
	// Readings are the way as input: in order of time, At in µs from 0, whole milliseconds. At 0 they say how everything
	// stands; the first movement comes one slot later.
	Readings []pulse.Reading
	// Final is the tick (ms) at which the rule is broken, and Claim what must be so once it was stepped.
	Final int64
	Claim Claim
}

// Claim is the state in which a way ends, to be checked when it is replayed.
type Claim struct {
	Armed bool
	// Mode is a layout.Mode, Phase a link.Phase.
	Mode, Phase uint8
	Sinking     bool
	// Happens is a happening.Code that the bench records in that very tick, 0 for none.
	Happens uint8
}
