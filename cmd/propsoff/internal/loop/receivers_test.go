package loop

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/sim"
	"propsoff/sim/fault"
	"propsoff/sim/layout"
	"propsoff/sim/link"
	"propsoff/sim/pulse"
)

// The three go with the pilot's own, on the desk bench too, and act on nothing: the pilot's own comes out as without them.
func TestThreeReceiversBesideThePilotsOwn(t *testing.T) {
	digest := func(with bool) uint64 {
		b := newBench(t, func(o *Options) { o.Begin = outside() })
		b.flyHop(layout.Angle)
		b.pass(4500, 4000)
		b.FlyLoss(with, lossrun.Disarming)
		b.pass(50, 4000)
		var l Loss
		require.Equal(t, with, b.Loss(&l))
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
			require.True(t, b.Loss(&l))
			assert.Equal(t, [3]bool{false, true, false}, [3]bool{l.Snap[0].Armed, l.Snap[1].Armed, l.Snap[2].Armed})
			assert.Equal(t, l.Run[0].Last+240, l.Run[0].Lost)
			assert.Equal(t, l.Run[2].Last+20, l.Run[2].Disarmed)
			for i := range l.Snap {
				from, to, ok := b.Reach(WithReceiver(link.OnLoss(i)))
				assert.True(t, ok && to > from)
			}
			b.LossAnew()
			b.Turn()
			require.True(t, b.Loss(&l))
			assert.Equal(t, lossrun.Waiting, l.Run[0].Phase)
			b.FlyLoss(false, 0)
			b.Turn()
			assert.False(t, b.Loss(&l))
			_, _, ok := b.Reach(WithHold)
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
	b.FlyLoss(true, lossrun.Disarming)
	b.pass(100, 4000)
	require.NotNil(t, b.loss)
	b.Desk().Put(pulse.Link, 1)
	b.Desk().Put(pulse.Power, 1)
	b.pass(1000, 4000)
	b.Desk().Put(pulse.Link, 0)
	b.pass(300, 4000)
	b.FlyLoss(true, lossrun.ArmedLow)
	b.pass(20, 4000)
	if b.loss.Run(2).Phase == lossrun.Off {
		assert.Equal(t, lossrun.Disarming, b.loss.Stored())
	}
	b.Desk().Put(pulse.Link, 1)
	b.pass(100, 4000)
	assert.Equal(t, lossrun.ArmedLow, b.loss.Stored())
	// Another craft on the bench begins the three anew.
	was := b.loss
	b.UseCraft(sim.Default(), "")
	b.Turn()
	assert.NotSame(t, was, b.loss)
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
	b.FlyLoss(true, lossrun.Disarming)
	b.pass(100, 4000)
	var l Loss
	require.True(t, b.Loss(&l))
	own := b.snap()
	for i := range l.Snap {
		assert.Equal(t, own.In.Sent, l.Snap[i].In.Sent, "reversed as the pilot's own")
		assert.Equal(t, link.OnLoss(i), b.loss.Craft(i).Bench().Config().Link.OnLoss)
	}
	b.Desk().Put(pulse.Instructor, plant(fault.Receiver, 2, 0))
	b.pass(40, 4000)
	for i := range l.Snap {
		assert.Equal(t, link.OnLoss(i), b.loss.Craft(i).Bench().Config().Link.OnLoss)
	}
	// A silence that was planted is one, though the radio's own switch stays on.
	b.Desk().Put(pulse.Instructor, plant(fault.RadioOff, 0, 0))
	b.pass(400, 4000)
	require.True(t, b.Loss(&l))
	assert.True(t, b.snap().In.Transmitter)
	assert.Equal(t, lossrun.Off, l.Run[0].Phase)
	assert.Equal(t, l.Run[0].Last+240, l.Run[0].Lost)
}
