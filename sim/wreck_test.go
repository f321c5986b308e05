package sim_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// dropped is a craft whose motors stand still, let fall flat from a height in m, its top down where it is asked for.
func dropped(t *testing.T, height float64, onTop bool) *flyer {
	f := takeOutside(t, sim.Default())
	s := f.b.State()
	s.Air.Body.Pos.Z -= height
	if onTop {
		s.Air.Body.Att = vec.Q{X: 1}
	}
	f.b.Restore(s)
	f.run(4)
	return f
}

// A fall breaks a craft that touches the ground faster than 5 m/s, and no other: √(2·g·h) without drag (textbook), 1.27 m.
func TestAFallBreaksTheCraft(t *testing.T) {
	assert.Nil(t, dropped(t, 1.2, false).happened(happening.Broke))
	for _, h := range []float64{1.4, 3} {
		broke := dropped(t, h, false).happened(happening.Broke)
		require.NotNil(t, broke, "%v m", h)
		assert.Equal(t, int32(happening.TooFast|happening.MotorsOff), broke.A)
		assert.InDelta(t, math.Sqrt(2*body.Gravity*h), float64(broke.B)/1000, 0.08*math.Sqrt(2*body.Gravity*h))
	}
	broke := dropped(t, 0.3, true).happened(happening.Broke)
	require.NotNil(t, broke)
	assert.Equal(t, int32(happening.OnTop|happening.MotorsOff), broke.A)
	off := dropped(t, 3, false).happened(happening.TookOff)
	assert.Nil(t, off, "a bounce is no take-off")
}

// A propeller that turns and meets the ground ends the flight: the motors stop, the arm switch does nothing about it, and only putting
// the craft back does.
func TestATurningPropellerOnTheGroundEndsTheFlight(t *testing.T) {
	f := takeOutside(t, sim.Default())
	hands := body.Default().Hand
	hands[2] = -hands[2]
	f.step(pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(hands, true)})
	f.move(4, pulse.High)
	f.run(0.1)
	f.move(0, pulse.Micros(1600))
	f.run(2)
	broke := f.happened(happening.Broke)
	require.NotNil(t, broke)
	assert.NotZero(t, happening.Breakage(broke.A)&happening.ByBlade)
	assert.Zero(t, f.snap.Motor)
	assert.True(t, f.snap.Armed, "its electronics live")
	f.move(0, pulse.Low)
	f.move(4, pulse.Low)
	f.run(0.1)
	f.step(pulse.Reading{Kind: pulse.Power, Value: 0})
	f.step(pulse.Reading{Kind: pulse.Power, Value: 1})
	f.run(3)
	f.move(4, pulse.High)
	f.move(0, pulse.Micros(1500))
	f.run(0.5)
	assert.Zero(t, f.snap.Motor, "no pack mends it")
	f.move(0, pulse.Low)
	f.move(4, pulse.Low)
	f.step(pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Default().Hand, true)})
	f.step(pulse.Reading{Kind: pulse.Air, Value: 0}, pulse.Reading{Kind: pulse.Air, Value: 1})
	f.run(3)
	assert.Zero(t, f.snap.Air.Wreck)
	f.move(4, pulse.High)
	f.run(0.1)
	f.move(0, pulse.Micros(1500))
	f.run(0.5)
	assert.NotZero(t, f.snap.Motor)
	assert.Greater(t, f.height(), 0.2)
}

// Whatever a hand does on the ground, nothing there spins as no craft can: at most some three turns a second before it breaks.
func TestNothingSpinsOnTheGround(t *testing.T) {
	for yaw := range 3 {
		for _, mode := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
			for mirrored := range 2 {
				f := takeOutside(t, sim.Default())
				hands := body.Default().Hand
				if mirrored == 1 {
					for i := range hands {
						hands[i] = -hands[i]
					}
				}
				f.step(pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(hands, true)})
				f.move(4, pulse.High)
				f.move(5, mode)
				f.move(3, []pulse.Width{pulse.Low, pulse.Centre, pulse.High}[yaw])
				f.move(1, []pulse.Width{pulse.Centre, pulse.High, pulse.Low}[yaw])
				fastest := 0.0
				for i := range 5000 {
					if i%500 == 0 {
						f.move(0, pulse.Micros(1000+i/500%4*60))
					}
					f.step()
					if f.height() < 0.2 {
						fastest = max(fastest, f.snap.Air.Body.Spin.Norm()*180/math.Pi)
					}
				}
				assert.Less(t, fastest, 1000.0, "yaw %d, mode %d, mirrored %d", yaw, mode, mirrored)
			}
		}
	}
}

// In angle with centred sticks a craft in a breeze drifts with it, and one whose level is off drifts to where it leans: a centred stick is not a
// craft that stands (common practice, no source). Where drag balances the pull of the lean, the speed is m·g·tan(a)/k; on the way it is slower.
func TestBreezeAndLevel(t *testing.T) {
	drift := func(tell ...pulse.Reading) vec.V {
		f := armed(t, sim.Default())
		f.hoverAt(8)
		f.step(tell...)
		from := f.snap.Air.Body.Pos
		for range 3000 {
			f.frame[0] = pulse.Width((1370 + 60*(8-f.height()) + 80*f.snap.Air.Body.Vel.Z) * pulse.Eighths)
			f.step(pulse.Reading{Kind: pulse.Controls, Frame: f.frame})
		}
		return f.snap.Air.Body.Pos.Sub(from)
	}
	still := drift()
	assert.Less(t, vec.V{X: still.X, Y: still.Y}.Norm(), 0.02)
	west := drift(pulse.Reading{Kind: pulse.Wind, Value: pulse.WindValue(30, 270, false, 0)})
	assert.Greater(t, west.Y, 0.5, "a wind from the west takes it east")
	assert.Less(t, math.Abs(west.X), 0.1)
	gusty := drift(pulse.Reading{Kind: pulse.Wind, Value: pulse.WindValue(30, 270, true, 7)})
	assert.Greater(t, gusty.Sub(west).Norm(), 0.05)
	assert.Equal(t, gusty, drift(pulse.Reading{Kind: pulse.Wind, Value: pulse.WindValue(30, 270, true, 7)}), "the same chance, the same gusts")
	off := drift(pulse.Reading{Kind: pulse.LevelOff, Value: pulse.LevelOffValue(10, -20)})
	assert.Greater(t, off.Y, 0.3, "banked to the right it drifts to the right")
	assert.Less(t, off.Y, 0.5*body.Gravity*math.Tan(math.Pi/180)*9)
	assert.InDelta(t, 2, off.X/off.Y, 0.1, "twice as much with its nose down")
}

// Frames that are late or lost at random: at a craft's silence limit of 12 slots a share of lost frames p loses the link about every
// 1/(p¹²·(1−p)) slots (runs of Bernoulli trials, Feller; from memory).
func TestFramesThatAreLateOrLost(t *testing.T) {
	cfg := sim.Default()
	cfg.Transit.Delay = 40
	f := takeOutside(t, cfg)
	f.move(4, pulse.High)
	f.run(0.039)
	assert.False(t, f.snap.Armed)
	f.run(0.06)
	assert.True(t, f.snap.Armed, "two slots later")

	cfg.Transit.Lost, cfg.Transit.Seed = 6000, 3
	f = takeOutside(t, cfg)
	for range 4000 {
		f.run(0.1)
	}
	lost := 0
	for _, h := range f.all {
		if h.Code == happening.LinkLost {
			lost++
		}
	}
	p := 0.6
	want := 400.0 * 50 * math.Pow(p, 12) * (1 - p)
	assert.InDelta(t, want, float64(lost), 4*math.Sqrt(want))
}
