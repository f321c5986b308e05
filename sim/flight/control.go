package flight

import (
	"math"

	"propsoff.example/sim/vec"
)

// Degree is one degree in radians.
const Degree = math.Pi / 180

// CutOff is the time constant in s of a first-order filter with a cut-off in Hz.
func CutOff(hertz float64) float64 { return 1 / vec.Mul(2*math.Pi, hertz) }

// DefaultControl has the shipped numbers (ours): stick curves of 420°/s with exponential 0.25 for roll and pitch and 260°/s
// with 0.15 for yaw, a bank limit of 40°, and gains tuned on the shipped craft. Fit gives it the craft.
func DefaultControl() Control {
	return Control{
		Curve: [3]Curve{
			{Full: vec.Mul(420, Degree), Exponential: 0.25}, {Full: vec.Mul(420, Degree), Exponential: 0.25}, {Full: vec.Mul(260, Degree), Exponential: 0.15},
		},
		BankLimit: vec.Mul(40, Degree), Level: 7, LevelMost: vec.Mul(300, Degree),
		Gains: [3]Gains{
			{Proportional: 28, Integral: 100, Derivative: 0.8}, {Proportional: 28, Integral: 100, Derivative: 0.8},
			{Proportional: 16, Integral: 60, Derivative: 0.5},
		},
		IntegralMost: 60, Filter: CutOff(60), FadeBelow: 0.1, LeastSpeed: 0.08,
	}
}

// Fit tells the loops of the craft: inertia in kg·m², how quickly air ends a turn (1/s, as Drag), arms in m, thrust (N) and reaction torque
// (N·m) of one motor at full speed, the time by which its inertia turns the craft before the air does (s, as Lead), and the directions of
// the motors.
func (c *Control) Fit(inertia, drag vec.V, forward, right, thrust, torque, lead float64, turns [Motors]int8) {
	c.Inertia, c.Drag, c.ArmForward, c.ArmRight, c.FullThrust, c.FullTorque, c.Lead, c.Turns = inertia, drag, forward, right, thrust, torque, lead, turns
}

// Limits is the box of crafts that the shipped gains fly: every corner of it is tested. Masses in kg, lags in s, inertias about
// forward, right and down in kg·m².
type Limits struct {
	MassLow, MassHigh       float64
	InertiaLow, InertiaHigh vec.V
	LagLow, LagHigh         float64
}

// Box gives the limits that a craft file must keep to.
func Box() Limits {
	return Limits{
		MassLow: 0.2, MassHigh: 0.9, LagLow: 0.01, LagHigh: 0.06,
		InertiaLow: vec.V{X: 0.8e-3, Y: 0.9e-3, Z: 1.5e-3}, InertiaHigh: vec.V{X: 5.3e-3, Y: 5.8e-3, Z: 9.5e-3},
	}
}
