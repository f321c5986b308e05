package craftfile

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
)

const flies = "propsoff: craft 1\nname: x\nchannels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5}\n"

// Every constant of the body and of the loops, away from its default, in the other unit where there are two.
func TestBodyAndControl(t *testing.T) {
	f, err := Parse("c.yaml", []byte(flies+`
body:
  mass: 0.5 kg
  inertia: {roll: 3 g m2, pitch: 0.003 kg m2, yaw: 5 g m2}
  arms: {forward: 90 mm, right: 0.1 m}
  half-height: 30 mm
  motor: {full-speed: 2000 rad/s, lag: 0.04 s, front-left-turns: counter-clockwise}
  propeller: {thrust: 5 N, torque: 0.06 N m, reversed: 40 %}
  drag: {linear: 0.06 N s/m, square: 0.013 N s2/m2, turning: 0.0003 N m s, turning-square: 0.00002 N m s2}
  ground: {stiffness: 2500 N/m, damping: 10 N s/m, friction: 0.5}
  pack: {full: 12.6 V, empty: 9.9 V, nominal: 11.1 V, charge: 1500 mAh, resistance: 50 mohm, current: 10 A}
control:
  stick-curve: {roll: {full: 360 deg/s, exponential: 20 %}, yaw: {exponential: 0.5}}
  bank-limit: 35 deg
  level-rate: 6 1/s
  level-most: 200 deg/s
  integral-most: 50 1/s2
  fade-below: 8 %
  filter: 50 Hz
  gains: {roll: {proportional: 20 1/s, integral: 12 1/s2, derivative: 0.5}}
camera: {tilt: 25 deg, view: 1.5 rad}
`))
	require.NoError(t, err)
	c := f.Config()
	b, k := c.Body, c.Control
	assert.Equal(t, 0.5, b.Mass)
	assert.InDelta(t, 3e-3, b.Inertia.X, 1e-15)
	assert.Equal(t, b.Inertia.X, b.Inertia.Y, "g m2 and kg m2")
	assert.Equal(t, [3]float64{0.09, 0.1, 0.03}, [3]float64{b.ArmForward, b.ArmRight, b.HalfHeight})
	assert.Equal(t, [4]int8{-1, 1, 1, -1}, b.Turns)
	assert.Equal(t, b.Turns, b.Hand)
	assert.InDelta(t, 5, b.Thrust*2000*2000, 1e-12)
	assert.InDelta(t, 0.06, b.Torque*2000*2000, 1e-12)
	assert.InDelta(t, 5400, b.Pack.Charge, 1e-9)
	assert.InDelta(t, 0.05, b.Pack.Resistance, 1e-15)
	assert.InDelta(t, 0.4, b.Reversed, 1e-15)
	d := sim.Default().Control
	assert.InDelta(t, 360*math.Pi/180, k.Curve[0].Full, 1e-12)
	assert.InDelta(t, 0.2, k.Curve[0].Exponential, 1e-15)
	assert.Equal(t, d.Curve[1], k.Curve[1], "left out: the default")
	assert.Equal(t, d.Curve[2].Full, k.Curve[2].Full)
	assert.InDelta(t, 1/(2*math.Pi*50), k.Filter, 1e-15)
	assert.Equal(t, flight.Gains{Proportional: 20, Integral: 12, Derivative: 0.5}, k.Gains[0])
	assert.Equal(t, b.Inertia, k.Inertia, "the mixer knows the craft")
	assert.InDelta(t, 5, k.FullThrust, 1e-12)
	assert.InDelta(t, 25*math.Pi/180, c.Camera.Tilt, 1e-15)
	assert.Equal(t, 1.5, c.Camera.View)
}

func TestBodyAndControlAreHeldToLimits(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"body: {mass: 2 kg}", "0.9"},
		{"body: {mass: 450}", "unit"},
		{"body: {mas: 450 g}", "mass"},
		{"body: {motor: {lag: 90 ms}}", "from 10ms to 60ms"},
		{"body: {inertia: {roll: 9 g m2}}", "to 5.3 g m2"},
		{"body: {propeller: {thrust: 1.2 N}}", "four motors lift 4.8 N, and the craft weighs 4.4 N"},
		{"body: {pack: {nominal: 17 V}}", "rise from empty over nominal to full"},
		{"body: {pack: {resistance: 500 mohm}}", "would lose 29.5 V"},
		{"control: {bank-limit: 90 deg}", "to 75 deg"},
		{"camera: {tilt: 70 deg}", "to 60 deg"},
		{"camera: {view: 100}", "unit"},
		{"camera: {zoom: 2}", "zoom"},
		{"control: {gains: {roll: {proportional: 5 1/s, integral: 300 1/s2, derivative: 0}}}", "swing ever wider in roll"},
		{"control: {gains: {yaw: {proportional: 1 1/s, integral: 300 1/s2}}}", "swing ever wider in yaw"},
		{"body: {motor: {lag: 60 ms}}\ncontrol: {level-rate: 15 1/s, gains: {pitch: {integral: 60 1/s2, derivative: 0}}}", "swing ever wider in pitch"},
	} {
		_, err := Parse("c.yaml", []byte(flies+c.text+"\n"))
		if assert.Error(t, err, c.text) {
			assert.Contains(t, err.Error(), c.says, c.text)
			assert.True(t, strings.HasPrefix(err.Error(), "c.yaml:"), err.Error())
		}
	}
}

// The check on gains agrees with the flown loop: what it calls stable dies out, what it refuses grows.
func TestStableIsWhatFlies(t *testing.T) {
	cfg := sim.Default()
	swings := func(p, lag float64) float64 {
		c := cfg
		c.Control.Gains[0] = flight.Gains{Proportional: p}
		c.Body.Lag, c.Body.Pack, c.Body.Weightless = lag, body.Pack{}, true
		c.Body.Spin1, c.Body.Spin2 = 0, 0
		s := body.State{}
		s.Att.W, s.Att.X = 1, 0.0005
		in := flight.ControlInput{Throttle: 0.4, Base: 0.4, AirAwake: true}
		for i := range s.Speed {
			s.Speed[i] = 0.4 * c.Body.FullSpeed
		}
		var loops flight.ControlState
		late := 0.0
		for i := range 4000 {
			in.Att, in.Spin = s.Att, s.Spin
			var push body.Input
			loops, _, push.Command = flight.Fly(&c.Control, loops, &in, 0.001)
			s = body.Step(&c.Body, s, &push, 0.001)
			if i > 3000 {
				late = max(late, math.Abs(s.Att.X))
			}
		}
		return late / 0.0005
	}
	for _, lag := range []float64{0.03, 0.06} {
		// Without integral and derivative s²·(lag·s + 1) + p·s + p·L = 0 is stable for p·L·lag < p: for every p as long as L·lag < 1; so the
		// angle's own rate is what tips it.
		for _, level := range []float64{0.6 / lag, 1.6 / lag} {
			cfg.Control.Level = level
			c := cfg.Control
			c.Gains[0] = flight.Gains{Proportional: 20}
			stable := c.Stable(0, lag)
			assert.Equal(t, level*lag < 1, stable, "lag %v, level %v", lag, level)
			if stable {
				assert.Less(t, swings(20, lag), 0.5)
			} else {
				assert.Greater(t, swings(20, lag), 1.0)
			}
		}
	}
}
