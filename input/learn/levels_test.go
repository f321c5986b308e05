package learn

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// squares is the weighted sum of squares of points about their mean, by gonum's statistics.
func squares(points []point) float64 {
	x, w, sum := make([]float64, len(points)), make([]float64, len(points)), 0.0
	for i, p := range points {
		x[i], w[i] = p.at, p.weight
		sum += p.weight
	}
	_, variance := stat.PopMeanVariance(x, w)
	return variance * sum
}

// best tries every way of parting sorted points into k runs none of which is wider than limit, and gives the least sum of
// squares; +Inf where there is none. It is the definition, with nothing clever in it.
func best(points []point, k int, limit float64) float64 {
	if k == 1 {
		if points[len(points)-1].at-points[0].at > limit {
			return math.Inf(1)
		}
		return squares(points)
	}
	least := math.Inf(1)
	for i := 1; i <= len(points)-k+1; i++ {
		if points[i-1].at-points[0].at > limit {
			break
		}
		least = min(least, squares(points[:i])+best(points[i:], k-1, limit))
	}
	return least
}

func somePoints(t *rapid.T, least, most int) []point {
	points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) point {
		return point{
			at:     rapid.OneOf(rapid.Float64Range(-100, 100), rapid.Map(rapid.IntRange(-9, 9), func(n int) float64 { return float64(10 * n) })).Draw(t, "at"),
			weight: rapid.Float64Range(0.1, 400).Draw(t, "weight"),
		}
	}), least, most).Draw(t, "points")
	slices.SortFunc(points, func(a, b point) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	return points
}

// The parting into k runs is as good as the best of all partings, for every k, with and without a limit on their width.
func TestPartingsAreTheBestThereAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := somePoints(t, 1, 9)
		limit := rapid.SampledFrom([]float64{math.Inf(1), 60, 25, 5}).Draw(t, "limit")
		got := partings(points, limit, 6)
		require.Len(t, got, min(6, len(points)))
		for i, starts := range got {
			k := i + 1
			want := best(points, k, limit)
			if starts == nil {
				require.True(t, math.IsInf(want, 1), "%d runs are possible", k)
				continue
			}
			require.Len(t, starts, k)
			require.Zero(t, starts[0])
			sum := 0.0
			for r, from := range starts {
				to := len(points)
				if r+1 < k {
					to = starts[r+1]
				}
				require.Less(t, from, to)
				require.LessOrEqual(t, points[to-1].at-points[from].at, limit)
				sum += squares(points[from:to])
			}
			require.InDelta(t, want, sum, 1e-6*(1+want), "%d runs", k)
		}
	})
}

// Levels are as few as can be, and each has the mean and the deviation that gonum finds for its points.
func TestLevelsOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := somePoints(t, 1, 9)
		limit := rapid.SampledFrom([]float64{60, 25, 5}).Draw(t, "limit")
		shuffled := slices.Clone(points)
		for i, j := range rapid.Permutation([]int{0, 1, 2, 3, 4, 5, 6, 7, 8}[:len(points)]).Draw(t, "order") {
			shuffled[i] = points[j]
		}
		levels := levelsOf(shuffled, limit, 6)
		fewest := 0
		for k := 1; k <= min(6, len(points)) && fewest == 0; k++ {
			if !math.IsInf(best(points, k, limit), 1) {
				fewest = k
			}
		}
		require.Len(t, levels, fewest)
		from := 0
		for _, l := range levels {
			to := from
			for to < len(points) && points[to].at <= l.high {
				to++
			}
			x, w := []float64{}, []float64{}
			for _, p := range points[from:to] {
				x, w = append(x, p.at), append(w, p.weight)
			}
			mean, variance := stat.PopMeanVariance(x, w)
			require.InDelta(t, mean, l.at, 1e-9*(1+math.Abs(mean)))
			require.InDelta(t, math.Sqrt(max(0, variance)), l.spread, 1e-6) // gonum gives −0 and a little for one point
			from = to
		}
		if levels != nil {
			require.Equal(t, len(points), from)
		}
	})
	require.Nil(t, levelsOf(nil, 1, 6))
}

// Six levels with noise, each visited often, for times that differ widely: every level is found, at the mean of what was
// seen there.
func TestSixLevelsInNoise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		levels := rapid.IntRange(2, 6).Draw(t, "levels")
		var points []point
		var x, w [6][]float64
		for k := range levels {
			for range rapid.IntRange(1, 12).Draw(t, "visits") {
				p := point{at: float64(k)*200 + rapid.Float64Range(-12, 12).Draw(t, "noise"), weight: rapid.Float64Range(1, 400).Draw(t, "time")}
				points = append(points, p)
				x[k], w[k] = append(x[k], p.at), append(w[k], p.weight)
			}
		}
		got := levelsOf(points, 30, MostPositions)
		require.Len(t, got, levels)
		for k := range got {
			mean, variance := stat.PopMeanVariance(x[k], w[k])
			require.InDelta(t, mean, got[k].at, 1e-6)
			require.InDelta(t, math.Sqrt(max(0, variance)), got[k].spread, 1e-6)
		}
	})
}

// The running sums of a stand are the mean and variance that gonum finds, also when they are joined from parts.
func TestDwell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-32768, 32767), 1, 50).Draw(t, "values")
		w := rapid.SliceOfN(rapid.Float64Range(1, 1e6), len(x), len(x)).Draw(t, "times")
		var one, a, b dwell
		cut := rapid.IntRange(0, len(x)).Draw(t, "cut")
		for i := range x {
			one.add(x[i], w[i])
			if i < cut {
				a.add(x[i], w[i])
			} else {
				b.add(x[i], w[i])
			}
		}
		a.join(b)
		mean, variance := stat.PopMeanVariance(x, w)
		for _, d := range []dwell{one, a} {
			require.InDelta(t, mean, d.mean, 1e-6)
			require.InEpsilon(t, variance+1, d.variance()+1, 1e-9)
		}
	})
	var d dwell
	d.add(5, 0)
	d.join(dwell{})
	require.Zero(t, d.variance())
}
