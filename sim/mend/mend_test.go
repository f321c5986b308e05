package mend

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

func TestCodesAreApart(t *testing.T) {
	seen := map[string]bool{}
	for k := range KindCount {
		assert.NotEmpty(t, k.Code())
		assert.False(t, seen[k.Code()], k.Code())
		seen[k.Code()] = true
	}
	for v := range VerdictCount {
		assert.False(t, seen[v.Code()])
		seen[v.Code()] = true
	}
	assert.Equal(t, "unknown", KindCount.Code())
	assert.Equal(t, "unknown", VerdictCount.Code())
}

func find(t testing.TB, m *made, o Options) Report {
	t.Helper()
	r, err := Find(m.Layout, 0, o)
	require.NoError(t, err)
	for i := range r.Mends {
		proved(t, &m.Layout, &r.Mends[i])
	}
	return r
}

// proved searches a mend again, whole, from the layout and the changes alone.
func proved(t testing.TB, l *prove.Layout, m *Mend) {
	t.Helper()
	after, ok := Apply(l, m.Changes)
	require.True(t, ok)
	report, err := prove.Search(after, prove.Options{})
	require.NoError(t, err)
	assert.Equal(t, prove.AllHold, report.Verdict(), "%+v", m.Changes)
	assert.Equal(t, prove.AllHold, m.Proof.Verdict())
	sum := 0
	for i := range m.Changes {
		sum += m.Changes[i].Relearn
	}
	assert.Equal(t, sum, m.Relearn)
}

// kinds are those of a mend.
func kinds(m *Mend) string {
	var out []string
	for i := range m.Changes {
		out = append(out, m.Changes[i].Kind.Code())
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}

// Of each of these the first mend is the one that a person would make who knows what is wrong.
func TestWhatMendsWhat(t *testing.T) {
	for name, c := range map[string]struct {
		m     *made
		first string
	}{
		"a receiver that repeats":      {bySwitch().with(func(m *made) { m.Config.Link.OnLoss = link.RepeatsLast }), "receiver"},
		"stored values that arm":       {bySwitch().stored(988, 1500, 2012), "receiver"},
		"a low mark above 1000":        {bySwitch().with(func(m *made) { m.Config.Arming.LowThrottle = pulse.Micros(1100) }), "low-throttle"},
		"an arm span that nothing has": {bySwitch().with(func(m *made) { m.Config.Layout.ArmSpan = us(2050, 2180) }), "arm-positions"},
		"a gap between modes":          {bySwitch().modes(in(layout.Angle, 860, 1250), in(layout.Rate, 1750, 2180)), "mode-positions"},
		"rate first":                   {bySwitch().modes(in(layout.Rate, 860, 1250), in(layout.Horizon, 1250, 1750), in(layout.Angle, 1750, 2180)), "mode-positions"},
		"a switch that springs back":   {bySwitch().with(func(m *made) { m.control("arm").Momentary = true }), "arm-switch"},
		"a position without a pulse":   {bySwitch().positions("arm", 700, 2012), "travel"},
		"a throttle that is never low": {bySwitch().travel("throttle", 1012, 2012), "travel"},
		"a second switch never on":     {bySwitch().second().with(func(m *made) { m.Config.Layout.SecondSpan = us(2100, 2180) }), "second-positions"},
		"no mode switch":               {bySwitch().with(func(m *made) { m.Radio.Controls = append(m.Radio.Controls[:5:5], m.Radio.Controls[6:]...) }), "no-mode-switch"},
		"two things at once": {bySwitch().travel("throttle", 1012, 2012).with(func(m *made) { m.Config.Link.OnLoss = link.RepeatsLast }),
			"receiver travel"},
		"six positions, one of them in no span": {bySwitch().six().modes(in(layout.Angle, 860, 1290), in(layout.Horizon, 1290, 1500), in(layout.Rate, 1700, 2180)), "mode-positions"},
	} {
		t.Run(name, func(t *testing.T) {
			r := find(t, c.m, Options{Mends: 2})
			require.Equal(t, Mended, r.Verdict())
			assert.Equal(t, c.first, kinds(&r.Mends[0]))
			assert.Empty(t, r.Exclude)
			assert.True(t, slices.IsSortedFunc(r.Mends, func(a, b Mend) int { return a.Relearn - b.Relearn }))
		})
	}
}

// An edge that moves without any position changing its meaning asks for nothing to be relearnt, and comes before all else.
func TestWhatNoHandFeelsComesFirst(t *testing.T) {
	r := find(t, bySwitch().modes(in(layout.Angle, 860, 1250), in(layout.Horizon, 1250, 1750)), Options{})
	require.NotEmpty(t, r.Mends)
	m := &r.Mends[0]
	assert.Equal(t, unfelt, m.Relearn)
	l := &m.After.Config.Layout
	for i, want := range []layout.Mode{layout.Angle, layout.Horizon, layout.Rate} {
		assert.Equal(t, want, l.ModeAt([]pulse.Width{pulse.Low, pulse.Centre, pulse.High}[i]), "where no span was it flew in rate, and does now by a span")
	}
}

func TestNothingToMend(t *testing.T) {
	r := find(t, bySwitch(), Options{})
	assert.Equal(t, NothingToMend, r.Verdict())
	assert.Empty(t, r.Mends)
	assert.Equal(t, 1, r.Proofs)
}

// An arm switch that springs back, no other switch, and a yaw that does not move, so that sticks do not arm either.
func unmendable() *made {
	return bySwitch().bare().travel("yaw", 1500, 1500).with(func(m *made) {
		m.control("arm").Momentary = true
		m.control("arm").Rest = pulse.High
	})
}

// Where nothing mends, the rules that exclude each other are told, and no fewer of them do: of each there are changes that hold to all others.
func TestWhatExcludesEachOther(t *testing.T) {
	m := unmendable()
	r := find(t, m, Options{})
	require.Equal(t, Unmended, r.Verdict())
	assert.Equal(t, []prove.Rule{prove.CanArm, prove.ArmControlStays}, r.Exclude)
	assert.True(t, r.Fewest)
	// Every single change, searched whole, breaks one of them.
	holds := map[prove.Rule]bool{}
	for _, c := range singles(&m.Layout, 0) {
		l, ok := Apply(&m.Layout, []Change{c})
		if !ok {
			continue
		}
		report, err := prove.Search(l, prove.Options{})
		require.NoError(t, err)
		broken := brokenIn(&report)
		assert.NotZero(t, broken&(of(prove.CanArm)|of(prove.ArmControlStays)), "%+v", c)
		for _, rule := range r.Exclude {
			holds[rule] = holds[rule] || broken&of(rule) == 0
		}
	}
	assert.Len(t, holds, 2)
	for rule, can := range holds {
		assert.True(t, can, "%s can hold", rule.Code())
	}
}

// A search that is stopped says so, and says of nothing that it cannot be mended.
func TestStoppedSaysSo(t *testing.T) {
	calls := 0
	r, err := Find(unmendable().Layout, 0, Options{Progress: func(p Progress) bool {
		calls++
		return p.Changes == 2
	}})
	require.NoError(t, err)
	assert.Greater(t, calls, 3)
	assert.True(t, r.Partial)
	assert.Equal(t, Unfinished, r.Verdict())
	assert.Empty(t, r.Exclude)
}

// A switch that a job of the pilot's own stands on is left alone.
func TestSwitchesOfOtherJobsAreLeftAlone(t *testing.T) {
	m := bySwitch().quick().with(func(m *made) { m.control("arm").Momentary = true })
	r, err := Find(m.Layout, 1<<6, Options{Changes: 1})
	require.NoError(t, err)
	require.NotEmpty(t, r.Mends)
	for i := range r.Mends {
		for _, c := range r.Mends[i].Changes {
			assert.NotEqual(t, int64(6), c.Is)
		}
	}
	r, err = Find(m.Layout, 1<<6|1<<7, Options{Changes: 1})
	require.NoError(t, err)
	require.Len(t, r.Mends, 1)
	assert.Equal(t, ArmBySticks, r.Mends[0].Changes[0].Kind)
}

// Every single change that a craft file can say does in the file what it does in the layout, and leaves every comment.
func TestTakenChangesAreThoseThatWereProved(t *testing.T) {
	changes := []func(m *made){
		func(*made) {},
		func(m *made) { m.second() },
		func(m *made) { m.stored(988, 1500, 988) },
		func(m *made) { m.Config.Arming.SinkSlots, m.Config.Flight.SinkCarries = 100, 800 },
		func(m *made) {
			c := &m.Config
			c.Link.SilenceSlots, c.Link.CleanSlots, c.Arming.StillSlots, c.Arming.TiltLimitTenths = 20, 10, 5, 900
			c.Arming.LowThrottle, c.Arming.LeaveThrottle = pulse.Micros(1100), pulse.Micros(1120)
			defer c.FitControl()
			c.Flight.AtLowThrottle, c.Flight.IdleSpeed, c.Flight.AirWake = 1, 100, 0
		},
		func(m *made) { m.control("arm").Job, m.control("mode").Job = "channel 5", "channel 6" },
	}
	taken := map[Kind]bool{}
	for _, base := range []func() *made{bySwitch, bySticks, func() *made { return bySwitch().six() }} {
		for i, change := range changes {
			m := base()
			if i == 5 && m.Config.Layout.Arm == layout.NoChannel {
				continue
			}
			change(m)
			text, err := craftfile.Filled("Tried", &m.Config)
			require.NoError(t, err)
			text = append([]byte("# kept\n"), text...)
			f, err := craftfile.Parse("tried.yaml", text)
			require.NoError(t, err)
			for _, c := range singles(&m.Layout, 0) {
				l, ok := Apply(&m.Layout, []Change{c})
				if !ok {
					continue
				}
				got, err := Take(f, &m.Layout, []Change{c})
				require.NoError(t, err, "%+v", c)
				cfg := got.Config()
				assert.True(t, craftfile.Same(&cfg, &l.Config), "%s %+v\n%s", c.Kind.Code(), c, got.Text)
				assert.Contains(t, string(got.Text), "# kept")
				taken[c.Kind] = true
			}
		}
	}
	delete(taken, Travel)
	for _, k := range []Kind{ArmOn, SecondOn, ModesAt, ArmCarried, ModeCarried, ArmBySwitch, ArmBySticks, NoSecond, NoModes, SilenceLimit, CleanTime, SinkTime,
		SinkCarries, LowThrottle, StillTime, TiltLimit, OnlyLevelling, AtLowThrottle, IdleSpeed, AirModes, AirWakes, WhenLost, Receiver, Stored} {
		assert.True(t, taken[k], k.Code())
	}
}

// A switch layout is mended within 10 s, one by sticks within the time of ten proofs.
func TestAims(t *testing.T) {
	if raceDetector || testing.Short() {
		t.Skip("times are measured without the race detector")
	}
	broken := func(m *made) *made {
		return m.travel("throttle", 1012, 2012).with(func(m *made) { m.Config.Link.OnLoss = link.RepeatsLast })
	}
	begun := time.Now()
	find(t, broken(bySwitch()), Options{})
	assert.Less(t, time.Since(begun), 10*time.Second)
	t.Logf("by switch mended in %v", time.Since(begun))

	sound, err := prove.Search(bySticks().Layout, prove.Options{})
	require.NoError(t, err)
	require.Equal(t, prove.AllHold, sound.Verdict())
	begun = time.Now()
	_, err = prove.Search(bySticks().Layout, prove.Options{})
	require.NoError(t, err)
	one := time.Since(begun)
	begun = time.Now()
	r, err := Find(broken(bySticks()).Layout, 0, Options{})
	require.NoError(t, err)
	took := time.Since(begun)
	assert.Less(t, took, 10*one)
	assert.Equal(t, Mended, r.Verdict())
	t.Logf("one proof %v, mended in %v by %d proofs", one, took, r.Proofs)
}
