package prove

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/handset"
)

// An arm switch that is another switch too, turned, so that never both are as arming asks, is named as what keeps the craft from arming; where both
// are on somewhere it is not.
func TestArmTurnedIsNamed(t *testing.T) {
	turned := func(job string, m *made) *made { return m.same(job, "arm", true) }
	for name, c := range map[string]struct {
		l       *made
		is      bool
		channel int64
	}{
		"second turned":                 {turned("second", quickSwitch().second().positions("arm", 988, 2012).positions("second", 988, 2012)), true, 7},
		"second as it is":               {quickSwitch().second().positions("arm", 988, 2012).positions("second", 988, 2012).same("second", "arm", false), false, 0},
		"second turned, on at both":     {turned("second", quickSwitch().second().positions("arm", 988, 2012).positions("second", 1700, 2012)), false, 0},
		"mode turned, and must level":   {quickSwitch().levelOnly().positions("mode", 988, 2012).positions("arm", 988, 2012).same("mode", "arm", false), true, 6},
		"mode turned the right way":     {turned("mode", quickSwitch().levelOnly().positions("mode", 988, 2012).positions("arm", 988, 2012)), false, 0},
		"mode as it is, and need not":   {quickSwitch().positions("mode", 988, 2012).positions("arm", 988, 2012).same("mode", "arm", false), false, 0},
		"second turned on a knob's way": {turned("second", quickSwitch().second().kind("arm", handset.Knob).kind("second", handset.Knob)), true, 7},
	} {
		rep, err := Search(c.l.Layout, Options{})
		require.NoError(t, err, name)
		r := &rep.Results[CanArm]
		assert.Equal(t, c.is, r.Outcome == Broken, name)
		if c.is {
			assert.Equal(t, []any{ArmsTurned.Code(), c.channel}, []any{r.Cause.Code(), r.Value}, name)
			replay(t, &c.l.Layout, r)
		}
	}
}

// What carries nothing falls as a stone does, but for its drag; and the more of its weight a craft carries, the slower it touches the ground.
func TestSinkingByThePhysics(t *testing.T) {
	f := func(thousandths int) *fearful { return &fearful{cfg: &quickSwitch().carries(thousandths).Config} }
	touches, speed := f(0).sinksFrom(LowFlight)
	require.True(t, touches)
	stone := math.Sqrt(2 * 9.81 * LowFlight)
	assert.Less(t, speed, stone)
	assert.Greater(t, speed, 0.9*stone)
	last := speed
	for n := 100; n <= 900; n += 100 {
		touches, speed = f(n).sinksFrom(LowFlight)
		require.True(t, touches, n)
		assert.Less(t, speed, last, n)
		last = speed
	}
	touches, _ = f(1000).sinksFrom(LowFlight)
	assert.False(t, touches)
}
