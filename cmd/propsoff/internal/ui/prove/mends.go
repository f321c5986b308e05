package prove

import (
	"bytes"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
)

// mending is a search for mends that is under way or done.
type mending struct {
	underWay[mend.Progress, mend.Report]
}

// beginMending starts one.
func beginMending(l prove.Layout, jobs []craftfile.Job) *mending {
	r := &mending{}
	r.begin(func(progress func(mend.Progress) bool) (mend.Report, error) {
		return facts.Mend(l, jobs, mend.Options{Progress: progress})
	})
	return r
}

// mendOrStop begins to look for mends, or stops it.
func (p *part) mendOrStop() {
	if p.view.Mending {
		p.mends.stop()
		return
	}
	_, layout, ok := p.Now()
	if !ok || p.view.Stale {
		return
	}
	p.back()
	p.mends = beginMending(layout, p.s.Options.Craft.More())
}

// fillMends shows how far the search for mends is, or what it came to; false where the sheet is about the rules.
func (p *part) fillMends() bool {
	r := p.mends
	p.view.Mending = r != nil && !r.over()
	switch {
	case r == nil:
		return false
	case p.view.Mending:
		now := r.progress.Load()
		p.view.Status, p.view.Done = tell.MendProgress(*now), share(&now.Search)
		if now.Of > 0 {
			p.view.Done = float64(now.Tried) / float64(now.Of)
		}
		return true
	case r.err != nil:
		p.view.Status = words.T("prove.not-searched", words.Args{"why": words.Error(r.err)})
		return true
	}
	if !r.shown {
		r.shown = true
		p.came, p.found = tell.MendVerdict(&r.report), r.report.Mends
		if len(r.report.Exclude) > 0 {
			said := []words.Text{p.came, tell.MendExcluded(&r.report)}
			for _, rule := range r.report.Exclude {
				said = append(said, tell.RuleFor(&p.of.layout, rule))
			}
			p.came = words.Row(said...)
		}
		p.view.Mends = MendsOf(&p.of.layout, p.s.Options.Craft.More(), &r.report)
		p.view.InMends, p.view.MendAt = len(p.view.Mends) > 0, 0
	}
	p.view.Status = p.came
	return true
}

// MendsOf are the mends of a report as lines of the list: what each changes, and what every position of a switch does before and after.
func MendsOf(l *prove.Layout, jobs []craftfile.Job, r *mend.Report) (out []Rule) {
	was := facts.Look(&l.Config, jobs, &l.Radio)
	for n := range r.Mends {
		m := &r.Mends[n]
		rule := Rule{Outcome: prove.Holds, Word: tell.MendCount(m), Short: tell.MendShort(n), Whole: tell.MendTitle(n, m), Found: words.Row(tell.MendProved(m)),
			Way: words.T("mend.changes-title"), Radio: &m.After.Radio, Layout: &m.After.Config.Layout}
		for _, says := range tell.MendChanges(l, m) {
			rule.Steps = append(rule.Steps, tell.ProvedStep{Text: says})
		}
		for _, lever := range tell.MendLevers(l, m, was, facts.Look(&m.After.Config, jobs, &m.After.Radio)) {
			for _, place := range lever.Places {
				rule.Steps = append(rule.Steps, tell.ProvedStep{Text: words.Row(lever.Name, place)})
			}
		}
		for i := range m.Changes {
			if at := m.Changes[i].Control; at >= 0 {
				c := &m.After.Radio.Controls[at]
				rule.Moves = append(rule.Moves, Moved{Job: c.Job, From: c.Share(c.Low), To: c.Share(c.High)})
			}
		}
		out = append(out, rule)
	}
	return out
}

// takeMend takes the mend that is looked at to the sheet of the switch layout, as a change that is not saved yet: there it is seen on the levers,
// undone or saved, and asked about where it would be lost.
func (p *part) takeMend() {
	r := p.mends
	if r == nil || !r.over() || p.view.Stale || p.view.MendAt >= len(r.report.Mends) {
		return
	}
	craft := p.s.Options.Craft
	f, err := mend.Take(craft, &p.of.layout, r.report.Mends[p.view.MendAt].Changes)
	switch {
	case err != nil:
		p.came = tell.LayoutRefused(err)
		return
	case bytes.Equal(f.Text, craft.Text):
		p.came = words.T("mend.taken-none", words.Args{"number": words.Whole(p.view.MendAt + 1)})
		return
	}
	if why := p.s.Edit(f); !why.Empty() {
		p.came = why
		return
	}
	p.s.TurnTo(ui.OnLayout.Open())
}
