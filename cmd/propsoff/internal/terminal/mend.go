package terminal

import (
	"fmt"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// Mends are what mends a layout as it is printed, behind the proof of the layout as it is.
type Mends struct {
	Proof
	Found *mend.Report
	// Jobs are the named ones of the craft.
	Jobs []craftfile.Job
	// Hint: it is said how a mend is taken over, where one changes what a craft file says.
	Hint bool
}

// AppendText appends the whole as text: what was searched and what is broken; each mend with its changes and the levers that it touches; or
// which rules stand in each other's way.
func (p *Mends) AppendText(dst []byte) []byte {
	dst = p.wrapped(dst, "", p.Of)
	dst = p.wrapped(dst, "", tell.Verdict(p.Report))
	for _, i := range tell.NewsFirst(p.Report.Results) {
		r := &p.Report.Results[i]
		if r.Outcome != prove.Broken && r.Outcome != prove.Undecided {
			continue
		}
		first := left(say(p.Book, tell.Outcome(r.Outcome, true)), widest(p.Book, tell.Outcome(r.Outcome, true))+1)
		dst = p.wrapped(dst, first, tell.FoundRule(p.Layout, r))
		dst = p.wrapped(dst, strings.Repeat(" ", places(first)), tell.Finding(p.Layout, r))
	}
	dst = p.wrapped(append(dst, '\n'), "", tell.MendVerdict(p.Found))
	if len(p.Found.Exclude) > 0 {
		dst = p.wrapped(dst, "", tell.MendExcluded(p.Found))
		for _, r := range p.Found.Exclude {
			dst = p.wrapped(dst, "  ", tell.RuleFor(p.Layout, r))
		}
	}
	was := p.look(p.Layout)
	for n := range p.Found.Mends {
		m := &p.Found.Mends[n]
		dst = p.wrapped(append(dst, '\n'), "", tell.MendTitle(n, m))
		for i, says := range tell.MendChanges(p.Layout, m) {
			dst = p.wrapped(dst, fmt.Sprintf("%3d  ", i+1), says)
		}
		for _, lever := range tell.MendLevers(p.Layout, m, was, p.look(&m.After)) {
			dst = p.wrapped(dst, "     ", lever.Name)
			for _, place := range lever.Places {
				dst = p.wrapped(dst, "       ", place)
			}
		}
		dst = p.wrapped(dst, "     ", tell.MendProved(m))
	}
	if p.Hint && slices.ContainsFunc(p.Found.Mends, inCraft) {
		dst = p.wrapped(append(dst, '\n'), "", words.T("mend.take-hint"))
	}
	return dst
}

// inCraft reports whether a mend changes anything that a craft file says.
func inCraft(m mend.Mend) bool {
	return slices.ContainsFunc(m.Changes, func(c mend.Change) bool { return c.Kind != mend.Travel })
}

// look is what a layout's switches do.
func (p *Mends) look(l *prove.Layout) *switches.Facts { return facts.Look(&l.Config, p.Jobs, &l.Radio) }

// AppendJSON appends the whole as lines of JSON: those of the proof, one with the code "mend" for each, and one with the code "mends" at
// the end. A change says by its kind what is changed, and by was and is from what to what, where that is a number.
func (p *Mends) AppendJSON(dst []byte) []byte {
	dst = p.Proof.AppendJSON(dst)
	was := p.look(p.Layout)
	for n := range p.Found.Mends {
		m := &p.Found.Mends[n]
		var changes []Fields
		for i := range m.Changes {
			changes = append(changes, p.change(m, i))
		}
		var levers []Fields
		for _, lever := range tell.MendLevers(p.Layout, m, was, p.look(&m.After)) {
			levers = append(levers, Fields{"lever", lever.Name, "positions", lever.Places})
		}
		dst = AppendFields(dst, "code", "mend", "number", n+1, "relearn", m.Relearn, "changes", changes, "texts", tell.MendChanges(p.Layout, m),
			"levers", levers, "situations", m.Proof.Situations, "verdict", m.Proof.Verdict().Code())
	}
	var exclude []string
	for _, r := range p.Found.Exclude {
		exclude = append(exclude, r.Code())
	}
	return AppendFields(dst, "code", "mends", "verdict", p.Found.Verdict().Code(), "mends", len(p.Found.Mends), "changes", p.Found.Changes, "tried", p.Found.Tried,
		"searched_whole", p.Found.Proofs, "partial", p.Found.Partial, "exclude", orNone(exclude), "fewest", p.Found.Fewest)
}

// change are the fields of one change.
func (p *Mends) change(m *mend.Mend, i int) Fields {
	ch := &m.Changes[i]
	line := Fields{"kind", ch.Kind.Code(), "in_radio", ch.InRadio(), "relearn", ch.Relearn}
	if ch.Control >= 0 {
		line = append(line, "channel", int(m.After.Radio.Controls[ch.Control].Channel)+1)
	} else if ch.Channel >= 0 {
		line = append(line, "channel", int(ch.Channel)+1)
	}
	if ch.Was != ch.Is {
		line = append(line, "was", changed(ch.Kind, ch.Was), "is", changed(ch.Kind, ch.Is))
	}
	var at []string
	for _, place := range ch.Places {
		if ch.Kind == mend.ModesAt || ch.Kind == mend.ModeCarried {
			at = append(at, codes.Mode(layout.Mode(place)))
		} else {
			at = append(at, [...]string{"off", "on"}[place&1])
		}
	}
	return append(line, "positions", orNone(at))
}

// changed is a value of a change: widths are in µs, channels count from 1, and what has a code word has that.
func changed(k mend.Kind, v int64) any {
	switch k {
	case mend.LowThrottle, mend.Stored, mend.Travel:
		return pulse.Width(v)
	case mend.ArmCarried, mend.SecondCarried, mend.ModeCarried, mend.ArmBySwitch:
		return v + 1
	case mend.Receiver:
		return codes.OnLoss(facts.OnLoss(v))
	case mend.AlwaysMode:
		return codes.Mode(layout.Mode(v))
	}
	return v
}

// Taken is what came of taking a mend over into a craft file.
type Taken struct {
	// Book is the language of its text, nil for English.
	Book   *words.Book
	Number int
	Path   string
	// Changed: the file has other contents now. Report is the search of the layout as it now is, before anything is set in the radio.
	Changed bool
	Report  *prove.Report
}

// AppendText appends it as text.
func (t *Taken) AppendText(dst []byte) []byte {
	p := Proof{Book: t.Book}
	dst = append(dst, '\n')
	if t.Changed {
		dst = p.wrapped(dst, "", words.T("mend.taken", words.Args{"number": words.Whole(t.Number), "path": words.Quote(t.Path)}))
	} else {
		dst = p.wrapped(dst, "", words.T("mend.taken-none", words.Args{"number": words.Whole(t.Number)}))
	}
	if t.Report.Verdict() != prove.AllHold {
		dst = p.wrapped(dst, "", words.T("mend.taken-radio"))
	}
	return p.wrapped(dst, "", tell.Verdict(t.Report))
}

// AppendJSON appends it as a line of JSON.
func (t *Taken) AppendJSON(dst []byte) []byte {
	return AppendFields(dst, "code", "taken", "number", t.Number, "path", t.Path, "changed", t.Changed, "verdict", t.Report.Verdict().Code())
}
