package prove

import (
	"flag"
	"fmt"
	"math/bits"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// quick times: silence 4 slots, clean 5, still 6, arm dwell 4, disarm dwell 3.
func quickSwitch() *made { return bySwitch().short(4, 5, 6, 4, 3, 0) }
func quickSticks() *made { return bySticks().short(4, 5, 6, 4, 3, 0) }

// A refusal that the table does not have is held by no search. One of the craft must be there as a condition too, as the cable stands for
// all of these; standing still is none, for it is counted in the state, which the search walks.
func TestEveryRefusalHasItsRow(t *testing.T) {
	m := quickSwitch().levelOnly().with(func(m *made) { m.Config.Arming.PackLimitMilliVolts = 14000 })
	var alone, asCondition arming.Set
	for _, row := range refusalTable(&m.Config) {
		if bits.OnesCount32(uint32(row.want)) != 1 {
			continue
		}
		if alone |= row.want; row.in.Craft != (arming.Conditions{}) {
			asCondition |= row.want
		}
	}
	for _, r := range arming.Shown() {
		assert.True(t, alone.Has(r), "%s has no row of its own: give it one in refusalTable in sim/prove/table.go", r.Code())
		if r.Group() == arming.Craft && r != arming.NotYetStill {
			assert.True(t, asCondition.Has(r), "%s: no row of refusalTable in sim/prove/table.go sets in.Craft to what it refuses", r.Code())
		}
	}
}

// briefDwell is what is found of each craft by sticks whose times are a few slots, so that a search is short.
const briefDwell = "corners-take-time: arm-dwell-brief"

// soundRows break no promise of the bench; but is what practitioners fear of them.
var soundRows = []struct {
	name string
	l    *made
	but  []string
}{
	{"switch", quickSwitch(), nil},
	{"switch, sinking", quickSwitch().short(4, 5, 6, 4, 3, 6), nil},
	{"switch, second switch", quickSwitch().second(), nil},
	{"switch, only self-levelling", quickSwitch().levelOnly(), nil},
	{"switch, no waiting at all", bySwitch().short(3, 0, 0, 4, 3, 0), []string{"clean-time-is-set: clean-time-nothing", "still-time-is-set: still-time-nothing"}},
	{"switch, two positions, pack limit", quickSwitch().positions("arm", 988, 2012).with(func(m *made) { m.Config.Arming.PackLimitMilliVolts = 14000 }), nil},
	{"switch, arm span at the low end", quickSwitch().with(func(m *made) {
		m.Config.Layout.ArmSpan = layout.Span{Low: pulse.Lowest, High: pulse.Micros(1300)}
	}), nil},
	{"switch on a knob", quickSwitch().with(func(m *made) { m.control("arm").Kind = handset.Knob }), []string{"arm-has-positions: arm-on-knob"}},
	// 5 times 10 µs short of an edge, an eighth is left
	{"switch, noise short of the edge", quickSwitch().positions("arm", 988, 1549, 2012).spread("arm", 10), nil},
	{"switch, arm and mode on one", quickSwitch().same("mode", "arm", false), []string{"arm-control-is-alone: arm-is-mode-switch"}},
	{"sticks", quickSticks(), []string{briefDwell}},
	{"sticks, sinking", quickSticks().short(4, 5, 3, 4, 3, 6), []string{briefDwell}},
	{"sticks, no mode", quickSticks().with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel; m.fresh() }), []string{briefDwell}},
	{"sticks, only self-levelling", quickSticks().short(3, 4, 3, 3, 3, 0).levelOnly(), []string{briefDwell}},
	{"sticks, second switch", bySticks().short(3, 3, 3, 3, 3, 0).second().positions("second", 988, 2012), []string{briefDwell}},
	{"sticks, throttle never up", bySticks().short(3, 3, 3, 3, 3, 0).travel("throttle", 988, 1015), []string{briefDwell}},
	{"sticks, no waiting", bySticks().short(3, 0, 0, 3, 3, 4), []string{"clean-time-is-set: clean-time-nothing", "still-time-is-set: still-time-nothing", briefDwell}},
}

func TestSoundLayouts(t *testing.T) {
	for _, row := range soundRows {
		rep, err := Search(row.l.Layout, Options{})
		require.NoError(t, err, row.name)
		assert.Equal(t, row.but, notSound(&rep), row.name)
		assert.False(t, rep.Partial, row.name)
		require.Len(t, rep.Results, int(RuleCount))
		for i := range rep.Results {
			r := &rep.Results[i]
			assert.Equal(t, Rule(i), r.Rule)
			assert.Equal(t, r.Outcome == NotAsked, r.Searched == 0, "%s: %s", row.name, r.Rule.Code())
			if r.Way != nil {
				replay(t, &row.l.Layout, r)
			}
		}
	}
}

var update = flag.Bool("update", false, "write testdata/found.txt anew")

// TestWhatIsFound holds everything that is found of every layout here against a record: how many situations, which rules are
// broken, why, and how far the shortest way is. A change in it is a change in what the craft does, or in what prove says.
func TestWhatIsFound(t *testing.T) {
	var b strings.Builder
	seen := map[string]bool{}
	say := func(name string, l *made) {
		rep, err := Search(l.Layout, Options{})
		require.NoError(t, err, name)
		fmt.Fprintf(&b, "%s: %d situations for %.0f\n", name, rep.Situations, rep.Standing)
		for i := range rep.Results {
			if r := &rep.Results[i]; r.Way != nil {
				fmt.Fprintf(&b, "    %s %s: %s, %d movements, %d ms\n", r.Outcome.Code(), r.Rule.Code(), r.Cause.Code(), r.Way.Movements, r.Way.Ms)
			}
		}
		seen[name] = true
	}
	for _, row := range soundRows {
		say(row.name, row.l)
	}
	for _, row := range brokenRows {
		say(row.name, row.l)
	}
	assert.Len(t, seen, len(soundRows)+len(brokenRows), "every name once")
	const file = "testdata/found.txt"
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}

// Each row is broken in one known way. Movements and time were worked out by hand from the rules; −1 where they were not.
var brokenRows = []struct {
	name      string
	l         *made
	rule      Rule
	cause     Cause
	movements int
	slots     int // from the first movement to the end
	control   string
	position  int
}{
	// power on · still 6 slots · arm on · throttle up in slot 7 · radio off: the last radio frame is slot 7's; silence limit 4 → slot 8 + 3
	{"hold by switch", quickSwitch().hold(), LossStopsMotors, HeldSwitch, 4, 6 + 1 + 4, "", -1},
	// power on, radio off, arm on in slots 0 1 2; the still time ends in slot 6: radio on then
	{"hold by switch, back", quickSwitch().hold(), LinkBackNeverArms, HeldSwitch, 4, 6, "", -1},
	// yaw right in slot 6 (the corner counts only once the still time is over), dwell 4 → armed in slot 10; throttle up in slot 11;
	// radio off in slot 12: limit 4 reached in 15
	{"hold by sticks", quickSticks().hold(), LossStopsMotors, HeldSticks, 4, 15, "", -1},
	{"hold by sticks, back", quickSticks().hold(), LinkBackNeverArms, HeldSticks, 4, 10, "", -1},
	{"hold by sticks, held", quickSticks().hold(), HeldNeverArms, HeldSticks, 3, 10, "", -1},
	// power on · arm on in slot 6 · throttle up in slot 7 · radio off in slot 8
	{"preset keeps the arm channel on", quickSwitch().stored(988, 1500, 2012), LossStopsMotors, StoredSwitchOn, 4, 11, "", -1},
	// power on, radio off in slot 6 at the earliest that nothing refuses: armed by the stored values
	{"preset arms", quickSwitch().stored(988, 1500, 2012), StoredNeverArms, StoredSwitchOn, 2, 6, "", -1},
	{"preset off, switch on meanwhile", quickSwitch().stored(988, 1500, 988), LinkBackNeverArms, StoredSwitchOff, 4, 6, "", -1},
	{"preset by sticks", quickSticks().stored(988, 1500, 0), LossStopsMotors, StoredSticks, 4, 15, "", -1},
	// the same; the stored corner disarms 4 slots after its first frame, promised are 3
	{"preset in the disarm corner, too late", quickSticks().short(3, 5, 6, 4, 4, 0).stored(988, 988, 0), LossStopsMotors, StoredLate, 4, 14, "", -1},
	{"preset by sticks, back", quickSticks().stored(988, 1500, 0), LinkBackNeverArms, StoredSticks, 4, 10, "", -1},
	{"preset in the arm corner", quickSticks().stored(988, 2012, 0), StoredNeverArms, StoredCorner, 2, 10, "", -1},
	// power on · still · roll to its end, arm on, roll back, one slot each: slots 4? the arm switch may move in the gap
	{"roll beyond pulses arms", quickSwitch().travel("roll", 988, 2190), OnlyArmControlArms, ControlNoPulse, 4, -1, "roll", -1},
	// power on · armed in slot 6 · roll to its end in slot 7: lost after 4 slots, in slot 10
	{"roll beyond pulses cuts", quickSwitch().travel("roll", 988, 2190), NothingElseDisarms, ControlNoPulse, 3, 10, "roll", -1},
	{"arm position without a pulse", quickSwitch().positions("arm", 988, 2012, 2190), ArmControlDisarms, ArmNoPulse, 3, 7, "arm", 2},
	// throttle to 1100 before or while waiting, arm on in slot 6
	{"low mark above 1000", quickSwitch().with(func(m *made) { m.Config.Arming.LowThrottle = pulse.Micros(1150) }), ThrottleUpNeverArms, LowMarkHigh, 3, 6, "", -1},
	{"a mode that no position reaches", quickSwitch().positions("mode", 988, 1500), EveryModeReached, ModeNoPosition, -1, -1, "mode", -1},
	{"a mode beyond a knob", quickSwitch().with(func(m *made) { m.control("mode").Kind = handset.Knob; m.travel("mode", 988, 1700) }), EveryModeReached, ModeNoTravel, -1, -1, "mode", -1},
	{"no mode control", quickSwitch().without("mode"), EveryModeReached, NoControl, -1, -1, "", -1},
	{"a gap between modes", quickSwitch().modes(span(0, 860, 1250), span(1, 1750, 2180)), NoModeGap, GapBetween, 2, 1, "mode", 1},
	{"a gap below", quickSwitch().modes(span(0, 1250, 1750), span(1, 1750, 2180)), NoModeGap, GapBelow, 1, 0, "mode", 0},
	{"a gap above", quickSwitch().modes(span(0, 860, 1250), span(1, 1250, 1750)), NoModeGap, GapAbove, 2, 1, "mode", 2},
	{"rate at power-up", quickSwitch().modes(span(2, 860, 1250), span(1, 1250, 1750), span(0, 1750, 2180)), PowerUpLevels, RateAtRest, 1, 0, "mode", 0},
	{"gap at power-up", quickSwitch().modes(span(0, 1250, 1750), span(1, 1750, 2180)), PowerUpLevels, GapAtRest, 1, 0, "mode", 0},
	{"always rate", quickSwitch().with(func(m *made) {
		l := &m.Config.Layout
		l.Mode, l.FixedMode, l.SpanCount = layout.NoChannel, layout.Rate, 0
		m.fresh()
	}), PowerUpLevels, AlwaysRate, 1, 0, "", -1},
	{"no position arms", quickSwitch().positions("arm", 988, 1500), CanArm, ArmNeverOn, -1, -1, "arm", -1},
	{"every position arms", quickSwitch().positions("arm", 1700, 2012), CanArm, ArmNeverOff, -1, -1, "arm", -1},
	{"no arm control", quickSwitch().without("arm"), CanArm, NoControl, -1, -1, "", -1},
	{"short throttle", quickSticks().travel("throttle", 1012, 2012), CanArm, ThrottleNeverLow, -1, -1, "throttle", -1},
	{"short throttle by switch", quickSwitch().travel("throttle", 1012, 2012), CanArm, ThrottleNeverLow, -1, -1, "throttle", -1},
	{"short yaw", quickSticks().travel("yaw", 988, 1900), CanArm, YawNeverRight, -1, -1, "yaw", -1},
	{"second switch never on", quickSwitch().second().positions("second", 988, 1500), CanArm, SecondNeverOn, -1, -1, "second", -1},
	{"never self-levelling", quickSwitch().levelOnly().positions("mode", 1800, 2012), CanArm, NeverSelfLevelling, -1, -1, "mode", -1},
	{"pitch never a pulse", quickSwitch().travel("pitch", 2190, 2300), CanArm, NeverPulse, -1, -1, "pitch", -1},
	{"no position disarms", quickSwitch().positions("arm", 1700, 2012), CanDisarm, ArmNeverOff, -1, -1, "arm", -1},
	{"off gives no pulse", quickSwitch().positions("arm", 840, 2012), CanDisarm, ArmNoPulse, -1, -1, "arm", 0},
	{"short yaw to the left", quickSticks().travel("yaw", 1100, 2012), CanDisarm, YawNeverLeft, -1, -1, "yaw", -1},
	{"throttle never low, so no disarming", quickSticks().travel("throttle", 1012, 2012), CanDisarm, ThrottleNeverLow, -1, -1, "throttle", -1},
	// power on · press in slot 6 · let go
	{"arm switch springs back", quickSwitch().with(func(m *made) { m.positions("arm", 988, 2012); m.control("arm").Momentary = true }), ArmControlStays, SpringsBack, 2, 7, "arm", 0},
	// 5 times 10 µs of noise: the middle position reaches the span's edge from 1550 on. Power on · arm switch to the middle in any slot · slot 6
	{"noise arms", quickSwitch().positions("arm", 988, 1550, 2012).spread("arm", 10), OnlyArmControlArms, NoiseCrosses, 2, 6, "arm", 1},
	{"noise arms after power-up", quickSwitch().positions("arm", 988, 1550, 2012).spread("arm", 10), PowerUpNeverArms, NoiseCrosses, 2, 6 + 1, "arm", 1},
	// power on · arm switch to the middle in slot 6, where noise may already be: it armed there; a slot later it disarms
	{"noise disarms", quickSwitch().positions("arm", 988, 1550, 2012).spread("arm", 10), NothingElseDisarms, NoiseCrosses, 2, 7, "arm", 1},
	// 5 µs of noise at 2179 reach 2184, which is no pulse: what is held there is lost in slot 7 and so on, and the craft cuts
	{"noise beyond every pulse", quickSwitch().travel("roll", 988, 2179).noise("roll", 1), NothingElseDisarms, NoiseNoPulse, 3, 10, "roll", -1},
	// what a radio can do only by its noise it cannot do
	{"the throttle is low by noise alone", quickSwitch().travel("throttle", 1004, 2012).noise("throttle", 1), CanArm, ThrottleNeverLow, -1, -1, "throttle", -1},
	{"noise changes the mode", quickSwitch().positions("mode", 988, 1745, 2012).spread("mode", 1), ModeStays, NoiseCrosses, 2, -1, "mode", 1},
	{"low and left in flight", quickSticks(), CornerDisarmsInFlight, CornerHeld, 5, 6 + 4 + 3 + 3, "", -1},
}

func TestBrokenLayouts(t *testing.T) {
	type pair struct {
		Rule
		Cause
	}
	seen := map[pair]string{}
	for _, row := range brokenRows {
		rep, err := Search(row.l.Layout, Options{})
		require.NoError(t, err, row.name)
		r := &rep.Results[row.rule]
		want := Broken
		if row.rule == CornerDisarmsInFlight {
			want = WithIt
		}
		if !assert.Equal(t, want.Code(), r.Outcome.Code(), row.name) {
			continue
		}
		assert.Equal(t, row.cause.Code(), r.Cause.Code(), row.name)
		require.NotNil(t, r.Way, row.name)
		if row.movements >= 0 {
			assert.Equal(t, row.movements, r.Way.Movements, "%s: movements", row.name)
		}
		if row.slots >= 0 {
			assert.EqualValues(t, row.slots*4, r.Way.Ms, "%s: ms", row.name)
		}
		at := -1
		if row.control != "" {
			at = slices.IndexFunc(row.l.Radio.Controls, func(c handset.Control) bool { return c.Job == row.control })
		}
		assert.Equal(t, at, r.Control, "%s: control", row.name)
		assert.Equal(t, row.position, r.Position, "%s: position", row.name)
		for i := range rep.Results {
			if rep.Results[i].Way != nil {
				replay(t, &row.l.Layout, &rep.Results[i])
			}
		}
		seen[pair{row.rule, row.cause}] = row.name
	}
	assert.GreaterOrEqual(t, len(seen), 36)
}
