package tell

import (
	"strings"

	"propsoff/assets/words"
	"propsoff/sim/handset"
	"propsoff/sim/pulse"
)

// ControlName is what a person calls a control: "throttle", "arm switch", "channel 7 switch", with the pilot's own name for it.
func ControlName(c *handset.Control) words.Text {
	name := JobName(c.Job)
	switch c.Kind {
	case handset.Switch:
		name = switchName(c.Job)
	case handset.Knob:
		name = words.T("control.knob", words.Args{"job": name})
	}
	if c.Called != "" && c.Called != c.Job {
		return words.T("control.called", words.Args{"name": name, "called": words.Quote(c.Called)})
	}
	return name
}

// switchName is what the switch of a job is called.
func switchName(job string) words.Text {
	switch {
	case job == "arm":
		return words.T("control.arm-switch")
	case job == "mode":
		return words.T("control.mode-switch")
	case job == "second":
		return words.T("control.second-switch")
	case strings.HasPrefix(job, "channel "):
		return words.T("control.channel-switch", words.Args{"channel": JobName(job)})
	}
	return words.T("control.switch", words.Args{"job": JobName(job)})
}

// ControlAt says where a control stands: a switch by its position, a stick by direction, each with its width.
func ControlAt(c *handset.Control, position int, w pulse.Width) words.Text {
	place := stickWord(c, w)
	if c.Kind == handset.Switch {
		place = PositionWord(position, len(c.Positions))
	}
	if !w.Valid() {
		return words.T("control.at-no-pulse", words.Args{"place": place})
	}
	return words.T("control.at", words.Args{"place": place, "width": Micros(w)})
}

// PositionWord names position i (from 0) of a switch with n positions, from the low end.
func PositionWord(i, n int) words.Text {
	switch {
	case i < 0 || i >= n:
		return words.T("control.somewhere")
	case n <= 3 && i == 0:
		return words.T("control.low")
	case n <= 3 && i == n-1:
		return words.T("control.high")
	case n == 3:
		return words.T("control.middle")
	}
	return words.T("control.position", words.Args{"i": words.Whole(i + 1), "n": words.Whole(n)})
}

// ends are the words for the low and the high end of a stick (common practice: the signs of the four stick channels), and those of a knob.
var ends = map[string][2]words.ID{
	"throttle": {"control.end-down", "control.end-up"}, "roll": {"control.end-left", "control.end-right"},
	"pitch": {"control.end-back", "control.end-forward"}, "yaw": {"control.end-left", "control.end-right"},
	"": {"control.end-low", "control.end-high"},
}

// stickWord says where a stick or knob stands in the words of the hand.
func stickWord(c *handset.Control, w pulse.Width) words.Text {
	e, ok := ends[c.Job]
	if !ok {
		e = ends[""]
	}
	switch low, high := words.T(e[0]), words.T(e[1]); {
	case w <= c.Low:
		return words.T("control.fully", words.Args{"end": low})
	case w >= c.High:
		return words.T("control.fully", words.Args{"end": high})
	case w == c.Rest:
		return words.T("control.at-rest")
	case w < pulse.Centre-pulse.Travel/8:
		return words.T("control.mostly", words.Args{"end": low})
	case w > pulse.Centre+pulse.Travel/8:
		return words.T("control.mostly", words.Args{"end": high})
	}
	return words.T("control.in-middle")
}
