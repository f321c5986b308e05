package learn

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

// A knob is turned so slowly, or in so many steps, that each part of the way counts as a stand: none of that is rest. Where it stood
// before anyone asked for it, it rested, so its noise is known all the same.
func TestTheNoiseOfAKnobIsThatOfBeforeItWasTurned(t *testing.T) {
	for _, steps := range []int{1, 5, mostCalm, 3 * mostCalm} {
		random := rand.New(rand.NewPCG(1, uint64(steps)))
		k := newTrack(input.Axis{Max: 2047})
		at := int64(0)
		stand := func(where int32, long int64, noise int32) {
			for end := at + long; at < end; at += 4000 {
				k.feed(where+random.Int32N(2*noise+1)-noise, at, at == 0)
			}
		}
		stand(1023, 3_000_000, 8)
		k.asks(at)
		for i := range steps {
			stand(int32(100+i%2*900), 300_000, 25)
		}
		stand(1500, 2_000, 0)
		k.creeps()
		require.InDelta(t, math.Sqrt(8*9/3.0), k.deviation(at), 0.5, "%d steps; whole numbers from −8 to 8, each as likely as the other", steps)
		require.Equal(t, 1, k.calms)
		stand(1500, 2_500_000, 8)
		require.InDelta(t, math.Sqrt(8*9/3.0), k.deviation(at), 0.5)
	}
}
