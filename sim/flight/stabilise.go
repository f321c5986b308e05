package flight

import (
	"math"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
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
	// Lead is how long, in s, the air alone would need to turn the craft as far as speeding up a pair of motors at full speed does by their
	// inertia: Turning/(2·Torque·FullSpeed) of body.Config. At a slower speed it is as much longer.
	Lead float64
	// Drag is how quickly the air at the motors would end a turn about forward, right and down in a hover, 1/s: what is due is asked for
	// with that much more.
	Drag vec.V
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
	// Integral is that of each rate loop, rad/s²; Smooth is the filtered rate, rad/s; Due is the rate that the craft is due to have by now,
	// rad/s; Yaw is the torque about down that is asked of the air, as an angular acceleration, rad/s².
	Integral, Smooth, Due vec.V
	Yaw                   float64
	Begun                 bool
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
		s.Smooth, s.Due, s.Begun = in.Spin, in.Spin, true
	}
	was := s.Smooth
	s.Smooth = was.Plus(dt/(c.Filter+dt), in.Spin.Sub(was))
	accel := s.Smooth.Sub(was).Scale(1 / dt)
	fade := 1.0
	if !in.AirAwake && in.Throttle < c.FadeBelow {
		fade = in.Throttle / c.FadeBelow
	}
	asked, now, due := parts(ask.Rate), parts(in.Spin), parts(s.Due)
	a, sum, drag := parts(accel), parts(s.Integral), parts(c.Drag)
	var want [3]float64
	for i := range want {
		g := &c.Gains[i]
		want[i] = vec.Mul(fade, vec.Mul(g.Proportional, asked[i]-now[i])+sum[i]+vec.Mul(drag[i], due[i])-vec.Mul(g.Derivative, a[i]))
	}
	// A pair of motors that speeds up turns the craft by its inertia long before the air does: what is asked of the air comes slower by as
	// much, and both together are what is wanted.
	s.Yaw += vec.Mul(want[2]-s.Yaw, dt/(c.lead(in.Base, s.Yaw, in.AirAwake)+dt))
	want[2] = s.Yaw
	torque := c.Inertia.Times(vec.V{X: want[0], Y: want[1], Z: want[2]})
	speed, got := c.mix(vec.Mul(in.Base, in.Base), torque, in.AirAwake)
	gives := parts(got)
	for i := range sum {
		g := &c.Gains[i]
		short := want[i] - gives[i]/parts(c.Inertia)[i]
		full := math.Abs(short) > 1e-9*(1+math.Abs(want[i]))
		ask.Saturated = ask.Saturated || full
		sum[i], due[i] = g.hold(sum[i], due[i], asked[i], now[i], fade, dt, full, short)
		sum[i] = min(max(sum[i], -c.IntegralMost), c.IntegralMost)
	}
	s.Yaw = gives[2] / c.Inertia.Z
	s.Integral, s.Due = vec.V{X: sum[0], Y: sum[1], Z: sum[2]}, vec.V{X: due[0], Y: due[1], Z: due[2]}
	return s, ask, speed
}

// lead is Lead with motors at a base speed (0…1) of which one pair is faster and the other slower, as turning by so much (rad/s²) asks
// for; where one pair is at its end, the other alone changes.
func (c *Control) lead(base, yaw float64, air bool) float64 {
	y := math.Abs(vec.Mul(yaw, c.Inertia.Z) / vec.Mul(4, c.FullTorque))
	least := max(vec.Mul(c.LeastSpeed, c.LeastSpeed), 1e-4)
	mid := vec.Mul(base, base)
	switch {
	case mid+y > 1:
		return c.Lead / math.Sqrt(max(1-vec.Mul(2, y), least))
	case mid-y < least && air:
		return c.Lead / math.Sqrt(least+vec.Mul(2, y))
	case mid-y < least:
		return vec.Mul(0.5*c.Lead, 1/math.Sqrt(mid+y))
	}
	return vec.Mul(0.5*c.Lead, 1/math.Sqrt(mid+y)+1/math.Sqrt(mid-y))
}

func parts(v vec.V) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

// hold is what one loop remembers after a step of dt: its integral, and the rate that is due. A loop with Proportional and Derivative
// alone follows what is asked with a lag of (1 + Derivative)/Proportional, whatever the motors' own lag; the integral sums what is
// missing from that and not from what is asked, or each push of the stick would leave something in it that runs past the end. So it
// holds an attitude that the craft was pushed out of, and nothing else. Where the motors fall short of what is wanted, the craft is due to be
// as fast as it is, and the integral may only come back towards what they can give (Åström and Hägglund on conditional integration; from memory).
func (g *Gains) hold(sum, due, asked, now, fade, dt float64, full bool, short float64) (float64, float64) {
	step := vec.Mul(vec.Mul(vec.Mul(g.Integral, due-now), dt), fade)
	if !full || step*short < 0 {
		sum += step
	}
	if fade < 1 { // it fades with the corrections
		sum -= vec.Mul(vec.Mul(1-fade, sum), min(vec.Mul(dt, 5), 1))
	}
	if full {
		return sum, now
	}
	return sum, due + vec.Mul(asked-due, min(vec.Mul(dt, g.Proportional)/(1+g.Derivative), 1))
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
	st, ct := vec.Circle(theta)
	sp, cp := vec.Circle(phi)
	return vec.V{X: -st, Y: vec.Mul(ct, sp), Z: vec.Mul(ct, cp)}
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
