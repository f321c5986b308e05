package terminal

import (
	"errors"
	"io"
	"sync"
)

// linesMost is how many bytes may wait for a reader of the output that does not keep up (ours).
const linesMost = 64 << 20

// ErrBehind is given when whoever reads the output is too far behind.
var ErrBehind = errors.New("whoever reads the output does not keep up with it")

// Lines collects output and writes it in large pieces, so that a thousand lines a second are no strain and a slow reader
// holds nobody up. Add may be called from any goroutine; Flush from one.
type Lines struct {
	w io.Writer

	mu   sync.Mutex
	buf  []byte
	over bool
	back []byte // the other buffer; Flush only
	err  error
}

// NewLines writes to w.
func NewLines(w io.Writer) *Lines { return &Lines{w: w} }

// Add lets f append to what waits. It never waits for the writer.
func (l *Lines) Add(f func(dst []byte) []byte) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.buf) > linesMost {
		l.over = true
		return
	}
	l.buf = f(l.buf)
}

// Flush writes everything that waits, if anything does. The first error stays.
func (l *Lines) Flush() error {
	if l.err != nil {
		return l.err
	}
	l.mu.Lock()
	out, over := l.buf, l.over
	l.buf = l.back[:0]
	l.mu.Unlock()
	if len(out) > 0 {
		_, l.err = l.w.Write(out)
	}
	l.back = out
	if over && l.err == nil {
		l.err = ErrBehind
	}
	return l.err
}
