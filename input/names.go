package input

import "propsoff/sim/pulse"

// Names is the table by which a file's words are resolved: which channel a job is on, what a position is called and
// which words the record knows. The craft file makes it (sim/craftfile); input never looks into a craft itself.
type Names struct {
	// Channel of each job by name (throttle, roll, pitch, yaw, arm, second, mode …), counted from 0.
	Channel map[string]int
	// Position of a job by name: for mode angle, horizon, rate; for arm on, off; and so on. Besides these every
	// control knows low, middle and high (988, 1500, 2012 µs).
	Position map[string]map[string]pulse.Width
	// Refusal and happening codes that an expectation may name.
	Refusals, Happenings []string
	// OldRefusals are code words of refusals that earlier programs had, with the word of today for each.
	OldRefusals map[string]string
	// Gestures are the code words of the two-stick gestures.
	Gestures []string
}
