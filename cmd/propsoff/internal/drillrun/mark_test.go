package drillrun

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
)

// A coach shows how far off the mark the craft is, tells it twenty times a second, and measures the hand at the end: a hand that answers after 250 ms,
// 3 rad/s, in rate; what it did is in the result. One that lies still is told that nothing could be measured, and nothing is shown again slowly.
func TestACoachMeasuresTheHand(t *testing.T) {
	moved, lines := 0, map[drill.EventKind]int{}
	b := newBed(t, "follow-roll-rate", Options{Told: func(_ int64, e drill.Event, v *View) {
		lines[e.Kind]++
		if e.Kind == drill.MarkMoved {
			moved++
			assert.InDelta(t, v.Mark.Off*1000, e.Number, 1)
		}
	}})
	b.start(3)
	roll := func(x float64) {
		b.frame[b.base.Layout.Roll], b.moved = pulse.Centre+pulse.Width(math.Round(x*float64(pulse.Travel))), true
	}
	follow := func(gain float64) Mark {
		b.c.Shown(b.view.Cue, b.until("a cue", cueDue), 17)
		var seen [250]float64
		first := Mark{}
		for b.view.State.Phase == drill.Running {
			tick := b.tick()
			if m := b.view.Mark; m.On {
				if !first.On {
					first = m
				}
				c := b.base.Control.Curve[0]
				roll(gain * seen[tick%250] / (c.Full * (1 - c.Exponential)))
				seen[tick%250] = m.Off
			}
			if b.view.State.CueAt < 0 {
				b.c.Shown(b.view.Cue, tick, 17)
			}
		}
		return first
	}
	b.until("a cue", cueDue)
	first := follow(0)
	assert.EqualValues(t, 65_000, first.Whole)
	assert.GreaterOrEqual(t, first.Left, int64(64_990))
	require.Len(t, b.view.Tries, 1)
	assert.Equal(t, drill.NotMeasured, b.view.Tries[0].Why)
	assert.Equal(t, drill.Looking, b.view.State.Phase)
	b.tick()
	assert.False(t, b.view.Mark.On)
	assert.Equal(t, 1300, moved)
	for range 5000 {
		b.tick()
	}
	assert.Equal(t, drill.Looking, b.view.State.Phase, "it stays until it was read")
	b.c.GoOn()

	b.until("the next cue", func(v *View) bool { return v.Cue == 2 })
	follow(3)
	b.until("the end", func(v *View) bool { return v.State.Phase == drill.Over })
	require.Len(t, b.ended, 1)
	assert.True(t, b.ended[0].Learned)
	h := b.ended[0].Tries[1].Hand
	assert.True(t, h.Measured)
	assert.InDelta(t, 250, h.DelayMS, 20)
	assert.InDelta(t, 3000, h.Crossover, 150)
	assert.EqualValues(t, -1, b.ended[0].Tries[1].Reaction)
	assert.Equal(t, 1, lines[drill.LookBegins], "the one that was measured is told at the end")
	assert.Nil(t, b.used[0].Gestures, "nothing opens while the stick is moved about")
}
