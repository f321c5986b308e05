package facts

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/vec"
)

// Place is where the craft is. One that has just left the ground has not, as far as anybody sees.
func (f *Facts) Place() happening.Place {
	s := &f.Snap
	p := sim.PlaceOf(&s.In, &s.Air)
	if p == happening.Free && s.In.Air && !s.Air.Flying && OnGround(s, &f.Craft.Body) {
		return happening.OnGround
	}
	return p
}

// Clearance is how far the craft's lowest corner is above the ground, m.
func Clearance(s *sim.Snapshot, cfg *body.Config) float64 {
	low := math.Inf(1)
	att := s.Air.Body.Att.Unit()
	for i := range 2 * flight.Motors {
		side := func(bit int) float64 { return float64(1 - 2*(i>>bit&1)) }
		corner := vec.V{X: cfg.ArmForward, Y: cfg.ArmRight, Z: cfg.HalfHeight}.Times(vec.V{X: side(0), Y: side(1), Z: side(2)})
		low = min(low, -s.Air.Body.Pos.Z-att.Turn(corner).Z)
	}
	return max(low, 0)
}

// OnGround tells whether the craft touches the ground, or nearly so: 2 cm (ours).
func OnGround(s *sim.Snapshot, cfg *body.Config) bool { return Clearance(s, cfg) < 0.02 }

// Held tells whether a craft's height is held, or is to be once it is armed: one that sinks is let go, and one that has broken lies where it is.
func Held(s *sim.Snapshot) bool { return s.In.Held && !s.Sinking && s.Air.Wreck == 0 }

// Bare tells whether no propeller is fitted.
func Bare(s *sim.Snapshot) bool { return s.In.Hands == [flight.Motors]int8{} }

// InWash tells whether some propeller falls into its own wash, of which nothing is worked out.
func InWash(s *sim.Snapshot, cfg *body.Config) bool {
	craft := *cfg
	craft.Hand = s.In.Hands
	return s.In.Air && craft.InWash(&s.Air.Body, s.Air.Wind)
}

// Dying tells whether the pack is empty and its voltage falls away.
func Dying(s *sim.Snapshot, cfg *body.Config) bool {
	p := &cfg.Pack
	return s.In.Air && p.Nominal > 0 && p.Dies > 0 && s.Air.Body.Used > p.Charge
}
