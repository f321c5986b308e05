package tell

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/input/radio"
)

// Learned says in few letters what a control was found to be: "axis 3", "button 5", "2 buttons".
func Learned(c *radio.Control) words.Text {
	switch c.Form {
	case radio.Axis:
		return RawName(c.Axis, radio.None)
	case radio.Button:
		return RawName(radio.None, c.Buttons[0])
	}
	n := 0
	for _, b := range c.Buttons {
		if b != radio.None {
			n++
		}
	}
	return words.T("learned.buttons", words.Args{"n": words.Count(n)})
}

// LearnedInFull says everything that was found of a control, with its values in µs.
func LearnedInFull(c *radio.Control) words.Text {
	parts := learnedValues(c)
	if c.Momentary {
		parts = append(parts, words.T("learned.springs"))
	}
	parts = append(parts, Sits(c))
	if c.Called != "" {
		parts = append(parts, words.T("learned.called", words.Args{"name": words.Typed(c.Called)}))
	}
	return words.Listed(parts...)
}

// LearnedLine is LearnedInFull after the control's name; in short: Learned, and where it sits.
func LearnedLine(c *radio.Control, short bool) words.Text {
	what := LearnedInFull(c)
	if short {
		what = words.Listed(Learned(c), Sits(c))
	}
	return words.T("learned.line", words.Args{"job": JobName(c.Job), "what": what})
}

// learnedValues says on which axis or buttons a control is, and which values they give.
func learnedValues(c *radio.Control) []words.Text {
	scale, ok := c.ScaleOn(nil)
	on := learnedOn(c)
	switch {
	case c.Form == radio.Button:
		return []words.Text{words.T("learned.values", words.Args{"what": on, "widths": words.And(words.AsAre("988", "2012")...)})}
	case c.Form == radio.Row:
		var at []words.Text
		for i := range c.Buttons {
			at = append(at, words.AsIs(strconv.Itoa(radio.RowWidth(i, len(c.Buttons)).Whole())))
		}
		return []words.Text{words.T("learned.values", words.Args{"what": on, "widths": words.And(at...)})}
	case ok && len(c.Positions) > 0:
		var at []words.Text
		for _, p := range c.Positions {
			at = append(at, words.AsIs(strconv.Itoa(scale.WidthOf(p.At).Whole())))
		}
		return []words.Text{on, words.T("learned.positions", words.Args{"n": words.Count(len(at)), "widths": words.And(at...)})}
	case ok && c.Reach != nil:
		low, rest, high := scale.Width(c.Reach.Low), scale.Width(c.Reach.Rest), scale.Width(c.Reach.High)
		low, high = min(low, high), max(low, high)
		if c.Stays {
			return []words.Text{on, words.T("learned.reach", words.Args{"low": Micros(low), "high": Micros(high)})}
		}
		return []words.Text{on, words.T("learned.reach-rests", words.Args{"low": Micros(low), "high": Micros(high), "rest": Micros(rest)})}
	}
	return []words.Text{on}
}

// learnedOn says which axis or buttons a control is on, counted from 1.
func learnedOn(c *radio.Control) words.Text {
	switch c.Form {
	case radio.Axis:
		axis := RawName(c.Axis, radio.None)
		if scale, ok := c.ScaleOn(nil); ok && scale.High < scale.Low || c.Backwards {
			return words.T("learned.turned", words.Args{"axis": axis})
		}
		return axis
	case radio.Button:
		return RawName(radio.None, c.Buttons[0])
	}
	var all []words.Text
	for _, b := range c.Buttons {
		if b == radio.None {
			all = append(all, words.T("learned.none"))
		} else {
			all = append(all, words.AsIs(strconv.Itoa(b+1)))
		}
	}
	return words.T("learned.button-row", words.Args{"all": words.Listed(all...)})
}

// Side is where on the radio a control sits; it says nothing where nobody has said.
func Side(s radio.Side) words.Text {
	switch s {
	case radio.Left:
		return words.T("learned.side-left")
	case radio.Right:
		return words.T("learned.side-right")
	case radio.Top:
		return words.T("learned.side-top")
	}
	return words.Text{}
}

// WhichFile describes one radio file to choose: the radio that it was learned from and what its controls are on, in short without these.
func WhichFile(c *radio.Candidate, short bool) words.Text {
	from := words.T("learned.from", words.Args{"serial": words.Quote(c.File.Device.Serial), "port": words.Quote(c.File.Device.Port)})
	var on []words.Text
	for _, job := range []string{"throttle", "arm", "mode"} {
		if k, ok := c.File.Control(job); ok && !short {
			on = append(on, words.T("learned.job-on", words.Args{"job": JobName(job), "what": learnedOn(&k)}))
		}
	}
	return words.T("learned.file", words.Args{"from": from, "mode": words.Whole(max(c.File.StickMode, 1)), "on": words.Clauses(on...)})
}

// PensTitle heads the pens: shown of n axes have one.
func PensTitle(shown, n int) words.Text {
	return words.T("learn-title.pens", words.Args{"all": words.Flag(shown == n), "shown": words.Whole(shown), "n": words.Count(n)})
}

// ZoneHere says what the zone is that is hatched, or filled with slashes where there are letters only.
func ZoneHere(slashes bool) words.Text {
	return words.T("learn-title.zone", words.Args{"slashes": words.Flag(slashes)})
}

// LeanEnds names what the craft does at the low and at the high end of a stick direction.
func LeanEnds(job string) (low, high words.Text) {
	switch job {
	case "pitch":
		return words.T("learn-title.back"), words.T("learn-title.forward")
	case "throttle":
		return words.T("learn-title.ground"), words.T("learn-title.climb")
	}
	return HandSide(false), HandSide(true)
}

// HandTitle names a hand of a picture of a stick mode.
func HandTitle(right bool) words.Text {
	return words.T("learn-title.hand", words.Args{"right": words.Flag(right)})
}

// HandSide names its side alone.
func HandSide(right bool) words.Text {
	return words.T("learn-title.side", words.Args{"right": words.Flag(right)})
}
