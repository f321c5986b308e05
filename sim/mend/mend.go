// Package mend finds the smallest changes of craft and radio after which every rule of a layout holds.
//
// It makes up no answer: each mend that it gives has been searched whole by sim/prove. It reads no clock: it reports its progress to a
// callback, which may stop it.
package mend

import "propsoff.example/sim/prove"

// Kind is what is changed.
type Kind uint8

// The kinds. What Was and Is of a Change hold is said with each; where nothing is, they are 0.
const (
	// What the craft does with its channels; Places says what each place of the control means from then on.

	ArmOn    Kind = iota // at which positions the arm switch is on
	SecondOn             // at which positions the second switch is on
	ModesAt              // which mode is flown at which position

	// Which control does it. Control is the one that does it from then on, an index into Radio.Controls; Places are its.

	ArmCarried    // another switch arms; Was and Is: its channel, from 0
	SecondCarried // another switch is the second switch
	ModeCarried   // another switch chooses the mode
	ArmBySwitch   // by a switch, no longer by sticks; Is: its channel
	ArmBySticks   // by sticks, no longer by a switch
	NoSecond      // no second switch is asked for
	NoModes       // no mode switch: always angle
	AlwaysMode    // Was, Is: the mode of a craft without a mode switch

	// Numbers and choices of the craft, in the units of craftfile.Field; Was, Is.

	SilenceLimit
	CleanTime
	SinkTime
	SinkCarries
	LowThrottle
	ArmDwell
	DisarmDwell
	StillTime
	TiltLimit
	OnlyLevelling
	AtLowThrottle
	IdleSpeed
	AirModes
	AirWakes

	// What a lost link does.

	WhenLost // Was, Is: how many ms it sinks, 0 where it cuts
	Receiver // Was, Is: a link.OnLoss
	Stored   // Was, Is: the width that the receiver stores for channel Channel

	// What is set in the radio.

	Travel    // Control is to go from end to end as rules ask for (endsOf); Was, Is: its low end, in eighths of a µs
	KindCount // one more than the last
)

// Code is the kind's name in reports.
func (k Kind) Code() string {
	if int(k) < len(kindCodes) {
		return kindCodes[k]
	}
	return "unknown"
}

var kindCodes = [KindCount]string{
	"arm-positions", "second-positions", "mode-positions", "arm-switch", "second-switch", "mode-switch", "arm-by-switch", "arm-by-sticks", "no-second-switch",
	"no-mode-switch", "always-mode", "silence-limit", "clean-time", "sink-time", "sink-carries", "low-throttle", "arm-dwell",
	"disarm-dwell", "still-time", "tilt-limit", "only-self-levelling", "at-low-throttle", "idle-speed", "air-modes", "air-mode-wakes", "when-lost",
	"receiver", "stored-value", "travel",
}

// InRadio reports whether a change is one that a person makes in the radio: no craft file says it.
func (c *Change) InRadio() bool { return c.Kind == Travel || c.Swaps }

// Change is one change.
type Change struct {
	Kind Kind
	// Relearn is how much the pilot must relearn for it (ours): 1 where no hand feels it.
	Relearn int
	// Control is an index into Radio.Controls, −1 for none; Channel counts from 0, −1 for none.
	Control int
	Channel int8
	Was, Is int64
	// Places says what is to be at each place of the control, from low to high: 0 and 1 for off and on, or a mode.
	Places []int8
	// Swaps: which control sends a channel is changed in the radio; the craft keeps its channels.
	Swaps bool
}

// Mend is a set of changes after which every rule holds.
type Mend struct {
	// Changes are what must be changed, in the order in which they are made.
	Changes []Change
	// Relearn is how much the pilot must relearn in all.
	Relearn int
	// After is the layout with them, and Proof the search of it.
	After prove.Layout
	Proof prove.Report
}

// Asks says what a mend asks of the pilot: something to set in the radio, another end of a lost link, something for the hands to relearn.
func (m *Mend) Asks() (radio, loss, hands bool) {
	for i := range m.Changes {
		c := &m.Changes[i]
		radio = radio || c.InRadio()
		loss = loss || c.Relearn == atLoss
		hands = hands || c.Relearn >= habit
	}
	return radio, loss, hands
}

// Options are those of Find. The zero value finds up to three mends of up to three changes.
type Options struct {
	// Progress, where given, is called every so often; if it returns true, the search for mends ends with what it has.
	Progress func(Progress) (stop bool)
	// Mends is the most that are given, 0 means 3; Changes the most changes of one, 0 means 3.
	Mends, Changes int
	// MostBytes is that of each search (prove.Options).
	MostBytes int64
}

// Progress is how far the search for mends has come.
type Progress struct {
	// Changes is of how many changes those are that are now tried; Tried how many of them were, Of how many there are.
	Changes, Tried, Of int
	// Proofs is how many were searched whole so far, Mends how many are found.
	Proofs, Mends int
	// Search is how far the search under way is, the zero value while none is.
	Search prove.Progress
}

// Report is what Find came to.
type Report struct {
	// Before is the search of the layout as it is.
	Before prove.Report
	// Mends are what was found, the one first for which the pilot must relearn the least.
	Mends []Mend
	// Changes is of how many changes the largest sets were that were tried.
	Changes int
	// Singles is how many single changes there are to choose from; Tried is how many sets of changes were tried, Proofs how many searched whole.
	Singles, Tried, Proofs int
	// Partial: it was stopped. That there is no mend is not said then.
	Partial bool
	// Exclude are rules of which every set of changes leaves one broken, where nothing mends; as few as could be found. Fewest: no fewer of
	// them exclude each other.
	Exclude []prove.Rule
	Fewest  bool
}

// Verdict is what came of it.
type Verdict uint8

const (
	NothingToMend Verdict = iota // every rule holds as it is
	Mended                       // there is a mend
	Unmended                     // nothing of so many changes mends it
	Unfinished                   // it was stopped before it could be said
	VerdictCount                 // one more than the last
)

// Code is the verdict's name in reports.
func (v Verdict) Code() string {
	if v >= VerdictCount {
		return "unknown"
	}
	return [...]string{"nothing-to-mend", "mended", "not-mended", "unfinished"}[v]
}

// Verdict is what came of it all.
func (r *Report) Verdict() Verdict {
	switch {
	case sound(&r.Before):
		return NothingToMend
	case len(r.Mends) > 0:
		return Mended
	case r.Partial:
		return Unfinished
	}
	return Unmended
}

// sound reports whether every rule holds, comes with the arming method or is not asked, and everything was searched.
func sound(r *prove.Report) bool { return r.Verdict() == prove.AllHold }

// How much a pilot must relearn (ours): what no hand feels counts least, a hand's habit most.
const (
	unfelt     = 1   // an edge or a time that changes nothing a hand knows
	atLoss     = 4   // what a lost link does
	inRadio    = 10  // travel to set in the radio
	felt       = 15  // what the motors do
	modeMoved  = 30  // at one position another mode
	modeGone   = 35  // a mode that is flown no more
	always     = 40  // another mode for good
	armMoved   = 60  // at one position on instead of off, or the other way round
	switchGone = 90  // a switch that does nothing any more
	elsewhere  = 100 // another switch
	guardGone  = 120 // one thing less that is asked for before it arms
	otherWay   = 150 // sticks instead of a switch, or the other way round
	habit      = 15  // from here on hands must learn
)
