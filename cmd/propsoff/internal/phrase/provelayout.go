package phrase

import (
	"strings"

	"propsoff/sim"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// badness puts the worst callout first: what keeps the craft from arming or disarming, then what it never does, then what noise
// may bring about, then what is merely odd. What is only told is not here.
var badness = map[switches.Code]int{
	switches.StickUnsent: 1, switches.ThrottleHigh: 2, switches.YawShort: 3, switches.NotSent: 4, switches.NeverDisarms: 5, switches.NeverArms: 6,
	switches.NeverSinks: 7, switches.Narrow: 8, switches.NoisyFor: 9, switches.NoSpan: 10, switches.Unreached: 11, switches.TwoJobs: 12, switches.NoSwitch: 13,
}

// WorstCallout is what the layout sheet calls out first of all, with its place; empty where it warns of nothing. Of two
// near an edge the nearer one is the worse.
func WorstCallout(f *switches.Facts, cfg *sim.Config) string {
	worst, least, says := len(badness)+1, pulse.Width(0), ""
	take := func(c switches.Callout, margin pulse.Width, place, text string) {
		b := badness[c.Code]
		if b == 0 || b > worst || b == worst && margin >= least {
			return
		}
		worst, least, says = b, margin, text
		if place != "" {
			says = place + ": " + strings.ToLower(text[:1]) + text[1:]
		}
	}
	for _, c := range f.Callouts {
		take(c, 0, "", CalloutCraft(c, cfg))
	}
	for i := range f.Switches {
		s := &f.Switches[i]
		for _, c := range s.Callouts {
			take(c, 0, SwitchName(s), CalloutOf(s, c))
		}
		for n := range s.Positions {
			p := &s.Positions[n]
			for _, c := range p.Callouts {
				take(c, p.Margin, SwitchName(s)+" at "+Micros(p.Width)+" µs", CalloutAt(f, s, p, c))
			}
		}
	}
	return says
}

// CalledOut says how many things the layout sheet calls out, and the worst.
func CalledOut(n int, worst string) string {
	if n == 0 {
		return "The layout sheet (F6) calls out nothing."
	}
	s := "The layout sheet (F6) calls out " + count(n, "thing")
	if n > 1 {
		s += ", the worst of them"
	}
	return s + ": " + worst
}
