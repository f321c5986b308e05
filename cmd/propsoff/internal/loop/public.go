package loop

import (
	"sync"
	"sync/atomic"

	"propsoff/sim"
	"propsoff/sim/flight"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/link"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

const (
	// historyRoom is how many happenings are kept for those who look on.
	historyRoom = 4096
	// PointTicks is the distance of two points of the chart, and ChartTicks how far back it goes.
	PointTicks = 10
	ChartTicks = 10_000
	chartRoom  = ChartTicks/PointTicks + 1
)

// Point is the practice at one tick, for the chart paper.
type Point struct {
	Tick int64
	// Sent is what the hands held; HasSent is false while nothing was read yet.
	Sent    pulse.Frame
	HasSent bool
	// Transmitting: the radio was plugged in and on.
	Transmitting bool
	Powered      bool
	Armed        bool
	Link         link.Phase
	Motor        [flight.Motors]uint16
}

// public is what others may see, copied out of the practice so that nobody waits for anybody.
type public struct {
	// Of the loop's goroutine only: what the ticks since the last publishing brought.
	news   []happening.Happening
	points []Point

	mu      sync.Mutex
	craft   *sim.Config
	stood   []stood
	snap    sim.Snapshot
	now     practice.Practice // a copy, for those who ask what would be
	moves   moves
	digest  uint64
	playing int
	why     error
	lost    uint64
	history [historyRoom]happening.Happening
	count   uint64 // of happenings ever
	chart   [chartRoom]Point
	charted uint64 // points ever
	// films are those of the pilot's own craft, once it has come to the air bench, and, while they fly, of the three.
	films [whichCount]*film
	// filming: the pilot's own is kept on the desk bench too.
	filming atomic.Bool
	three   [layout.Modes]sim.Snapshot
	flown   bool // the three fly
	loss    Loss
	losing  bool // those of FlyLoss are there
}

func (v *public) init(p *practice.Practice) {
	v.news = make([]happening.Happening, 0, 256)
	v.points = make([]Point, 0, 256)
	p.Snapshot(&v.snap)
	p.CopyTo(&v.now)
}

// stepped notes one tick.
func (v *public) stepped(p *practice.Practice, tick int64, happened []happening.Happening) {
	v.news = append(v.news, happened...)
	if n := p.HappeningsLost(); n > 0 {
		v.mu.Lock()
		v.lost += uint64(n)
		v.mu.Unlock()
	}
	if tick%PointTicks != 0 {
		return
	}
	s := p.Bench().State()
	if (s.In.Air || v.filming.Load()) && v.films[Own] == nil {
		v.mu.Lock()
		v.films[Own] = &film{}
		v.mu.Unlock()
	}
	if v.films[Own] != nil {
		v.mu.Lock()
		v.films[Own].add(p, tick)
		v.mu.Unlock()
	}
	v.points = append(v.points, Point{
		Tick: tick, Sent: s.In.Sent, HasSent: s.In.HasSent, Transmitting: s.In.Transmitting(), Powered: s.In.Powered,
		Armed: s.Slot.Arming.Armed, Link: s.Slot.Link.Phase, Motor: s.Motor,
	})
}

// publish shows what the ticks since the last time brought.
func (v *public) publish(l *Loop) {
	v.mu.Lock()
	defer v.mu.Unlock()
	l.p.Snapshot(&v.snap)
	l.p.CopyTo(&v.now)
	v.moves.see(l.p)
	v.digest, v.playing = l.p.Digest(), len(l.players)
	v.flown = l.three != nil
	if v.flown {
		for i := range v.three {
			l.three.craft[i].Snapshot(&v.three[i])
		}
	}
	v.losing = l.loss != nil
	if v.losing {
		for i := range v.loss.Snap {
			l.loss.Craft(i).Snapshot(&v.loss.Snap[i])
			l.loss.Craft(i).CopyTo(&v.loss.Craft[i])
			v.loss.Run[i] = l.loss.Run(i)
		}
	}
	for _, h := range v.news {
		v.history[v.count%historyRoom] = h
		v.count++
	}
	for _, pt := range v.points {
		v.chart[v.charted%chartRoom] = pt
		v.charted++
	}
	v.news, v.points = v.news[:0], v.points[:0]
}

func (v *public) trouble(err error) {
	v.mu.Lock()
	v.why = err
	v.mu.Unlock()
}

// Snapshot fills dst with the latest step. Before the first one its Tick is -1.
func (l *Loop) Snapshot(dst *sim.Snapshot) {
	l.public.mu.Lock()
	*dst = l.public.snap
	l.public.mu.Unlock()
}

// Copy makes dst a copy of the practice as it stands after the latest step, to be asked what would be.
func (l *Loop) Copy(dst *practice.Practice) {
	l.public.mu.Lock()
	l.public.now.CopyTo(dst)
	l.public.mu.Unlock()
}

// Digest is the tick of the latest step and the running digest after it.
func (l *Loop) Digest() (tick int64, digest uint64) {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.snap.Tick, l.public.digest
}

// Happenings appends those from number since on, counted from 0 in the order in which they happened, and gives the number
// to ask from next time. Only the last 4096 are kept: where next − since is more than what was appended, the oldest are gone.
func (l *Loop) Happenings(dst []happening.Happening, since uint64) (all []happening.Happening, next uint64) {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.count > historyRoom {
		since = max(since, v.count-historyRoom)
	}
	for ; since < v.count; since++ {
		dst = append(dst, v.history[since%historyRoom])
	}
	return dst, v.count
}

// Chart appends the points of the last ten seconds, oldest first.
func (l *Loop) Chart(dst []Point) []Point {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	first := uint64(0)
	if v.charted > chartRoom {
		first = v.charted - chartRoom
	}
	for ; first < v.charted; first++ {
		dst = append(dst, v.chart[first%chartRoom])
	}
	return dst
}

// Playing is how many sources play now.
func (l *Loop) Playing() int {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.playing
}

// Trouble is why the last source that failed has failed, nil if none did.
func (l *Loop) Trouble() error {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.why
}

// HappeningsLost counts happenings that found no room in their tick's log: 0 unless very many came in one millisecond.
func (l *Loop) HappeningsLost() uint64 {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.public.lost
}
