package live

import (
	"sync"

	"propsoff.example/sim/pulse"
)

// Desk takes bench inputs (link, power, cable, tilt …) from keys and commands, from any goroutine. Each is stamped when it
// is put in and consumed by the loop as every other reading is, so takes hold it too.
type Desk struct {
	clock Clock
	wake  chan struct{}

	mu    sync.Mutex
	queue []pulse.Reading // At on the loop's clock
}

func newDesk(c Clock) *Desk { return &Desk{clock: c, wake: make(chan struct{}, 1)} }

// Put hands in one bench input. Controls are not for the desk and are ignored.
func (d *Desk) Put(kind pulse.Kind, value int32) {
	if kind == pulse.Controls {
		return
	}
	d.mu.Lock()
	d.queue = append(d.queue, pulse.Reading{At: d.clock.Now(), Kind: kind, Value: value})
	d.mu.Unlock()
	ring(d.wake)
}

// open brings what was put in before the start to the start.
func (d *Desk) open(now int64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for i := range d.queue {
		d.queue[i].At = now
	}
}

func (d *Desk) take(dst []pulse.Reading) []pulse.Reading {
	d.mu.Lock()
	defer d.mu.Unlock()
	dst = append(dst, d.queue...)
	d.queue = d.queue[:0]
	return dst
}
