package stop_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/stop"
)

func teasel(t testing.TB) sim.Config {
	name, text, ok := assets.Craft("teasel")
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	return f.Config()
}

// Without drag and with motors that stand at once, what is left is a thrown stone: t = (v + √(v² + 2gh))/g, as in every textbook (from memory), from
// where a hand of 20 ms catches it.
func TestAFallIsThatOfAStone(t *testing.T) {
	cfg := teasel(t)
	cfg.Body.Drag1, cfg.Body.Drag2, cfg.Body.Lag = 0, 0, 0.01
	for _, m := range []stop.Moment{{Height: 5}, {Height: 8, Along: 4}, {Height: 3, Along: 2, Climb: 3}, {Height: 6, Climb: -1}} {
		o := stop.Curve(&cfg, m, []int64{20}, nil)[0]
		const g = body.Gravity
		h := m.Height - cfg.Body.HalfHeight + m.Climb*0.02
		fall := (m.Climb + math.Sqrt(m.Climb*m.Climb+2*g*h)) / g
		assert.InDelta(t, 20+fall*1000, o.Down, 45, "%+v: a slot passes before the craft hears of it", m)
		assert.InDelta(t, m.Along*float64(o.Down)/1000, o.Goes, 0.05*m.Along+0.02, "%+v", m)
		assert.InDelta(t, math.Sqrt(m.Climb*m.Climb+2*g*h), o.Touch, 0.5, "%+v", m)
	}
}

// The motors stand within a slot of the hand, whatever the craft does; by sticks the corner is to be held first.
func TestTheMotorsStandWithinASlotOfTheHand(t *testing.T) {
	cfg := teasel(t)
	for n := range 12 {
		m := stop.At(n)
		for i, o := range stop.Curve(&cfg, m, stop.Reactions[:], nil) {
			if r := stop.Reactions[i]; o.Down > r {
				assert.Positive(t, o.Stands-r, "%+v", m)
				assert.LessOrEqual(t, o.Stands-r, int64(cfg.SlotTicks)+1, "%+v", m)
			}
			assert.Positive(t, o.Down)
		}
	}
	cfg.Arming.By, cfg.Layout.Arm = arming.BySticks, layout.NoChannel
	cfg.Link.Needed = cfg.Layout.Needed()
	o := stop.Curve(&cfg, stop.Moment{Height: 30}, []int64{400}, nil)[0]
	assert.InDelta(t, 400+float64(cfg.Arming.DisarmDwell)*float64(cfg.SlotTicks), o.Stands, 2*float64(cfg.SlotTicks))
}

// One run for all reactions comes to the same as one for each.
func TestACurveIsItsPoints(t *testing.T) {
	cfg := teasel(t)
	for n := range 6 {
		m := stop.At(n)
		all := stop.Curve(&cfg, m, stop.Reactions[:], nil)
		for i, r := range stop.Reactions {
			assert.Equal(t, stop.Curve(&cfg, m, []int64{r}, nil)[0], all[i], "%+v, %d ms", m, r)
		}
	}
}

// What the search finds is not beaten by any of many random moments.
func TestNothingIsWorseThanTheWorst(t *testing.T) {
	cfg := teasel(t)
	began := time.Now()
	s := stop.Begin()
	rounds := 0
	for s.Seek(&cfg, 600) {
		rounds++
	}
	t.Logf("%d rounds in %v: %+v %+v", rounds, time.Since(began), s.Best, s.Out)
	third := stop.Between(0.5, 1./3, 0.2, 1./7)
	assert.Equal(t, third, stop.At(0), "1/2, 1/3, 1/5, 1/7")
	for n := range 200 {
		m := stop.At(n)
		o := stop.Curve(&cfg, m, []int64{600}, nil)[0]
		assert.LessOrEqual(t, o.Goes, s.Out.Goes+1e-9, "%+v", m)
	}
	again := stop.Curve(&cfg, s.Best, []int64{600}, nil)[0]
	assert.Equal(t, s.Out, again)
}
