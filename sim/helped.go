package sim

import (
	"math"

	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// StandHigh is how high the ball joint of the stand is, m (ours: any craft turns over on it without touching the ground).
const StandHigh = 1.2

// HeldHigh is the height to which a craft that is armed on the ground is taken up where its height is held, m (ours: disarmed there, it comes down whole).
const HeldHigh = 1.0

// How a height is held (ours): where it is off by a metre it is put right at holdRate m/s, but never faster than holdMost, and the speed for that is there after holdLag s.
const (
	holdRate = 2.5
	holdMost = 0.8
	holdLag  = 0.08
)

// righting is how fast a disarmed craft swings back to level on the stand, 1/s (ours).
const righting = 6

// helped reports whether nobody's throttle counts: the craft is armed, and hangs on the stand or its height is held.
func (b *Bench) helped() bool {
	return (b.s.In.Hung || b.s.In.Held) && b.s.Slot.Arming.Armed
}

// throttle is the throttle fraction that counts, 0..pulse.ThrottleFull: that of the last valid frame, and for a craft that is helped the one at which
// its motors turn about as in a hover. Banked, a craft whose height is held is given as much more as carries it, up to twice its weight, and
// on its side or on its back nothing, as good hands would.
func (b *Bench) throttle() int {
	s, cfg := &b.s, &b.cfg
	if !b.helped() {
		return s.LastValid[cfg.Layout.Throttle].ThrottleFraction()
	}
	share := 1.0
	if s.In.Held {
		const most = 2
		if down := s.Air.Body.Att.Turn(vec.V{Z: 1}).Z; down > 1.0/most {
			share = 1 / down
		} else {
			share = vec.Mul(most*most, max(down, 0))
		}
	}
	speed := vec.Mul(cfg.Body.Carries(share, cfg.Body.Volts(&s.Air.Body, true)), flight.FullSpeed)
	idle := float64(cfg.Flight.IdleSpeed)
	return int(vec.Mul(min(max(speed-idle, 0)/(flight.FullSpeed-idle), 1), pulse.ThrottleFull))
}

// swing steps a craft on the stand. Whatever pushes it, its middle stays where it is, as if it were too heavy for anything but a turn.
// Disarmed it swings back to level, so that it can be armed again.
func (b *Bench) swing(craft *body.Config, in *body.Input) {
	craft.Mass, craft.Weightless = math.Inf(1), true
	a := &b.s.Air
	if !b.s.Slot.Arming.Armed {
		// A spring between its own down and that of the world, damped so that it comes to rest without swinging on.
		down := a.Body.Att.Back(vec.V{Z: 1})
		axis, n := vec.V{X: 1}, math.Sqrt(vec.Mul(down.X, down.X)+vec.Mul(down.Y, down.Y))
		if n > 1e-9 {
			axis = vec.V{X: -down.Y / n, Y: down.X / n}
		}
		in.Torque = craft.Inertia.Times(axis.Scale(vec.Mul(righting*righting, vec.Arc(n, down.Z))).Plus(-2*righting, a.Body.Spin))
	}
	a.Body = body.Step(craft, a.Body, in, step)
}

// carryLevel puts the craft of this tick at the height at which it is held, or on its way there; sideways it goes as it does.
func (b *Bench) carryLevel(was *body.State) {
	a := &b.s.Air
	want := min(max(vec.Mul(holdRate, -a.Hold-was.Pos.Z), -holdMost), holdMost)
	v := was.Vel.Z + vec.Mul(want-was.Vel.Z, step/holdLag)
	a.Body.Vel.Z, a.Body.Pos.Z = v, was.Pos.Z+vec.Mul(v, step)
}
