// Package prove is the sheet of the search: every situation that craft and radio can come into, the rules that are held against each, and the
// shortest way to a broken one.
package prove

import (
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/provescript"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/script"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
)

// What its own keys do.
const (
	ShowWay   ui.Action = "show-way"   // look at the way to the broken rule; then play it on the bench
	RuleAbove ui.Action = "rule-above" // the rule above, or the step
	RuleBelow ui.Action = "rule-below" // the rule below, or the step
	AllRules  ui.Action = "all-rules"  // from the way back to the rules
	SearchNow ui.Action = "search"     // begin the search, or stop it
	FindMends ui.Action = "mend"       // look for what mends the layout, or stop looking
)

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	several := func(v *ui.View) bool { return Of(v).several() }
	inWay := func(v *ui.View) bool { return Of(v).InWay }
	return &ui.About{
		Place: ui.OnProve, Key: "F8", Everywhere: true,
		Shared: ui.Usual(),
		Front:  []ui.Action{ui.OnCompare.Open()},
		Own: []ui.Act{
			{Action: ShowWay, Physical: "Enter", Do: p.enter, On: inWay, Next: func(v *ui.View) int { return enterDoes(Of(v)) },
				Shows: func(v *ui.View) bool { return enterShows(Of(v), v.Playing()) }},
			{Action: WatchWay, Physical: "Comma", Do: p.watch, On: func(v *ui.View) bool { return playing(Of(v)) }, Shows: func(v *ui.View) bool { return Of(v).CanWatch }},
			{Action: LeadWay, Physical: "Semicolon", Do: p.lead, On: func(v *ui.View) bool { return Of(v).Leads }, Shows: func(v *ui.View) bool { return Of(v).CanLead }},
			{Action: WayMended, Physical: "Quote", Do: p.throughMends, On: func(v *ui.View) bool { return Of(v).InMended }, Shows: func(v *ui.View) bool { return Of(v).CanMended }},
			{Action: AllRules, Physical: "Backspace", Do: p.stepOut, On: func(v *ui.View) bool { return Of(v).Show.On }, Shows: func(v *ui.View) bool { return Of(v).InWay || Of(v).InMends }},
			{Action: RuleAbove, Physical: "PageUp", Shows: several, On: inWay, Do: func() { p.move(-1) }},
			{Action: RuleBelow, Physical: "PageDown", Shows: several, On: inWay, Do: func() { p.move(1) }},
			{Action: SearchNow, Physical: "Slash", Do: p.beginOrStop, On: func(v *ui.View) bool { return Of(v).Searching }, Shows: func(v *ui.View) bool { return !Of(v).Show.On }},
			{Action: FindMends, Physical: "Period", Do: p.mendOrStop, On: func(v *ui.View) bool { return Of(v).Mending }, Shows: func(v *ui.View) bool { return (Of(v).CanMend || Of(v).Mending) && !Of(v).Show.On }},
		},
		Picks: []ui.Pick{{Prefix: rulePrefix, Do: func(i int) {
			if all, _ := p.view.list(); i < len(all) {
				p.look(i)
				p.open()
			}
		}}, {Prefix: stepPrefix, Do: func(i int) {
			if i < len(p.view.rule().Steps) {
				p.stopPlay()
				p.view.Step = i
			}
		}}, {Prefix: placePrefix, Keys: true, Do: p.choose}},
		More: func(v *ui.View) (keys []ui.Act) {
			if len(Of(v).Places) > 0 {
				keys = []ui.Act{{Physical: "← →", Says: func(*ui.View) words.Text { return words.T("elsewhere.keys") }}}
			}
			return keys
		},
	}
}

// part is the work behind the sheet: it runs the search beside the window and shows what it finds.
type part struct {
	screen.Base
	s *screen.Screen

	seen   int // the revision of craft and radio that now is of
	now    subject
	of     subject  // of what is shown
	search *search  // nil where what is shown is remembered
	mends  *mending // nil where nobody asked for mends of what is shown
	view   View
	came   words.Text  // what the finished search came to, or why a way of it cannot be shown
	found  []mend.Mend // what is known to mend what is shown
	// called is what the layout sheet calls out, notes what there is to say of each rule that is remembered, of which day.
	called, notes []words.Text
	day           words.Text
	watching
}

// subject is what can be searched: a craft and a radio. digest is of everything that the search depends on.
type subject struct {
	key    screen.SearchKey
	digest string
	layout prove.Layout
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s}
	s.Proof = p
	return p
}

// Now is craft and radio as they are.
func (p *part) Now() (key screen.SearchKey, layout prove.Layout, ok bool) {
	craft, now := p.s.Options.Craft, p.s.Revision()
	if craft != nil && p.seen != now {
		l := p.s.LayoutOf(craft)
		key := screen.SearchKey{Craft: string(craft.Text), Gestures: string(p.s.Options.Gestures.Text), Radio: fmt.Sprint(l.Radio)}
		p.seen, p.now = now, subject{key, digest(&key, &l, p.s.Options.Record.Program), l}
	}
	return p.now.key, p.now.layout, craft != nil
}

// Open begins the search where this layout has not been searched yet, or is known to have something of which the way is to be shown. Closing the sheet leaves
// it going on: it is there when the person comes back.
func (p *part) Open() {
	key, _, ok := p.Now()
	switch known := p.known(); {
	case !ok || key == p.of.key:
	case known != nil && !known.Report.Partial && known.Report.Count(prove.Broken)+known.Report.Count(prove.WithIt) == 0:
		p.endSearch()
		p.search = nil
		p.anew()
	default:
		p.begin()
	}
}

// Begin begins the search where what it comes to is not known yet.
func (p *part) Begin() {
	key, _, ok := p.Now()
	if known := p.known(); ok && (p.search == nil || key != p.of.key) && (known == nil || known.Report.Partial) {
		p.begin()
	}
}

// begin begins a search of what is there now, and ends the one before.
func (p *part) begin() {
	p.endSearch()
	if _, layout, ok := p.Now(); ok {
		p.anew()
		p.search = begin(layout)
		p.search.began = p.s.Options.Loop.Clock().Now()
	}
}

// anew shows the rules of the layout as it is now, with what is remembered of them.
func (p *part) anew() {
	p.of, p.found, p.watching = p.now, nil, watching{led: p.led}
	p.endMends()
	layout := &p.of.layout
	p.view = View{Of: tell.Searched(p.s.Options.Craft.Name, &layout.Radio, p.s.Known.By), Moved: tell.Moved(layout), Rules: p.view.Rules[:0]}
	p.called = tell.Callouts(facts.Look(&layout.Config, p.s.Options.Craft.More(), &layout.Radio), &layout.Config)
	p.notes = nil
	known := p.known()
	if known == nil {
		for _, r := range tell.Rules() {
			p.view.Rules = append(p.view.Rules, Rule{Outcome: prove.Undecided, Short: tell.RuleShort(r), Whole: tell.RuleFor(layout, r)})
		}
		return
	}
	on := words.Text{}
	if day := dayOf(known); !day.IsZero() {
		on = tell.Day(day)
	}
	p.view.Over, p.came = true, words.Row(words.T("prove.recalled", words.Args{"day": on}), tell.Verdict(&known.Report))
	p.view.Recalled = words.T("prove.recalled-below", words.Args{"day": on})
	p.day = on
	for _, i := range tell.NewsFirst(known.Report.Results) {
		one := &known.Report.Results[i]
		p.view.Rules = append(p.view.Rules, Rule{Outcome: one.Outcome, Short: tell.FoundShort(one), Whole: tell.FoundRule(layout, one)})
		p.notes = append(p.notes, tell.RuleNote(layout, one.Rule))
	}
}

// nameKeys says what names keys, as whatever hand was used last presses them.
func (p *part) nameKeys(v *ui.View) {
	if len(p.called) > 0 {
		p.view.CalledOut = tell.CalledOut(p.called, v.Named(ui.OnLayout.Open(), ui.OnProve))
	}
	key := v.Named(SearchNow, ui.OnProve)
	if v.Touch && p.view.Searching { // its button stops that
		key = words.Text{}
	}
	for i, note := range p.notes {
		p.view.Rules[i].Found = words.Row(words.T("prove.recalled-rule", words.Args{"day": p.day, "key": key}), note)
	}
}

// Fill shows how far the search is, or what it came to.
func (p *part) Fill(v *ui.View) {
	defer func() {
		p.fillWay()
		p.nameKeys(v)
		*Of(v) = p.view
	}()
	p.settle()
	r := p.search
	key, _, _ := p.Now()
	if p.view.Of.Empty() {
		p.view.Of = words.T("prove.no-craft")
		return
	}
	p.view.Stale = key != p.of.key
	p.view.Searching = r != nil && !r.over()
	switch {
	case p.view.Searching:
		now := r.progress.Load()
		p.view.Status, p.view.Done = words.Row(tell.Progress(*now), p.timeLeft(r, now), p.view.Recalled), share(now)
		return
	case r != nil && r.err != nil:
		p.view.Status = words.T("prove.not-searched", words.Args{"why": words.Error(r.err)})
		return
	case r != nil:
		p.finish(r)
	}
	p.view.CanMend = p.view.Over && !p.view.Stale && slices.ContainsFunc(p.view.Rules, func(r Rule) bool { return r.Outcome == prove.Broken || r.Outcome == prove.Undecided })
	if p.view.Stale {
		p.back()
		p.endMends()
		p.view.Mending, p.view.Status = false, words.T("prove.stale", words.Args{"key": v.Named(SearchNow, ui.OnProve)})
		return
	}
	if p.view.Status = p.came; p.fillMends() {
		return
	}
}

// finish puts the results into words, once.
func (p *part) finish(done *search) {
	if done.shown {
		return
	}
	r := &done.report
	done.shown, p.view.Over, p.came = true, true, tell.Verdict(r)
	p.view.Rules, p.notes = p.view.Rules[:0], nil
	for _, i := range tell.NewsFirst(r.Results) {
		one := &r.Results[i]
		p.view.Rules = append(p.view.Rules, RuleOf(&p.of.layout, one))
	}
	p.view.Selected, p.view.InWay, p.watching = 0, false, watching{led: p.led}
}

// RuleOf is a rule with what a search of a layout found of it.
func RuleOf(l *prove.Layout, one *prove.Result) Rule {
	rule := Rule{of: one, Outcome: one.Outcome, Short: tell.FoundShort(one), Whole: tell.FoundRule(l, one), Found: words.Row(tell.Finding(l, one), tell.RuleNote(l, one.Rule))}
	if one.Way != nil && len(one.Way.Steps) > 0 {
		rule.Way, rule.Steps = tell.WayTitle(one), tell.ProvedSteps(l, one.Way)
		rule.Radio, rule.Layout = &l.Radio, &l.Config.Layout
		rule.Moves, rule.Frames = MovesOf(rule.Radio, one.Way), FramesOf(one.Way)
	}
	return rule
}

// beginOrStop begins the search, or stops the one that is under way.
func (p *part) beginOrStop() {
	if p.view.Searching {
		p.search.stop()
	} else {
		p.begin()
	}
}

// look looks at another rule, round the list.
func (p *part) look(i int) {
	all, at := p.view.list()
	if n := len(all); n > 0 {
		*at = (i + n) % n
	}
}

// move looks at another rule, or in a way at another step; it stops at the ends of a way.
func (p *part) move(by int) {
	switch play := p.play; {
	case play != nil && play.phase != over && by < 0:
		play.back()
		p.follow()
	case play != nil && play.phase != over:
		play.end()
		p.follow()
	case p.view.InWay:
		p.stopPlay()
		p.view.Step = ui.ClampInt(p.view.Step+by, 0, len(p.view.rule().Steps)-1)
	default:
		_, at := p.view.list()
		p.look(*at + by)
	}
}

// open shows the way of the rule that is looked at, where it has one, from its beginning.
func (p *part) open() {
	p.view.InWay, p.view.Step = len(p.view.rule().Steps) > 0 && !p.view.Stale && !p.view.InMends, 0
	p.lookAround()
}

// stepOut stops what is played, or else shows the rules again.
func (p *part) stepOut() {
	if p.play != nil {
		p.stopPlay()
		return
	}
	p.back()
}

// back shows the rules again.
func (p *part) back() {
	p.watching = watching{led: p.led}
	if p.view.InWay = false; p.view.InMends {
		p.view.InMends, p.mends = false, nil
		if p.search == nil {
			p.anew()
			return
		}
		p.came = tell.Verdict(&p.search.report)
	}
}

// enter goes into the way of the rule that is looked at, and from there plays it.
func (p *part) enter() {
	switch {
	case p.view.InMends:
		p.takeMend()
	case p.play != nil:
		p.move(1)
	case p.view.InWay:
		p.show()
	default:
		p.open()
	}
}

// Close goes back to the rules: a way is played on the bench, and done with.
func (p *part) Close() { p.back() }

// Act goes back to the rules before the sheet is left.
func (p *part) Act(a ui.Action) bool {
	if a != ui.Leave || !p.view.InWay && !p.view.InMends {
		return false
	}
	p.stepOut()
	return true
}

// Key lets the arrows move what is looked at: nothing is flown here.
func (p *part) Key(name string, down bool) bool {
	by, moves := map[string]int{"Up": -1, "Down": 1}[name]
	other, chooses := map[string]int{"Left": -1, "Right": 1}[name]
	switch {
	case moves && down:
		p.move(by)
	case chooses && down:
		p.chooseBy(other)
	}
	return moves || chooses
}

// show plays the way to the rule that is looked at on the bench.
func (p *part) show() {
	one := p.view.rule().of
	if one == nil || p.view.Stale || one.Way == nil || len(one.Way.Readings) == 0 {
		return
	}
	names := p.s.Options.Names
	text, err := provescript.Script(p.s.View().Language(), &p.of.layout, one, "", "", names)
	var played *script.Script
	if err == nil {
		played, err = script.Parse(one.Rule.Code(), text, names)
	}
	if err != nil {
		p.came = words.Error(err)
		p.back()
		return
	}
	p.s.TurnTo(ui.OnBench.Open())
	p.s.Options.Driver.Show(played.Source())
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// endSearch and endMends end what is under way, if anything is; mends are shown no more then.
func (p *part) endSearch() {
	if p.search != nil {
		p.search.end()
	}
}

func (p *part) endMends() {
	if p.mends != nil {
		p.mends.end()
		p.mends = nil
	}
}
