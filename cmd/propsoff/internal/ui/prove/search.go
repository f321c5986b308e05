package prove

import (
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/prove"
)

// search is one that is under way or done.
type search struct {
	underWay[prove.Progress, prove.Report]
	began   int64     // by the clock of the practice, in µs
	settled bool      // it is over, and what it came to is remembered
	on      time.Time // the day of that
}

// begin starts a search.
func begin(l prove.Layout) *search {
	r := &search{}
	r.begin(func(progress func(prove.Progress) bool) (prove.Report, error) { return facts.Prove(l, progress) })
	return r
}

// share is how much was searched of all that is expected, or else of all that is known of so far.
func share(p *prove.Progress) float64 {
	if p.Expected > 0 {
		return float64(p.Situations) / float64(p.Expected)
	}
	return float64(p.Situations) / max(float64(p.Situations)+float64(p.Open), 1)
}

// timeLeft says how long a search will go on, once that can be told.
func (p *part) timeLeft(r *search, now *prove.Progress) words.Text {
	return tell.TimeLeft(*now, p.s.Options.Loop.Clock().Now()-r.began)
}
