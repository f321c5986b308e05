package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
)

// both compares two layouts, the other way round too, replays what was found on both benches, and gives the comparison.
func both(t *testing.T, name string, a, b *made) Comparison {
	t.Helper()
	c, err := Compare(a.Layout, b.Layout, Options{})
	require.NoError(t, err, name)
	back, err := Compare(b.Layout, a.Layout, Options{})
	require.NoError(t, err, name)
	require.Equal(t, c.Likeness(), back.Likeness(), "%s: the other way round", name)
	for k, d := range [2]*Difference{c.Difference, c.Graver} {
		e := [2]*Difference{back.Difference, back.Graver}[k]
		require.Equal(t, d == nil, e == nil, "%s: the other way round", name)
		if d == nil {
			continue
		}
		assert.Equal(t, d.Ways[0].Movements, e.Ways[0].Movements, "%s: the other way round", name)
		assert.Equal(t, d.Ways[0].Ms, e.Ways[0].Ms, "%s: the other way round", name)
		for i, l := range [2]*made{a, b} {
			replayAnswer(t, name, &l.Layout, d, i)
			replayAnswer(t, name, &[2]*made{b, a}[i].Layout, e, i)
		}
		assert.True(t, k == 0 || c.Difference.Parts == InRefusing && d.Parts&^InRefusing != 0, name)
	}
	return c
}

// replayAnswer runs one of the two ways through the whole bench, 1 ms a step: at its end the craft does what the difference says, and
// the ways of both claim the same for every ms before.
func replayAnswer(t *testing.T, name string, l *Layout, d *Difference, i int) {
	t.Helper()
	r := Result{Way: d.Ways[i]}
	replay(t, l, &r)
	last := r.Way.Steps[len(r.Way.Steps)-1]
	if last.Kind == Wait {
		last.At += last.Ms - int64(l.Config.SlotTicks)
	}
	assert.Equal(t, r.Way.Final, last.At-r.Way.Steps[0].At, name)
	assert.Equal(t, d.Answers[i], told(l, d.Ways[i], d.Ways[i].Final), "%s: what craft %d does", name, i+1)
	assert.Equal(t, d.Parts, unlike(d.Answers[0], d.Answers[1]))
	assert.NotZero(t, d.Parts)
}

// told is what a pilot can tell of a craft at a tick of a way, as a whole practice comes to it.
func told(l *Layout, w *Way, until int64) Answer {
	p := practice.New(l.Config)
	rs := w.Readings
	for tick := int64(0); tick <= until; tick++ {
		n := 0
		for n < len(rs) && rs[n].At <= tick*1000 {
			n++
		}
		p.Step(rs[:n])
		rs = rs[n:]
	}
	s := p.Bench().State()
	if !s.In.Powered {
		return Answer{}
	}
	a := Answer{Armed: s.Slot.Arming.Armed, Mode: s.Slot.Layout.Mode, Motors: s.Motor[0] > 0, Sinking: s.Slot.Arming.Sink > 0}
	for _, h := range p.Happenings() {
		if h.Code == happening.Refused {
			a.Refused = arming.Set(h.A)
		}
	}
	return a
}

// A layout behaves as itself does.
func TestALayoutIsLikeItself(t *testing.T) {
	for name, l := range map[string]*made{
		"switch": bySwitch(), "level only": bySwitch().levelOnly(), "sinking": bySwitch().with(func(m *made) { m.Config.Arming.SinkSlots = 200 }),
		"stored": bySwitch().stored(988, 1500, 2012), "second": bySwitch().second(),
		"hold": bySwitch().short(4, 4, 5, 3, 3, 4).hold(), "sticks": bySticks().short(4, 4, 5, 3, 3, 4),
	} {
		c, err := Compare(l.Layout, l.Layout, Options{})
		require.NoError(t, err, name)
		assert.Equal(t, Alike, c.Likeness(), name)
		assert.Equal(t, AllHold, c.Verdict())
		assert.False(t, c.Partial)
		assert.Empty(t, c.LeftOut)
		assert.Zero(t, c.Apart)
		assert.Greater(t, c.Situations, uint64(1000), name)
	}
}

// The two lenses, one for modes and one for arming, come to the same as one walk that looks at everything.
func TestTwoLensesSeeWhatOneDoes(t *testing.T) {
	base := bySwitch().short(3, 4, 5, 3, 3, 3)
	for name, do := range map[string]func(m *made){
		"nothing": func(*made) {}, "clean time": func(m *made) { m.Config.Link.CleanSlots++ }, "a mode": func(m *made) { m.Config.Layout.Spans[0].Mode = layout.Rate },
		"still time": func(m *made) { m.Config.Arming.StillSlots-- }, "silence": func(m *made) { m.Config.Link.SilenceSlots++ },
	} {
		b := &made{base.Layout}
		do(b)
		c, err := Compare(base.Layout, b.Layout, Options{})
		require.NoError(t, err)
		one := comparing{l: [2]*Layout{&base.Layout, &b.Layout}}
		require.NoError(t, one.through(lens{modes: true, arming: true, motors: true, refusals: true}))
		require.Equal(t, c.Likeness(), one.r.Likeness(), name)
		if c.Difference == nil {
			assert.Less(t, c.Situations, one.r.Situations, "that is what lenses are for")
			continue
		}
		assert.Equal(t, one.r.Difference.Ways[0].Movements, c.Difference.Ways[0].Movements, name)
		assert.Equal(t, one.r.Difference.Ways[0].Ms, c.Difference.Ways[0].Ms, name)
		assert.Equal(t, one.r.Graver == nil, c.Graver == nil, name)
	}
}

// A comparison that was stopped, or ran out of memory, proves nothing and says so.
func TestAStoppedComparisonSaysSo(t *testing.T) {
	m := bySwitch()
	c, err := Compare(m.Layout, m.Layout, Options{MostBytes: 1 << 20})
	require.NoError(t, err)
	assert.Equal(t, Undetermined, c.Likeness())
	assert.Equal(t, Unfinished, c.Verdict())
	assert.Less(t, c.Bytes, int64(8<<20))
	asked := 0
	c, err = Compare(m.Layout, m.Layout, Options{Progress: func(p Progress) bool {
		asked++
		return p.Situations > 30_000
	}})
	require.NoError(t, err)
	assert.Equal(t, Undetermined, c.Likeness())
	assert.Positive(t, asked)

	for l := range LikenessCount {
		assert.NotEqual(t, "unknown", l.Code())
	}
	assert.Equal(t, "unknown", LikenessCount.Code())
}

// What cannot be searched cannot be compared, whichever of the two it is.
func TestWhatCannotBeCompared(t *testing.T) {
	bad := bySwitch()
	bad.Config.Layout.Throttle = 99
	two := bySwitch()
	two.control("mode").Channel = two.control("arm").Channel
	for _, b := range []*made{bad, two, bySwitch().positions("arm")} {
		_, err := Compare(bySwitch().Layout, b.Layout, Options{})
		assert.Error(t, err)
		_, err = Compare(b.Layout, bySwitch().Layout, Options{})
		assert.Error(t, err)
	}
}

// That two large layouts are alike is told, and the search for it takes little memory; how long it takes, BenchmarkCompare tells.
func TestSwitchLayoutsAreComparedInLittleMemory(t *testing.T) {
	l := bySwitch().second().levelOnly()
	c, err := Compare(l.Layout, l.Layout, Options{})
	require.NoError(t, err)
	assert.Equal(t, Alike, c.Likeness())
	assert.Less(t, c.Bytes, int64(200<<20))
}

// What it takes to prove that a layout behaves as itself does: all that it can come into, with nothing found before.
func BenchmarkCompare(b *testing.B) {
	for _, one := range []struct {
		name string
		l    *made
	}{
		{"switch", bySwitch()}, {"switch, second, levelling", bySwitch().second().levelOnly()},
		{"sticks, sinking", bySticks().with(func(m *made) { m.Config.Arming.SinkSlots = 200 })},
	} {
		b.Run(one.name, func(b *testing.B) {
			for range b.N {
				c, err := Compare(one.l.Layout, one.l.Layout, Options{})
				require.NoError(b, err)
				require.Equal(b, Alike, c.Likeness())
				b.ReportMetric(float64(c.Situations), "situations")
				b.ReportMetric(float64(c.Bytes>>20), "MiB")
			}
		})
	}
}
