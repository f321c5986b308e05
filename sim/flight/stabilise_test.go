package flight_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
)

const dt = 0.001

// craft is the shipped craft in the air with its control loops closed.
type craft struct {
	body  body.Config
	c     flight.Control
	s     body.State
	loops flight.ControlState
	in    flight.ControlInput
	asked flight.Asked
}

func hovering() *craft {
	b := body.Default()
	c := flight.DefaultControl()
	c.Fit(b.Inertia, b.Held(), b.ArmForward, b.ArmRight, b.Thrust*b.FullSpeed*b.FullSpeed, b.Torque*b.FullSpeed*b.FullSpeed, b.Lead(), b.Turns)
	f := &craft{body: b, c: c, s: body.State{Pos: vec.V{Z: -500}, Att: vec.Q{W: 1}}}
	for i := range f.s.Speed {
		f.s.Speed[i] = hover(&b)
	}
	f.in.Throttle, f.in.Base = 0.4, hover(&b)/b.FullSpeed
	return f
}

// hover is the speed at which a craft's motors carry it, rad/s.
func hover(b *body.Config) float64 { return math.Sqrt(b.Mass * body.Gravity / (4 * b.Thrust)) }

func (f *craft) step() {
	f.in.Att, f.in.Spin = f.s.Att, f.s.Spin
	var in body.Input
	f.loops, f.asked, in.Command = flight.Fly(&f.c, f.loops, &f.in, dt)
	f.s = body.Step(&f.body, f.s, &in, dt)
}

func (f *craft) run(seconds float64) {
	for range int(math.Round(seconds / dt)) {
		f.step()
	}
}

// tilt is that from level, in degrees.
func (f *craft) tilt() float64 {
	return math.Acos(min(max(f.s.Att.Turn(vec.V{Z: 1}).Z, -1), 1)) * 180 / math.Pi
}

// bank is that to the right, in degrees.
func (f *craft) bank() float64 {
	d := f.s.Att.Back(vec.V{Z: 1})
	return math.Atan2(d.Y, d.Z) * 180 / math.Pi
}

// From any attitude angle comes back to level within 1.5 s, and overshoots less than 5°.
func TestAngleComesLevelFromAnyAttitude(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		num := rapid.Float64Range(-1, 1)
		q := vec.Q{W: num.Draw(rt, "w"), X: num.Draw(rt, "x"), Y: num.Draw(rt, "y"), Z: num.Draw(rt, "z")}
		if q.Norm() < 0.1 {
			rt.Skip()
		}
		f := hovering()
		f.s.Att, f.in.AirAwake = q.Unit(), true
		f.run(1.5)
		if f.tilt() > 2 {
			rt.Fatalf("after 1.5 s it is tilted %.1f°", f.tilt())
		}
		worst := 0.0
		for range 1500 {
			f.step()
			worst = max(worst, f.tilt())
		}
		if worst > 5 || f.tilt() > 0.2 {
			rt.Fatalf("it swings to %.1f°, ends at %.2f°", worst, f.tilt())
		}
	})
	for _, q := range []vec.Q{{X: 1}, {Y: 1}, {W: 1e-12, Y: 1}} { // exactly upside down: a defined axis
		f := hovering()
		f.s.Att, f.in.AirAwake = q.Unit(), true
		f.run(2)
		assert.Less(t, f.tilt(), 1.0, "%v", q)
	}
}

func TestAngleFollowsTheStick(t *testing.T) {
	f := hovering()
	f.in.Roll = 1
	most := 0.0
	for range 2000 {
		f.step()
		most = max(most, f.bank())
	}
	assert.InDelta(t, 40, f.bank(), 0.5)
	assert.Less(t, most, 41.5)
	f.in.Roll, f.in.Pitch = 0, 0.5
	f.run(2)
	nose := f.s.Att.Turn(vec.V{X: 1}).Z // down is positive
	assert.InDelta(t, math.Sin(20*math.Pi/180), nose, 0.01, "stick forward is nose down")
}

// Rate with centred sticks holds the attitude it has within 1° over 10 s.
func TestRateHoldsAttitude(t *testing.T) {
	for _, bank := range []float64{0, 30, 75, 140} {
		f := hovering()
		f.in.Mode, f.in.AirAwake = layout.Rate, true
		a := bank * math.Pi / 180 / 2
		f.s.Att = vec.Q{W: math.Cos(a), X: math.Sin(a)}
		start := f.s.Att
		f.run(10)
		off := start.Conj().Mul(f.s.Att)
		assert.Less(t, 2*math.Asin(min(math.Hypot(math.Hypot(off.X, off.Y), off.Z), 1))*180/math.Pi, 1.0, "%v°", bank)
	}
}

func TestRateReachesWhatTheCurveAsks(t *testing.T) {
	for _, x := range []float64{-1, -0.5, 0.3, 1} {
		f := hovering()
		f.in.Mode, f.in.AirAwake, f.in.Roll = layout.Rate, true, x
		f.in.Throttle, f.in.Base = 0.5, 0.5
		f.run(0.8)
		want := f.c.Curve[0].Rate(x)
		assert.InDelta(t, want, f.s.Spin.X, 0.03*math.Abs(want)+0.02)
		f = hovering()
		f.in.Mode, f.in.AirAwake, f.in.Yaw = layout.Rate, true, x
		f.run(1.5)
		assert.InDelta(t, f.c.Curve[2].Rate(x), f.s.Spin.Z, 0.1)
	}
}

// The exponential curve: ends, slope at the middle Full·(1−e), at the end Full·(1+2e) (its derivative), and half stick.
func TestCurve(t *testing.T) {
	c := flight.Curve{Full: 7, Exponential: 0.3}
	assert.InDelta(t, 7, c.Rate(1), 1e-12)
	assert.InDelta(t, -7, c.Rate(-1), 1e-12)
	assert.Zero(t, c.Rate(0))
	h := 1e-6
	assert.InDelta(t, 7*0.7, (c.Rate(h)-c.Rate(-h))/(2*h), 1e-6)
	assert.InDelta(t, 7*1.6, (c.Rate(1)-c.Rate(1-h))/h, 1e-4)
	assert.InDelta(t, 7*(0.7*0.5+0.3*0.125), c.Rate(0.5), 1e-12)
}

// Horizon is what its formula says, in every direction of the stick: angle up to 60 % of travel, rate from 98 % on, the smooth step
// t²·(3 − 2t) between them, and no jump.
func TestHorizonIsItsFormula(t *testing.T) {
	ask := func(mode layout.Mode, roll, pitch float64) vec.V {
		f := hovering()
		f.in.Mode, f.in.Roll, f.in.Pitch = mode, roll, pitch
		f.s.Att = vec.Q{W: 0.97, X: 0.2, Y: -0.1}.Unit()
		f.step()
		return f.asked.Rate
	}
	for turn := range 16 {
		toRight, toFront := math.Cos(float64(turn)*math.Pi/8), math.Sin(float64(turn)*math.Pi/8)
		assert.Equal(t, ask(layout.Angle, 0.599*toRight, 0.599*toFront), ask(layout.Horizon, 0.599*toRight, 0.599*toFront), "exactly angle")
		assert.Equal(t, ask(layout.Rate, 0.981*toRight, 0.981*toFront), ask(layout.Horizon, 0.981*toRight, 0.981*toFront), "exactly rate")
		last := ask(layout.Horizon, 0, 0)
		for i := 1; i <= 1000; i++ {
			x := float64(i) / 1000
			got, a, r := ask(layout.Horizon, x*toRight, x*toFront), ask(layout.Angle, x*toRight, x*toFront), ask(layout.Rate, x*toRight, x*toFront)
			u := min(max((x-0.6)/(0.98-0.6), 0), 1)
			w := u * u * (3 - 2*u)
			assert.InDelta(t, 0, got.Sub(a.Scale(1-w).Plus(w, r)).Norm(), 1e-12)
			assert.Less(t, got.Sub(last).Norm(), 0.07, "a jump at %v", x)
			last = got
		}
	}
	assert.Equal(t, ask(layout.Rate, 1, 0.3), ask(layout.Horizon, 1, 0.3), "a corner of the stick's square is full travel too")
}

// A mode that is said to level by itself does so at a centred stick, asking for level there, and no other does.
func TestAModeLevelsAsItIsSaidTo(t *testing.T) {
	c := flight.DefaultControl()
	for m := range layout.Mode(layout.Modes) {
		want := 0.0
		if m.SelfLevelling() {
			want = 1
			assert.Equal(t, vec.V{Z: 1}, c.Tilt(m, 0, 0), m.Code())
		}
		assert.Equal(t, want, flight.Levelling(m, 0, 0), "%s: sim/flight gives it its share of self-levelling, layout.SelfLevelling says whether it has one", m.Code())
	}
}

// With air mode off and the throttle low corrections fade; with it on they stay.
func TestAirMode(t *testing.T) {
	turned := func(air bool) float64 {
		f := hovering()
		f.in.Throttle, f.in.Base, f.in.Mode, f.in.AirAwake, f.in.Roll = 0, 0.06, layout.Rate, air, 1
		f.run(0.4)
		return f.s.Spin.X
	}
	assert.Less(t, turned(false), 0.3)
	assert.Greater(t, turned(true), 4.0)
	f := hovering() // motor stop
	f.in.Base = 0
	f.step()
	assert.Equal(t, flight.ControlState{}, f.loops)
}

// The corners of what a craft file allows: every combination of lightest and heaviest, least and most inertia, quickest and
// slowest motors settles from a 30° disturbance.
func TestCornersOfTheBoxAreStable(t *testing.T) {
	for n := range 16 {
		pick := func(bit int, lo, hi float64) float64 {
			if n>>bit&1 == 0 {
				return lo
			}
			return hi
		}
		b := flight.Box()
		f := hovering()
		d := body.Default()
		f.body.Mass = pick(0, b.MassLow, b.MassHigh)
		f.body.Inertia = b.InertiaLow
		if n>>1&1 == 1 {
			f.body.Inertia = b.InertiaHigh
		}
		f.body.Lag = pick(2, b.LagLow, b.LagHigh)
		if n>>3&1 == 1 { // the file's numbers are not this craft's: the mixer goes by the default inertia
			f.c.Inertia = d.Inertia
		} else {
			f.c.Inertia = f.body.Inertia
		}
		f.body.Pack = body.Pack{}
		hover := math.Sqrt(f.body.Mass * body.Gravity / (4 * f.body.Thrust))
		f.in.Base, f.in.Throttle, f.in.AirAwake = hover/f.body.FullSpeed, 0.4, true
		f.s.Att = vec.Q{W: math.Cos(0.26), X: math.Sin(0.26)}
		f.run(3)
		worst := 0.0
		for range 2000 {
			f.step()
			worst = max(worst, f.tilt(), f.s.Spin.Norm()*10)
		}
		assert.Less(t, worst, 0.5, fmt.Sprintf("corner %04b", n))
	}
}

func BenchmarkFly(b *testing.B) {
	f := hovering()
	b.ReportAllocs()
	for b.Loop() {
		f.step()
	}
}
