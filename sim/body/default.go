package body

import (
	"math"

	"propsoff.example/sim/vec"
)

// RPM is one turn a minute in rad/s.
const RPM = 2 * math.Pi / 60

// PerSquare is what the square of a motor's speed (rad/s) must be multiplied by to give v (N or N·m) at the speed full.
func PerSquare(v, full float64) float64 { return v / vec.Mul(full, full) }

// Directions are the ways in which the four motors turn, equal ones on a diagonal; frontLeft says whether the front left one
// turns clockwise as seen from above.
func Directions(frontLeft bool) [Motors]int8 {
	if frontLeft {
		return [Motors]int8{1, -1, -1, 1}
	}
	return [Motors]int8{-1, 1, 1, -1}
}

// Default is the shipped craft, of about half a kilogramme (all numbers ours). They hang together: thrust and torque are
// 6.55 N and 0.055 N·m at 24,800 turns a minute, those of a 127 mm propeller with thrust coefficient 0.12 and power coefficient 0.05 in air of 1.225 kg/m³ (T = C_T·ρ·n²·D⁴,
// P = C_P·ρ·n³·D⁵), so that four of them carry the craft at 41 % of full speed and lift six times its weight at full; the
// propellers' current is that power at 75 % of efficiency, and with what motors and electronics take besides a hover empties the pack
// in 11 minutes; a climb off hover settles with a time constant of 1.6 s; and a craft that falls without motors ends at about 17 m/s.
func Default() Config {
	full := vec.Mul(24800, RPM)
	return Config{
		Mass: 0.45, Inertia: vec.V{X: vec.Mul(2.1, 1e-3), Y: vec.Mul(2.3, 1e-3), Z: vec.Mul(3.8, 1e-3)},
		ArmForward: 0.08, ArmRight: 0.08, HalfHeight: 0.025,
		FullSpeed: full, Lag: 0.03,
		Thrust: PerSquare(6.55, full), Torque: PerSquare(0.055, full), Reversed: 0.5,
		Diameter: 0.127, Idle: 0.9, RotorDrag: vec.Mul(2.5, 1e-5), Turning: vec.Mul(7, 1e-6),
		Turns: Directions(true), Hand: Directions(true),
		Drag1: 0.05, Drag2: 0.012, Spin1: 2e-4, Spin2: 1e-5,
		Stiffness: 2000, Damping: 3, Friction: 0.6,
		Pack: Pack{Full: 16.8, Empty: 13, Nominal: 14.8, Charge: vec.Mul(1300, 3.6), Resistance: 0.04, Current: 12.9, NoLoad: 1.6, Electronics: 0.9, Dies: 0.03},
	}
}
