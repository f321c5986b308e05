// Package handset says what a radio's controls can send: each control's positions, travel and noise in pulse widths.
//
// It is what prove, the layout view and the switch card know of a radio: no raw values, no device. The edge makes it from
// a radio file and a craft; Ideal makes one that nothing is wrong with, where no radio file is given.
package handset

import "propsoff.example/sim/pulse"

// Kind is what a hand does with a control.
type Kind uint8

const (
	Stick  Kind = iota // one direction of a stick: goes everywhere between its ends
	Switch             // has positions
	Knob               // a knob or slider: goes everywhere, stays where it is let go
)

// Side is where on the radio a control sits, seen by whoever holds it.
type Side uint8

const (
	NoSide Side = iota // nobody has said
	Left               // the left half
	Right              // the right half
	Top                // the top edge
)

// Position is one resting place of a switch: the width that it sends, and the standard deviation of that, both in eighths of a µs.
type Position struct{ Width, Spread pulse.Width }

// Control is one control of the radio that a channel carries.
type Control struct {
	// Channel counts from 0.
	Channel int8
	// Job is what the radio file calls its job: throttle, roll, pitch, yaw, arm, second, mode, a job of the craft file, or "channel 7".
	Job string
	// Called is what the pilot calls it, or empty; Source says what carries it in plain numbers, such as "axis 5".
	Called, Source string
	Kind           Kind
	Side           Side
	// Spot is where on the radio it sits; of a stick nothing is said.
	Spot Spot
	// Low and High are how far a stick or knob was seen to go, Rest is where it stands when let go. RestSeen: so it was found; else Rest is
	// taken for granted.
	Low, Rest, High pulse.Width
	RestSeen        bool
	// Stays: it has no spring (throttle, knob).
	Stays bool
	// Positions are those of a Switch, from low to high; at least two.
	Positions []Position
	// Momentary: the switch springs back when it is let go.
	Momentary bool
	// Assumed: its widths are taken for granted, because nothing was found out about it, or only raw values, which cannot be read as
	// widths without the device.
	Assumed bool
	// Same is one more than the index of an earlier control that is the same piece of the radio, 0 for none: a hand that moves one moves
	// both. Turned: this one goes down as that one goes up.
	Same   int
	Turned bool
	// Tutors: it is on an instructor's radio, told with the pupil's.
	Tutors bool
	// Noise is the standard deviation at rest, at least 1 µs where it was measured (the kernel's filter hides less); 0
	// where it was not.
	Noise pulse.Width
}

// Radio is what is known of a radio.
type Radio struct {
	// Name is what the radio calls itself; empty where it does not, and for an ideal one.
	Name string
	// StickMode says which stick carries what, 1 to 4.
	StickMode int
	// Measured is false for an ideal radio, of which nothing was measured.
	Measured bool
	// Controls stand in the order of their channels; every channel at most once.
	Controls []Control
}

// On gives the control that a channel (from 0) carries; nil where the radio sends nothing on it.
func (r *Radio) On(channel int8) *Control {
	for i := range r.Controls {
		if r.Controls[i].Channel == channel {
			return &r.Controls[i]
		}
	}
	return nil
}

// Want is one channel (from 0) that an ideal radio is to send, its job, and what carries it.
type Want struct {
	Channel int8
	Job     string
	Kind    Kind
}

// Ideal is a radio that sends full travel, 988 to 2012 µs, on every channel wanted; each switch has three positions. The
// throttle stays where it is let go, down at first.
func Ideal(wants []Want) Radio {
	r := Radio{StickMode: 2}
	for _, w := range wants {
		c := Control{Channel: w.Channel, Job: w.Job, Kind: w.Kind, Low: pulse.Low, Rest: pulse.Centre, High: pulse.High}
		switch {
		case w.Kind == Switch:
			c.Positions = []Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}}
		case w.Job == "throttle", w.Kind == Knob:
			c.Stays, c.Rest = true, pulse.Low
		}
		r.Controls = append(r.Controls, c)
	}
	r.Settle()
	return r
}
