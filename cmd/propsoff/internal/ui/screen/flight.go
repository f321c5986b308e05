package screen

import (
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// flight is the work behind the flying craft: the pace of its time, where it has been, and the look back.
type flight struct {
	s *Screen
	// live is the practice as it is, also while something older is shown.
	Live sim.Snapshot
	told Events
	// slow is by how many times slower than life time runs when it runs: 1, 4 or 10; paused, that it stands.
	slow   int
	paused bool
	own    Track
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
	stepOn = live.StepTicks * 1000
)

func newFlight(s *Screen) *flight { return &flight{s: s, slow: 1} }

// turn follows the practice.
func (f *flight) turn() {
	f.s.Options.Loop.Snapshot(&f.Live)
	for _, h := range f.told.Since(f.s.Options.Loop) {
		if h.Code == happening.Moved {
			f.own.Cut(h.Tick)
		}
	}
	if !f.Live.In.Air && !f.s.DeskUsed && f.s.Options.Loop.Pace() != live.Running { // there is no key for it on the desk bench
		*f = flight{s: f.s, Live: f.Live, told: f.told, slow: 1, own: f.own}
		f.pace()
	}
	f.playOn()
}

// pace tells the loop how time runs.
func (f *flight) pace() {
	p := live.Running
	switch {
	case f.paused || f.replay.on:
		p = live.Paused
	case f.slow == 4:
		p = live.Quarter
	case f.slow == 10:
		p = live.Tenth
	}
	f.s.Options.Loop.SetPace(p)
}

// Resume lets time run again: what is done to the craft now is to be seen.
func (f *flight) Resume() {
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
	now := f.s.Options.Loop.Clock().Now()
	if passed := min(now-r.clock, longestTurn); !r.standing {
		r.at += passed / int64(f.slow)
	}
	r.clock = now
	f.seek(r.at)
}

// reach is how far back there is something to look at: to the last time that the craft was carried, 30 s at most.
func (f *flight) reach() bool {
	from, to, ok := f.s.Options.Loop.Reach()
	from = max(from, f.own.From)
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
func (f *flight) act(a ui.Action) bool {
	r := &f.replay
	switch a {
	case ui.Leave: // of the look back, before the program is left
		if !r.on || f.s.Place() != ui.OnBench && f.s.Place() != ui.OnDesk {
			return false
		}
		a = ui.ReplayFlight
	case ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight, ui.StandAgain:
		if !f.Live.In.Air && (!f.s.DeskUsed || a == ui.StandAgain) {
			return true
		}
	}
	switch a {
	case ui.PauseFlight:
		if !r.on {
			f.paused = !f.paused
			break
		}
		r.standing = !r.standing
		if r.at >= r.to { // again from the beginning
			r.at, r.standing = r.from, false
		}
	case ui.SlowFlight:
		f.slow = ui.NextSlow(f.slow)
	case ui.StepFlight:
		switch {
		case r.on && r.standing:
			f.seek(r.at + stepOn)
		case !r.on && f.paused:
			f.s.Options.Loop.StepOn()
		}
	case ui.ReplayFlight:
		f.lookBack()
	case ui.StandAgain:
		if !f.s.Played() {
			f.Carry(1)
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
	*r = replay{on: true, at: r.from, from: r.from, to: r.to, clock: f.s.Options.Loop.Clock().Now()}
}

// Carry takes the craft to the air bench (1) or the desk bench (0), where it stands as at first. One that is on the air bench is
// taken back there.
func (f *flight) Carry(air int32) {
	f.Resume()
	put := f.s.Options.Loop.Desk().Put
	if f.Live.In.Air {
		put(pulse.Air, 0)
	}
	if air == 1 {
		put(pulse.Air, 1)
	}
}

// key moves the look back; false leaves the key.
func (f *flight) key(name string) bool {
	if !f.replay.on || f.s.Place() != ui.OnBench && f.s.Place() != ui.OnDesk {
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
func (f *flight) fill(v *ui.View) {
	f.Live = v.Snap
	if !f.Live.In.Air && !f.s.DeskUsed {
		v.Flight = ui.FlightView{Trail: v.Flight.Trail[:0], Followed: v.Flight.Followed[:0]}
		return
	}
	f.own.Follow(f.s.Options.Loop.Seen, &f.s.Config)
	r := &f.replay
	v.Flight.Pace = ui.Pace{Paused: f.paused, Slow: f.slow}
	v.Flight.Replay = ui.Replay{}
	if place := f.s.Place(); r.on && (place == ui.OnBench || place == ui.OnDesk) && f.s.Options.Loop.Moment(&v.Snap, r.at/1000) {
		v.Flight.Pace.Paused = r.standing
		v.Flight.Replay = ui.Replay{On: true, At: (r.at - r.from) / 1000, Length: (r.to - r.from) / 1000}
		v.Refusals = nil
		v.Chart = v.Chart[:0]
		f.s.Options.Loop.Moments(v.Snap.Tick-live.ChartTicks, v.Snap.Tick, func(s *sim.Snapshot) {
			v.Chart = append(v.Chart, live.PointOf(s))
		})
	}
	v.Flight.Trail = f.own.Trail
	v.Flight.Followed = f.own.followedTo(v.Snap.Tick)
}

// Played reports whether a script or take drives and has not ended: nothing may change what is on the bench then.
func (s *Screen) Played() bool { return s.Driving.Who == whodrives.Script && !s.Driving.Ended }

// recentMost is how many happenings are kept for the chart, recentTicks how far they go back from what is shown (ours).
const (
	recentMost  = 1024
	recentTicks = live.ChartTicks + 2000
)

// fillHappenings gives the view those of the time that is shown.
func (s *Screen) fillHappenings() {
	v := &s.view
	s.recent, s.next = s.Options.Loop.Happenings(s.recent, s.next)
	for len(s.recent) > recentMost || len(s.recent) > 0 && s.recent[0].Tick < s.Flight.Live.Tick-live.FilmTicks-recentTicks {
		s.recent = s.recent[1:]
	}
	s.shown = s.shown[:0]
	for _, h := range s.recent { // a plug of the demo's or a script's radio is no plug in this machine
		if secret(&h) && s.Place() != ui.OnDesk {
			continue
		}
		if (h.Code != happening.Plug || s.Driving.Who == whodrives.Radio) && h.Tick >= v.Snap.Tick-recentTicks && h.Tick <= v.Snap.Tick {
			s.shown = append(s.shown, h)
		}
	}
	v.Happenings = s.shown
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
