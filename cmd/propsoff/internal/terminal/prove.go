package terminal

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
)

// Proof is a report of prove as it is printed.
type Proof struct {
	// Book is the language of its text, nil for English.
	Book   *words.Book
	Layout *prove.Layout
	Report *prove.Report
	// Of says which craft and radio were searched; Craft and Radio are their names, Radio empty for an ideal one.
	Of           words.Text
	Craft, Radio string
	// CalledOut is what the layout sheet calls out, in sentences, the worst first.
	CalledOut []words.Text
	// Two says what was searched with an instructor's radio beside the pupil's, Tutor is what that is called; both empty where none was given.
	Two   words.Text
	Tutor string
	// Every: what holds and what is not asked is listed too, and each way is told step by step.
	Every bool
	// Folder is where the scripts went, empty where none were asked for; Cleared are the names of those of earlier runs that were taken away there.
	Folder  string
	Cleared []string
	// Written has the path of the script of rule i of Report.Results, empty for none.
	Written []string
}

func (p *Proof) written(i int) string {
	if i < len(p.Written) {
		return p.Written[i]
	}
	return ""
}

// AppendText appends the whole as text: what was searched and what it came to; what is broken, and what else is news, each with the way to it; what
// the layout sheet calls out; the rules that hold and those not asked, counted or listed; and once more what the search came to.
func (p *Proof) AppendText(dst []byte) []byte {
	dst = p.wrapped(dst, "", p.Of)
	dst = p.wrapped(dst, "", tell.Verdict(p.Report))
	if !p.Two.Empty() {
		dst = p.wrapped(dst, "", p.Two)
	}
	dst = append(dst, '\n')
	wide := 0
	for o := range prove.OutcomeCount {
		wide = max(wide, widest(p.Book, tell.Outcome(o, true))+1)
	}
	order := tell.NewsFirst(p.Report.Results)
	quiet := slices.IndexFunc(order, func(i int) bool { return calm(&p.Report.Results[i]) })
	if quiet < 0 {
		quiet = len(order)
	}
	told := map[string]words.Text{}
	for n, i := range order {
		if n < quiet || !p.Every && !tell.RuleNote(p.Layout, p.Report.Results[i].Rule).Empty() { // a note must be known however the rule came out
			dst = p.ruleText(dst, i, wide, told)
		}
	}
	if quiet > 0 {
		dst = append(dst, '\n')
	}
	if len(p.CalledOut) == 0 {
		dst = p.wrapped(dst, "", words.T("prove.called-none"))
	} else {
		dst = p.wrapped(dst, "", words.T("prove.called-list", words.Args{"n": words.Count(len(p.CalledOut))}))
		for i, says := range p.CalledOut {
			dst = p.wrapped(dst, fmt.Sprintf("%3d  ", i+1), words.T("terminal.called-out", words.Args{"text": says}))
		}
	}
	if p.Every {
		dst = append(dst, '\n')
		for _, i := range order[quiet:] {
			dst = p.ruleText(dst, i, wide, told)
		}
		dst = append(dst, '\n')
	} else if quiet < len(order) {
		dst = p.wrapped(dst, "", tell.RestCounted(p.Report))
	}
	return p.wrapped(p.folderText(dst), "", tell.Verdict(p.Report))
}

// calm reports whether a rule needs no more than a line: it holds, or is not asked.
func calm(r *prove.Result) bool { return r.Outcome == prove.Holds || r.Outcome == prove.NotAsked }

// folderText says what was written, and what of earlier runs was taken away.
func (p *Proof) folderText(dst []byte) []byte {
	if p.Folder == "" {
		return dst
	}
	var names []words.Text
	for _, at := range p.Written {
		if at != "" {
			names = append(names, tell.Plain(words.Quote(filepath.Base(at))))
		}
	}
	args := words.Args{"n": words.Count(len(names)), "folder": words.Quote(p.Folder), "names": words.Listed(names...)}
	if len(names) == 0 {
		dst = p.wrapped(dst, "", words.T("prove.wrote-none", words.Args{"folder": words.Quote(p.Folder)}))
	} else {
		dst = p.wrapped(dst, "", words.T("prove.wrote", args))
	}
	if len(p.Cleared) == 0 {
		return dst
	}
	return p.wrapped(dst, "", cleared(p.Cleared))
}

// cleared says which scripts of earlier runs were taken away.
func cleared(all []string) words.Text {
	var names []words.Text
	for _, name := range all {
		names = append(names, tell.Plain(words.Quote(name)))
	}
	return words.T("prove.cleared", words.Args{"n": words.Count(len(names)), "names": words.Listed(names...)})
}

// textWidth is the width at which long sentences are broken (ours).
const textWidth = 118

// ruleText appends one rule; what belongs to it is set in under it, by so many places. A finding that was told before, word for word, is referred
// to by the rule under which it was, and its way told by its length alone, unless every rule is to be told whole.
func (p *Proof) ruleText(dst []byte, i, wide int, told map[string]words.Text) []byte {
	r, under := &p.Report.Results[i], strings.Repeat(" ", wide)
	rule := tell.FoundRule(p.Layout, r)
	switch {
	case r.Outcome == prove.NotAsked:
		rule = withNote(rule, tell.WhyNotAsked(p.Layout, r.Rule))
	case r.Outcome == prove.Holds && r.Searched != p.Report.Situations: // else the verdict says it
		rule = withNote(rule, tell.HeldAgainst(r.Rule, r.Searched))
	}
	dst = p.wrapped(dst, left(say(p.Book, tell.Outcome(r.Outcome, true)), wide), rule)
	if note := tell.RuleNote(p.Layout, r.Rule); !note.Empty() {
		dst = p.wrapped(dst, under, note)
	}
	if calm(r) { // said in a line
		return dst
	}
	finding := say(p.Book, tell.Finding(p.Layout, r))
	before, again := told[finding]
	again = again && !p.Every && r.Outcome == prove.Broken
	if again {
		dst = p.wrapped(dst, under, words.T("prove.same-cause", words.Args{"rule": before}))
	} else {
		told[finding] = rule
		dst = p.wrapped(dst, under, tell.Finding(p.Layout, r))
	}
	if r.Way != nil && len(r.Way.Steps) > 0 {
		title := tell.WayTitle(r)
		if again {
			dst = p.wrapped(dst, under, words.T("prove.steps-listed", words.Args{"title": title}))
		} else {
			dst = p.stepsText(p.wrapped(dst, under, words.T("terminal.way", words.Args{"title": title})), under, r.Way)
		}
	}
	if at := p.written(i); at != "" {
		dst = p.wrapped(dst, under, words.T("prove.written", words.Args{"path": words.Quote(at)}))
	}
	return dst
}

// stepsText appends the steps of a way, set in.
func (p *Proof) stepsText(dst []byte, under string, w *prove.Way) []byte {
	for _, s := range tell.ProvedSteps(p.Layout, w) {
		text := s.Text
		if !s.Then.Empty() {
			text = words.Row(text, words.AsIs("→"), s.Then)
		}
		dst = p.wrapped(dst, fmt.Sprintf("%s%3s  %9s  ", under, s.Number, say(p.Book, s.At)), text)
	}
	return dst
}

// withNote is a sentence with another behind it in brackets.
func withNote(text, note words.Text) words.Text {
	return words.T("terminal.with-note", words.Args{"text": text, "note": note})
}

// wrapped appends a text broken at spaces behind what stands first in its line; its other lines begin below its beginning.
func (p *Proof) wrapped(dst []byte, first string, text words.Text) []byte {
	in := places(first)
	for i, line := range wrap(say(p.Book, text), textWidth-in) {
		if i > 0 {
			first = strings.Repeat(" ", in)
		}
		dst = append(append(append(dst, first...), line...), '\n')
	}
	return dst
}

// AppendJSON appends the whole as lines of JSON: one with the code "rule" for each rule, one with the code "searched" at the end. Numbers of
// channels and positions count from 1, times are ms from the beginning of the way.
func (p *Proof) AppendJSON(dst []byte) []byte {
	for i := range p.Report.Results {
		dst = AppendFields(dst, p.rule(i)...)
	}
	r := p.Report
	return AppendFields(dst, "code", "searched", "craft", p.Craft,
		"radio", orNil(p.Radio), "ideal", p.Radio == "", "instructor", orNil(p.Tutor), // a radio that nothing is wrong with has no name
		"situations", r.Situations, "standing_for", r.Standing, "slots_stepped", r.Steps, "partial", r.Partial,
		"verdict", r.Verdict().Code(), // what the exit status tells too
		"broken", r.Count(prove.Broken), "undecided", r.Count(prove.Undecided),
		"called_out", p.CalledOut, // by the layout sheet, the worst first
		"cleared", orNone(p.Cleared)) // scripts of earlier runs that were taken away
}

// rule are the fields of rule i. Its outcome: holds, broken, with-it (comes with how the craft arms), not-asked, undecided.
func (p *Proof) rule(i int) []any {
	r := &p.Report.Results[i]
	cause, why := "", words.Text{}
	switch r.Outcome {
	case prove.Broken, prove.WithIt:
		cause, why = r.Cause.Code(), tell.Finding(p.Layout, r)
	case prove.NotAsked:
		why = tell.WhyNotAsked(p.Layout, r.Rule)
	}
	line := []any{"code", "rule", "rule", r.Rule.Code(), "outcome", r.Outcome.Code(), "situations", r.Searched, "cause", orNil(cause), "why", orNil(english(why)),
		"note", orNil(english(tell.RuleNote(p.Layout, r.Rule)))} // to be known however it came out
	if w := r.Way; w != nil {
		happens := any(nil) // in the very millisecond in which the way ends
		if h := happening.Code(w.Claim.Happens); h != 0 {
			happens = codes.Code(h)
		}
		line = append(line, "movements", w.Movements, "ms", w.Ms, "steps", p.steps(w), "ends", Fields{
			"t_ms", w.Final, "armed", w.Claim.Armed, "mode", codes.Mode(layout.Mode(w.Claim.Mode)), "link", codes.Link(facts.Phase(w.Claim.Phase)),
			"sinking", w.Claim.Sinking, "happens", happens,
		})
	}
	return append(line, "script", orNil(p.written(i)))
}

// steps are the steps of a way; nil for none.
func (p *Proof) steps(w *prove.Way) any {
	if len(w.Steps) == 0 {
		return nil
	}
	var out []Fields
	for i, s := range tell.ProvedSteps(p.Layout, w)[:len(w.Steps)] { // the last line is told by ends
		st := &w.Steps[i]
		line := Fields{"number", orNil(s.Number), "t_ms", st.At - w.Steps[0].At, "does", codes.Step(st.Kind)} // the start and waits have no number
		switch {
		case st.Kind == prove.Wait:
			line = append(line, "wait_ms", orNil(st.Ms))
		case st.Kind == prove.Move && st.Control >= 0 && st.Control < len(p.Layout.Radio.Controls):
			line = append(line, "channel", int(p.Layout.Radio.Controls[st.Control].Channel)+1, "us", string(exact(st.To)))
		}
		out = append(out, append(line, "then", orNone(codes.Events(st.Then)), "text", s.Text))
	}
	return out
}
