package prove

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/gestures"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// everyWay replays every way of a layout through the whole bench, gestures and menus included.
func everyWay(t testing.TB, l *made) *Report {
	rep, err := Search(l.Layout, Options{})
	require.NoError(t, err)
	for i := range rep.Results {
		if r := &rep.Results[i]; r.Way != nil {
			replay(t, &l.Layout, r)
		}
	}
	return &rep
}

// Gestures that stand in the arm corner and open the craft's menu before the dwell is over. What can be was worked out by hand.
func TestGesturesThatStandWhereSticksArm(t *testing.T) {
	corner := [4]gestures.Zone{low, mid, mid, high}
	wide := [4]gestures.Zone{low, any_, any_, high}
	for name, c := range map[string]struct {
		l        *made
		straight Outcome
		armable  Outcome
	}{
		// Roll out of the middle, or the yaw stick there before gestures count, and it arms all the same.
		"opens first":                {quickSticks().moves(pattern("corner", corner, 2, 1)), Broken, Holds},
		"opens first, whatever else": {quickSticks().moves(pattern("corner", wide, 2, 1)), Broken, Holds},
		"too slow":                   {quickSticks().moves(pattern("corner", wide, 9, 1)), Holds, Holds},
		"a camera's, unknown":        {quickSticks().moves(pattern("corner", wide, 2, 2)), NotAsked, Holds},
		"a camera's, known":          {quickSticks().moves(pattern("corner", wide, 2, 2)).knowsCamera(), Broken, Holds},
		"opens nothing":              {quickSticks().moves(pattern("corner", wide, 2, 0)), NotAsked, Holds},
		"held sticks":                {quickSticks().hold().moves(pattern("corner", wide, 2, 1)), Broken, Holds},
		"stored in the arm corner":   {quickSticks().stored(988, 2012, 0).moves(pattern("corner", wide, 2, 1)), Broken, Holds},
		// No way round it: whoever leaves the corner leaves the gesture too.
		"sticks with two places each":   {quickSticks().lever("yaw", 1500, 2012).lever("throttle", 988, 2012).moves(pattern("corner", wide, 2, 1)), Broken, Broken},
		"by switch":                     {quickSwitch().moves(pattern("corner", wide, 2, 1)), NotAsked, Holds},
		"by switch, where sticks stand": {quickSwitch().hold().moves(pattern("down", [4]gestures.Zone{low, any_, any_, any_}, 2, 1)), NotAsked, Holds},
	} {
		t.Run(name, func(t *testing.T) {
			rep := everyWay(t, c.l)
			assert.Equal(t, c.straight.Code(), rep.Results[ArmingOpensNoMenu].Outcome.Code())
			assert.Equal(t, c.armable.Code(), rep.Results[CanArm].Outcome.Code())
			assert.False(t, rep.Partial)
		})
	}
}

// lever makes a stick stand in one of a few places only.
func (m *made) lever(job string, us ...int) *made {
	m.control(job).Kind = handset.Switch
	return m.positions(job, us...)
}

// drawn is a gesture at random.
func drawn(t *rapid.T, n int) gestures.Pattern {
	zones := func() (z [4]gestures.Zone) {
		for i := range z {
			z[i] = gestures.Zone(rapid.IntRange(0, 3).Draw(t, "zone"))
		}
		return z
	}
	p := pattern(fmt.Sprint("made ", n), zones(), uint16(rapid.IntRange(1, 7).Draw(t, "dwell")), uint8(rapid.IntRange(0, 2).Draw(t, "opens")))
	if rapid.IntRange(0, 2).Draw(t, "parts") == 0 {
		p.Count, p.Parts[1] = 2, gestures.Part{Zones: zones(), Dwell: uint16(rapid.IntRange(1, 4).Draw(t, "second dwell")), Within: uint16(rapid.IntRange(1, 5).Draw(t, "within"))}
	}
	p.Physical = rapid.Bool().Draw(t, "physical")
	return p
}

// Whatever the gesture file: each way that is printed happens on the whole bench.
func TestEveryWayIsFollowedWhateverTheGestures(t *testing.T) {
	layouts := []func() *made{
		quickSwitch, quickSticks,
		func() *made { return quickSticks().hold() },
		func() *made { return quickSwitch().hold() },
		func() *made { return quickSticks().stored(988, 1500, 0) },
		func() *made { return quickSwitch().stored(988, 1500, 2012) },
		func() *made { return quickSwitch().travel("roll", 988, 2190) },
		func() *made { return quickSwitch().positions("arm", 988, 1595, 2012).spread("arm", 10) },
		func() *made { return quickSticks().travel("throttle", 1012, 2012) },
		func() *made {
			return quickSwitch().with(func(m *made) { m.Config.Arming.LowThrottle = pulse.Micros(1150) })
		},
	}
	rapid.Check(t, func(r *rapid.T) {
		l := layouts[rapid.IntRange(0, len(layouts)-1).Draw(r, "layout")]()
		var set []gestures.Pattern
		for n := range rapid.IntRange(1, 3).Draw(r, "gestures") {
			set = append(set, drawn(r, n))
		}
		l.moves(set...).mode(rapid.IntRange(1, 4).Draw(r, "mode"))
		if rapid.Bool().Draw(r, "camera") {
			l.knowsCamera()
		}
		everyWay(t, l)
		if t.Failed() {
			r.Fatalf("a way is not followed: %+v", set)
		}
	})
}

// plainArms looks for a way to being armed by a plain walk over whole practices: it keeps every state of gestures and menus as the bench has
// them, near misses and values included, and moves throttle, yaw and roll to their ends, the middle, and out of every zone.
func plainArms(t require.TestingT, l *made, levers bool) bool {
	type stands struct {
		slot, gestures, menu string
		at                   [3]uint8
		powered              bool
	}
	type node struct {
		p  *practice.Practice
		at [3]uint8
		on bool
	}
	places := [3][]pulse.Width{{pulse.Low, pulse.Micros(1250), pulse.Centre, pulse.High}, {pulse.Centre, pulse.Low, pulse.Micros(1750), pulse.Micros(1900), pulse.High}, {pulse.Centre, pulse.Low, pulse.Micros(1250), pulse.High}}
	if levers {
		places[0], places[1] = []pulse.Width{pulse.Low, pulse.High}, []pulse.Width{pulse.Centre, pulse.High}
	}
	channels := [3]int8{l.Config.Layout.Throttle, l.Config.Layout.Yaw, l.Config.Layout.Roll}
	frame := func(at [3]uint8) (f pulse.Frame) {
		f = pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre}
		for i, channel := range channels {
			f[channel] = places[i][at[i]]
		}
		return f
	}
	first := practice.New(l.Config)
	first.Step([]pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.StickMode, Value: int32(l.Radio.StickMode)}, {Kind: pulse.Controls, Frame: frame([3]uint8{})}})
	open, seen := []node{{p: first}}, map[stands]bool{}
	for len(open) > 0 {
		n := open[0]
		open = open[1:]
		goes := func(at [3]uint8, r ...pulse.Reading) bool {
			p := practice.New(l.Config)
			n.p.CopyTo(p)
			on := n.on || len(r) > 1
			for ms := range int(l.Config.SlotTicks) {
				if ms == 0 {
					p.Step(r)
				} else {
					p.Step(nil)
				}
			}
			s := p.Bench().State().Slot
			if s.Arming.Armed {
				return true
			}
			k := stands{fmt.Sprint(s), fmt.Sprint(p.Gestures()), fmt.Sprint(p.Menu()), at, on}
			if !seen[k] {
				seen[k] = true
				open = append(open, node{p, at, on})
				require.Less(t, len(seen), 60_000)
			}
			return false
		}
		if goes(n.at) {
			return true
		}
		for i := range n.at {
			for v := range places[i] {
				at := n.at
				at[i] = uint8(v)
				if at != n.at && goes(at, pulse.Reading{Kind: pulse.Controls, Frame: frame(at)}) {
					return true
				}
			}
		}
		if !n.on && goes(n.at, pulse.Reading{Kind: pulse.Power, Value: 1}, pulse.Reading{Kind: pulse.Cable}) {
			return true
		}
	}
	return false
}

// Whether sticks can arm at all is what the plain walk finds, with gestures at random that stand where they arm, of sticks that go everywhere
// and of some that know two places.
func TestWhetherGesturesLetSticksArm(t *testing.T) {
	n := 24
	if testing.Short() || raceDetector {
		n = 6
	}
	r := rand.New(rand.NewPCG(3, 9))
	pick := func(of ...gestures.Zone) gestures.Zone { return of[r.IntN(len(of))] }
	arms, blocked := 0, 0
	for i := range n {
		l := bySticks().short(3, 2, 2, 3, 3, 0)
		var set []gestures.Pattern
		for k := range 1 + r.IntN(2) {
			set = append(set, pattern(fmt.Sprint("made ", k), [4]gestures.Zone{low, pick(any_, any_, mid), any_, pick(any_, mid, high, high)}, uint16(1+r.IntN(5)), uint8(r.IntN(4)/3^1)))
		}
		l.moves(set...).without("mode")
		l.Config.Layout.Mode = layout.NoChannel
		if i%2 == 1 {
			l.lever("yaw", 1500, 2012).lever("throttle", 988, 2012)
		}
		rep := everyWay(t, l)
		want, got := Broken, rep.Results[CanArm].Outcome
		if plainArms(t, l, i%2 == 1) {
			want = Holds
			arms++
		} else {
			blocked++
		}
		require.Equal(t, want.Code(), got.Code(), "%+v", set)
	}
	assert.Positive(t, arms)
	assert.Positive(t, blocked)
}
