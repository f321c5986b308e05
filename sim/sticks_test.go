package sim_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Throttle low and yaw fully right, held, arms; throttle low and yaw fully left, held, disarms (common practice, no
// source). The dwells are ours.
func TestSticksArmAndDisarm(t *testing.T) {
	h := newHands(t, bySticks()).ready()
	h.move(chYaw, 2012).wait(800)
	assert.False(t, h.armed(), "the full dwell has not passed before the slot at 2900")
	h.wait(1)
	assert.True(t, h.armed())
	assert.Equal(t, []int64{2900}, h.times(happening.Armed))
	h.wait(3000)
	assert.Len(t, h.times(happening.Armed), 1, "one dwell gives one change")
	h.move(chYaw, 988).wait(400)
	at := h.b.Tick()
	assert.True(t, h.armed())
	h.wait(20)
	assert.False(t, h.armed())
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.BySticks, happening.Cause(d.A))
	assert.LessOrEqual(t, d.Tick-at, int64(20))
}

func TestFullyIsAt85PerCent(t *testing.T) {
	for us, arms := range map[float64]bool{1935.125: false, 1935.25: true, 2012: true} {
		h := newHands(t, bySticks()).ready().move(chYaw, us).wait(900)
		assert.Equal(t, arms, h.armed(), "yaw %v µs", us)
	}
}

// The throttle's minimum must go a little below 1000 µs or it neither arms nor disarms by sticks; then the travel is at
// fault (common practice, no source).
func TestThrottleThatEndsAt1003NeverArmsBySticks(t *testing.T) {
	h := newHands(t, bySticks()).move(chThrottle, 1003).ready()
	for range 4 {
		h.move(chYaw, 2012).wait(2000).move(chYaw, 1500).wait(200)
	}
	assert.Empty(t, h.times(happening.Armed))
	told := h.times(happening.TravelShort)
	assert.Len(t, told, 4, "called out once a visit")
	x, _ := h.last(happening.TravelShort)
	assert.Equal(t, int32(chThrottle), x.A)
	assert.Equal(t, pulse.Micros(1003), pulse.Width(x.B), "with the lowest value seen")
	assert.True(t, h.snap().Refusals.Has(arming.ThrottleUp))
}

func TestThrottleThatEndsAt1003NeverDisarmsBySticks(t *testing.T) {
	h := newHands(t, bySticks()).ready().move(chYaw, 2012).wait(900)
	require.True(t, h.armed())
	h.move(chThrottle, 1003).move(chYaw, 988).wait(5000)
	assert.True(t, h.armed())
}

func TestAStickThatReachedBeforeIsNotCalledShort(t *testing.T) {
	h := newHands(t, bySticks()).move(chYaw, 2012).wait(100).move(chYaw, 1500).ready()
	h.move(chYaw, 1900).wait(5000).move(chYaw, 1500).wait(100)
	h.move(chThrottle, 1015).move(chYaw, 2012).wait(5000)
	assert.Empty(t, h.times(happening.TravelShort), "both have been where they must go: the hand was short, not the travel")
}

func TestShortYawIsCalledOut(t *testing.T) {
	h := newHands(t, bySticks()).ready().move(chYaw, 1930).wait(3000)
	assert.False(t, h.armed())
	x, ok := h.last(happening.TravelShort)
	require.True(t, ok)
	assert.Equal(t, int32(chYaw), x.A)
	assert.Equal(t, pulse.Micros(1930), pulse.Width(x.B))
}

func TestDwellThatWasThereAtPowerUpIsSpent(t *testing.T) {
	h := newHands(t, bySticks()).move(chYaw, 2012).wait(6000)
	assert.Empty(t, h.times(happening.Armed))
	assert.Len(t, h.times(happening.Refused), 1, "one refusal is recorded per visit")
	h.move(chYaw, 1500).wait(40).move(chYaw, 2012).wait(900)
	assert.True(t, h.armed())
}

func TestDwellDuringARefusalIsSpent(t *testing.T) {
	h := newHands(t, bySticks()).ready()
	h.tell(pulse.Tilt, 450)
	h.move(chYaw, 2012).wait(300)
	h.tell(pulse.Tilt, 0)
	h.wait(5000)
	assert.False(t, h.armed(), "clearing the reason alone never arms")
	require.Len(t, h.times(happening.Refused), 1)
	r, _ := h.last(happening.Refused)
	assert.Equal(t, refusals(arming.OffFirst), arming.Set(r.A))
}

func TestRefusedBySticksTellsTheReasonOnly(t *testing.T) {
	h := newHands(t, bySticks()).ready()
	h.tell(pulse.Cable, 1)
	h.move(chYaw, 2012).wait(2000)
	require.Len(t, h.times(happening.Refused), 1)
	r, _ := h.last(happening.Refused)
	assert.Equal(t, refusals(arming.BeingSetUp), arming.Set(r.A))
	assert.Equal(t, refusals(arming.OffFirst, arming.BeingSetUp), h.snap().Refusals, "and now the corner must be left first")
}

// Noise at the edge of the corner never ends a spent dwell.
func TestNoiseAtTheEdge(t *testing.T) {
	h := newHands(t, bySticks()).move(chYaw, 2012).wait(3000) // spent: was there at power-up
	for i := range 200 {
		h.move(chThrottle, 990+float64(i%2)*29).move(chYaw, 1890+float64(i%2)*100).wait(20)
	}
	assert.Empty(t, h.times(happening.Armed), "throttle below 1020 and yaw beyond 75 %% is still the same visit")
	h.move(chThrottle, 988).move(chYaw, 2012).wait(3000)
	assert.Empty(t, h.times(happening.Armed), "standing in it again is no new visit")
	h.move(chThrottle, 1020).wait(20).move(chThrottle, 988).wait(900)
	assert.True(t, h.armed(), "throttle at 1020 has left the corner")
}

func TestLeavingByYawIsInside75PerCent(t *testing.T) {
	for us, left := range map[float64]bool{1884: false, 1883.875: true} {
		h := newHands(t, bySticks()).move(chYaw, 2012).wait(3000)
		h.move(chYaw, us).wait(20).move(chYaw, 2012).wait(900)
		assert.Equal(t, left, h.armed(), "yaw back to %v µs", us)
	}
}

func TestDwellAcrossALossIsSpent(t *testing.T) {
	h := newHands(t, bySticks()).ready().move(chYaw, 2012).wait(400)
	h.tell(pulse.Link, 0)
	h.wait(500)
	h.tell(pulse.Link, 1)
	h.wait(5000)
	assert.Empty(t, h.times(happening.Armed))

	h = newHands(t, hasty(bySticks())).wait(40).move(chYaw, 2012).wait(400)
	h.tell(pulse.Link, 0)
	h.wait(500)
	h.tell(pulse.Link, 1)
	h.wait(5000)
	assert.Empty(t, h.times(happening.Armed), "the latch alone keeps it, without any clean time")
}

// A craft that lies upside down must be disarmable: a disarming dwell needs nothing but valid frames, even before the
// clean time has passed.
func TestDisarmDwellBeforeTheCleanTime(t *testing.T) {
	cfg := bySticks()
	cfg.Arming.SinkSlots = 200
	h := newHands(t, cfg).ready().move(chYaw, 2012).wait(900)
	require.True(t, h.armed())
	h.move(chYaw, 1500).move(chThrottle, 1400).wait(100)
	h.tell(pulse.Link, 0)
	h.move(chThrottle, 988).wait(500)
	require.True(t, h.snap().Sinking)
	h.tell(pulse.Link, 1)
	h.tell(pulse.Tilt, 1750)
	h.move(chYaw, 988).wait(440)
	assert.False(t, h.armed())
	d, _ := h.last(happening.Disarmed)
	assert.Equal(t, happening.BySticks, happening.Cause(d.A))
	assert.Less(t, h.times(happening.Disarmed)[0]-h.times(happening.LinkBack)[1], int64(1200), "before the clean time")
}

func TestDisarmDwellBegunBeforeTheLossDoesNotCount(t *testing.T) {
	cfg := bySticks()
	cfg.Arming.SinkSlots = 200
	h := newHands(t, cfg).ready().move(chYaw, 2012).wait(900)
	h.move(chYaw, 988).wait(100).move(chThrottle, 1010).wait(100) // in the corner still, yet not low: it will sink
	h.tell(pulse.Link, 0)
	h.move(chThrottle, 988).wait(400)
	require.True(t, h.snap().Sinking)
	h.tell(pulse.Link, 1)
	h.wait(380)
	assert.True(t, h.armed(), "counted from the first frame after the loss")
	h.wait(60)
	assert.False(t, h.armed())
}
