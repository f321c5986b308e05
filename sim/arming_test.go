package sim_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

func bySticks() sim.Config {
	cfg := sim.Default()
	cfg.Arming.By = arming.BySticks
	cfg.Layout.Arm = layout.NoChannel
	cfg.Link.Needed = cfg.Layout.Needed()
	return cfg
}

func withSecond() sim.Config {
	cfg := sim.Default()
	cfg.Layout.Second = chSecond
	cfg.Layout.SecondSpan = layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	return cfg
}

func refusals(rs ...arming.Refusal) arming.Set {
	var s arming.Set
	for _, r := range rs {
		s = s.With(r, true)
	}
	return s
}

// Each number stands once in the core's table, with a code word of its own by which it is found again.
func TestEveryRefusalStandsOnceInTheTable(t *testing.T) {
	var numbers, shown arming.Set
	words := map[string]bool{}
	var last arming.Group
	for _, r := range arming.Ever() {
		assert.False(t, numbers.Has(r), "%s stands twice, or a row is empty", r.Code())
		assert.False(t, words[r.Code()], "the code word %s stands twice", r.Code())
		numbers, words[r.Code()] = numbers.With(r, true), true
		back, ok := arming.RefusalOf(r.Code())
		assert.True(t, ok && back == r && r.Code() != "", r.Code())
		assert.Equal(t, r.Today(), r.Today().Today(), r.Code())
		assert.GreaterOrEqual(t, r.Group(), last, "%s stands among those of another group", r.Code())
		last = r.Group()
	}
	for _, r := range arming.Shown() {
		shown = shown.With(r, true)
	}
	assert.Equal(t, arming.Set(1<<arming.RefusalCount-1), numbers)
	assert.Equal(t, numbers&^refusals(arming.WasOnCable, arming.WasMenuOpen), shown)
	_, ok := arming.RefusalOf("")
	assert.False(t, ok)
	assert.Equal(t, "refusal 99", arming.Refusal(99).Code())
	assert.Equal(t, arming.Refusal(99), arming.Refusal(99).Today())
}

// A refusal more makes the same readings do something else, so it comes with a model of its own.
func TestARefusalMoreIsAModelMore(t *testing.T) {
	ever := map[int]arming.Refusal{1: 13, 2: 14, 3: 14} // how many numbers of refusals were given up to each model
	assert.Equal(t, ever[sim.Model], arming.RefusalCount, "sim.Model rises once for a release (DEVELOPERS.md, habit 10); then its row is added here")
}

// A throttle of a healthy radio, read from 987 to 2011 µs, arms (common practice, no source).
func TestHealthyThrottleArms(t *testing.T) {
	h := newHands(t, sim.Default()).move(chThrottle, 2011).wait(100).move(chThrottle, 987).ready()
	h.move(chArm, 2011).wait(20)
	assert.True(t, h.armed())
}

func TestArmsInTheVerySlotOfEntering(t *testing.T) {
	h := newHands(t, sim.Default()).ready() // tick 2100: slots fall on multiples of 20
	h.move(chArm, 2012).wait(1)
	assert.True(t, h.armed(), "2100 is a slot")
	assert.Equal(t, []int64{2100}, h.times(happening.Armed))
	h.move(chArm, 988).wait(19)
	assert.True(t, h.armed(), "no frame has come yet")
	h.wait(1)
	assert.False(t, h.armed())
	assert.Equal(t, []int64{2120}, h.times(happening.Disarmed))
}

// The craft refuses to arm when it gets power with the arm switch on (common practice, no source).
func TestPowerUpWithSwitchOnNeverArms(t *testing.T) {
	h := newHands(t, sim.Default()).move(chArm, 2012).wait(10_000)
	assert.Empty(t, h.times(happening.Armed))
	assert.Equal(t, refusals(arming.OffFirst), h.snap().Refusals)
	h.move(chArm, 988).wait(20).move(chArm, 2012).wait(20)
	assert.True(t, h.armed(), "off and on again arms")
}

// Arming while plugged into a set-up computer is refused (common practice, no source).
func TestOnCableNeverArms(t *testing.T) {
	h := newHands(t, sim.Default()).ready()
	h.tell(pulse.Cable, 1)
	for range 5 {
		h.move(chArm, 2012).wait(300).move(chArm, 988).wait(300)
	}
	assert.Empty(t, h.times(happening.Armed))
	assert.Len(t, h.times(happening.Refused), 5)
	h.tell(pulse.Cable, 0)
	h.move(chArm, 2012).wait(20)
	assert.True(t, h.armed())
}

// hasty is a craft that asks for no clean time and no standing still: there the latch alone must do it.
func hasty(cfg sim.Config) sim.Config {
	cfg.Link.CleanSlots, cfg.Arming.StillSlots = 0, 0
	return cfg
}

func TestPowerUpLatchAloneKeepsItFromArming(t *testing.T) {
	h := newHands(t, hasty(sim.Default())).move(chArm, 2012).wait(3000)
	assert.Empty(t, h.times(happening.Armed), "by switch")
	h = newHands(t, hasty(bySticks())).move(chYaw, 2012).wait(3000)
	assert.Empty(t, h.times(happening.Armed), "by sticks")
	h = newHands(t, hasty(sim.Default())).wait(20).move(chArm, 2012).wait(20)
	assert.True(t, h.armed(), "seen off once it arms")
}

func TestClearingTheReasonAloneNeverArms(t *testing.T) {
	h := newHands(t, sim.Default()).ready().move(chThrottle, 1200).wait(40)
	h.move(chArm, 2012).wait(40)
	r, ok := h.last(happening.Refused)
	require.True(t, ok)
	assert.Equal(t, refusals(arming.ThrottleUp), arming.Set(r.A))
	h.move(chThrottle, 988).wait(5000)
	assert.False(t, h.armed())
	assert.Equal(t, refusals(arming.OffFirst), h.snap().Refusals)
	h.move(chArm, 988).wait(20)
	assert.Zero(t, h.snap().Refusals)
	h.move(chArm, 2012).wait(20)
	assert.True(t, h.armed())
}

func TestThrottleMarkIsExact(t *testing.T) {
	for _, c := range []struct {
		us   float64
		arms bool
	}{{999, true}, {999.875, true}, {1000, false}, {1000.125, false}, {1020, false}, {860, true}} {
		h := newHands(t, sim.Default()).ready().move(chThrottle, c.us).wait(40).move(chArm, 2012).wait(20)
		assert.Equal(t, c.arms, h.armed(), "throttle %v µs", c.us)
	}
}

func TestSecondSwitch(t *testing.T) {
	h := newHands(t, withSecond()).ready()
	h.move(chArm, 2012).wait(40)
	assert.False(t, h.armed())
	r, _ := h.last(happening.Refused)
	assert.Equal(t, refusals(arming.SecondSwitchOff), arming.Set(r.A))
	h.move(chSecond, 2012).wait(100)
	assert.False(t, h.armed(), "the second switch alone never arms")
	h.move(chArm, 988).wait(20).move(chArm, 2012).wait(20)
	assert.True(t, h.armed())
	h.move(chSecond, 988).wait(2000)
	assert.True(t, h.armed(), "the second switch going off later does nothing")
	h.move(chArm, 988).wait(20)
	assert.False(t, h.armed())
}

func TestOnlySelfLevelling(t *testing.T) {
	cfg := sim.Default()
	cfg.Arming.OnlySelfLevelling = true
	for us, arms := range map[float64]bool{988: true, 1500: true, 2012: false} {
		h := newHands(t, cfg).ready().move(chMode, us).wait(40).move(chArm, 2012).wait(20)
		assert.Equal(t, arms, h.armed(), "mode channel %v µs", us)
	}
}

func TestCraftGroupRefuses(t *testing.T) {
	type tell struct {
		kind  pulse.Kind
		value int32
	}
	cfg := sim.Default()
	cfg.Arming.PackLimitMilliVolts = 10_500
	camera := cfg
	camera.Arming.CameraMenuCounts = true
	for _, c := range []struct {
		name string
		cfg  sim.Config
		tell tell
		want arming.Set
	}{
		{"tilted 30.0°", cfg, tell{pulse.Tilt, 300}, 0},
		{"tilted 30.1°", cfg, tell{pulse.Tilt, 301}, refusals(arming.IsTilted)},
		{"tilted over", cfg, tell{pulse.Tilt, 1800}, refusals(arming.IsTilted)},
		{"cable", cfg, tell{pulse.Cable, 1}, refusals(arming.BeingSetUp)},
		{"craft's menu", cfg, tell{pulse.Menu, pulse.MenuCraft}, refusals(arming.BeingSetUp)},
		{"camera's menu, craft cannot know", cfg, tell{pulse.Menu, pulse.MenuCamera}, 0},
		{"camera's menu, craft knows", camera, tell{pulse.Menu, pulse.MenuCamera}, refusals(arming.BeingSetUp)},
		{"pack at the limit", cfg, tell{pulse.Pack, 10_500}, 0},
		{"pack below the limit", cfg, tell{pulse.Pack, 10_499}, refusals(arming.PackLow)},
	} {
		h := newHands(t, c.cfg).ready()
		h.tell(c.tell.kind, c.tell.value)
		h.wait(1)
		assert.Equal(t, c.want, h.snap().Refusals, "%s: current at once, not at the next slot", c.name)
		h.move(chArm, 2012).wait(40)
		assert.Equal(t, c.want == 0, h.armed(), c.name)
	}
}

func TestRefusalsNeverDisarm(t *testing.T) {
	cfg := sim.Default()
	cfg.Arming.PackLimitMilliVolts = 10_500
	h := newHands(t, cfg).ready().move(chArm, 2012).wait(40)
	require.True(t, h.armed())
	h.tell(pulse.Cable, 1)
	h.tell(pulse.Tilt, 900)
	h.tell(pulse.Menu, pulse.MenuCraft)
	h.tell(pulse.Pack, 9000)
	h.tell(pulse.Nudge, 1)
	h.move(chThrottle, 1800).wait(3000)
	assert.True(t, h.armed())
	assert.Equal(t, refusals(arming.ThrottleUp, arming.IsTilted, arming.BeingSetUp, arming.PackLow), h.snap().Refusals)
}

func TestNotYetStill(t *testing.T) {
	h := newHands(t, sim.Default())
	h.wait(1000)
	h.tell(pulse.Nudge, 1)
	h.wait(1000)
	assert.True(t, h.snap().Refusals.Has(arming.NotYetStill), "moved at 1.0 s")
	h.wait(1000) // tick 3000; the nudge was seen by the slot at 1000
	assert.True(t, h.snap().Refusals.Has(arming.NotYetStill))
	h.wait(1)
	assert.False(t, h.snap().Refusals.Has(arming.NotYetStill))
	assert.Equal(t, []int64{3000}, h.times(happening.Settled))
	h.tell(pulse.Nudge, 1)
	h.wait(100)
	assert.Zero(t, h.snap().Refusals, "once it has stood still since power-up a movement is no reason any more")
}

func TestChannelWithoutPulse(t *testing.T) {
	h := newHands(t, withSecond()).ready()
	h.move(chMode, 0).wait(40)
	assert.Equal(t, refusals(arming.ChannelMissing, arming.SecondSwitchOff), h.snap().Refusals)
	h.move(chSecond, 0).wait(40)
	assert.Equal(t, refusals(arming.ChannelMissing), h.snap().Refusals)
	h.move(chMode, 988).move(chSecond, 2012).wait(40).move(chArm, 2012).wait(40)
	require.True(t, h.armed())
	h.move(chArm, 0).wait(100)
	assert.True(t, h.armed(), "an arm channel without a pulse is not a leaving")
	h.wait(200)
	assert.False(t, h.armed(), "but it makes no valid frame, so the link is lost")
}

func TestInvalidFrameStillDisarms(t *testing.T) {
	h := newHands(t, sim.Default()).ready().move(chArm, 2012).wait(40)
	require.True(t, h.armed())
	h.move(chRoll, 0).move(chArm, 988).wait(20)
	assert.False(t, h.armed())
	h.move(chRoll, 1500).move(chArm, 2012).wait(3000)
	assert.False(t, h.armed(), "off was never seen in a valid frame")
	assert.Equal(t, refusals(arming.OffFirst), h.snap().Refusals)
}

func TestPowerAwayEndsEverything(t *testing.T) {
	h := newHands(t, sim.Default()).ready().move(chArm, 2012).wait(40).move(chThrottle, 1500).wait(40)
	require.NotZero(t, h.snap().Motor[0])
	h.tell(pulse.Power, 0)
	h.wait(1)
	s := h.snap()
	assert.False(t, s.Armed)
	assert.Zero(t, s.Motor[0])
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.ByPowerLoss, happening.Cause(d.A))
	h.tell(pulse.Power, 1)
	h.move(chThrottle, 988).wait(5000)
	assert.False(t, h.armed(), "it comes back with its latches set")
}

func TestModes(t *testing.T) {
	h := newHands(t, sim.Default()).ready()
	for _, c := range []struct {
		us   float64
		want layout.Mode
	}{
		{1249.875, layout.Angle}, {1250, layout.Horizon}, {1749.875, layout.Horizon}, {1750, layout.Rate},
		{2180, layout.Rate}, {860, layout.Angle},
	} {
		h.move(chMode, c.us).wait(20)
		assert.Equal(t, c.want, h.snap().Mode, "%v µs", c.us)
	}
	h.move(chMode, 1500).wait(20).move(chMode, 0).wait(100)
	assert.Equal(t, layout.Horizon, h.snap().Mode, "without a pulse the last mode stays")

	cfg := sim.Default()
	cfg.Layout.Spans[1].Span.High = pulse.Micros(1600) // a gap from 1600 to 1750
	h = newHands(t, cfg).ready().move(chMode, 1650).wait(20)
	assert.Equal(t, layout.Rate, h.snap().Mode, "a gap between spans means rate")
}

func TestBeforeTheFirstFrameTheModeIsAngle(t *testing.T) {
	h := newHands(t, sim.Default())
	h.tell(pulse.Link, 0)
	h.move(chMode, 2012).wait(500)
	assert.Equal(t, layout.Angle, h.snap().Mode)
	assert.Equal(t, link.Never, h.snap().Link)
}
