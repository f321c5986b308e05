package sheet

import (
	"math"
	"slices"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/sim/body"
	"propsoff/sim/flight"
	"propsoff/sim/vec"
)

// eye looks at the craft from far away: right and up on the sheet, and towards the eye, as directions in the world.
type eye struct{ right, up, to vec.V }

// eyeBehind looks along a heading (rad), eyeBeside across it with the nose to the right, eyeAbove down with north up.
func eyeBehind(facing float64) eye {
	s, c := math.Sincos(facing)
	return eye{right: vec.V{X: -s, Y: c}, up: vec.V{Z: -1}, to: vec.V{X: -c, Y: -s}}
}

func eyeBeside(facing float64) eye {
	s, c := math.Sincos(facing)
	return eye{right: vec.V{X: c, Y: s}, up: vec.V{Z: -1}, to: vec.V{X: -s, Y: c}}
}

func eyeAbove() eye { return eye{right: vec.V{Y: 1}, up: vec.V{X: 1}, to: vec.V{Z: -1}} }

// model is the craft as it is drawn: an attitude before an eye, its middle at a place of the sheet, so many pixels for the
// longer half of the arms. Places on it are in body axes, that half being 1.
type model struct {
	att    vec.Q
	eye    eye
	mid    ink.Point
	scale  float64
	fx, fy float64 // where the motors sit
}

func newModel(att vec.Q, e eye, scale float64, cfg *body.Config) model {
	long := max(cfg.ArmForward, cfg.ArmRight)
	if !(long > 0) {
		return model{att: att, eye: e, scale: scale, fx: 1, fy: 1}
	}
	return model{att: att, eye: e, scale: scale, fx: cfg.ArmForward / long, fy: cfg.ArmRight / long}
}

func (m *model) at(v vec.V) ink.Point {
	w := m.att.Turn(v)
	return ink.Point{X: m.mid.X + w.Dot(m.eye.right)*m.scale, Y: m.mid.Y - w.Dot(m.eye.up)*m.scale}
}

// near is how near the eye a place is.
func (m *model) near(v vec.V) float64 { return m.att.Turn(v).Dot(m.eye.to) }

// motorAt is where a motor sits, in the order of the snapshot.
func (m *model) motorAt(i int) vec.V {
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

// below is how far below its middle the craft reaches on the sheet, px.
func (m *model) below() float64 {
	low := 0.0
	see := func(v vec.V) { low = max(low, -m.att.Turn(v).Dot(m.eye.up)) }
	for i := range flight.Motors {
		p := m.motorAt(i)
		for k := range 16 {
			s, c := math.Sincos(float64(k) * math.Pi / 8)
			see(vec.V{X: p.X + c*propellerRadius, Y: p.Y + s*propellerRadius, Z: propellerZ})
		}
		see(vec.V{X: math.Copysign(0.39, p.X), Y: math.Copysign(0.39, p.Y), Z: feetZ})
		see(vec.V{X: math.Copysign(0.4, p.X), Y: math.Copysign(0.22, p.Y), Z: packTop})
	}
	return low * m.scale
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

// flyer draws the craft as it is, the parts nearest the eye last.
func (b *board) flyer(name string, m *model, fl *flying) {
	var parts [2*flight.Motors + 1]part
	for i := range flight.Motors {
		p := m.motorAt(i)
		parts[2*i] = part{armPart, i, m.near(p.Scale(0.66))}
		p.Z = propellerZ
		parts[2*i+1] = part{motorPart, i, m.near(p)}
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
			end := m.motorAt(p.motor)
			f, t := m.at(end.Scale(0.3)), m.at(end)
			b.Line(name+" arm", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(2*b.u, m.scale*0.12)})
		case motorPart:
			b.flyerMotor(name, m, p.motor, fl)
		default:
			b.hull(name, m)
		}
	}
}

// hull draws body, pack, nose and feet. Planes part them, so that what lies on the far side of one is drawn first.
func (b *board) hull(name string, m *model) {
	above := m.near(vec.V{Z: -1}) > 0
	before := m.near(vec.V{X: 1}) > 0
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
		if m.near(vec.V{Z: -1}) > 0.3 { // the strap round the pack
			f, t := m.at(vec.V{X: -0.05, Y: -0.22, Z: packTop}), m.at(vec.V{X: -0.05, Y: 0.22, Z: packTop})
			b.Line(name+" strap", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(1.5*b.u, m.scale*0.08)})
		}
	} else {
		if m.near(vec.V{Z: 1}) > 0.3 { // the belly bears a cross
			for _, y := range [2]float64{-0.3, 0.3} {
				f, t := m.at(vec.V{X: -0.5, Y: y, Z: bodyFoot}), m.at(vec.V{X: 0.5, Y: -y, Z: bodyFoot})
				b.Line(name+" belly", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: 1.2 * b.u})
			}
		}
		b.feet(name, m)
	}
	if before {
		b.nose(name, m)
	}
}

// block draws the faces of a box that look at the eye.
func (b *board) block(name string, m *model, x *box) {
	for i := range 6 {
		corners, out := x.face(i)
		if m.near(out) < 0.02 {
			continue
		}
		b.v.pts = b.v.pts[:0]
		for _, c := range corners {
			b.v.pts = append(b.v.pts, m.at(c))
		}
		b.Polygon(name, b.v.pts, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * b.u})
	}
}

func (b *board) nose(name string, m *model) {
	var pts [5]ink.Point
	for i, v := range [5]vec.V{{X: 0.5, Y: -0.18, Z: -0.12}, {X: 0.5, Y: 0.18, Z: -0.12}, {X: 0.5, Y: 0.18, Z: 0.08}, {X: 0.5, Y: -0.18, Z: 0.08}, {X: 0.85, Z: -0.02}} {
		pts[i] = m.at(v)
	}
	b.v.pts = hullOf(b.v.pts[:0], pts[:])
	b.Polygon(name+" nose", b.v.pts, ink.Paint{Fill: ink.Rule, Line: ink.Ink, Width: 1.3 * b.u})
}

func (b *board) feet(name string, m *model) {
	for i := range flight.Motors {
		p := m.motorAt(i)
		f := m.at(vec.V{X: math.Copysign(0.35, p.X), Y: math.Copysign(0.3, p.Y), Z: bodyFoot})
		t := m.at(vec.V{X: math.Copysign(0.39, p.X), Y: math.Copysign(0.39, p.Y), Z: feetZ})
		b.Line(name+" foot", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: 1.5 * b.u})
	}
}

// flyerMotor draws a motor and the propeller fitted to it: two blades that stand still, or the ring that they sweep.
func (b *board) flyerMotor(name string, m *model, i int, fl *flying) {
	p := m.motorAt(i)
	f, t := m.at(vec.V{X: p.X, Y: p.Y, Z: 0.06}), m.at(vec.V{X: p.X, Y: p.Y, Z: -0.24})
	wide := max(3*b.u, m.scale*0.26)
	if math.Hypot(f.X-t.X, f.Y-t.Y) > 1 {
		b.Line(name+" motor", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: wide})
	}
	b.Circle(name+" motor bell", t.X, t.Y, wide/2, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: max(1.5*b.u, wide*0.25)})
	if fl.snap.In.Hands[i] == 0 {
		return
	}
	if fl.snap.Air.Body.Speed[i] > slowest {
		b.v.pts = m.ring(b.v.pts[:0], i)
		b.Polyline(name+" propeller turning", b.v.pts, ink.Paint{Line: ink.Ink, Width: 1.1 * b.u})
		return
	}
	s, c := math.Sincos(0.6 + float64(i))
	hub := vec.V{X: p.X, Y: p.Y, Z: propellerZ}
	tip := vec.V{X: c, Y: s}
	f, t = m.at(hub.Plus(propellerRadius, tip)), m.at(hub.Plus(-propellerRadius, tip))
	b.Line(name+" propeller", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Ink, Width: max(1.6*b.u, m.scale*0.07)})
}

// slowest is the motor speed from which a propeller is drawn as the ring that it sweeps, rad/s (ours).
const slowest = 30

// ring appends the circle that a propeller sweeps, closed.
func (m *model) ring(dst []ink.Point, i int) []ink.Point {
	const steps = 28
	p := m.motorAt(i)
	for k := range steps + 1 {
		s, c := math.Sincos(float64(k%steps) * 2 * math.Pi / steps)
		dst = append(dst, m.at(vec.V{X: p.X + c*propellerRadius, Y: p.Y + s*propellerRadius, Z: propellerZ}))
	}
	return dst
}

// spirit draws the thin dashed outline of where the sticks ask the craft to be.
func (b *board) spirit(name string, m *model) {
	p := ink.Paint{Line: ink.Focus, Width: 1.4 * b.u, Dash: ink.Dash{On: 4 * b.u, Off: 3 * b.u}}
	for i := range flight.Motors {
		b.v.pts = m.ring(b.v.pts[:0], i)
		b.Polyline(name+" ghost", b.v.pts, p)
	}
	for i := range 2 {
		f, t := m.at(m.motorAt(i)), m.at(m.motorAt(3-i))
		b.Line(name+" ghost", f.X, f.Y, t.X, t.Y, p)
	}
	f, t := m.at(vec.V{X: 0.5}), m.at(vec.V{X: 1.15})
	b.Line(name+" ghost nose", f.X, f.Y, t.X, t.Y, ink.Paint{Line: ink.Focus, Width: 1.8 * b.u})
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
