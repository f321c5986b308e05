package terminal

import (
	"context"
	"io"
	"sync"
	"time"
)

const (
	// linesMost is how many bytes may wait for a reader of the output that does not keep up (ours).
	linesMost = 64 << 20
	// linesEvery is how long lines are collected after some were written, so that a thousand a second make no thousand writes (ours).
	linesEvery = 10 * time.Millisecond
)

// Lines keeps output until whoever reads it takes it: those who have something to say never wait. Add may be called from any goroutine, Run and
// Flush from one at a time.
type Lines struct {
	w       io.Writer
	leftOut func(dst []byte, lines int) []byte
	wake    chan struct{}

	mu      sync.Mutex
	buf     []byte
	writing bool
	lost    int    // lines for which there was no room
	back    []byte // the other buffer; Flush only
	err     error
}

// NewLines writes to w. leftOut appends the line that says that lines are missing at its place.
func NewLines(w io.Writer, leftOut func(dst []byte, lines int) []byte) *Lines {
	return &Lines{w: w, leftOut: leftOut, wake: make(chan struct{}, 1)}
}

// Add lets f append a line to what waits. It never waits for the writer.
func (l *Lines) Add(f func(dst []byte) []byte) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.buf) > linesMost {
		l.lost++
		return
	}
	l.buf = f(l.buf)
	select {
	case l.wake <- struct{}{}:
	default:
	}
}

// Run writes what is added until ctx is done: a line at once, many together. What waits then is left to Flush.
func (l *Lines) Run(ctx context.Context) error {
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-l.wake:
		}
		if err := l.Flush(); err != nil {
			return err
		}
		select {
		case <-ctx.Done():
			return nil
		case <-time.After(linesEvery):
		}
	}
}

// Waits reports whether lines are still to be written.
func (l *Lines) Waits() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.writing || len(l.buf) > 0
}

// Flush writes everything that waits, if anything does. The first error stays.
func (l *Lines) Flush() error {
	if l.err != nil {
		return l.err
	}
	l.mu.Lock()
	out, lost := l.buf, l.lost
	l.buf, l.lost, l.writing = l.back[:0], 0, true
	l.mu.Unlock()
	defer func() {
		l.mu.Lock()
		l.writing = false
		l.mu.Unlock()
	}()
	if lost > 0 {
		out = l.leftOut(out, lost)
	}
	if len(out) > 0 {
		_, l.err = l.w.Write(out)
	}
	l.back = out
	return l.err
}
