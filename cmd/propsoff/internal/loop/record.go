package loop

import (
	"errors"
	"sync/atomic"
	"time"

	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// Recorder is what a take's writer does (take.Writer). It is called by one goroutine.
type Recorder interface {
	Reading(tick int64, r pulse.Reading) error
	Happening(tick int64, code uint8, a, b int32) error
	Digest(tick int64, digest uint64) error
	Flush() error
	Close() error
}

const (
	// recordRoom is how many entries may wait for a slow disk: at 1000 readings a second over a quarter of a minute (ours).
	recordRoom = 1 << 14
	// flushEvery is how much of a practice a kill may lose (ours).
	flushEvery = 100 * time.Millisecond
)

var errTooSlow = errors.New("the disk does not keep up")

type entryKind uint8

const (
	readingEntry entryKind = iota + 1
	happeningEntry
	digestEntry
)

type entry struct {
	kind      entryKind
	tick      int64
	reading   pulse.Reading
	happening happening.Happening
	digest    uint64
}

// recording hands entries to a take apart from the loop: a slow disk delays no tick. After the first error nothing more is
// written; the practice goes on.
type recording struct {
	to      Recorder
	entries chan entry
	done    chan struct{}
	failed  atomic.Pointer[error]
	result  error
}

func newRecording(to Recorder) *recording {
	r := &recording{to: to, entries: make(chan entry, recordRoom), done: make(chan struct{})}
	go r.run()
	return r
}

// add never blocks.
func (r *recording) add(e entry) {
	if r.failed.Load() != nil {
		return
	}
	select {
	case r.entries <- e:
	default:
		r.fail(errTooSlow)
	}
}

func (r *recording) fail(err error) { r.failed.CompareAndSwap(nil, &err) }

// err is why the recording has stopped, nil while it goes on.
func (r *recording) err() error {
	if e := r.failed.Load(); e != nil {
		return *e
	}
	return nil
}

func (r *recording) run() {
	defer close(r.done)
	tick := time.NewTicker(flushEvery)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			if err := r.to.Flush(); err != nil {
				r.fail(err)
			}
		case e, ok := <-r.entries:
			if !ok {
				r.result = r.to.Close()
				return
			}
			if err := r.write(&e); err != nil {
				r.fail(err)
			}
		}
	}
}

func (r *recording) write(e *entry) error {
	switch e.kind {
	case readingEntry:
		return r.to.Reading(e.tick, e.reading)
	case happeningEntry:
		return r.to.Happening(e.tick, uint8(e.happening.Code), e.happening.A, e.happening.B)
	}
	return r.to.Digest(e.tick, e.digest)
}

// close writes what waits and closes the take.
func (r *recording) close() error {
	close(r.entries)
	<-r.done
	if err := r.err(); err != nil {
		return err
	}
	return r.result
}
