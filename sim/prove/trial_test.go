package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// A way breaks its rule in the layout in which it was found; in another it is said to only where a whole search finds the rule broken too.
func TestATrialBreaksWhatASearchFindsBroken(t *testing.T) {
	quick := func(m *made) *made { return m.short(4, 5, 6, 4, 3, 6) }
	all := []*made{
		quick(bySwitch()), quick(bySwitch()).hold(), quick(bySwitch()).stored(988, 1500, 988), quick(bySwitch()).stored(988, 1500, 2012),
		quick(bySticks()), quick(bySticks()).hold(), quick(bySticks()).stored(988, 2012, 0), quick(bySticks()).stored(1500, 1500, 0), quick(bySticks()).stored(988, 988, 0),
		quick(bySwitch()).with(func(m *made) { m.Config.Arming.LowThrottle = pulse.Micros(1100) }),
		quick(bySwitch()).with(func(m *made) { m.control("arm").Momentary = true }),
		quick(bySwitch()).travel("roll", 700, 2300), quick(bySwitch()).positions("arm", 700, 1500, 2012),
		quick(bySwitch()).with(func(m *made) { m.Config.Layout.ArmSpan = layout.Span{Low: pulse.Lowest, High: pulse.Micros(1200)} }).hold(),
	}
	reports := make([]Report, len(all))
	for i, m := range all {
		var err error
		reports[i], err = Search(m.Layout, Options{})
		require.NoError(t, err)
	}
	own, others, spared := 0, 0, 0
	for i, m := range all {
		trial, err := NewTrial(&m.Layout)
		require.NoError(t, err)
		for j := range reports {
			for k := range reports[j].Results {
				r := &reports[j].Results[k]
				if r.Outcome != Broken || r.Way == nil || r.Rule >= EveryModeReached {
					continue
				}
				breaks := trial.Breaks(r.Rule, r.Way)
				switch {
				case i == j:
					own++
					assert.True(t, breaks, "%d: %s", i, r.Rule.Code())
				case breaks:
					others++
				default:
					spared++
				}
				if breaks {
					assert.Equal(t, Broken, reports[i].Results[r.Rule].Outcome, "%d by the way of %d: %s", i, j, r.Rule.Code())
				}
			}
		}
	}
	assert.Greater(t, own, 12)
	assert.Greater(t, others, 8)
	assert.Greater(t, spared, 50)
}
