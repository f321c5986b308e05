package body_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/num/quat"
	"gonum.org/v1/gonum/spatial/r3"

	"propsoff.example/sim/body"
	"propsoff.example/sim/vec"
)

// Attitude under random torques against an independent integration of the same equations: the attitude as a rotation matrix
// instead of a quaternion, Gragg's modified midpoint with Richardson extrapolation instead of Runge-Kutta (Hairer, Nørsett,
// Wanner, Solving Ordinary Differential Equations I, II.9; from memory), and gonum's quaternions to compare.
func TestAttitudeUnderRandomTorques(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 5))
	for range 20 {
		c, s := spin(vec.V{X: 2.1e-3, Y: 2.3e-3, Z: 3.8e-3}, vec.V{X: rng.NormFloat64() * 3, Y: rng.NormFloat64() * 3, Z: rng.NormFloat64() * 3})
		inertia := r3.Vec(c.Inertia)
		ref := reference{w: r3.Vec(s.Spin), r: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}
		for range 40 { // a new torque every 50 ms
			torque := vec.V{X: rng.NormFloat64() * 0.02, Y: rng.NormFloat64() * 0.02, Z: rng.NormFloat64() * 0.01}
			for range 50 {
				s = body.Step(&c, s, &body.Input{Torque: torque}, ms)
			}
			ref = ref.extrapolated(inertia, r3.Vec(torque), 0.05)
		}
		assert.InDelta(t, 0, r3.Norm(r3.Sub(ref.w, r3.Vec(s.Spin))), 1e-7)
		q := r3.Rotation(quat.Number{Real: s.Att.W, Imag: s.Att.X, Jmag: s.Att.Y, Kmag: s.Att.Z})
		for i, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			column := r3.Vec{X: ref.r[i], Y: ref.r[3+i], Z: ref.r[6+i]}
			assert.InDelta(t, 0, r3.Norm(r3.Sub(q.Rotate(axis), column)), 1e-7, "after 2 s, axis %d", i)
		}
	}
}

// reference is a turning body with its attitude as a matrix, row by row.
type reference struct {
	w r3.Vec
	r [9]float64
}

func (a reference) plus(k float64, b reference) reference {
	a.w = r3.Add(a.w, r3.Scale(k, b.w))
	for i := range a.r {
		a.r[i] += k * b.r[i]
	}
	return a
}

// slope is Euler's equations and Ṙ = R·[ω]×.
func (a reference) slope(i, torque r3.Vec) reference {
	l := r3.Vec{X: i.X * a.w.X, Y: i.Y * a.w.Y, Z: i.Z * a.w.Z}
	m := r3.Sub(torque, r3.Cross(a.w, l))
	var d reference
	d.w = r3.Vec{X: m.X / i.X, Y: m.Y / i.Y, Z: m.Z / i.Z}
	for row := range 3 {
		v := r3.Vec{X: a.r[3*row], Y: a.r[3*row+1], Z: a.r[3*row+2]}
		v = r3.Cross(v, a.w)
		d.r[3*row], d.r[3*row+1], d.r[3*row+2] = v.X, v.Y, v.Z
	}
	return d
}

// midpoint is Gragg's method with n substeps of h/n.
func (a reference) midpoint(i, torque r3.Vec, h float64, n int) reference {
	k := h / float64(n)
	before, now := a, a.plus(k, a.slope(i, torque))
	for range n - 1 {
		before, now = now, before.plus(2*k, now.slope(i, torque))
	}
	last := before.plus(1, now).plus(k, now.slope(i, torque))
	return last.plus(-0.5, last)
}

// extrapolated takes one step of length h by extrapolation over n = 2, 4, 6 … 16 substeps, in h².
func (a reference) extrapolated(i, torque r3.Vec, h float64) reference {
	var t [8]reference
	for j := range t {
		t[j] = a.midpoint(i, torque, h, 2*(j+1))
		for k := j - 1; k >= 0; k-- {
			f := math.Pow(float64(j+1)/float64(k+1), 2) - 1
			d := t[k+1].plus(-1, t[k])
			t[k] = t[k+1].plus(1/f, d)
		}
	}
	return t[0]
}

// The kinematics alone against the exponential of gonum's quaternions: a constant rate about any axis.
func TestConstantRateIsTheExponential(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	for range 50 {
		axis := r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
		rate := 6 * rng.Float64()
		w := r3.Scale(rate, axis)
		c, s := spin(vec.V{X: 1, Y: 1, Z: 1}, vec.V(w)) // a ball turns about any axis for ever
		s = run(&c, s, body.Input{}, 3, ms)
		want := quat.Exp(quat.Scale(1.5, quat.Number{Imag: w.X, Jmag: w.Y, Kmag: w.Z}))
		got := quat.Number{Real: s.Att.W, Imag: s.Att.X, Jmag: s.Att.Y, Kmag: s.Att.Z}
		assert.InDelta(t, 1, math.Abs(quat.Mul(want, quat.Conj(got)).Real), 1e-12)
	}
}
