package phrase

import (
	"strconv"
	"strings"

	"propsoff/input/radio"
)

// Learned says in few letters what a control was found to be: "axis 3", "button 5", "2 buttons".
func Learned(c *radio.Control) string {
	switch c.Form {
	case radio.Axis:
		return "axis " + strconv.Itoa(c.Axis+1)
	case radio.Button:
		return "button " + strconv.Itoa(c.Buttons[0]+1)
	}
	n := 0
	for _, b := range c.Buttons {
		if b != radio.None {
			n++
		}
	}
	return count(n, "button")
}

// LearnedInFull says everything that was found of a control, with its values in µs.
func LearnedInFull(c *radio.Control) string {
	parts := []string{source(c)}
	scale, ok := c.ScaleOn(nil)
	switch {
	case c.Form == radio.Button:
		parts[0] += " at 988 and 2012 µs"
	case c.Form == radio.Row:
		var at []string
		for i := range c.Buttons {
			at = append(at, Micros(radio.RowWidth(i, len(c.Buttons))))
		}
		parts[0] += " at " + list(at, "and") + " µs"
	case ok && len(c.Positions) > 0:
		var at []string
		for _, p := range c.Positions {
			at = append(at, Micros(scale.WidthOf(p.At)))
		}
		parts = append(parts, count(len(at), "position")+" at "+list(at, "and")+" µs")
	case ok && c.Reach != nil:
		low, rest, high := scale.Width(c.Reach.Low), scale.Width(c.Reach.Rest), scale.Width(c.Reach.High)
		if low > high {
			low, high = high, low
		}
		reach := Micros(low) + " to " + Micros(high) + " µs"
		if !c.Stays {
			reach += ", rests at " + Micros(rest)
		}
		parts = append(parts, reach)
	}
	if c.Momentary {
		parts = append(parts, "springs back")
	}
	if where := Side(c.Side); where != "" {
		parts = append(parts, where)
	}
	if c.Called != "" {
		parts = append(parts, "called "+strconv.Quote(c.Called))
	}
	return strings.Join(parts, ", ")
}

// source says which axis or buttons a control is on, counted from 1.
func source(c *radio.Control) string {
	switch c.Form {
	case radio.Axis:
		s := "axis " + strconv.Itoa(c.Axis+1)
		if scale, ok := c.ScaleOn(nil); ok && scale.High < scale.Low || c.Backwards {
			s += " turned round"
		}
		return s
	case radio.Button:
		return "button " + strconv.Itoa(c.Buttons[0]+1)
	}
	var n []string
	for _, b := range c.Buttons {
		if b == radio.None {
			n = append(n, "none")
		} else {
			n = append(n, strconv.Itoa(b+1))
		}
	}
	return "buttons " + strings.Join(n, ", ")
}

// Side is where on the radio a control sits; empty where nobody has said.
func Side(s radio.Side) string {
	switch s {
	case radio.Left:
		return "at the left"
	case radio.Right:
		return "at the right"
	case radio.Top:
		return "on top"
	}
	return ""
}

// Skipped marks a question that stays without a control.
func Skipped() string { return "skipped" }

// WhichTitle asks which radio file applies to a radio for which only files of its kind are there.
func WhichTitle(name string, n int) string {
	if n == 1 {
		return name + " looks like a radio that is known. Is it that one?"
	}
	return name + " looks like " + count(n, "radio") + " that are known. Which one is it?"
}

// WhichWhy says why that is not sure.
func WhichWhy(serial string) string {
	if serial == "" {
		return "It tells no serial number, so it is known by the USB port it is plugged into, and this port is a new one. Your answer is kept for this port."
	}
	return "Its serial number, " + serial + ", is a new one. Your answer is kept for this very radio."
}

// NobodyYet says, in place of who drives, that an answer is waited for.
func NobodyYet() string { return "Nobody drives until it is said which radio file applies." }

// WhichFile describes one radio file to choose: the radio that it was learned from and what its controls are on.
func WhichFile(c *radio.Candidate) string {
	from := "learned at an unknown port"
	switch d := &c.File.Device; {
	case d.Serial != "":
		from = "serial number " + d.Serial
	case d.Port != "":
		from = "learned at port " + d.Port
	}
	s := from + ", stick mode " + strconv.Itoa(max(c.File.StickMode, 1))
	var on []string
	for _, job := range []string{"throttle", "arm", "mode"} {
		if k, ok := c.File.Control(job); ok {
			on = append(on, job+" on "+source(&k))
		}
	}
	if len(on) == 0 {
		return s
	}
	return s + ": " + strings.Join(on, "; ")
}

// WhichMore counts the files for which there is no room.
func WhichMore(n int) string { return "… and " + count(n, "file") + " more" }

// WhichAnew is the other answer.
func WhichAnew() string { return "None of them: learn this radio anew." }
