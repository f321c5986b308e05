package drills

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
)

// The alarm's result goes by when the arm switch went off, not by when the throttle was down; by sticks, by when they came into their corner. Only right
// tries count.
func TestTheAlarmGoesByWhenTheHandDisarmed(t *testing.T) {
	cfg := sim.Default()
	tries := []drill.Try{{Verdict: drill.Right, Reaction: 900, First: 500}, {Verdict: drill.Right, Reaction: 700, First: 600}, {Verdict: drill.Right, Reaction: 800, First: 700},
		{Verdict: drill.Wrong, Reaction: -1, First: -1}, {Verdict: drill.TooLate, Reaction: 1800, First: 1700}}
	after, ok := disarmedAfter(&cfg, tries)
	assert.True(t, ok)
	assert.EqualValues(t, 600, after)
	cfg.Arming.By, cfg.Layout.Arm = arming.BySticks, layout.NoChannel
	after, _ = disarmedAfter(&cfg, tries)
	assert.EqualValues(t, 200, after, "the dwell is 0.4 s")
	_, ok = disarmedAfter(&cfg, tries[3:])
	assert.False(t, ok)
}

// What a reaction means is worked out bit by bit while the sheet goes on, and shown once all of it is known; the next drill forgets it.
func TestWhatAReactionMeansComesBitByBit(t *testing.T) {
	cfg := sim.Default()
	p := &part{meaning: &meaning{&cfg, facts.React(600)}}
	bits := 0
	for ; p.view.Run.Alarm == nil; bits++ {
		require.Less(t, bits, 1000)
		p.meanOn()
	}
	assert.Greater(t, bits, 40)
	assert.Equal(t, facts.AlarmAfter(&cfg, 600), p.view.Run.Means)
	assert.True(t, p.alarm.Known())
	assert.Nil(t, p.meaning)
	p.meanOn() // nothing is left to do
	assert.Equal(t, facts.AlarmAfter(&cfg, 600), p.view.Run.Means)
}
