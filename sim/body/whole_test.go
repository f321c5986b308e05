package body_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/spatial/r3"

	"propsoff.example/sim/body"
	"propsoff.example/sim/vec"
)

// The whole craft in the air against a body written by itself: axes east, north, up and forward, left, up; attitude as a matrix; momentum
// and angular momentum of everything together (what turns in the motors included) instead of speeds; the motors' solution in closed form;
// and Gragg's modified midpoint with Richardson extrapolation instead of Runge-Kutta.
func TestTheWholeCraftAgainstAnIndependentBody(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 17))
	worst := 0.0
	for range 30 {
		c := body.Default()
		c.Pack = body.Pack{} // its law is checked by itself
		seconds := 0.3
		if rng.IntN(3) == 0 { // for a moment: it soon tumbles past the end of the straight line of thrust, where both solve a kink as they can
			c.Hand[rng.IntN(4)] *= -1
			seconds = 0.05
		}
		s := high()
		s.Att = vec.Q{W: 1, X: rng.NormFloat64() * 0.3, Y: rng.NormFloat64() * 0.3, Z: rng.NormFloat64()}.Unit()
		s.Vel = vec.V{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: 0.5 * rng.NormFloat64()}
		s.Spin = vec.V{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}
		in := body.Input{Wind: vec.V{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: 0.3 * rng.NormFloat64()}}
		for i := range in.Command {
			in.Command[i] = 0.4 + 0.03*rng.Float64()
			s.Speed[i] = 1000 + 130*rng.Float64()
		}
		other := asOther(&c, &s, &in)
		for range int(math.Round(seconds * 1000)) {
			s = body.Step(&c, s, &in, ms)
		}
		end := other.run(seconds)
		place, speed, rate, axes := end.told()
		for i, pair := range [][2]r3.Vec{{place, enu(s.Pos)}, {speed, enu(s.Vel)}, {rate, flu(s.Spin)}} {
			off := r3.Norm(r3.Sub(pair[0], pair[1]))
			worst = max(worst, off)
			assert.Less(t, off, 5e-8, "%d: place, speed, rate", i)
		}
		for i, axis := range []vec.V{{X: 1}, {Y: -1}, {Z: -1}} {
			off := r3.Norm(r3.Sub(axes[i], enu(s.Att.Turn(axis))))
			worst = max(worst, off)
			assert.Less(t, off, 5e-8, "axis %d", i)
		}
	}
	t.Logf("they are %.2g apart at most", worst)
}

func enu(v vec.V) r3.Vec { return r3.Vec{X: v.Y, Y: v.X, Z: -v.Z} }
func flu(v vec.V) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: -v.Z} }

// other is a craft by momentum: 3 of place, 3 of momentum, 9 of the matrix whose columns are forward, left and up, 3 of angular momentum
// about its middle in the world.
type other struct {
	c    *body.Config
	from [4]float64 // motor speeds at the beginning
	to   [4]float64 // and where they go
	wind r3.Vec
	t    float64
	y    [18]float64
}

func asOther(c *body.Config, s *body.State, in *body.Input) other {
	o := other{c: c, from: s.Speed, wind: enu(in.Wind)}
	for i := range o.to {
		o.to[i] = in.Command[i] * c.FullSpeed
	}
	put := func(at int, v r3.Vec) { o.y[at], o.y[at+1], o.y[at+2] = v.X, v.Y, v.Z }
	put(0, enu(s.Pos))
	put(3, r3.Scale(c.Mass, enu(s.Vel)))
	fwd, left, up := enu(s.Att.Turn(vec.V{X: 1})), enu(s.Att.Turn(vec.V{Y: -1})), enu(s.Att.Turn(vec.V{Z: -1}))
	put(6, fwd)
	put(9, left)
	put(12, up)
	w := flu(s.Spin)
	l := r3.Scale(c.Inertia.X*w.X, fwd)
	l = r3.Add(l, r3.Scale(c.Inertia.Y*w.Y, left))
	l = r3.Add(l, r3.Scale(c.Inertia.Z*w.Z+o.stored(0), up))
	put(15, l)
	return o
}

// motor is the speed of motor i at a time: first-order lag in closed form.
func (o *other) motor(i int, t float64) float64 {
	return o.to[i] + (o.from[i]-o.to[i])*math.Exp(-t/o.c.Lag)
}

// stored is the angular momentum about up of what turns in the motors; clockwise from above is negative there.
func (o *other) stored(t float64) (l float64) {
	for i, turns := range o.c.Turns {
		l -= o.c.Turning * float64(turns) * o.motor(i, t)
	}
	return l
}

func three(y *[18]float64, at int) r3.Vec { return r3.Vec{X: y[at], Y: y[at+1], Z: y[at+2]} }

func (o *other) rate(t float64, y *[18]float64) r3.Vec {
	l := three(y, 15)
	return r3.Vec{
		X: r3.Dot(l, three(y, 6)) / o.c.Inertia.X, Y: r3.Dot(l, three(y, 9)) / o.c.Inertia.Y,
		Z: (r3.Dot(l, three(y, 12)) - o.stored(t)) / o.c.Inertia.Z,
	}
}

func (o *other) told() (place, speed, rate r3.Vec, axes [3]r3.Vec) {
	return three(&o.y, 0), r3.Scale(1/o.c.Mass, three(&o.y, 3)), o.rate(o.t, &o.y), [3]r3.Vec{three(&o.y, 6), three(&o.y, 9), three(&o.y, 12)}
}

// slope is force, torque and turning in the world.
func (o *other) slope(t float64, y *[18]float64) (d [18]float64) {
	c := o.c
	put := func(at int, v r3.Vec) { d[at], d[at+1], d[at+2] = v.X, v.Y, v.Z }
	fwd, left, up := three(y, 6), three(y, 9), three(y, 12)
	speed := r3.Scale(1/c.Mass, three(y, 3))
	b := o.rate(t, y)
	spin := r3.Add(r3.Add(r3.Scale(b.X, fwd), r3.Scale(b.Y, left)), r3.Scale(b.Z, up))
	air := r3.Sub(speed, o.wind)
	force := r3.Add(r3.Vec{Z: -c.Mass * body.Gravity}, r3.Scale(-c.Drag1-c.Drag2*r3.Norm(air), air))
	torque := r3.Scale(-c.Spin1-c.Spin2*r3.Norm(spin), spin)
	for i, at := range [4][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} { // forward, left
		arm := r3.Add(r3.Scale(at[0]*c.ArmForward, fwd), r3.Scale(at[1]*c.ArmRight, left))
		through := r3.Add(air, r3.Cross(spin, arm))
		w := o.motor(i, t)
		n := w / (2 * math.Pi)
		sign, k := 1.0, c.Thrust*4*math.Pi*math.Pi
		if c.Hand[i] != c.Turns[i] {
			sign, k = -1, k*c.Reversed
		}
		j := sign * r3.Dot(through, up) / (n * c.Diameter)
		j = math.Min(math.Max(j, -0.2), c.Idle+0.2)
		push := r3.Scale(sign*k*n*n*(1-j/c.Idle), up)
		across := r3.Sub(through, r3.Scale(r3.Dot(through, up), up))
		push = r3.Add(push, r3.Scale(-c.RotorDrag*w, across))
		force = r3.Add(force, push)
		torque = r3.Add(torque, r3.Cross(arm, push))
		torque = r3.Add(torque, r3.Scale(float64(c.Turns[i])*c.Torque*w*w, up)) // the air holds it back, and the craft with it
	}
	put(0, speed)
	put(3, force)
	for at := 6; at < 15; at += 3 {
		put(at, r3.Cross(spin, three(y, at)))
	}
	put(15, torque)
	return d
}

func (o other) run(seconds float64) other {
	const h = 0.01
	for range int(math.Round(seconds / h)) {
		var t [6][18]float64
		for j := range t {
			n := 2 * (j + 1)
			t[j] = o.midpoint(h, n)
			for k := j - 1; k >= 0; k-- {
				f := math.Pow(float64(j+1)/float64(k+1), 2) - 1
				for x := range t[k] {
					t[k][x] = t[k+1][x] + (t[k+1][x]-t[k][x])/f
				}
			}
		}
		o.y, o.t = t[0], o.t+h
	}
	return o
}

func (o *other) midpoint(h float64, n int) [18]float64 {
	k := h / float64(n)
	plus := func(a [18]float64, k float64, d [18]float64) [18]float64 {
		for i := range a {
			a[i] += k * d[i]
		}
		return a
	}
	before := o.y
	now := plus(before, k, o.slope(o.t, &before))
	for i := 1; i < n; i++ {
		before, now = now, plus(before, 2*k, o.slope(o.t+float64(i)*k, &now))
	}
	last := plus(plus(before, 1, now), k, o.slope(o.t+h, &now))
	for i := range last {
		last[i] /= 2
	}
	return last
}
