package view_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/num/quat"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/view"
	"propsoff.example/sim/vec"
)

var frame = ink.Rect{X: 40, Y: 30, W: 600, H: 300}

const wide = math.Pi / 2 // so the focal length is half the width: 300

func any3(t *rapid.T, most float64) vec.V {
	one := func(name string) float64 { return rapid.Float64Range(-most, most).Draw(t, name) }
	return vec.V{X: one("x"), Y: one("y"), Z: one("z")}
}

func anyAttitude(t *rapid.T) vec.Q {
	v := any3(t, 1)
	return vec.Q{W: rapid.Float64Range(-1, 1).Draw(t, "w"), X: v.X, Y: v.Y, Z: v.Z}.Unit()
}

// The pinhole camera of every textbook (Hartley and Zisserman, Multiple View Geometry, section 6.1, from memory): what is x to the right, y below and z ahead
// stands at (f·x/z, f·y/z). It looks north.
func TestPinhole(t *testing.T) {
	c := view.Standing(vec.V{X: -5, Z: -1.6}, 0, 0).In(frame, wide)
	at, ahead, ok := c.See(vec.V{X: 5, Y: 2, Z: -0.6})
	require.True(t, ok)
	assert.InDelta(t, 10, ahead, 1e-12)
	assert.InDelta(t, frame.Centre().X+300*2.0/10, at.X, 1e-9, "east of north is to the right")
	assert.InDelta(t, frame.Centre().Y+300*1.0/10, at.Y, 1e-9, "lower is lower")

	// Looking up, the horizon sinks by f·tan; looking to the right, north goes to the left by as much.
	up := view.Standing(vec.V{}, 0, 0.2).In(frame, wide)
	from, to, ok := up.Horizon()
	require.True(t, ok)
	assert.InDelta(t, frame.Centre().Y+300*math.Tan(0.2), from.Y, 1e-6)
	assert.InDelta(t, from.Y, to.Y, 1e-6)
	right := view.Standing(vec.V{}, 0.3, 0).In(frame, wide)
	at, _, _ = right.See(vec.V{X: 1e6})
	assert.InDelta(t, frame.Centre().X-300*math.Tan(0.3), at.X, 1e-6)

	// From a craft: banked to the right, the horizon rises to the right; with its nose down, it rises.
	bank := view.Aboard(vec.V{Z: -3}, vec.Q{W: math.Cos(0.15), X: math.Sin(0.15)}, 0).In(frame, wide)
	from, to, ok = bank.Horizon()
	require.True(t, ok)
	if from.X > to.X {
		from, to = to, from
	}
	assert.InDelta(t, math.Tan(-0.3), (to.Y-from.Y)/(to.X-from.X), 1e-9)
	dive := view.Aboard(vec.V{Z: -3}, vec.Q{W: math.Cos(-0.1), Y: math.Sin(-0.1)}, 0.2).In(frame, wide)
	from, _, ok = dive.Horizon()
	require.True(t, ok)
	assert.InDelta(t, frame.Centre().Y, from.Y, 1e-6, "as much nose down as the camera is tilted up")
}

// What is s large, upright on the ray and d ahead, is f·s/d large.
func TestSizeByDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := view.Aboard(any3(t, 50), anyAttitude(t), rapid.Float64Range(-0.5, 1).Draw(t, "tilt")).In(frame, rapid.Float64Range(0.5, 2.4).Draw(t, "wide"))
		s, d := rapid.Float64Range(0.01, 20).Draw(t, "size"), rapid.Float64Range(0.1, 200).Draw(t, "away")
		foot := c.At.Plus(d, c.Ahead)
		a, _, _ := c.See(foot)
		b, _, _ := c.See(foot.Plus(s, c.Right))
		require.InDelta(t, c.Focal*s/d, math.Hypot(b.X-a.X, b.Y-a.Y), 1e-6*(1+c.Focal*s/d))
	})
}

// Against a projection matrix K·[R|t] of gonum, made of its own quaternion (an independent twin): the same places, and behind the camera none.
func TestAgainstAProjectionMatrix(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		at, att, tilt := any3(t, 50), anyAttitude(t), rapid.Float64Range(-0.5, 1).Draw(t, "tilt")
		c := view.Aboard(at, att, tilt).In(frame, wide)
		turn := r3.Rotation(quat.Mul(quat.Number{Real: att.W, Imag: att.X, Jmag: att.Y, Kmag: att.Z}, quat.Number(r3.NewRotation(tilt, r3.Vec{Y: 1}))))
		axes := [3]r3.Vec{turn.Rotate(r3.Vec{Y: 1}), turn.Rotate(r3.Vec{Z: 1}), turn.Rotate(r3.Vec{X: 1})} // right, down, ahead
		rt := mat.NewDense(3, 4, nil)
		for i, a := range axes {
			rt.SetRow(i, []float64{a.X, a.Y, a.Z, -r3.Dot(a, r3.Vec{X: at.X, Y: at.Y, Z: at.Z})})
		}
		m := frame.Centre()
		var p mat.Dense
		p.Mul(mat.NewDense(3, 3, []float64{300, 0, m.X, 0, 300, m.Y, 0, 0, 1}), rt)
		w := any3(t, 60)
		var image mat.VecDense
		image.MulVec(&p, mat.NewVecDense(4, []float64{w.X, w.Y, w.Z, 1}))
		got, ahead, ok := c.See(w)
		require.InDelta(t, image.AtVec(2), ahead, 1e-9)
		require.Equal(t, ahead >= view.Near, ok)
		if ok {
			seen++
			scale := 1 + math.Hypot(image.AtVec(0), image.AtVec(1))/ahead
			require.InDelta(t, image.AtVec(0)/image.AtVec(2), got.X, 1e-7*scale)
			require.InDelta(t, image.AtVec(1)/image.AtVec(2), got.Y, 1e-7*scale)
		}
	})
	assert.Positive(t, seen)
}

// A plane seen twice is seen by a homography: from four of its places each other one is found (the direct linear transform, Hartley and Zisserman, section 4.1,
// from memory), solved by gonum.
func TestTheGroundByAHomography(t *testing.T) {
	c := view.Standing(vec.V{X: -5.5, Z: -1.6}, 0.3, -0.1).In(frame, wide)
	corners := [4]vec.V{{X: 2, Y: -3}, {X: 2, Y: 3}, {X: 20, Y: 9}, {X: 20, Y: -5}}
	a, y := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i, p := range corners {
		q, _, ok := c.See(p)
		require.True(t, ok)
		a.SetRow(2*i, []float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y})
		a.SetRow(2*i+1, []float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y})
		y.SetVec(2*i, q.X)
		y.SetVec(2*i+1, q.Y)
	}
	var h mat.VecDense
	require.NoError(t, h.SolveVec(a, y))
	for _, p := range []vec.V{{}, {X: 10, Y: 4}, {X: 55, Y: -20}, {X: 1000, Y: 100}} {
		w := h.AtVec(6)*p.X + h.AtVec(7)*p.Y + 1
		q, _, ok := c.See(p)
		require.True(t, ok)
		assert.InDelta(t, (h.AtVec(0)*p.X+h.AtVec(1)*p.Y+h.AtVec(2))/w, q.X, 1e-6)
		assert.InDelta(t, (h.AtVec(3)*p.X+h.AtVec(4)*p.Y+h.AtVec(5))/w, q.Y, 1e-6)
	}
}

// Straight lines stay straight, and are cut where they leave the picture or come too near: both ends lie in the frame and on the line of its own ends, and what is
// left out is not to be seen.
func TestLinesStayStraightAndAreCut(t *testing.T) {
	cut := 0
	rapid.Check(t, func(t *rapid.T) {
		c := view.Aboard(any3(t, 5), anyAttitude(t), 0.2).In(frame, wide)
		a, b := any3(t, 30), any3(t, 30)
		from, to, ok := c.Line(a, b)
		for k := range 40 { // each place of the line that is in the picture is between the two ends, on the straight line through them
			p, _, seen := c.See(a.Plus(float64(k)/39, b.Sub(a)))
			if !seen || !frame.Inset(1e-6).Has(p) {
				continue
			}
			require.True(t, ok, "it is seen")
			long := math.Hypot(to.X-from.X, to.Y-from.Y)
			require.InDelta(t, long, math.Hypot(p.X-from.X, p.Y-from.Y)+math.Hypot(to.X-p.X, to.Y-p.Y), 1e-5)
			require.LessOrEqual(t, math.Abs((to.X-from.X)*(p.Y-from.Y)-(to.Y-from.Y)*(p.X-from.X)), 1e-5*(1+long))
		}
		if ok {
			require.True(t, frame.Holds(ink.Rect{X: from.X, Y: from.Y}, 1e-6) && frame.Holds(ink.Rect{X: to.X, Y: to.Y}, 1e-6))
			if c.At.Sub(a).Dot(c.Ahead)*c.At.Sub(b).Dot(c.Ahead) < 0 {
				cut++
			}
		}
	})
	assert.Positive(t, cut, "some begin behind the camera")
}

// What lies on the ground endlessly far away lies on the horizon; nearer it is below, and in the air above, whatever the attitude.
func TestTheHorizonIsAtInfinity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := any3(t, 20)
		at.Z = -rapid.Float64Range(0.5, 100).Draw(t, "height")
		c := view.Aboard(at, anyAttitude(t), 0.3).In(frame, wide)
		from, to, ok := c.Horizon()
		ground := c.Ground(nil)
		if !ok {
			require.True(t, len(ground) == 0 || len(ground) == 4, "all sky, or all ground")
			return
		}
		n := math.Hypot(to.X-from.X, to.Y-from.Y)
		if n < 1 {
			t.Skip("it but touches a corner")
		}
		off := func(p ink.Point) float64 { return ((to.X-from.X)*(p.Y-from.Y) - (to.Y-from.Y)*(p.X-from.X)) / n }
		s, q := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "way"))
		far, _, seen := c.See(vec.V{X: 1e10 * q, Y: 1e10 * s})
		near, _, nearSeen := c.See(vec.V{X: at.X + 30*q, Y: at.Y + 30*s})
		if !seen || math.Abs(far.X)+math.Abs(far.Y) > 1e4 {
			return
		}
		require.InDelta(t, 0, off(far), 1e-3)
		high, _, highSeen := c.See(vec.V{X: at.X + 30*q, Y: at.Y + 30*s, Z: 2 * at.Z})
		if nearSeen && highSeen {
			require.Less(t, off(near)*off(high), 0.0, "ground and sky lie on two sides of it")
		}
		if nearSeen && frame.Has(near) {
			require.True(t, inside(near, ground))
		}
	})
}

// inside tells whether a place lies in an outline that is nowhere hollow.
func inside(p ink.Point, outline []ink.Point) bool {
	left, right := false, false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		turn := (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X)
		left, right = left || turn < -1e-6, right || turn > 1e-6
	}
	return left != right
}

// An outline is cut to the picture, also where a part of it lies behind the camera: its area is that of what lies in the picture, counted place by place.
func TestOutlinesAreCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := view.Aboard(any3(t, 4), anyAttitude(t), 0).In(frame, wide)
		square := []vec.V{{X: 6, Y: 6, Z: 1}, {X: 6, Y: -6, Z: 1}, {X: -6, Y: -6, Z: 1}, {X: -6, Y: 6, Z: 1}}
		got := c.Outline(nil, square...)
		for _, p := range got {
			require.True(t, frame.Holds(ink.Rect{X: p.X, Y: p.Y}, 1e-6), "%v", p)
		}
		for range 30 { // places of the picture, sent back to the plane of the square
			p := ink.Point{X: rapid.Float64Range(41, 639).Draw(t, "x"), Y: rapid.Float64Range(31, 329).Draw(t, "y")}
			m := frame.Centre()
			ray := c.Ahead.Scale(c.Focal).Plus(p.X-m.X, c.Right).Plus(p.Y-m.Y, c.Down)
			k := (1 - c.At.Z) / ray.Z
			hit := c.At.Plus(k, ray)
			edge := max(math.Abs(hit.X), math.Abs(hit.Y))
			if math.Abs(edge-6) < 1e-3 || k*c.Focal < 2*view.Near && k > 0 {
				continue
			}
			require.Equal(t, k > 0 && edge < 6, len(got) > 2 && inside(p, got), "%v %v", p, hit)
		}
	})
}

// Wherever the craft is, the pilot has it in his picture and away from its edges; and from one place to the next his eye does not jump, also behind his back.
func TestThePilotNeverLosesIt(t *testing.T) {
	const away = 18
	rapid.Check(t, func(t *rapid.T) {
		f := ink.Rect{X: 10, Y: 20, W: rapid.Float64Range(200, 2000).Draw(t, "w"), H: rapid.Float64Range(120, 1000).Draw(t, "h")}
		p := any3(t, 150)
		p.Z = -math.Abs(p.Z)
		c := view.Pilot(p, f, away)
		d := p.Sub(c.At)
		if math.Hypot(d.X, d.Y) < 0.5 { // over his head there is no way that he faces
			t.Skip()
		}
		require.Equal(t, vec.V{X: -5.5, Z: -1.6}, c.At, "he stands still")
		at, _, ok := c.See(p)
		require.True(t, ok)
		require.True(t, f.Inset(away-1e-6).Has(at), "%v in %v", at, f)

		step := vec.V{X: 1e-4, Y: 1e-4, Z: -1e-4}
		n := view.Pilot(p.Add(step), f, away)
		require.Less(t, n.Ahead.Sub(c.Ahead).Norm()+n.Right.Sub(c.Right).Norm(), 8*step.Norm()/math.Hypot(d.X, d.Y)+1e-9)
		behind := view.Pilot(vec.V{X: -20, Y: 1e-7, Z: p.Z}, f, away)
		other := view.Pilot(vec.V{X: -20, Y: -1e-7, Z: p.Z}, f, away)
		require.Less(t, behind.Ahead.Sub(other.Ahead).Norm(), 1e-5)
	})
	// Near the start he hardly turns, and has horizon and ground in the picture: at rest on the ground, and in a first hover a metre high.
	f := ink.Rect{W: 600, H: 200}
	for _, high := range []float64{0.025, 1, 2} {
		c := view.Pilot(vec.V{Z: -high}, f, away)
		_, _, ok := c.Horizon()
		assert.True(t, ok, "%v m high", high)
		aside := view.Pilot(vec.V{Y: 1, Z: -high}, f, away)
		assert.Less(t, math.Acos(min(1, c.Ahead.Dot(aside.Ahead))), 0.04)
		at, _, _ := aside.See(vec.V{Y: 1, Z: -high})
		assert.Greater(t, at.X, f.Centre().X+40.0, "it is the craft that moves, to the right")
	}
}

// Wherever a beginner flies, the ground straight below the craft and the horizon are in his picture with it: the view tilts, and where that is not enough
// it grows, so that what is near looks smaller. One high above his head is not lost either.
func TestThePilotSeesTheGroundBelowIt(t *testing.T) {
	const away = 24
	rapid.Check(t, func(t *rapid.T) {
		f := ink.Rect{X: 10, Y: 20, W: rapid.Float64Range(400, 2000).Draw(t, "w")}
		f.H = f.W * rapid.Float64Range(0.3, 0.9).Draw(t, "high")
		p := vec.V{X: rapid.Float64Range(0, 60).Draw(t, "x"), Y: rapid.Float64Range(-20, 20).Draw(t, "y")}
		p.Z = -rapid.Float64Range(0, 1).Draw(t, "z") * 0.75 * math.Hypot(p.X+5.5, p.Y)
		c := view.Pilot(p, f, away)
		at, _, ok := c.See(p)
		require.True(t, ok && f.Inset(away-1e-6).Has(at), "the craft at %v in %v", at, f)
		foot, _, ok := c.See(vec.V{X: p.X, Y: p.Y})
		require.True(t, ok && f.Has(foot), "its shadow at %v in %v", foot, f)
		_, _, ok = c.Horizon()
		require.True(t, ok)
		far := view.Pilot(vec.V{X: 15, Z: -1.5}, f, away)
		require.LessOrEqual(t, c.Focal, far.Focal+1e-9, "it never comes nearer than at rest")
	})
	f := ink.Rect{W: 606, H: 229} // the least window
	for _, p := range []vec.V{{Z: -2.6}, {X: 10, Z: -5}} {
		c := view.Pilot(p, f, away)
		foot, _, _ := c.See(vec.V{X: p.X})
		assert.True(t, f.Has(foot), "%v", p)
	}
}

// A picture of the whole field is made without allocating.
func TestNothingIsAllocated(t *testing.T) {
	c := view.Aboard(vec.V{Z: -2}, vec.Q{W: 1}, 0.2).In(frame, wide)
	pts := make([]ink.Point, 0, 64)
	square := []vec.V{{X: 6, Y: 6}, {X: 6, Y: -6}, {X: -6, Y: -6}, {X: -6, Y: 6}}
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		c.Line(vec.V{X: -10}, vec.V{X: 10, Y: 3})
		c.Horizon()
		pts = c.Ground(c.Outline(pts[:0], square...))
	}))
}
