package phrase

import (
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// ProvedStep is one line of a way to a broken rule.
type ProvedStep struct {
	// Number is empty for the start, a wait and a letting go: they are no movements.
	Number string
	// Text is what the hand does; Then what the bench did after it, or empty; At when, counted from the beginning.
	Text, Then, At string
}

// ProvedSteps are the lines of a way, movements numbered from 1, and a last one that says how it stands at the end. Times count
// from the beginning of the way.
func ProvedSteps(l *prove.Layout, w *prove.Way) []ProvedStep {
	var out []ProvedStep
	number := 0
	from := int64(0)
	if len(w.Steps) > 0 {
		from = w.Steps[0].At
	}
	for i := range w.Steps {
		st := &w.Steps[i]
		s := ProvedStep{Text: stepText(l, w, st), Then: capital(thens(st.Then)), At: Clock(st.At - from)}
		if st.Kind != prove.Start && st.Kind != prove.Wait && st.Kind != prove.LetGo {
			number++
			s.Number = strconv.Itoa(number)
		}
		if s.Then != "" {
			s.Then += "."
		}
		out = append(out, s)
	}
	return append(out, ProvedStep{Text: endText(w), At: Clock(w.Final)})
}

// endText says how everything stands at the end of a way.
func endText(w *prove.Way) string {
	s := "At the end: " + Armed(w.Claim.Armed)
	if w.Claim.Sinking {
		s += ", sinking"
	}
	return s + "; mode " + Mode(layout.Mode(w.Claim.Mode)) + ", link " + LinkWord(facts.Phase(w.Claim.Phase)) + "."
}

// stepText says one step in words.
func stepText(l *prove.Layout, w *prove.Way, st *prove.Step) string {
	switch st.Kind {
	case prove.Start:
		return startText(l, w)
	case prove.Move:
		if st.Control < 0 || st.Control >= len(l.Radio.Controls) {
			return "Move a control."
		}
		c := &l.Radio.Controls[st.Control]
		return capital(ControlName(c)) + " " + movedTo(c, st.ToPosition, st.To) + "."
	case prove.LetGo:
		if st.Control >= 0 && st.Control < len(l.Radio.Controls) {
			return "Let go of the " + ControlName(&l.Radio.Controls[st.Control]) + ": it springs back."
		}
		return "Let go: it springs back."
	case prove.RadioOff:
		return "Radio off."
	case prove.RadioOn:
		return "Radio on."
	case prove.PowerOn:
		return "Connect the craft's pack."
	case prove.PowerOff:
		return "Disconnect the craft's pack."
	case prove.CableIn:
		return "Set-up cable in."
	case prove.CableOut:
		return "Set-up cable out."
	case prove.Nudge:
		return "Nudge the craft."
	case prove.Wait:
		return "Wait " + Seconds(st.Ms) + "."
	}
	return "Step of kind " + strconv.Itoa(int(st.Kind)) + "."
}

// movedTo says where a control is moved to.
func movedTo(c *handset.Control, position int, w pulse.Width) string {
	at := ControlAt(c, position, w)
	switch {
	case c.Kind == handset.Switch && len(c.Positions) <= 3:
		return "to its " + strings.Replace(at, " (", " position (", 1)
	case c.Kind == handset.Switch:
		return "to " + at
	}
	if rest, ok := strings.CutPrefix(at, "in the middle"); ok {
		return "to the middle" + rest
	}
	return at
}

// startText says how everything stands at the beginning, from the readings of that moment.
func startText(l *prove.Layout, w *prove.Way) string {
	var frame pulse.Frame
	state := map[pulse.Kind]int32{}
	for i := range w.Readings {
		r := &w.Readings[i]
		if r.At > 0 {
			break
		}
		if r.Kind == pulse.Controls {
			frame = r.Frame
		} else {
			state[r.Kind] = r.Value
		}
	}
	var parts []string
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		at := frame[c.Channel]
		if c.Kind != handset.Switch && c.Job != "throttle" && at == c.Rest { // a stick at rest is no news
			continue
		}
		position := -1
		for n := range c.Positions {
			if c.Positions[n].Width == at {
				position = n
			}
		}
		parts = append(parts, ControlName(c)+" "+ControlAt(c, position, at))
	}
	s := "At the beginning: "
	if len(parts) > 0 {
		s += strings.Join(parts, ", ") + "; "
	}
	s += "radio " + onOff(state[pulse.Link] != 0)
	if state[pulse.Power] != 0 {
		s += ", the pack connected"
	} else {
		s += ", the craft without power"
	}
	if state[pulse.Cable] != 0 {
		s += ", set-up cable in"
	}
	return s + "."
}

func onOff(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

// thenWords say what a bench did.
var thenWords = []struct {
	event prove.Event
	words string
}{
	{prove.LinkLost, "the link is lost"}, {prove.LinkBack, "the link is there"}, {prove.LinkClean, "the link is good"},
	{prove.Settled, "it has stood still long enough"}, {prove.ModeChanged, "the mode changes"}, {prove.Sinking, "it sinks"}, {prove.SinkEnded, "the pilot has control again"},
	{prove.Refused, "arming is refused"}, {prove.Disarmed, "it disarms"}, {prove.GestureMade, "a gesture is made"}, {prove.MenuOpens, "a menu opens"}, {prove.Armed, "it ARMS"},
}

// thens lists what happened.
func thens(e prove.Event) string {
	var out []string
	for _, t := range thenWords {
		if e&t.event != 0 {
			out = append(out, t.words)
		}
	}
	return list(out, "and")
}
