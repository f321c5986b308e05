package prove

import (
	"context"
	"sync/atomic"
	"time"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/prove"
)

// search is one that is under way or done.
type search struct {
	stop     context.CancelFunc
	progress atomic.Pointer[prove.Progress]
	done     chan struct{} // closed once report and err are there
	report   prove.Report
	err      error
	settled  bool      // it is over, and what it came to is remembered
	on       time.Time // the day of that
	shown    bool      // its results are in words
}

// begin starts a search in a goroutine of its own.
func begin(l prove.Layout) *search {
	ctx, stop := context.WithCancel(context.Background())
	r := &search{stop: stop, done: make(chan struct{})}
	r.progress.Store(&prove.Progress{})
	go func() {
		defer close(r.done)
		r.report, r.err = facts.Prove(l, func(p prove.Progress) bool {
			r.progress.Store(&p)
			return ctx.Err() != nil
		})
	}()
	return r
}

// over tells whether there is a report, or why there is none.
func (r *search) over() bool {
	select {
	case <-r.done:
		return true
	default:
		return false
	}
}

// end stops the search and waits until its goroutine is gone, which is a matter of milliseconds.
func (r *search) end() {
	if r != nil {
		r.stop()
		<-r.done
	}
}

// share is how much was searched of all that is expected, or else of all that is known of so far.
func share(p *prove.Progress) float64 {
	if p.Expected > 0 {
		return float64(p.Situations) / float64(p.Expected)
	}
	return float64(p.Situations) / max(float64(p.Situations)+float64(p.Open), 1)
}
