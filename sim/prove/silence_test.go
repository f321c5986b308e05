package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// turning replays a way and tells whether the motors turn when the radio falls silent, and at the way's end.
func turning(t *testing.T, l *Layout, w *Way) (before, end bool) {
	t.Helper()
	p := practice.New(l.Config)
	var s sim.Snapshot
	rs := w.Readings
	silent := false
	for tick := int64(0); tick <= w.Final; tick++ {
		n := 0
		for n < len(rs) && rs[n].At <= tick*1000 {
			if rs[n].Kind == pulse.Link && rs[n].Value == 0 {
				silent = true
				before = end // as it was in the tick before
			}
			n++
		}
		p.Step(rs[:n])
		rs = rs[n:]
		p.Snapshot(&s)
		end = s.Motor[0] > 0
	}
	require.True(t, silent, "the radio must fall silent on the way")
	return before, end
}

// The way to a silence that does not stop the motors is one on which they turn: what a pilot tries with the propellers off.
func TestASilenceIsShownWithTurningMotors(t *testing.T) {
	idles := func(m *made) *made { m.Config.Flight.AtLowThrottle = flight.Idle; return m }
	for name, c := range map[string]struct {
		l         *made
		cause     Cause
		movements int
		end       bool // they turn at the end too
	}{
		// Pack; arm; throttle up; radio off. None can be left out.
		"hold by switch":                {quickSwitch().hold(), HeldSwitch, 4, true},
		"hold by sticks":                {quickSticks().hold(), HeldSticks, 4, true},
		"preset on, throttle up":        {quickSwitch().stored(1500, 1500, 2012), StoredSwitchOn, 3, true}, // they start by the stored throttle
		"preset on, throttle low":       {quickSwitch().stored(988, 1500, 2012), StoredSwitchOn, 4, false}, // they stand, and it stays armed
		"preset by sticks, throttle up": {quickSticks().stored(1500, 1500, 0), StoredSticks, 3, true},
		"hold by switch, idling":        {idles(quickSwitch().hold()), HeldSwitch, 3, true}, // pack; arm; radio off
		"the corner, but too late":      {quickSticks().short(3, 5, 6, 4, 6, 0).stored(988, 988, 0), StoredLate, 4, false},
	} {
		rep, err := Search(c.l.Layout, Options{})
		require.NoError(t, err, name)
		r := &rep.Results[LossStopsMotors]
		require.Equal(t, Broken.Code(), r.Outcome.Code(), name)
		assert.Equal(t, c.cause.Code(), r.Cause.Code(), name)
		assert.Equal(t, c.movements, r.Way.Movements, "%s: %+v", name, r.Way.Steps)
		before, end := turning(t, &c.l.Layout, r.Way)
		assert.Equal(t, c.end, end, "%s: at the end", name)
		assert.True(t, before || end, "%s: motors that never turn show nothing", name)
		replay(t, &c.l.Layout, r)
	}
}

// A throttle that can never ask for power leaves no way with turning motors: that the craft stays armed is found all the same.
func TestASilenceWithoutAThrottleIsFound(t *testing.T) {
	m := quickSwitch().hold().travel("throttle", 988, 999)
	rep, err := Search(m.Layout, Options{})
	require.NoError(t, err)
	r := &rep.Results[LossStopsMotors]
	require.Equal(t, Broken.Code(), r.Outcome.Code())
	assert.Equal(t, 3, r.Way.Movements)
	replay(t, &m.Layout, r)
}

// Stored values in the disarming corner disarm when the dwell is over. Where that is later than promised, how late is told by the
// bench: dwell and a slot after the radio's last frame.
func TestStoredCornerTooLate(t *testing.T) {
	m := bySticks().stored(988, 988, 0)
	rep, err := Search(m.Layout, Options{})
	require.NoError(t, err)
	r := &rep.Results[LossStopsMotors]
	require.Equal(t, Broken.Code(), r.Outcome.Code())
	assert.Equal(t, StoredLate.Code(), r.Cause.Code())
	assert.EqualValues(t, 420, r.Value)
	// A dwell that ends in time breaks nothing.
	m = quickSticks().short(8, 5, 6, 4, 3, 0).stored(988, 988, 0)
	rep, err = Search(m.Layout, Options{})
	require.NoError(t, err)
	assert.Equal(t, Holds.Code(), rep.Results[LossStopsMotors].Outcome.Code())
}
