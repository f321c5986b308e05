package flight_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mat"

	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/vec"
)

// The reduced loop: a double integrator (motors without lag) with proportional action on the angle and derivative action by
// the rate is the handbook's second-order system, ωₙ² = P·L and 2ζωₙ = P. Overshoot exp(−πζ/√(1−ζ²)) and time of the peak
// π/(ωₙ√(1−ζ²)) (Ogata; Åström and Murray; from memory).
func TestReducedLoopIsTheHandbooksSecondOrderSystem(t *testing.T) {
	for zeta, want := range map[float64]struct{ overshoot, peak float64 }{
		0.4: {25.383, 3.4278}, 0.5: {16.303, 3.6276}, 0.7071: {4.321, 4.4429}, 0.8: {1.516, 5.2360},
	} {
		f := hovering()
		const p = 20.0
		wn := p / (2 * zeta)
		f.c.Gains[0] = flight.Gains{Proportional: p}
		f.c.Drag = vec.V{} // there is no air in it
		f.c.Level, f.c.LevelMost = wn*wn/p, 1e9
		const angle = 0.5 * math.Pi / 180
		f.in.Roll, f.in.AirAwake = angle/f.c.BankLimit, true
		bank, rate, most, at := 0.0, 0.0, 0.0, 0.0
		var loops flight.ControlState
		const dt = 1e-4
		for i := range 20000 {
			f.in.Att, f.in.Spin = vec.Q{W: math.Cos(bank / 2), X: math.Sin(bank / 2)}, vec.V{X: rate}
			var speed [4]float64
			loops, _, speed = flight.Fly(&f.c, loops, &f.in, dt)
			torque := 0.0
			for m, s := range speed {
				side := 1.0
				if m%2 == 1 {
					side = -1
				}
				torque += side * f.c.ArmRight * f.c.FullThrust * s * s
			}
			rate += torque / f.c.Inertia.X * dt
			bank += rate * dt
			if bank > most {
				most, at = bank, float64(i+1)*dt
			}
		}
		assert.InDelta(t, want.overshoot, (most/angle-1)*100, 0.3, "ζ = %v", zeta)
		assert.InDelta(t, want.peak, wn*at, 0.03, "ζ = %v", zeta)
	}
}

// The full loop in angle at a step of 2° against its own linear model, solved by the matrix exponential (gonum): angle, rate,
// lagging acceleration, filtered rate, integral and what is due. They agree within 2 % of the step.
func TestFullLoopIsItsLinearModel(t *testing.T) {
	f := hovering()
	f.body.Pack = body.Pack{}
	g, c := f.c.Gains[0], &f.c
	const angle = 2 * math.Pi / 180
	f.in.Roll, f.in.AirAwake = angle/c.BankLimit, true

	// What the air does about the rate: drag, and inflow into the motors that rise on one side and sink on the other.
	b := &f.body
	w := hover(b)
	inflow := 4 * b.ArmRight * b.ArmRight * b.Thrust * w * 2 * math.Pi / (b.Diameter * b.Idle)
	lag, drag := b.Lag, (b.Spin1+inflow)/b.Inertia.X
	// ẋ = A·x + b for x = (angle, rate, acceleration by the motors, filtered rate, integral, rate that is due, 1).
	a := mat.NewDense(7, 7, nil)
	set := func(row int, v ...float64) { a.SetRow(row, v) }
	set(0, 0, 1, 0, 0, 0, 0, 0)
	set(1, 0, -drag, 1, 0, 0, 0, 0)
	d := g.Derivative / c.Filter
	set(2, -g.Proportional*c.Level/lag, (-g.Proportional-d)/lag, -1/lag, d/lag, 1/lag, c.Drag.X/lag, g.Proportional*c.Level*angle/lag)
	set(3, 0, 1/c.Filter, 0, -1/c.Filter, 0, 0, 0)
	set(4, 0, -g.Integral, 0, 0, 0, g.Integral, 0)
	due := (1 + g.Derivative) / g.Proportional
	set(5, -c.Level/due, 0, 0, 0, 0, -1/due, c.Level*angle/due)
	set(6, 0, 0, 0, 0, 0, 0, 0)
	worst, settled := 0.0, 0
	for i := 1; i <= 1500; i++ {
		f.step()
		var e mat.Dense
		var ta mat.Dense
		ta.Scale(float64(i)*dt, a)
		if i%10 != 0 {
			continue
		}
		e.Exp(&ta)
		model := e.At(0, 6) // from rest, the one carries everything
		worst = max(worst, math.Abs(f.bank()*math.Pi/180-model)/angle)
		if math.Abs(model/angle-1) < 0.02 {
			settled++
		}
	}
	assert.Less(t, worst, 0.02)
	assert.Greater(t, settled, 80, "the model settles well within the time")
}

// Stable against the eigenvalues of the loop's matrix (gonum), for random gains and lags.
func TestStableIsWhatTheEigenvaluesSay(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	stable := 0
	for range 3000 {
		f := hovering()
		c := &f.c
		axis := 2 * rng.IntN(2)
		g := flight.Gains{Proportional: 1 + 60*rng.Float64(), Integral: 1 + 299*rng.Float64(), Derivative: 3 * rng.Float64()}
		lag := 0.01 + 0.15*rng.Float64()
		c.Gains[axis], c.Level, c.Filter = g, 1+14*rng.Float64(), 0.001+0.02*rng.Float64()
		level := c.Level
		if axis == 2 {
			level = 0
		}
		due := (1 + g.Derivative) / g.Proportional
		d := g.Derivative / c.Filter
		a := mat.NewDense(6, 6, []float64{
			0, 1, 0, 0, 0, 0,
			0, 0, 1, 0, 0, 0,
			-g.Proportional * level / lag, (-g.Proportional - d) / lag, -1 / lag, d / lag, 1 / lag, 0,
			0, 1 / c.Filter, 0, -1 / c.Filter, 0, 0,
			0, -g.Integral, 0, 0, 0, g.Integral,
			-level / due, 0, 0, 0, 0, -1 / due,
		})
		if axis == 2 { // heading is nobody's business
			a = mat.DenseCopyOf(a.Slice(1, 6, 1, 6))
		}
		var e mat.Eigen
		assert.True(t, e.Factorize(a, mat.EigenNone))
		worst := math.Inf(-1)
		for _, v := range e.Values(nil) {
			worst = max(worst, real(v))
		}
		if math.Abs(worst) < 1e-6 {
			continue
		}
		assert.Equal(t, worst < 0, c.Stable(axis, lag), "axis %d, %v, level %v, lag %v, filter %v: %v", axis, g, c.Level, lag, c.Filter, worst)
		if worst < 0 {
			stable++
		}
	}
	assert.Greater(t, stable, 300)
	assert.Less(t, stable, 2700)
}

// overshot says by how much the most of a step went beyond what was asked for, given as its share of that.
func overshot(most float64) string {
	if text := fmt.Sprintf("%.1f", (most-1)*100); text != "0.0" && text[0] != '-' {
		return "overshoot " + text + " %"
	}
	return "no overshoot"
}

// What the shipped craft does, for the README: overshoot and settling of a 10° step in angle and of a 200°/s step in rate.
func TestTheShippedCraftSettlesWell(t *testing.T) {
	f := hovering()
	f.in.Roll = 0.25 // 10°
	most, settled := 0.0, 0.0
	for i := range 1500 {
		f.step()
		most = max(most, f.bank())
		if math.Abs(f.bank()-10) > 0.2 {
			settled = float64(i+1) * dt
		}
	}
	t.Logf("angle, 10°: %s, within 2 %% after %.2f s", overshot(most/10), settled)
	assert.Less(t, most, 10.5)
	assert.Less(t, settled, 0.5)

	f = hovering()
	f.in.Mode, f.in.AirAwake = layout.Rate, true
	for f.c.Curve[0].Rate(f.in.Roll) < 200*math.Pi/180 {
		f.in.Roll += 0.001
	}
	want := f.c.Curve[0].Rate(f.in.Roll)
	most, settled = 0, 0
	for i := range 800 {
		f.step()
		most = max(most, f.s.Spin.X)
		if math.Abs(f.s.Spin.X-want) > 0.02*want {
			settled = float64(i+1) * dt
		}
	}
	t.Logf("rate, 200°/s: %s, within 2 %% after %.2f s", overshot(most/want), settled)
	assert.Less(t, most/want, 1.05)
	assert.Less(t, settled, 0.3)
}
