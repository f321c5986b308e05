package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
)

// Line is one refusal that stands now.
type Line struct {
	Refusal facts.Refusal
	Group   facts.Group
	Text    words.Text
}

// Lines are the refusals that stand now as sentences, in their groups and order.
func Lines(f *facts.Facts) []Line {
	var out []Line
	for _, x := range f.Refusals() {
		out = append(out, Line{Refusal: x.Refusal, Group: x.Refusal.Group(), Text: Sentence(x, f)})
	}
	return out
}

// silentFor is how long a link has been silent, in tenths of a second; nothing where it is not: a single frame late is no news.
func silentFor(s *sim.Snapshot) words.Text {
	if s.SilentMillis < 100 {
		return words.Text{}
	}
	return Seconds(s.SilentMillis / 100 * 100)
}

// Link says how the craft judges the link, with the times that matter.
func Link(f *facts.Facts) words.Text {
	s := &f.Snap
	silent := silentFor(s)
	switch {
	case !s.In.Powered:
		return words.T("link.no-power")
	case s.Link == facts.NeverHeard:
		return words.T("link.never")
	case s.Link == facts.Lost:
		return words.T("link.lost", words.Args{"silent": silent})
	case !silent.Empty():
		return words.T("link.silent", words.Args{"silent": silent})
	case s.Link == facts.Fresh:
		return words.T("link.fresh", words.Args{"left": left(s.CleanLeftMillis)})
	}
	return words.T("link.good")
}

// judgedLink is Link, which may be no more than what the craft thinks.
func judgedLink(f *facts.Facts) words.Text {
	if f.Hearing == facts.ItsReceiver {
		return words.T("link.thinks", words.Args{"link": Link(f)})
	}
	return Link(f)
}

// State is the bench in one line: armed or not, dwelling, sinking, mode, link.
func State(f *facts.Facts) words.Text {
	s := &f.Snap
	return words.Clauses(words.Listed(Armed(s.Armed), stateGoesOn(s)),
		words.T("state.mode", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake)}), words.T("state.link", words.Args{"link": judgedLink(f)}))
}

// stateGoesOn is what is on its way from one state to the other, nothing for nothing.
func stateGoesOn(s *sim.Snapshot) words.Text {
	switch {
	case s.Sinking:
		return words.T("state.sinking", words.Args{"left": left(s.SinkLeftMillis)})
	case s.DwellIs == sim.DwellingToArm:
		return words.T("state.arming-corner")
	case s.DwellIs == sim.DwellingToDisarm:
		return words.T("state.disarming-corner")
	case s.DwellIs == sim.DwellingSpent:
		return words.T("state.corner-spent")
	}
	return words.Text{}
}
