package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim"
)

// track is where a craft has been and how it followed what was asked, over the time that can be looked back at.
type track struct {
	trail    []sheet.TrailPoint
	followed []sheet.FollowedPoint
	from     int64 // nothing of before counts: the tick at which it was carried last
	next     int64 // the moment to read next
}

const (
	trailMost    = sheet.TrailTicks/sheet.TrailEvery + 1
	followedMost = loop.FilmTicks/loop.PointTicks + 1
)

// cut forgets what was before the craft was carried.
func (t *track) cut(tick int64) {
	t.from = tick
	t.next = max(t.next, tick)
	t.trail = slices.DeleteFunc(t.trail, func(p sheet.TrailPoint) bool { return p.Tick < tick })
	t.followed = slices.DeleteFunc(t.followed, func(p sheet.FollowedPoint) bool { return p.Tick < tick })
}

// follow reads the moments that are new.
func (t *track) follow(l *loop.Loop, w loop.Which, cfg *sim.Config) {
	_, to, ok := l.Reach(w)
	if !ok {
		return
	}
	l.Moments(w, t.next, to, func(s *sim.Snapshot) {
		if !s.In.Air {
			return
		}
		t.followed = append(t.followed, sheet.FollowedOf(s, cfg))
		if s.Tick%sheet.TrailEvery == 0 {
			var last *sheet.TrailPoint
			if n := len(t.trail); n > 0 {
				last = &t.trail[n-1]
			}
			t.trail = append(t.trail, sheet.NextTrailPoint(last, s))
		}
	})
	t.next = max(t.next, to+1)
	t.trail, t.followed = newest(t.trail, trailMost), newest(t.followed, followedMost)
}

// newest keeps the last n of a list. The room is used again, so that a long flight does not grow.
func newest[T any](all []T, n int) []T {
	if len(all) <= n {
		return all
	}
	return all[:copy(all, all[len(all)-n:])]
}

// followedTo is what the chart's time up to a tick holds.
func (t *track) followedTo(tick int64) []sheet.FollowedPoint {
	after := func(tick int64) int {
		i, _ := slices.BinarySearchFunc(t.followed, tick, func(p sheet.FollowedPoint, tick int64) int { return int(p.Tick - tick) })
		return i
	}
	return t.followed[after(tick-loop.ChartTicks):after(tick+1)]
}
