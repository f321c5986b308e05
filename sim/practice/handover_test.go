package practice_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// That a craft is flown there for its pilot is one reading: the same readings, played again, give the same digest at every step, and so does a practice that
// goes on from a copy.
func TestBeingFlownThereReplays(t *testing.T) {
	cfg := sim.Default()
	_, throttle := sim.Hover(&cfg)
	frame := pulse.Frame{throttle, pulse.Centre, pulse.Centre, pulse.Centre, pulse.High, pulse.Low}
	readings := map[int64][]pulse.Reading{
		0:    {{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Air, Value: pulse.InAir}, {Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Directions(true), true)}, {Kind: pulse.Controls, Frame: frame}},
		500:  {{Kind: pulse.Air, Value: pulse.HoverAt(3000)}},
		1500: {{Kind: pulse.Air, Value: pulse.HoverAt(5000)}},
		2500: {{Kind: pulse.Link}},
	}
	a, b := practice.New(cfg), practice.New(cfg)
	var c practice.Practice
	var s sim.Snapshot
	for tick := range int64(4000) {
		a.Step(readings[tick])
		b.Step(readings[tick])
		require.Equal(t, a.Digest(), b.Digest(), tick)
		switch {
		case tick == 1000:
			a.CopyTo(&c)
		case tick > 1000:
			c.Step(readings[tick])
			require.Equal(t, a.Digest(), c.Digest(), tick)
		}
		switch a.Snapshot(&s); tick {
		case 499:
			assert.False(t, s.Armed || s.In.Powered)
		case 500, 1500:
			assert.True(t, s.Armed)
			assert.InDelta(t, float64(tick)/500+2, -s.Air.Body.Pos.Z, 1e-3)
		case 2719:
			assert.True(t, s.Armed, "the silence limit is not over")
		case 2720:
			assert.False(t, s.Armed)
		}
	}
}
