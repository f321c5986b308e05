package mark_test

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/dsp/fourier"

	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

func config(axis mark.Axis, mode layout.Mode, seconds uint16) mark.Config {
	return mark.Config{Axis: axis, Mode: mode, RunIn: 4000, Seconds: seconds, Tenths: 300}
}

// No line is a whole multiple of another, each has whole periods, and a minute of it leaks into no other bin of a spectrum (gonum's): all that stands there
// stands at the lines. The seed turns them and leaves their sizes.
func TestAMarkIsItsLines(t *testing.T) {
	for _, seconds := range []uint16{30, 60, 75, 120} {
		periods := mark.Periods(int(seconds))
		at := map[int]int{}
		for i, k := range periods {
			at[k] = i
			for _, other := range periods[:i] {
				assert.NotZero(t, k%other, "%d is a multiple of %d", k, other)
			}
			assert.InDelta(t, 1, float64(k)/float64(seconds)/(float64(mark.Periods(60)[i])/60), 0.45, "each length asks for about the same")
		}
		cfg := config(mark.Roll, layout.Rate, seconds)
		var sizes [2][mark.Lines]float64
		for seed := range sizes {
			c := mark.New(&cfg, uint64(seed))
			x := make([]float64, int(seconds)*50)
			for i := range x {
				x[i] = c.At(int64(cfg.RunIn) + int64(i)*20)
			}
			sum := 0.0
			for k, z := range fourier.NewFFT(len(x)).Coefficients(nil, x) {
				size := 2 * cmplx.Abs(z) / float64(len(x))
				if i, line := at[k]; line {
					sizes[seed][i] = size
					sum += size
					assert.Greater(t, size, 0.0005)
					continue
				}
				assert.Less(t, size, 1e-12, "%d periods in %d s", k, seconds)
			}
			assert.InDelta(t, 30*math.Pi/180, sum, 1e-9, "it can never go further")
		}
		assert.InDeltaSlice(t, sizes[0][:], sizes[1][:], 1e-12)
		assert.IsDecreasing(t, sizes[0][:])
	}
	cfg := config(mark.Roll, layout.Rate, 60)
	a, b := mark.New(&cfg, 1), mark.New(&cfg, 2)
	assert.Greater(t, math.Abs(a.At(20_000)-b.At(20_000)), 1e-3, "no run is like another")
}

// It begins where the craft stands, and does not jump.
func TestAMarkBeginsGently(t *testing.T) {
	cfg := config(mark.Pitch, layout.Angle, 60)
	for seed := range uint64(10) {
		c := mark.New(&cfg, seed)
		assert.Zero(t, c.At(0))
		for tick := range int64(8000) {
			require.Less(t, math.Abs(c.At(tick+1)-c.At(tick)), 0.003, "2.5 rad/s of 30° is 1.3 mrad a tick")
		}
	}
}

// The ideal craft: in angle its bank is the stick's share of the limit; in rate it has turned by the stick curve's rate times the time; up is the stick's
// high end on every axis.
func TestTheIdealCraft(t *testing.T) {
	ctl := flight.DefaultControl()
	for _, axis := range []mark.Axis{mark.Roll, mark.Pitch, mark.Yaw} {
		for _, mode := range []layout.Mode{layout.Angle, layout.Rate} {
			cfg, asked := config(axis, mode, 60), 0.0
			for range 500 {
				asked = mark.Ideal(&cfg, &ctl, asked, 0.6)
			}
			full, e := 420.0, 0.25
			if axis == mark.Yaw {
				full, e = 260, 0.15
			}
			want := full * ((1-e)*0.6 + e*0.6*0.6*0.6) / 2 // half a second
			if mode == layout.Angle && axis != mark.Yaw {
				want = 0.6 * 40
			}
			assert.InDelta(t, want*math.Pi/180, asked, 1e-9, "axis %d mode %d", axis, mode)
		}
	}
}

// A run ends after its time, has a sample every 20 ms of what counts, and allocates nothing; what is beyond its end changes nothing.
func TestARunOfAMark(t *testing.T) {
	var r mark.Run
	r.Begin(config(mark.Yaw, layout.Rate, 30), 3)
	assert.EqualValues(t, 34_000, r.Config.Ticks())
	assert.Zero(t, testing.AllocsPerRun(100, func() { r.Step(0.1, 0.2, 0.3) }))
	for !r.Over() {
		r.Step(0.1, 0.2, 0.3)
	}
	assert.EqualValues(t, 34_000, r.Tick)
	assert.Equal(t, 1500, r.Record.N)
	assert.Equal(t, r.Mark-0.3, r.Off)
	assert.Equal(t, 0.2, r.Record.Asked[1499])
	assert.Equal(t, 0.1, r.Record.Stick[0])
	was := r.Record
	r.Step(1, 1, 1)
	assert.Equal(t, was, r.Record)
	assert.EqualValues(t, 34_000, r.Tick)
}
