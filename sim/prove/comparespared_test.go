package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// Noise at an edge is told of the control, the radio and the place that it is of; where it does the same on both sides, it sets nothing apart.
func TestNoiseAtAnEdgeIsSaid(t *testing.T) {
	us := pulse.Micros
	noisy := func(spread int) *made {
		m := bySwitch().short(3, 3, 3, 3, 3, 0).positions("arm", 988, 1595, 2012)
		m.control("arm").Positions[1].Spread = us(spread)
		return m
	}
	c := both(t, "still", noisy(0), noisy(0))
	assert.Empty(t, c.Shaken)
	assert.Equal(t, Alike, c.Likeness())

	c = both(t, "both noisy", noisy(10), noisy(9))
	assert.False(t, c.ByNoise)
	assert.Equal(t, Alike, c.Likeness())
	require.Len(t, c.Shaken, 2)
	at := 4
	require.Equal(t, "arm", noisy(10).Radio.Controls[at].Job)
	for i, s := range c.Shaken {
		assert.Equal(t, Shaken{Layout: i, Control: at, Position: 1, At: us(1595), To: us(1600)}, s)
	}

	c = both(t, "one noisy", noisy(0), noisy(10))
	assert.True(t, c.ByNoise)
	assert.Equal(t, Undetermined, c.Likeness(), "the second arms by itself")
	assert.Equal(t, Unfinished, c.Verdict())
	assert.Equal(t, []Shaken{{Layout: 1, Control: at, Position: 1, At: us(1595), To: us(1600)}}, c.Shaken)
}

// A stretch that was left out is told by its control and its ends.
func TestAStretchThatWasLeftOutIsNamed(t *testing.T) {
	a, b := bySwitch().short(4, 4, 5, 3, 3, 0), bySwitch().short(4, 4, 5, 3, 3, 0).travel("throttle", 1000, 2000)
	c := both(t, "less throttle", a, b)
	require.NotEmpty(t, c.LeftOut)
	for _, l := range c.LeftOut {
		for i, m := range [2]*made{a, b} {
			k := &m.Radio.Controls[l.Controls[i]]
			assert.Equal(t, "throttle", k.Job)
			assert.LessOrEqual(t, k.Low, l.From[i])
			assert.LessOrEqual(t, l.From[i], l.To[i])
			assert.LessOrEqual(t, l.To[i]-l.From[i], (k.High-k.Low)/thinShare)
		}
	}
}

// A throttle, a knob or a stick that springs back with one radio and stays with the other is told apart by letting it go, wherever that matters.
func TestLettingGoIsCompared(t *testing.T) {
	tiny := func() *made { return bySwitch().short(4, 4, 5, 3, 3, 0) }
	springs := func(job string, to int) func(*made) {
		return func(m *made) { m.control(job).Stays, m.control(job).Rest = false, pulse.Micros(to) }
	}
	knob := func(m *made) {
		k := m.control("arm")
		k.Kind, k.Positions, k.Stays, k.Rest = handset.Knob, nil, true, pulse.Low
	}
	for _, one := range []struct {
		name    string
		a, b    func(*made)
		control string
		differ  bool
		// lets: the shortest way has it let go; else it stands apart from the beginning.
		lets bool
		in   Part
	}{
		{"throttle to the middle", func(*made) {}, springs("throttle", 1500), "throttle", true, false, InRefusing | InArming},
		{"throttle to its low end", func(*made) {}, springs("throttle", 988), "throttle", true, true, InArming},
		{"throttle to two places", springs("throttle", 988), springs("throttle", 1500), "throttle", true, false, InRefusing | InArming},
		{"throttle to the same place", springs("throttle", 1500), springs("throttle", 1500), "throttle", false, false, 0},
		{"throttle to places that mean the same", springs("throttle", 1500), springs("throttle", 1510), "throttle", false, false, 0},
		{"arm knob", knob, func(m *made) { knob(m); springs("arm", 988)(m) }, "arm", true, true, InArming},
		{"roll", func(m *made) { m.control("roll").Stays = true }, func(*made) {}, "roll", false, false, 0},
	} {
		a, b := tiny().with(one.a), tiny().with(one.b)
		c := both(t, one.name, a, b)
		if !one.differ {
			assert.Equal(t, Alike, c.Likeness(), one.name)
			continue
		}
		if !assert.Equal(t, Different, c.Likeness(), one.name) {
			continue
		}
		d := c.Difference
		if c.Graver != nil && one.in&InRefusing == 0 {
			d = c.Graver
		}
		assert.NotZero(t, d.Parts&one.in, one.name)
		lets := false
		for i := range d.Ways {
			for _, st := range d.Ways[i].Steps {
				if st.Kind == LetGo {
					lets = true
					assert.Equal(t, one.control, [2]*made{a, b}[i].Radio.Controls[st.Control].Job, one.name)
				}
			}
		}
		assert.Equal(t, one.lets, lets, one.name)
	}
}

// Nobody holds anything when the packs are connected: what springs back has done so, whatever stays is low.
func TestAtTheBeginningNobodyHoldsAnything(t *testing.T) {
	a, b := bySwitch(), bySwitch()
	b.control("throttle").Stays, b.control("throttle").Rest = false, pulse.Centre
	c, err := Compare(a.Layout, b.Layout, Options{})
	require.NoError(t, err)
	require.Equal(t, Different, c.Likeness())
	want := [2]pulse.Width{pulse.Low, pulse.Centre}
	for i, w := range c.Difference.Ways {
		for _, r := range w.Readings {
			if r.Kind == pulse.Controls {
				assert.Equal(t, want[i], r.Frame[a.Config.Layout.Throttle])
				break
			}
		}
	}
}
