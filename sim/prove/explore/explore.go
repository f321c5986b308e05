// Package explore walks every situation of any problem, nearest first, and gives the shortest way to each.
//
// A situation is a key of 64 bits, exact both ways. A step either costs one move or is free; each takes one unit of time.
// Situations are settled in order of moves, and those of equal moves in order of time, so the first way found is the one with the
// fewest moves, and with the least time among those.
package explore

import "slices"

// Edge is one step to another situation.
type Edge struct {
	To uint64
	// Costs: the step costs one move; else it is free.
	Costs bool
	// Line is that of To, where the Space has looked at its marks (Marks.Line); else 0.
	Line uint32
}

// Cost is that of a way: moves count first, then time.
type Cost struct{ Moves, Time int32 }

// Less reports whether c is lower than d.
func (c Cost) Less(d Cost) bool { return c.Moves < d.Moves || c.Moves == d.Moves && c.Time < d.Time }

// Space is a problem to be explored.
type Space interface {
	// Expand appends every step that leads on from a situation, which stands at the given place of the walk and was reached
	// at that cost. It is called once for each situation, in order of cost.
	Expand(key uint64, place uint32, at Cost, out []Edge) []Edge
}

// End says why a walk ended.
type End uint8

const (
	Complete    End = iota // every situation was expanded
	Interrupted            // Options.Progress asked for it
	Full                   // Options.MostBytes was reached
	Enough                 // the Space asked for it (Walk.Stop)
)

// Options are those of a walk.
type Options struct {
	// MostBytes bounds the memory for situations, in bytes; 0 is no bound.
	MostBytes int64
	// Progress, where given, is asked each time Every (0: 65536) more situations have been expanded; true stops the walk.
	Progress func(w *Walk, at Cost) (stop bool)
	Every    uint64
	// Workers is how many explore at once where the Space is Shared. What is found, and in which order, does not depend on it.
	Workers int
	// Grain is how many situations a worker takes at a time; 0 is a good measure.
	Grain uint32
}

// Walk is a walk through a problem, and what it found.
type Walk struct {
	o    Options
	set  *set
	list list
	// now is read in this level of moves, next filled for the one after.
	now, next queue
	layers    []Layer
	expanded  uint64
	edges     uint64
	peak      int64
	out       []Edge
	stop      bool
	marks     *Marks
	// crew is who explores, nil as long as one does it alone; workers is how many there may be.
	crew    *crew
	workers int
}

// Layer is a run of situations of equal cost; First is the place of its first one.
type Layer struct {
	Cost
	First uint32
}

// New makes a walk that has no beginning yet.
func New(o Options) *Walk {
	if o.Every == 0 {
		o.Every = 1 << 16
	}
	if o.Grain == 0 {
		o.Grain = usualGrain
	}
	set, room := newSet(), &room[entries]{least: wholeStretch}
	return &Walk{
		o: o, set: set, list: list{room: room}, now: queue{room: room}, next: queue{room: room}, marks: &Marks{set: set, near: &set.near}, workers: o.Workers,
	}
}

// Begin adds a situation in which the walk begins, at cost 0. Call it before Run.
func (w *Walk) Begin(key uint64) {
	if m := w.set.marks(key); m[1]>>(key&63)&1 == 0 {
		m[1] |= 1 << (key & 63)
		w.next.add(key, none, 0)
	}
}

// none is the parent of a situation in which the walk began.
const none = ^uint32(0)

// Stop ends the walk after the situation that is being expanded.
func (w *Walk) Stop() { w.stop = true }

// Marks are those of this walk, for the Space that it is run with.
func (w *Walk) Marks() *Marks { return w.marks }

// Run walks until there is nothing more to find or something stops it, and says which.
func (w *Walk) Run(s Space) End {
	defer w.measure()
	defer w.dismiss()
	for moves := int32(0); w.next.n > 0; moves++ {
		w.now, w.next = w.next, w.now
		w.next.clear()
		if end := w.level(s, moves, w.now.times); end != Complete {
			return end
		}
	}
	return Complete
}

// level expands all situations that need this many moves: those that a move led to, and then those that free steps lead to.
func (w *Walk) level(s Space, moves int32, runs []run) End {
	at := Cost{Moves: moves}
	for begin := w.list.n; ; at.Time++ {
		if begin == w.list.n { // free steps lead no further: on to the next time that a move led to
			if len(runs) == 0 {
				return Complete
			}
			at.Time = runs[0].time
		}
		if len(runs) > 0 && runs[0].time == at.Time {
			w.admit(runs[0].n)
			runs = runs[1:]
		}
		end := w.list.n
		if begin == end {
			continue
		}
		w.layers = append(w.layers, Layer{at, begin})
		for begin < end {
			if end := w.ask(at); end != Complete {
				return end
			}
			// to is where somebody is to be asked again.
			to := begin + uint32(min(uint64(end-begin), measured-w.expanded%measured, w.o.Every-w.expanded%w.o.Every))
			if !w.together(s, begin, to, at) {
				w.alone(s, begin, to, at)
			}
			if begin = to; w.stop {
				return Enough
			}
		}
	}
}

// measured is after how many situations their memory is measured again.
const measured = 1 << 12

// ask asks whether the walk may go on.
func (w *Walk) ask(at Cost) End {
	if w.expanded%w.o.Every == 0 && w.o.Progress != nil && w.o.Progress(w, at) {
		return Interrupted
	}
	if w.expanded%measured == 0 {
		if w.measure(); w.o.MostBytes > 0 && w.Bytes() > w.o.MostBytes {
			return Full
		}
	}
	return Complete
}

// alone expands the situations from begin to end, until somebody asks to stop.
func (w *Walk) alone(s Space, begin, end uint32, at Cost) {
	for ; begin < end && !w.stop; begin++ {
		w.expanded++
		w.out = s.Expand(w.list.key(begin), begin, at, w.out[:0])
		w.edges += uint64(len(w.out)) + w.marks.take()
		for i := range w.out {
			w.mark(&w.out[i], begin, at.Time+1)
		}
	}
}

// together has the crew expand the situations from begin to end, and reports whether it did.
func (w *Walk) together(s Space, begin, end uint32, at Cost) bool {
	if w.workers < 2 || end-begin < worthwhile*w.o.Grain {
		return false
	}
	if w.crew == nil {
		w.hire(s)
	}
	if w.crew != nil && !w.crew.all[0].space.Alone() && w.crew.round(begin, end, at) {
		return true
	}
	w.dismiss()
	w.workers = 1
	return false
}

// admit settles the next n of the queue that are not settled yet.
func (w *Walk) admit(n uint64) {
	for ; n > 0; n-- {
		key, from := w.now.take()
		m, bit := w.set.marks(key), uint64(1)<<(key&63)
		if m[0]&bit == 0 {
			m[0] |= bit
			w.list.add(key, from)
		}
	}
}

// mark takes note of where a step leads.
func (w *Walk) mark(e *Edge, from uint32, time int32) {
	if e.Line == 0 {
		e.Line = w.set.lineOf(e.To)
	}
	m, bit := w.set.words(e.Line, e.To), uint64(1)<<(e.To&63)
	switch {
	case m[0]&bit != 0:
	case !e.Costs:
		m[0] |= bit
		w.list.add(e.To, from)
	case m[1]&bit == 0:
		m[1] |= bit
		w.next.add(e.To, from, time)
	}
}

func (w *Walk) measure() { w.peak = max(w.peak, w.Bytes()) }

// Found is how many situations were settled.
func (w *Walk) Found() uint64 { return uint64(w.list.n) }

// Open is how many situations are not yet expanded, including those of which only a step to them is known; two of those may turn out
// to be one.
func (w *Walk) Open() uint64 { return uint64(w.list.n) - w.expanded + w.now.n + w.next.n }

// Edges is how many steps were made.
func (w *Walk) Edges() uint64 { return w.edges }

// Bytes is the memory that situations take now, in bytes.
func (w *Walk) Bytes() int64 {
	return w.set.bytes() + w.list.bytes() + w.now.bytes() + w.next.bytes()
}

// Peak is the most memory that situations have taken, in bytes.
func (w *Walk) Peak() int64 { return w.peak }

// Layers are the runs of situations of equal cost, in order.
func (w *Walk) Layers() []Layer { return w.layers }

// Key is that of the situation at a place (0 … Found()−1, in order of cost).
func (w *Walk) Key(place uint32) uint64 { return w.list.key(place) }

// Cost is that of the situation at a place.
func (w *Walk) Cost(place uint32) Cost {
	n, _ := slices.BinarySearchFunc(w.layers, place, func(l Layer, p uint32) int {
		if l.First <= p {
			return -1
		}
		return 1
	})
	return w.layers[n-1].Cost
}

// Path gives the places of the shortest way from a beginning to the situation at a place, both included.
func (w *Walk) Path(place uint32) []uint32 {
	var path []uint32
	for ; place != none; place = w.list.parent(place) {
		path = append(path, place)
	}
	slices.Reverse(path)
	return path
}
