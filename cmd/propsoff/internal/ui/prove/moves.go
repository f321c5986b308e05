package prove

import (
	"cmp"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/cmd/propsoff/internal/ui/handheld"
	"propsoff/sim/handset"
	"propsoff/sim/prove"
)

// Moved is a step of a way in which a hand moves a control.
type Moved struct {
	// Step counts from 0 among all lines of the way.
	Step int
	Job  string
	// From and To are where the control stands before and after, from its low end, 0, to its high one, 1.
	From, To float64
}

// MovesOf are the steps of a way in which a control of the radio is moved.
func MovesOf(r *handset.Radio, w *prove.Way) (all []Moved) {
	for i := range w.Steps {
		st := &w.Steps[i]
		if st.Kind == prove.Move && st.Control >= 0 && st.Control < len(r.Controls) {
			c := &r.Controls[st.Control]
			all = append(all, Moved{Step: i, Job: c.Job, From: c.Share(st.From), To: c.Share(st.To)})
		}
	}
	return all
}

// moves draws the radio of a way. The control that moves first among the steps that are shown is marked with the way that it goes; each has the
// number of the step in which it moves first before its name.
func (b *board) moves(r ink.Rect, rule *Rule, from int) {
	d, seen := figure.Handheld(rule.Radio, b.V.Say), map[string]bool{}
	for _, m := range rule.Moves {
		if m.Step < from || seen[m.Job] {
			continue
		}
		if len(seen) == 0 {
			d.Mark(m.Job, handheld.Moves, m.To)
			d.MarkStick(m.Job, handheld.Moves, float64(cmp.Compare(m.To, m.From)))
		}
		seen[m.Job] = true
		if c := d.Of(m.Job); c != nil {
			number := rule.Steps[m.Step].Number
			c.Name, c.Number, c.At = number+" "+c.Name, number, m.From
		}
	}
	b.Handheld(r, d)
}
