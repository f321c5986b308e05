package terminal

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
)

// Proof is a report of prove as it is printed.
type Proof struct {
	Layout *prove.Layout
	Report *prove.Report
	// Of says which craft and radio were searched; Craft and Radio are their names, Radio empty for an ideal one.
	Of, Craft, Radio string
	// CalledOut is what the layout sheet calls out, in sentences, the worst first.
	CalledOut []string
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
	dst = appendWrapped(dst, "", "", p.Of)
	dst = append(appendWrapped(dst, "", "", phrase.Verdict(p.Report)), '\n')
	for _, i := range phrase.NewsFirst(p.Report.Results) {
		dst = p.ruleText(dst, i)
	}
	dst = append(dst, '\n')
	if len(p.CalledOut) < 2 {
		dst = appendWrapped(dst, "", "", phrase.CalledOut(p.CalledOut))
	} else {
		dst = appendWrapped(dst, "", "", phrase.CalledOutCount(len(p.CalledOut))+":")
		for i, says := range p.CalledOut {
			dst = appendWrapped(dst, fmt.Sprintf("%3d  ", i+1), "     ", capitalised(says))
		}
	}
	return appendWrapped(dst, "", "", phrase.Verdict(p.Report))
}

// The columns of the text: what belongs to a rule is set in under it, and long sentences are broken at a width (ours).
const (
	underRule = "                  "
	underStep = underRule + "                "
	textWidth = 118
)

// ruleText appends one rule.
func (p *Proof) ruleText(dst []byte, i int) []byte {
	r := &p.Report.Results[i]
	rule := phrase.FoundRule(p.Layout, r)
	switch {
	case r.Outcome == prove.NotAsked:
		rule += " (" + phrase.WhyNotAsked(p.Layout, r.Rule) + ")"
	case r.Outcome == prove.Holds && r.Searched != p.Report.Situations: // else the verdict says it
		rule += " (" + phrase.HeldAgainst(r.Rule, r.Searched) + ")"
	}
	dst = appendWrapped(dst, fmt.Sprintf("%-17s ", phrase.Outcome(r.Outcome, true)), underRule, rule)
	if note := phrase.RuleNote(p.Layout, r.Rule); note != "" {
		dst = appendWrapped(dst, underRule, underRule, note)
	}
	if r.Outcome == prove.Holds || r.Outcome == prove.NotAsked { // said in a line
		return dst
	}
	dst = appendWrapped(dst, underRule, underRule, phrase.Finding(p.Layout, r))
	if r.Way != nil && len(r.Way.Steps) > 0 {
		dst = appendWrapped(dst, underRule, underRule, capitalised(phrase.WayTitle(r))+":")
		for _, s := range phrase.ProvedSteps(p.Layout, r.Way) {
			text := s.Text
			if s.Then != "" {
				text += " → " + s.Then
			}
			dst = appendWrapped(dst, fmt.Sprintf("%s%3s  %9s  ", underRule, s.Number, s.At), underStep, text)
		}
	}
	if at := p.written(i); at != "" {
		dst = appendWrapped(dst, underRule, underRule, phrase.WrittenTo(at))
	}
	return dst
}

// appendWrapped appends a text broken at spaces, after first in its first line and after next in the others.
func appendWrapped(dst []byte, first, next, text string) []byte {
	dst = append(dst, first...)
	at := utf8.RuneCountInString(first)
	for i, word := range strings.Fields(mouth.Printable(text)) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > textWidth:
			dst = append(append(dst, '\n'), next...)
			at = utf8.RuneCountInString(next)
		default:
			dst = append(dst, ' ')
			at++
		}
		dst = append(dst, word...)
		at += n
	}
	return append(dst, '\n')
}

func capitalised(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
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
		CalledOut: append([]string{}, p.CalledOut...),
	}
	for i := range p.Report.Results {
		r := &p.Report.Results[i]
		line := provedRule{Code: "rule", Rule: r.Rule.Code(), Outcome: r.Outcome.Code(), Situations: r.Searched, Script: p.written(i), Note: phrase.RuleNote(p.Layout, r.Rule)}
		if r.Outcome == prove.Broken || r.Outcome == prove.WithIt {
			line.Cause, line.Why = r.Cause.Code(), phrase.Finding(p.Layout, r)
		}
		if r.Outcome == prove.NotAsked {
			line.Why = phrase.WhyNotAsked(p.Layout, r.Rule)
		}
		if w := r.Way; w != nil {
			line.Movements, line.Ms = &w.Movements, &w.Ms
			line.Steps = p.steps(w)
			line.Ends = &provedEnd{w.Final, w.Claim.Armed, phrase.Mode(layout.Mode(w.Claim.Mode)), phrase.LinkWord(facts.Phase(w.Claim.Phase)), w.Claim.Sinking, ""}
			if h := happening.Code(w.Claim.Happens); h != 0 {
				line.Ends.Happens = phrase.Code(h)
			}
		}
		dst = appendObject(dst, &line)
	}
	return appendObject(dst, &end)
}

func (p *Proof) steps(w *prove.Way) []provedStep {
	var out []provedStep
	for i, s := range phrase.ProvedSteps(p.Layout, w)[:len(w.Steps)] { // the last line is told by ends
		st := &w.Steps[i]
		line := provedStep{Number: s.Number, At: st.At - w.Steps[0].At, Does: phrase.StepCode(st.Kind), Text: s.Text, Then: phrase.EventCodes(st.Then)}
		if st.Kind == prove.Wait {
			line.Ms = st.Ms
		}
		if st.Kind == prove.Move && st.Control >= 0 && st.Control < len(p.Layout.Radio.Controls) {
			line.Channel, line.Us = int(p.Layout.Radio.Controls[st.Control].Channel)+1, phrase.Exact(st.To)
		}
		out = append(out, line)
	}
	return out
}

// appendObject appends one value as a line of JSON.
func appendObject(dst []byte, v any) []byte { return append(mouth.AppendJSON(dst, v), '\n') }
