// Package lossrun measures what a craft does from the radio's last frame on, and what it takes to arm it again: three
// receivers side by side, the same hands.
//
// Run is the measurement, one for each craft, fed with what every tick brought. Set is the three crafts, Pilot the hands of
// somebody who cannot fly, Demonstrate the whole of it without a window. None reads a clock.
package lossrun

import (
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/vec"
)

// Phase is how far a demonstration has come.
type Phase uint8

const (
	Waiting Phase = iota // the radio has not gone off yet
	Off                  // it is silent
	Back                 // it is heard again
)

// NotYet is the tick of what has not happened.
const NotYet = -1

// Stand is how a craft stood at one tick: on the air bench its height in m above the ground as its middle is over it, its
// speed upwards in m/s, its place and attitude.
type Stand struct {
	Armed, Turning, Link, Air, Hung, Flying bool
	Height, Climb                           float64
	Place                                   vec.V
	Att                                     vec.Q
}

// Run is one craft's time from the radio's last frame on. It is a plain value; all times are ticks, or NotYet. Begin with
// NewRun.
type Run struct {
	Phase Phase
	// Last is the tick of the radio's last frame, NotYet before the first; Off the first tick without the radio, so between
	// them lies at most one slot. Limit is the tick at which a receiver that falls silent has been silent for the silence limit.
	Last, Off, Limit int64
	// Before is the craft in the tick before Off.
	Before Stand
	// Lost: the craft took the link for lost. Sinking: it began to sink. Disarmed: it was disarmed, first by Cause. Stopped: its
	// motors stand still since. All since Off.
	Lost, Sinking, Disarmed, Stopped int64
	Cause                            happening.Cause
	// ByItself: it became armed while the radio was silent.
	ByItself int64
	// Falls is how it stood when the motors stopped.
	Falls Stand
	// Down: it touched the ground for the first time, at Speed m/s altogether and Downward m/s of it downwards, from Top m (its greatest height in that
	// flight), Away m over the ground from where it was at Off.
	Down                       int64
	Speed, Downward, Top, Away float64
	// Broke: it broke as it came down.
	Broke int64
	// Back: the radio was heard again. Heard and Clean: the craft took the link for there again, and for good. Free: nothing
	// refuses arming since; it stays once it was armed anew (Again).
	Back, Heard, Clean, Free, Again int64
	// Link, Arms and Turns are when the craft took the link for there, was armed, and had turning motors.
	Link, Arms, Turns Band

	silence int64 // ticks of the silence limit
	newest  int64 // the last slot that brought a frame of the radio's
	speed   float64
	now     Stand
}

// Band is when something stood, as the ticks at which it changed, beginning with how it stood at first.
type Band struct {
	First bool
	N     int
	At    [24]int64
}

// note adds a change to on at a tick. Beyond its room the last change is forgotten in its place, so that how it stands now holds.
func (b *Band) note(on bool, tick int64) {
	switch {
	case on == b.Now():
	case b.N == len(b.At):
		b.N--
	default:
		b.At[b.N] = tick
		b.N++
	}
}

// Now is how it stands after the last change.
func (b *Band) Now() bool { return b.First == (b.N%2 == 0) }

// NewRun begins with a craft.
func NewRun(cfg *sim.Config) Run {
	r := Run{silence: int64(cfg.Link.SilenceSlots) * int64(cfg.SlotTicks), newest: NotYet}
	r.forget()
	return r
}

// forget forgets what was measured.
func (r *Run) forget() {
	*r = Run{
		silence: r.silence, newest: r.newest, now: r.now, Last: r.newest,
		Off: NotYet, Limit: NotYet, Lost: NotYet, Sinking: NotYet, Disarmed: NotYet, Stopped: NotYet, ByItself: NotYet, Down: NotYet, Broke: NotYet,
		Back: NotYet, Heard: NotYet, Clean: NotYet, Free: NotYet, Again: NotYet,
	}
}

// Step takes in one tick: the snapshot after it, whether a slot ran in it, and what happened.
func (r *Run) Step(s *sim.Snapshot, slot bool, happened []happening.Happening) {
	on := s.In.Transmitting()
	switch {
	case on && r.Phase == Off:
		r.Phase, r.Back = Back, s.Tick
	case !on && r.Phase != Off && r.newest != NotYet: // after Back it begins anew
		r.begin(s.Tick)
	}
	if on && slot {
		r.newest = s.Tick
	}
	was := r.now
	r.now = standOf(s)
	if r.Phase == Waiting {
		r.Last, r.speed = r.newest, s.Air.Body.Vel.Norm()
		return
	}
	for i := range happened {
		r.happen(&happened[i])
	}
	r.watch(s, &was)
}

// begin starts the time at the first tick without the radio. What was measured before counts no more.
func (r *Run) begin(tick int64) {
	r.forget()
	r.Phase, r.Off, r.Before = Off, tick, r.now
	r.Limit = r.Last + r.silence
	n := &r.now
	r.Link, r.Arms, r.Turns = Band{First: n.Link}, Band{First: n.Armed}, Band{First: n.Turning}
}

func (r *Run) happen(h *happening.Happening) {
	first := func(at *int64) {
		if *at == NotYet {
			*at = h.Tick
		}
	}
	switch h.Code {
	case happening.LinkLost:
		first(&r.Lost)
		r.Link.note(false, h.Tick)
	case happening.LinkBack:
		r.Heard = h.Tick
		r.Link.note(true, h.Tick)
	case happening.LinkClean:
		r.Clean = h.Tick
	case happening.Sinking:
		first(&r.Sinking)
	case happening.Disarmed:
		if r.Disarmed == NotYet {
			r.Disarmed, r.Cause = h.Tick, happening.Cause(h.A)
		}
	case happening.Armed:
		if r.Phase == Off {
			first(&r.ByItself)
		} else {
			first(&r.Again)
		}
	case happening.TouchedDown:
		if r.Down == NotYet {
			r.Down, r.Downward, r.Top = h.Tick, float64(h.A)/1000, float64(h.B)/1000
			r.Speed = max(r.speed, r.Downward)
			r.Away = across(r.now.Place, r.Before.Place)
		}
	case happening.Broke:
		first(&r.Broke)
	}
}

// watch follows what is no happening: motors, speed, and whether anything refuses arming.
func (r *Run) watch(s *sim.Snapshot, was *Stand) {
	r.Arms.note(r.now.Armed, s.Tick)
	r.Turns.note(r.now.Turning, s.Tick)
	r.speed = s.Air.Body.Vel.Norm()
	switch {
	case r.now.Turning && r.Phase == Off:
		r.Stopped = NotYet
	case !r.now.Turning && was.Turning && r.Stopped == NotYet:
		r.Stopped, r.Falls = s.Tick, r.now
	}
	switch free := r.Phase == Back && r.newest >= r.Back && !s.Armed && s.In.Powered && s.Refusals == 0; {
	case free && r.Free == NotYet:
		r.Free = s.Tick
	case !free && r.Again == NotYet:
		r.Free = NotYet
	}
}

// Touched tells whether the silence has changed anything about the craft.
func (r *Run) Touched() bool {
	return r.Lost != NotYet || r.Sinking != NotYet || r.Disarmed != NotYet || r.ByItself != NotYet || r.Stopped != NotYet
}

// WasArmed tells whether the craft was armed at any time of the silence before it was armed once the radio was back.
func (r *Run) WasArmed() bool {
	return r.Arms.First || r.Arms.N > 0 && r.Arms.At[0] < r.Again
}

// StayedArmed tells whether the silence left the craft armed as it was: if it was disarmed at all, then by the hands once the radio was back.
func (r *Run) StayedArmed() bool {
	byHand := r.Back != NotYet && r.Disarmed > r.Back && (r.Cause == happening.BySwitch || r.Cause == happening.BySticks)
	return r.Arms.First && (r.Disarmed == NotYet || byHand)
}

// Since is a tick as ms since the radio went off; negative is before. It is not ok while either has not happened.
func (r *Run) Since(tick int64) (ms int64, ok bool) {
	if tick == NotYet || r.Off == NotYet {
		return 0, false
	}
	return tick - r.Off, true
}

func standOf(s *sim.Snapshot) Stand {
	p := Stand{Armed: s.Armed, Turning: turning(s), Link: s.Link.Up(), Air: s.In.Air}
	if s.In.Air {
		b := &s.Air.Body
		p.Hung, p.Flying, p.Height, p.Climb, p.Place, p.Att = s.In.Hung, s.Air.Flying, -b.Pos.Z, -b.Vel.Z, b.Pos, b.Att
	}
	return p
}

func turning(s *sim.Snapshot) bool { return s.Motor != [flight.Motors]uint16{} }

// across is the distance of two places over the ground, m.
func across(a, b vec.V) float64 {
	d := a.Sub(b)
	d.Z = 0
	return d.Norm()
}
