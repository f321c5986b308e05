package usb

import (
	"maps"
	"slices"
	"sync"
	"time"
)

// Times of the watcher (ours).
const (
	// rescan is how often everything is looked at anew, whatever the system says.
	rescan = time.Second
	// retry is how often a radio is looked at that cannot be read in the best way, and graceTime (µs of Now) how long before that
	// counts: the system makes and takes away a radio's two nodes one after the other, and sets the rights afterwards.
	retry     = 50 * time.Millisecond
	graceTime = 1_500_000
	// settleTime is how long a new USB device may take to show a joystick before it counts as offering none, in µs of Now.
	settleTime = 2_000_000
)

// ChangeKind tells what a Change is about.
type ChangeKind uint8

const (
	// Arrived: a radio was plugged in, or was there when the watcher began.
	Arrived ChangeKind = iota + 1
	// Altered: a radio that had arrived can be read in another way now, or no longer.
	Altered
	// Departed: a radio was pulled out.
	Departed
	// OtherArrived: a USB device was plugged in that offers storage or a serial port but no joystick.
	OtherArrived
	// OtherDeparted: such a device, told of before, was pulled out.
	OtherDeparted
)

// Change is one thing that came, went or became readable.
type Change struct {
	Kind   ChangeKind
	Radio  Found  // Arrived, Altered, Departed
	Notice Notice // OtherArrived, OtherDeparted
}

// Watcher tells of radios that come and go. Those that are there at the beginning are told of as arrived; other USB devices
// that are there at the beginning are not told of.
type Watcher struct {
	places Places
	mu     sync.Mutex
	roster roster
	list   []Found
	wait   []Change
	err    error
	wake   chan struct{}
	quit   chan struct{}
	done   chan struct{}
	once   sync.Once
}

// Watch begins to watch. The error is that of the first look round; later ones are told by Err and end nothing.
func Watch(p Places) (*Watcher, error) {
	return watch(p, func() time.Duration { return rescan })
}

// watch is Watch with a wait of its own: every is asked how long the bell is waited for before everything is looked at
// anew.
func watch(p Places, every func() time.Duration) (*Watcher, error) {
	w := &Watcher{places: p, wake: make(chan struct{}, 1), quit: make(chan struct{}), done: make(chan struct{})}
	b := newBell(p) // before the first look, so that nothing falls between
	soon := w.look()
	if w.err != nil {
		b.close()
		return nil, w.err
	}
	go w.run(b, soon, every)
	return w, nil
}

// Poll appends every change since the last call, in order, and never blocks.
func (w *Watcher) Poll(dst []Change) []Change {
	w.mu.Lock()
	defer w.mu.Unlock()
	dst = append(dst, w.wait...)
	w.wait = w.wait[:0]
	return dst
}

// Wake carries a value when Poll may have something new.
func (w *Watcher) Wake() <-chan struct{} { return w.wake }

// Found gives the radios that have arrived and not departed, in the order of List.
func (w *Watcher) Found() []Found {
	w.mu.Lock()
	defer w.mu.Unlock()
	return append([]Found(nil), w.list...)
}

// Err is why the last look round failed, nil if it did not.
func (w *Watcher) Err() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.err
}

// Close ends the watching and waits for its goroutine. Closing twice is allowed.
func (w *Watcher) Close() error {
	w.once.Do(func() { close(w.quit) })
	<-w.done
	return nil
}

func (w *Watcher) run(b *bell, soon bool, every func() time.Duration) {
	defer close(w.done)
	defer b.close()
	for {
		wait := every()
		if soon {
			wait = retry
		}
		timer := time.NewTimer(wait)
		select {
		case <-w.quit:
			timer.Stop()
			return
		case <-b.rings():
			timer.Stop()
		case <-timer.C:
		}
		b.hang(w.places)
		soon = w.look()
	}
}

// look looks round once and tells whether it should be done again soon.
func (w *Watcher) look() (soon bool) {
	found, err := scan(w.places)
	var bus []Notice
	if err == nil {
		bus = scanBus(w.places, found)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.err = err; err != nil {
		return false // what was known stands until we can look again
	}
	changes, soon := w.roster.step(Now(), found, bus)
	w.list = w.list[:0]
	for _, f := range found {
		if e := w.roster.radios[f.key]; e.told {
			w.list = append(w.list, e.as)
		}
	}
	if len(changes) > 0 {
		w.wait = append(w.wait, changes...)
		select {
		case w.wake <- struct{}{}:
		default:
		}
	}
	return soon
}

// roster remembers what was there and turns a list into changes.
type roster struct {
	radios map[string]*radioEntry
	others map[string]*otherEntry
}

type radioEntry struct {
	f     Found // as it is
	since int64 // from when it can be read as it can now
	as    Found // as it was last told of
	told  bool
	seen  bool
}

type otherEntry struct {
	n     Notice
	since int64
	old   bool // there from the beginning
	told  bool
	seen  bool
}

// step compares what is there at the time now, in µs, with what was. The first step is the beginning. soon: look again soon,
// for a radio waits to be read in a better way.
func (r *roster) step(now int64, found []Found, bus []Notice) (changes []Change, soon bool) {
	begin := r.radios == nil
	if begin {
		r.radios, r.others = map[string]*radioEntry{}, map[string]*otherEntry{}
	}
	arrivals, soon := r.stepRadios(now, found, begin)
	others := r.stepOthers(now, bus, begin)
	for _, e := range sorted(r.radios) {
		if !e.seen {
			delete(r.radios, e.f.key)
			if e.told {
				changes = append(changes, Change{Kind: Departed, Radio: e.as})
			}
		}
		e.seen = false
	}
	for _, e := range sorted(r.others) {
		if !e.seen {
			delete(r.others, e.n.key)
			if e.told {
				changes = append(changes, Change{Kind: OtherDeparted, Notice: e.n})
			}
		}
		e.seen = false
	}
	return append(append(changes, arrivals...), others...), soon
}

func (r *roster) stepRadios(now int64, found []Found, begin bool) (changes []Change, soon bool) {
	for _, f := range found {
		e := r.radios[f.key]
		if e == nil {
			e = &radioEntry{f: f, since: now}
			r.radios[f.key] = e
		}
		if !e.f.alike(&f) {
			e.since = now
		}
		e.f, e.seen = f, true
		if e.told && e.as.alike(&f) {
			e.as = f // its second node may have come later
			continue
		}
		if !begin && f.second() && now-e.since < graceTime {
			soon = true
			continue
		}
		kind := Arrived
		if e.told {
			kind = Altered
		}
		e.told, e.as = true, f
		changes = append(changes, Change{Kind: kind, Radio: f})
	}
	return changes, soon
}

// alike tells whether both are read in the same way from the same place.
func (f *Found) alike(g *Found) bool {
	return f.Path == g.Path && f.Way == g.Way && (f.Trouble == nil) == (g.Trouble == nil)
}

// second tells that a radio is not to be read in the best way: then a better one may follow soon, or the radio is just going.
func (f *Found) second() bool { return f.Trouble != nil || f.Way == WayClassic }

func (r *roster) stepOthers(now int64, bus []Notice, begin bool) (changes []Change) {
	for _, n := range bus {
		e := r.others[n.key]
		if e == nil {
			e = &otherEntry{since: now, old: begin}
			r.others[n.key] = e
		}
		e.n, e.seen = n, true
		if !e.old && !e.told && n.concerns() && now-e.since >= settleTime {
			e.told = true
			changes = append(changes, Change{Kind: OtherArrived, Notice: n})
		}
	}
	return changes
}

// sorted gives the values of m in the order of its keys, so that changes of one step always come in the same order.
func sorted[V any](m map[string]V) []V {
	var vs []V
	for _, k := range slices.Sorted(maps.Keys(m)) {
		vs = append(vs, m[k])
	}
	return vs
}
