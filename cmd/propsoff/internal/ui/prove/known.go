package prove

import (
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/prove"
)

// known is what is remembered of the layout as it is now; nil where nothing is.
func (p *part) known() *remembered.Proof {
	p.Now()
	return p.s.Options.Proofs.Of(p.now.digest)
}

// dayOf is when a search was over; the zero time where that is not known.
func dayOf(known *remembered.Proof) time.Time {
	if known.Day == 0 {
		return time.Time{}
	}
	return logbook.Date(int32(known.Day))
}

// Turn remembers what a search came to, and goes on with what is played.
func (p *part) Turn() {
	p.settle()
	p.goOn()
}

// settle remembers what a search came to once it is over. One that was stopped is worth it only where it found something, and never takes the place of
// a whole one.
func (p *part) settle() {
	r := p.search
	if r == nil || r.settled || !r.over() {
		return
	}
	r.settled = true
	known := remembered.Proof{Of: p.of.digest, Report: r.report}
	if now := p.s.Now(); !now.IsZero() {
		known.Day = int(logbook.Day(now))
		r.on = dayOf(&known)
	}
	before := p.s.Options.Proofs.Of(known.Of)
	if r.err == nil && (!r.report.Partial || r.report.Count(prove.Broken) > 0 && (before == nil || before.Report.Partial)) {
		p.s.Options.Proofs.Note(known)
	}
}

// Proved is what was found of a layout and when, or why nothing was.
func (p *part) Proved(key screen.SearchKey) (found *prove.Report, on time.Time, notProved words.Text) {
	p.settle()
	r := p.search
	mine := r != nil && p.of.key == key
	if mine && r.over() && r.err == nil && !r.report.Partial {
		return &r.report, r.on, words.Text{}
	}
	if now, _, _ := p.Now(); now == key {
		if known := p.known(); known != nil {
			return &known.Report, dayOf(known), words.Text{}
		}
	}
	switch {
	case !mine:
		return nil, on, tell.CardNotProved(false)
	case !r.over():
		return nil, on, tell.CardNotProved(true)
	case r.err != nil:
		return nil, on, words.Row(words.T("card.no-proof"), words.T("prove.not-searched", words.Args{"why": words.Error(r.err)}))
	}
	return &r.report, r.on, words.Text{}
}

// Progress says whether the layout as it is now is being searched, and how much of it was; once that is over, what it came to.
func (p *part) Progress() (searching bool, done float64, cameTo words.Text) {
	r := p.search
	if key, _, _ := p.Now(); r == nil || key != p.of.key {
		return false, 0, words.Text{}
	}
	switch now := r.progress.Load(); {
	case !r.over():
		return true, share(now), words.Text{}
	case r.err != nil:
		return false, 0, words.T("prove.not-searched", words.Args{"why": words.Error(r.err)})
	}
	return false, 1, tell.CardVerdict(&r.report)
}

// Like is what the layout as it is now was found to behave like, nil for nothing known.
func (p *part) Like() *tell.Like {
	if _, _, ok := p.Now(); !ok {
		return nil
	}
	l := p.s.Options.Proofs.LikeOf(p.now.digest)
	if l == nil {
		return nil
	}
	return &tell.Like{Craft: l.Craft, Radio: l.Radio, CraftWas: l.CraftWas, RadioWas: l.RadioWas, On: dayOf(&remembered.Proof{Day: l.Day})}
}
