package vec_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/num/quat"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"propsoff.example/sim/vec"
)

// Hamilton's product: (1,2,3,4)(5,6,7,8) = (−60,12,30,24); ij = k, ji = −k (textbook).
func TestHamiltonsProduct(t *testing.T) {
	assert.Equal(t, vec.Q{W: -60, X: 12, Y: 30, Z: 24}, vec.Q{W: 1, X: 2, Y: 3, Z: 4}.Mul(vec.Q{W: 5, X: 6, Y: 7, Z: 8}))
	i, j := vec.Q{X: 1}, vec.Q{Y: 1}
	assert.Equal(t, vec.Q{Z: 1}, i.Mul(j))
	assert.Equal(t, vec.Q{Z: -1}, j.Mul(i))
}

// Products and turned vectors against gonum's quaternions and vectors.
func TestAgainstReference(t *testing.T) {
	num := rapid.Float64Range(-10, 10)
	rapid.Check(t, func(rt *rapid.T) {
		q := vec.Q{W: num.Draw(rt, "w"), X: num.Draw(rt, "x"), Y: num.Draw(rt, "y"), Z: num.Draw(rt, "z")}
		p := vec.Q{W: num.Draw(rt, "pw"), X: num.Draw(rt, "px"), Y: num.Draw(rt, "py"), Z: num.Draw(rt, "pz")}
		v := vec.V{X: num.Draw(rt, "vx"), Y: num.Draw(rt, "vy"), Z: num.Draw(rt, "vz")}
		ref := func(q vec.Q) quat.Number { return quat.Number{Real: q.W, Imag: q.X, Jmag: q.Y, Kmag: q.Z} }
		want := quat.Mul(ref(q), ref(p))
		got := q.Mul(p)
		if quat.Abs(quat.Sub(want, ref(got))) > 1e-12*(1+quat.Abs(want)) {
			rt.Fatalf("product %v, reference %v", got, want)
		}
		if q.Norm() < 1e-3 {
			rt.Skip()
		}
		u := q.Unit()
		turned := r3.Rotation(ref(u)).Rotate(r3.Vec(v))
		if d := r3.Sub(turned, r3.Vec(u.Turn(v))); r3.Norm(d) > 1e-12*(1+v.Norm()) {
			rt.Fatalf("turned %v, reference %v", u.Turn(v), turned)
		}
		if d := u.Back(u.Turn(v)).Sub(v); d.Norm() > 1e-12*(1+v.Norm()) {
			rt.Fatalf("there and back: %v", d)
		}
		frame := u.Frame()
		if d := frame.Out(v).Sub(u.Turn(v)); d.Norm() > 1e-12*(1+v.Norm()) {
			rt.Fatalf("by its axes it turns to %v", frame.Out(v))
		}
		if d := frame.In(v).Sub(u.Back(v)); d.Norm() > 1e-12*(1+v.Norm()) {
			rt.Fatalf("by its axes it turns back to %v", frame.In(v))
		}
		w := vec.V{X: num.Draw(rt, "wx"), Y: num.Draw(rt, "wy"), Z: num.Draw(rt, "wz")}
		if c := r3.Sub(r3.Cross(r3.Vec(v), r3.Vec(w)), r3.Vec(v.Cross(w))); r3.Norm(c) > 1e-10 {
			rt.Fatal("cross product")
		}
	})
}

// Angles against the standard library's.
func TestAngles(t *testing.T) {
	for i := -100000; i <= 100000; i++ {
		x := float64(i) / 1000
		assert.InDelta(t, math.Sin(x), vec.Sine(x), 2e-15)
		assert.InDelta(t, math.Cos(x), vec.Cosine(x), 2e-15)
	}
	rapid.Check(t, func(rt *rapid.T) {
		num := rapid.Float64Range(-1e3, 1e3)
		s, c := num.Draw(rt, "s"), num.Draw(rt, "c")
		if s == 0 && c == 0 {
			rt.Skip() // atan2 has four answers there, ours is always 0
		}
		if d := math.Abs(vec.Arc(s, c) - math.Atan2(s, c)); d > 1e-15*4 {
			rt.Fatalf("arc of %v, %v is %v off", s, c, d)
		}
	})
	assert.Zero(t, vec.Arc(0, 0))
	assert.Equal(t, vec.Q{W: 1}, vec.Q{}.Unit())
	assert.Equal(t, vec.Q{W: 1}, vec.Q{W: math.NaN()}.Unit())
}
