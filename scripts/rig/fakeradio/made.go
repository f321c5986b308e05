package fakeradio

import (
	"fmt"
	"slices"
)

// Made is a radio together with what a hand finds on it: which control is what, how far it goes, how much it trembles.
// It is the truth that learning is held against.
type Made struct {
	Radio
	Controls []Control
	// Noise is the standard deviation that the hardware adds to every axis with a Control in every report, in raw steps.
	Noise float64
}

// Grip says how a hand moves a control.
type Grip uint8

// The grips.
const (
	Stick  Grip = iota + 1 // one direction of a stick
	Knob                   // turned from end to end
	Switch                 // stands in one of its places
	Key                    // a Switch that goes back to its first place when it is let go
)

// Nothing stands for no axis, no button and no hat direction.
const Nothing = -1

// Control is one stick direction, knob, switch or key.
type Control struct {
	// Job as a radio file names it.
	Job  string
	Grip Grip
	// Axis (from 0) that the control moves, Nothing for one that is made of buttons or of the hat.
	Axis int
	// Low, Rest and High are raw values of a Stick or Knob: at the low end of its job, where it stands at first, at the
	// high end. Low is above High on an axis that runs backwards.
	Low, Rest, High int32
	// Springs is true for a Stick that goes back to Rest when it is let go.
	Springs bool
	// Places of a Switch or Key, from the first to the last; it stands in the first one at first.
	Places []Place
}

// Place is what a switch sends while it stands in one of its places.
type Place struct {
	Value  int32 // of the control's Axis, if it has one
	Button int   // pressed there (from 0), or Nothing
	Hat    int   // direction there, 0 to 7, or Nothing
}

// levels, buttons and hats make the places of a switch.
func levels(values ...int32) (out []Place) {
	for _, v := range values {
		out = append(out, Place{Value: v, Button: Nothing, Hat: Nothing})
	}
	return out
}

func buttons(numbers ...int) (out []Place) {
	for _, n := range numbers {
		out = append(out, Place{Button: n, Hat: Nothing})
	}
	return out
}

// stick is a direction that springs back to rest; throttle stays where it is and stands at its low end at first.
func stick(job string, axis int, low, rest, high int32) Control {
	return Control{Job: job, Grip: Stick, Axis: axis, Low: low, Rest: rest, High: high, Springs: true}
}

func throttle(axis int, low, high int32) Control {
	return Control{Job: "throttle", Grip: Stick, Axis: axis, Low: low, Rest: low, High: high}
}

func switched(job string, axis int, places []Place) Control {
	return Control{Job: job, Grip: Switch, Axis: axis, Places: places}
}

// Backwards says that the control's raw values fall as its job rises.
func (c Control) Backwards() bool {
	if len(c.Places) > 0 {
		return c.Axis != Nothing && c.Places[0].Value > c.Places[len(c.Places)-1].Value
	}
	return c.Low > c.High
}

// Control gives the control of a job.
func (m *Made) Control(job string) (Control, bool) {
	i := slices.IndexFunc(m.Controls, func(c Control) bool { return c.Job == job })
	if i < 0 {
		return Control{}, false
	}
	return m.Controls[i], true
}

// Twin is the same radio as another of its kind: alike in all but serial number and port.
func (m Made) Twin(serial, port string) Made {
	m.Serial, m.Port = serial, port
	m.Controls = slices.Clone(m.Controls)
	return m
}

// Check says what is wrong with the model: a control on an axis or button that is not there or is another's already, or a
// value that does not fit in its field.
func (m *Made) Check() error {
	if err := m.Layout.check(); err != nil {
		return fmt.Errorf("%s: %w", m.Name, err)
	}
	jobs, axes, pressed, hats := map[string]bool{}, map[int]bool{}, map[int]bool{}, map[int]bool{}
	for _, c := range m.Controls {
		say := func(format string, args ...any) error {
			return fmt.Errorf("%s, %s: %s", m.Name, c.Job, fmt.Sprintf(format, args...))
		}
		if c.Job == "" || jobs[c.Job] {
			return say("a job is given once")
		}
		jobs[c.Job] = true
		values := []int32{c.Low, c.Rest, c.High}
		if c.Grip == Switch || c.Grip == Key {
			values = nil
			if len(c.Places) < 2 {
				return say("%d places, at least two are needed", len(c.Places))
			}
		}
		for _, p := range c.Places {
			values = append(values, p.Value)
			if p.Button != Nothing && (p.Button < 0 || p.Button >= m.Layout.ButtonCount() || pressed[p.Button]) {
				return say("button %d is not there or taken", p.Button+1)
			}
			pressed[p.Button] = p.Button != Nothing
			if p.Hat != Nothing && (p.Hat < 0 || p.Hat > 7 || m.Layout.HatCount() == 0 || hats[p.Hat]) {
				return say("hat direction %d is not there or taken", p.Hat)
			}
			hats[p.Hat] = p.Hat != Nothing
		}
		if c.Axis == Nothing {
			if len(c.Places) == 0 {
				return say("neither axis nor places")
			}
			continue
		}
		if c.Axis < 0 || c.Axis >= m.Layout.AxisCount() || axes[c.Axis] {
			return say("axis %d is not there or taken", c.Axis+1)
		}
		axes[c.Axis] = true
		lo, hi := m.Layout.AxisRange(c.Axis)
		for _, v := range values {
			if v < lo || v > hi {
				return say("%d does not fit in %d to %d", v, lo, hi)
			}
		}
		if len(c.Places) == 0 && (c.Low == c.High || c.Rest < min(c.Low, c.High) || c.Rest > max(c.Low, c.High)) {
			return say("low %d, rest %d, high %d", c.Low, c.Rest, c.High)
		}
	}
	return nil
}
