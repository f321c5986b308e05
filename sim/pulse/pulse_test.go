package pulse_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"propsoff.example/sim/pulse"
)

// Source: a published 11-bit serial scale, µs = (x-992)*5/8 + 1500, here in exact arithmetic (its document truncates: 1811 would
// give 2011 and 988 would give 173).
func TestPublishedScale(t *testing.T) {
	for ticks, us := range map[int]float64{
		192: 1000, 992: 1500, 1792: 2000, // exact both ways
		0: 880, 172: 987.5, 191: 999.375, 1811: 2011.875, 2047: 2159.375,
	} {
		w := pulse.FromTicks(ticks)
		assert.Equal(t, us, float64(w)/pulse.Eighths, "%d ticks", ticks)
		assert.Equal(t, ticks, w.Ticks(), "%v µs", us)
	}
	// Rounded to nearest, 172 ↔ 988 and 1811 ↔ 2012 hold, as the same source's users expect.
	assert.Equal(t, 173, pulse.Micros(988).Ticks(), "988 µs is 172.8 ticks")
	assert.Equal(t, 1811, pulse.Micros(2012).Ticks(), "2012 µs is 1811.2 ticks")
}

func TestEveryTickStaysApart(t *testing.T) {
	last := pulse.Width(-1)
	for ticks := range 2048 {
		w := pulse.FromTicks(ticks)
		assert.Greater(t, w, last)
		assert.Equal(t, ticks, w.Ticks())
		assert.True(t, w.Valid(), "the whole published scale is a pulse")
		last = w
	}
}

// Rounding to nearest, a whole µs survives the way to ticks and back for all 1025 values from 988 to 2012.
func TestMicrosThroughTicksAndBack(t *testing.T) {
	for us := 988; us <= 2012; us++ {
		back := pulse.FromTicks(pulse.Micros(us).Ticks())
		assert.Equal(t, us, int(back+4)/pulse.Eighths, "%d µs", us)
	}
}

func TestValidEnds(t *testing.T) {
	for w, ok := range map[pulse.Width]bool{860*8 - 1: false, 860 * 8: true, 2180 * 8: true, 2180*8 + 1: false, pulse.Missing: false} {
		assert.Equal(t, ok, w.Valid(), "%d eighths", w)
	}
}

func TestPercentOfTravel(t *testing.T) {
	for tenths, us := range map[int]float64{-1000: 988, 0: 1500, 1000: 2012, 500: 1756, -750: 1116, 750: 1884} {
		assert.Equal(t, us, float64(pulse.Percent(tenths))/pulse.Eighths, "%d tenths of a percent", tenths)
	}
}

// "Fully" is at or beyond 85 % of travel, 1064.8 and 1935.2 µs: neither is a whole eighth.
func TestFullyIsTheFirstEighthBeyond(t *testing.T) {
	const high, low = 1500 + 0.85*512, 1500 - 0.85*512
	h, l := float64(pulse.FullyHigh)/8, float64(pulse.FullyLow)/8
	assert.True(t, h >= high && h-0.125 < high, "%v", h)
	assert.True(t, l <= low && l+0.125 > low, "%v", l)
}

func TestShownIsRoundedDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := pulse.Width(rapid.Int16().Draw(t, "eighths"))
		shown := w.Whole()
		if shown*8 > int(w) || (shown+1)*8 <= int(w) {
			t.Fatalf("%d eighths shown as %d", w, shown)
		}
	})
	assert.Equal(t, 999, pulse.Width(8*1000-1).Whole(), "a shown 999 is always low")
}

func TestThrottleFraction(t *testing.T) {
	for us, want := range map[int]int{988: 0, 1000: 0, 1180: 1440, 1500: 4000, 2000: 8000, 2012: 8000} {
		assert.Equal(t, want, pulse.Micros(us).ThrottleFraction(), "%d µs", us)
	}
	assert.Zero(t, pulse.Missing.ThrottleFraction())
}
