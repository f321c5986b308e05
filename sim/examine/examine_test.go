package examine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// bySwitch is the default craft and a radio that nothing is wrong with, changed.
func bySwitch(change ...func(*prove.Layout)) *prove.Layout {
	p := &prove.Layout{Config: sim.Default()}
	for _, c := range change {
		c(p)
	}
	l := &p.Config.Layout
	wants := []handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll, Job: "roll"}, {Channel: l.Pitch, Job: "pitch"}, {Channel: l.Yaw, Job: "yaw"}}
	for _, w := range []handset.Want{{Channel: l.Arm, Job: "arm"}, {Channel: l.Mode, Job: "mode"}, {Channel: l.Second, Job: "second"}} {
		if w.Channel != layout.NoChannel {
			w.Kind = handset.Switch
			wants = append(wants, w)
		}
	}
	p.Radio = handset.Ideal(wants)
	return p
}

func sticks(p *prove.Layout) {
	p.Config.Layout.Arm, p.Config.Arming.By = layout.NoChannel, arming.BySticks
	p.Config.Link.Needed = p.Config.Layout.Needed()
}

func second(p *prove.Layout) {
	p.Config.Layout.Second, p.Config.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Micros(2100)}
}

func idles(p *prove.Layout) { p.Config.Flight.AtLowThrottle = flight.Idle }

// layouts are those that the tests examine.
func layouts() map[string]*prove.Layout {
	return map[string]*prove.Layout{"switch": bySwitch(), "second": bySwitch(second), "idle": bySwitch(idles), "sticks": bySwitch(sticks), "sinks": bySwitch(func(p *prove.Layout) { p.Config.Arming.SinkSlots = 200 })}
}

// round asks so many questions, each answered as say says.
func round(t *testing.T, e *Examiner, n int, say func(*Question) [2]bool) (all []Question, asked []Asked) {
	t.Helper()
	for range n {
		q, ok := e.Next(asked, nil)
		require.True(t, ok, "after %d questions", len(all))
		all = append(all, q)
		asked = append(asked, Asked{q.ID, q.Ask, q.About, q.Judge(say(&q))})
	}
	return all, asked
}

func rightly(q *Question) [2]bool { return [2]bool{q.Stories[0].Ends, q.Stories[1].Ends} }

// The bench itself, stepped a ms at a time with motors, gestures and menus, comes to what each story claims, and there too the two differ in
// nothing but what is said: what comes before, in between and after it is the same in both.
func TestTheBenchEndsEachStoryAsClaimed(t *testing.T) {
	for name, l := range layouts() {
		e, err := New(l, name, 3, nil)
		require.NoError(t, err)
		all, _ := round(t, e, 40, rightly)
		ends := map[bool]int{}
		for i := range all {
			q := &all[i]
			for n := range q.Stories {
				s := &q.Stories[n]
				p := practice.New(l.Config)
				rest := s.Way.Readings
				for tick := int64(0); tick <= s.Way.Final; tick++ {
					due := 0
					for due < len(rest) && rest[due].At <= tick*1000 {
						due++
					}
					if tick == s.At {
						assert.Equal(t, q.Ask != Arms, p.Bench().Armed(), "%s: armed before the last movement of %s %s", name, q.Ask.Code(), q.About.Code())
					}
					p.Step(rest[:due])
					rest = rest[due:]
				}
				require.Empty(t, rest)
				is := p.Bench().Armed()
				if q.Ask == Turns {
					is = p.Bench().State().Motor != [flight.Motors]uint16{}
				}
				assert.Equal(t, s.Ends, is, "%s: %s %s", name, q.Ask.Code(), q.About.Code())
				ends[is]++
			}
			one, other := &q.Stories[0], &q.Stories[1]
			assert.Equal(t, made(one.Way.Steps[:one.Differs[0]]), made(other.Way.Steps[:other.Differs[0]]))
			assert.Equal(t, made(one.Way.Steps[one.Differs[1]:]), made(other.Way.Steps[other.Differs[1]:]))
			assert.NotEqual(t, made(one.Way.Steps), made(other.Way.Steps))
			assert.Equal(t, made(one.Way.Steps[one.Last:]), made(other.Way.Steps[other.Last:]), "the last movement is that of both")
			assert.True(t, one.Last >= one.Differs[1] && other.Last >= other.Differs[1], "what differs comes before it")
		}
		assert.Greater(t, ends[true], 10, name)
		assert.Greater(t, ends[false], 10, name)
	}
}

// made are the movements and waits of some steps: what is done, not when, nor what came of it.
func made(steps []prove.Step) (all []prove.Step) {
	for _, st := range steps {
		if st.Kind != prove.Wait || st.Ms > Pace {
			all = append(all, prove.Step{Kind: st.Kind, Control: st.Control, To: st.To, Ms: st.Ms})
		}
	}
	return all
}

func TestNothingIsAskedTwice(t *testing.T) {
	e, err := New(bySwitch(second), "a", 5, nil)
	require.NoError(t, err)
	all, asked := round(t, e, 120, rightly)
	seen := map[string]bool{}
	for i := range all {
		assert.False(t, seen[all[i].ID])
		seen[all[i].ID] = true
	}
	same, err := New(bySwitch(second), "a", 5, nil)
	require.NoError(t, err)
	again, _ := round(t, same, 30, rightly)
	assert.Equal(t, all[:30], again, "the same seed and history ask the same")
	other, err := New(bySwitch(second), "a", 5, nil)
	require.NoError(t, err)
	q, ok := other.Next(asked, nil)
	require.True(t, ok)
	assert.False(t, seen[q.ID], "another day, another seed: still nothing twice")

	one := story{steps: []prove.Step{do(prove.PowerOn)}}
	two := story{steps: []prove.Step{do(prove.PowerOff)}}
	assert.Equal(t, id(Arms, "a", &[2]story{one, two}), id(Arms, "a", &[2]story{two, one}), "whichever is the first")
	assert.NotEqual(t, id(Arms, "a", &[2]story{one, two}), id(Arms, "b", &[2]story{two, one}), "another layout")
	assert.NotEqual(t, id(Arms, "a", &[2]story{one, two}), id(Stays, "a", &[2]story{two, one}))
}

// Whoever gets one thing wrong is asked about it more often than whoever knows it, and some questions are about what makes no difference.
func TestWhatWasWrongComesAgain(t *testing.T) {
	count := func(wrong bool) (n, alike int) {
		e, err := New(bySwitch(second), "a", 11, nil)
		require.NoError(t, err)
		all, _ := round(t, e, 80, func(q *Question) [2]bool {
			is := rightly(q)
			if wrong && q.Ask == Arms && q.About == Throttle {
				is[0] = !is[0]
			}
			return is
		})
		for i := range all {
			if all[i].Ask == Arms && all[i].About == Throttle {
				n++
			}
			if all[i].Alike() {
				alike++
			}
		}
		return n, alike
	}
	knows, _ := count(false)
	wrong, alike := count(true)
	assert.GreaterOrEqual(t, knows, 2)
	assert.Greater(t, wrong, 2*knows)
	assert.True(t, alike >= 8 && alike <= 40, "%d of 80 are alike", alike)
}

func TestWhatAnAnswerShows(t *testing.T) {
	differ := Question{Stories: [2]Story{{Ends: true}, {Ends: false}}}
	alike := Question{Stories: [2]Story{{Ends: true}, {Ends: true}}}
	for _, c := range []struct {
		q    *Question
		said [2]bool
		is   Verdict
	}{
		{&differ, [2]bool{true, false}, Foreseen}, {&differ, [2]bool{true, true}, NoMatter}, {&differ, [2]bool{false, false}, NoMatter}, {&differ, [2]bool{false, true}, WrongWay},
		{&alike, [2]bool{true, true}, Foreseen}, {&alike, [2]bool{true, false}, Matters}, {&alike, [2]bool{false, true}, Matters}, {&alike, [2]bool{false, false}, BothWrong},
	} {
		assert.Equal(t, c.is, c.q.Judge(c.said), "%v", c.said)
	}
}

func TestWordsOfTheLogbookAreReadBack(t *testing.T) {
	for v := range VerdictCount {
		back, ok := VerdictOf(v.Code())
		assert.True(t, ok && back == v)
	}
	for a := range AskCount {
		back, ok := AskOf(a.Code())
		assert.True(t, ok && back == a)
	}
	for a := range AboutCount {
		back, ok := AboutOf(a.Code())
		assert.True(t, ok && back == a)
	}
	_, ok := AboutOf("nothing")
	assert.False(t, ok)
}

func TestALayoutThatCannotBeSearchedIsRefused(t *testing.T) {
	l := bySwitch()
	l.Config.SlotTicks = 0
	_, err := New(l, "", 0, nil)
	assert.Error(t, err)
}

func BenchmarkNext(b *testing.B) {
	e, err := New(bySwitch(second), "a", 5, nil)
	require.NoError(b, err)
	var asked []Asked
	for b.Loop() {
		q, ok := e.Next(asked, nil)
		if !ok {
			asked = asked[:0]
			continue
		}
		asked = append(asked, Asked{q.ID, q.Ask, q.About, Foreseen})
	}
}

func TestBeliefsAreThoseOfTheAnswers(t *testing.T) {
	asked := []Asked{{"1", Arms, Throttle, Foreseen}, {"2", Stays, Cable, NoMatter}, {"3", Stays, Cable, Matters}, {"4", Stays, Cable, Matters}, {"5", Arms, Order, BothWrong}, {"6", Arms, Throttle, Foreseen}}
	all := Beliefs(asked)
	require.Len(t, all, 3)
	assert.Equal(t, Belief{Ask: Stays, About: Cable, Came: 3, Wrong: 3, By: [VerdictCount]int{NoMatter: 1, Matters: 2}}, all[0])
	assert.Equal(t, [VerdictCount]int{BothWrong: 1}, all[1].By)
	assert.Equal(t, 0, all[2].Wrong)
	assert.Equal(t, 2, Right(asked))
}

// A wait that is longer than any that a story has becomes the longest of those, and not the shortest.
func TestLongWaitsStayLong(t *testing.T) {
	for ms, is := range map[int64]int64{Pace: 0, 420: 1000, 2020: 3000, 15_000: 20_000, 60_000: 20_000} {
		s := begun([]prove.Step{{Kind: prove.Start}, {Kind: prove.PowerOn, Control: -1}, {Kind: prove.Wait, Ms: ms, Control: -1}})
		if is == 0 {
			assert.Len(t, s.steps, 1, "the moment between two movements is no wait")
			continue
		}
		require.Len(t, s.steps, 2)
		assert.Equal(t, is, s.steps[1].Ms, "%d ms", ms)
	}
}

// Whoever waits is asked all along, so that a browser can do its part meanwhile, and where he asks to stop it stops at once.
func TestItAsksAllAlongWhetherToStop(t *testing.T) {
	asked, most := 0, -1
	stop := func() bool {
		asked++
		return asked == most
	}
	e, err := New(bySwitch(), "a", 5, stop)
	require.NoError(t, err)
	searching := asked
	assert.Greater(t, searching, 50, "while beginnings are searched")
	_, ok := e.Next(nil, stop)
	require.True(t, ok)
	assert.GreaterOrEqual(t, asked-searching, atFirst, "before each pair that is tried")

	for _, most = range []int{1, 2, searching / 2, searching} {
		asked = 0
		_, err = New(bySwitch(), "a", 5, stop)
		assert.ErrorIs(t, err, ErrStopped)
		assert.LessOrEqual(t, asked, most)
	}
	asked, most = 0, 7
	_, ok = e.Next(nil, stop)
	assert.False(t, ok)
	assert.Equal(t, most, asked)
}
