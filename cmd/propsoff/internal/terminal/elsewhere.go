package terminal

import (
	"strings"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/prove"
)

// Elsewhere is a proof as it is printed, and behind it what comes of each way to a broken rule where one control stands elsewhere.
type Elsewhere struct {
	Proof
	Tried []TriedOf
}

// TriedOf are the turns of the way to the rule at an index of the report.
type TriedOf struct {
	Rule  int
	Turns []prove.Tried
}

// AppendText appends the whole as text.
func (e *Elsewhere) AppendText(dst []byte) []byte {
	dst = e.Proof.AppendText(dst)
	for _, one := range e.Tried {
		r := &e.Report.Results[one.Rule]
		steps := tell.ProvedSteps(e.Layout, r.Way)
		dst = e.wrapped(append(dst, '\n'), "", tell.FoundRule(e.Layout, r))
		for i := range one.Turns {
			t := &one.Turns[i]
			dst = e.wrapped(dst, "  ", tell.TurnTitle(e.Layout, &t.Turn, steps[t.Step].Number))
			for n := range t.Places {
				dst = e.wrapped(dst, strings.Repeat(" ", 4), tell.TurnPlace(e.Layout, t, n))
			}
			if none := tell.TurnNone(e.Layout, t); !none.Empty() {
				dst = e.wrapped(dst, strings.Repeat(" ", 4), none)
			}
		}
	}
	return dst
}

// AppendJSON appends the whole as lines of JSON: those of the proof, and one with the code "elsewhere" for each step of a way in which a control moves,
// and for where each control stands at the beginning. Of its places the way's own is among them.
func (e *Elsewhere) AppendJSON(dst []byte) []byte {
	dst = e.Proof.AppendJSON(dst)
	for _, one := range e.Tried {
		r := &e.Report.Results[one.Rule]
		steps := tell.ProvedSteps(e.Layout, r.Way)
		for i := range one.Turns {
			t := &one.Turns[i]
			c := &e.Layout.Radio.Controls[t.Control]
			var places []Fields
			for n := range t.Places {
				came := &t.Came[n]
				a := came.Answer()
				places = append(places, Fields{"us", string(exact(t.Places[n].Width)), "own", n == t.Own, "happens", came.Happens, "armed", a.Armed, "motors_turn", a.Motors,
					"sinking", a.Sinking, "mode", codes.Mode(a.Mode), "refused", orNone(codes.Why(a.Refused)), "text", tell.TurnPlace(e.Layout, t, n)})
			}
			dst = AppendFields(dst, "code", "elsewhere", "rule", r.Rule.Code(), "cause", r.Cause.Code(), "number", orNil(steps[t.Step].Number),
				"t_ms", r.Way.Steps[t.Step].At-r.Way.Steps[0].At, "channel", int(c.Channel)+1, "avoided", t.Avoided, "places", places)
		}
	}
	return dst
}
