package sim_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

func armedHands(t testing.TB, cfg sim.Config) *hands {
	h := newHands(t, cfg).ready().move(chArm, 2012).wait(40)
	require.True(t, h.armed())
	return h
}

// The test every pilot does before the first flight: turn the radio off and see the craft notice (common practice, no
// source). The limits are ours.
func TestSilentReceiverCuts(t *testing.T) {
	h := armedHands(t, sim.Default()).move(chThrottle, 1500).wait(60) // tick 2200
	h.tell(pulse.Link, 0)
	h.wait(220) // last frame at 2180; the slot at 2420 is 240 ms later
	assert.True(t, h.armed())
	h.wait(1)
	assert.False(t, h.armed(), "240 ms since the last valid frame")
	assert.Equal(t, []int64{2420}, h.times(happening.LinkLost))
	l, _ := h.last(happening.LinkLost)
	assert.Equal(t, int32(240), l.A)
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.ByLinkLoss, happening.Cause(d.A))
	assert.Equal(t, [flight.Motors]uint16{}, h.snap().Motor)
}

func TestUnpluggedCableIsALostLink(t *testing.T) {
	h := armedHands(t, sim.Default())
	h.tell(pulse.Plug, 0)
	h.wait(300)
	assert.False(t, h.armed())
	assert.Equal(t, link.Lost, h.snap().Link)
}

func TestAStillHandIsNotSilence(t *testing.T) {
	h := armedHands(t, sim.Default()).wait(60_000) // not one new reading for a minute
	assert.True(t, h.armed())
	assert.Equal(t, link.Good, h.snap().Link)
}

func TestCleanTime(t *testing.T) {
	h := newHands(t, sim.Default()).ready()
	h.tell(pulse.Link, 0)
	h.wait(1000)
	h.tell(pulse.Link, 1)
	h.wait(1200)
	assert.Equal(t, refusals(arming.LinkTooFresh), h.snap().Refusals)
	h.wait(1)
	assert.Zero(t, h.snap().Refusals)
	back, clean := h.times(happening.LinkBack), h.times(happening.LinkClean)
	assert.Equal(t, int64(1200), clean[1]-back[1])
}

func TestCleanTimeStartsAfreshAfterOneBadSlot(t *testing.T) {
	h := newHands(t, sim.Default()).ready()
	h.tell(pulse.Link, 0)
	h.wait(1000)
	h.tell(pulse.Link, 1)
	h.wait(1000)
	h.move(chRoll, 0).wait(20).move(chRoll, 1500).wait(1100)
	assert.Equal(t, link.Fresh, h.snap().Link)
	h.wait(140)
	assert.Equal(t, link.Good, h.snap().Link)
}

func TestALinkThatComesBackNeverArms(t *testing.T) {
	h := armedHands(t, sim.Default())
	h.tell(pulse.Link, 0)
	h.wait(1000)
	h.tell(pulse.Link, 1)
	h.wait(10_000)
	assert.False(t, h.armed())
	assert.Equal(t, refusals(arming.OffFirst), h.snap().Refusals)
	h.move(chArm, 988).wait(20).move(chArm, 2012).wait(20)
	assert.True(t, h.armed())
}

func TestSwitchOnDuringTheCleanTimeIsRefused(t *testing.T) {
	h := newHands(t, sim.Default()).ready()
	h.tell(pulse.Link, 0)
	h.wait(1000)
	h.tell(pulse.Link, 1)
	h.wait(600).move(chArm, 2012).wait(3000)
	assert.False(t, h.armed())
	r, ok := h.last(happening.Refused)
	require.True(t, ok)
	assert.Equal(t, refusals(arming.OffFirst, arming.LinkTooFresh), arming.Set(r.A))
}

func TestHoldHidesTheLoss(t *testing.T) {
	cfg := sim.Default()
	cfg.Link.OnLoss = link.RepeatsLast
	h := armedHands(t, cfg).move(chThrottle, 1400).wait(40)
	before := h.snap().Motor
	h.tell(pulse.Link, 0)
	h.wait(60_000)
	s := h.snap()
	assert.True(t, s.Armed, "the danger that must be shown: the craft cannot know")
	assert.Equal(t, before, s.Motor)
	assert.Equal(t, link.Good, s.Link)
}

func TestStoredValues(t *testing.T) {
	cfg := sim.Default()
	cfg.Link.OnLoss = link.SendsStored
	cfg.Link.Stored = pulse.Frame{pulse.Micros(988), pulse.Centre, pulse.Centre, pulse.Centre, pulse.Micros(988)}
	h := armedHands(t, cfg).move(chThrottle, 1400).wait(40)
	h.tell(pulse.Link, 0)
	h.wait(40)
	assert.False(t, h.armed(), "stored arm channel off disarms in the slot after the last frame")
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.ByStored, happening.Cause(d.A), "no hand moved the switch")

	cfg.Arming.SinkSlots = 200
	h = armedHands(t, cfg).move(chThrottle, 1400).wait(40)
	h.tell(pulse.Link, 0)
	h.wait(40)
	assert.False(t, h.armed(), "and where the craft would sink on a lost link too: it never does")
	assert.Empty(t, h.times(happening.Sinking))

	cfg.Link.Stored[4] = pulse.Micros(2012)
	h = armedHands(t, cfg)
	h.tell(pulse.Link, 0)
	h.wait(30_000)
	assert.True(t, h.armed(), "a preset that keeps the arm channel in its span keeps the craft armed")

	// Stored values that say arm on, with the switch off: once the throttle is low nothing refuses, and no hand has moved.
	cfg.Link.Stored[5] = pulse.Low
	h = newHands(t, cfg).ready()
	h.tell(pulse.Link, 0)
	h.wait(40)
	require.True(t, h.armed())
	a, _ := h.last(happening.Armed)
	assert.Equal(t, link.FromStore, link.Origin(a.A))
}

// The disarm corner held when the radio goes silent, and held on by the receiver alone.
func TestRepeatedAndStoredCornersDisarmByTheReceiver(t *testing.T) {
	for way, want := range map[link.OnLoss]happening.Cause{link.RepeatsLast: happening.ByRepeated, link.SendsStored: happening.ByStored} {
		cfg := bySticks()
		cfg.Link.OnLoss = way
		cfg.Link.Stored = pulse.Frame{pulse.Micros(988), pulse.Centre, pulse.Centre, pulse.Micros(988)}
		h := newHands(t, cfg).ready().move(chYaw, 2012).wait(900)
		require.True(t, h.armed())
		a, _ := h.last(happening.Armed)
		assert.Equal(t, link.FromRadio, link.Origin(a.A))
		h.move(chYaw, 988).wait(100)
		h.tell(pulse.Link, 0)
		h.move(chYaw, 1500).wait(420)
		assert.False(t, h.armed(), "the hand has left the corner, the receiver has not")
		d, _ := h.last(happening.Disarmed)
		assert.Equal(t, want, happening.Cause(d.A))
	}
}

func TestHoldAndPresetSendNothingBeforeTheRadioWasHeard(t *testing.T) {
	for _, way := range []link.OnLoss{link.RepeatsLast, link.SendsStored} {
		cfg := sim.Default()
		cfg.Link.OnLoss = way
		cfg.Link.Stored = pulse.Frame{pulse.Micros(988), pulse.Centre, pulse.Centre, pulse.Centre, pulse.Micros(988)}
		h := newHands(t, cfg)
		h.tell(pulse.Link, 0)
		h.wait(2000)
		assert.Equal(t, link.Never, h.snap().Link)
		assert.False(t, h.snap().Receiving)
		h.tell(pulse.Link, 1)
		h.wait(20)
		h.tell(pulse.Link, 0)
		h.wait(3000)
		assert.Equal(t, link.Good, h.snap().Link, "heard once, it goes on by itself")
		h.tell(pulse.Power, 0)
		h.wait(10)
		h.tell(pulse.Power, 1)
		h.wait(1000)
		assert.Equal(t, link.Never, h.snap().Link, "a receiver that lost power has heard nothing")
	}
}

func sinking() sim.Config {
	cfg := sim.Default()
	cfg.Arming.SinkSlots = 200 // 4 s
	return cfg
}

// The motors of a sinking craft carry 90 % of its weight: four of them k·ω² each, ω a share of full speed at the pack's voltage over the
// nominal one (behaviour.md 3; the numbers of the craft file, not its code).
func TestSinkCarriesAShareOfTheWeightThenCuts(t *testing.T) {
	carries := func(volts float64) float64 {
		const mass, thrust, g0, nominal = 0.45, 6.55, 9.80665, 14.8 // thrust of one motor at full speed and nominal voltage, N
		return math.Sqrt(0.9*mass*g0/(4*thrust)) * nominal / volts
	}
	h := armedHands(t, sinking()).move(chThrottle, 1600).wait(60)
	h.tell(pulse.Link, 0)
	h.wait(300)
	require.True(t, h.snap().Sinking)
	start := h.times(happening.Sinking)[0]
	speed := func() float64 { return float64(h.snap().Motor[0]) / flight.FullSpeed }
	assert.InDelta(t, carries(14.8), speed(), 0.0002, "from the first slot")
	h.tell(pulse.Pack, 12_000)
	h.wait(1000)
	assert.InDelta(t, carries(12), speed(), 0.0002, "a pack that has less makes them be asked for more")
	h.tell(pulse.Pack, 0)
	for h.b.Tick() <= start+3999 {
		h.wait(1)
	}
	assert.True(t, h.snap().Sinking)
	assert.InDelta(t, carries(14.8), speed(), 0.0002, "to the last")
	h.wait(2)
	assert.False(t, h.armed())
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.BySinkEnd, happening.Cause(d.A))
	assert.Equal(t, start+4000, d.Tick, "the full sinking time, not a slot more")
}

func TestSinkNeverAsksForMoreThanTheThrottleDid(t *testing.T) {
	h := armedHands(t, sinking()).move(chThrottle, 1100).wait(60)
	was := h.snap().Motor
	h.tell(pulse.Link, 0)
	h.wait(3000)
	require.True(t, h.snap().Sinking)
	assert.Equal(t, was, h.snap().Motor)
}

// A craft that stands with its throttle low must not start: it cuts, however it is set.
func TestLowThrottleAtTheLossCuts(t *testing.T) {
	for us, sinks := range map[float64]bool{988: false, 999.875: false, 1000: true, 1500: true} {
		h := armedHands(t, sinking()).move(chMode, 1500).move(chThrottle, 1500).wait(40).move(chThrottle, us).wait(40)
		h.tell(pulse.Link, 0)
		h.wait(300)
		assert.Equal(t, sinks, h.snap().Sinking, "%v µs", us)
		assert.Equal(t, sinks, h.armed(), "%v µs", us)
		if d, ok := h.last(happening.Disarmed); !sinks {
			require.True(t, ok)
			assert.Equal(t, happening.ByLinkLoss, happening.Cause(d.A))
			assert.Zero(t, h.snap().Motor[0])
		}
	}
}

// What counts is the last valid frame, and the throttle is caught once: a second loss before the clean time catches nothing.
func TestTheThrottleIsCaughtOnce(t *testing.T) {
	h := armedHands(t, sinking()).move(chThrottle, 1600).wait(60)
	h.move(chRoll, 0).move(chThrottle, 988).wait(60) // frames that are not valid count for nothing
	h.tell(pulse.Link, 0)
	h.wait(300)
	require.True(t, h.snap().Sinking)
	was := h.snap().Motor
	h.move(chRoll, 1500)
	h.tell(pulse.Link, 1)
	h.wait(200) // back, throttle low, clean time not yet passed
	h.tell(pulse.Link, 0)
	h.wait(400)
	assert.True(t, h.snap().Sinking, "a second loss neither cuts nor begins anew")
	assert.Equal(t, was, h.snap().Motor)
	assert.Len(t, h.times(happening.Sinking), 1)
}

func TestLinkBackWhileSinking(t *testing.T) {
	h := armedHands(t, sinking()).move(chThrottle, 1600).wait(60)
	h.tell(pulse.Link, 0)
	h.wait(1000)
	h.tell(pulse.Link, 1)
	h.wait(1000)
	assert.True(t, h.snap().Sinking, "sinking goes on until the clean time has passed")
	h.wait(250)
	s := h.snap()
	assert.True(t, s.Armed)
	assert.False(t, s.Sinking)
	e, ok := h.last(happening.SinkEnded)
	require.True(t, ok)
	assert.Equal(t, int32(e.Tick-h.times(happening.Sinking)[0]), e.A)
	assert.InDelta(t, 0.09+0.91*0.6, float64(s.Motor[0])/flight.FullSpeed, 0.001, "the pilot has control again")
	h.move(chArm, 988).wait(20)
	assert.False(t, h.armed())
}

func TestLinkBackTooLateWhileSinking(t *testing.T) {
	h := armedHands(t, sinking()).move(chThrottle, 1600).wait(60)
	h.tell(pulse.Link, 0)
	h.wait(3500)
	h.tell(pulse.Link, 1)
	h.wait(1500)
	assert.False(t, h.armed())
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.BySinkEnd, happening.Cause(d.A))
	h.wait(10_000)
	assert.False(t, h.armed(), "after a cut nothing comes back by itself")
}

func TestFirstFrameWithArmOffWhileSinkingDisarms(t *testing.T) {
	h := armedHands(t, sinking()).move(chThrottle, 1600).wait(60)
	h.tell(pulse.Link, 0)
	h.wait(1000)
	require.True(t, h.snap().Sinking)
	h.move(chArm, 988)
	h.tell(pulse.Link, 1)
	h.wait(20)
	assert.False(t, h.armed())
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.BySwitch, happening.Cause(d.A))
}

func TestSlotsCountFromPowerUp(t *testing.T) {
	h := newHands(t, sim.Default())
	h.tell(pulse.Power, 0)
	h.wait(7)
	h.tell(pulse.Power, 1) // power at tick 7: slots at 7, 27, 47 …
	h.wait(1)
	assert.Equal(t, []int64{7}, h.times(happening.LinkBack))
	h.wait(1999)
	h.move(chArm, 2012).wait(40)
	assert.Equal(t, int64(0), (h.times(happening.Armed)[0]-7)%20)
}

func TestLimitsAreRoundedUpToSlots(t *testing.T) {
	for _, c := range []struct {
		ms   int
		slot uint16
		want uint16
	}{{240, 20, 12}, {241, 20, 13}, {240, 50, 5}, {1200, 7, 172}, {0, 20, 0}, {1, 4, 1}} {
		assert.Equal(t, c.want, sim.Slots(c.ms, c.slot), "%d ms in slots of %d", c.ms, c.slot)
	}
}

func TestMotors(t *testing.T) {
	share := func(h *hands) float64 { return float64(h.snap().Motor[3]) / flight.FullSpeed }

	h := newHands(t, sim.Default()).ready()
	assert.Zero(t, share(h), "disarmed")
	h.move(chThrottle, 988).move(chArm, 2012).wait(40)
	assert.Zero(t, share(h), "motor stop: still at low throttle")
	h.move(chThrottle, 1100).wait(20)
	assert.InDelta(t, 0.09+0.91*0.1, share(h), 1e-4)
	h.move(chThrottle, 2100).wait(20)
	assert.InDelta(t, 1, share(h), 1e-9, "fraction is kept within 1")
	h.move(chThrottle, 988).wait(20)
	assert.Zero(t, share(h), "angle: air mode is off, so the motors stop")
	h.move(chMode, 1500).wait(20)
	assert.InDelta(t, 0.09, share(h), 1e-9, "air mode woke: throttle has passed 18 %% and horizon has it")
	assert.Len(t, h.times(happening.AirMode), 1)
	h.move(chMode, 988).wait(200)
	assert.InDelta(t, 0.09, share(h), 1e-9, "once awake it stays until disarmed")
	h.move(chArm, 988).wait(20).move(chArm, 2012).wait(20)
	assert.Zero(t, share(h))

	cfg := sim.Default()
	cfg.Flight.AtLowThrottle = flight.Idle
	h = newHands(t, cfg).ready().move(chArm, 2012).wait(20)
	assert.InDelta(t, 0.09, share(h), 1e-9, "idle from the moment of arming")
}

func TestAirModeWakesOnlyAboveItsMark(t *testing.T) {
	h := armedHands(t, sim.Default()).move(chMode, 1500).move(chThrottle, 1180).wait(500).move(chThrottle, 988).wait(40)
	assert.Empty(t, h.times(happening.AirMode), "18 %% reached, not passed")
	h.move(chThrottle, 1180.125).wait(40)
	assert.Len(t, h.times(happening.AirMode), 1)
}
