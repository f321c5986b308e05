package tell

import (
	"cmp"
	"slices"

	"propsoff/assets/words"
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
func Callouts(f *switches.Facts, cfg *sim.Config) []words.Text {
	type call struct {
		badness int
		margin  pulse.Width
		says    words.Text
	}
	var all []call
	take := func(c switches.Callout, margin pulse.Width, says words.Text) {
		if b := badness[c.Code]; b > 0 {
			all = append(all, call{b, margin, says})
		}
	}
	for _, c := range f.Callouts {
		take(c, 0, CalloutCraft(c, cfg))
	}
	for i := range f.Switches {
		s := &f.Switches[i]
		for _, c := range s.Callouts {
			take(c, 0, CalloutPlaced(SwitchName(s), calloutOf(s, c)))
		}
		for n := range s.Positions {
			p := &s.Positions[n]
			for _, c := range p.Callouts {
				take(c, p.Margin, words.T("prove.called", words.Args{"place": PositionPlace(s, p), "text": calloutAt(f, s, p, c)}))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b call) int { return cmp.Or(cmp.Compare(a.badness, b.badness), cmp.Compare(a.margin, b.margin)) })
	says := make([]words.Text, len(all))
	for i, c := range all {
		says[i] = c.says
	}
	return says
}

// CalledOut says how many things the layout sheet calls out, and the worst.
func CalledOut(all []words.Text) words.Text {
	if len(all) == 0 {
		return words.T("prove.called-none")
	}
	return words.T("prove.called-worst", words.Args{"n": words.Count(len(all)), "worst": all[0]})
}

// CalledOutList heads the list of everything that the layout sheet calls out.
func CalledOutList(n int) words.Text {
	return words.T("prove.called-list", words.Args{"n": words.Count(n)})
}
