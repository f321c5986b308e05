package live

import (
	"fmt"
	"hash/fnv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/threemodes"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// bodyDown is the third body axis.
var bodyDown = vec.V{Z: 1}

// flewAs is a digest of what a craft does in the air: body, motors, arming.
func flewAs(d []byte, s *sim.State) []byte {
	h := fnv.New64a()
	_, _ = h.Write(d)
	// Go prints floats so that they read back to the same bits.
	_, _ = fmt.Fprintf(h, "%v %v %v %v", s.Air, s.Motor, s.Slot.Arming, s.Flight)
	return h.Sum(nil)
}

// Each of the three flies, to the bit, as the pilot's own craft flies whose mode switch stands in that mode: held against three
// practices of their own with the same hands, and against the same readings given to a craft without a mode channel.
func TestThreeFlyAsAPlainRunOfEachMode(t *testing.T) {
	const asked, end = 2600, 7000
	var plain [threemodes.Number][]byte
	for m := range plain {
		b := newBench(t, func(o *Options) { o.Begin = outside() })
		b.opt.Listen = func(p *practice.Practice) {
			if s := p.Bench().State(); s.Tick > asked+1 {
				plain[m] = flewAs(plain[m], &s)
			}
		}
		b.flyHop(threemodes.Modes()[m])
		b.pass(end, 4000)
		require.Contains(t, b.codes(), happening.TookOff)
	}
	require.NotEqual(t, plain[0], plain[1])
	require.NotEqual(t, plain[1], plain[2])

	ears := &ear{}
	b := newBench(t, func(o *Options) { o.Begin, o.Take = outside(), ears })
	var trios [threemodes.Number][]byte
	var own []byte
	var states [][threemodes.Number]sim.State
	b.opt.Listen = func(p *practice.Practice) {
		s := p.Bench().State()
		if s.Tick > asked+1 {
			own = flewAs(own, &s)
		}
	}
	b.flyHop(layout.Horizon)
	b.pass(asked, 4000)
	require.True(t, b.snap().Armed)
	three := b.Begin(&threemodes.Crafts{})
	var last [threemodes.Number]sim.Snapshot
	assert.False(t, snapshots(three, last[:]))
	for b.snap().Tick < end {
		b.clock.run(1000)
		b.Turn()
		var at [threemodes.Number]sim.State
		require.True(t, three.Look(func(i int, p *practice.Practice) {
			at[i] = p.Bench().State()
			trios[i] = flewAs(trios[i], &at[i])
		}))
		states = append(states, at)
	}
	assert.Equal(t, plain, trios)
	assert.Equal(t, plain[layout.Horizon], own, "the pilot's own flies as if they were not there")

	require.True(t, snapshots(three, last[:]))
	for i := range last {
		assert.EqualValues(t, end, last[i].Tick)
		assert.Equal(t, layout.Mode(i), last[i].Mode)
		assert.Equal(t, states[len(states)-1][i].Air, last[i].Air)
		var m sim.Snapshot
		require.True(t, three.Craft(i).Moment(&m, 5000))
		assert.Equal(t, states[5000-asked-1][i].Air, m.Air)
		from, to, ok := three.Craft(i).Reach()
		assert.Equal(t, []any{int64(asked + PointTicks), int64(end), true}, []any{from, to, ok})
	}
	bank := func(s *sim.Snapshot) float64 { return s.Air.Body.Att.Turn(bodyDown).Z }
	assert.Greater(t, bank(&last[layout.Angle]), 0.999, "angle has come level by itself")
	assert.Less(t, bank(&last[layout.Rate]), 0.9, "rate has kept its bank")

	require.NoError(t, b.Loop.Close())
	for i := range trios {
		p := practice.New(threemodes.InMode(sim.Default(), threemodes.Modes()[i]))
		n := 0
		for tick := int64(0); tick <= end; tick++ {
			var rs []pulse.Reading
			for ; n < len(ears.heard) && ears.heard[n].tick == tick; n++ {
				rs = append(rs, ears.heard[n].Reading)
			}
			p.Step(rs)
			if tick > asked {
				require.True(t, p.Bench().State() == states[tick-asked-1][i], "mode %d, tick %d", i, tick)
			}
		}
	}
}

// snapshots fills dst with the crafts that go along, and reports false where none do.
func snapshots(b *Beside, dst []sim.Snapshot) bool {
	return b.Look(func(i int, p *practice.Practice) { p.Snapshot(&dst[i]) })
}

func TestThreeBeginInTheAirAndOnTheAirBenchOnly(t *testing.T) {
	b := newBench(t, func(o *Options) { o.Craft.Arming.OnlySelfLevelling = true })
	var s [threemodes.Number]sim.Snapshot
	three := b.Begin(&threemodes.Crafts{})
	b.pass(100, 4000)
	assert.False(t, snapshots(three, s[:]), "none on the desk bench")
	assert.Equal(t, []*Beside{three}, b.Companions())
	for _, r := range outside()[:2] {
		b.Desk().Put(r.Kind, r.Value)
	}
	b.flyHop(layout.Angle)
	b.pass(4800, 4000)
	require.True(t, snapshots(three, s[:]))
	own := b.snap()
	require.True(t, own.Air.Flying)
	for i := range s {
		assert.True(t, s[i].Armed, "rate too: they are there to be flown")
	}
	assert.NotEqual(t, s[layout.Angle].Air, s[layout.Rate].Air)
	var copied practice.Practice
	three.Craft(2).Copy(&copied)
	assert.Equal(t, s[2].Air, copied.Bench().State().Air, "a copy, to be asked what would be")
	three.End()
	three.End()
	assert.Empty(t, b.Companions())
	b.Turn()
	assert.False(t, snapshots(three, s[:]))
	_, _, ok := three.Craft(0).Reach()
	assert.False(t, ok)
	three = b.Begin(&threemodes.Crafts{})
	b.Turn()
	before := b.snap().Air
	b.clock.run(1000)
	b.Turn()
	require.True(t, snapshots(three, s[:]))
	for i := range s {
		assert.InDelta(t, before.Body.Pos.Z, s[i].Air.Body.Pos.Z, 0.01, "they begin where the pilot's own is")
		assert.True(t, s[i].Air.Flying)
	}
	b.UseCraft(sim.Default(), "")
	b.pass(20, 1000)
	from, to, ok := three.Craft(0).Reach()
	assert.True(t, ok && to-from <= 20, "another craft, and three like it")
	b.Desk().Put(pulse.Air, 0)
	b.pass(20, 1000)
	assert.False(t, snapshots(three, s[:]))
	b.UseCraft(sim.Default(), "")
	b.pass(20, 1000)
	_, _, ok = three.Craft(0).Reach()
	assert.False(t, ok)
}

// BenchmarkTurn is the cost of one millisecond in the air, alone and with the three: ticks of real time in one second of it.
func BenchmarkTurn(b *testing.B) {
	for _, c := range []struct {
		name  string
		air   bool
		three bool
	}{{"desk", false, false}, {"one in the air", true, false}, {"and three beside it", true, true}} {
		b.Run(c.name, func(b *testing.B) {
			clock, h := &fakeClock{now: started}, newHands()
			o := Options{Craft: sim.Default(), Clock: clock, Begin: begin()}
			if c.air {
				o.Begin = outside()
			}
			l := New(o)
			h.put(pulse.Reading{Kind: pulse.Plug, Value: 1})
			require.NoError(b, l.Use(Player{Source: h}))
			f := &bench{Loop: l, clock: clock, hands: h}
			f.flyHop(layout.Angle)
			f.pass(5000, 4000)
			var three *Beside
			if c.three {
				three = l.Begin(&threemodes.Crafts{})
			}
			f.pass(10, 1000)
			require.Equal(b, c.air, f.snap().Air.Flying)
			require.Equal(b, c.three, three != nil && three.Craft(0) != nil)
			b.ReportAllocs()
			for b.Loop() {
				clock.run(1000)
				l.Turn()
			}
			b.ReportMetric(float64(b.N)/1000/b.Elapsed().Seconds(), "times-real-time")
		})
	}
}
