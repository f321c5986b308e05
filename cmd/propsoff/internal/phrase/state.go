package phrase

import (
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/layout"
)

// Line is one refusal that stands now.
type Line struct {
	Refusal facts.Refusal
	Group   facts.Group
	Text    string
}

// Lines are the refusals that stand now as sentences, in their groups and order.
func Lines(f *facts.Facts) []Line {
	var out []Line
	for _, x := range f.Refusals() {
		out = append(out, Line{Refusal: x.Refusal, Group: x.Refusal.Group(), Text: Sentence(x, f)})
	}
	return out
}

// NothingRefuses is said of a disarmed craft that can be armed now.
func NothingRefuses() string { return "Nothing refuses arming." }

// Link says how the craft judges the link, with the times that matter.
func Link(f *facts.Facts) string {
	s := &f.Snap
	ailing := s.SilentMillis >= 100 // a single frame late is no news
	silent := Seconds(s.SilentMillis / 100 * 100)
	switch {
	case !s.In.Powered:
		return "the craft has no power"
	case s.Link == facts.NeverHeard:
		return "nothing heard since power-up"
	case s.Link == facts.Lost && ailing:
		return "lost, silent for " + silent
	case s.Link == facts.Lost:
		return "lost"
	case ailing:
		return "silent for " + silent
	case s.Link == facts.Fresh:
		return "fresh, clean in " + left(s.CleanLeftMillis)
	}
	return "good"
}

// State is the bench in one line: armed or not, dwelling, sinking, mode, link.
func State(f *facts.Facts) string {
	s := &f.Snap
	out := Armed(s.Armed)
	switch {
	case s.Sinking:
		out += ", sinking, " + left(s.SinkLeftMillis) + " left"
	case s.DwellIs == sim.DwellingToArm:
		out += ", the arming corner is held"
	case s.DwellIs == sim.DwellingToDisarm:
		out += ", the disarming corner is held"
	case s.DwellIs == sim.DwellingSpent:
		out += ", leave the arming corner first"
	}
	out += "; mode " + Mode(s.Mode)
	if s.AirAwake {
		out += ", air mode awake"
	}
	return out + "; link " + uncapital(LinkLine(f))
}

// stands is into, said of a switch that is there already.
func stands(span layout.Span) string {
	s, at := into(span), ""
	if rest, ok := strings.CutPrefix(s, "to "); ok {
		s, at = rest, "at "
	}
	return at + s
}
