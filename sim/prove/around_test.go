package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// lying searches a layout and gives what lies around its way to a broken rule.
func lying(t *testing.T, m *made, r Rule) (*Around, *Way) {
	t.Helper()
	report, err := Search(m.Layout, Options{})
	require.NoError(t, err)
	one := &report.Results[r]
	require.NotNil(t, one.Way, r.Code())
	a, err := NewAround(&m.Layout, one)
	require.NoError(t, err)
	require.True(t, a.Plain().Happens)
	return a, one.Way
}

// turned is the turn of the control of a job in the last step that moves it, or at the beginning where none does.
func (a *Around) turned(t *testing.T, job string, begins bool) Turn {
	t.Helper()
	for _, turn := range a.Turns() {
		if a.l.Radio.Controls[turn.Control].Job == job && (turn.Step == 0) == begins {
			return turn
		}
	}
	t.Fatal(job)
	return Turn{}
}

// at is what comes of the place that sends a width.
func (tr Tried) at(t *testing.T, w pulse.Width) *Again {
	t.Helper()
	for n, p := range tr.Places {
		if p.Width == w {
			return &tr.Came[n]
		}
	}
	t.Fatal(w)
	return nil
}

// A receiver that repeats the last frame keeps an armed craft armed. With the arm switch anywhere else it was never armed; wherever the throttle stands,
// the silent radio disarms nothing.
func TestOnePositionAvoidsItAndOfAnotherControlNoneDoes(t *testing.T) {
	a, w := lying(t, bySwitch().short(4, 5, 6, 4, 3, 0).hold(), LossStopsMotors)
	arm := a.Try(a.turned(t, "arm", false))
	assert.True(t, arm.Avoided)
	require.Len(t, arm.Places, 3)
	assert.Equal(t, pulse.High, arm.Places[arm.Own].Width)
	assert.Equal(t, w.Claim, arm.Came[arm.Own].Way.Claim)
	assert.True(t, arm.Came[arm.Own].Happens)
	for n := range arm.Places {
		if n != arm.Own {
			assert.False(t, arm.Came[n].Happens)
			assert.False(t, arm.Came[n].Ever(Armed))
			assert.False(t, arm.Came[n].Turning)
		}
	}
	throttle := a.Try(a.turned(t, "throttle", false))
	assert.False(t, throttle.Avoided, "no position of the throttle disarms a craft that hears the last frame again and again")
	assert.True(t, throttle.at(t, pulse.High).Turning)
	assert.False(t, throttle.at(t, pulse.Low).Turning)
	assert.True(t, throttle.at(t, pulse.Low).Happens, "it stays armed, motors or not")

	up := a.Try(a.turned(t, "throttle", true)).at(t, pulse.High)
	assert.False(t, up.Happens, "with the throttle up from the beginning it never arms")
	assert.NotZero(t, up.Refused)
	assert.False(t, a.Try(a.turned(t, "mode", true)).Avoided)
}

// A fear is judged by what its finding names: here a throttle that is not down when it disarms.
func TestAFearIsJudgedByWhatItNames(t *testing.T) {
	a, _ := lying(t, bySwitch().short(4, 5, 6, 4, 3, 0).with(func(m *made) {
		m.Config.Layout.ArmSpan = layout.Span{Low: pulse.Micros(1300), High: pulse.Micros(1700)}
	}), SweepNeverArms)
	turns := a.Turns()
	last, middle := a.Try(turns[len(turns)-1]), a.Try(turns[len(turns)-2])
	assert.False(t, last.Avoided, "it armed on the way, wherever the sweep ends")
	assert.True(t, middle.Avoided)
	assert.False(t, middle.at(t, pulse.High).Happens)
	assert.False(t, middle.at(t, pulse.Low).Happens)
}

// Held against the rule itself, a mended layout is one in which the same hands come to nothing.
func TestTheSameHandsInAMendedLayout(t *testing.T) {
	broken, sound := bySwitch().short(4, 5, 6, 4, 3, 0).hold(), bySwitch().short(4, 5, 6, 4, 3, 0)
	a, _ := lying(t, broken, LossStopsMotors)
	came, err := a.In(&sound.Layout)
	require.NoError(t, err)
	assert.False(t, came.Happens)
	assert.True(t, came.Ever(Armed))
	assert.False(t, came.Way.Claim.Armed)
	again, err := a.In(&broken.Layout)
	require.NoError(t, err)
	assert.True(t, again.Happens)
}

// What a way that was made again says of its end is what any bench comes to that is given its readings.
func TestAWayMadeAgainReplays(t *testing.T) {
	quick := func(m *made) *made { return m.short(4, 5, 6, 4, 3, 6) }
	replayed := 0
	for _, m := range []*made{
		quick(bySwitch()).hold(), quick(bySwitch()).stored(988, 1500, 988), quick(bySticks()).hold(), quick(bySwitch()).travel("roll", 700, 2300),
		quick(bySwitch()).positions("arm", 700, 1500, 2012), quick(bySwitch()).with(func(m *made) { m.control("arm").Momentary = true }),
	} {
		report, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		for i := range report.Results {
			r := &report.Results[i]
			if r.Way == nil {
				continue
			}
			a, err := NewAround(&m.Layout, r)
			require.NoError(t, err)
			assert.True(t, a.Plain().Happens, r.Rule.Code())
			for _, turn := range a.Turns() {
				for n, came := range a.Try(turn).Came {
					p, next := practice.New(m.Config), 0
					for p.Tick() <= came.Way.Final {
						from := next
						for next < len(came.Way.Readings) && came.Way.Readings[next].At <= p.Tick()*1000 {
							next++
						}
						p.Step(came.Way.Readings[from:next])
					}
					s := p.Bench().State()
					assert.Equal(t, came.Way.Claim, claimOf(&s.Slot, p.Happenings()), "%s: step %d, place %d", r.Rule.Code(), turn.Step, n)
					assert.Equal(t, len(came.Way.Readings), next)
					assert.Len(t, came.Way.Steps, len(r.Way.Steps))
					replayed++
				}
			}
		}
	}
	assert.Greater(t, replayed, 150)
}
