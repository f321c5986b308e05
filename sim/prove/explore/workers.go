package explore

import (
	"slices"
	"sync/atomic"
)

// Shared is a Space that several workers can explore at once, each with a copy of its own.
type Shared interface {
	Space
	// Copy gives a Space that expands as this one does and shares nothing with it that either of them changes. It has marks of its own, and
	// calls stop where this one would call Walk.Stop.
	Copy(marks *Marks, stop func()) Shared
	// Alone reports whether only the first Space can go on from what was expanded last.
	Alone() bool
	// Share tells the Space, and none of its copies, that they are going to expand situations together.
	Share()
	// Kept tells each copy, and then the Space, what became of that: it counts, or the same situations are expanded once more, by the first
	// Space alone, as if it had not been. From then on that one goes on alone.
	Kept(counts bool)
}

// usualGrain is how many situations a worker takes at a time. So many grains of equal cost are worth sharing.
const (
	usualGrain = 64
	worthwhile = 4
)

// crew is the workers of a walk. The first is the one who walks, and works with the first Space; each other has a goroutine.
type crew struct {
	w     *Walk
	all   []*worker
	came  []lead // what came of each grain of this round
	grain uint32
	// begin and end are the places of this round; next is the next grain that nobody has taken.
	begin, end uint32
	at         Cost
	next       atomic.Uint32
	// stopped: somebody asked to stop, so that this round does not count.
	stopped atomic.Bool
	done    chan struct{}
}

// worker is one of them.
type worker struct {
	space Shared
	marks *Marks
	out   []Edge
	lead  lead // of the grain that it expands
	begin chan struct{}
	// edges is how many steps it made in this round.
	edges uint64
	// sent are some of the steps that it passed on last: the same once more leads nowhere.
	sent [1 << 11]sent
}

type sent struct {
	to           uint64
	costs, known bool
}

// lead is what remains of the steps of one grain: those that may lead to something new. Nothing is marked before the whole round is
// expanded, and then in order, so that workers do not change what is found.
type lead struct {
	edges []Edge
	from  []uint32
}

// hire makes the crew, if the problem can be shared.
func (w *Walk) hire(s Space) {
	shared, ok := s.(Shared)
	if !ok || shared.Alone() {
		return
	}
	c := &crew{w: w, grain: w.o.Grain, done: make(chan struct{})}
	stop := func() { c.stopped.Store(true) }
	for n := range w.workers {
		k := &worker{space: shared, marks: w.marks, begin: make(chan struct{})}
		if n > 0 {
			k.marks = &Marks{set: w.set, near: new([nearLines]near)}
			k.space = shared.Copy(k.marks, stop)
			go k.work(c)
		}
		c.all = append(c.all, k)
	}
	w.crew = c
}

// dismiss ends the crew's goroutines.
func (w *Walk) dismiss() {
	if w.crew != nil {
		for _, k := range w.crew.all[1:] {
			close(k.begin)
		}
		w.crew = nil
	}
}

// round expands the situations from begin to end together, and reports whether that counts.
func (c *crew) round(begin, end uint32, at Cost) bool {
	c.begin, c.end, c.at = begin, end, at
	c.next.Store(0)
	c.stopped.Store(false)
	grains := (end - begin + c.grain - 1) / c.grain
	for uint32(len(c.came)) < grains {
		c.came = append(c.came, lead{})
	}
	c.all[0].space.Share()
	for _, k := range c.all[1:] {
		k.begin <- struct{}{}
	}
	c.all[0].share(c)
	for range c.all[1:] {
		<-c.done
	}
	counts := !c.stopped.Load() && !c.w.stop
	for _, k := range slices.Backward(c.all) {
		k.space.Kept(counts)
		if counts {
			c.w.edges += k.edges + k.marks.take()
		}
		k.edges = 0
	}
	if !counts {
		c.w.marks.take()
		c.w.stop = false
		return false
	}
	c.w.expanded += uint64(end - begin)
	for n := range grains {
		g := &c.came[n]
		for i := range g.edges {
			c.w.mark(&g.edges[i], g.from[i], at.Time+1)
		}
	}
	return true
}

func (k *worker) work(c *crew) {
	for range k.begin {
		k.share(c)
		c.done <- struct{}{}
	}
}

// share takes grains and expands them until none is left.
func (k *worker) share(c *crew) {
	for {
		n := c.next.Add(1) - 1
		from := c.begin + n*c.grain
		if from >= c.end || c.stopped.Load() {
			return
		}
		k.lead = lead{c.came[n].edges[:0], c.came[n].from[:0]}
		for p := from; p < min(from+c.grain, c.end); p++ {
			k.out = k.space.Expand(c.w.list.key(p), p, c.at, k.out[:0])
			k.edges += uint64(len(k.out))
			if k.space.Alone() {
				c.stopped.Store(true)
			}
			k.sift(p)
		}
		c.came[n] = k.lead
	}
}

// sift passes on what is not known to lead nowhere.
func (k *worker) sift(from uint32) {
	for i := range k.out {
		e := &k.out[i]
		if e.Line == 0 {
			e.Line = k.marks.Line(e.To)
		}
		if m, bit := k.marks.In(e.Line, e.To), uint64(1)<<(e.To&63); m != nil && (m[0]&bit != 0 || e.Costs && m[1]&bit != 0) {
			continue
		}
		last := &k.sent[(e.To^e.To>>11)%uint64(len(k.sent))]
		if last.known && last.to == e.To && (e.Costs || !last.costs) {
			continue
		}
		*last = sent{e.To, e.Costs, true}
		k.lead.edges, k.lead.from = append(k.lead.edges, *e), append(k.lead.from, from)
	}
}
