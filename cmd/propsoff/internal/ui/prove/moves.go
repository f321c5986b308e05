package prove

import (
	"cmp"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Moved is a step of a way in which a hand moves a control, or lets one go that springs back.
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
		if (st.Kind == prove.Move || st.Kind == prove.LetGo) && st.Control >= 0 && st.Control < len(r.Controls) {
			c := &r.Controls[st.Control]
			all = append(all, Moved{Step: i, Job: c.Job, From: c.Share(st.From), To: c.Share(st.To)})
		}
	}
	return all
}

// FramesOf are what the radio sends before each line of a way, the last of which is its end.
func FramesOf(w *prove.Way) []pulse.Frame {
	all := make([]pulse.Frame, len(w.Steps)+1)
	for i := range all {
		at := int64(1) // the end comes after everything
		if i < len(w.Steps) {
			at = (w.Steps[i].At - w.Steps[0].At) * 1000
		}
		for _, r := range w.Readings {
			if r.Kind == pulse.Controls && (r.At == 0 || r.At < at || i == len(w.Steps)) {
				all[i] = r.Frame
			}
		}
	}
	return all
}

// moves draws the radio as it stands before a step of a way; the control that moves in it is marked, with the way that it goes.
func (b *board) moves(r ink.Rect, rule *Rule, step int) {
	d := figure.Handheld(rule.Radio, b.V.Say)
	show := &Of(b.V).Show
	switch {
	case show.On:
		figure.StandAt(d, rule.Radio, &show.Sent, rule.Layout)
	case step < len(rule.Frames):
		figure.StandAt(d, rule.Radio, &rule.Frames[step], rule.Layout)
	}
	for _, m := range rule.Moves {
		if m.Step == step && !show.Over {
			d.Mark(m.Job, handheld.Moves, m.To)
			d.MarkStick(m.Job, handheld.Moves, float64(cmp.Compare(m.To, m.From)))
		}
	}
	b.Handheld(r, d)
}

// firstMove is the first step in which a control moves, 0 where none does.
func (r *Rule) firstMove() int {
	if len(r.Moves) == 0 {
		return 0
	}
	return r.Moves[0].Step
}
