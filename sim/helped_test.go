package sim_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// putOn is a craft put on a bench and armed there with the throttle low.
func putOn(t *testing.T, cfg sim.Config, bench int32) *flyer {
	f := takeOutside(t, cfg)
	f.step(pulse.Reading{Kind: pulse.Air, Value: bench})
	f.run(2.5)
	f.move(4, pulse.High)
	f.run(0.1)
	require.True(t, f.snap.Armed, "refused by %b", f.snap.Refusals)
	return f
}

// stickWork moves roll, pitch and yaw to and fro, and the throttle as well, which does nothing.
func (f *flyer) stickWork(tick int, most float64) {
	at := func(period, size float64) pulse.Width {
		return pulse.Width(float64(pulse.Centre) + size*float64(pulse.Travel)*math.Sin(2*math.Pi*float64(tick)/period))
	}
	l := &f.b.Config().Layout
	f.frame[l.Roll], f.frame[l.Pitch], f.frame[l.Yaw] = at(1700, most), at(2300, 0.9*most), at(3100, 0.8)
	f.frame[l.Throttle] = pulse.Centre + pulse.Width(float64(pulse.Travel)*math.Sin(2*math.Pi*float64(tick)/900))
	f.step(pulse.Reading{Kind: pulse.Controls, Frame: f.frame})
}

func inMode(m layout.Mode) sim.Config {
	cfg := sim.Default()
	cfg.Layout.Mode, cfg.Layout.FixedMode, cfg.Arming.OnlySelfLevelling = layout.NoChannel, m, false
	return cfg
}

// Nothing moves the middle of a craft on the stand, and it never takes off, breaks or touches anything. (How it turns is held against a free body beside
// the joint itself.)
func TestTheStandHoldsItsMiddle(t *testing.T) {
	for _, m := range []layout.Mode{layout.Angle, layout.Horizon, layout.Rate} {
		f := putOn(t, inMode(m), pulse.OnStand)
		place, turned := f.snap.Air.Body.Pos, 0.0
		for i := range 10_000 {
			f.stickWork(i, 1)
			turned = max(turned, math.Acos(min(max(f.snap.Air.Body.Att.Turn(vec.V{Z: 1}).Z, -1), 1)))
			require.Equal(t, place, f.snap.Air.Body.Pos)
			require.Zero(t, f.snap.Air.Body.Vel)
		}
		assert.Greater(t, turned, 0.6, "%v: it turned", m)
		assert.Zero(t, f.snap.Air.Wreck)
		assert.False(t, f.snap.Air.Flying)
		assert.Nil(t, f.happened(happening.TookOff))
	}
}

// Its motors turn about a hover whatever the throttle says, disarmed it swings back to level and can be armed again, whatever way it lay.
func TestTheStandMindsNoThrottleAndRightsItself(t *testing.T) {
	f := putOn(t, inMode(layout.Rate), pulse.OnStand)
	f.run(1)
	hover := f.b.Config().Body.Carries(1, f.snap.Volts) * flight.FullSpeed
	for _, w := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
		f.move(0, w)
		f.run(0.5)
		for _, m := range f.snap.Motor {
			assert.InDelta(t, hover, float64(m), 0.02*hover)
		}
	}
	f.move(0, pulse.Low)
	f.move(1, pulse.High)
	f.run(0.45)
	f.move(1, pulse.Centre)
	f.move(4, pulse.Low)
	require.Less(t, f.snap.Air.Body.Att.Turn(vec.V{Z: 1}).Z, 0.5, "it lies far from level")
	f.run(3)
	assert.Zero(t, f.snap.Motor)
	assert.InDelta(t, 1, f.snap.Air.Body.Att.Turn(vec.V{Z: 1}).Z, 1e-4)
	f.move(4, pulse.High)
	f.run(0.1)
	assert.True(t, f.snap.Armed, "refused by %b", f.snap.Refusals)
	f.move(4, pulse.Low)
	s := f.b.State()
	s.Air.Body.Att = vec.Q{X: 1} // exactly on its back
	f.b.Restore(s)
	f.run(3)
	assert.InDelta(t, 1, f.snap.Air.Body.Att.Turn(vec.V{Z: 1}).Z, 1e-4)
}

// Armed on the ground it is taken up, and stays there within 10 cm for 30 s of stick work, in any mode and whatever way it lies; sideways it goes as
// fast as its bank makes it.
func TestTheHeightIsHeld(t *testing.T) {
	for _, m := range []layout.Mode{layout.Angle, layout.Horizon, layout.Rate} {
		f := putOn(t, inMode(m), pulse.HeightHeld)
		f.run(4)
		assert.NotNil(t, f.happened(happening.TookOff))
		at := f.height()
		assert.InDelta(t, 1, at, 0.02)
		for i := range 30_000 {
			f.stickWork(i, 1)
			require.InDelta(t, at, f.height(), 0.1, "%v after %d ms", m, i)
		}
	}
	f := putOn(t, inMode(layout.Angle), pulse.HeightHeld)
	f.run(4)
	at, before := f.height(), f.snap.Air.Body.Vel
	f.move(1, pulse.High)
	f.run(0.4)
	from := f.snap.Air.Body.Vel
	f.run(0.2)
	assert.InDelta(t, 40, math.Acos(f.snap.Air.Body.Att.Turn(vec.V{Z: 1}).Z)*180/math.Pi, 3, "banked as far as it goes")
	// A craft that is carried level at a bank goes sideways at g·tan φ (textbook), less what the air takes.
	gains := (f.snap.Air.Body.Vel.Y - from.Y) / 0.2
	assert.InDelta(t, body.Gravity*math.Tan(40*math.Pi/180), gains, 1.6)
	assert.InDelta(t, 0, before.Y, 1e-6)
	for range 10_000 {
		f.step()
		require.InDelta(t, at, f.height(), 0.1)
	}
}

// A craft in flight is held where it is, armed as it was; on a lost link nobody holds it any more.
func TestTheHeightIsHeldFromWhereItFlies(t *testing.T) {
	f := armed(t, sim.Default())
	f.hoverAt(6)
	at := f.height()
	f.step(pulse.Reading{Kind: pulse.Air, Value: pulse.HeightHeld})
	require.True(t, f.snap.Armed && f.snap.Air.Flying && f.snap.In.Held)
	f.move(0, pulse.Micros(1500))
	f.run(5)
	assert.InDelta(t, at, f.height(), 0.1)
	f.step(pulse.Reading{Kind: pulse.Link, Value: 0})
	f.run(2.5)
	assert.True(t, !f.snap.Armed || f.snap.Sinking)
	assert.Less(t, f.height(), at-0.3)
	f.step(pulse.Reading{Kind: pulse.Air, Value: pulse.InAir})
	assert.False(t, f.snap.In.Held || f.snap.Armed)
	assert.Less(t, f.height(), 0.1, "the whole craft stands on the ground again")
	assert.Equal(t, int32(pulse.InAir), f.snap.In.Bench())
}

// Whoever disarms a held craft lets it fall, and it holds that.
func TestAHeldCraftComesDownWhole(t *testing.T) {
	f := putOn(t, inMode(layout.Angle), pulse.HeightHeld)
	f.run(4)
	f.move(4, pulse.Low)
	f.run(3)
	assert.NotNil(t, f.happened(happening.TouchedDown))
	assert.Zero(t, f.snap.Air.Wreck)
}

func TestHelpAllocatesNothing(t *testing.T) {
	for _, bench := range []int32{pulse.OnStand, pulse.HeightHeld} {
		f := putOn(t, sim.Default(), bench)
		var log happening.Log
		assert.Zero(t, testing.AllocsPerRun(1000, func() {
			log.Reset()
			f.b.Step(nil, &log)
		}))
	}
}
