package facts

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// In whatever situation: a craft on the stand is there; one that is broken is nowhere else; one that is said to be on the ground is near it and does
// not fly; and a height is not said to be held that is let go.
func TestTheCraftIsWhereItIsSaidToBe(t *testing.T) {
	seen := map[happening.Place]int{}
	var teller Teller
	for seed := range uint64(300) {
		s := newSituation(seed)
		f := teller.Of(s.p, s.whose)
		a, in := &f.Snap.Air, &f.Snap.In
		p := f.Place()
		seen[p]++
		require.Equal(t, in.Hung, p == happening.OnStand, "%s", s)
		require.Equal(t, !in.Hung && a.Wreck != 0, p == happening.Broken, "%s", s)
		if p == happening.OnGround {
			require.True(t, in.Air && !a.Flying && Clearance(&f.Snap, &f.Craft.Body) < 0.02, "%s", s)
		}
		if Held(&f.Snap) {
			require.True(t, in.Held && !f.Snap.Sinking, "%s", s)
		}
	}
	assert.NotZero(t, seen[happening.OnStand])
	assert.NotZero(t, seen[happening.OnGround])
}

// A propeller is said to fall into its own wash exactly where the model holds its thrust: there a faster fall gives no more of it (an independent look
// at the force itself).
func TestTheWashIsToldWhereItIsHeld(t *testing.T) {
	cfg := sim.Default()
	p := hover.At(cfg, 100, true)
	held := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := p.Bench().State()
		b := &s.Air.Body
		b.Vel = vec.V{Z: rapid.Float64Range(-5, 15).Draw(t, "down")}
		b.Att = vec.Q{W: math.Cos(0.2), X: math.Sin(0.2)}
		speed := rapid.Float64Range(0.1, 1).Draw(t, "turns") * cfg.Body.FullSpeed
		b.Speed = [4]float64{speed, speed, speed, speed}
		faster := *b
		faster.Vel.Z += 1e-3
		more := cfg.Body.Lift(&faster, vec.V{}) - cfg.Body.Lift(b, vec.V{})
		p.Bench().Restore(s)
		var snap sim.Snapshot
		p.Snapshot(&snap)
		told := InWash(&snap, &cfg.Body)
		held[told]++
		if told {
			require.Zero(t, more)
		} else {
			require.Positive(t, more)
		}
	})
	assert.Positive(t, held[true])
	assert.Positive(t, held[false])
	cfg.Body.Idle = 0 // left out
	var snap sim.Snapshot
	p.Snapshot(&snap)
	snap.Air.Body.Vel.Z = 30
	assert.False(t, InWash(&snap, &cfg.Body))
}

// A craft that was held high and is on the ground again is taken up to where it is told, once it is armed.
func TestAHeldCraftIsTakenUpToWhereItIsTold(t *testing.T) {
	cfg := sim.Default()
	p := hover.At(cfg, 2, true)
	s := p.Bench().State()
	s.In.Sent = s.LastValid
	s.In.Sent[cfg.Layout.Mode], s.In.Sent[cfg.Layout.Arm], s.In.Sent[cfg.Layout.Throttle] = pulse.Low, cfg.Layout.ArmSpan.Low, pulse.Low
	p.Bench().Restore(s)
	tell := func(r ...pulse.Reading) { p.Step(r) }
	hands := s.In.Sent
	tell(pulse.Reading{Kind: pulse.Air, Value: pulse.HeightHeld})
	run := func(ms int) {
		for range ms {
			p.Step(nil)
		}
	}
	run(500)
	require.InDelta(t, 2, p.Bench().State().Air.Hold, 0.1)
	down := p.Bench().State()
	down.Air.Body.Pos.Z, down.Air.Body.Vel = -0.3, vec.V{} // or it breaks as it falls
	p.Bench().Restore(down)
	hands[cfg.Layout.Arm] = pulse.Low
	tell(pulse.Reading{Kind: pulse.Controls, Frame: hands})
	run(4000)
	var snap sim.Snapshot
	p.Snapshot(&snap)
	require.False(t, snap.Armed)
	require.Zero(t, snap.Air.Wreck)
	told := snap.Air.Hold
	assert.InDelta(t, sim.HeldHigh, told, 1e-9)
	hands[cfg.Layout.Arm] = cfg.Layout.ArmSpan.Low
	tell(pulse.Reading{Kind: pulse.Controls, Frame: hands})
	run(5000)
	p.Snapshot(&snap)
	require.True(t, snap.Armed)
	assert.InDelta(t, told, -snap.Air.Body.Pos.Z, 0.05)
}
