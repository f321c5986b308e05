package phrase

import (
	"strings"

	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/layout"
	"propsoff/sim/link"
)

// Line is one refusal that stands now.
type Line struct {
	Refusal arming.Refusal
	Group   arming.Group
	Text    string
}

// Lines are the refusals that stand now as sentences, in their groups and order.
func Lines(s *sim.Snapshot, cfg *sim.Config) []Line {
	var out []Line
	for _, r := range arming.Shown() {
		if s.Refusals.Has(r) {
			out = append(out, Line{Refusal: r, Group: r.Group(), Text: Sentence(r, s, cfg)})
		}
	}
	return out
}

// NothingRefuses is said of a disarmed craft that can be armed now.
func NothingRefuses() string { return "Nothing refuses arming." }

// Link says how the craft judges the link, with the times that matter.
func Link(s *sim.Snapshot) string {
	ailing := s.SilentMillis >= 100 // a single frame late is no news
	silent := Seconds(s.SilentMillis / 100 * 100)
	switch {
	case !s.In.Powered:
		return "the craft has no power"
	case s.Link == link.Never:
		return "nothing heard since power-up"
	case s.Link == link.Lost && ailing:
		return "lost, silent for " + silent
	case s.Link == link.Lost:
		return "lost"
	case ailing:
		return "silent for " + silent
	case s.Link == link.Fresh:
		return "fresh, clean in " + left(s.CleanLeftMillis)
	}
	return "good"
}

// HowToArm says in one sentence how this craft is armed and disarmed.
func HowToArm(cfg *sim.Config) string {
	l, a := &cfg.Layout, &cfg.Arming
	if a.By == arming.BySticks {
		return "To arm, hold throttle low and yaw fully right for " + Seconds(int64(a.ArmDwell)*int64(cfg.SlotTicks)) +
			"; to disarm, throttle low and yaw fully left for " + Seconds(int64(a.DisarmDwell)*int64(cfg.SlotTicks)) + "."
	}
	s := "To arm, bring " + Channel(l, int(l.Arm)) + " " + into(l.ArmSpan)
	if l.Second >= 0 {
		s += " while " + Channel(l, int(l.Second)) + " stands " + stands(l.SecondSpan)
	}
	return s + "; to disarm, out of it again."
}

// State is the bench in one line: armed or not, dwelling, sinking, mode, link.
func State(s *sim.Snapshot) string {
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
	return out + "; link " + Link(s)
}

// stands is into, said of a switch that is there already.
func stands(span layout.Span) string {
	s, at := into(span), ""
	if rest, ok := strings.CutPrefix(s, "to "); ok {
		s, at = rest, "at "
	}
	return at + s
}
