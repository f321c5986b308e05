package sim

import (
	"math"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
	"propsoff.example/sim/wind"
)

// gust is what a nudge gives a craft on the air bench: a turn to the right, rad/s (ours): in angle it comes level again, in
// rate it keeps the bank it was given.
const gust = 6

// step is the length of one tick in s.
const step = 0.001

// AirState is the craft on the air bench: its body, its control loops, what the sticks ask of it, and what has been said of its flight.
type AirState struct {
	Body  body.State
	Loops flight.ControlState
	Asked flight.Asked
	// Clear is how many ticks in a row nothing of it has touched the ground, up to clearFor.
	Clear uint16
	// Hold is the height at which the craft is held where it is, m.
	Hold float64
	// Flying: it has left the ground and not come down since. Top is its greatest height since then, m.
	Flying bool
	Top    float64
	// Tipped: it has been said that it lies on its side.
	Tipped bool
	// Lifts: its motors have carried it since it last touched the ground.
	Lifts bool
	// Wreck is what has broken it; its motors stand still until it is put back.
	Wreck happening.Breakage
	// Gusts are those of the wind, Wind is how the air moves now, m/s in world axes.
	Gusts wind.State
	Wind  vec.V
}

// Marks of the record (ours): a craft has taken off when its middle is 5 cm above the height at which no corner can touch, and
// lies on its side from 60° on; it moves when it turns faster than 0.3 rad/s or drifts faster than 0.1 m/s; and it breaks when it touches
// the ground faster than TooFast, in m/s.
const (
	TooFast    = 5.0
	clearOf    = 0.05
	clearFor   = 200 // ticks: less is a bounce
	sideCosine = 0.5
	turning    = 0.3
	drifting   = 0.1
)

// PlaceOf is where a craft is.
func PlaceOf(in *Inputs, a *AirState) happening.Place {
	switch {
	case in.Hung:
		return happening.OnStand
	case a.Wreck != 0:
		return happening.Broken
	case in.Air && !a.Flying && a.Clear == 0:
		return happening.OnGround
	}
	return happening.Free
}

// conditions are what the craft knows about itself now: on the desk bench as told, on the air bench by its own senses too.
func (b *Bench) conditions() arming.Conditions {
	c := b.s.In.Craft
	if !b.s.In.Air {
		return c
	}
	s := &b.s.Air.Body
	c.PropellersUnchecked = !b.s.In.Checked
	cos := b.senses().Turn(vec.V{Z: 1}).Z
	sin := math.Sqrt(max(1-vec.Mul(cos, cos), 0))
	c.TiltTenths = max(c.TiltTenths, int16(vec.Mul(vec.Arc(sin, cos), 1800/math.Pi)))
	c.Moved = c.Moved || s.Spin.Norm() > turning || s.Vel.Norm() > drifting
	if c.PackMilliVolts == 0 {
		c.PackMilliVolts = uint16(vec.Mul(b.cfg.Body.Volts(s, b.s.In.Powered), 1000))
	}
	return c
}

// fly steps the control loops and the body by one tick.
func (b *Bench) fly(log *happening.Log) {
	s, cfg := &b.s, &b.cfg
	a := &s.Air
	in := body.Input{On: s.In.Powered}
	if s.In.Wind != 0 {
		a.Gusts, a.Wind = wind.Step(&b.weather, a.Gusts, -a.Body.Pos.Z)
		in.Wind = a.Wind
	}
	if s.In.Powered {
		ask := b.flown()
		a.Loops, a.Asked, in.Command = flight.Fly(&cfg.Control, a.Loops, &ask, step)
		for i, c := range in.Command {
			s.Motor[i] = uint16(vec.Mul(c, flight.FullSpeed))
		}
	} else {
		a.Loops, a.Asked = flight.ControlState{}, flight.Asked{}
	}
	craft := cfg.Body
	craft.Hand = s.In.Hands
	if s.In.Hung {
		b.swing(&craft, &in)
		return
	}
	was := a.Body
	a.Body = body.Step(&craft, was, &in, step)
	if b.helped() && s.Slot.Arming.Sink == 0 && a.Wreck == 0 {
		b.carryLevel(&was)
	}
	b.watchGround(&craft, was.Vel, log)
}

// flown is what the sticks of the last valid frame ask of a craft in flight; a sinking craft levels itself.
func (b *Bench) flown() flight.ControlInput {
	s, cfg := &b.s, &b.cfg
	l, f := &cfg.Layout, &s.LastValid
	mode := s.Slot.Layout.Mode
	in := flight.ControlInput{
		Roll: travel(f[l.Roll]), Pitch: travel(f[l.Pitch]), Yaw: travel(f[l.Yaw]),
		Throttle: float64(b.throttle()) / pulse.ThrottleFull,
		Base:     float64(s.Motor[0]) / flight.FullSpeed,
		Mode:     mode, AirAwake: s.Flight.AirAwake && cfg.Flight.AirModes>>mode&1 == 1,
		Att: b.senses(), Spin: s.Air.Body.Spin,
	}
	if s.Slot.Arming.Sink > 0 {
		in.Roll, in.Pitch, in.Yaw, in.Mode, in.AirAwake = 0, 0, 0, layout.Angle, true
	}
	return in
}

// travel is where a stick stands, from −1 to 1.
func travel(w pulse.Width) float64 {
	if !w.Valid() {
		return 0
	}
	return min(max(float64(w-pulse.Centre)/float64(pulse.Travel), -1), 1)
}

// senses is the attitude that the craft takes itself to have.
func (b *Bench) senses() vec.Q {
	att := b.s.Air.Body.Att
	if b.s.In.LevelOff == 0 {
		return att
	}
	bank, nose := pulse.LevelOffOf(b.s.In.LevelOff)
	const half = flight.Degree / 20 // of a tenth of a degree
	return att.Mul(vec.Q{W: 1, X: -vec.Mul(half, float64(bank)), Y: -vec.Mul(half, float64(nose))}.Unit())
}

// blow makes the wind as it was last told, as it is at any moment.
func (b *Bench) blow() {
	b.forecast()
	a := &b.s.Air
	a.Gusts, a.Wind = wind.Begin(&b.weather), vec.V{}
}

// forecast makes ready what follows from the wind that was last told alone, and so is no part of the state.
func (b *Bench) forecast() {
	if b.blows == b.s.In.Wind {
		return
	}
	b.blows = b.s.In.Wind
	tenths, from, gusts, chance := pulse.WindOf(b.blows)
	air := wind.Air{Speed: float64(tenths) / 10, From: vec.Mul(float64(from), flight.Degree), Seed: uint64(chance)}
	if gusts {
		air.Gusts = 1
	}
	b.weather = wind.New(air, step)
}

// watchGround notes take-off, touch-down, tipping over and breaking. was is the velocity before this tick.
func (b *Bench) watchGround(craft *body.Config, was vec.V, log *happening.Log) {
	s := &b.s
	a := &s.Air
	contact := craft.Contact(&a.Body)
	height := -a.Body.Pos.Z
	came := contact.Any && a.Clear > 0
	if contact.Any {
		a.Clear, a.Lifts = 0, false
	} else {
		a.Clear = min(a.Clear+1, clearFor)
	}
	if a.Clear < clearFor && !a.Lifts {
		a.Lifts = b.helped() || craft.Lift(&a.Body, a.Wind) > vec.Mul(craft.Mass, body.Gravity)
	}
	switch {
	case a.Flying && contact.Any:
		log.Add(s.Tick, happening.TouchedDown, int32(vec.Mul(max(was.Z, 0), 1000)), int32(vec.Mul(a.Top, 1000)))
		a.Flying, a.Top = false, 0
	case a.Flying:
		a.Top = max(a.Top, height)
	case a.Clear == clearFor && height > craft.HalfHeight+clearOf && s.Slot.Arming.Armed && a.Lifts:
		a.Flying, a.Top, a.Tipped = true, height, false
		log.Add(s.Tick, happening.TookOff, 0, 0)
	}
	if contact.Any && s.In.Held && !s.Slot.Arming.Armed {
		a.Hold = HeldHigh // however high it was held before
	}
	down := a.Body.Att.Turn(vec.V{Z: 1}).Z
	if contact.Any && !a.Tipped && down < sideCosine {
		a.Tipped = true
		log.Add(s.Tick, happening.TippedOver, 0, 0)
	}
	if a.Wreck != 0 {
		return
	}
	if contact.Blade {
		a.Wreck |= happening.ByBlade
	}
	if contact.Top && down < 0 {
		a.Wreck |= happening.OnTop
	}
	if came && was.Norm() > TooFast {
		a.Wreck |= happening.TooFast
	}
	if a.Wreck != 0 {
		if s.Motor == ([flight.Motors]uint16{}) {
			a.Wreck |= happening.MotorsOff
		}
		log.Add(s.Tick, happening.Broke, int32(a.Wreck), int32(vec.Mul(was.Norm(), 1000)))
	}
}
