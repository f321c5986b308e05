// Package script is a pilot written down, playing as a source, with expectations.
//
// A script is a YAML file of ours:
//
//	propsoff: script 1           # what this file is, and its version; may be left out
//	name: arm, then lose the link
//	craft: built-in              # or a path, from this file's folder; may be left out
//	radio-file: desk.yaml        # the same for a radio file
//	gestures: field.yaml         # the same for a gesture file
//	start: {throttle: low, roll: middle, pitch: middle, yaw: middle, arm: off, mode: angle}
//	steps:
//	  - {at: 2.5s, arm: on}
//	  - {at: 3s, throttle: 1400, over: 300ms}
//	  - {after: 2s, link: off}
//	  - {at: 5s, expect: link-lost, within: 400ms}
//	  - {at: 6s, expect: [disarmed, {refused: [no-link]}]}
//	end: 8s                      # left out: 1 s after everything else
//
// Times have a unit and are whole milliseconds. at counts from the beginning, after from the step before; steps stand in
// order of time, and several may have the same one.
//
// Controls are named by job (throttle, roll, pitch, yaw, arm, second, mode, as the craft file has them) or by channel
// (ch7, channel 7). A value is a number of µs from 860 to 2180, a percentage of travel (-100 %, 0 %, +100 % are 988, 1500
// and 2012 µs), the name of a position (low, middle, high; on and off, angle, horizon and rate where the craft has them),
// or none for a channel without a pulse. over makes a straight line of it, from the value that the control has then.
//
// Bench inputs: link and power (on, off), cable (in, out), radio (plug, unplug), tilt (35 deg), nudge (once), menu (open,
// closed, camera), pack (10.4 V), bench (desk, air), propellers ({front-left: clockwise, rear-left: none, …, checked: yes}). Radio, link and power are on from the beginning unless start or a step at 0s says
// otherwise. Either start or steps may be left out. What start does not name is at rest: the throttle
// low, the other sticks in the middle, switches off or low.
//
// stick-mode (1 to 4) says which physical stick carries what, for gestures given by physical stick.
//
// expect is one of armed, disarmed, ready (disarmed, and nothing refuses), the code of a happening, {refused: [codes]}
// (disarmed, and at least these refusals stand), {gesture: code} (made in that millisecond), {mode: angle}, or a list of such, each of which must come true. It must hold in the very
// millisecond of its step, after the bench has seen what the step changes; with within it must come true once until then.
//
// The words on, off, yes, no and none are read as written.
package script

import (
	"path/filepath"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Latest is the last moment that a script may name, in ms: a day.
const Latest = 24 * 60 * 60 * 1000

// tail is how long a script goes on after everything in it, in ms, unless it says when it ends.
const tail = 1000

// Script is one that has been read. It is not changed by being played.
type Script struct {
	// File is the name given to Parse; Name what the script calls itself, or empty.
	File, Name string
	// Craft and Radio are as written: "built-in", a path from the script's folder, or empty where left out.
	Craft, Radio string
	// Gestures is the gesture file, written likewise.
	Gestures string

	start   pulse.Frame
	bench   []pulse.Reading // bench inputs at 0, radio, link and power first
	steps   []step
	expects []Expect
	end     int64 // ms
}

// step is what happens in one millisecond.
type step struct {
	at    int64 // ms
	bench []pulse.Reading
	sets  []set
}

// set brings one channel to a value, at once or in over ms.
type set struct {
	channel int
	to      pulse.Width
	over    int64
}

// End is the time at which the script ends, in µs: its last tick is End/1000.
func (s *Script) End() int64 { return s.end * 1000 }

// Expectations are all that the script expects, in the order of the file.
func (s *Script) Expectations() []Expect { return s.expects }

// Source makes a source that plays the script from its beginning. Several may play at once.
func (s *Script) Source() input.Source { return &source{s: s} }

// Title is what a person calls the script: its name, or else its file.
func (s *Script) Title() string {
	if s.Name != "" {
		return s.Name
	}
	return filepath.Base(s.File)
}
