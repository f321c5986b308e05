package hand

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/kernelrule"
)

const ms = time.Millisecond

// quiet is a made radio without noise.
func quiet(m fakeradio.Made) *fakeradio.Made {
	m.Noise = 0
	return &m
}

func run(t *testing.T, h *Hand, at time.Duration, moves ...Move) time.Duration {
	end, err := h.Begin(at, moves...)
	require.NoError(t, err)
	return end
}

// A stick goes up, stays, is let go; a throttle stays where it is left. Half the time is half the way.
func TestStickGoesToItsEndsAndBack(t *testing.T) {
	m := quiet(fakeradio.Leaning())
	h := New(m, 1)
	roll := func(at time.Duration) int32 { return h.Report(at).Axes[2] }
	assert.EqualValues(t, 2167, roll(0), "rests off centre")
	end := run(t, h, 100*ms, Move{"roll", High, 200 * ms, 50 * ms, false, 0}, Move{"roll", Low, 200 * ms, 50 * ms, false, 0}, Gone("roll"))
	assert.Equal(t, 100*ms+250*ms+250*ms+Back, end)
	assert.EqualValues(t, 2167, roll(100*ms))
	assert.EqualValues(t, (2167+4095)/2, roll(200*ms), "half way at half time")
	assert.EqualValues(t, 4095, roll(300*ms))
	assert.EqualValues(t, 4095, roll(349*ms))
	assert.InDelta(t, 4095.0/2, float64(roll(450*ms)), 1)
	assert.EqualValues(t, 0, roll(550*ms))
	assert.EqualValues(t, 2167, roll(end))

	thr := func(at time.Duration) int32 { return h.Report(at).Axes[0] }
	end = run(t, h, end, To("throttle", 250), Gone("throttle"))
	assert.EqualValues(t, 4095/4, thr(end), "no spring")
}

// The way is the curve of least jerk: 0, 1/2 and 1 at the ends and the middle, still at both ends, never back.
func TestWayIsSmooth(t *testing.T) {
	assert.Equal(t, [3]float64{0, 0.5, 1}, [3]float64{way(0), way(0.5), way(1)})
	assert.InDelta(t, 0.103515625, way(0.25), 1e-12, "10/64 − 15/256 + 6/1024")
	assert.Less(t, way(0.01), 1e-5)
	assert.Greater(t, way(0.99), 1-1e-5)
	for i := range 1000 {
		require.LessOrEqual(t, way(float64(i)/1000), way(float64(i+1)/1000))
	}
	assert.Equal(t, [2]float64{0, 1}, [2]float64{way(-1), way(2)})
}

// A row of buttons has none pressed on the way; a two-button switch presses none in its middle; a level switch runs over.
func TestSwitchesStandInTheirPlaces(t *testing.T) {
	keyed := quiet(fakeradio.Keyed())
	h := New(keyed, 1)
	pressed := func(at time.Duration) (out []int) {
		for b, on := range h.Report(at).Pressed {
			if on {
				out = append(out, b)
			}
		}
		return out
	}
	assert.Equal(t, []int{6, 10}, pressed(0), "the first places of two rows")
	run(t, h, 0, Through(keyed.Controls[5])...)
	assert.Equal(t, []int{10}, pressed(Snap/2))
	assert.Equal(t, []int{7, 10}, pressed(Snap))
	assert.Equal(t, []int{8, 10}, pressed(2*(Snap+Stop)))
	key, _ := keyed.Control("channel 8")
	run(t, h, time.Second, Through(key)...)
	assert.Equal(t, []int{0, 8, 10}, pressed(time.Second+Snap))
	assert.Equal(t, []int{8, 10}, pressed(2*time.Second))

	leaning := quiet(fakeradio.Leaning())
	h = New(leaning, 1)
	assert.Equal(t, []int{4}, pressed(0))
	end := run(t, h, 0, Move{Job: "mode", To: 1, Hold: Stop})
	assert.Empty(t, pressed(end))
	run(t, h, end, Move{Job: "mode", To: 0})
	end = run(t, h, 2*end, Move{Job: "mode", To: 0})
	assert.Equal(t, []int{4}, pressed(end-Snap/2), "it stands there already")
	end = run(t, h, end, Move{Job: "mode", To: 2}, Move{Job: "channel 7", To: 1, With: true})
	assert.Equal(t, []int{5}, pressed(end))
	assert.Equal(t, 0, h.Report(end).Hat)

	whole := quiet(fakeradio.Whole())
	h = New(whole, 1)
	six, _ := whole.Control("channel 7")
	at := time.Duration(0)
	for i, p := range six.Places {
		at = run(t, h, at, Move{Job: six.Job, To: Target(i), Hold: Stop})
		assert.Equal(t, p.Value, h.Report(at).Axes[6])
	}
}

// Two at once begin and end together; all four stand at their high ends in the corner, whichever way an axis runs.
func TestTogether(t *testing.T) {
	m := quiet(fakeradio.Turned())
	h := New(m, 1)
	end := run(t, h, 0, Corner()...)
	assert.Equal(t, Way, end)
	half, full := h.Report(end/2), h.Report(end)
	for _, job := range []string{"throttle", "yaw", "pitch", "roll"} {
		c, ok := m.Control(job)
		require.True(t, ok)
		assert.Equal(t, c.High, full.Axes[c.Axis], job)
		assert.InDelta(t, (float64(c.Rest)+float64(c.High))/2, float64(half.Axes[c.Axis]), 1, job)
	}
	end = run(t, h, end, OutOfCorner()...)
	for _, job := range []string{"throttle", "yaw", "pitch", "roll"} {
		c, _ := m.Control(job)
		assert.Equal(t, c.Rest, h.Report(end).Axes[c.Axis], job)
	}
}

func TestBeginRefusesWhatCannotBe(t *testing.T) {
	m := fakeradio.Short()
	h := New(&m, 1)
	for _, move := range []Move{{Job: "channel 9"}, {Job: "arm", To: 2}, {Job: "arm", To: LetGo}, {Job: "roll", To: 1001}, {Job: "roll", To: -2}} {
		_, err := h.Begin(0, move)
		assert.Error(t, err, "%+v", move)
	}
}

// The noise has the deviation that was made, mean 0, no memory, and never leaves the field.
func TestNoise(t *testing.T) {
	m := fakeradio.Restless()
	h := New(&m, 7)
	const n = 20000
	var sum, squares, neighbours, last float64
	for i := range n {
		r := h.Report(time.Duration(i) * 4 * ms)
		d := float64(r.Axes[1] - 1023)
		sum, squares, neighbours, last = sum+d, squares+d*d, neighbours+d*last, d
		require.GreaterOrEqual(t, r.Axes[0], int32(0))
	}
	assert.InDelta(t, 0, sum/n, 0.25, "four deviations of the mean")
	assert.InDelta(t, 8, math.Sqrt(squares/n), 0.2)
	assert.InDelta(t, 0, neighbours/squares, 0.03)
}

// Whatever is planned, a report fits its fields, and a hand that has done everything stands where it was sent.
func TestHandEndsWhereItWasSent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fleet := fakeradio.Fleet()
		m := quiet(fleet[rapid.IntRange(0, len(fleet)-1).Draw(t, "radio")])
		h := New(m, 3)
		at := time.Duration(0)
		for range rapid.IntRange(1, 5).Draw(t, "times") {
			c := m.Controls[rapid.IntRange(0, len(m.Controls)-1).Draw(t, "control")]
			most := int(High)
			if len(c.Places) > 0 {
				most = len(c.Places) - 1
			}
			to := Target(rapid.IntRange(0, most).Draw(t, "to"))
			end, err := h.Begin(at, Move{Job: c.Job, To: to, Over: Way})
			require.NoError(t, err)
			for ; at < end; at += 4 * ms {
				r := h.Report(at)
				for i, v := range r.Axes {
					lo, hi := m.Layout.AxisRange(i)
					require.True(t, lo <= v && v <= hi)
				}
			}
			if r := h.Report(end); c.Axis != fakeradio.Nothing {
				want := c.Low + int32((int64(c.High)-int64(c.Low))*int64(to)/1000)
				if len(c.Places) > 0 {
					want = c.Places[to].Value
				}
				require.Equal(t, want, r.Axes[c.Axis])
			}
			at = end
		}
	})
}

// The kernel's filter (drivers/input/input.c, fuzz 7) takes little from noise of 8 raw steps on 0 to 2047: what a program
// sees deviates by nearly as much, over time and over the events.
func TestNoiseThroughTheKernel(t *testing.T) {
	m := fakeradio.Restless()
	h := New(&m, 7)
	a := kernelrule.Joystick(0, 2047)
	var events, n, all float64
	old := int32(1023)
	const reports = 50000
	for i := range reports {
		v := a.Defuzz(h.Report(time.Duration(i) * 4 * ms).Axes[1], old)
		d := float64(v - 1023)
		if v != old {
			events, n = events+d*d, n+1
		}
		all += d * d
		old = v
	}
	assert.InDelta(t, 7.1, math.Sqrt(all/reports), 0.2)
	assert.InDelta(t, 7.6, math.Sqrt(events/n), 0.2)
}
