package screen

import (
	"slices"

	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// flight is the work behind the flying craft: the pace of its time, where it has been, and the look back.
type flight struct {
	s *Screen
	// Live is the practice as it is, also while something older is shown.
	Live sim.Snapshot
	told Events
	// slow is by how many times slower than life time runs when it runs: 1, 4 or 10; paused, that it stands.
	slow   int
	paused bool
	own    Track
	replay replay
	from   ui.Seen
	wreck  wreck
}

// replay is the look back. It goes by the clock; the bench is paused meanwhile, and stays so after it.
type replay struct {
	on bool
	// at is the time shown, from and to what there is, in µs of the practice.
	at, from, to int64
	// standing: the look back itself is paused.
	standing bool
	// held: a hand has the bar, so the time goes where that goes.
	held  bool
	clock int64 // when it was last moved on
}

// longestTurn is the most that a look back goes on at once, in µs of the clock, however long the window stood still (ours).
const longestTurn = 250_000

// second is what the keys for back and on move a look back by, and stepOn its single step, in µs.
const (
	second = 1_000_000
	stepOn = live.StepTicks * 1000
)

// turn follows the practice.
func (f *flight) turn() {
	f.s.Options.Loop.Snapshot(&f.Live)
	for _, h := range f.told.Since(f.s.Options.Loop) {
		if h.Code == happening.Moved {
			f.own.Cut(h.Tick)
		}
	}
	if !f.Live.In.Air && !f.s.DeskUsed && f.s.Options.Loop.Pace() != live.Running { // there is no key for it on the desk bench
		*f = flight{s: f.s, Live: f.Live, told: f.told, slow: 1, own: f.own, from: f.from}
		f.pace()
	}
	f.turnWreck()
	f.playOn()
}

// pace tells the loop how time runs.
func (f *flight) pace() {
	f.wreck.waits = f.wreck.waits && f.paused
	p := map[int]live.Pace{1: live.Running, 4: live.Quarter, 10: live.Tenth}[f.slow]
	if f.paused || f.replay.on {
		p = live.Paused
	}
	f.s.Options.Loop.SetPace(p)
}

// Resume lets time run again: what is done to the craft now is to be seen.
func (f *flight) Resume() {
	f.replay.on, f.paused = false, false
	f.pace()
}

// RealTime lets time run at its own pace: something is to be measured now.
func (f *flight) RealTime() {
	f.slow = 1
	f.Resume()
}

// playOn moves the look back on by what has passed of the clock.
func (f *flight) playOn() {
	r := &f.replay
	if !r.on {
		return
	}
	f.reach()
	now := f.s.Options.Loop.Clock().Now()
	if passed := min(now-r.clock, longestTurn); !r.standing && !r.held {
		r.at += passed / int64(f.slow)
	}
	if r.clock = now; !r.held {
		f.seek(r.at)
	}
}

// holdAt shows the time at a share of the bar, on which a hand is.
func (f *flight) holdAt(share float64) {
	r := &f.replay
	r.held, r.at = r.on, r.from+int64(ui.Clamp(share, 0, 1)*float64(r.to-r.from))
}

// letGo has the look back go on from where the hand has left the bar.
func (f *flight) letGo() {
	f.replay.held = false
	f.seek(f.replay.at)
}

// reach is how far back there is something to look at: to the last time that the craft was carried, 30 s at most.
func (f *flight) reach() bool {
	from, to, ok := f.s.Options.Loop.Reach()
	from = max(from, f.own.From)
	from, to = f.wreckOnly(from, to)
	f.replay.from, f.replay.to = from*1000, to*1000
	return ok && from < to
}

// seek shows a time of the practice in µs. At its end the look back stands.
func (f *flight) seek(at int64) {
	r := &f.replay
	r.at = max(at, r.from)
	if r.at >= r.to {
		r.at, r.standing = r.to, true
	}
}

// looksBack tells whether something older is shown than what is.
func (f *flight) looksBack() bool {
	place := f.s.Place()
	return f.replay.on && (place == ui.OnBench || place == ui.OnDesk)
}

// pauseOrGo stops time or lets it run again, in a look back that of the look back: at its end again from the beginning.
func (f *flight) pauseOrGo() {
	switch r := &f.replay; {
	case !r.on:
		f.paused = !f.paused
		f.pace()
	case r.at >= r.to:
		r.at, r.standing = r.from, false
	default:
		r.standing = !r.standing
	}
}

// slower takes the next pace.
func (f *flight) slower() {
	f.slow = ui.NextSlow(f.slow)
	f.pace()
}

// step goes on by one step where time stands.
func (f *flight) step() {
	switch r := &f.replay; {
	case r.on && r.standing:
		f.seek(r.at + stepOn)
	case !r.on && f.paused:
		f.s.Options.Loop.StepOn()
	}
}

// lookBack begins the look back, or ends it. The bench stays paused: nobody's hands are ready for a craft in the air.
func (f *flight) lookBack() {
	switch r := &f.replay; {
	case r.on:
		r.on, f.paused = false, true
	case f.reach():
		*r = replay{on: true, at: r.from, from: r.from, to: r.to, clock: f.s.Options.Loop.Clock().Now()}
	}
	f.pace()
}

// Carry takes the craft to a bench, where it stands or hangs as at first, also where it is there already.
func (f *flight) Carry(to int32) {
	f.Resume()
	put := f.s.Options.Loop.Desk().Put
	if f.Live.In.Air {
		put(pulse.Air, pulse.OnDesk)
	}
	if to != pulse.OnDesk {
		put(pulse.Air, to)
	}
}

// HoldHeight has the height of a whole craft held where it is.
func (f *flight) HoldHeight() {
	if f.Live.In.Bench() == pulse.InAir {
		f.s.Options.Loop.Desk().Put(pulse.Air, pulse.HeightHeld)
	}
}

// key moves the look back, by a key or what is clicked; false leaves it.
func (f *flight) key(name string) bool {
	by, moves := map[string]int64{"Left": -second, ui.ReplayBack: -second, "Right": second, ui.ReplayOn: second}[name]
	if moves = moves && f.looksBack(); moves {
		f.seek(f.replay.at + by)
	}
	return moves
}

// fill puts the flight into the view, and while looking back everything as it was then.
func (f *flight) fill(v *ui.View) {
	f.Live = v.Snap
	if !f.Live.In.Air && !f.s.DeskUsed {
		v.Flight = ui.FlightView{Trail: v.Flight.Trail[:0], Followed: v.Flight.Followed[:0]}
		return
	}
	f.own.Follow(f.s.Options.Loop.Seen, &f.s.Config)
	r := &f.replay
	v.Flight.Pace = ui.Pace{Paused: f.paused, Slow: f.slow}
	v.Flight.Replay, v.Flight.From = ui.Replay{}, f.from
	f.fillWreck(v)
	if f.looksBack() && f.s.Options.Loop.Moment(&v.Snap, r.at/1000) {
		v.Flight.Pace.Paused = r.standing
		v.Flight.Replay = ui.Replay{On: true, At: (r.at - r.from) / 1000, Length: (r.to - r.from) / 1000}
		if at, ok := v.Flight.Wreck.Mark(); ok && at >= r.from/1000 {
			v.Flight.Replay.Marked, v.Flight.Replay.Mark = true, at-r.from/1000
		}
		v.Refusals = nil
		v.Chart = v.Chart[:0]
		f.s.Options.Loop.Moments(v.Snap.Tick-live.ChartTicks, v.Snap.Tick, func(s *sim.Snapshot) {
			v.Chart = append(v.Chart, live.PointOf(s))
		})
	}
	v.Flight.Trail = f.own.Trail
	v.Flight.Followed = f.own.followedTo(v.Snap.Tick)
}

// Events reads the happenings of a practice once each.
type Events struct {
	next uint64
	all  []happening.Happening
}

// Since gives those that are new; valid until the next call.
func (e *Events) Since(l *live.Loop) []happening.Happening {
	e.all, e.next = l.Happenings(e.all[:0], e.next)
	return e.all
}

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
