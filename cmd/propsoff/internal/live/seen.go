package live

import (
	"sync"

	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
)

const (
	// historyRoom is how many happenings of a craft are kept for those who look on.
	historyRoom = 4096
	// FilmTicks is how far back the moments of a craft go, in ticks, and PointTicks how far apart they are.
	FilmTicks  = 30_000
	PointTicks = 10

	momentRoom = FilmTicks/PointTicks + 1
)

// Seen is one craft as others may see it, the pilot's own or one of a companion: as it is after the latest step, what has happened to it,
// and a film of its last thirty seconds. It may be asked from any goroutine. A nil one is of a craft that does not go along: it has no
// film.
type Seen struct {
	mu *sync.Mutex // the loop's one, so that what is read under it is of one step for all crafts

	news []happening.Happening // the loop's goroutine only: since the last publishing

	now     practice.Practice
	history [historyRoom]happening.Happening
	count   uint64 // of happenings ever
	film    *film  // nil while there is none
}

func newSeen(mu *sync.Mutex, p *practice.Practice) *Seen {
	s := &Seen{mu: mu, news: make([]happening.Happening, 0, 256)}
	p.CopyTo(&s.now)
	return s
}

// stepped notes the step that p has just made, and its moment where one is kept.
func (s *Seen) stepped(p *practice.Practice, tick int64) {
	s.news = append(s.news, p.Happenings()...)
	if s.film == nil || tick%PointTicks != 0 {
		return
	}
	s.mu.Lock()
	s.film.add(p, tick)
	s.mu.Unlock()
}

// publish shows what the steps since the last time brought; the lock is held.
func (s *Seen) publish(p *practice.Practice) {
	p.CopyTo(&s.now)
	for _, h := range s.news {
		s.history[s.count%historyRoom] = h
		s.count++
	}
	s.news = s.news[:0]
}

// Snapshot fills dst with the latest step. Before the first one its Tick is -1.
func (s *Seen) Snapshot(dst *sim.Snapshot) {
	s.mu.Lock()
	s.now.Snapshot(dst)
	s.mu.Unlock()
}

// Copy makes dst a copy of the practice as it stands after the latest step, to be asked what would be.
func (s *Seen) Copy(dst *practice.Practice) {
	s.mu.Lock()
	s.now.CopyTo(dst)
	s.mu.Unlock()
}

// Happenings appends those from number since on, counted from 0 in the order in which they happened, and gives the number
// to ask from next time. Only the last 4096 are kept: where next − since is more than what was appended, the oldest are gone.
func (s *Seen) Happenings(dst []happening.Happening, since uint64) (all []happening.Happening, next uint64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.count > historyRoom {
		since = max(since, s.count-historyRoom)
	}
	for ; since < s.count; since++ {
		dst = append(dst, s.history[since%historyRoom])
	}
	return dst, s.count
}

// Reach gives the ticks of the oldest and the newest moment that is kept, FilmTicks apart at most; ok is false where there is none.
func (s *Seen) Reach() (from, to int64, ok bool) {
	if s == nil {
		return 0, 0, false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.film.reach()
}

// Moment fills dst with the craft as it was at tick: at the newest moment not after it, or the oldest that is kept. It reports
// false, and leaves dst, where there is none.
func (s *Seen) Moment(dst *sim.Snapshot, tick int64) bool {
	if s == nil {
		return false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	from, to, ok := s.film.reach()
	if ok {
		*dst = *s.film.at(min(max(tick/PointTicks*PointTicks, from), to))
	}
	return ok
}

// Moments calls see with every moment from tick from to tick to, both included, oldest first. See must not keep its argument nor call
// the loop.
func (s *Seen) Moments(from, to int64, see func(*sim.Snapshot)) {
	if s == nil {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	first, last, ok := s.film.reach()
	if !ok {
		return
	}
	for t := max((from+PointTicks-1)/PointTicks*PointTicks, first); t <= min(to, last); t += PointTicks {
		see(s.film.at(t))
	}
}

// film keeps whole snapshots, so that any moment can be shown again, with everything that was known of it. Every tick passes by in
// order, so a tick's place in the ring follows from its number.
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
