package usb

import (
	"sync"

	"propsoff.example/input"
)

// queueMost is how many states may wait: at 1000 reports a second a consumer that stands still for over a quarter of an
// hour. Beyond it the newest state replaces the last one and is marked as Resync (ours).
const queueMost = 1 << 20

// queueKept is the room that is kept when the queue is empty again after a flood.
const queueKept = 1 << 12

// queue holds states until they are polled. One goroutine pushes, another polls.
type queue struct {
	mu     sync.Mutex
	states []input.Raw
	most   int
	err    error
	wake   chan struct{}
}

func newQueue() *queue { return &queue{most: queueMost, wake: make(chan struct{}, 1)} }

// push appends a state. It allocates only while the queue grows longer than it ever was since it was last emptied of a
// flood.
func (q *queue) push(s *input.Raw) {
	q.mu.Lock()
	if len(q.states) >= q.most {
		last := &q.states[len(q.states)-1]
		*last = *s
		last.Resync = true
	} else {
		q.states = append(q.states, *s)
	}
	q.mu.Unlock()
	q.ring()
}

// end sets the error that follows the last state. The first one stays.
func (q *queue) end(err error) {
	q.mu.Lock()
	if q.err == nil {
		q.err = err
	}
	q.mu.Unlock()
	q.ring()
}

func (q *queue) ring() {
	select {
	case q.wake <- struct{}{}:
	default:
	}
}

// poll appends what waits; with the last of it comes the error that ended the device, and again with every later call.
func (q *queue) poll(dst []input.Raw) ([]input.Raw, error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	dst = append(dst, q.states...)
	if cap(q.states) > queueKept {
		q.states = nil
	} else {
		q.states = q.states[:0]
	}
	return dst, q.err
}
