package body

import (
	"math"

	"propsoff/sim/vec"
)

// slide is the speed below which friction falls to nothing in a straight line, m/s (ours): Coulomb's law has a jump there,
// which no integrator likes.
const slide = 0.05

// ground adds what the ground does to the eight corners of the craft: four feet below the motors and four points above
// them, each a spring with damping and friction. A craft lands on its feet, slides, tips over, and lies on its top.
func (cfg *Config) ground(s *State, att vec.Q, force, torque *vec.V) {
	reach := math.Sqrt(vec.Mul(cfg.ArmForward, cfg.ArmForward) + vec.Mul(cfg.ArmRight, cfg.ArmRight) + vec.Mul(cfg.HalfHeight, cfg.HalfHeight))
	if s.Pos.Z < -reach {
		return
	}
	for i := range 2 * Motors {
		x, y := cfg.place(i % Motors)
		z := cfg.HalfHeight
		if i >= Motors {
			z = -z
		}
		arm := vec.V{X: x, Y: y, Z: z}
		out := att.Turn(arm)
		deep := s.Pos.Z + out.Z
		if deep <= 0 {
			continue
		}
		v := s.Vel.Add(att.Turn(s.Spin.Cross(arm)))
		up := vec.Mul(cfg.Stiffness, deep) + vec.Mul(cfg.Damping, v.Z)
		if up <= 0 {
			continue // the ground pushes, it never pulls
		}
		f := vec.V{Z: -up}
		along := vec.V{X: v.X, Y: v.Y}
		f = f.Plus(-vec.Mul(cfg.Friction, up)/max(along.Norm(), slide), along)
		*force = force.Add(f)
		*torque = torque.Add(arm.Cross(att.Back(f)))
	}
}

// Touching reports whether any corner of the craft touches the ground.
func (cfg *Config) Touching(s *State) bool {
	for i := range 2 * Motors {
		x, y := cfg.place(i % Motors)
		z := cfg.HalfHeight
		if i >= Motors {
			z = -z
		}
		if s.Pos.Z+s.Att.Turn(vec.V{X: x, Y: y, Z: z}).Z > 0 {
			return true
		}
	}
	return false
}
