package flight

import (
	"math"

	"propsoff/sim/layout"
	"propsoff/sim/vec"
)

// Curve is the stick curve of one axis: rate(x) = Full·((1−e)·x + e·x³), the classic exponential; x from −1 to 1, Full in
// rad/s, e from 0 to 1.
type Curve struct{ Full, Exponential float64 }

// Rate is the rate that a stick at x asks for, rad/s.
func (c Curve) Rate(x float64) float64 {
	e := c.Exponential
	return vec.Mul(c.Full, vec.Mul(1-e, x)+vec.Mul(e, vec.Mul(x, vec.Mul(x, x))))
}

// Gains are those of one rate loop, which asks for an angular acceleration (rad/s²): Proportional in 1/s on the rate's
// error, Integral in 1/s² on its sum, Derivative (no unit) against the measured angular acceleration.
type Gains struct{ Proportional, Integral, Derivative float64 }

// Control is how attitude is flown. The edge makes it from the craft file.
type Control struct {
	// Curve is the stick curve of roll, pitch and yaw, in this order.
	Curve [3]Curve
	// BankLimit is the bank at full stick in angle, rad.
	BankLimit float64
	// Level is the rate asked for each radian of tilt error, 1/s, and LevelMost the most of it, rad/s.
	Level, LevelMost float64
	// Gains are those about forward, right and down.
	Gains [3]Gains
	// IntegralMost bounds each integral, rad/s².
	IntegralMost float64
	// Filter is the time constant of the first-order filter before the derivative, s.
	Filter float64
	// FadeBelow is the throttle (0…1) below which corrections fade in a straight line where air mode is not awake.
	FadeBelow float64
	// LeastSpeed is the slowest a motor is driven while corrections act, 0…1 of full speed.
	LeastSpeed float64
	// Inertia (kg·m²) and the fields below are what the mixer knows of the craft: how far each motor sits from the middle (m), thrust
	// (N) and reaction torque (N·m) of one motor at full speed, and each motor's direction as in body.Config.
	Inertia              vec.V
	ArmForward, ArmRight float64
	FullThrust           float64
	FullTorque           float64
	Turns                [Motors]int8
}

// ControlState is what the control loops remember. Its zero value is that of a craft with still motors.
type ControlState struct {
	// Integral is that of each rate loop, rad/s²; Smooth is the filtered rate, rad/s.
	Integral, Smooth vec.V
	Begun            bool
}

var _ = map[ControlState]struct{}{}

// ControlInput is what the control loops are given for one step.
type ControlInput struct {
	// Roll, Pitch and Yaw are the sticks, −1…1: right, forward and right are positive.
	Roll, Pitch, Yaw float64
	// Throttle is the throttle fraction, Base the motor speed that it asks for by itself, both 0…1; Base 0 stops the motors.
	Throttle, Base float64
	Mode           layout.Mode
	// AirAwake: air mode acts.
	AirAwake bool
	// Att and Spin are the attitude (body into world) and body rate, rad/s.
	Att  vec.Q
	Spin vec.V
}

// Asked is what the sticks ask of the craft, for the screen.
type Asked struct {
	// Rate is that about forward, right and down, rad/s.
	Rate vec.V
	// Level is the share of self-levelling in it: 1 in angle, 0 in rate.
	Level float64
	// Saturated: the motors cannot give all that is asked.
	Saturated bool
}

// Fly is one step of the control loops, dt seconds: sticks and attitude in, a speed for each motor out (0…1 of full speed).
func Fly(c *Control, s ControlState, in *ControlInput, dt float64) (ControlState, Asked, [Motors]float64) {
	if in.Base <= 0 { // still motors: nothing is asked of the craft
		return ControlState{}, Asked{}, [Motors]float64{}
	}
	ask := c.Ask(in)
	if !s.Begun {
		s.Smooth, s.Begun = in.Spin, true
	}
	was := s.Smooth
	s.Smooth = was.Plus(dt/(c.Filter+dt), in.Spin.Sub(was))
	accel := s.Smooth.Sub(was).Scale(1 / dt)
	err := ask.Rate.Sub(in.Spin)
	fade := 1.0
	if !in.AirAwake && in.Throttle < c.FadeBelow {
		fade = in.Throttle / c.FadeBelow
	}
	var want [3]float64
	e, a, sum := [3]float64{err.X, err.Y, err.Z}, [3]float64{accel.X, accel.Y, accel.Z}, [3]float64{s.Integral.X, s.Integral.Y, s.Integral.Z}
	for i := range want {
		g := &c.Gains[i]
		want[i] = vec.Mul(fade, vec.Mul(g.Proportional, e[i])+sum[i]-vec.Mul(g.Derivative, a[i]))
	}
	torque := c.Inertia.Times(vec.V{X: want[0], Y: want[1], Z: want[2]})
	speed, full := c.mix(vec.Mul(in.Base, in.Base), torque, in.AirAwake)
	ask.Saturated = full
	for i := range sum {
		step := vec.Mul(vec.Mul(c.Gains[i].Integral, e[i]), dt)
		// Anti-windup: while the motors cannot give more, an integral may only come back towards nothing; it fades with the
		// corrections.
		if full && step*sum[i] > 0 {
			step = 0
		}
		sum[i] = min(max(sum[i]+vec.Mul(fade, step), -c.IntegralMost), c.IntegralMost)
		if fade < 1 {
			sum[i] -= vec.Mul(vec.Mul(1-fade, sum[i]), min(vec.Mul(dt, 5), 1))
		}
	}
	s.Integral = vec.V{X: sum[0], Y: sum[1], Z: sum[2]}
	return s, ask, speed
}

// Horizon is angle up to horizonFrom of stick travel in whatever direction, rate from horizonTo on, and a smooth blend of both rates
// between (ours).
const (
	horizonFrom = 0.6
	horizonTo   = 0.98
)

// Ask is the rate asked for by sticks and attitude in the flight mode.
func (c *Control) Ask(in *ControlInput) Asked {
	// Stick forward is nose down: a negative rate about the axis to the right.
	yaw := c.Curve[2].Rate(in.Yaw)
	rate := vec.V{X: c.Curve[0].Rate(in.Roll), Y: -c.Curve[1].Rate(in.Pitch), Z: yaw}
	level := Levelling(in.Mode, in.Roll, in.Pitch)
	if level == 0 {
		return Asked{Rate: rate}
	}
	down := in.Att.Back(vec.V{Z: 1})
	asked := c.Tilt(in.Mode, in.Roll, in.Pitch)
	angle := tiltError(asked, down).Scale(c.Level)
	if n := angle.Norm(); n > c.LevelMost {
		angle = angle.Scale(c.LevelMost / n)
	}
	// Yaw turns about the vertical, so that a banked craft does not climb or dive by it.
	angle = angle.Plus(yaw, down)
	return Asked{Rate: rate.Scale(1-level).Plus(level, angle), Level: level}
}

// Levelling is the share of self-levelling in what a mode asks for at a stick, 0…1. A mode that is not named here has none.
func Levelling(m layout.Mode, roll, pitch float64) float64 {
	switch m {
	case layout.Angle:
		return 1
	case layout.Horizon:
		return 1 - smooth((min(math.Sqrt(vec.Mul(roll, roll)+vec.Mul(pitch, pitch)), 1)-horizonFrom)/(horizonTo-horizonFrom))
	}
	return 0
}

// Banks is the bank and the pitch, in rad, that the sticks ask for where a mode levels by itself: right and nose up are positive. All such
// modes have one limit so far.
func (c *Control) Banks(_ layout.Mode, roll, pitch float64) (bank, nose float64) {
	return vec.Mul(c.BankLimit, roll), -vec.Mul(c.BankLimit, pitch)
}

// Tilt is the direction of "down" in body axes that the sticks ask for there: that of a craft banked and pitched as asked,
// (−sin θ, cos θ·sin φ, cos θ·cos φ).
func (c *Control) Tilt(m layout.Mode, roll, pitch float64) vec.V {
	phi, theta := c.Banks(m, roll, pitch)
	ct := vec.Cosine(theta)
	return vec.V{X: -vec.Sine(theta), Y: vec.Mul(ct, vec.Sine(phi)), Z: vec.Mul(ct, vec.Cosine(phi))}
}

// tiltError is the turn of the body, as axis times angle in rad, that brings down to where asked wants it. At exactly half a turn
// any axis across would do; then it is the forward one (ours), a roll.
func tiltError(asked, down vec.V) vec.V {
	axis := asked.Cross(down)
	n := axis.Norm()
	cos := asked.Dot(down)
	if n < 1e-9 {
		if cos > 0 {
			return vec.V{}
		}
		return vec.V{X: math.Pi}
	}
	return axis.Scale(vec.Arc(n, cos) / n)
}

// smooth is t²·(3 − 2t) for t from 0 to 1: flat at both ends, so that horizon has no jump and no kink there (the textbook's smooth step).
func smooth(t float64) float64 {
	t = min(max(t, 0), 1)
	return vec.Mul(vec.Mul(t, t), 3-vec.Mul(2, t))
}

// mix turns collective thrust (0…1 of a motor's full thrust) and torques (N·m) into motor speeds (0…1). Attitude comes first:
// where not everything fits between idle and full, yaw gives way, then the collective, then roll and pitch together. It reports
// whether something had to give way.
func (c *Control) mix(collective float64, torque vec.V, air bool) ([Motors]float64, bool) {
	least := vec.Mul(c.LeastSpeed, c.LeastSpeed)
	room := 1 - least
	roll := torque.X / vec.Mul(vec.Mul(4, c.ArmRight), c.FullThrust)
	pitch := torque.Y / vec.Mul(vec.Mul(4, c.ArmForward), c.FullThrust)
	yaw := torque.Z / vec.Mul(4, c.FullTorque)
	full := false
	// Roll and pitch add up at one corner and its opposite: the spread is twice the sum of their sizes.
	if spread := vec.Mul(2, math.Abs(roll)+math.Abs(pitch)); spread > room {
		k := room / spread
		roll, pitch, full = vec.Mul(roll, k), vec.Mul(pitch, k), true
	}
	most := max(vec.Mul(0.5, room)-math.Abs(roll)-math.Abs(pitch), 0)
	if math.Abs(yaw) > most {
		yaw, full = math.Copysign(most, yaw), true
	}
	var t [Motors]float64
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range t {
		r, p := roll, pitch
		if i%2 == 1 {
			r = -r
		}
		if i >= 2 {
			p = -p
		}
		t[i] = r + p - vec.Mul(float64(c.Turns[i]), yaw)
		lo, hi = min(lo, t[i]), max(hi, t[i])
	}
	if collective+hi > 1 {
		collective, full = 1-hi, true
	}
	if air && collective+lo < least {
		collective = least - lo
	}
	var speed [Motors]float64
	for i := range t {
		v := collective + t[i]
		if v < least {
			v, full = least, true
		}
		speed[i] = math.Sqrt(min(v, 1))
	}
	return speed, full
}
