package prove

import (
	"fmt"
	"math/bits"
	"slices"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

func TestCodesAreApart(t *testing.T) {
	seen := map[string]bool{}
	for r := range RuleCount {
		assert.NotEmpty(t, r.Code())
		assert.False(t, seen[r.Code()], r.Code())
		seen[r.Code()] = true
	}
	for c := NoCause + 1; c < CauseCount; c++ {
		assert.NotEmpty(t, c.Code())
		assert.False(t, seen[c.Code()], c.Code())
		seen[c.Code()] = true
	}
	for o := range OutcomeCount {
		assert.False(t, seen[o.Code()], o.Code())
		seen[o.Code()] = true
	}
	assert.Equal(t, "unknown", RuleCount.Code())
	assert.Equal(t, "unknown", CauseCount.Code())
	for v := range VerdictCount {
		assert.False(t, seen[v.Code()], v.Code())
		seen[v.Code()] = true
	}
	assert.Equal(t, "unknown", OutcomeCount.Code())
	assert.Equal(t, "unknown", VerdictCount.Code())
}

// All hold only where everything was searched to its end; what is broken is broken, however far the search came.
func TestVerdict(t *testing.T) {
	of := func(partial bool, all ...Outcome) Verdict {
		r := Report{Partial: partial}
		for _, o := range all {
			r.Results = append(r.Results, Result{Outcome: o})
		}
		return r.Verdict()
	}
	assert.Equal(t, AllHold, of(false, Holds, WithIt, NotAsked))
	assert.Equal(t, Unfinished, of(true, Holds, Holds))
	assert.Equal(t, Unfinished, of(false, Holds, Undecided))
	assert.Equal(t, SomeBroken, of(false, Holds, Broken))
	assert.Equal(t, SomeBroken, of(true, Undecided, Broken))
	rep, err := Search(bySwitch().Layout, Options{MostBytes: 1 << 20})
	require.NoError(t, err)
	assert.Equal(t, Unfinished, rep.Verdict(), "the memory bound")
}

// A longer silence limit has more situations; a craft with a longer clean time too, and so on: no timer is left out.
func TestEveryTimerCounts(t *testing.T) {
	count := func(m *made) uint64 {
		rep, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		return rep.Situations
	}
	base := []uint16{4, 5, 6, 4, 3, 6}
	of := func(v []uint16, m *made) uint64 { return count(m.short(v[0], v[1], v[2], v[3], v[4], v[5])) }
	sticks, byArm := of(base, bySticks()), of(base, bySwitch())
	for i, name := range []string{"silence limit", "clean time", "still time", "arm dwell", "disarm dwell", "sinking"} {
		longer := append([]uint16{}, base...)
		longer[i]++
		assert.Greater(t, of(longer, bySticks()), sticks, name)
		if i == 3 || i == 4 {
			assert.Equal(t, byArm, of(longer, bySwitch()), "a craft armed by switch has no %s", name)
		} else {
			assert.Greater(t, of(longer, bySwitch()), byArm, name)
		}
	}
}

func TestStoppedSearchSaysSo(t *testing.T) {
	m := bySwitch().hold()
	whole, err := Search(m.Layout, Options{})
	require.NoError(t, err)
	require.False(t, whole.Partial)

	calls := 0
	var last Progress
	rep, err := Search(m.Layout, Options{Progress: func(p Progress) bool {
		calls++
		last = p
		return p.Situations > 100_000
	}})
	require.NoError(t, err)
	assert.True(t, rep.Partial)
	assert.Greater(t, calls, 1)
	assert.Positive(t, last.Movements)
	assert.Less(t, rep.Situations, whole.Situations)
	undecided := 0
	for i := range rep.Results {
		switch r := &rep.Results[i]; r.Outcome {
		case Undecided:
			undecided++
		case Holds: // only what needs no search
			assert.True(t, slices.Contains([]Rule{EveryModeReached, NoModeGap, PowerUpLevels, ModeStays, CanArm}, r.Rule) || r.Rule.Tried(), r.Rule.Code())
		}
	}
	assert.Greater(t, undecided, 8)

	rep, err = Search(m.Layout, Options{MostBytes: 1 << 20})
	require.NoError(t, err)
	assert.True(t, rep.Partial)
	assert.Equal(t, SomeBroken, rep.Verdict(), "that its motors go on needs no search")
	assert.Less(t, rep.Bytes, int64(3<<20))

	// What is broken is broken, however far the search came: the roll that goes too far is met early.
	m = bySwitch().travel("roll", 988, 2190)
	rep, err = Search(m.Layout, Options{Progress: func(p Progress) bool { return p.Movements > 5 }})
	require.NoError(t, err)
	assert.True(t, rep.Partial)
	require.Equal(t, Broken, rep.Results[NothingElseDisarms].Outcome)
	replay(t, &m.Layout, &rep.Results[NothingElseDisarms])
}

// Stopped in the pass that looks for one rule's way, the search says that this rule is not decided.
func TestStoppedInASecondPass(t *testing.T) {
	m := bySwitch().hold()
	whole := uint64(0)
	rep, err := Search(m.Layout, Options{Progress: func(p Progress) bool {
		if p.Situations < whole { // never: the count goes on from pass to pass
			t.Errorf("%d situations after %d", p.Situations, whole)
		}
		whole = p.Situations
		return whole > 240_756 // the first of the second pass
	}})
	require.NoError(t, err)
	assert.EqualValues(t, 240756, rep.Situations)
	assert.True(t, rep.Partial)
	assert.Equal(t, Undecided, rep.Results[LossStopsMotors].Outcome)
	assert.Equal(t, Holds, rep.Results[OnlyArmControlArms].Outcome)
}

func TestLayoutsThatCannotBeSearched(t *testing.T) {
	for name, m := range map[string]*made{
		"two controls on one channel": bySwitch().with(func(m *made) { m.control("mode").Channel = 4 }),
		"channel 17":                  bySwitch().with(func(m *made) { m.control("mode").Channel = 16 }),
		"channel -1":                  bySwitch().with(func(m *made) { m.control("mode").Channel = -1 }),
		"a switch without positions":  bySwitch().with(func(m *made) { m.control("mode").Positions = nil }),
		"the same as a later one":     bySwitch().with(func(m *made) { m.control("throttle").Same = 5 }),
		"the same as a stick":         bySwitch().same("arm", "yaw", false),
		"the same, other positions":   bySwitch().positions("arm", 988, 2012).same("mode", "arm", false),
		"the same as none":            bySwitch().with(func(m *made) { m.control("arm").Same = -1 }),
		"no silence limit":            bySwitch().with(func(m *made) { m.Config.Link.SilenceSlots = 0 }),
		"no frame period":             bySwitch().with(func(m *made) { m.Config.SlotTicks = 0 }),
		"no arm channel":              bySwitch().with(func(m *made) { m.Config.Layout.Arm = layout.NoChannel }),
		"arm channel by sticks":       bySticks().with(func(m *made) { m.Config.Layout.Arm = 4 }),
		"no throttle":                 bySwitch().with(func(m *made) { m.Config.Layout.Throttle = layout.NoChannel }),
		"mode channel 20":             bySwitch().with(func(m *made) { m.Config.Layout.Mode = 20 }),
		"nine mode spans":             bySwitch().with(func(m *made) { m.Config.Layout.SpanCount = 9 }),
		"times too long": bySticks().hold().with(func(m *made) {
			m.short(60000, 60000, 60000, 60000, 60000, 60000)
			m.Config.Arming.OnlySelfLevelling = true
		}),
	} {
		_, err := Search(m.Layout, Options{})
		assert.Error(t, err, name)
	}
	_, err := Search(Layout{}, Options{})
	assert.Error(t, err)
}

// The longest times that a craft file may have, at the shortest frame period, still fit; the search is stopped at once.
func TestLongestTimesFit(t *testing.T) {
	for _, m := range []*made{bySwitch(), bySticks(), bySticks().hold().levelOnly(), bySwitch().hold().levelOnly()} {
		m.short(sim.Slots(5000, 4), sim.Slots(10000, 4), sim.Slots(30000, 4), sim.Slots(5000, 4), sim.Slots(5000, 4), sim.Slots(30000, 4))
		rep, err := Search(m.Layout, Options{Progress: func(p Progress) bool { return p.Situations > 10_000 }})
		require.NoError(t, err)
		assert.True(t, rep.Partial)
	}
}

// switches gives the radio more switches with three positions, none of which arming reads.
func (m *made) switches(n int) *made {
	for i := range n {
		m.Radio.Controls = append(m.Radio.Controls, handset.Control{Channel: int8(7 + i), Job: fmt.Sprintf("channel %d", 8+i), Kind: handset.Switch,
			Positions: []handset.Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}}})
	}
	return m
}

// Switches that arming never reads cost nothing, and are counted.
func TestMoreSwitches(t *testing.T) {
	base, err := Search(quickSwitch().Layout, Options{})
	require.NoError(t, err)
	more, err := Search(quickSwitch().switches(6).Layout, Options{})
	require.NoError(t, err)
	assert.Equal(t, base.Situations, more.Situations)
	assert.Equal(t, base.Standing*729, more.Standing)
}

// busy is the time that this process has had of the processor: other work on the machine does not count.
func busy(t testing.TB) time.Duration {
	var u syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// TestAims holds whole searches against the aims: a switch layout within 1 s, a stick layout that sinks for 4 s within 5 s of
// one processor, at most 24 bytes a situation. Coverage and 32-bit machines make everything slower, so the times are only
// told there.
func TestAims(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("seven million situations")
	}
	for _, c := range []struct {
		name string
		l    *made
		most time.Duration
	}{
		{"switch", bySwitch(), time.Second},
		{"switch and second switch, only self-levelling", bySwitch().second().levelOnly(), time.Second},
		{"sticks, sinking", bySticks().with(func(m *made) { m.Config.Arming.SinkSlots = 200 }), 5 * time.Second},
	} {
		began := busy(t)
		rep, err := Search(c.l.Layout, Options{})
		require.NoError(t, err)
		d := busy(t) - began
		per := float64(rep.Bytes) / float64(rep.Situations)
		t.Logf("%s: %d situations for %.0f, %d slots of the bench, %v, %.2f million a second, %.1f bytes each", c.name, rep.Situations, rep.Standing, rep.Steps,
			d.Round(time.Millisecond), float64(rep.Situations)/1e6/d.Seconds(), per)
		assert.Empty(t, notSound(&rep), c.name)
		assert.Less(t, per, 24.0, c.name)
		if testing.CoverMode() != "" || bits.UintSize < 64 {
			continue
		}
		assert.Less(t, d, 2*c.most, "%s: twice the aim", c.name) // the machine that tests may be slower than the one that is aimed at
	}
}

func BenchmarkSearch(b *testing.B) {
	run := func(name string, l *made) {
		b.Run(name, func(b *testing.B) {
			var rep Report
			var err error
			for range b.N {
				rep, err = Search(l.Layout, Options{})
				require.NoError(b, err)
			}
			n := float64(rep.Situations)
			b.ReportMetric(n, "situations")
			b.ReportMetric(rep.Standing, "standing-for")
			b.ReportMetric(n*float64(b.N)/b.Elapsed().Seconds(), "situations/s")
			b.ReportMetric(float64(rep.Bytes)/n, "bytes/situation")
		})
	}
	for n := 2; n <= 8; n++ { // arm and mode, then more
		run(fmt.Sprintf("switches-%d", n), bySwitch().switches(n-2))
	}
	run("second-switch", bySwitch().second())
	run("second-switch-only-self-levelling", bySwitch().second().levelOnly())
	run("hold", bySwitch().hold())
	run("sticks", bySticks())
	run("sticks-sinking", bySticks().with(func(m *made) { m.Config.Arming.SinkSlots = 200 }))
}
