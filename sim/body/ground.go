package body

import (
	"math"

	"propsoff.example/sim/vec"
)

// slide is the speed below which friction falls to nothing in a straight line, m/s (ours): Coulomb's law has a jump there,
// which no integrator likes.
const slide = 0.05

// ground adds what the ground does to the eight corners of the craft: four feet below the motors and four points above
// them, each a spring with damping and friction. A craft lands on its feet, slides, tips over, and lies on its top. The force is
// k·d·(1 + c·ḋ) (Hunt and Crossley, 1975; from memory): it begins at nothing where a corner touches, so that no step of the integrator meets a jump.
func (cfg *Config) ground(s *State, att *vec.Frame, force, torque *vec.V) {
	if cfg.above(s) {
		return
	}
	for i := range 2 * Motors {
		arm := cfg.corner(i)
		out := att.Out(arm)
		deep := s.Pos.Z + out.Z
		if deep <= 0 {
			continue
		}
		v := s.Vel.Add(att.Out(s.Spin.Cross(arm)))
		up := vec.Mul(vec.Mul(cfg.Stiffness, deep), 1+vec.Mul(cfg.Damping, v.Z))
		if up <= 0 {
			continue // the ground pushes, it never pulls
		}
		f := vec.V{Z: -up}
		along := vec.V{X: v.X, Y: v.Y}
		f = f.Plus(-vec.Mul(cfg.Friction, up)/max(along.Norm(), slide), along)
		*force = force.Add(f)
		*torque = torque.Add(arm.Cross(att.In(f)))
	}
}

// above reports whether the craft is too high for any corner, or any blade, to touch the ground; that of a box round them is high enough.
func (cfg *Config) above(s *State) bool {
	return s.Pos.Z < -(cfg.ArmForward + cfg.ArmRight + vec.Mul(0.5, cfg.Diameter) + cfg.HalfHeight)
}

// corner is where corner i is, in body axes: the feet first, then the points above.
func (cfg *Config) corner(i int) vec.V {
	x, y := cfg.place(i % Motors)
	if i < Motors {
		return vec.V{X: x, Y: y, Z: cfg.HalfHeight}
	}
	return vec.V{X: x, Y: y, Z: -cfg.HalfHeight}
}

// Contact is what of a craft touches the ground.
type Contact struct {
	// Any: some corner touches. Top: one of those above the motors does.
	Any, Top bool
	// Blade: the circle of a propeller that turns reaches the ground.
	Blade bool
}

// turns is the share of full speed from which on a propeller that meets the ground counts as turning (ours).
const turns = 0.05

// Contact looks what touches the ground.
func (cfg *Config) Contact(s *State) (c Contact) {
	if cfg.above(s) {
		return c
	}
	// The lowest point of a circle lies half its diameter times the sine of its tilt below its middle.
	down := s.Att.Turn(vec.V{Z: 1}).Z
	low := vec.Mul(vec.Mul(0.5, cfg.Diameter), math.Sqrt(max(1-vec.Mul(down, down), 0)))
	for i := range 2 * Motors {
		deep := s.Pos.Z + s.Att.Turn(cfg.corner(i)).Z
		c.Any = c.Any || deep > 0
		if i < Motors {
			continue
		}
		c.Top = c.Top || deep > 0
		m := i - Motors // propellers sit above their motors
		c.Blade = c.Blade || cfg.Hand[m] != 0 && s.Speed[m] > vec.Mul(turns, cfg.FullSpeed) && deep+low > 0
	}
	return c
}
