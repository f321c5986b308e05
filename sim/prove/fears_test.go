package prove

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// slowSticks is a craft by sticks with a frame each 50 ms: so its dwells are 0.2 s and yet few slots.
func slowSticks() *made {
	return bySticks().short(4, 5, 6, 4, 4, 0).with(func(m *made) { m.Config.SlotTicks = 50 })
}

func (m *made) armSpan(low, high int) *made {
	m.Config.Layout.ArmSpan = layout.Span{Low: pulse.Micros(low), High: pulse.Micros(high)}
	return m
}

// rests puts a control where it was found at rest.
func (m *made) rests(job string, us int) *made {
	c := m.control(job)
	c.Rest, c.RestSeen = pulse.Micros(us), true
	return m
}

func (m *made) kind(job string, k handset.Kind) *made {
	m.control(job).Kind = k
	return m
}

func (m *made) momentary(job string) *made {
	m.control(job).Momentary = true
	return m
}

// knobRests puts a knob where it rests.
func knobRests(job string, us int) func(*made) {
	return func(m *made) { m.control(job).Rest = pulse.Micros(us) }
}

func (m *made) sink(slots int) *made {
	m.Config.Arming.SinkSlots = uint16(slots)
	return m
}

func (m *made) carries(thousandths int) *made {
	m.Config.Flight.SinkCarries = uint16(thousandths)
	return m.sink(5)
}

// lowMark in eighths of a µs.
func (m *made) lowMark(eighths int) *made {
	m.Config.Arming.LowThrottle = pulse.Width(eighths)
	m.Config.Arming.LeaveThrottle = pulse.Width(eighths) + pulse.Micros(20)
	return m
}

func (m *made) airWakes(at int) *made {
	m.Config.Flight.AirWake = at
	return m
}

func (m *made) throttleLow(eighths int, noise pulse.Width) *made {
	c := m.control("throttle")
	c.Low, c.Rest, c.Noise = pulse.Width(eighths), pulse.Width(eighths), noise
	return m
}

func (m *made) throttleSprings(us int) *made {
	c := m.control("throttle")
	c.Stays, c.Rest = false, pulse.Micros(us)
	return m
}

// Each is broken in one known way, and its near miss, one step to the other side of the limit, holds. Movements were worked out by hand: the pack
// is one; waiting, and letting go of what springs back, are none.
var fearRows = []struct {
	name      string
	broken    *made
	rule      Rule
	cause     Cause
	movements int
	control   string
	position  int
	value     int64
	// also are the other rules that are broken then.
	also []Rule
	// ends is how the way ends.
	ends Claim
	near []*made
}{
	// pack · arm on
	{"second switch never off", quickSwitch().second().positions("second", 1600, 2012), SecondGoesOff, SecondNeverOff, 2, "second", -1, 0, nil, Claim{Armed: true},
		[]*made{quickSwitch().second().positions("second", 1599, 2012), quickSwitch().second().positions("second", 1700, 2190)}},
	// pack · arm to the middle · on to the end
	{"on in the middle", quickSwitch().armSpan(1400, 1600), SweepNeverArms, OnBetween, 3, "arm", 1, 1500 * 8, nil, Claim{},
		[]*made{quickSwitch().armSpan(1400, 2180), quickSwitch().armSpan(860, 1600), quickSwitch().armSpan(1400, 1600).positions("arm", 988, 1500)}},
	{"on in an inner one of six", quickSwitch().armSpan(1390, 1650).positions("arm", 988, 1193, 1398, 1602, 1807, 2012), SweepNeverArms, OnBetween, 3, "arm", 3, 1602 * 8, nil, Claim{},
		[]*made{quickSwitch().armSpan(1390, 2013).positions("arm", 988, 1193, 1398, 1602, 1807, 2012)}},
	// pack: there it stands
	{"arm switch rests on", quickSwitch().positions("arm", 988, 2012).rests("arm", 2012), ArmRestsOff, ArmRestsOn, 1, "arm", 1, 2012 * 8, nil, Claim{},
		[]*made{quickSwitch().positions("arm", 988, 2012).rests("arm", 988)}},
	// pack · press and let go
	{"arm switch springs on", quickSwitch().positions("arm", 988, 2012).momentary("arm").rests("arm", 2012), ArmRestsOff, ArmSpringsOn, 2, "arm", 1, 2012 * 8, []Rule{ArmControlStays}, Claim{Armed: true},
		[]*made{quickSwitch().positions("arm", 988, 2012).momentary("arm").rests("arm", 988)}},
	{"arm slider springs on", quickSwitch().kind("arm", handset.Knob).rests("arm", 1700), ArmRestsOff, ArmSpringsOn, 2, "arm", -1, 1700 * 8, []Rule{ArmHasPositions}, Claim{Armed: true},
		[]*made{quickSwitch().kind("arm", handset.Knob).rests("arm", 1599)}},
	// pack · to the edge · across it
	{"arm on a knob", quickSwitch().kind("arm", handset.Knob), ArmHasPositions, ArmOnKnob, 3, "arm", -1, 0, nil, Claim{Armed: true}, []*made{quickSwitch()}},
	// pack · both on
	{"arm is mode", quickSwitch().same("mode", "arm", false), ArmControlIsAlone, ArmIsMode, 2, "arm", -1, 6, nil, Claim{Armed: true, Mode: uint8(layout.Rate)},
		[]*made{quickSwitch()}},
	{"arm is second", quickSwitch().second().same("second", "arm", false), ArmControlIsAlone, ArmIsSecond, 2, "arm", -1, 7, nil, Claim{Armed: true},
		[]*made{quickSwitch().second().same("second", "mode", false)}},
	// pack · mode to the middle
	{"rate between", quickSwitch().modes(span(0, 860, 1250), span(2, 1250, 1750), span(1, 1750, 2180)), NoRateOnTheWay, RateBetween, 2, "mode", 1, 1500 * 8, nil, Claim{Mode: uint8(layout.Rate)},
		[]*made{quickSwitch().modes(span(0, 860, 1250), span(1, 1250, 1750), span(2, 1750, 2180)), quickSwitch().modes(span(0, 860, 1250), span(2, 1250, 1750), span(1, 1750, 2180)).positions("mode", 988, 1500)}},
	// pack · arm on · throttle up · radio off
	{"sinks longer than 10 s", quickSwitch().sink(2497), SilenceStopsSoon, SinksLong, 4, "", -1, 10004, nil, Claim{Armed: true, Sinking: true, Phase: uint8(link.Lost)}, []*made{quickSwitch().sink(2496)}},
	{"held longer than 10 s", quickSwitch().hold(), SilenceStopsSoon, HeldSwitch, 4, "", -1, 0, []Rule{LossStopsMotors, LinkBackNeverArms}, Claim{Armed: true, Phase: uint8(link.Good)}, nil},
	// pack · yaw right, held: armed · throttle up · radio off
	{"held sticks longer than 10 s", slowSticks().hold(), SilenceStopsSoon, HeldSticks, 4, "", -1, 0, []Rule{LossStopsMotors, LinkBackNeverArms, HeldNeverArms}, Claim{Armed: true, Phase: uint8(link.Good)}, nil},
	// pack · arm on · radio off
	{"stored with throttle longer than 10 s", quickSwitch().stored(1200, 1500, 2012), SilenceStopsSoon, StoredSwitchOn, 3, "", -1, 2012 * 8, []Rule{LossStopsMotors}, Claim{Armed: true, Phase: uint8(link.Good)}, nil},
	// pack · arm on · mode switch to horizon · throttle up, which wakes air mode · radio off: stored is a low throttle
	{"stored with air mode awake", quickSwitch().stored(988, 1500, 2012), SilenceStopsSoon, StoredSwitchOn, 5, "", -1, 2012 * 8, []Rule{LossStopsMotors, StoredNeverArms}, Claim{Armed: true, Phase: uint8(link.Good)},
		[]*made{quickSwitch().stored(988, 1500, 2012).with(func(m *made) { m.Config.Flight.AirModes = 0 })}},
	// pack · arm on · throttle up · radio off
	{"held, set to sink", quickSwitch().hold().sink(5), SilenceSinks, HeldNoSink, 4, "", -1, 0, []Rule{LossStopsMotors, LinkBackNeverArms, SilenceStopsSoon}, Claim{Armed: true, Phase: uint8(link.Good)}, []*made{quickSwitch().sink(5)}},
	{"stored, set to sink", quickSwitch().stored(988, 1500, 988).sink(5), SilenceSinks, StoredNoSink, 4, "", -1, 0, []Rule{LinkBackNeverArms}, Claim{Phase: uint8(link.Good)}, []*made{quickSwitch().stored(988, 1500, 0).sink(5)}},
	{"sinking, carries nearly all", quickSwitch().carries(978), SinkComesDown, SinkHovers, 4, "", -1, 20, nil, Claim{Armed: true, Sinking: true, Phase: uint8(link.Lost)}, []*made{quickSwitch().carries(977), quickSwitch().carries(900)}},
	{"sinking, carries nothing", quickSwitch().carries(0), SinkComesDown, SinkFalls, 4, "", -1, 7128, nil, Claim{Armed: true, Sinking: true, Phase: uint8(link.Lost)}, []*made{quickSwitch().carries(413)}},
	{"sinking, carries too little", quickSwitch().carries(411), SinkComesDown, SinkFalls, 4, "", -1, 5005, nil, Claim{Armed: true, Sinking: true, Phase: uint8(link.Lost)}, []*made{quickSwitch().carries(413)}},
	// pack · radio off
	{"stored in the arm corner", slowSticks().stored(988, 2012, 0), StoredOffCorners, StoredCorner, 2, "", -1, 0, []Rule{LossStopsMotors, LinkBackNeverArms, StoredNeverArms, SilenceStopsSoon}, Claim{Armed: true, Phase: uint8(link.Good)},
		[]*made{slowSticks().stored(988, 1935, 0), slowSticks().stored(1000, 2012, 0)}},
	// pack · yaw right, held: armed · throttle up · radio off
	{"stored in the disarm corner", slowSticks().short(5, 5, 6, 4, 4, 0).with(func(m *made) { m.Config.SlotTicks = 50 }).stored(988, 988, 0), StoredOffCorners, StoredDisarms, 4, "", -1, 200, []Rule{LinkBackNeverArms}, Claim{Phase: uint8(link.Good)},
		[]*made{slowSticks().stored(988, 1065, 0)}},
	{"one frame is the limit", quickSwitch().short(1, 5, 6, 4, 3, 0), OneFrameIsNoLoss, SilenceOneFrame, 4, "", -1, 4, nil, Claim{Phase: uint8(link.Lost)}, []*made{quickSwitch().short(2, 5, 6, 4, 3, 0)}},
	// pack · arm on · throttle up · radio off
	{"silence seen late", quickSwitch().short(251, 5, 6, 4, 3, 0), SilenceIsSeenSoon, SilenceLate, 4, "", -1, 1004, nil, Claim{Armed: true, Phase: uint8(link.Good)}, []*made{quickSwitch().short(250, 5, 6, 4, 3, 0)}},
	// pack · radio off · radio on · arm on
	{"no clean time", quickSwitch().short(4, 0, 6, 4, 3, 0), CleanTimeIsSet, CleanNothing, 4, "", -1, 0, nil, Claim{Armed: true}, []*made{quickSwitch().short(4, 1, 6, 4, 3, 0)}},
	// pack · a nudge · arm on
	{"no still time", quickSwitch().short(4, 5, 0, 4, 3, 0), StillTimeIsSet, StillNothing, 3, "", -1, 0, nil, Claim{Armed: true}, []*made{quickSwitch().short(4, 5, 1, 4, 3, 0)}},
	// pack · on its side · arm on
	{"tilt limit upright", quickSwitch().with(func(m *made) { m.Config.Arming.TiltLimitTenths = 900 }), TiltRefuses, TiltPastUpright, 3, "", -1, 900, nil, Claim{Armed: true},
		[]*made{quickSwitch().with(func(m *made) { m.Config.Arming.TiltLimitTenths = 899 })}},
	// pack · yaw right
	{"brief arm dwell", slowSticks().with(func(m *made) { m.Config.SlotTicks = 49 }), CornersTakeTime, ArmDwellBrief, 2, "", -1, 196, nil, Claim{Armed: true}, []*made{slowSticks()}},
	// pack · yaw right: armed · yaw left
	{"brief disarm dwell", slowSticks().short(4, 5, 6, 5, 4, 0).with(func(m *made) { m.Config.SlotTicks = 49 }), CornersTakeTime, DisarmDwellBrief, 3, "", -1, 196, nil, Claim{}, nil},
	// pack · yaw right: armed · throttle up to the mark · yaw left
	{"corner in flight", slowSticks().lowMark(8002), CornersBelowPower, CornerInFlight, 4, "throttle", -1, 8002, []Rule{ThrottleUpNeverArms}, Claim{},
		[]*made{slowSticks().lowMark(8001), slowSticks().lowMark(8800).travel("throttle", 988, 1000)}},
	{"idles", quickSwitch().with(func(m *made) { m.Config.Flight.AtLowThrottle = flight.Idle }), ArmingStartsNoMotor, IdlesArmed, 2, "", -1, 0, nil, Claim{Armed: true},
		[]*made{quickSwitch().with(func(m *made) { m.Config.Flight.AtLowThrottle, m.Config.Flight.IdleSpeed = flight.Idle, 0 })}},
	// mode switch to the middle · throttle up to the mark · pack · arm on
	{"air mode wakes low", quickSwitch().lowMark(8800).airWakes(798), ArmingStartsNoMotor, AirWakesLow, 4, "", -1, 8798, []Rule{ThrottleUpNeverArms}, Claim{Armed: true, Mode: uint8(layout.Horizon)},
		[]*made{quickSwitch().lowMark(8800).airWakes(799), quickSwitch().lowMark(8800).airWakes(798).with(func(m *made) { m.Config.Flight.AirModes = 0 }), quickSwitch().airWakes(0),
			quickSwitch().lowMark(8800).airWakes(798).levelOnly().with(func(m *made) { m.Config.Flight.AirModes = 1 << layout.Rate })}},
	// pack · throttle to the mark · arm on: refused
	{"throttle hardly low", quickSwitch().throttleLow(995*8+1, 0), ThrottleLowIsClear, LowEndNear, 3, "throttle", -1, 995*8 + 1, nil, Claim{}, []*made{quickSwitch().throttleLow(995*8, 0)}},
	{"throttle hardly low for its noise", quickSwitch().throttleLow(988*8+1, 16), ThrottleLowIsClear, LowEndNear, 3, "throttle", -1, 988*8 + 1, nil, Claim{}, []*made{quickSwitch().throttleLow(988*8, 16)}},
	// pack · throttle down · arm on, and let go
	{"throttle springs", quickSwitch().throttleSprings(1500), ThrottleStays, ThrottleSprings, 3, "throttle", -1, 1500 * 8, nil, Claim{Armed: true}, []*made{quickSwitch().throttleSprings(999)}},
	// pack · throttle down · arm on · throttle up, and let go
	{"throttle springs down", quickSwitch().throttleSprings(1000), ThrottleStaysUp, ThrottleFalls, 4, "throttle", -1, 1000 * 8, nil, Claim{Armed: true},
		[]*made{quickSwitch(), quickSwitch().throttleSprings(1001)}},
	// pack · roll to the side
	{"mode on roll", quickSwitch().kind("mode", handset.Knob).positions("mode").with(knobRests("mode", 1500)).same("mode", "roll", false), NoStickMovesMode, ModeOnStick, 2, "roll", -1, 0, nil, Claim{Mode: uint8(layout.Rate)},
		[]*made{quickSwitch().kind("mode", handset.Knob), quickSwitch().kind("mode", handset.Knob).positions("mode").with(knobRests("mode", 1500)).same("mode", "roll", false).modes(span(0, 860, 2180))}},
}

func TestFears(t *testing.T) {
	seen := map[Cause]bool{}
	for _, row := range fearRows {
		rep, err := Search(row.broken.Layout, Options{})
		require.NoError(t, err, row.name)
		r := &rep.Results[row.rule]
		want := Broken
		if row.cause == IdlesArmed {
			want = WithIt
		}
		seen[row.cause] = true
		if !assert.Equal(t, want.Code(), r.Outcome.Code(), row.name) {
			continue
		}
		assert.Equal(t, row.cause.Code(), r.Cause.Code(), row.name)
		assert.Equal(t, row.movements, r.Way.Movements, "%s: %+v", row.name, r.Way.Steps)
		assert.Equal(t, row.value, r.Value, row.name)
		at := slices.IndexFunc(row.broken.Radio.Controls, func(c handset.Control) bool { return c.Job == row.control })
		assert.Equal(t, []int{at, row.position}, []int{r.Control, r.Position}, row.name)
		ends := r.Way.Claim
		ends.Happens = 0
		if row.ends.Phase == 0 {
			row.ends.Phase = ends.Phase
		}
		assert.Equal(t, row.ends, ends, "%s: %+v", row.name, r.Way.Steps)
		for i := range rep.Results {
			r := &rep.Results[i]
			assert.Equal(t, r.Rule == row.rule && want == Broken || slices.Contains(row.also, r.Rule), r.Outcome == Broken, "%s: %s: %s", row.name, r.Rule.Code(), r.Cause.Code())
			assert.NotEqual(t, Undecided, r.Outcome, "%s: %s", row.name, r.Rule.Code())
			if r.Way != nil {
				replay(t, &row.broken.Layout, r)
			}
		}
		if h, err := newHands(&row.broken.Layout, question{}); assert.NoError(t, err) && row.rule != ArmRestsOff { // whose way begins where the switch rests
			first := slices.IndexFunc(r.Way.Readings, func(g pulse.Reading) bool { return g.Kind == pulse.Controls })
			assert.Equal(t, h.frames[h.start&h.sentBits()], r.Way.Readings[first].Frame, "%s: it begins as each search does", row.name)
		}
		for i, near := range row.near {
			rep, err := Search(near.Layout, Options{})
			require.NoError(t, err, row.name)
			assert.Equal(t, Holds.Code(), rep.Results[row.rule].Outcome.Code(), "%s: near miss %d", row.name, i)
		}
	}
	for c := SecondNeverOff; c < ArmsTurned; c++ {
		assert.True(t, seen[c], "no layout for %s", c.Code())
	}
}

// What makes a rule meaningless leaves it unasked.
func TestFearsThatAreNotAsked(t *testing.T) {
	for _, c := range []struct {
		l    *made
		rule Rule
	}{
		{quickSwitch(), SecondGoesOff}, {quickSticks(), SweepNeverArms}, {quickSticks(), ArmRestsOff}, {quickSticks(), ArmHasPositions}, {quickSticks(), ArmControlIsAlone},
		{quickSwitch().with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel; m.fresh() }), ArmControlIsAlone},
		{quickSwitch().with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel; m.fresh() }), NoRateOnTheWay},
		{quickSwitch(), ArmRestsOff}, {quickSwitch().without("arm"), SweepNeverArms}, {quickSwitch().without("mode"), NoStickMovesMode},
		{quickSwitch().kind("arm", handset.Knob).travel("arm", 988, 1599), ArmHasPositions}, {quickSwitch().kind("arm", handset.Knob).travel("arm", 1601, 2012), ArmHasPositions}, {quickSwitch(), TakingArmsNothing}, {quickSticks(), TutorCanTake}, {quickSwitch().without("arm"), ArmHasPositions}, {quickSwitch().without("arm"), ArmControlIsAlone},
		{quickSwitch().without("mode"), NoRateOnTheWay}, {quickSwitch().second().without("second"), SecondGoesOff},
		{quickSwitch(), SilenceSinks}, {quickSwitch(), SinkComesDown}, {quickSwitch().stored(988, 2012, 988), StoredOffCorners}, {quickSticks(), StoredOffCorners},
		{quickSwitch().hold().short(1, 3, 3, 3, 3, 0), OneFrameIsNoLoss}, {quickSwitch().hold().short(300, 3, 3, 3, 3, 0), SilenceIsSeenSoon}, {quickSwitch(), CornersTakeTime}, {quickSwitch(), CornersBelowPower},
		{quickSwitch().travel("throttle", 1000, 2012), ThrottleLowIsClear}, {quickSwitch().positions("arm", 1700, 2012).rests("arm", 2012), ArmRestsOff},
	} {
		rep, err := Search(c.l.Layout, Options{})
		require.NoError(t, err)
		r := &rep.Results[c.rule]
		assert.Equal(t, NotAsked.Code(), r.Outcome.Code(), c.rule.Code())
		assert.Zero(t, r.Searched, c.rule.Code())
	}
}

// A report in which any single rule is undecided is none in which all hold.
func TestOneUndecidedRuleLeavesItUnfinished(t *testing.T) {
	for r := range RuleCount {
		rep := Report{Results: make([]Result, RuleCount)}
		for i := range rep.Results {
			rep.Results[i] = Result{Rule: Rule(i), Outcome: Holds}
		}
		require.Equal(t, AllHold, rep.Verdict())
		rep.Results[r].Outcome = Undecided
		assert.Equal(t, Unfinished, rep.Verdict(), r.Code())
	}
}

// However early a search is stopped, each rule is undecided or has come out as in a search that was not, and the whole is unfinished or broken.
func TestStoppedAnywhereNoRuleIsGuessed(t *testing.T) {
	for name, l := range map[string]*made{
		"switch": quickSwitch().second(), "sticks, sinking": slowSticks().sink(4), "hold": quickSwitch().hold(), "stored": slowSticks().stored(988, 1500, 0),
		"gestures": quickSticks().moves(pattern("camera", [4]gestures.Zone{mid, high, mid, low}, 5, 2)),
	} {
		whole, err := Search(l.Layout, Options{})
		require.NoError(t, err)
		undecided := map[Rule]bool{}
		for most := int64(1 << 14); most < 1<<22; most *= 2 {
			rep, err := Search(l.Layout, Options{MostBytes: most})
			require.NoError(t, err)
			open := 0
			for i := range rep.Results {
				r := &rep.Results[i]
				if r.Outcome == Undecided {
					assert.False(t, r.Rule.Tried(), "%s: %s needs no search", name, r.Rule.Code())
					open++
					undecided[r.Rule] = true
					continue
				}
				assert.Equal(t, whole.Results[i].Outcome.Code(), r.Outcome.Code(), "%s, %d bytes: %s", name, most, r.Rule.Code())
			}
			assert.Equal(t, rep.Partial, open > 0, "%s, %d bytes", name, most)
			if rep.Partial {
				assert.NotEqual(t, AllHold, rep.Verdict(), name)
			}
		}
		assert.Greater(t, len(undecided), 8, name)
	}
}
