package drills

import (
	"testing"

	"github.com/stretchr/testify/assert"

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
