package prove

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// View is what the sheet knows besides what all know.
type View struct {
	// Of says which craft and radio were searched, or are to be.
	Of words.Text
	// Searching: a search is under way. Over: it is over, and the rules are as it found them. Stale: craft or radio have changed since.
	Searching, Over, Stale bool
	// Status says how far the search is, or what it came to; Done is the share that was searched of all that is known of so
	// far, 0 … 1. It may go back, because what is found brings more to be searched.
	Status words.Text
	Done   float64
	// Recalled says that the outcomes are remembered from an earlier search; empty where they are not.
	Recalled words.Text
	// CalledOut says what the layout sheet has to call out of the same craft and radio; empty for nothing.
	CalledOut words.Text
	// Rules in their order, and the index of the one looked at.
	Rules    []Rule
	Selected int
	// Moved lists what the search moves.
	Moved []words.Text
	// InWay: the way of the rule looked at is shown step by step; Step is the one looked at, from 0.
	InWay bool
	Step  int
	// CanMend: there is something to mend. Mending: what mends it is being looked for. InMends: the list is of Mends, and MendAt the one looked at.
	CanMend, Mending, InMends bool
	Mends                     []Rule
	MendAt                    int
	// CanWatch: the way can be played here. CanLead: hands on a radio can lead it; Leads: they are to. CanMended: there is a mend in whose layout the same
	// hands can be tried; InMended: they are.
	CanWatch, CanLead, Leads, CanMended, InMended bool
	// Show is the way being played. Instead is the way with one thing other than it was found, nil for none.
	Show    Show
	Instead *Rule
	// Places are those in which controls can stand in the step looked at, PlaceAt the one that stands, −1 for none; None says that none of a control's
	// avoids what happens.
	Places  []Place
	PlaceAt int
	None    words.Text
}

// Rule is one rule and what the search found of it.
type Rule struct {
	Outcome prove.Outcome
	// Short names the rule in a few words, Whole is it as a sentence, Found what was found.
	Short, Whole, Found words.Text
	// Word stands in place of the outcome's word; empty for that.
	Word words.Text
	// Way is the title over the steps; empty where there is no way to show.
	Way   words.Text
	Steps []tell.ProvedStep
	// Moves are the steps in which a control of Radio is moved, Frames what it sends before each. Layout says what is on which channel.
	Moves  []Moved
	Frames []pulse.Frame
	Radio  *handset.Radio
	Layout *layout.Config
	// of is what the search found, nil before it is over.
	of *prove.Result
}

// Of is what the sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// rule is the one that is looked at; an empty one where there is none.
func (v *View) rule() Rule {
	if v.InWay && v.Instead != nil {
		return *v.Instead
	}
	if all, at := v.list(); *at < len(all) {
		return all[*at]
	}
	return Rule{}
}

// list is what is listed, the rules or the mends, and the index of the one looked at.
func (v *View) list() ([]Rule, *int) {
	if v.InMends {
		return v.Mends, &v.MendAt
	}
	return v.Rules, &v.Selected
}

// several tells whether there is another rule to look at, or in a way another step.
func (v *View) several() bool {
	if v.InWay {
		return len(v.rule().Steps) > 1
	}
	all, _ := v.list()
	return len(all) > 1
}

// rulePrefix and a number from 1 name the hit areas of the rules.
const rulePrefix = "rule-"

// board is a page being drawn.
type board struct{ *figure.Board }

// Draw draws the search of every situation: how far it is, each rule, and the shortest way to a broken one; or that way, step by step. For a room it
// has fewer words, larger.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnProve)
	b := &board{on}
	low, row := 0.58, 40*b.U
	if v.Class {
		if b.Tall { // a portrait screen has the height for more
			b.Larger(1.3)
		}
		low, row = 0.6, 1.4*max(ink.LineHeight(b.Body)+3*b.U, 24*b.U)
	}
	if v := Of(v); v.InWay && len(v.rule().Steps) > 0 {
		b.way(r)
		return
	}
	r = b.searched(r)
	all, _ := Of(v).list()
	rules, finding := b.Split(r, ui.Clamp(b.widest(), r.W*0.45, r.W*0.6), min(r.H*low, float64(len(all))*row+b.SectionHeight()), 1.6)
	b.rules(rules)
	b.finding(finding)
}

// widest is what the longest line of the list takes.
func (b *board) widest() (w float64) {
	all, _ := Of(b.V).list()
	for _, r := range all {
		w = max(w, ink.Width(b.Say(r.Short), b.Body, ink.Regular)+ink.Width(b.outcome(&r), b.Body, ink.Bold)+2*b.mark()+29*b.U)
	}
	return w
}

// outcome is the word for what was found of a rule, mark half the size of the mark before its name.
func (b *board) outcome(r *Rule) string {
	if !r.Word.Empty() {
		return b.Say(r.Word)
	}
	return b.Say(tell.Outcome(r.Outcome, Of(b.V).Over))
}

func (b *board) mark() float64 { return ink.CapHeight(b.Body, ink.Bold)*0.5 + 1.5*b.U }

// heading heads steps: in a room by bold letters, in the window by small ones with a rule beside them.
func (b *board) heading(r ink.Rect, name string, title words.Text) ink.Rect {
	if !b.V.Class {
		return b.Section(r, name+" heading", b.Say(title))
	}
	d := b.Down(r, 3*b.U)
	d.Whole(name+" heading", title, ink.Style{Size: b.Body, Weight: ink.Bold})
	return d.R
}

// searched draws what is searched and how far it is; it gives what is left below.
func (b *board) searched(r ink.Rect) ink.Rect {
	b.Group("search")
	v := Of(b.V)
	of, status := ink.Style{Size: b.Small, Colour: ink.Faint}, ink.Style{Size: b.Head, Weight: ink.Bold}
	d := b.Down(r, 3*b.U)
	if b.V.Class { // long names would leave no room for a way; what is called out stands on the layout sheet
		if lines, _ := ink.CountLines(b.Say(v.Of), r.W, b.Small, ink.Regular); lines <= 2 {
			d.Say("searched", v.Of, of)
		}
		d.Say("status", v.Status, status)
	} else {
		d.R = b.Section(d.R, "search-heading", b.Say(words.T("prove.title")))
		d.Say("searched", v.Of, of)
		d.Say("status", v.Status, status)
		d.Say("called-out", v.CalledOut, ink.Style{Size: b.Small})
	}
	// The line is kept free when nothing is searched, so that the list stays where it is.
	d.Gap = b.Gap
	if row := d.Row(8 * b.U); v.Searching || v.Mending {
		b.Filling(row, v.Done)
	}
	return d.R
}

// rules draws the list: mark, name and outcome of each.
func (b *board) rules(r ink.Rect) {
	b.Group("rules")
	all, at := Of(b.V).list()
	if !b.V.Class {
		title := words.T("prove.rules-title")
		if Of(b.V).InMends {
			title = words.T("mend.list-title")
		}
		r = b.Section(r, "rules-heading", b.Say(title))
	}
	n := len(all)
	least, most := max(b.LeastHit, ink.LineHeight(b.Body)+4*b.U), max(34*b.U, ink.LineHeight(b.Body)+10*b.U)
	if b.Tall {
		most *= 1.4
	}
	b.ListAll("rules", r, n, *at, ui.Clamp(r.H/float64(n), least, most), b.rule)
}

// rule draws one line of the list.
func (b *board) rule(r ink.Rect, i int) {
	all, at := Of(b.V).list()
	rule := &all[i]
	row := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - 2*b.U}
	if i == *at {
		b.Chosen(row)
	}
	outcome, mark := b.outcome(rule), b.mark()
	b.OutcomeMark(row.X+mark+6*b.U, row.Centre().Y, mark, rule.Outcome)
	_, name := row.CutLeft(2*mark, 13*b.U)
	name = b.AtRight(name, "outcome", outcome, ink.Style{Size: b.Body, Weight: ink.Bold}, 7*b.U, 9*b.U)
	b.Fitted("rule", name, ink.Style{Size: b.Body}, b.Say(rule.Short))
	b.Hit(rulePrefix+strconv.Itoa(i+1), "", r)
}

// finding draws the rule that is looked at: the rule, what was found, and the way as numbered steps or else what the search moves.
func (b *board) finding(r ink.Rect) {
	b.Group("finding")
	v := Of(b.V)
	rule := v.rule()
	if rule.Whole.Empty() {
		return
	}
	size := b.Large
	if !b.V.Class {
		title := words.T("prove.finding-title")
		if v.InMends {
			title = words.T("mend.one-title")
		}
		r = b.Section(r, "finding-heading", b.Say(title))
		size, _ = ink.FitBlock(r.W, ink.BlockHeight(b.Large, 2), b.Head, b.Large, ink.Bold, b.Say(rule.Whole))
	}
	d := b.Down(r, 5*b.U)
	d.Say("rule-whole", rule.Whole, ink.Style{Size: size, Weight: ink.Bold})
	d.Gap = b.Gap
	d.Say("found", rule.Found, ink.Style{Size: b.Head})
	if rule.Way.Empty() {
		if d.R.H > 4*ink.LineHeight(b.Body) {
			moved := make([]tell.ProvedStep, len(v.Moved))
			for i, t := range v.Moved {
				moved[i].Text = t
			}
			b.steps(b.heading(d.R, "moved", words.T("prove.moved-title")), "moved", moved, -1, tell.AndMore)
		}
		return
	}
	all := rule.Steps
	if b.V.Class && len(all) > 1 && !v.InMends {
		all = all[1:] // how everything stands at the beginning is left to whoever looks at the way
	}
	r = b.heading(d.R, "way", rule.Way)
	if high := b.stepsHeight(r.W, all); (!b.V.Class || v.InMends) && r.H-high > 110*b.U && rule.Radio != nil {
		var drawing ink.Rect
		drawing, r = r.CutBottom(min(r.H-high-b.Gap, r.W*0.62), b.Gap)
		b.moves(drawing, &rule, rule.firstMove())
	}
	b.steps(r, "step", all, -1, tell.StepsLeft)
}
