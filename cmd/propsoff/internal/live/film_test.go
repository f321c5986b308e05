package live

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// outside is begin on the air bench, with the right propellers fitted and checked.
func outside() []pulse.Reading {
	cfg := sim.Default()
	return append([]pulse.Reading{{Kind: pulse.Air, Value: 1}, {Kind: pulse.Propellers, Value: pulse.PropellersValue(cfg.Body.Hand, true)}}, begin()...)
}

// hands of a hop with every stick moved: throttle, roll, pitch, yaw in µs at times in ms from 2.6 s on.
var hop = []struct {
	at    int64
	stick [4]int
}{
	{2700, [4]int{1450, 1500, 1500, 1500}}, {3600, [4]int{1330, 1500, 1500, 1500}}, {4000, [4]int{1330, 1650, 1500, 1500}},
	{4400, [4]int{1330, 1500, 1500, 1500}}, {5000, [4]int{1350, 1500, 1400, 1500}}, {5300, [4]int{1330, 1500, 1500, 1700}}, {6500, [4]int{1330, 1500, 1500, 1500}},
}

// flyHop puts the hop into the hands, the mode switch standing as told all the time.
func (b *bench) flyHop(mode layout.Mode) {
	f := frame(988, false)
	craft := sim.Default()
	for _, w := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
		if craft.Layout.ModeAt(w) == mode {
			f[craft.Layout.Mode] = w
		}
	}
	b.hands.put(controls(1000, f))
	f[4] = pulse.High
	b.hands.put(controls(2500_000, f))
	for _, h := range hop {
		for i, us := range h.stick {
			f[i] = pulse.Micros(us)
		}
		b.hands.put(controls(h.at*1000, f))
	}
}

func TestFilmShowsEveryMomentOfTheLastThirtySeconds(t *testing.T) {
	b := newBench(t, func(o *Options) { o.Begin = outside() })
	seen := map[int64]sim.Snapshot{}
	b.opt.Listen = func(p *practice.Practice) {
		var s sim.Snapshot
		p.Snapshot(&s)
		seen[s.Tick] = s
	}
	_, _, ok := b.Reach()
	assert.False(t, ok, "nothing has run yet")
	assert.False(t, b.Moment(&sim.Snapshot{}, 0))
	b.flyHop(layout.Angle)
	b.pass(8000, 4000)
	check := func() {
		from, to, ok := b.Reach()
		require.True(t, ok)
		assert.Equal(t, b.snap().Tick/PointTicks*PointTicks, to)
		var s sim.Snapshot
		for tick := from; tick <= b.snap().Tick; tick++ {
			if !b.Moment(&s, tick) || s != seen[tick/PointTicks*PointTicks] {
				require.Equal(t, seen[tick/PointTicks*PointTicks], s, "tick %d", tick)
			}
		}
		require.True(t, b.Moment(&s, from-500))
		assert.Equal(t, from, s.Tick)
		require.True(t, b.Moment(&s, to+500))
		assert.Equal(t, to, s.Tick)
		next := from
		b.Moments(-1<<40, 1<<40, func(s *sim.Snapshot) {
			require.True(t, seen[next] == *s, "tick %d", next)
			next += PointTicks
		})
		assert.Equal(t, to+PointTicks, next)
		var part []int64
		b.Moments(to-25, to-5, func(s *sim.Snapshot) { part = append(part, s.Tick) })
		assert.Equal(t, []int64{to - 20, to - 10}, part)
		for _, pt := range b.Chart(nil) {
			s := seen[pt.Tick]
			require.Equal(t, pt, PointOf(&s))
		}
	}
	check()
	from, to, _ := b.Reach()
	assert.Equal(t, []int64{0, 8000}, []int64{from, to})
	assert.True(t, seen[6000].Air.Flying)
	b.pass(33_333, 40_000)
	check()
	from, to, _ = b.Reach()
	assert.EqualValues(t, FilmTicks, to-from)

	b.SetPace(Paused)
	b.pass(40_000, 4000)
	again, _, _ := b.Reach()
	assert.Equal(t, from, again, "a pause keeps it")
	var none *Seen
	assert.False(t, none.Moment(&sim.Snapshot{}, to))
	none.Moments(from, to, func(*sim.Snapshot) { t.Error("a craft that does not go along has no moments") })
}

// Of each moment the loop knows which craft stood on the bench, as far back as the film goes.
func TestTheCraftOfAMoment(t *testing.T) {
	b := newBench(t, func(*Options) {})
	b.Loop.KeepFilm()
	b.pass(300, 5000)
	first := b.CraftAt(0)
	b.UseCraft(craftOf("sinks"), "sinks")
	b.pass(300, 5000)
	_, last, ok := b.Reach()
	require.True(t, ok)
	assert.Equal(t, b.Craft(), b.CraftAt(last))
	assert.EqualValues(t, 30, b.CraftAt(last).Arming.SinkSlots)
	assert.Same(t, first, b.CraftAt(200))
	for range 3 {
		b.clock.run(2 * FilmTicks * 1000)
		b.Turn()
		b.UseCraft(craftOf(""), "")
		b.pass(10, 5000)
	}
	assert.Len(t, b.public.stood, 2, "only those that a film may show")
}
