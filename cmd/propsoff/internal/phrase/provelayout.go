package phrase

import (
	"cmp"
	"slices"

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

// Callouts are what the layout sheet calls out, each with its place, the worst first. Of two near an edge the nearer one is the worse.
func Callouts(f *switches.Facts, cfg *sim.Config) []string {
	type call struct {
		badness int
		margin  pulse.Width
		says    string
	}
	var all []call
	take := func(c switches.Callout, margin pulse.Width, place, text string) {
		b := badness[c.Code]
		if b == 0 {
			return
		}
		if place != "" {
			text = place + ": " + uncapital(text)
		}
		all = append(all, call{b, margin, text})
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
				take(c, p.Margin, SwitchName(s)+" at "+PositionAt(p)+" µs", CalloutAt(f, s, p, c))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b call) int { return cmp.Or(cmp.Compare(a.badness, b.badness), cmp.Compare(a.margin, b.margin)) })
	says := make([]string, len(all))
	for i, c := range all {
		says[i] = c.says
	}
	return says
}

// CalledOut says how many things the layout sheet calls out, and the worst.
func CalledOut(all []string) string {
	s, n := CalledOutCount(len(all)), len(all)
	switch {
	case n == 0:
		return s + "."
	case n > 1:
		s += ", the worst of them"
	}
	return s + ": " + all[0]
}

// CalledOutCount says how many things the layout sheet calls out, without an end.
func CalledOutCount(n int) string {
	if n == 0 {
		return "The layout sheet (F6) calls out nothing"
	}
	return "The layout sheet (F6) calls out " + count(n, "thing")
}
