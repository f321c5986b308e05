package sim_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// flownThere is a craft that is flown there for hands which hold the throttle so far off its hover, their arm switch on.
func flownThere(t *testing.T, cfg sim.Config, mm int32, off pulse.Width) *flyer {
	f := takeOutside(t, cfg)
	_, throttle := sim.Hover(&cfg)
	if cfg.Layout.Arm != layout.NoChannel {
		f.frame[cfg.Layout.Arm] = pulse.High
	}
	f.frame[cfg.Layout.Throttle] = throttle + off
	f.step(pulse.Reading{Kind: pulse.Power}, pulse.Reading{Kind: pulse.Controls, Frame: f.frame})
	f.step(pulse.Reading{Kind: pulse.Air, Value: pulse.HoverAt(mm)})
	return f
}

// A craft that is flown there for its pilot hovers, armed, and goes on hovering under a hand that stands near enough; nothing jumps.
func TestACraftIsFlownThere(t *testing.T) {
	sticks := sim.Default()
	sticks.Arming.By, sticks.Layout.Arm = arming.BySticks, layout.NoChannel
	sticks.Link.Needed = sticks.Layout.Needed()
	for name, cfg := range map[string]sim.Config{"switch": sim.Default(), "sticks": sticks} {
		for _, off := range []int{-20, 0, 20} {
			f := flownThere(t, cfg, 3000, pulse.Micros(off))
			b := &f.snap.Air.Body
			require.True(t, f.snap.Armed, name)
			assert.True(t, f.snap.Air.Flying)
			assert.InDelta(t, 3, -b.Pos.Z, 1e-3)
			fastest := 0.0
			for range 1000 {
				f.run(0.001)
				fastest = max(fastest, math.Abs(b.Vel.Z))
				require.True(t, f.snap.Armed)
			}
			assert.InDelta(t, 3, -b.Pos.Z, 0.02+0.022*math.Abs(float64(off)), "%s, %d µs off", name, off)
			assert.Less(t, fastest, 0.05+0.04*math.Abs(float64(off)), "%s, %d µs off", name, off)
			assert.Less(t, b.Spin.Norm(), 1e-9)
		}
	}
}

// The arm switch disarms it within a slot, as it does any craft, and it then has to be seen off before it arms again.
func TestItsSwitchDisarmsWhatWasFlownThere(t *testing.T) {
	f := flownThere(t, sim.Default(), 3000, 0)
	f.run(0.1)
	f.move(4, pulse.Low)
	f.run(0.02)
	require.False(t, f.snap.Armed)
	f.move(4, pulse.High)
	f.run(0.1)
	assert.False(t, f.snap.Armed, "the throttle is up")
}

// Nobody is handed a craft that he could not have: with the arm switch off, a silent radio or unchecked propellers it stands on the ground, disarmed.
func TestItIsNotFlownThereFor(t *testing.T) {
	for name, spoil := range map[string]func(f *flyer){
		"an arm switch that is off": func(f *flyer) { f.move(4, pulse.Low) },
		"a silent radio":            func(f *flyer) { f.step(pulse.Reading{Kind: pulse.Link}) },
		"unchecked propellers": func(f *flyer) {
			f.step(pulse.Reading{Kind: pulse.Propellers, Value: pulse.PropellersValue(f.b.Config().Body.Turns, false)})
		},
		"an open menu": func(f *flyer) { f.step(pulse.Reading{Kind: pulse.Menu, Value: pulse.MenuCraft}) },
	} {
		f := flownThere(t, sim.Default(), 3000, 0)
		spoil(f)
		f.step(pulse.Reading{Kind: pulse.Air, Value: pulse.HoverAt(3000)})
		assert.False(t, f.snap.Armed, name)
		assert.False(t, f.snap.Air.Flying, name)
		assert.Less(t, -f.snap.Air.Body.Pos.Z, 0.2, name)
		assert.True(t, f.snap.In.Powered && f.snap.In.Air, name)
	}
}

// The record says that it was flown there, and how high; from then on the radio's silence counts as ever.
func TestTheRecordSaysThatItWasFlownThere(t *testing.T) {
	f := flownThere(t, sim.Default(), 2500, 0)
	moved := 0
	for _, h := range f.all {
		if h.Code == happening.Moved {
			if mm, hovers := pulse.HoverOf(h.A); hovers {
				moved++
				assert.EqualValues(t, 2500, mm)
			}
		}
		assert.NotEqual(t, happening.Armed, h.Code, "no hand has armed it")
	}
	assert.Equal(t, 1, moved)
	f.step(pulse.Reading{Kind: pulse.Link})
	f.run(0.2)
	require.True(t, f.snap.Armed)
	f.run(0.1)
	assert.False(t, f.snap.Armed, "240 ms")
}
