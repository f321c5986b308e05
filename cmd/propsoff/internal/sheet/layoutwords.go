package sheet

import (
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
	"propsoff/sim/switches"
)

// ShowFacts puts facts about switches into words: Levers and Calls. No position is live yet.
func (l *LayoutView) ShowFacts(f *switches.Facts, cfg *sim.Config) {
	l.Levers, l.Calls = nil, nil
	for _, c := range f.Callouts {
		l.Calls = append(l.Calls, LayoutCall{Text: phrase.CalloutCraft(c, cfg), Lever: -1, Position: -1})
	}
	for i := range f.Switches {
		s := &f.Switches[i]
		lever := LayoutLever{Name: phrase.SwitchName(s), From: phrase.SwitchFrom(s), Warns: s.Warnings() > 0, Live: -1}
		for _, c := range s.Callouts {
			text := phrase.CalloutOf(s, c)
			lever.Notes = append(lever.Notes, text)
			l.Calls = append(l.Calls, LayoutCall{Place: lever.Name, Text: text, Lever: i, Position: -1, Told: c.Code.Told()})
		}
		for n := range s.Positions {
			at := &s.Positions[n]
			p := LayoutPosition{Does: phrase.PositionDoes(f, s, at), Value: phrase.PositionValue(at, f.Measured), Margin: phrase.PositionMargin(at, f.Measured)}
			for _, c := range at.Callouts {
				text := phrase.CalloutAt(f, s, at, c)
				p.Notes = append(p.Notes, text)
				l.Calls = append(l.Calls, LayoutCall{Place: lever.Name + " at " + phrase.PositionAt(at), Text: text, Lever: i, Position: n})
			}
			lever.Positions = append(lever.Positions, p)
		}
		l.Levers = append(l.Levers, lever)
	}
}
