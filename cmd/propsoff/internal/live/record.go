package live

import (
	"sync/atomic"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Recorder keeps a practice as takes do, in parts, and writes a file of it while that is asked for. It is called by one goroutine.
type Recorder interface {
	// Part begins a part. The error is that its craft cannot be kept.
	Part(s *Start) error
	// Reading notes a reading with the tick that consumed it.
	Reading(tick int64, r pulse.Reading) error
	// Happening notes what happened in a tick (sim/happening.Happening).
	Happening(tick int64, code uint8, a, b int32) error
	// Digest notes the running digest after a tick.
	Digest(tick int64, digest uint64) error
	// Flush hands on what was noted, so that a kill does not lose it.
	Flush() error
	// Close ends the file that is written, if there is one, and the practice.
	Close() error
	// Record begins a file, which must not exist yet; it holds the part under way from its beginning.
	Record(path string) error
	// Stop ends the file that is written.
	Stop() error
	// Recording is the path of the file that is written, empty for none; err is why the last one has ended by itself.
	Recording() (path string, err error)
}

const (
	// recordRoom is how many entries may wait for a slow disk: at 1000 readings a second over a quarter of a minute (ours).
	recordRoom = 1 << 14
	// flushEvery is how much of a practice a kill may lose (ours).
	flushEvery = 100 * time.Millisecond
)

var errTooSlow error = words.Wrong("notice.disk-slow")

type entryKind uint8

const (
	readingEntry entryKind = iota + 1
	happeningEntry
	digestEntry
	partEntry
	recordEntry
)

type entry struct {
	kind      entryKind
	tick      int64
	reading   pulse.Reading
	happening happening.Happening
	digest    uint64
	part      *Start
	lost      bool // entries before this part were lost
	record    *recordAs
}

// recordAs asks for a file to be begun, or ended where it has no path.
type recordAs struct{ path string }

// Recorded is how the recording stands.
type Recorded struct {
	// To is the file that is written, empty for none; Kept the one that was ended last when that was asked for.
	To, Kept string
	// Err is why the last file was ended by itself, or, where NotBegun says so, could not be begun; nil where all is well.
	Err      error
	NotBegun bool
}

// recording hands entries to a take apart from the loop: a slow disk delays no tick. After the first error nothing more is
// written; the practice goes on.
type recording struct {
	to      Recorder
	entries chan entry
	done    chan struct{}
	failed  atomic.Pointer[error] // why nothing is kept until another part begins
	stands  atomic.Pointer[Recorded]
	broken  error // why the last file has ended by itself
}

func newRecording(to Recorder) *recording {
	r := &recording{to: to, entries: make(chan entry, recordRoom), done: make(chan struct{})}
	r.tell(&Recorded{})
	go r.run()
	return r
}

// tell publishes how the recording stands, by what the recorder says of its file.
func (r *recording) tell(now *Recorded) {
	path, err := r.to.Recording()
	now.To = path
	if now.Err == nil {
		now.Err = err
	}
	r.stands.Store(now)
}

// add never blocks.
func (r *recording) add(e entry) {
	if e.kind == partEntry { // it needs nothing of what was lost before
		e.lost = r.failed.Swap(nil) != nil
	}
	if r.failed.Load() != nil && e.kind != recordEntry {
		return
	}
	select {
	case r.entries <- e:
	default:
		r.fail(errTooSlow)
	}
}

func (r *recording) fail(err error) { r.failed.CompareAndSwap(nil, &err) }

// end ends the file that is written, if there is one, for a reason that is not its own.
func (r *recording) end(why error) {
	if path, _ := r.to.Recording(); path != "" {
		_ = r.to.Stop()
		r.broken = why
		r.tell(&Recorded{Err: why})
	}
}

func (r *recording) run() {
	defer close(r.done)
	tick := time.NewTicker(flushEvery)
	defer tick.Stop()
	for {
		var err error
		select {
		case <-tick.C:
			err = r.to.Flush()
			if e := r.failed.Load(); e != nil && len(r.entries) == 0 {
				r.end(*e)
			}
		case e, ok := <-r.entries:
			if !ok {
				if e := r.failed.Load(); e != nil {
					r.end(*e)
				}
				if err := r.to.Close(); r.broken == nil {
					r.broken = err
				}
				return
			}
			err = r.write(&e)
		}
		if err != nil {
			r.fail(err)
		}
		if was := r.stands.Load(); was.To != "" {
			if path, err := r.to.Recording(); path == "" { // the file has ended by itself
				r.broken = err
				r.tell(&Recorded{})
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
	case digestEntry:
		return r.to.Digest(e.tick, e.digest)
	case partEntry:
		if e.lost {
			r.end(errTooSlow)
		}
		err := r.to.Part(e.part)
		if err != nil {
			r.end(err)
		}
		return err
	}
	now := &Recorded{}
	if e.record.path != "" {
		now.Err = r.to.Record(e.record.path)
		now.NotBegun = now.Err != nil
	} else if path, _ := r.to.Recording(); path != "" {
		now.Err = r.to.Stop()
		now.Kept = path
	}
	r.broken = nil
	r.tell(now)
	return nil // the file failed, not what is kept
}

// close writes what waits and closes the take. The error is why its file has ended by itself.
func (r *recording) close() error {
	close(r.entries)
	<-r.done
	return r.broken
}

// StartRecording begins a take at path, which must not exist yet; it holds the part under way from its beginning. StopRecording ends it.
// What came of it Recording tells.
func (l *Loop) StartRecording(path string) { l.askRecording(&recordAs{path}) }

// StopRecording ends the take that is written.
func (l *Loop) StopRecording() { l.askRecording(&recordAs{}) }

func (l *Loop) askRecording(as *recordAs) {
	l.mu.Lock()
	l.record = as
	l.mu.Unlock()
	ring(l.wake)
}

// Recording is how the recording stands.
func (l *Loop) Recording() Recorded {
	if l.rec == nil {
		return Recorded{}
	}
	now := *l.rec.stands.Load()
	if e := l.rec.failed.Load(); e != nil && now.To != "" {
		now = Recorded{Err: *e}
	}
	return now
}

// turnRecording passes on what was asked of the recording.
func (l *Loop) turnRecording(as *recordAs) {
	if l.rec == nil {
		return
	}
	l.endDigest()
	l.rec.add(entry{kind: recordEntry, record: as})
}

// endDigest notes the digest as it stands, where the part has a tick.
func (l *Loop) endDigest() {
	if t := l.p.Tick() - 1; l.rec != nil && !l.again.Apart && t >= l.partFrom {
		l.rec.add(entry{kind: digestEntry, tick: t, digest: l.p.Digest()})
	}
}
