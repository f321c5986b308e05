package keyboard_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/input/keyboard"
	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// turnsOver tells whether a craft on the stand turns over in a mode while an arrow is held for 2 s, with or without Shift.
func turnsOver(t *testing.T, m layout.Mode, arrow keyboard.Key, shift bool) bool {
	cfg := sim.Default()
	cfg.Layout.Mode, cfg.Layout.FixedMode, cfg.Arming.OnlySelfLevelling = layout.NoChannel, m, false
	l := &cfg.Layout
	n := names()
	for job, ch := range map[string]int8{"roll": l.Roll, "pitch": l.Pitch, "throttle": l.Throttle, "yaw": l.Yaw, "arm": l.Arm} {
		n.Channel[job] = int(ch)
	}
	n.Position["arm"]["on"] = pulse.High
	keys := keyboard.New(n)
	keys.Press(keyboard.Arm, 3_000*ms)
	if shift {
		keys.Press(keyboard.Gentle, 3_900*ms)
	}
	keys.Press(arrow, 4_000*ms)
	keys.Release(arrow, 6_000*ms)
	p := practice.New(cfg)
	p.Step([]pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.Air, Value: pulse.OnStand},
		{Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Default().Hand, true)}})
	over := false
	for at := int64(0); at < 6_000; at++ {
		readings, err := keys.Poll(nil, at*ms)
		require.NoError(t, err)
		p.Step(readings)
		s := p.Bench().State()
		over = over || s.Air.Body.Att.Turn(vec.V{Z: 1}).Z < -0.5
	}
	require.True(t, p.Bench().Armed())
	return over
}

// With keys too horizon is not rate: a full arrow turns it over, half of one banks it as in angle. In rate both turn it over.
func TestHalfAnArrowTellsHorizonFromRate(t *testing.T) {
	for _, arrow := range []keyboard.Key{keyboard.RollLeft, keyboard.RollRight, keyboard.PitchForward, keyboard.PitchBack} {
		for m, want := range map[layout.Mode][2]bool{layout.Angle: {false, false}, layout.Horizon: {true, false}, layout.Rate: {true, true}} {
			require.Equal(t, want, [2]bool{turnsOver(t, m, arrow, false), turnsOver(t, m, arrow, true)}, "key %d in %v: full, half", arrow, m)
		}
	}
}
