package terminal

import (
	"fmt"
	"strings"

	"propsoff/assets/mouth"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
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
	// Written has the path of the script of rule i of Report.Results, empty for none.
	Written []string
}

func (p *Proof) written(i int) string {
	if i < len(p.Written) {
		return p.Written[i]
	}
	return ""
}

// AppendText appends the whole as text: what was searched and what it came to; each rule with its outcome, broken ones first,
// each with the way to it; what the layout sheet calls out; and once more what the search came to.
func (p *Proof) AppendText(dst []byte) []byte {
	dst = p.wrapped(dst, "", p.Of)
	dst = append(p.wrapped(dst, "", tell.Verdict(p.Report)), '\n')
	wide := 0
	for o := range prove.OutcomeCount {
		wide = max(wide, widest(p.Book, tell.Outcome(o, true))+1)
	}
	for _, i := range tell.NewsFirst(p.Report.Results) {
		dst = p.ruleText(dst, i, wide)
	}
	dst = append(dst, '\n')
	if len(p.CalledOut) < 2 {
		dst = p.wrapped(dst, "", tell.CalledOut(p.CalledOut))
	} else {
		dst = p.wrapped(dst, "", tell.CalledOutList(len(p.CalledOut)))
		for i, says := range p.CalledOut {
			dst = p.wrapped(dst, fmt.Sprintf("%3d  ", i+1), words.T("terminal.called-out", words.Args{"text": says}))
		}
	}
	return p.wrapped(dst, "", tell.Verdict(p.Report))
}

// textWidth is the width at which long sentences are broken (ours).
const textWidth = 118

// ruleText appends one rule; what belongs to it is set in under it, by so many places.
func (p *Proof) ruleText(dst []byte, i, wide int) []byte {
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
	if r.Outcome == prove.Holds || r.Outcome == prove.NotAsked { // said in a line
		return dst
	}
	dst = p.wrapped(dst, under, tell.Finding(p.Layout, r))
	if r.Way != nil && len(r.Way.Steps) > 0 {
		dst = p.wrapped(dst, under, words.T("terminal.way", words.Args{"title": tell.WayTitle(r)}))
		for _, s := range tell.ProvedSteps(p.Layout, r.Way) {
			text := s.Text
			if !s.Then.Empty() {
				text = words.Row(text, words.AsIs("→"), s.Then)
			}
			dst = p.wrapped(dst, fmt.Sprintf("%s%3s  %9s  ", under, s.Number, say(p.Book, s.At)), text)
		}
	}
	if at := p.written(i); at != "" {
		dst = p.wrapped(dst, under, tell.WrittenTo(at))
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

// The lines of JSON of a proof. Numbers of channels and positions count from 1, times are ms from the beginning of the way.
type (
	provedRule struct {
		Code       string       `json:"code"` // "rule"
		Rule       string       `json:"rule"`
		Outcome    string       `json:"outcome"` // holds, broken, with-it (comes with the arming method), not-asked, undecided
		Situations uint64       `json:"situations"`
		Cause      string       `json:"cause,omitempty"`
		Why        string       `json:"why,omitempty"`
		Note       string       `json:"note,omitempty"` // to be known however it came out
		Movements  *int         `json:"movements,omitempty"`
		Ms         *int64       `json:"ms,omitempty"`
		Steps      []provedStep `json:"steps,omitempty"`
		Ends       *provedEnd   `json:"ends,omitempty"`
		Script     string       `json:"script,omitempty"`
	}
	provedStep struct {
		Number  string   `json:"number,omitempty"` // of a movement; the start and waits have none
		At      int64    `json:"t_ms"`
		Does    string   `json:"does"`
		Channel int      `json:"channel,omitempty"` // of the control moved
		Us      string   `json:"us,omitempty"`      // where it is moved to
		Ms      int64    `json:"wait_ms,omitempty"`
		Then    []string `json:"then,omitempty"`
		Text    string   `json:"text"`
	}
	// provedEnd is the state that the way ends in; t_ms counts as in the script, from its beginning.
	provedEnd struct {
		At      int64  `json:"t_ms"`
		Armed   bool   `json:"armed"`
		Mode    string `json:"mode"`
		Link    string `json:"link"`
		Sinking bool   `json:"sinking"`
		Happens string `json:"happens,omitempty"` // the code of what happens in that very millisecond
	}
	provedAll struct {
		Code       string   `json:"code"` // "searched"
		Craft      string   `json:"craft"`
		Radio      string   `json:"radio,omitempty"` // left out for an ideal one
		Ideal      bool     `json:"ideal"`
		Situations uint64   `json:"situations"`
		Standing   float64  `json:"standing_for"`
		Steps      uint64   `json:"slots_stepped"`
		Partial    bool     `json:"partial"`
		Verdict    string   `json:"verdict"` // all-hold, some-broken, unfinished: what the exit status tells too
		Broken     int      `json:"broken"`
		Undecided  int      `json:"undecided"`
		CalledOut  []string `json:"called_out"` // by the layout sheet, the worst first
	}
)

// AppendJSON appends the whole as lines of JSON: one with the code "rule" for each rule, one with the code "searched" at
// the end.
func (p *Proof) AppendJSON(dst []byte) []byte {
	end := provedAll{
		Code: "searched", Craft: p.Craft, Radio: p.Radio, Ideal: p.Radio == "",
		Situations: p.Report.Situations, Standing: p.Report.Standing, Steps: p.Report.Steps, Partial: p.Report.Partial,
		Verdict: p.Report.Verdict().Code(), Broken: p.Report.Count(prove.Broken), Undecided: p.Report.Count(prove.Undecided),
		CalledOut: make([]string, len(p.CalledOut)),
	}
	for i, says := range p.CalledOut {
		end.CalledOut[i] = english(says)
	}
	for i := range p.Report.Results {
		r := &p.Report.Results[i]
		line := provedRule{Code: "rule", Rule: r.Rule.Code(), Outcome: r.Outcome.Code(), Situations: r.Searched, Script: p.written(i), Note: english(tell.RuleNote(p.Layout, r.Rule))}
		if r.Outcome == prove.Broken || r.Outcome == prove.WithIt {
			line.Cause, line.Why = r.Cause.Code(), english(tell.Finding(p.Layout, r))
		}
		if r.Outcome == prove.NotAsked {
			line.Why = english(tell.WhyNotAsked(p.Layout, r.Rule))
		}
		if w := r.Way; w != nil {
			line.Movements, line.Ms = &w.Movements, &w.Ms
			line.Steps = p.steps(w)
			line.Ends = &provedEnd{w.Final, w.Claim.Armed, codes.Mode(layout.Mode(w.Claim.Mode)), codes.Link(facts.Phase(w.Claim.Phase)), w.Claim.Sinking, ""}
			if h := happening.Code(w.Claim.Happens); h != 0 {
				line.Ends.Happens = codes.Code(h)
			}
		}
		dst = appendObject(dst, &line)
	}
	return appendObject(dst, &end)
}

func (p *Proof) steps(w *prove.Way) []provedStep {
	var out []provedStep
	for i, s := range tell.ProvedSteps(p.Layout, w)[:len(w.Steps)] { // the last line is told by ends
		st := &w.Steps[i]
		line := provedStep{Number: s.Number, At: st.At - w.Steps[0].At, Does: codes.Step(st.Kind), Text: english(s.Text), Then: codes.Events(st.Then)}
		if st.Kind == prove.Wait {
			line.Ms = st.Ms
		}
		if st.Kind == prove.Move && st.Control >= 0 && st.Control < len(p.Layout.Radio.Controls) {
			line.Channel, line.Us = int(p.Layout.Radio.Controls[st.Control].Channel)+1, thousandths(exact(st.To))
		}
		out = append(out, line)
	}
	return out
}

// appendObject appends one value as a line of JSON.
func appendObject(dst []byte, v any) []byte { return append(mouth.AppendJSON(dst, v), '\n') }
