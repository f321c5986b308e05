// Package sound holds the short tones of this program: which happening has which, how each is built, and which are off.
//
// A tone is data (pitches, lengths, loudness) and PCM makes samples of it; nothing is recorded. Each is told from the others by the
// interval between its pitches and by whether they glide or step, never by how many times it beeps. What is played is also written
// on the sheet, so nobody needs to hear it.
package sound

import (
	"slices"

	"propsoff.example/sim/layout"
)

// Code names a tone. 0 is none.
type Code uint8

// The tones.
const (
	None      Code = iota
	Armed          // the craft became armed
	Disarmed       // the craft became disarmed
	Refused        // arming was asked for and refused
	firstMode      // the mode became the first, and so on: a tone for each mode, see OfMode
)

// The tones after those of the modes.
const (
	LinkLost   Code = firstMode + layout.Modes + iota // no valid frame for the silence limit
	LinkBack                                          // the first valid frame after that
	LinkClean                                         // the link counts as good again
	DrillAlarm                                        // a drill's cue that asks for hands at once
	DrillCall                                         // a drill's cue that does not hurry
	DrillRight                                        // a try of a drill was right
	DrillWrong                                        // a try of a drill was wrong, late or too early
	CodeCount
)

// OfMode is the tone of a mode that a craft changes to.
func OfMode(m layout.Mode) Code { return firstMode + Code(m) }

// Mode is the mode whose tone c is; ok is false for every other tone.
func (c Code) Mode() (m layout.Mode, ok bool) {
	return layout.Mode(c - firstMode), c >= firstMode && c < LinkLost
}

// All are the tones in the order of their codes.
func All() []Code {
	all := make([]Code, 0, CodeCount-1)
	for c := None + 1; c < CodeCount; c++ {
		all = append(all, c)
	}
	return all
}

// Word is the code word of a tone in the settings file; it never changes.
func (c Code) Word() string {
	if m, ok := c.Mode(); ok {
		return "mode-" + m.Code()
	}
	if c >= CodeCount {
		return ""
	}
	return codeWords[c]
}

var codeWords = [CodeCount]string{
	Armed: "armed", Disarmed: "disarmed", Refused: "refused",
	LinkLost: "link-lost", LinkBack: "link-back", LinkClean: "link-clean",
	DrillAlarm: "drill-alarm", DrillCall: "drill-call", DrillRight: "drill-right", DrillWrong: "drill-wrong",
}

// urgency is the order in which tones go before one another, the most urgent first: what asks for hands now, what the craft does,
// what the link does, and then what is good to know. After these come the modes, the one that needs most of the hands first.
var urgency = [...]Code{
	DrillAlarm, LinkLost, Disarmed, Armed, Refused, LinkClean, LinkBack, DrillCall, DrillWrong, DrillRight,
}

// Before tells whether c is the more urgent of two tones.
func (c Code) Before(other Code) bool { return c.rank() < other.rank() }

func (c Code) rank() int {
	if i := slices.Index(urgency[:], c); i >= 0 {
		return i
	}
	if m, ok := c.Mode(); ok {
		return len(urgency) + layout.Modes - 1 - int(m)
	}
	return len(urgency) + layout.Modes
}

// Order sorts tones that come at once, the most urgent first, and leaves each in once. It works in place.
func Order(all []Code) []Code {
	slices.SortFunc(all, func(a, b Code) int { return a.rank() - b.rank() })
	return slices.Compact(all)
}

// things are what tones tell of: two of one thing cannot both be true. All modes are one.
var things = [CodeCount]uint8{
	Armed: 1, Disarmed: 1, Refused: 1, firstMode: 2, LinkLost: 3, LinkBack: 3, LinkClean: 3,
	DrillAlarm: 4, DrillCall: 4, DrillRight: 5, DrillWrong: 5,
}

func (c Code) thing() uint8 {
	if _, ok := c.Mode(); ok {
		c = firstMode
	}
	return things[c]
}

// SameThing tells whether two tones tell of the same thing, so that the newer makes the older untrue: armed and disarmed, two modes, the
// link lost and found.
func (c Code) SameThing(other Code) bool {
	return c < CodeCount && other < CodeCount && c.thing() == other.thing()
}
