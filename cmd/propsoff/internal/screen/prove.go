package screen

import (
	"context"
	"fmt"
	"sync"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/cmd/propsoff/internal/ways"
	"propsoff/input/script"
	"propsoff/sim/prove"
)

// provePart is the work behind the sheet of prove: it runs the search beside the window and shows what it finds.
type provePart struct {
	s *Screen

	of     searchKey // of the search
	layout prove.Layout
	search *search
	view   sheet.ProveView
	order  []int // the result that each rule of the view is of
	shown  bool  // the view's rules are those of the finished search
}

// searchKey tells one layout from another: by the texts of craft and gestures, and by what the radio can send.
type searchKey struct{ craft, gestures, radio string }

// search is one that is under way or done. Its goroutine is the only one to write under mu.
type search struct {
	stop context.CancelFunc
	done chan struct{}

	mu       sync.Mutex
	progress prove.Progress
	report   prove.Report
	err      error
	over     bool
}

// begin starts a search in a goroutine of its own.
func begin(l prove.Layout) *search {
	ctx, stop := context.WithCancel(context.Background())
	r := &search{stop: stop, done: make(chan struct{})}
	go func() {
		defer close(r.done)
		report, err := facts.Prove(l, func(p prove.Progress) bool {
			r.mu.Lock()
			r.progress = p
			r.mu.Unlock()
			return ctx.Err() != nil
		})
		r.mu.Lock()
		r.report, r.err, r.over = report, err, true
		r.mu.Unlock()
	}()
	return r
}

// end stops the search and waits until its goroutine is gone, which is a matter of milliseconds.
func (r *search) end() {
	if r != nil {
		r.stop()
		<-r.done
	}
}

// now is craft and radio as they are, and what they are called.
func (p *provePart) now() (key searchKey, layout prove.Layout, of string, ok bool) {
	craft := p.s.o.Craft
	if craft == nil {
		return key, layout, "", false
	}
	layout = p.s.layoutOf(craft)
	key = searchKey{string(craft.Text), string(p.s.o.Gestures.Text), fmt.Sprint(layout.Radio)}
	return key, layout, phrase.Searched(craft.Name, &layout.Radio, p.s.known.by), true
}

// open begins the search where this layout has not been searched yet.
func (p *provePart) open() {
	if key, _, _, ok := p.now(); ok && (p.search == nil || key != p.of) {
		p.begin()
	}
}

// close leaves a search going on: it is there when the person comes back.
func (p *provePart) close() {}

func (p *provePart) turn() {}

func (p *provePart) begin() {
	p.search.end()
	key, layout, of, ok := p.now()
	if !ok {
		return
	}
	p.of, p.layout, p.order, p.shown = key, layout, p.order[:0], false
	p.view = sheet.ProveView{Of: of, Moved: phrase.Moved(&layout), Selected: p.view.Selected, Rules: p.view.Rules[:0]}
	for _, r := range phrase.Rules() {
		p.view.Rules = append(p.view.Rules, sheet.ProvedRule{Outcome: prove.Undecided, Short: phrase.RuleShort(r), Rule: phrase.RuleFor(&layout, r)})
	}
	looks := facts.Look(&layout.Config, p.s.o.Craft.More(), &layout.Radio)
	if all := phrase.Callouts(looks, &layout.Config); len(all) > 0 {
		p.view.CalledOut = phrase.CalledOut(all)
	}
	p.search = begin(layout)
}

// proved is what was found of a layout, or why nothing was.
func (p *provePart) proved(key searchKey) (found *prove.Report, notProved string) {
	opens := sheet.KeyOf(sheet.OpenProve)
	r := p.search
	if r == nil || p.of != key {
		return nil, phrase.CardNotProved(opens)
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	switch {
	case !r.over:
		return nil, phrase.CardBeingProved(opens)
	case r.err != nil:
		return nil, phrase.CardCannotBeProved(r.err.Error())
	}
	return &r.report, ""
}

// fill shows how far the search is, or what it came to.
func (p *provePart) fill(v *sheet.View) {
	defer func() { v.Prove = p.view }()
	r := p.search
	if r == nil {
		p.view.Of = phrase.NoCraftToProve()
		return
	}
	key, _, _, _ := p.now()
	p.view.Stale = key != p.of
	r.mu.Lock()
	defer r.mu.Unlock()
	p.view.Searching = !r.over
	switch {
	case !r.over:
		p.view.Status = phrase.Progress(r.progress)
		p.view.Done = 0
		if n, open := float64(r.progress.Situations), float64(r.progress.Open); n > 0 {
			p.view.Done = n / (n + open)
		}
	case r.err != nil:
		p.view.Status = phrase.NotSearched(r.err.Error())
	default:
		p.finish(&r.report)
		p.view.Status = phrase.Verdict(&r.report)
		if p.view.Stale {
			p.view.Status = phrase.StaleProof()
		}
	}
}

// finish puts the results into words, once.
func (p *provePart) finish(r *prove.Report) {
	if p.shown {
		return
	}
	p.shown, p.view.Begun = true, true
	p.view.Rules = p.view.Rules[:0]
	p.order = phrase.NewsFirst(r.Results)
	for _, i := range p.order {
		one := &r.Results[i]
		rule := sheet.ProvedRule{Outcome: one.Outcome, Short: phrase.FoundShort(one), Rule: phrase.FoundRule(&p.layout, one), Says: phrase.Finding(&p.layout, one)}
		if note := phrase.RuleNote(&p.layout, one.Rule); note != "" {
			rule.Says += " " + note
		}
		if one.Way != nil && len(one.Way.Steps) > 0 {
			rule.Way = phrase.WayTitle(one)
			for _, s := range phrase.ProvedSteps(&p.layout, one.Way) {
				rule.Steps = append(rule.Steps, sheet.ProvedStep(s))
			}
		}
		p.view.Rules = append(p.view.Rules, rule)
	}
	p.view.Selected, p.view.From = 0, 0
}

func (p *provePart) act(a sheet.Action) bool {
	v := &p.view
	switch a {
	case sheet.RuleAbove:
		p.look(v.Selected - 1)
	case sheet.RuleBelow:
		p.look(v.Selected + 1)
	case sheet.MoreSteps:
		if v.Selected < len(v.Rules) {
			v.From += moreSteps
			if v.From >= len(v.Rules[v.Selected].Steps) {
				v.From = 0
			}
		}
	case sheet.SearchNow:
		if v.Searching {
			p.search.stop()
		} else {
			p.begin()
		}
	case sheet.ShowWay:
		p.show()
	default:
		return false
	}
	return true
}

// moreSteps is how far one press of the key for further steps goes (ours).
const moreSteps = 4

func (p *provePart) look(i int) {
	if n := len(p.view.Rules); n > 0 {
		p.view.Selected, p.view.From = (i+n)%n, 0
	}
}

func (p *provePart) key(name string, down bool) bool { return false }

func (p *provePart) hit(name string) bool {
	i, ok := sheet.RuleOf(name)
	if ok && i < len(p.view.Rules) {
		p.look(i)
	}
	return ok
}

// show plays the way to the rule that is looked at on the bench.
func (p *provePart) show() {
	r := p.search
	if r == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if !r.over || p.view.Selected >= len(p.order) || p.view.Stale {
		return
	}
	one := &r.report.Results[p.order[p.view.Selected]]
	if one.Way == nil || len(one.Way.Readings) == 0 {
		return
	}
	text, err := ways.Script(&p.layout, one, "", "", p.s.o.Names)
	if err != nil {
		p.view.Status = err.Error()
		return
	}
	played, err := script.Parse(one.Rule.Code(), text, p.s.o.Names)
	if err != nil {
		p.view.Status = err.Error()
		return
	}
	p.s.turnTo(sheet.NoAction)
	p.s.o.Driver.Show(played.Source())
}
