package drillrun

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/sim/body"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

// stands is what stands on the bench, the hands left out.
func (b *bed) stands() (out []pulse.Reading) {
	for _, r := range b.p.Stands(nil) {
		if r.Kind != pulse.Controls {
			out = append(out, pulse.Reading{Kind: r.Kind, Value: r.Value})
		}
	}
	return out
}

func (b *bed) wait(ms int) {
	for range ms {
		b.tick()
	}
}

// A flown drill that is left, or replaced by another at once, leaves the bench as it stood before: without propellers on the desk, or whatever else was there.
func TestABenchIsGivenBackAsItStood(t *testing.T) {
	gusts, ok := fault.Plant(fault.Gusts, 40, 90)
	require.True(t, ok)
	for name, before := range map[string][]pulse.Reading{
		"on the desk, propellers off": nil,
		"on the stand":                {{Kind: pulse.Air, Value: pulse.OnStand}, {Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Directions(true), false)}},
		"height held, in gusts": {{Kind: pulse.Instructor, Value: gusts}, {Kind: pulse.Air, Value: pulse.HeightHeld},
			{Kind: pulse.Propellers, Value: pulse.PropellersValue([4]int8{1, -1, -1, 1}, true)}},
		"tilted, a low pack, the cable in": {{Kind: pulse.Tilt, Value: 300}, {Kind: pulse.Pack, Value: 14000}, {Kind: pulse.Cable, Value: 1}, {Kind: pulse.Menu, Value: pulse.MenuCamera}},
		"pack out, radio off":              {{Kind: pulse.Power}, {Kind: pulse.Link}},
	} {
		for _, again := range []bool{false, true} {
			b := newBed(t, "hold-height", Options{})
			b.wait(1)
			b.queue = append(b.queue, before...)
			b.wait(10)
			want, power := b.stands(), b.p.Bench().State().In.Powered
			b.start(1)
			b.wait(2000)
			require.True(t, b.view.On)
			in := b.p.Bench().State().In
			require.EqualValues(t, pulse.InAir, in.Bench(), name)
			require.NotZero(t, in.Hands, name)
			if again {
				b.start(2)
				b.wait(1500)
			}
			b.c.Leave()
			b.wait(200)
			assert.ElementsMatch(t, want, b.stands(), name)
			assert.Equal(t, power, b.p.Bench().State().In.Powered, name)
			assert.Equal(t, NoOther, b.view.Other)
			if b.c.hands.planted != 0 {
				b.start(3)
				b.wait(200)
				assert.NotEqual(t, drill.Over, b.view.State.Phase, "what was planted before is lifted once more")
			}
		}
	}
}

// Whom the bench belongs to by now, he keeps it; but for the propellers.
func TestABenchThatWasTakenOver(t *testing.T) {
	b := newBed(t, "hold-height", Options{})
	b.queue = append(b.queue, pulse.Reading{Kind: pulse.Air, Value: pulse.OnStand})
	b.wait(10)
	b.start(1)
	b.wait(1000)
	b.by = input.ByDemo
	b.wait(200)
	require.Equal(t, Demo, b.view.Other)
	in := b.p.Bench().State().In
	assert.EqualValues(t, pulse.OnDesk, in.Bench())
	assert.Zero(t, in.Hands)
}
