package screen

import (
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// flight is the work behind the flying craft: the pace of its time, where it has been, and the look back.
type flight struct {
	s *Screen
	// live is the practice as it is, also while something older is shown.
	live sim.Snapshot
	told events
	// slow is by how many times slower than life time runs when it runs: 1, 4 or 10; paused, that it stands.
	slow   int
	paused bool
	own    track
	replay replay
}

// replay is the look back. It goes by the clock; the bench is paused meanwhile, and stays so after it.
type replay struct {
	on bool
	// at is the time shown, from and to what there is, in µs of the practice.
	at, from, to int64
	// standing: the look back itself is paused.
	standing bool
	clock    int64 // when it was last moved on
}

// longestTurn is the most that a look back goes on at once, in µs of the clock, however long the window stood still (ours).
const longestTurn = 250_000

// second is what the keys for back and on move a look back by, and stepOn its single step, in µs.
const (
	second = 1_000_000
	stepOn = loop.StepTicks * 1000
)

func newFlight(s *Screen) *flight { return &flight{s: s, slow: 1} }

// turn follows the practice.
func (f *flight) turn() {
	f.s.o.Loop.Snapshot(&f.live)
	for _, h := range f.told.since(f.s.o.Loop) {
		if h.Code == happening.Moved {
			f.own.cut(h.Tick)
		}
	}
	if !f.live.In.Air && !f.s.desk.used && f.s.o.Loop.Pace() != loop.Running { // there is no key for it on the desk bench
		*f = flight{s: f.s, live: f.live, told: f.told, slow: 1, own: f.own}
		f.pace()
	}
	f.playOn()
}

// pace tells the loop how time runs.
func (f *flight) pace() {
	p := loop.Running
	switch {
	case f.paused || f.replay.on:
		p = loop.Paused
	case f.slow == 4:
		p = loop.Quarter
	case f.slow == 10:
		p = loop.Tenth
	}
	f.s.o.Loop.SetPace(p)
}

// resume lets time run again: what is done to the craft now is to be seen.
func (f *flight) resume() {
	f.replay.on, f.paused = false, false
	f.pace()
}

// playOn moves the look back on by what has passed of the clock.
func (f *flight) playOn() {
	r := &f.replay
	if !r.on {
		return
	}
	f.reach()
	now := f.s.o.Loop.Clock().Now()
	if passed := min(now-r.clock, longestTurn); !r.standing {
		r.at += passed / int64(f.slow)
	}
	r.clock = now
	f.seek(r.at)
}

// reach is how far back there is something to look at: to the last time that the craft was carried, 30 s at most.
func (f *flight) reach() bool {
	from, to, ok := f.s.o.Loop.Reach(loop.Own)
	from = max(from, f.own.from)
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

// act does what a key of the flight stands for; false leaves it.
func (f *flight) act(a sheet.Action) bool {
	r := &f.replay
	switch a {
	case sheet.Leave: // of the look back, before the program is left
		if !r.on || f.s.place() != sheet.OnBench && f.s.place() != sheet.OnDesk {
			return false
		}
		a = sheet.ReplayFlight
	case sheet.PauseFlight, sheet.SlowFlight, sheet.StepFlight, sheet.ReplayFlight, sheet.StandAgain:
		if !f.live.In.Air && (!f.s.desk.used || a == sheet.StandAgain) {
			return true
		}
	}
	switch a {
	case sheet.PauseFlight:
		if !r.on {
			f.paused = !f.paused
			break
		}
		r.standing = !r.standing
		if r.at >= r.to { // again from the beginning
			r.at, r.standing = r.from, false
		}
	case sheet.SlowFlight:
		f.slow = sheet.NextSlow(f.slow)
	case sheet.StepFlight:
		switch {
		case r.on && r.standing:
			f.seek(r.at + stepOn)
		case !r.on && f.paused:
			f.s.o.Loop.StepOn()
		}
	case sheet.ReplayFlight:
		f.lookBack()
	case sheet.StandAgain:
		if !f.s.played() {
			f.carry(1)
		}
	default:
		return false
	}
	f.pace()
	return true
}

// lookBack begins the look back, or ends it. The bench stays paused: nobody's hands are ready for a craft in the air.
func (f *flight) lookBack() {
	r := &f.replay
	if r.on {
		r.on, f.paused = false, true
		return
	}
	if !f.reach() {
		return
	}
	*r = replay{on: true, at: r.from, from: r.from, to: r.to, clock: f.s.o.Loop.Clock().Now()}
}

// carry takes the craft to the air bench (1) or the desk bench (0), where it stands as at first. One that is on the air bench is
// taken back there.
func (f *flight) carry(air int32) {
	f.resume()
	put := f.s.o.Loop.Desk().Put
	if f.live.In.Air {
		put(pulse.Air, 0)
	}
	if air == 1 {
		put(pulse.Air, 1)
	}
}

// key moves the look back; false leaves the key.
func (f *flight) key(name string) bool {
	if !f.replay.on || f.s.place()&(sheet.OnBench|sheet.OnDesk) == 0 {
		return false
	}
	switch name {
	case "Left":
		f.seek(f.replay.at - second)
	case "Right":
		f.seek(f.replay.at + second)
	default:
		return false
	}
	return true
}

// hit does what a hit area of the look back stands for; false leaves it.
func (f *flight) hit(name string) bool {
	switch name {
	case "replay-back":
		return f.key("Left")
	case "replay-on":
		return f.key("Right")
	}
	return false
}

// fill puts the flight into the view, and while looking back everything as it was then.
func (f *flight) fill(v *sheet.View) {
	f.live = v.Snap
	if !f.live.In.Air && !f.s.desk.used {
		v.Flight = sheet.FlightView{Trail: v.Flight.Trail[:0], Followed: v.Flight.Followed[:0]}
		return
	}
	f.own.follow(f.s.o.Loop, loop.Own, &f.s.cfg)
	r := &f.replay
	v.Flight.Pace = sheet.Pace{Paused: f.paused, Slow: f.slow}
	v.Flight.Replay = sheet.Replay{}
	if place := f.s.place(); r.on && (place == sheet.OnBench || place == sheet.OnDesk) && f.s.o.Loop.Moment(&v.Snap, loop.Own, r.at/1000) {
		v.Flight.Pace.Paused = r.standing
		v.Flight.Replay = sheet.Replay{On: true, At: (r.at - r.from) / 1000, Length: (r.to - r.from) / 1000}
		v.Refusals = nil
		v.Chart = v.Chart[:0]
		f.s.o.Loop.Moments(loop.Own, v.Snap.Tick-loop.ChartTicks, v.Snap.Tick, func(s *sim.Snapshot) {
			v.Chart = append(v.Chart, loop.PointOf(s))
		})
	}
	v.Flight.Trail = f.own.trail
	v.Flight.Followed = f.own.followedTo(v.Snap.Tick)
}

// played reports whether a script or take drives and has not ended: nothing may change what is on the bench then.
func (s *Screen) played() bool { return s.driver.Who == drive.Script && !s.driver.Ended }

// recentMost is how many happenings are kept for the chart, recentTicks how far they go back from what is shown (ours).
const (
	recentMost  = 1024
	recentTicks = loop.ChartTicks + 2000
)

// fillHappenings gives the view those of the time that is shown.
func (s *Screen) fillHappenings() {
	v := &s.view
	s.recent, s.next = s.o.Loop.Happenings(s.recent, s.next)
	for len(s.recent) > recentMost || len(s.recent) > 0 && s.recent[0].Tick < s.flight.live.Tick-loop.FilmTicks-recentTicks {
		s.recent = s.recent[1:]
	}
	s.shown = s.shown[:0]
	for _, h := range s.recent { // a plug of the demo's or a script's radio is no plug in this machine
		if secret(&h) && s.place() != sheet.OnDesk {
			continue
		}
		if (h.Code != happening.Plug || s.driver.Who == drive.Radio) && h.Tick >= v.Snap.Tick-recentTicks && h.Tick <= v.Snap.Tick {
			s.shown = append(s.shown, h)
		}
	}
	v.Happenings = s.shown
}

// events reads the happenings of a practice once each.
type events struct {
	next uint64
	all  []happening.Happening
}

// since gives those that are new; valid until the next call.
func (e *events) since(l *loop.Loop) []happening.Happening {
	e.all, e.next = l.Happenings(e.all[:0], e.next)
	return e.all
}
