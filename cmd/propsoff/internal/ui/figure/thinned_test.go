package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// A thinned pen lies where the whole one does, keeps its points while it moves down the paper, and a straight one keeps its ends.
func TestAThinnedPenLooksAsTheWholeOne(t *testing.T) {
	wave := func(first, n int) (pts []ink.Point) { // newest first: the numbers fall
		for k := range n {
			pts = append(pts, ink.Point{X: 20 + 8*math.Sin(float64(first-k)/12), Y: 1.5 * float64(k)})
		}
		return pts
	}
	var kept []map[float64]bool
	for first := 1000; first < 1040; first++ {
		whole := wave(first, 200)
		thin := thinned(wave(first, 200), int64(first))
		require.Less(t, len(thin), 120)
		require.Equal(t, [2]ink.Point{whole[0], whole[199]}, [2]ink.Point{thin[0], thin[len(thin)-1]})
		k := 0
		at := map[float64]bool{}
		for _, p := range whole {
			for thin[k+1].Y < p.Y {
				k++
			}
			a, z := thin[k], thin[k+1]
			require.InDelta(t, p.X, a.X+(z.X-a.X)*(p.Y-a.Y)/(z.Y-a.Y), off+1e-9)
		}
		for _, p := range thin {
			if p.Y > 30 && p.Y < 240 { // away from the ends
				at[float64(first)-p.Y/1.5] = true
			}
		}
		kept = append(kept, at)
	}
	for i := 1; i < len(kept); i++ {
		for number := range kept[i] {
			if number > 1000+float64(i)-150 && number < 1000+float64(i)-30 {
				require.True(t, kept[i-1][number], "point %v, from %d on", number, 1000+i)
			}
		}
	}
	assert.Equal(t, []ink.Point{{X: 5, Y: 0}, {X: 5, Y: 30}}, thinned([]ink.Point{{X: 5, Y: 0}, {X: 5, Y: 10}, {X: 5, Y: 20}, {X: 5, Y: 30}}, 77))
}
