package live

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// losing are the three receivers that go along.
type losing struct {
	*Beside
	c *lossrun.Companion
}

func (b *bench) lose(stored lossrun.Stored) *losing {
	c := &lossrun.Companion{Wanted: stored}
	return &losing{b.Begin(c), c}
}

func (l *losing) see(dst *lossrun.Now) bool {
	return l.Look(func(i int, p *practice.Practice) { l.c.See(dst, i, p) })
}

// The three go with the pilot's own, on the desk bench too, and act on nothing: the pilot's own comes out as without them.
func TestThreeReceiversBesideThePilotsOwn(t *testing.T) {
	digest := func(with bool) uint64 {
		b := newBench(t, func(o *Options) { o.Begin = outside() })
		b.flyHop(layout.Angle)
		b.pass(4500, 4000)
		var three *losing
		if with {
			three = b.lose(lossrun.Disarming)
		}
		b.pass(50, 4000)
		var l lossrun.Now
		require.Equal(t, with, with && three.see(&l))
		if with {
			own := b.snap()
			for i := range l.Snap {
				assert.Equal(t, own.Air, l.Snap[i].Air, "%d", i)
				assert.Equal(t, own.Tick, l.Snap[i].Tick)
			}
		}
		b.Desk().Put(pulse.Link, 0)
		b.pass(1000, 4000)
		if with {
			require.True(t, three.see(&l))
			assert.Equal(t, [3]bool{false, true, false}, [3]bool{l.Snap[0].Armed, l.Snap[1].Armed, l.Snap[2].Armed})
			for i := range l.Snap { // its happenings are read as those of the pilot's own are
				all, next := three.Craft(i).Happenings(nil, 0)
				assert.EqualValues(t, len(all), next)
				disarmed := slices.ContainsFunc(all, func(h happening.Happening) bool { return h.Code == happening.Disarmed })
				assert.Equal(t, !l.Snap[i].Armed, disarmed, "%d", i)
			}
			assert.Equal(t, l.Run[0].Last+240, l.Run[0].Lost)
			assert.Equal(t, l.Run[2].Last+20, l.Run[2].Disarmed)
			for i := range l.Snap {
				from, to, ok := three.Craft(i).Reach()
				assert.True(t, ok && to > from)
			}
			three.Do(func() { three.c.Anew = true })
			b.Turn()
			require.True(t, three.see(&l))
			assert.Equal(t, lossrun.Waiting, l.Run[0].Phase)
			three.End()
			b.Turn()
			assert.False(t, three.see(&l))
			_, _, ok := three.Craft(1).Reach()
			assert.False(t, ok)
		}
		b.pass(500, 4000)
		_, d := b.Digest()
		return d
	}
	assert.Equal(t, digest(false), digest(true))
}

func TestOtherValuesAreStoredOnceTheRadioIsHeard(t *testing.T) {
	b := newBench(t, nil)
	three := b.lose(lossrun.Disarming)
	b.pass(100, 4000)
	var l lossrun.Now
	require.True(t, three.see(&l))
	b.Desk().Put(pulse.Link, 1)
	b.Desk().Put(pulse.Power, 1)
	b.pass(1000, 4000)
	b.Desk().Put(pulse.Link, 0)
	b.pass(300, 4000)
	three.Do(func() { three.c.Wanted = lossrun.ArmedLow })
	b.pass(20, 4000)
	require.True(t, three.see(&l))
	if l.Run[2].Phase == lossrun.Off {
		assert.Equal(t, lossrun.Disarming, three.c.Stored())
	}
	b.Desk().Put(pulse.Link, 1)
	b.pass(100, 4000)
	assert.Equal(t, lossrun.ArmedLow, three.c.Stored())
	// Another craft on the bench begins the three anew.
	was := three.Craft(0)
	b.UseCraft(sim.Default(), "")
	b.Turn()
	require.NotNil(t, was)
	assert.NotSame(t, was, three.Craft(0))
}

// What an instructor has planted bends the three as the pilot's own, but for a receiver that is another one: they are what they are.
func TestPlantedFaultsBendTheThreeToo(t *testing.T) {
	plant := func(d pulse.Deed, a, c int32) int32 {
		v, ok := fault.Plant(d, a, c)
		require.True(t, ok)
		return v
	}
	b := newBench(t, nil)
	b.pass(2500, 4000)
	b.Desk().Put(pulse.Instructor, plant(fault.Reversed, 2, 0))
	b.Desk().Put(pulse.Instructor, plant(fault.Receiver, 1, 0))
	b.pass(40, 4000)
	three := b.lose(lossrun.Disarming)
	b.pass(100, 4000)
	var l lossrun.Now
	require.True(t, three.see(&l))
	own := b.snap()
	for i := range l.Snap {
		assert.Equal(t, own.In.Sent, l.Snap[i].In.Sent, "reversed as the pilot's own")
		assert.Equal(t, link.OnLoss(i), l.Craft[i].Bench().Config().Link.OnLoss)
	}
	b.Desk().Put(pulse.Instructor, plant(fault.Receiver, 2, 0))
	b.pass(40, 4000)
	require.True(t, three.see(&l))
	for i := range l.Snap {
		assert.Equal(t, link.OnLoss(i), l.Craft[i].Bench().Config().Link.OnLoss)
	}
	// A silence that was planted is one, though the radio's own switch stays on.
	b.Desk().Put(pulse.Instructor, plant(fault.RadioOff, 0, 0))
	b.pass(400, 4000)
	require.True(t, three.see(&l))
	assert.True(t, b.snap().In.Transmitter)
	assert.Equal(t, lossrun.Off, l.Run[0].Phase)
	assert.Equal(t, l.Run[0].Last+240, l.Run[0].Lost)
}
