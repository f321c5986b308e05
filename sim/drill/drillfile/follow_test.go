package drillfile_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// eye is a made operator's: what it saw, and where its hand holds the stick. Its gain in rad/s and delay in ms are those of the pupil where they are
// not said.
type eye struct {
	gain  float64
	delay int64
	seen  [1000]float64
	held  float64
	from  int64 // the tick since which it sees a mark
	noise stream
}

// stream is a made tremor: the sum of so many numbers of a plain generator.
type stream uint64

func (s *stream) next() (sum float64) {
	for range 12 { // their sum is nearly normal, with variance 1
		*s = *s*6364136223846793005 + 1442695040888963407
		sum += float64(*s>>11)/(1<<53) - 0.5
	}
	return sum
}

// followMark moves the stick by how far off the craft was a delay ago: in angle as fast as that says, in rate so far that the craft turns so fast.
func (q *pupil) followMark() {
	l, e := q.l, &q.eye
	m, ctl := &l.off.Run.Config, &l.p.Bench().Config().Control
	if e.from != l.s.Given {
		e.from, e.held = l.s.Given, 0
		e.seen = [1000]float64{}
	}
	if e.gain == 0 {
		e.gain, e.delay = 3, q.delay
	}
	e.seen[l.in.Tick%1000] = l.off.Run.Off
	asks := e.gain * e.seen[(l.in.Tick-e.delay+1+1000)%1000] // what is done now is seen by the bench in the next tick
	own := 0.004 * e.noise.next()
	x := 0.0
	if m.Mode == layout.Angle && m.Axis != mark.Yaw {
		e.held += asks / ctl.BankLimit * 0.001
		x = e.held
	} else {
		c := ctl.Curve[m.Axis-mark.Roll]
		for range 8 {
			x -= (c.Rate(x) - asks) / (c.Full * (1 - c.Exponential + 3*c.Exponential*x*x))
		}
	}
	w := pulse.Centre + pulse.Width(math.Round(min(max(x+own, -1), 1)*float64(pulse.Travel)))
	lay := l.layout()
	l.move([...]int8{mark.Roll: lay.Roll, mark.Pitch: lay.Pitch, mark.Yaw: lay.Yaw}[m.Axis], w)
}

// The shipped marks find made operators again through sticks, receiver and drill within 5 % and 20 ms, in each stick mode, and tell axis and mode.
func TestMarksFindMadeOperatorsAgain(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	marks := 0
	for _, d := range drills {
		if !d.Config.Cases[0].Mark.On() {
			continue
		}
		made := [...]eye{{gain: 2, delay: 400}, {gain: 3, delay: 300}, {gain: 4, delay: 200}, {gain: 5, delay: 150}}
		for mode := uint8(1); mode <= 4; mode++ {
			e := made[(int(mode)+marks)%len(made)]
			l := run(t, d, mode, pupil{delay: 200, eye: e}, uint64(mode), nil)
			require.Len(t, l.tries, 1, d.Config.Code)
			h := l.tries[0].Hand
			assert.Equal(t, drill.Right, l.tries[0].Verdict)
			assert.True(t, h.Measured)
			assert.InDelta(t, e.delay, h.DelayMS, 20, "%s in stick mode %d", d.Config.Code, mode)
			assert.InDelta(t, 1, float64(h.Crossover)/1000/e.gain, 0.05, "%s in stick mode %d", d.Config.Code, mode)
			assert.Equal(t, d.Config.Cases[0].Mark.Axis, h.Axis)
			assert.Equal(t, d.Config.Cases[0].Mark.Mode, h.Mode)
		}
		marks++
	}
	assert.Equal(t, 5, marks)
}

// The mark never leads a hand to the end of the stick: what a perfect follower asks for fits into its travel.
func TestMarksCanBeFollowed(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", known(t))
	require.NoError(t, err)
	ctl := flight.DefaultControl()
	for _, d := range drills {
		m := d.Config.Cases[0].Mark
		if !m.On() {
			continue
		}
		limit := ctl.BankLimit
		if m.Mode == layout.Rate {
			limit = ctl.Curve[m.Axis-mark.Roll].Full
		}
		for seed := range uint64(4) {
			c := mark.New(&m, seed)
			for tick := int64(0); tick < m.Ticks(); tick += 7 {
				asks := c.At(tick)
				if m.Mode == layout.Rate {
					asks = (c.At(tick+1) - asks) * 1000
				}
				require.LessOrEqual(t, math.Abs(asks), 0.85*limit, d.Config.Code)
			}
		}
	}
}
