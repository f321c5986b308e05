package live

import (
	"sync"
	"sync/atomic"

	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// ChartTicks is how far back the chart goes, in ticks.
const (
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

// PointOf is the chart's point of a snapshot.
func PointOf(s *sim.Snapshot) Point {
	return Point{
		Tick: s.Tick, Sent: s.In.Sent, HasSent: s.In.HasSent, Transmitting: s.In.Transmitting(), Powered: s.In.Powered,
		Armed: s.Armed, Link: s.Link, Motor: s.Motor,
	}
}

// public is what others may see of the practice as a whole, copied out of it so that nobody waits for anybody.
type public struct {
	// Of the loop's goroutine only: what the ticks since the last publishing brought.
	points []Point

	mu      sync.Mutex
	craft   *sim.Config
	stood   []stood
	wreck   *Wreck
	again   Again
	waiting Waiting
	playing int
	why     error
	lost    uint64
	chart   [chartRoom]Point
	charted uint64 // points ever
	// filming: a film of the pilot's own is kept on the desk bench too.
	filming atomic.Bool
}

// stepped notes one tick of the pilot's own craft. Its film begins as it comes to the air bench for the first time.
func (l *Loop) stepped(tick int64) {
	v := &l.public
	if n := l.p.HappeningsLost(); n > 0 {
		v.mu.Lock()
		v.lost += uint64(n)
		v.mu.Unlock()
	}
	if tick%PointTicks == 0 {
		var now sim.Snapshot
		l.p.Snapshot(&now)
		if (now.In.Air || v.filming.Load()) && l.Seen.film == nil {
			v.mu.Lock()
			l.Seen.film = &film{}
			v.mu.Unlock()
		}
		v.points = append(v.points, PointOf(&now))
	}
	l.Seen.stepped(l.p, tick)
}

// publish shows what the ticks since the last time brought.
func (l *Loop) publish() {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	l.Seen.publish(l.p)
	for _, b := range l.beside {
		b.publish()
	}
	v.playing, v.again, v.waiting = len(l.players), l.again, l.waits()
	for _, pt := range v.points {
		v.chart[v.charted%chartRoom] = pt
		v.charted++
	}
	v.points = v.points[:0]
}

// KeepFilm keeps moments of the pilot's own craft from now on, on the desk bench too.
func (l *Loop) KeepFilm() { l.public.filming.Store(true) }

// Gestures fills dst with the patterns of the pilot's own craft as they stand, in their order, and gives the menu. The craft's Config says
// what they are.
func (l *Loop) Gestures(dst []gestures.State) ([]gestures.State, menu.State) {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return append(dst[:0], l.Seen.now.Gestures()...), l.Seen.now.Menu()
}

// Digest is the tick of the latest step and the running digest after it.
func (l *Loop) Digest() (tick int64, digest uint64) {
	l.public.mu.Lock()
	defer l.public.mu.Unlock()
	return l.Seen.now.Tick() - 1, l.Seen.now.Digest()
}

func (v *public) trouble(err error) {
	v.mu.Lock()
	v.why = err
	v.mu.Unlock()
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
