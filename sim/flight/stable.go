package flight

import "propsoff/sim/vec"

// Stable reports whether the loop about one axis (0 roll, 1 pitch, 2 yaw) dies out by itself for motors with a lag in s: the
// whole linear loop of angle (of rate for yaw) about level flight, with the derivative's filter and the integral, by the criterion of
// Routh and Hurwitz (Ogata, Modern Control Engineering; from memory).
func (c *Control) Stable(axis int, lag float64) bool {
	g := c.Gains[axis]
	level := c.Level
	if axis == 2 {
		level = 0
	}
	p, i, d, f := g.Proportional, g.Integral, g.Derivative, c.Filter
	// With the rate w = s·θ, its filtered value w/(f·s+1), and acceleration a = u/(lag·s+1), where
	//   u = (p + i/s)·(level·(θ* − θ) − w) − d·s·w/(f·s+1),   s·w = a,
	// the loop closes where s²·(lag·s+1)·(f·s+1)·s + (p·s + i)·(s + level)·(f·s+1) + d·s³·s = 0 — for yaw one power of s less.
	poly := [6]float64{} // by power of s
	add := func(power int, v float64) { poly[power] += v }
	add(3, 1)
	add(4, lag+f)
	add(5, vec.Mul(lag, f))
	for _, t := range [...]struct {
		power int
		v     float64
	}{{2, p}, {1, i + vec.Mul(p, level)}, {0, vec.Mul(i, level)}} { // (p·s + i)·(s + level)
		add(t.power, t.v)
		add(t.power+1, vec.Mul(t.v, f))
	}
	add(3, d)
	first := 0
	for first < len(poly) && poly[first] == 0 { // an integral of 0, and yaw's missing angle, leave roots at 0 that are none of the loop's
		first++
	}
	return hurwitz(poly[first:])
}

// hurwitz reports whether every root of a polynomial (by power, lowest first, degree at most 5) lies left of the imaginary
// axis: every element of the first column of Routh's table is positive.
func hurwitz(poly []float64) bool {
	n := len(poly)
	var above, row [4]float64
	for k := range n {
		v := poly[n-1-k]
		if v <= 0 {
			return false
		}
		if k%2 == 0 {
			above[k/2] = v
		} else {
			row[k/2] = v
		}
	}
	for range n - 2 {
		if row[0] <= 0 {
			return false
		}
		var next [4]float64
		for k := range 3 {
			next[k] = (vec.Mul(row[0], above[k+1]) - vec.Mul(above[0], row[k+1])) / row[0]
		}
		above, row = row, next
	}
	return row[0] > 0
}
