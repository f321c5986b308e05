package figure

import (
	"cmp"
	"math"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/vec"
	"slices"
)

// Eye looks at the craft from far away: right and up on the sheet, and towards the eye, as directions in the world.
type Eye struct{ right, up, to vec.V }

// EyeBehind looks along a heading, in rad.
func EyeBehind(facing float64) Eye {
	s, c := math.Sincos(facing)
	return Eye{right: vec.V{X: -s, Y: c}, up: vec.V{Z: -1}, to: vec.V{X: -c, Y: -s}}
}

// EyeBeside looks across a heading with the nose to the right.
func EyeBeside(facing float64) Eye {
	s, c := math.Sincos(facing)
	return Eye{right: vec.V{X: c, Y: s}, up: vec.V{Z: -1}, to: vec.V{X: -s, Y: c}}
}

// EyeAbove looks down with north up.
var EyeAbove = Eye{right: vec.V{Y: 1}, up: vec.V{X: 1}, to: vec.V{Z: -1}}

// model is the craft as it is drawn: an attitude before an eye, its middle at a place of the sheet, so many pixels for the
// longer half of the arms. Places on it are in body axes, that half being 1.
type model struct {
	att    vec.Q
	eye    Eye
	mid    ink.Point
	scale  float64
	fx, fy float64 // where the motors sit
	// fore: the front propellers are drawn so that nobody takes them for the rear ones.
	fore bool
	// fz is how high it is by the heights below; 0 counts as 1.
	fz float64
	// sweep is how far what sits on a motor reaches from its middle: its propeller, or without one its bell.
	sweep float64
}

// model is the craft before an eye, its middle still to be set.
func (f *Flying) model(e Eye, scale float64) model {
	m := model{att: f.snap.Air.Body.Att.Unit(), eye: e, scale: scale, sweep: propellerRadius}.shaped(&f.cfg.Body)
	m.fz = f.cfg.Body.HalfHeight / f.arm() / Feet
	return m
}

// shaped is a model with its motors where those of a craft sit.
func (m model) shaped(c *body.Config) model {
	m.fx, m.fy = 1, 1
	if long := max(c.ArmForward, c.ArmRight); long > 0 {
		m.fx, m.fy = c.ArmForward/long, c.ArmRight/long
	}
	return m
}

// at is where a place of the craft is seen.
func (m *model) at(v vec.V) ink.Point {
	w := m.turned(v)
	return ink.Point{X: m.mid.X + w.Dot(m.eye.right)*m.scale, Y: m.mid.Y - w.Dot(m.eye.up)*m.scale}
}

// turned is a place of the craft as it lies in the world.
func (m *model) turned(v vec.V) vec.V {
	if m.fz > 0 {
		v.Z *= m.fz
	}
	return m.att.Turn(v)
}

// near is how near the eye a place is.
func (m *model) near(v vec.V) float64 { return m.turned(v).Dot(m.eye.to) }

// motorAt is where a motor sits, in the order of the snapshot.
func (m *model) motorAt(i int) vec.V {
	return vec.V{X: m.fx * [...]float64{1, 1, -1, -1}[i], Y: m.fy * [...]float64{-1, 1, -1, 1}[i]}
}

// Heights on the craft, up to down, as shares of the longer half of its arms: its propellers, the feet of its motors, its pack's and its body's edges,
// and its feet.
const (
	propellerZ, propellerRadius = -0.27, 0.7
	bellFoot, bellRadius        = 0.06, 0.14
	packTop, bodyTop, bodyFoot  = -0.4, -0.16, 0.12
	Feet                        = 0.44
)

// below is how far below its middle the craft reaches on the sheet, px.
func (m *model) below() float64 { return m.reaches(m.eye.up.Scale(-1)) }

// reaches is how far from its middle the craft reaches in a direction of the world across the ray to the eye, px.
func (m *model) reaches(way vec.V) float64 {
	far := 0.0
	see := func(v vec.V) { far = max(far, m.turned(v).Dot(way)) }
	for i := range flight.Motors {
		p := m.motorAt(i)
		for k := range 16 {
			s, c := math.Sincos(float64(k) * math.Pi / 8)
			see(vec.V{X: p.X + c*m.sweep, Y: p.Y + s*m.sweep, Z: propellerZ})
			see(vec.V{X: p.X + c*bellRadius, Y: p.Y + s*bellRadius, Z: bellFoot})
		}
		see(vec.V{X: math.Copysign(0.39, p.X), Y: math.Copysign(0.39, p.Y), Z: Feet})
		see(vec.V{X: math.Copysign(0.4, p.X), Y: math.Copysign(0.22, p.Y), Z: packTop})
	}
	return far * m.scale
}

// box is an upright box of the craft between two corners.
type box struct{ lo, hi vec.V }

var (
	bodyBox = box{vec.V{X: -0.5, Y: -0.3, Z: bodyTop}, vec.V{X: 0.5, Y: 0.3, Z: bodyFoot}}
	packBox = box{vec.V{X: -0.4, Y: -0.22, Z: packTop}, vec.V{X: 0.3, Y: 0.22, Z: bodyTop}}
)

// faces are the six faces of a box: the corners in order round each, by 1 where it is the higher one forward, 2 to the right and 4 down, and the
// direction that it faces.
var faces = [...]struct {
	corners [4]uint8
	out     vec.V
}{
	{[4]uint8{0, 1, 3, 2}, vec.V{Z: -1}}, {[4]uint8{4, 5, 7, 6}, vec.V{Z: 1}},
	{[4]uint8{1, 3, 7, 5}, vec.V{X: 1}}, {[4]uint8{0, 2, 6, 4}, vec.V{X: -1}},
	{[4]uint8{2, 3, 7, 6}, vec.V{Y: 1}}, {[4]uint8{0, 1, 5, 4}, vec.V{Y: -1}},
}

// corner is a corner of a box, counted as in faces.
func (x *box) corner(i uint8) vec.V {
	at := x.lo
	if i&1 != 0 {
		at.X = x.hi.X
	}
	if i&2 != 0 {
		at.Y = x.hi.Y
	}
	if i&4 != 0 {
		at.Z = x.hi.Z
	}
	return at
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

// flyer draws the craft as it flies, and under it its ghost where there is one.
func (b *Board) flyer(name string, m *model, fl *Flying) {
	if fl.Haunts {
		ghost := *m
		ghost.att = fl.ghost
		b.spirit(name, &ghost)
	}
	b.assembled(name, m, func(i int) { b.flyerMotor(name, m, i, fl) })
}

// assembled draws the parts of a craft, those nearest the eye last; its motors, with what sits on them, motor draws.
func (b *Board) assembled(name string, m *model, motor func(i int)) {
	var parts [2*flight.Motors + 1]part
	for i := range flight.Motors {
		p := m.motorAt(i)
		parts[2*i] = part{armPart, i, m.near(p.Scale(0.66))}
		p.Z = propellerZ
		parts[2*i+1] = part{motorPart, i, m.near(p)}
	}
	parts[2*flight.Motors] = part{hullPart, 0, 0.01}
	slices.SortStableFunc(parts[:], func(x, y part) int {
		if math.Abs(x.near-y.near) <= 1e-9 {
			return 0
		}
		return cmp.Compare(x.near, y.near)
	})
	for _, p := range parts {
		switch p.what {
		case armPart:
			end := m.motorAt(p.motor)
			b.stroke(name+" arm", m.at(end.Scale(0.3)), m.at(end), ink.Paint{Line: ink.Ink, Width: max(2*b.U, m.scale*0.12)})
		case motorPart:
			motor(p.motor)
		default:
			b.hull(name, m)
		}
	}
}

// hull draws body, pack, nose and feet. Planes part them, so that what lies on the far side of one is drawn first.
func (b *Board) hull(name string, m *model) {
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
			b.stroke(name+" strap", f, t, ink.Paint{Line: ink.Ink, Width: max(1.5*b.U, m.scale*0.08)})
		}
	} else {
		if m.near(vec.V{Z: 1}) > 0.3 { // the belly bears a cross
			for _, y := range [2]float64{-0.3, 0.3} {
				b.stroke(name+" belly", m.at(vec.V{X: -0.5, Y: y, Z: bodyFoot}), m.at(vec.V{X: 0.5, Y: -y, Z: bodyFoot}), ink.Paint{Line: ink.Ink, Width: 1.2 * b.U})
			}
		}
		b.feet(name, m)
	}
	if before {
		b.nose(name, m)
	}
}

// block draws the faces of a box that look at the eye.
func (b *Board) block(name string, m *model, x *box) {
	for _, f := range &faces {
		if m.near(f.out) < 0.02 {
			continue
		}
		b.V.Pts = b.V.Pts[:0]
		for _, c := range f.corners {
			b.V.Pts = append(b.V.Pts, m.at(x.corner(c)))
		}
		b.Polygon(name, b.V.Pts, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * b.U})
	}
}

func (b *Board) nose(name string, m *model) {
	var pts [5]ink.Point
	for i, v := range [5]vec.V{{X: 0.5, Y: -0.18, Z: -0.12}, {X: 0.5, Y: 0.18, Z: -0.12}, {X: 0.5, Y: 0.18, Z: 0.08}, {X: 0.5, Y: -0.18, Z: 0.08}, {X: 0.85, Z: -0.02}} {
		pts[i] = m.at(v)
	}
	b.V.Pts = hullOf(b.V.Pts[:0], pts[:])
	p := ink.Paint{Fill: ink.Rule, Line: ink.Ink, Width: 1.3 * b.U}
	if m.fore {
		p.Fill, p.Line = ink.Focus, ink.Focus
	}
	b.Polygon(name+" nose", b.V.Pts, p)
}

func (b *Board) feet(name string, m *model) {
	for i := range flight.Motors {
		p := m.motorAt(i)
		f := m.at(vec.V{X: math.Copysign(0.35, p.X), Y: math.Copysign(0.3, p.Y), Z: bodyFoot})
		t := m.at(vec.V{X: math.Copysign(0.39, p.X), Y: math.Copysign(0.39, p.Y), Z: Feet})
		b.stroke(name+" foot", f, t, ink.Paint{Line: ink.Ink, Width: 1.5 * b.U})
	}
}

// bell draws a motor.
func (b *Board) bell(name string, m *model, i int) {
	p := m.motorAt(i)
	f, t := m.at(vec.V{X: p.X, Y: p.Y, Z: bellFoot}), m.at(vec.V{X: p.X, Y: p.Y, Z: -0.24})
	wide := max(3*b.U, m.scale*0.26)
	if math.Hypot(f.X-t.X, f.Y-t.Y) > 1 {
		b.stroke(name+" motor", f, t, ink.Paint{Line: ink.Ink, Width: wide})
	}
	b.Circle(name+" motor-bell", t.X, t.Y, wide/2, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: max(1.5*b.U, wide*0.25)})
}

// flyerMotor draws a motor and the propeller fitted to it: two blades that stand still, or the ring that they sweep.
func (b *Board) flyerMotor(name string, m *model, i int, fl *Flying) {
	b.bell(name, m, i)
	if fl.snap.In.Hands[i] == 0 {
		return
	}
	if fl.snap.Air.Body.Speed[i] > slowest {
		b.V.Pts = m.ring(b.V.Pts[:0], i)
		b.Polyline(name+" propeller-turning", b.V.Pts, m.foremost(i, ink.Paint{Line: ink.Ink, Width: 1.1 * b.U}))
		return
	}
	s, c := math.Sincos(0.6 + float64(i))
	hub := m.motorAt(i)
	hub.Z = propellerZ
	tip := vec.V{X: c, Y: s}
	b.stroke(name+" propeller", m.at(hub.Plus(propellerRadius, tip)), m.at(hub.Plus(-propellerRadius, tip)), m.foremost(i, ink.Paint{Line: ink.Ink, Width: max(1.6*b.U, m.scale*0.07)}))
}

// foremost is how the propeller of a motor is drawn, by how those are drawn that need not be told apart.
func (m *model) foremost(i int, p ink.Paint) ink.Paint {
	if m.fore && i < 2 {
		p.Line, p.Width = ink.Focus, 2*p.Width
	}
	return p
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
func (b *Board) spirit(name string, m *model) {
	p := ink.Paint{Line: ink.Focus, Width: 1.4 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}}
	for i := range flight.Motors {
		b.V.Pts = m.ring(b.V.Pts[:0], i)
		b.Polyline(name+" ghost", b.V.Pts, p)
	}
	for i := range 2 {
		b.stroke(name+" ghost", m.at(m.motorAt(i)), m.at(m.motorAt(3-i)), p)
	}
	b.stroke(name+" ghost-nose", m.at(vec.V{X: 0.5}), m.at(vec.V{X: 1.15}), ink.Paint{Line: ink.Focus, Width: 1.8 * b.U})
}

// hullOf appends the smallest convex outline round some points (Andrew's monotone chain); pts is put in order.
func hullOf(dst, pts []ink.Point) []ink.Point {
	slices.SortFunc(pts, func(a, c ink.Point) int { return cmp.Or(cmp.Compare(a.X, c.X), cmp.Compare(a.Y, c.Y)) })
	turn := func(o, a, c ink.Point) float64 { return (a.X-o.X)*(c.Y-o.Y) - (a.Y-o.Y)*(c.X-o.X) }
	from := len(dst)
	for range 2 {
		start := len(dst)
		for _, q := range pts {
			for len(dst) >= start+2 && turn(dst[len(dst)-2], dst[len(dst)-1], q) <= 0 {
				dst = dst[:len(dst)-1]
			}
			dst = append(dst, q)
		}
		dst = dst[:len(dst)-1]
		slices.Reverse(pts)
	}
	if len(dst)-from < 3 {
		return dst[:from]
	}
	return dst
}
