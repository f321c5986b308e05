package lossmap_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/pulse"
)

// falls is what comes of a craft whose motors stand already, dropped from a height above its feet.
func falls(cfg *sim.Config, height, wind float64) lossmap.Outcome {
	c, r := lossmap.Of(cfg), lossmap.React(cfg, pulse.Low)
	return lossmap.Fall(&c, &r, &lossmap.Point{Height: height + cfg.Body.HalfHeight, Throttle: pulse.Low, Wind: wind})
}

// In a vacuum v = √(2gh) after √(2h/g) (Galilei's law; any textbook).
func TestFreeFall(t *testing.T) {
	cfg := sim.Default()
	cfg.Body.Drag1, cfg.Body.Drag2, cfg.Body.RotorDrag = 0, 0, 0
	for _, h := range []float64{0.1, 1, 7, 50, 400} {
		o := falls(&cfg, h, 0)
		assert.InEpsilon(t, math.Sqrt(2*body.Gravity*h), o.Speed, 1e-9)
		assert.InEpsilon(t, math.Sqrt(2*h/body.Gravity), o.Down, 1e-9)
		assert.Zero(t, o.Turns, "its motors stood")
	}
}

// With drag by the square of speed alone v² = vₜ²·(1 − e^(−2gh/vₜ²)), v = vₜ·tanh(gt/vₜ), and vₜ² = mg/k (any textbook of mechanics).
func TestFallThroughAir(t *testing.T) {
	cfg := sim.Default()
	cfg.Body.Drag1, cfg.Body.RotorDrag = 0, 0
	g, last := body.Gravity, math.Sqrt(cfg.Body.Mass*body.Gravity/cfg.Body.Drag2)
	for _, h := range []float64{0.5, 3, 20, 90} {
		o := falls(&cfg, h, 0)
		assert.InEpsilon(t, last*math.Sqrt(1-math.Exp(-2*g*h/last/last)), o.Speed, 1e-7)
		assert.InEpsilon(t, last*math.Tanh(g*o.Down/last), o.Speed, 1e-7)
	}
	// With both kinds of drag it comes to where (k₁ + k₂·v)·v is its weight.
	cfg = sim.Default()
	o, b := falls(&cfg, 900, 0), &cfg.Body
	assert.InEpsilon(t, b.Mass*g, (b.Drag1+b.Drag2*o.Speed)*o.Speed, 1e-6)
}

// Without air, and with thrust that nothing changes, ½v² is ½v₀² and what gravity gives less what thrust takes over the height.
func TestEnergyBalances(t *testing.T) {
	cfg := sim.Default()
	b := &cfg.Body
	cfg.Link.OnLoss = 1 // it goes on as told
	b.Drag1, b.Drag2, b.RotorDrag, b.Idle, b.Pack = 0, 0, 0, 0, body.Pack{}
	throttle := pulse.Micros(1250)
	r, c := lossmap.React(&cfg, throttle), lossmap.Of(&cfg)
	command := 0.09 + 0.91*0.25
	lift := 4 * b.Thrust * b.FullSpeed * b.FullSpeed * command * command
	for _, climb := range []float64{-4, 0, 3} {
		o := lossmap.Fall(&c, &r, &lossmap.Point{Height: 20, Climb: climb, Throttle: throttle})
		down := 20 - b.HalfHeight
		assert.InEpsilon(t, climb*climb/2+(body.Gravity-lift/b.Mass)*down, o.Speed*o.Speed/2, 1e-7)
		assert.EqualValues(t, lossmap.Never, r.Cut)
	}
}

// A craft that drifts is never faster than the wind, and the longer it drifts the nearer it comes to that; in still air it stays where it was.
func TestWindCarriesNoFasterThanItBlows(t *testing.T) {
	for name, cfg := range crafts() {
		rapid.Check(t, func(rt *rapid.T) {
			p := lossmap.Point{Height: rapid.Float64Range(0.5, 300).Draw(rt, "height"), Climb: rapid.Float64Range(-5, 9).Draw(rt, "climb"),
				Throttle: pulse.Width(rapid.IntRange(990*8, 1300*8).Draw(rt, "throttle"))}
			c, r := lossmap.Of(&cfg), lossmap.React(&cfg, p.Throttle)
			still := lossmap.Fall(&c, &r, &p)
			p.Wind = rapid.Float64Range(0.5, 15).Draw(rt, "wind")
			o := lossmap.Fall(&c, &r, &p)
			if o.Down < 0 {
				return
			}
			// The mean grows by the logarithm of the height: 1.6 times that of 20 ft at 300 m (ln(h/z₀)/ln(20 ft/z₀), z₀ = 0.15 ft).
			most := p.Wind * math.Log(max(o.Top, 6.1)/(0.15*0.3048)) / math.Log(20/0.15)
			drift := math.Sqrt(max(o.Speed*o.Speed-o.Sinks*o.Sinks, 0))
			if still.Away != 0 || o.Away > most*o.Down || drift > most*1.0001 {
				rt.Fatalf("%s: %+v, still %+v", name, o, still)
			}
		})
	}
	// A long fall ends in the slow wind near the ground faster than that, and slower than where it came from: the wind of 3 m and of 300 m.
	cfg := sim.Default()
	long, share := falls(&cfg, 3000, 6), func(h float64) float64 { return math.Log(h/(0.15*0.3048)) / math.Log(20/0.15) }
	drift := math.Sqrt(long.Speed*long.Speed - long.Sinks*long.Sinks)
	assert.Greater(t, drift, 6*share(3))
	assert.Less(t, drift, 6*share(300))
}

// Where a craft cuts, more height is never softer, never sooner and never nearer; and no sheet tells of motors that turn after the cut.
func TestHigherIsNeverSofter(t *testing.T) {
	cfg := sim.Default()
	m := lossmap.New(&cfg, lossmap.Usual(&cfg), nil)
	require.Equal(t, 10_000, m.Points())
	require.False(t, m.Work(math.MaxInt))
	for i := range m.Points() {
		s := m.At(i)
		require.Equal(t, i, m.Index(s))
		o, ok := m.Outcome(s)
		require.True(t, ok)
		require.LessOrEqual(t, o.Turns, float64(m.Reactions[s.Throttle].Cut)/1000)
		if s.Height == 0 || s.Wind > 0 || m.Point(s).Throttle > hover.Throttle(&cfg) || m.Point(s).Climb > 0 {
			continue
		}
		s.Height--
		lower, _ := m.Outcome(s)
		require.Greater(t, o.Down, lower.Down)
		require.GreaterOrEqual(t, o.Speed, lower.Speed-1e-6, "%+v", m.Point(s))
	}
	worst, ok := m.Worst(lossmap.BySpeed, func(lossmap.Spot) bool { return true })
	require.True(t, ok)
	most, _ := m.Outcome(worst)
	for i := range m.Points() {
		o, _ := m.Outcome(m.At(i))
		require.LessOrEqual(t, o.Speed, most.Speed)
	}
}

// What the craft does on a lost link is what its file says, in its slots; a receiver that fills the gap leaves nothing to notice.
func TestReactions(t *testing.T) {
	all := crafts()
	react := func(name string, us int) lossmap.Reaction {
		cfg := all[name]
		return lossmap.React(&cfg, pulse.Micros(us))
	}
	cuts := react("cuts", 1400)
	assert.Equal(t, []int64{240, lossmap.Never, 240}, []int64{cuts.Lost, cuts.Sinks, cuts.Cut})
	sinks := react("sinks", 1400)
	assert.Equal(t, []int64{240, 240, 4240}, []int64{sinks.Lost, sinks.Sinks, sinks.Cut})
	low := react("sinks", 990)
	assert.Equal(t, []int64{lossmap.Never, 240}, []int64{low.Sinks, low.Cut}, "a low throttle cuts without sinking")
	hold := react("hold", 1400)
	assert.Equal(t, []int64{lossmap.Never, lossmap.Never}, []int64{hold.Lost, hold.Cut})
	assert.EqualValues(t, 20, react("stored off", 1400).Cut, "in the slot after the last frame")
	assert.EqualValues(t, 406, react("heavy and quick", 1400).Lost, "rounded up to slots of 7 ms")
	leans := all["stored"]
	leans.Link.Stored[leans.Layout.Roll] = pulse.Micros(1600)
	assert.False(t, lossmap.New(&leans, lossmap.Usual(&leans), nil).Level)
	assert.False(t, lossmap.New(&leans, lossmap.Usual(&leans), nil).Work(10))
	off := all["stored off"]
	off.Link.Stored[off.Layout.Roll] = pulse.Micros(1600)
	assert.True(t, lossmap.New(&off, lossmap.Usual(&off), nil).Level, "motors that stand bank nothing")
}

// A craft that is told to hover for ever flies until its pack is empty, and then comes down with it.
func TestHoldFliesUntilThePackIsEmpty(t *testing.T) {
	cfg := crafts()["hold"]
	c, r := lossmap.Of(&cfg), lossmap.React(&cfg, pulse.Micros(1450))
	o := lossmap.Fall(&c, &r, &lossmap.Point{Height: 10, Throttle: pulse.Micros(1450)})
	assert.Greater(t, o.Empty, 120.0)
	assert.Greater(t, o.Down, o.Empty)
	assert.Greater(t, o.Top, 100.0)
	assert.Equal(t, o.Down, o.Turns, "it breaks")
	cfg.Body.Pack = body.Pack{}
	c = lossmap.Of(&cfg)
	o = lossmap.Fall(&c, &r, &lossmap.Point{Height: 10, Throttle: pulse.Micros(1700)})
	assert.EqualValues(t, lossmap.Never, o.Down)
	assert.True(t, math.IsInf(lossmap.BySpeed.Of(&o), 1))
}

func BenchmarkMapOf10000(b *testing.B) {
	for _, name := range []string{"cuts", "sinks", "hold"} {
		cfg := crafts()[name]
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				m := lossmap.New(&cfg, lossmap.Usual(&cfg), nil)
				m.Work(math.MaxInt)
			}
		})
	}
}
