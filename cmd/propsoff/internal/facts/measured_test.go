package facts

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/vec"
)

// What is said of a craft that sinks from a hover is what comes of one that a pilot hovers and whose radio goes off; and it is near what
// a tenth of the weight does against a thrust that grows with the fall: v∞·(t − τ·(1 − e^(−t/τ))), v∞ = 0.1·g0·τ (textbook; g0 by CGPM 1901).
func TestSinkFromHoverIsWhatComes(t *testing.T) {
	for _, seconds := range []float64{1, 4, 8} {
		cfg := sim.Default()
		cfg.Arming.SinkSlots = sim.Slots(int(seconds*1000), cfg.SlotTicks)
		s, ok := SinkFromHover(&cfg)
		require.True(t, ok)
		assert.False(t, s.Lands)
		assert.Less(t, s.Climbs, 0.05)
		b := &cfg.Body
		speed := math.Sqrt(0.9 * b.Mass * body.Gravity / (4 * b.Thrust))
		lasts := b.Mass / (4*b.Thrust*speed*2*math.Pi/(b.Diameter*b.Idle) + b.Drag1)
		damped := 0.1 * 9.80665 * lasts * (seconds - lasts*(1-math.Exp(-seconds/lasts)))
		assert.InDelta(t, damped, s.Falls, 0.1*damped+0.1, "%v s", seconds)
		o, err := lossrun.Demonstrate(lossrun.Options{Craft: cfg, Height: 60, OffFor: 20_000})
		require.NoError(t, err)
		r := o.End[link.FallsSilent].Run
		require.NotEqual(t, int64(lossrun.NotYet), r.Disarmed)
		assert.InDelta(t, s.Falls, r.Before.Height-r.Falls.Height, 0.1*s.Falls+0.1, "%v s: a pack that has flown to 60 m is not full any more", seconds)
	}
	cfg := sim.Default()
	_, ok := SinkFromHover(&cfg)
	assert.False(t, ok, "one that cuts does not sink")
}

// What is said of a held stick in horizon holds for the whole craft: control loops, motors and body, in every direction of the stick.
func TestHorizonIsWhatComesOfTheWholeCraft(t *testing.T) {
	cfg := sim.Default()
	h := HorizonOf(&cfg)
	t.Logf("%+v", h)
	assert.GreaterOrEqual(t, h.Steady, 0.6)
	assert.Less(t, h.Steady, h.Over)
	held := func(x, a float64) float64 {
		b := cfg.Body
		b.Weightless, b.Pack = true, body.Pack{}
		s := body.State{Att: vec.Q{W: 1}}
		hover := math.Sqrt(cfg.Body.Mass * body.Gravity / (4 * b.Thrust))
		for i := range s.Speed {
			s.Speed[i] = hover
		}
		var loops flight.ControlState
		worst := 0.0
		for range 4000 {
			in := flight.ControlInput{Roll: x * math.Cos(a), Pitch: x * math.Sin(a), Mode: layout.Horizon, AirAwake: true,
				Throttle: 0.4, Base: hover / b.FullSpeed, Att: s.Att, Spin: s.Spin}
			var c body.Input
			loops, _, c.Command = flight.Fly(&cfg.Control, loops, &in, 0.001)
			s = body.Step(&b, s, &c, 0.001)
			worst = max(worst, math.Acos(min(max(s.Att.Turn(vec.V{Z: 1}).Z, -1), 1))*180/math.Pi)
		}
		return worst
	}
	for turn := range 16 {
		a := float64(turn) * math.Pi / 8
		assert.Less(t, held(h.Steady-0.03, a), 90.0, "direction %d", turn)
		assert.Greater(t, held(min(h.Over+0.03, 1), a), 120.0, "direction %d", turn)
	}
}
