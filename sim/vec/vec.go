// Package vec holds the vector and quaternion arithmetic of the craft: the same bits on every machine.
//
// Go may fuse x*y+z into one rounding on some machines; an explicit conversion forbids it (Go specification, "Floating-point
// operators"). So every product to which something is added stands here, written float64(a*b), and nothing here calls math.Sin
// and its like, which differ between machines; the square root is exact by IEEE 754.
package vec

import "math"

// V is a vector: north, east and down in world axes; forward, right and down in body axes. The unit is the caller's.
type V struct{ X, Y, Z float64 }

// Mul is a·b rounded by itself, never fused with what is added to it.
func Mul(a, b float64) float64 { return float64(a * b) }

// Add is a + b.
func (a V) Add(b V) V { return V{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub is a − b.
func (a V) Sub(b V) V { return V{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Scale is k·a.
func (a V) Scale(k float64) V { return V{float64(a.X * k), float64(a.Y * k), float64(a.Z * k)} }

// Times is the product axis by axis, as of a diagonal inertia with a rate.
func (a V) Times(b V) V { return V{float64(a.X * b.X), float64(a.Y * b.Y), float64(a.Z * b.Z)} }

// Plus is a + k·b.
func (a V) Plus(k float64, b V) V {
	return V{a.X + float64(k*b.X), a.Y + float64(k*b.Y), a.Z + float64(k*b.Z)}
}

// Dot is the inner product.
func (a V) Dot(b V) float64 { return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z) }

// Cross is a × b.
func (a V) Cross(b V) V {
	return V{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// Norm is the length of a.
func (a V) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Q is a quaternion, scalar first, with Hamilton's product (i·j = k). As an attitude it turns body axes into world axes.
type Q struct{ W, X, Y, Z float64 }

// Mul is p·q.
func (p Q) Mul(q Q) Q {
	return Q{
		float64(p.W*q.W) - float64(p.X*q.X) - float64(p.Y*q.Y) - float64(p.Z*q.Z),
		float64(p.W*q.X) + float64(p.X*q.W) + float64(p.Y*q.Z) - float64(p.Z*q.Y),
		float64(p.W*q.Y) - float64(p.X*q.Z) + float64(p.Y*q.W) + float64(p.Z*q.X),
		float64(p.W*q.Z) + float64(p.X*q.Y) - float64(p.Y*q.X) + float64(p.Z*q.W),
	}
}

// Conj is the conjugate: the inverse of a unit quaternion.
func (p Q) Conj() Q { return Q{p.W, -p.X, -p.Y, -p.Z} }

// Plus is p + k·q.
func (p Q) Plus(k float64, q Q) Q {
	return Q{p.W + float64(k*q.W), p.X + float64(k*q.X), p.Y + float64(k*q.Y), p.Z + float64(k*q.Z)}
}

// Norm is the length of p.
func (p Q) Norm() float64 {
	return math.Sqrt(float64(p.W*p.W) + float64(p.X*p.X) + float64(p.Y*p.Y) + float64(p.Z*p.Z))
}

// Unit is p scaled to length 1. A quaternion of length 0, or with a part that is not a number, becomes level.
func (p Q) Unit() Q {
	n := p.Norm()
	if !(n > 0) || math.IsInf(n, 0) {
		return Q{W: 1}
	}
	return Q{p.W / n, p.X / n, p.Y / n, p.Z / n}
}

// Turn takes a vector v from body axes to world axes, for a unit quaternion: v + 2w(u×v) + 2u×(u×v).
func (p Q) Turn(v V) V {
	u := V{p.X, p.Y, p.Z}
	t := u.Cross(v).Scale(2)
	return v.Plus(p.W, t).Add(u.Cross(t))
}

// Back takes a vector v from world axes to body axes, for a unit quaternion.
func (p Q) Back(v V) V { return p.Conj().Turn(v) }

// Rate is how fast an attitude changes under the body rate w (rad/s): ½ q·(0, w). Source: the usual kinematics of a
// quaternion with body rates on the right.
func (p Q) Rate(w V) Q {
	return Q{
		float64(0.5 * (-float64(p.X*w.X) - float64(p.Y*w.Y) - float64(p.Z*w.Z))),
		float64(0.5 * (float64(p.W*w.X) + float64(p.Y*w.Z) - float64(p.Z*w.Y))),
		float64(0.5 * (float64(p.W*w.Y) - float64(p.X*w.Z) + float64(p.Z*w.X))),
		float64(0.5 * (float64(p.W*w.Z) + float64(p.X*w.Y) - float64(p.Y*w.X))),
	}
}

// Frame is an attitude as three axes: where a body's forward, right and down point in the world.
type Frame struct{ Forward, Right, Down V }

// Frame is the axes of a unit quaternion, for those who turn more than two vectors.
func (p Q) Frame() Frame {
	x, y, z := 2*p.X, 2*p.Y, 2*p.Z
	xx, yy, zz := float64(p.X*x), float64(p.Y*y), float64(p.Z*z)
	xy, xz, yz := float64(p.X*y), float64(p.X*z), float64(p.Y*z)
	wx, wy, wz := float64(p.W*x), float64(p.W*y), float64(p.W*z)
	return Frame{V{1 - yy - zz, xy + wz, xz - wy}, V{xy - wz, 1 - xx - zz, yz + wx}, V{xz + wy, yz - wx, 1 - xx - yy}}
}

// Out takes a vector from body axes to world axes.
func (f *Frame) Out(v V) V {
	return V{
		float64(v.X*f.Forward.X) + float64(v.Y*f.Right.X) + float64(v.Z*f.Down.X),
		float64(v.X*f.Forward.Y) + float64(v.Y*f.Right.Y) + float64(v.Z*f.Down.Y),
		float64(v.X*f.Forward.Z) + float64(v.Y*f.Right.Z) + float64(v.Z*f.Down.Z),
	}
}

// In takes a vector from world axes to body axes.
func (f *Frame) In(v V) V { return V{v.Dot(f.Forward), v.Dot(f.Right), v.Dot(f.Down)} }
