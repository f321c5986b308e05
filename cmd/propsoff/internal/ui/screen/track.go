package screen

import (
	"slices"

	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim"
)

// Track is where a craft has been and how it followed what was asked, over the time that can be looked back at.
type Track struct {
	Trail    []ui.TrailPoint
	followed []ui.FollowedPoint
	From     int64 // nothing of before counts: the tick at which it was carried last
	next     int64 // the moment to read next
}

const (
	trailMost    = ui.TrailTicks/ui.TrailEvery + 1
	followedMost = live.FilmTicks/live.PointTicks + 1
)

// Cut forgets what was before the craft was carried.
func (t *Track) Cut(tick int64) {
	t.From = tick
	t.next = max(t.next, tick)
	t.Trail = slices.DeleteFunc(t.Trail, func(p ui.TrailPoint) bool { return p.Tick < tick })
	t.followed = slices.DeleteFunc(t.followed, func(p ui.FollowedPoint) bool { return p.Tick < tick })
}

// Follow reads the moments that are new.
func (t *Track) Follow(c *live.Seen, cfg *sim.Config) {
	_, to, ok := c.Reach()
	if !ok {
		return
	}
	c.Moments(t.next, to, func(s *sim.Snapshot) {
		if !s.In.Air {
			return
		}
		t.followed = append(t.followed, ui.FollowedOf(s, cfg))
		if s.Tick%ui.TrailEvery == 0 {
			var last *ui.TrailPoint
			if n := len(t.Trail); n > 0 {
				last = &t.Trail[n-1]
			}
			t.Trail = append(t.Trail, ui.NextTrailPoint(last, s))
		}
	})
	t.next = max(t.next, to+1)
	t.Trail, t.followed = newest(t.Trail, trailMost), newest(t.followed, followedMost)
}

// newest keeps the last n of a list. The room is used again, so that a long flight does not grow.
func newest[T any](all []T, n int) []T {
	if len(all) <= n {
		return all
	}
	return all[:copy(all, all[len(all)-n:])]
}

// followedTo is what the chart's time up to a tick holds.
func (t *Track) followedTo(tick int64) []ui.FollowedPoint {
	after := func(tick int64) int {
		i, _ := slices.BinarySearchFunc(t.followed, tick, func(p ui.FollowedPoint, tick int64) int { return int(p.Tick - tick) })
		return i
	}
	return t.followed[after(tick-live.ChartTicks):after(tick+1)]
}
