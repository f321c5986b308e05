package learn

import (
	"cmp"
	"math"
	"slices"
)

// point is a raw value at which an axis stood: the mean of the stand, its weight (for how long it stood, bounded) and
// its variance.
type point struct{ at, weight, variance float64 }

// level is one place that an axis rests in: the mean of its points, their spread (standard deviation, that within the
// points and that between them together), and how far the points themselves lie apart.
type level struct{ at, spread, low, high float64 }

// levelsOf finds the places in which an axis stood: the fewest of which none is wider than limit, and among all ways of
// parting the points into so many the one with the least weighted sum of squares. nil where more than most are needed.
//
// Parting sorted values into k runs with the least sum of squares is one-dimensional k-means; the optimal parting of the
// first j values into k runs is an optimal parting of the first i into k−1 and one more run, so it is found exactly by
// dynamic programming (the idea is Fisher's: W. D. Fisher, On Grouping for Maximum Homogeneity, 1958; from memory).
func levelsOf(points []point, limit float64, most int) []level {
	points = slices.Clone(points)
	slices.SortFunc(points, func(a, b point) int { return cmp.Compare(a.at, b.at) })
	for k, starts := range partings(points, limit, most) {
		if starts != nil {
			return gather(points, starts[:k+1])
		}
	}
	return nil
}

// partings gives for each number of runs from 1 to most the starts of the runs of the best parting of sorted points, nil
// where no parting has every run within limit.
func partings(points []point, limit float64, most int) [][]int {
	n := len(points)
	sums := make([]struct{ w, x, xx float64 }, n+1)
	if n == 0 {
		return nil
	}
	base := points[0].at // keeps the squares small
	for i, p := range points {
		x := p.at - base
		sums[i+1].w = sums[i].w + p.weight
		sums[i+1].x = sums[i].x + p.weight*x
		sums[i+1].xx = sums[i].xx + p.weight*x*x
	}
	// cost is the sum of squares of the run from i to before j.
	cost := func(i, j int) float64 {
		if points[j-1].at-points[i].at > limit {
			return math.Inf(1)
		}
		w, x := sums[j].w-sums[i].w, sums[j].x-sums[i].x
		return max(0, sums[j].xx-sums[i].xx-x*x/w)
	}
	best := make([]float64, n+1) // of the first j points in k runs
	from := make([][]int32, 0, most)
	for j := 1; j <= n; j++ {
		best[j] = cost(0, j)
	}
	out := make([][]int, 0, most)
	for k := 1; k <= most && k <= n; k++ {
		last := make([]int32, n+1)
		if k > 1 {
			next := make([]float64, n+1)
			for j := range next {
				next[j] = math.Inf(1)
			}
			for j := k; j <= n; j++ {
				for i := j - 1; i >= k-1; i-- {
					c := cost(i, j)
					if math.IsInf(c, 1) {
						break // farther back is wider still
					}
					if c += best[i]; c < next[j] {
						next[j], last[j] = c, int32(i)
					}
				}
			}
			best = next
		}
		from = append(from, last)
		if math.IsInf(best[n], 1) {
			out = append(out, nil)
			continue
		}
		starts := make([]int, k)
		for j, r := n, k-1; r >= 0; r-- {
			j = int(from[r][j])
			starts[r] = j
		}
		out = append(out, starts)
	}
	return out
}

// gather makes the levels of sorted points whose runs begin at starts.
func gather(points []point, starts []int) []level {
	var out []level
	for k, i := range starts {
		j := len(points)
		if k+1 < len(starts) {
			j = starts[k+1]
		}
		var w, x, m2 float64
		for _, p := range points[i:j] {
			w += p.weight
			x += p.weight * (p.at - points[i].at)
		}
		l := level{at: points[i].at + x/w, low: points[i].at, high: points[j-1].at}
		for _, p := range points[i:j] {
			d := p.at - l.at
			m2 += p.weight * (p.variance + d*d)
		}
		l.spread = math.Sqrt(m2 / w)
		out = append(out, l)
	}
	return out
}
