package flight

import "propsoff.example/sim/vec"

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
	// With the rate w = s·θ, its filtered value w/(f·s+1), what is due r/(T·s+1) with T = (1 + d)/p, and acceleration a = u/(lag·s+1), where
	//   r = level·(θ* − θ),   u = p·(r − w) + (i/s)·(r/(T·s+1) − w) − d·s·w/(f·s+1),   s·w = a,
	// the loop closes where
	//   s³·(lag·s+1)·(T·s+1)·(f·s+1) + p·s·(s + level)·(T·s+1)·(f·s+1) + i·(level + s + T·s²)·(f·s+1) + d·s³·(T·s+1) = 0;
	// drag and what makes up for it are left out, as they cancel, and they are small beside p;
	// for yaw, where the motors' inertia and what makes up for it cancel, level is nought.
	due := (1 + d) / p
	cube := poly{3: 1}
	sum := cube.by(1, lag).by(1, due).by(1, f)
	sum = sum.plus(poly{1: p}.by(level, 1).by(1, due).by(1, f))
	sum = sum.plus(poly{vec.Mul(i, level), i, vec.Mul(i, due)}.by(1, f))
	sum = sum.plus(poly{3: d}.by(1, due))
	first := 0
	for first < len(sum)-1 && sum[first] == 0 { // an integral of 0, and yaw's missing angle, leave roots at 0 that are none of the loop's
		first++
	}
	return hurwitz(sum[first:])
}

// poly is a polynomial by power, lowest first.
type poly [7]float64

// by is a times (c + k·s); what goes past the last power is lost.
func (a poly) by(c, k float64) (p poly) {
	for n := range p {
		p[n] = vec.Mul(c, a[n])
		if n > 0 {
			p[n] += vec.Mul(k, a[n-1])
		}
	}
	return p
}

func (a poly) plus(b poly) poly {
	for n := range a {
		a[n] += b[n]
	}
	return a
}

// hurwitz reports whether every root of a polynomial (by power, lowest first, degree at most 6) lies left of the imaginary
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
