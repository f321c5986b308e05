package loop

import (
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/practice"
)

// Which names one of the crafts of a practice.
type Which uint8

const (
	Own     Which = iota // the pilot's
	InAngle              // the three of FlyThree, each in a mode of its own
	InHorizon
	InRate
	WithSilent // the three of FlyLoss, each with a receiver of its own
	WithHold
	WithStored
	whichCount
)

// ThirdIn is the one of the three that flies in a mode.
func ThirdIn(m layout.Mode) Which { return InAngle + Which(m) }

const (
	// FilmTicks is how far back moments go, PointTicks apart.
	FilmTicks = 30_000

	momentRoom = FilmTicks/PointTicks + 1
)

// film keeps the last thirty seconds of one craft as whole snapshots, so that any moment can be shown again, with everything
// that was known of it. Every tick passes by in order, so a tick's place in the ring follows from its number.
type film struct {
	first, last int64 // ticks of the first moment ever and of the newest
	any         bool
	moments     [momentRoom]sim.Snapshot
}

// add notes a tick that is a multiple of PointTicks.
func (f *film) add(p *practice.Practice, tick int64) {
	if !f.any {
		f.first, f.any = tick, true
	}
	f.last = tick
	p.Snapshot(f.at(tick))
}

func (f *film) at(tick int64) *sim.Snapshot { return &f.moments[tick/PointTicks%momentRoom] }

// reach gives the oldest and newest moment's ticks.
func (f *film) reach() (from, to int64, ok bool) {
	if f == nil || !f.any {
		return 0, 0, false
	}
	return max(f.first, f.last-FilmTicks), f.last, true
}

// KeepFilm keeps moments of the pilot's own craft from now on, on the desk bench too.
func (l *Loop) KeepFilm() { l.public.filming.Store(true) }

// Reach gives the ticks of the oldest and the newest moment that is kept of a craft, FilmTicks apart at most; ok is false where
// there is none.
func (l *Loop) Reach(w Which) (from, to int64, ok bool) {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.film(w).reach()
}

// Moment fills dst with a craft as it was at tick: at the newest moment not after it, or the oldest that is kept. It reports
// false, and leaves dst, where there is none: before the craft came to the air bench for the first time.
func (l *Loop) Moment(dst *sim.Snapshot, w Which, tick int64) bool {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	f := v.film(w)
	from, to, ok := f.reach()
	if ok {
		*dst = *f.at(min(max(tick/PointTicks*PointTicks, from), to))
	}
	return ok
}

// Moments calls see with every moment of a craft from tick from to tick to, both included, oldest first. See must not keep its
// argument nor call the loop.
func (l *Loop) Moments(w Which, from, to int64, see func(*sim.Snapshot)) {
	v := &l.public
	v.mu.Lock()
	defer v.mu.Unlock()
	f := v.film(w)
	first, last, ok := f.reach()
	if !ok {
		return
	}
	for t := max((from+PointTicks-1)/PointTicks*PointTicks, first); t <= min(to, last); t += PointTicks {
		see(f.at(t))
	}
}

// PointOf is the chart's point of a snapshot.
func PointOf(s *sim.Snapshot) Point {
	return Point{
		Tick: s.Tick, Sent: s.In.Sent, HasSent: s.In.HasSent, Transmitting: s.In.Transmitting(), Powered: s.In.Powered,
		Armed: s.Armed, Link: s.Link, Motor: s.Motor,
	}
}

// openFilms begins the films of three companions anew, or ends them.
func (v *public) openFilms(first Which, fly bool) {
	v.mu.Lock()
	defer v.mu.Unlock()
	for w := first; w < first+3; w++ {
		v.films[w] = nil
		if fly {
			v.films[w] = &film{}
		}
	}
}

// film is that of a craft, nil where it does not fly.
func (v *public) film(w Which) *film {
	if w >= whichCount {
		return nil
	}
	return v.films[w]
}
