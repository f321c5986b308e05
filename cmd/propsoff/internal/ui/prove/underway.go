package prove

import (
	"context"
	"sync/atomic"

	"propsoff.example/cmd/propsoff/internal/breath"
)

// underWay is what goes on in a goroutine of its own, or is done: P says how far it is, R what it came to.
type underWay[P, R any] struct {
	stop     context.CancelFunc
	progress atomic.Pointer[P]
	done     chan struct{} // closed once report and err are there
	report   R
	err      error
	shown    bool // what it came to is in words
}

// begin starts it. run is given what tells how far it is, and whether it is to stop.
func (r *underWay[P, R]) begin(run func(progress func(P) (stop bool)) (R, error)) {
	ctx, stop := context.WithCancel(context.Background())
	r.stop, r.done = stop, make(chan struct{})
	r.progress.Store(new(P))
	go func() {
		defer close(r.done)
		var b breath.Breath
		r.report, r.err = run(func(p P) bool {
			b.Take()
			r.progress.Store(&p)
			return ctx.Err() != nil
		})
	}()
}

// over tells whether there is a report, or why there is none.
func (r *underWay[P, R]) over() bool {
	select {
	case <-r.done:
		return true
	default:
		return false
	}
}

// end stops it and waits until its goroutine is gone, which is a matter of milliseconds.
func (r *underWay[P, R]) end() {
	r.stop()
	<-r.done
}
