package mesh

import "propsoff.example/cmd/propsoff/internal/ink"

// fill draws a closed outline: its inside at full strength up to half a pixel within the edge, and the fringe
// around it. An outline of more than 32 000 points is drawn without the points beyond.
func (m *Mesh) fill(pts []ink.Point) {
	pts = pts[:min(len(pts), maxVertices/2)]
	n := len(pts)
	if n < 3 {
		return
	}
	m.room(2 * n)
	side := fringe
	if ink.Area(pts) < 0 {
		side = -side
	}
	first := len(m.vertices)
	for i, q := range pts {
		o, _ := ink.Mitre(pts[(i+n-1)%n], q, pts[(i+1)%n], mitreLimit)
		m.vertex(q.X-o.X*side, q.Y-o.Y*side, 1)
		m.vertex(q.X+o.X*side, q.Y+o.Y*side, 0)
	}
	inner := func(i int) uint16 { return uint16(first + 2*i) }
	for i := range n {
		j := (i + 1) % n
		m.quad(inner(i), inner(i)+1, inner(j), inner(j)+1)
	}
	if convex(pts) {
		for i := 2; i < n; i++ {
			m.triangle(inner(0), inner(i-1), inner(i))
		}
		return
	}
	m.clipEars(pts, side > 0, inner)
}

// clipEars cuts a simple outline into triangles: a corner whose triangle holds no other point is cut off, until three
// are left. An outline that crosses itself may be left in part unfilled; it always ends.
func (m *Mesh) clipEars(pts []ink.Point, right bool, inner func(int) uint16) {
	m.ears = m.ears[:0]
	for i := range pts {
		if right {
			m.ears = append(m.ears, i)
		} else {
			m.ears = append(m.ears, len(pts)-1-i)
		}
	}
	e := m.ears
	for i, misses := 0, 0; len(e) > 3 && misses < len(e); {
		k := len(e)
		a, b, c := e[(i+k-1)%k], e[i%k], e[(i+1)%k]
		if !ear(pts, e, a, b, c) {
			i, misses = (i+1)%k, misses+1
			continue
		}
		m.triangle(inner(a), inner(b), inner(c))
		e = append(e[:i%k], e[i%k+1:]...)
		i, misses = i%len(e), 0
	}
	if len(e) == 3 {
		m.triangle(inner(e[0]), inner(e[1]), inner(e[2]))
	}
}

// ear tells whether the corner b of a clockwise outline turns right and its triangle holds none of the points left.
func ear(pts []ink.Point, left []int, a, b, c int) bool {
	if turn(pts[a], pts[b], pts[c]) <= 0 {
		return false
	}
	for _, q := range left {
		if q != a && q != b && q != c && turn(pts[a], pts[b], pts[q]) >= 0 && turn(pts[b], pts[c], pts[q]) >= 0 && turn(pts[c], pts[a], pts[q]) >= 0 {
			return false
		}
	}
	return true
}

// turn is positive if the way from a over b to c turns right on the screen.
func turn(a, b, c ink.Point) float64 { return (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X) }

// convex tells whether all turns go the same way and the outline goes round once only (few changes of direction in x).
func convex(pts []ink.Point) bool {
	n, sign, flips, last := len(pts), 0.0, 0, 0.0
	for i := range pts {
		a, b, c := pts[i], pts[(i+1)%n], pts[(i+2)%n]
		if t := turn(a, b, c); t != 0 {
			if t*sign < 0 {
				return false
			}
			sign = t
		}
		if d := b.X - a.X; d != 0 {
			if d*last < 0 {
				flips++
			}
			last = d
		}
	}
	return flips <= 2
}
