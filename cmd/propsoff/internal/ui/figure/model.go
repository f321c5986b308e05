package figure

import (
	"math"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/sim/body"
	"propsoff/sim/flight"
	"propsoff/sim/vec"
	"slices"
)

// Eye looks at the craft from far away: right and up on the sheet, and towards the eye, as directions in the world.
type Eye struct{ Right, up, to vec.V }

// EyeBehind looks along a heading, in rad.
func EyeBehind(facing float64) Eye {
	s, c := math.Sincos(facing)
	return Eye{Right: vec.V{X: -s, Y: c}, up: vec.V{Z: -1}, to: vec.V{X: -c, Y: -s}}
}

// EyeBeside looks across a heading with the nose to the right.
func EyeBeside(facing float64) Eye {
	s, c := math.Sincos(facing)
	return Eye{Right: vec.V{X: c, Y: s}, up: vec.V{Z: -1}, to: vec.V{X: -s, Y: c}}
}

// EyeAbove looks down with north up.
func EyeAbove() Eye { return Eye{Right: vec.V{Y: 1}, up: vec.V{X: 1}, to: vec.V{Z: -1}} }

// Model is the craft as it is drawn: an attitude before an eye, its middle at a place of the sheet, so many pixels for the
// longer half of the arms. Places on it are in body axes, that half being 1.
type Model struct {
	att    vec.Q
	eye    Eye
	Mid    ink.Point
	Scale  float64
	fx, fy float64 // where the motors sit
}

// NewModel is a craft of an attitude, its middle still to be set.
func NewModel(att vec.Q, e Eye, scale float64, cfg *body.Config) Model {
	long := max(cfg.ArmForward, cfg.ArmRight)
	if !(long > 0) {
		return Model{att: att, eye: e, Scale: scale, fx: 1, fy: 1}
	}
	return Model{att: att, eye: e, Scale: scale, fx: cfg.ArmForward / long, fy: cfg.ArmRight / long}
}

// At is where a place of the craft is seen.
func (m *Model) At(v vec.V) ink.Point {
	w := m.att.Turn(v)
	return ink.Point{X: m.Mid.X + w.Dot(m.eye.Right)*m.Scale, Y: m.Mid.Y - w.Dot(m.eye.up)*m.Scale}
}

// Near is how near the eye a place is.
func (m *Model) Near(v vec.V) float64 { return m.att.Turn(v).Dot(m.eye.to) }

// MotorAt is where a motor sits, in the order of the snapshot.
func (m *Model) MotorAt(i int) vec.V {
	v := vec.V{X: m.fx, Y: m.fy}
	if i >= 2 {
		v.X = -v.X
	}
	if i%2 == 0 {
		v.Y = -v.Y
	}
	return v
}

// Heights on the craft, up to down: its propellers, its pack's and its body's edges, and its feet.
const (
	propellerZ, propellerRadius = -0.27, 0.7
	packTop, bodyTop, bodyFoot  = -0.4, -0.16, 0.12
	feetZ                       = 0.44
)

// Below is how far below its middle the craft reaches on the sheet, px.
func (m *Model) Below() float64 {
	low := 0.0
	see := func(v vec.V) { low = max(low, -m.att.Turn(v).Dot(m.eye.up)) }
	for i := range flight.Motors {
		p := m.MotorAt(i)
		for k := range 16 {
			s, c := math.Sincos(float64(k) * math.Pi / 8)
			see(vec.V{X: p.X + c*propellerRadius, Y: p.Y + s*propellerRadius, Z: propellerZ})
		}
		see(vec.V{X: math.Copysign(0.39, p.X), Y: math.Copysign(0.39, p.Y), Z: feetZ})
		see(vec.V{X: math.Copysign(0.4, p.X), Y: math.Copysign(0.22, p.Y), Z: packTop})
	}
	return low * m.Scale
}

// box is an upright box of the craft between two corners.
type box struct{ lo, hi vec.V }

var (
	bodyBox = box{vec.V{X: -0.5, Y: -0.3, Z: bodyTop}, vec.V{X: 0.5, Y: 0.3, Z: bodyFoot}}
	packBox = box{vec.V{X: -0.4, Y: -0.22, Z: packTop}, vec.V{X: 0.3, Y: 0.22, Z: bodyTop}}
)

// face gives the corners of one of the six faces, in order round it, and the direction that it faces.
func (x *box) face(i int) (corners [4]vec.V, out vec.V) {
	lo, hi := x.lo, x.hi
	switch i {
	case 0:
		return [4]vec.V{{X: lo.X, Y: lo.Y, Z: lo.Z}, {X: hi.X, Y: lo.Y, Z: lo.Z}, {X: hi.X, Y: hi.Y, Z: lo.Z}, {X: lo.X, Y: hi.Y, Z: lo.Z}}, vec.V{Z: -1}
	case 1:
		return [4]vec.V{{X: lo.X, Y: lo.Y, Z: hi.Z}, {X: hi.X, Y: lo.Y, Z: hi.Z}, {X: hi.X, Y: hi.Y, Z: hi.Z}, {X: lo.X, Y: hi.Y, Z: hi.Z}}, vec.V{Z: 1}
	case 2:
		return [4]vec.V{{X: hi.X, Y: lo.Y, Z: lo.Z}, {X: hi.X, Y: hi.Y, Z: lo.Z}, {X: hi.X, Y: hi.Y, Z: hi.Z}, {X: hi.X, Y: lo.Y, Z: hi.Z}}, vec.V{X: 1}
	case 3:
		return [4]vec.V{{X: lo.X, Y: lo.Y, Z: lo.Z}, {X: lo.X, Y: hi.Y, Z: lo.Z}, {X: lo.X, Y: hi.Y, Z: hi.Z}, {X: lo.X, Y: lo.Y, Z: hi.Z}}, vec.V{X: -1}
	case 4:
		return [4]vec.V{{X: lo.X, Y: hi.Y, Z: lo.Z}, {X: hi.X, Y: hi.Y, Z: lo.Z}, {X: hi.X, Y: hi.Y, Z: hi.Z}, {X: lo.X, Y: hi.Y, Z: hi.Z}}, vec.V{Y: 1}
	}
	return [4]vec.V{{X: lo.X, Y: lo.Y, Z: lo.Z}, {X: hi.X, Y: lo.Y, Z: lo.Z}, {X: hi.X, Y: lo.Y, Z: hi.Z}, {X: lo.X, Y: lo.Y, Z: hi.Z}}, vec.V{Y: -1}
}

// part is one piece of the craft and how near the eye it is.
type part struct {
	what, motor int
	near        float64
}

const (
	armPart = iota
	motorPart
	hullPart
)

// Flyer draws the craft as it is, the parts nearest the eye last.
func (b *Board) Flyer(name string, m *Model, fl *Flying) {
	var parts [2*flight.Motors + 1]part
	for i := range flight.Motors {
		p := m.MotorAt(i)
		parts[2*i] = part{armPart, i, m.Near(p.Scale(0.66))}
		p.Z = propellerZ
		parts[2*i+1] = part{motorPart, i, m.Near(p)}
	}
	parts[2*flight.Motors] = part{hullPart, 0, 0.01}
	slices.SortStableFunc(parts[:], func(x, y part) int {
		switch {
		case x.near < y.near-1e-9:
			return -1
		case x.near > y.near+1e-9:
			return 1
		}
		return 0
	})
	for _, p := range parts {
		switch p.what {
		case armPart:
			end := m.MotorAt(p.motor)
			f, t := m.At(end.Scale(0.3)), m.At(end)
			b.Line(name+" arm", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(2*b.U, m.Scale*0.12)})
		case motorPart:
			b.flyerMotor(name, m, p.motor, fl)
		default:
			b.hull(name, m)
		}
	}
}

// hull draws body, pack, nose and feet. Planes part them, so that what lies on the far side of one is drawn first.
func (b *Board) hull(name string, m *Model) {
	above := m.Near(vec.V{Z: -1}) > 0
	before := m.Near(vec.V{X: 1}) > 0
	if !before {
		b.nose(name, m)
	}
	if above {
		b.feet(name, m)
	} else {
		b.block(name+" pack", m, &packBox)
	}
	b.block(name+" body", m, &bodyBox)
	if above {
		b.block(name+" pack", m, &packBox)
		if m.Near(vec.V{Z: -1}) > 0.3 { // the strap round the pack
			f, t := m.At(vec.V{X: -0.05, Y: -0.22, Z: packTop}), m.At(vec.V{X: -0.05, Y: 0.22, Z: packTop})
			b.Line(name+" strap", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(1.5*b.U, m.Scale*0.08)})
		}
	} else {
		if m.Near(vec.V{Z: 1}) > 0.3 { // the belly bears a cross
			for _, y := range [2]float64{-0.3, 0.3} {
				f, t := m.At(vec.V{X: -0.5, Y: y, Z: bodyFoot}), m.At(vec.V{X: 0.5, Y: -y, Z: bodyFoot})
				b.Line(name+" belly", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: 1.2 * b.U})
			}
		}
		b.feet(name, m)
	}
	if before {
		b.nose(name, m)
	}
}

// block draws the faces of a box that look at the eye.
func (b *Board) block(name string, m *Model, x *box) {
	for i := range 6 {
		corners, out := x.face(i)
		if m.Near(out) < 0.02 {
			continue
		}
		b.V.Pts = b.V.Pts[:0]
		for _, c := range corners {
			b.V.Pts = append(b.V.Pts, m.At(c))
		}
		b.Polygon(name, b.V.Pts, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * b.U})
	}
}

func (b *Board) nose(name string, m *Model) {
	var pts [5]ink.Point
	for i, v := range [5]vec.V{{X: 0.5, Y: -0.18, Z: -0.12}, {X: 0.5, Y: 0.18, Z: -0.12}, {X: 0.5, Y: 0.18, Z: 0.08}, {X: 0.5, Y: -0.18, Z: 0.08}, {X: 0.85, Z: -0.02}} {
		pts[i] = m.At(v)
	}
	b.V.Pts = hullOf(b.V.Pts[:0], pts[:])
	b.Polygon(name+" nose", b.V.Pts, ink.Paint{Fill: ink.Rule, Line: ink.Ink, Width: 1.3 * b.U})
}

func (b *Board) feet(name string, m *Model) {
	for i := range flight.Motors {
		p := m.MotorAt(i)
		f := m.At(vec.V{X: math.Copysign(0.35, p.X), Y: math.Copysign(0.3, p.Y), Z: bodyFoot})
		t := m.At(vec.V{X: math.Copysign(0.39, p.X), Y: math.Copysign(0.39, p.Y), Z: feetZ})
		b.Line(name+" foot", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: 1.5 * b.U})
	}
}

// flyerMotor draws a motor and the propeller fitted to it: two blades that stand still, or the ring that they sweep.
func (b *Board) flyerMotor(name string, m *Model, i int, fl *Flying) {
	p := m.MotorAt(i)
	f, t := m.At(vec.V{X: p.X, Y: p.Y, Z: 0.06}), m.At(vec.V{X: p.X, Y: p.Y, Z: -0.24})
	wide := max(3*b.U, m.Scale*0.26)
	if math.Hypot(f.X-t.X, f.Y-t.Y) > 1 {
		b.Line(name+" motor", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: wide})
	}
	b.Circle(name+" motor-bell", t.X, t.Y, wide/2, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: max(1.5*b.U, wide*0.25)})
	if fl.snap.In.Hands[i] == 0 {
		return
	}
	if fl.snap.Air.Body.Speed[i] > slowest {
		b.V.Pts = m.ring(b.V.Pts[:0], i)
		b.Polyline(name+" propeller-turning", b.V.Pts, ink.Paint{Line: ink.Ink, Width: 1.1 * b.U})
		return
	}
	s, c := math.Sincos(0.6 + float64(i))
	hub := vec.V{X: p.X, Y: p.Y, Z: propellerZ}
	tip := vec.V{X: c, Y: s}
	f, t = m.At(hub.Plus(propellerRadius, tip)), m.At(hub.Plus(-propellerRadius, tip))
	b.Line(name+" propeller", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(1.6*b.U, m.Scale*0.07)})
}

// slowest is the motor speed from which a propeller is drawn as the ring that it sweeps, rad/s (ours).
const slowest = 30

// ring appends the circle that a propeller sweeps, closed.
func (m *Model) ring(dst []ink.Point, i int) []ink.Point {
	const steps = 28
	p := m.MotorAt(i)
	for k := range steps + 1 {
		s, c := math.Sincos(float64(k%steps) * 2 * math.Pi / steps)
		dst = append(dst, m.At(vec.V{X: p.X + c*propellerRadius, Y: p.Y + s*propellerRadius, Z: propellerZ}))
	}
	return dst
}

// spirit draws the thin dashed outline of where the sticks ask the craft to be.
func (b *Board) spirit(name string, m *Model) {
	p := ink.Paint{Line: ink.Focus, Width: 1.4 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}}
	for i := range flight.Motors {
		b.V.Pts = m.ring(b.V.Pts[:0], i)
		b.Polyline(name+" ghost", b.V.Pts, p)
	}
	for i := range 2 {
		f, t := m.At(m.MotorAt(i)), m.At(m.MotorAt(3-i))
		b.Line(name+" ghost", f.X, f.Y, t.X, t.Y, p)
	}
	f, t := m.At(vec.V{X: 0.5}), m.At(vec.V{X: 1.15})
	b.Line(name+" ghost-nose", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Focus, Width: 1.8 * b.U})
}

// hullOf appends the smallest convex outline round some points (Andrew's monotone chain); pts is put in order.
func hullOf(dst, pts []ink.Point) []ink.Point {
	slices.SortFunc(pts, func(a, c ink.Point) int {
		if a.X < c.X || a.X == c.X && a.Y < c.Y {
			return -1
		}
		return 1
	})
	turn := func(o, a, c ink.Point) float64 { return (a.X-o.X)*(c.Y-o.Y) - (a.Y-o.Y)*(c.X-o.X) }
	from := len(dst)
	for pass := range 2 {
		start := len(dst)
		for k := range pts {
			q := pts[k]
			if pass == 1 {
				q = pts[len(pts)-1-k]
			}
			for len(dst) >= start+2 && turn(dst[len(dst)-2], dst[len(dst)-1], q) <= 0 {
				dst = dst[:len(dst)-1]
			}
			dst = append(dst, q)
		}
		dst = dst[:len(dst)-1]
	}
	if len(dst)-from < 3 {
		return dst[:from]
	}
	return dst
}
