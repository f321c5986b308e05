package body_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/body"
	"propsoff.example/sim/vec"
)

const ms = 0.001

// bare is the shipped craft without drag, without what the air does to thrust, with motors that weigh nothing and without a real pack.
func bare() body.Config {
	c := body.Default()
	c.Drag1, c.Drag2, c.Spin1, c.Spin2, c.Idle, c.RotorDrag, c.Turning = 0, 0, 0, 0, 0, 0, 0
	c.Pack = body.Pack{}
	return c
}

func free(c body.Config) body.Config { c.Weightless = true; return c }

func run(c *body.Config, s body.State, in body.Input, seconds, dt float64) body.State {
	for range int(math.Round(seconds / dt)) {
		s = body.Step(c, s, &in, dt)
	}
	return s
}

func high() body.State { return body.State{Pos: vec.V{Z: -1000}, Att: vec.Q{W: 1}} }

// Free fall for a second from rest: 9.80665 m/s and 4.903325 m (standard gravity, CGPM 1901).
func TestFreeFall(t *testing.T) {
	c := bare()
	s := run(&c, high(), body.Input{}, 1, ms)
	assert.InDelta(t, 9.80665, s.Vel.Z, 1e-9)
	assert.InDelta(t, 4.903325, s.Pos.Z+1000, 1e-9)
	assert.Equal(t, vec.Q{W: 1}, s.Att)
}

// Terminal velocity: drag (k₁ + k₂·v)·v equals the weight (textbook mechanics); with k₁ = 0 the speed on the way is
// v∞·tanh(g·t/v∞).
func TestTerminalVelocity(t *testing.T) {
	c := body.Default()
	s := run(&c, high(), body.Input{}, 30, ms)
	want := (-c.Drag1 + math.Sqrt(c.Drag1*c.Drag1+4*c.Drag2*c.Mass*body.Gravity)) / (2 * c.Drag2)
	assert.InDelta(t, want, s.Vel.Z, 1e-6)
	c.Drag1 = 0
	end := math.Sqrt(c.Mass * body.Gravity / c.Drag2)
	s = run(&c, high(), body.Input{}, 1.5, ms)
	assert.InDelta(t, end*math.Tanh(body.Gravity*1.5/end), s.Vel.Z, 1e-9)
}

// Hover: thrust equals weight, and the reaction torques of two clockwise and two counter-clockwise propellers cancel.
func TestHoverThrustIsWeight(t *testing.T) {
	c := bare()
	speed := math.Sqrt(c.Mass * body.Gravity / (4 * c.Thrust))
	s := high()
	for i := range s.Speed {
		s.Speed[i] = speed
	}
	assert.InDelta(t, c.Mass*body.Gravity, c.Lift(&s, vec.V{}), 1e-12)
	f := speed / c.FullSpeed
	s = run(&c, s, body.Input{Command: [4]float64{f, f, f, f}}, 10, ms)
	assert.InDelta(t, -1000, s.Pos.Z, 1e-9)
	assert.InDelta(t, 0, s.Spin.Norm(), 1e-12)
	assert.InDelta(t, 0.41, f, 0.005, "the doc says 41 %")
	assert.InDelta(t, 6, 4*c.Thrust*c.FullSpeed*c.FullSpeed/(c.Mass*body.Gravity), 0.1, "the doc says six times its weight")
	// Thrust of a propeller, T = C_T·ρ·n²·D⁴: 0.127 m, 15000 rpm, 1.225 kg/m³, C_T 0.12 give 2.390079 N (handbook formula).
	n := 15000.0 / 60 * 2 * math.Pi
	assert.InDelta(t, 2.390079, c.Thrust*n*n, 0.01)
}

// A motor's speed after one time constant is 63.2 % of the way, after two 86.5 % (first-order lag, any control handbook).
func TestMotorLag(t *testing.T) {
	c := free(bare())
	c.Hand = [4]int8{}
	for k, want := range map[int]float64{1: 0.632121, 2: 0.864665, 3: 0.950213} {
		s := run(&c, high(), body.Input{Command: [4]float64{1, 1, 1, 1}}, float64(k)*c.Lag, ms)
		assert.InDelta(t, want, s.Speed[0]/c.FullSpeed, 1e-6, "%d time constants", k)
	}
}

// spin gives a body that only turns, with the inertia and rate given.
func spin(i, w vec.V) (body.Config, body.State) {
	c := free(bare())
	c.Inertia, c.Hand = i, [4]int8{}
	return c, body.State{Att: vec.Q{W: 1}, Spin: w}
}

// The torque-free symmetric top against its closed form: the rate across the axis turns with Ω = (I₃ − I₁)/I₁ · ω₃ (Goldstein,
// Classical Mechanics, ch. 5; from memory).
func TestSymmetricTop(t *testing.T) {
	for _, x := range []struct {
		i, w, quarter vec.V
		omega         float64
	}{
		{vec.V{X: 1, Y: 1, Z: 2}, vec.V{X: 0.1, Z: 10}, vec.V{Y: 0.1, Z: 10}, 10},
		{vec.V{X: 2, Y: 2, Z: 1}, vec.V{X: 1, Z: 4}, vec.V{Y: -1, Z: 4}, -2},
	} {
		c, s := spin(x.i, x.w)
		n := 1000
		for range n {
			s = body.Step(&c, s, &body.Input{}, math.Pi/2/math.Abs(x.omega)/float64(n))
		}
		assert.InDelta(t, 0, s.Spin.Sub(x.quarter).Norm(), 1e-9)
		// The angular momentum stands still in the world, and leans from the third axis by the angle of the closed form.
		l := s.Att.Turn(c.Inertia.Times(s.Spin))
		assert.InDelta(t, 0, l.Sub(x.i.Times(x.w)).Norm(), 1e-8)
	}
}

// The intermediate axis: a small wobble grows by √((I₃−I₂)(I₂−I₁)/(I₁I₃)) a second (the same chapter).
func TestIntermediateAxis(t *testing.T) {
	c, s := spin(vec.V{X: 1, Y: 2, Z: 3}, vec.V{X: 1e-6, Y: 1, Z: -1e-6 * math.Sqrt(1./3)})
	grows := math.Sqrt((3 - 2) * (2 - 1) / (1 * 3.))
	s = run(&c, s, body.Input{}, 4, ms)
	assert.InEpsilon(t, 1e-6*math.Exp(grows*4), math.Abs(s.Spin.X), 0.01)
}

// A constant rate about one axis for a second: a quarter turn to the right about down (q(t) = q₀·exp(ωt/2)).
func TestQuarterTurn(t *testing.T) {
	c, s := spin(vec.V{X: 1, Y: 1, Z: 1}, vec.V{Z: math.Pi / 2})
	s = run(&c, s, body.Input{}, 1, ms)
	assert.InDelta(t, math.Sqrt(0.5), s.Att.W, 1e-12)
	assert.InDelta(t, math.Sqrt(0.5), s.Att.Z, 1e-12)
	nose := s.Att.Turn(vec.V{X: 1})
	assert.InDelta(t, 1, nose.Y, 1e-12, "it looks east now")
}

// Energy and angular momentum over 60 s without drag: kept to 1 part in 10⁹ while it tumbles at 10 rad/s.
func TestKeepsEnergyAndMomentum(t *testing.T) {
	c := free(bare())
	c.Hand = [4]int8{}
	s := body.State{Att: vec.Q{W: 1}, Spin: vec.V{X: 5, Y: -6, Z: 6}, Vel: vec.V{X: 3, Y: -2, Z: 1}}
	energy := func(s *body.State) float64 {
		return 0.5*c.Mass*s.Vel.Dot(s.Vel) + 0.5*s.Spin.Dot(c.Inertia.Times(s.Spin))
	}
	l0, e0 := s.Att.Turn(c.Inertia.Times(s.Spin)), energy(&s)
	s = run(&c, s, body.Input{}, 60, ms)
	l := s.Att.Turn(c.Inertia.Times(s.Spin))
	assert.InEpsilon(t, e0, energy(&s), 1e-9)
	assert.Less(t, l.Sub(l0).Norm()/l0.Norm(), 1e-9)
	assert.InDelta(t, 1, s.Att.Norm(), 1e-15)
}

// Fourth order: halving the step divides the error by 16 (Hairer, Nørsett, Wanner; from memory). A tumbling craft with drag and
// motors that spin up, far from the ground.
func TestOrderOfTheIntegrator(t *testing.T) {
	c := body.Default()
	c.Pack = body.Pack{}
	s := high()
	s.Spin, s.Vel = vec.V{X: 2, Y: 1, Z: -3}, vec.V{X: 2, Y: -1, Z: -1} // thrust stays on its straight line
	s = turning(s, 1000)
	in := body.Input{Command: [4]float64{0.4, 0.42, 0.41, 0.45}}
	at := func(n int) body.State {
		s := s
		for range n {
			s = body.Step(&c, s, &in, 0.5/float64(n))
		}
		return s
	}
	fine := at(12800)
	miss := func(s body.State) float64 {
		return s.Pos.Sub(fine.Pos).Norm() + s.Spin.Sub(fine.Spin).Norm() + s.Vel.Sub(fine.Vel).Norm()
	}
	a, b, d := miss(at(100)), miss(at(200)), miss(at(400))
	assert.InDelta(t, 16, a/b, 1.5)
	assert.InDelta(t, 16, b/d, 1.5)
}

// Which way a faster motor turns the craft: left ones to the right, rear ones nose down, clockwise ones to the left (by reaction).
func TestSignsOfTheMotors(t *testing.T) {
	c := free(bare())
	turn := func(faster ...int) vec.V {
		s := high()
		for i := range s.Speed {
			s.Speed[i] = 1000
		}
		for _, i := range faster {
			s.Speed[i] = 1200
		}
		in := body.Input{}
		for i := range in.Command {
			in.Command[i] = s.Speed[i] / c.FullSpeed
		}
		return run(&c, s, in, 0.01, ms).Spin
	}
	assert.Positive(t, turn(0, 2).X, "left ones faster: rolls right")
	assert.Negative(t, turn(2, 3).Y, "rear ones faster: nose down")
	assert.Negative(t, turn(0, 3).Z, "front left and rear right turn clockwise: the craft turns to the left")
}

// Wrong propellers (common practice, no source): one wrong one flips the craft, four wrong ones never lift it, everything
// mirrored only turns yaw round.
func TestWrongPropellers(t *testing.T) {
	c := body.Default()
	full := body.Input{Command: [4]float64{0.6, 0.6, 0.6, 0.6}}
	ok := run(&c, body.Standing(&c), full, 1, ms)
	require.Greater(t, -ok.Pos.Z, 1.0)
	up := func(s body.State) float64 { return s.Att.Turn(vec.V{Z: -1}).Z } // −1: upright
	assert.InDelta(t, -1, up(ok), 1e-9)

	one := c
	one.Hand[1] = 1
	worst := -1.0
	s := body.Standing(&one)
	for range 1500 {
		s = body.Step(&one, s, &full, ms)
		worst = max(worst, up(s))
	}
	assert.Greater(t, worst, 0.5, "it turns over")

	all := c
	for i := range all.Hand {
		all.Hand[i] = -all.Hand[i]
	}
	s = run(&all, body.Standing(&all), body.Input{Command: [4]float64{1, 1, 1, 1}}, 3, ms)
	assert.Less(t, -s.Pos.Z, 0.05, "four wrong ones press it down")

	mirror := c
	for i := range mirror.Hand {
		mirror.Hand[i], mirror.Turns[i] = -mirror.Hand[i], -mirror.Turns[i]
	}
	uneven := body.Input{Command: [4]float64{0.5, 0.4, 0.4, 0.5}}
	a, b := run(&c, high(), uneven, 0.2, ms), run(&mirror, high(), uneven, 0.2, ms)
	assert.InDelta(t, a.Spin.Z, -b.Spin.Z, 1e-12)
	assert.Equal(t, a.Pos.Z, b.Pos.Z)
}

// The ground: a craft that stands stays, one that is dropped comes to rest on its feet, one thrown sideways slides and
// stops (Coulomb: v²/(2μg)), one dropped on its back lies there.
func TestGround(t *testing.T) {
	c := body.Default()
	stands := run(&c, body.Standing(&c), body.Input{}, 10, ms)
	assert.InDelta(t, body.Standing(&c).Pos.Z, stands.Pos.Z, 1e-9)
	assert.True(t, c.Contact(&stands).Any)

	s := body.State{Pos: vec.V{Z: -2}, Att: vec.Q{W: 0.995, X: 0.08, Y: 0.05}.Unit()}
	s = run(&c, s, body.Input{}, 8, ms)
	assert.InDelta(t, body.Standing(&c).Pos.Z, s.Pos.Z, 1e-4)
	assert.InDelta(t, 0, s.Vel.Norm(), 1e-3)
	assert.InDelta(t, -1, s.Att.Turn(vec.V{Z: -1}).Z, 1e-4)

	c2 := bare()
	s = body.Standing(&c2)
	s.Vel.X = 2
	s = run(&c2, s, body.Input{}, 4, ms)
	assert.InDelta(t, 2*2/(2*c2.Friction*body.Gravity), s.Pos.X, 0.03)

	s = body.State{Pos: vec.V{Z: -1}, Att: vec.Q{X: 1}}
	s = run(&c, s, body.Input{}, 6, ms)
	assert.InDelta(t, 1, s.Att.Turn(vec.V{Z: -1}).Z, 1e-3, "on its back")
	assert.InDelta(t, 0, s.Vel.Norm(), 1e-3)
}

// The pack sags under load and empties: voltage is that of Ohm's law, charge that of the current over time. Past empty it dies.
func TestPack(t *testing.T) {
	c := free(body.Default())
	s := high()
	assert.InDelta(t, 16.8, c.Volts(&s, false), 1e-12)
	assert.InDelta(t, 16.8-c.Pack.Electronics*c.Pack.Resistance, c.Volts(&s, true), 1e-12)
	f := 0.5
	in := body.Input{Command: [4]float64{f, f, f, f}, On: true}
	s = run(&c, s, in, 2, ms)
	amps := c.Pack.Electronics
	for _, w := range s.Speed {
		x := w / c.FullSpeed
		amps += c.Pack.Current*math.Pow(x, 3) + c.Pack.NoLoad*x
	}
	left := 1 - s.Used/c.Pack.Charge
	assert.InDelta(t, 13+3.8*left-amps*c.Pack.Resistance, c.Volts(&s, true), 1e-9)
	before := s.Used
	s = run(&c, s, in, 10, ms)
	assert.InEpsilon(t, amps*10, s.Used-before, 0.01, "a little less: the voltage falls meanwhile")
	empty := body.State{Att: vec.Q{W: 1}, Used: c.Pack.Charge}
	assert.InDelta(t, 13, c.Volts(&empty, false), 1e-12)
	empty.Used *= 1 + c.Pack.Dies/2
	assert.InDelta(t, 6.5, c.Volts(&empty, false), 1e-9, "half dead")
	empty.Used = c.Pack.Charge * (1 + c.Pack.Dies)
	assert.Zero(t, c.Volts(&empty, false))
}

func BenchmarkStep(b *testing.B) {
	c := body.Default()
	s := high()
	in := body.Input{Command: [4]float64{0.41, 0.42, 0.4, 0.41}}
	b.ReportAllocs()
	for b.Loop() {
		s = body.Step(&c, s, &in, ms)
	}
}
