package tell

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
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
	// Text is what the hand does; Then what the bench did after it, or nothing; At when, counted from the beginning.
	Text, Then, At words.Text
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
		s := ProvedStep{Text: stepText(l, w, st), Then: stepThen(st.Then), At: Clock(st.At - from)}
		if st.Kind != prove.Start && st.Kind != prove.Wait && st.Kind != prove.LetGo {
			number++
			s.Number = strconv.Itoa(number)
		}
		out = append(out, s)
	}
	return append(out, ProvedStep{Text: wayEnd(w), At: Clock(w.Final)})
}

// wayEnd says how everything stands at the end of a way.
func wayEnd(w *prove.Way) words.Text {
	return words.T("prove-step.end", words.Args{"armed": Armed(w.Claim.Armed), "sinking": words.Flag(w.Claim.Sinking),
		"mode": Mode(layout.Mode(w.Claim.Mode)), "link": LinkWord(facts.Phase(w.Claim.Phase))})
}

// stepText says one step in words.
func stepText(l *prove.Layout, w *prove.Way, st *prove.Step) words.Text {
	var c *handset.Control
	if st.Control >= 0 && st.Control < len(l.Radio.Controls) {
		c = &l.Radio.Controls[st.Control]
	}
	switch st.Kind {
	case prove.Start:
		return wayStart(l, w)
	case prove.Move:
		if c == nil {
			return words.T("prove-step.move")
		}
		return stepMoves(c, st.ToPosition, st.To)
	case prove.LetGo:
		name := words.Text{}
		if c != nil {
			name = ControlName(c)
		}
		return words.T("prove-step.let-go", words.Args{"name": name})
	}
	return words.Of("prove-step", codes.Step(st.Kind), words.Args{"time": Seconds(st.Ms)})
}

// stepMoves says where a control is moved to.
func stepMoves(c *handset.Control, position int, w pulse.Width) words.Text {
	name, at := ControlName(c), words.T("prove-step.no-pulse")
	if w.Valid() {
		at = Width(w)
	}
	if c.Kind == handset.Switch {
		to := words.Args{"name": name, "position": PositionWord(position, len(c.Positions)), "at": at}
		if len(c.Positions) <= 3 {
			return words.T("prove-step.move-named", to)
		}
		return words.T("prove-step.move-numbered", to)
	}
	if stickWord(c, w).ID() == "control.in-middle" {
		return words.T("prove-step.move-middle", words.Args{"name": name, "at": at})
	}
	return words.T("prove-step.move-to", words.Args{"name": name, "place": ControlAt(c, position, w)})
}

// wayStart says how everything stands at the beginning, from the readings of that moment.
func wayStart(l *prove.Layout, w *prove.Way) words.Text {
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
	var controls []words.Text
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
		controls = append(controls, words.T("prove-step.at", words.Args{"name": ControlName(c), "place": ControlAt(c, position, at)}))
	}
	return words.T("prove-step.start", words.Args{"controls": words.Listed(controls...), "radio": words.Flag(state[pulse.Link] != 0),
		"pack": words.Flag(state[pulse.Power] != 0), "cable": words.Flag(state[pulse.Cable] != 0)})
}

// stepEvents are the events of a step in the order in which they are told.
var stepEvents = [...]prove.Event{
	prove.LinkLost, prove.LinkBack, prove.LinkClean, prove.Settled, prove.ModeChanged, prove.Sinking, prove.SinkEnded, prove.Refused, prove.Disarmed,
	prove.GestureMade, prove.MenuOpens, prove.Armed,
}

// stepThen says what the bench did in a step.
func stepThen(e prove.Event) words.Text {
	var out []words.Text
	for _, one := range stepEvents {
		for _, code := range codes.Events(e & one) {
			out = append(out, words.Of("prove-then", code))
		}
	}
	if len(out) == 0 {
		return words.Text{}
	}
	return words.T("prove.sentence", words.Args{"what": words.And(out...)})
}
