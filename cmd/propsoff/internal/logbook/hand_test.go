package logbook

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// measuredRun is a run in which a mark was followed twice, once in vain.
func measuredRun() Entry {
	h := mark.Hand{Axis: mark.Roll, Mode: layout.Rate, Measured: true, DelayMS: 284, DelayWithin: 12, Crossover: 3105, CrossoverWithin: 160, Noise: 123}
	return OfRun(begun, &drill.Run{Drill: "follow-roll-rate", Day: Day(begun), Learned: true, Tries: []drill.Try{
		{Tick: 70_000, Verdict: drill.Wrong, Why: drill.NotMeasured, Reaction: -1, Hand: mark.Hand{Axis: mark.Roll, Mode: layout.Rate, Noise: 900}},
		{Tick: 140_000, Verdict: drill.Right, Reaction: -1, Hand: h},
	}}, nil, "Follow a mark: roll in rate")
}

// What was measured is kept in whole numbers and comes back; as a line it is code words and numbers.
func TestAHandIsKept(t *testing.T) {
	e := measuredRun()
	text, err := appendEntry(nil, &e)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"hand":{"axis":"roll","mode":"rate","measured":true,"delay_ms":284,"delay_within_ms":12,"crossover_mrad_s":3105,"crossover_within_mrad_s":160,"noise_thousandths":123}`)
	assert.Contains(t, string(text), `"why":"not-measured","hand":{"axis":"roll","mode":"rate","measured":false,"noise_thousandths":900}`)
	_, back, err := parse(text[:len(text)-1])
	require.NoError(t, err)
	assert.Equal(t, e.Run(), back.Run())
	assert.EqualValues(t, 284, back.Run().Tries[1].Hand.DelayMS)
	// An axis that only a later version knows is no hand; the run stays.
	_, later, err := parse([]byte(strings.Replace(string(text[:len(text)-1]), `"axis":"roll","mode":"rate","measured":true`, `"axis":"throttle","mode":"rate","measured":true`, 1)))
	require.NoError(t, err)
	assert.Zero(t, later.Run().Tries[1].Hand)
	assert.Len(t, later.Run().Tries, 2)
}

// The table has its columns at the end, empty where nothing was measured.
func TestTheTableHasTheHand(t *testing.T) {
	var out strings.Builder
	table := NewTable(&out, Filter{})
	e := measuredRun()
	require.NoError(t, table.Take(&Contents{Pupil: "Ann"}, &e))
	plain := some(4)
	require.NoError(t, table.Take(&Contents{Pupil: "Ann"}, &plain))
	require.NoError(t, table.Close())
	lines := strings.Split(strings.TrimSpace(out.String()), "\r\n")
	require.Len(t, lines, 5)
	assert.True(t, strings.HasSuffix(lines[0], `"axis","mode","delay_ms","delay_within_ms","crossover_mrad_s","crossover_within_mrad_s","noise_thousandths"`))
	assert.True(t, strings.HasSuffix(lines[1], `"roll","rate","","","","",""`), lines[1])
	assert.True(t, strings.HasSuffix(lines[2], `"roll","rate","284","12","3105","160","123"`), lines[2])
	assert.True(t, strings.HasSuffix(lines[3], `"","","","","","",""`), lines[3])
}
