package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// edges are those of zones as the bench has them: 70 and 60, 25 and 35 % of travel.
func edges() gestures.Config {
	return gestures.Config{
		LowIn: pulse.Percent(-700), LowOut: pulse.Percent(-600), HighIn: pulse.Percent(700), HighOut: pulse.Percent(600),
		MiddleIn: pulse.Percent(250) - pulse.Centre, MiddleOut: pulse.Percent(350) - pulse.Centre,
	}
}

// pattern is one with a single part; opens is as in gestures.Pattern.
func pattern(code string, zones [4]gestures.Zone, dwell uint16, opens uint8) gestures.Pattern {
	p := gestures.Pattern{Name: code, Code: code, Count: 1, Opens: opens}
	p.Parts[0] = gestures.Part{Zones: zones, Dwell: dwell}
	return p
}

// chain is one with two parts.
func chain(first, then [4]gestures.Zone, opens uint8) gestures.Pattern {
	p := pattern("chain", first, 5, opens)
	p.Count, p.Parts[1] = 2, gestures.Part{Zones: then, Dwell: 5, Within: 10}
	return p
}

const (
	any_ = gestures.Any
	low  = gestures.Low
	mid  = gestures.Middle
	high = gestures.High
)

// moves gives a layout some gestures, a menu of the craft (1) and one of a camera (2).
func (m *made) moves(patterns ...gestures.Pattern) *made {
	g := edges()
	g.Patterns = patterns
	m.Config.Gestures = &g
	m.Config.Menus = &menu.Config{Menus: []menu.Tree{{Name: "own", Code: "own"}, {Name: "camera", Code: "camera", Camera: true}}}
	return m
}

// mode gives the radio a stick mode.
func (m *made) mode(n int) *made {
	m.Radio.StickMode = n
	return m
}

// What gestures and the arm corner have to do with each other in a layout, worked out by hand, and each way replayed through the
// whole bench.
func TestGesturesInALayout(t *testing.T) {
	long := func() *made { return quickSticks() }
	ownMenu := pattern("own-menu", [4]gestures.Zone{low, any_, high, low}, 5, 1)   // throttle low, yaw left, pitch forward
	inArm := pattern("in-arm", [4]gestures.Zone{low, mid, mid, high}, 5, 0)        // the arm corner itself
	camera := pattern("camera", [4]gestures.Zone{mid, high, mid, low}, 5, 2)       // both sticks away from each other, mode 2
	cameraLow := pattern("camera-low", [4]gestures.Zone{low, mid, low, mid}, 5, 2) // both sticks down, mode 2
	for name, row := range map[string]struct {
		m    *made
		want map[Rule]Outcome
		of   Cause
		rule Rule
	}{
		"no gestures": {long(), map[Rule]Outcome{GestureNeverArms: NotAsked, MenuSticksNeverArm: NotAsked, GestureCanBeMade: NotAsked, GestureAlsoDisarms: NotAsked}, NoCause, 0},
		"the craft's menu holds the disarm corner": {long().moves(ownMenu), map[Rule]Outcome{
			GestureNeverArms: Holds, MenuSticksNeverArm: Holds, ArmedOpensNoMenu: Holds, OneGestureAtATime: Holds, GestureCanBeMade: Holds, GestureAlsoDisarms: WithIt,
		}, GestureInDisarmCorner, GestureAlsoDisarms},
		"a gesture in the arm corner": {long().moves(inArm), map[Rule]Outcome{
			GestureNeverArms: Broken, MenuSticksNeverArm: NotAsked, ArmedOpensNoMenu: Holds, GestureCanBeMade: Holds, GestureAlsoDisarms: Holds,
		}, GestureInArmCorner, GestureNeverArms},
		"a chain that begins in the disarm corner": {long().moves(chain([4]gestures.Zone{low, mid, mid, low}, [4]gestures.Zone{low, mid, high, mid}, 1)), map[Rule]Outcome{
			GestureNeverArms: Holds, MenuSticksNeverArm: Holds, ArmedOpensNoMenu: Holds, GestureCanBeMade: Holds, GestureAlsoDisarms: WithIt,
		}, GestureInDisarmCorner, GestureAlsoDisarms},
		"a chain that begins in the arm corner": {long().moves(chain([4]gestures.Zone{low, mid, mid, high}, [4]gestures.Zone{low, mid, high, mid}, 0)), map[Rule]Outcome{
			GestureNeverArms: Broken, ArmedOpensNoMenu: Holds, GestureCanBeMade: Holds, GestureAlsoDisarms: Holds,
		}, GestureInArmCorner, GestureNeverArms},
		"a camera's menu, of which the craft knows nothing": {long().moves(camera), map[Rule]Outcome{
			GestureNeverArms: Holds, MenuSticksNeverArm: WithIt, ArmedOpensNoMenu: Holds, GestureCanBeMade: Holds, GestureAlsoDisarms: Holds,
		}, MenuUnknown, MenuSticksNeverArm},
		"one of which it knows": {long().moves(camera).knowsCamera(), map[Rule]Outcome{
			GestureNeverArms: Holds, MenuSticksNeverArm: Holds, GestureCanBeMade: Holds,
		}, NoCause, 0},
		"armed by switch": {quickSwitch().moves(camera, ownMenu), map[Rule]Outcome{
			GestureNeverArms: Holds, MenuSticksNeverArm: Holds, ArmedOpensNoMenu: Holds, OneGestureAtATime: Holds, GestureCanBeMade: Holds, GestureAlsoDisarms: NotAsked,
		}, NoCause, 0},
		"a stick that goes not far enough": {quickSwitch().travel("pitch", 1200, 1800).moves(ownMenu), map[Rule]Outcome{
			GestureCanBeMade: Broken, GestureNeverArms: Holds,
		}, GestureTravel, GestureCanBeMade},
		"two at once": {quickSwitch().moves(cameraLow, pattern("wider", [4]gestures.Zone{low, any_, low, any_}, 5, 0)), map[Rule]Outcome{
			OneGestureAtATime: Holds, GestureCanBeMade: Holds,
		}, NoCause, 0},
	} {
		t.Run(name, func(t *testing.T) {
			rep, err := Search(row.m.Layout, Options{})
			require.NoError(t, err)
			require.Len(t, rep.Results, int(RuleCount))
			for r, want := range row.want {
				assert.Equal(t, want.Code(), rep.Results[r].Outcome.Code(), r.Code())
			}
			for i := range rep.Results {
				r := &rep.Results[i]
				if r.Rule >= firstGestureRule && r.Way != nil {
					replay(t, &row.m.Layout, r)
					assert.NotEmpty(t, r.Way.Steps)
				}
			}
			if row.of != NoCause {
				r := &rep.Results[row.rule]
				require.NotNil(t, r.Way)
				assert.Equal(t, row.of.Code(), r.Cause.Code())
			}
		})
	}
}

func (m *made) knowsCamera() *made {
	m.Config.Arming.CameraMenuCounts = true
	return m
}

// The way through a camera's menu into the arm corner is what a hand would do: the gesture, then the corner, and a craft that is
// armed with the camera's menu open.
func TestTheWayThroughACamerasMenu(t *testing.T) {
	camera := pattern("camera", [4]gestures.Zone{mid, high, mid, low}, 5, 2)
	m := quickSticks().moves(camera)
	rep, err := Search(m.Layout, Options{})
	require.NoError(t, err)
	r := &rep.Results[MenuSticksNeverArm]
	require.Equal(t, WithIt, r.Outcome)
	p := practice.New(m.Config)
	rs := r.Way.Readings
	var seen []happening.Code
	for tick := int64(0); tick <= r.Way.Final; tick++ {
		n := 0
		for n < len(rs) && rs[n].At <= tick*1000 {
			n++
		}
		p.Step(rs[:n])
		rs = rs[n:]
		for _, h := range p.Happenings() {
			switch h.Code {
			case happening.Gesture, happening.Menu, happening.Armed:
				seen = append(seen, h.Code)
			}
		}
	}
	require.Equal(t, []happening.Code{happening.Gesture, happening.Menu, happening.Armed}, seen)
	require.Equal(t, 0, r.Gesture)
	require.LessOrEqual(t, r.Way.Movements, 6)
}

// In every stick mode a pattern by physical stick is found where its sticks carry the jobs.
func TestGesturesByPhysicalStick(t *testing.T) {
	for mode := 1; mode <= 4; mode++ {
		p := pattern("up-down", [4]gestures.Zone{mid, high, mid, low}, 5, 0) // left across, left up, right across, right up
		p.Physical = true
		m := quickSticks().mode(mode).moves(p)
		rep, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		require.Equal(t, Holds, rep.Results[GestureCanBeMade].Outcome, "mode %d", mode)
		require.Equal(t, Holds, rep.Results[GestureNeverArms].Outcome, "mode %d", mode)
		require.Equal(t, Holds, rep.Results[GestureAlsoDisarms].Outcome, "mode %d", mode)
	}
}

// The shipped gestures in a layout, in every stick mode: none lies where sticks arm, each can be made, none opens anything that was begun
// while the craft was armed; what comes with arming by sticks is told, and every way of it happens on the whole bench.
func TestShippedGesturesInALayout(t *testing.T) {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20) // as many slots as on a usual craft, however short they are here
	require.NoError(t, err)
	for mode := 1; mode <= 4; mode++ {
		m := quickSticks().mode(mode)
		m.Config.Gestures, m.Config.Menus = &f.Gestures, &f.Menus
		rep, err := Search(m.Layout, Options{})
		require.NoError(t, err)
		for r, want := range map[Rule]Outcome{
			GestureNeverArms: Holds, ArmedOpensNoMenu: Holds, OneGestureAtATime: Holds, GestureCanBeMade: Holds, MenuSticksNeverArm: WithIt, GestureAlsoDisarms: WithIt,
		} {
			assert.Equal(t, want.Code(), rep.Results[r].Outcome.Code(), "mode %d: %s", mode, r.Code())
		}
		disarms := &rep.Results[GestureAlsoDisarms]
		assert.Equal(t, "craft-menu", f.Gestures.Patterns[disarms.Gesture].Code)
		assert.Zero(t, disarms.Part, "it begins there")
		for i := range rep.Results {
			if r := &rep.Results[i]; r.Rule >= firstGestureRule && r.Way != nil {
				replay(t, &m.Layout, r)
			}
		}
	}
}

// A stopped search says so of its gestures too.
func TestStoppedAmongGestures(t *testing.T) {
	m := quickSticks().moves(pattern("camera", [4]gestures.Zone{mid, high, mid, low}, 5, 2))
	plain, err := Search(quickSticks().Layout, Options{})
	require.NoError(t, err)
	rep, err := Search(m.Layout, Options{Progress: func(p Progress) bool { return p.Situations > plain.Situations+40 }})
	require.NoError(t, err)
	require.True(t, rep.Partial)
	require.Equal(t, Undecided, rep.Results[GestureCanBeMade].Outcome)
}
