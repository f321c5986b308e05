package mesh

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// The most vertices that one point of a stroke can need: the band's end and start, and a disc.
const pointRoom = 80

// A band is a stroke while it grows: at each point four vertices across the way, faded – full – full – faded.
type band struct {
	full, faded, strength float64
	last                  [4]uint16
	begun                 bool
}

// stroke draws a way in the width that is set. At a sharp turn the band ends and starts anew, and a disc fills the gap.
func (m *Mesh) stroke(pts []ink.Point, closed bool) {
	n := len(pts)
	if n < 2 {
		return
	}
	half := m.width / 2
	b := band{full: half - fringe, faded: half + fringe, strength: 1}
	if b.full < 0 { // thinner than a pixel: as wide as one, but weaker
		b.full, b.faded, b.strength = 0, 1, math.Min(1, m.width)
	}
	steps := n
	if closed {
		steps++
	}
	for k := range steps {
		at, before, after := pts[k%n], pts[(k+n-1)%n], pts[(k+1)%n]
		if !closed && k == 0 {
			before = at
		}
		if !closed && k == n-1 {
			after = at
		}
		m.keep(&b)
		o, sharp := ink.Mitre(before, at, after, mitreLimit)
		switch {
		case sharp:
		case !closed && k == 0:
			m.end(&b, at, o, 0, b.strength)
			continue
		case !closed && k == n-1:
			m.end(&b, at, o, b.strength, 0)
			continue
		default:
			m.across(&b, at, o, b.strength)
			continue
		}
		in, _ := ink.Mitre(before, at, at, mitreLimit)
		out, _ := ink.Mitre(at, at, after, mitreLimit)
		if k > 0 {
			m.across(&b, at, in, b.strength)
		}
		b.begun = false
		if k < steps-1 {
			m.across(&b, at, out, b.strength)
		}
		m.disc(at, half)
	}
}

// across adds the four vertices of one point, of a strength 0 … 1, and joins them to those before. o is the way turned left.
func (m *Mesh) across(b *band, at, o ink.Point, strength float64) {
	v := [4]uint16{
		m.vertex(at.X+o.X*b.faded, at.Y+o.Y*b.faded, 0), m.vertex(at.X+o.X*b.full, at.Y+o.Y*b.full, strength),
		m.vertex(at.X-o.X*b.full, at.Y-o.Y*b.full, strength), m.vertex(at.X-o.X*b.faded, at.Y-o.Y*b.faded, 0),
	}
	if b.begun {
		m.quad(b.last[0], b.last[1], v[0], v[1])
		if b.full > 0 {
			m.quad(b.last[1], b.last[2], v[1], v[2])
		}
		m.quad(b.last[2], b.last[3], v[2], v[3])
	}
	b.last, b.begun = v, true
}

// end begins or ends the band with a fringe across the way: its strength goes from one to the other over the pixel around the end.
func (m *Mesh) end(b *band, at, o ink.Point, from, to float64) {
	m.across(b, ink.Point{X: at.X + o.Y*fringe, Y: at.Y - o.X*fringe}, o, from)
	m.across(b, ink.Point{X: at.X - o.Y*fringe, Y: at.Y + o.X*fringe}, o, to)
}

// keep makes room for the next point; if that flushes, the band's last four vertices are carried over.
func (m *Mesh) keep(b *band) {
	if len(m.vertices)+pointRoom <= maxVertices {
		return
	}
	var last [4]Vertex
	for i, v := range b.last {
		if b.begun {
			last[i] = m.vertices[v]
		}
	}
	m.done()
	for i, v := range last {
		if b.begun {
			m.vertices = append(m.vertices, v)
			b.last[i] = uint16(i)
		}
	}
}

// disc draws the round joint of a wide stroke; on a thin one it would not be seen.
func (m *Mesh) disc(at ink.Point, r float64) {
	if r < 0.75 {
		return
	}
	n := min(24, 6+int(r))
	centre := m.vertex(at.X, at.Y, 1)
	first := uint16(len(m.vertices))
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		m.vertex(at.X+c*(r-fringe), at.Y+s*(r-fringe), 1)
		m.vertex(at.X+c*(r+fringe), at.Y+s*(r+fringe), 0)
	}
	for i := range uint16(n) {
		a, b := first+2*i, first+2*((i+1)%uint16(n))
		m.triangle(centre, a, b)
		m.quad(a, a+1, b, b+1)
	}
}

// band fills between two strokes and draws each of them one pixel wide, which smooths the edges and keeps a band that
// shrinks to nothing in sight.
func (m *Mesh) band(a, b []ink.Point) {
	ink.BandPieces(a, b, m.corner)
	m.width = 1
	m.stroke(a, false)
	m.stroke(b, false)
}

// corners draws a small convex piece without a fringe.
func (m *Mesh) corners(c [4]ink.Point, n int) {
	m.room(n)
	first := m.vertex(c[0].X, c[0].Y, 1)
	for i, q := range c[1:n] {
		v := m.vertex(q.X, q.Y, 1)
		if i > 0 {
			m.triangle(first, v-1, v)
		}
	}
}
