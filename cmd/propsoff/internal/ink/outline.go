package ink

import "math"

// How far, in pixels, a drawn chord may lie from the true circle.
const flatness = 0.1

// Outline appends the edge of a shape as straight pieces to dst: curves are flattened to within a tenth of a pixel.
// closed tells whether the last point joins the first. With inset > 0 the edge of a closed shape is moved inwards by
// so many pixels: half the line width gives the middle of its outline. A text has no outline.
func (p *Page) Outline(dst []Point, it *Item, inset float64) (pts []Point, closed bool) {
	switch it.Kind {
	case KindLine:
		return append(dst, it.A, it.B), false
	case KindArc:
		return appendArc(dst, it.A.X, it.A.Y, it.Radius, it.From, it.To), false
	case KindPolyline:
		return append(dst, p.Points(it)...), false
	case KindRect:
		b := it.Box.Inset(inset)
		return append(dst, Point{b.X, b.Y}, Point{b.Right(), b.Y}, Point{b.Right(), b.Bottom()}, Point{b.X, b.Bottom()}), true
	case KindRoundRect:
		b, r := it.Box.Inset(inset), math.Max(0, it.Radius-inset)
		dst = appendArc(dst, b.X+r, b.Y+r, r, math.Pi, 1.5*math.Pi)
		dst = appendArc(dst, b.Right()-r, b.Y+r, r, 1.5*math.Pi, 2*math.Pi)
		dst = appendArc(dst, b.Right()-r, b.Bottom()-r, r, 0, math.Pi/2)
		return appendArc(dst, b.X+r, b.Bottom()-r, r, math.Pi/2, math.Pi), true
	case KindCircle:
		dst = appendArc(dst, it.A.X, it.A.Y, math.Max(0, it.Radius-inset), 0, 2*math.Pi)
		return dst[:len(dst)-1], true
	case KindBand:
		a, b := p.Sides(it)
		dst = append(dst, a...)
		for i := len(b) - 1; i >= 0; i-- {
			dst = append(dst, b[i])
		}
		return dst, true
	case KindPolygon:
		return appendInset(dst, p.Points(it), inset), true
	}
	return dst, false
}

// BandPieces hands on what a band fills between each two neighbours of its points: a piece with four corners, or two
// with three (n) where the sides cross.
func BandPieces(a, b []Point, emit func(corners [4]Point, n int)) {
	for i := 1; i < len(a) && i < len(b); i++ {
		if at, ok := meeting(a[i-1], a[i], b[i-1], b[i]); ok {
			emit([4]Point{a[i-1], at, b[i-1]}, 3)
			emit([4]Point{a[i], at, b[i]}, 3)
			continue
		}
		emit([4]Point{a[i-1], a[i], b[i], b[i-1]}, 4)
	}
}

// meeting is the place where the segments a–b and c–d cross inside both.
func meeting(a, b, c, d Point) (Point, bool) {
	u, v := Point{b.X - a.X, b.Y - a.Y}, Point{d.X - c.X, d.Y - c.Y}
	det := u.X*v.Y - u.Y*v.X
	if math.Abs(det) < 1e-12 {
		return Point{}, false
	}
	s := ((c.X-a.X)*v.Y - (c.Y-a.Y)*v.X) / det
	t := ((c.X-a.X)*u.Y - (c.Y-a.Y)*u.X) / det
	if s <= 0 || s >= 1 || t <= 0 || t >= 1 {
		return Point{}, false
	}
	return Point{a.X + u.X*s, a.Y + u.Y*s}, true
}

// appendArc appends an arc as chords, both ends included; a radius of nothing gives one point.
func appendArc(dst []Point, x, y, r, from, to float64) []Point {
	if r < flatness {
		return append(dst, Point{x, y})
	}
	n := max(1, int(math.Ceil(math.Abs(to-from)/(2*math.Acos(1-flatness/r)))))
	for i := range n + 1 {
		s, c := math.Sincos(from + (to-from)*float64(i)/float64(n))
		dst = append(dst, Point{x + r*c, y + r*s})
	}
	return dst
}

// appendInset appends a polygon whose edges are moved inwards by d, corners cut no sharper than twice d.
func appendInset(dst, pts []Point, d float64) []Point {
	if d == 0 {
		return append(dst, pts...)
	}
	if Area(pts) < 0 {
		d = -d
	}
	n := len(pts)
	for i, p := range pts {
		o, _ := Mitre(pts[(i+n-1)%n], p, pts[(i+1)%n], 2)
		dst = append(dst, Point{p.X - o.X*d, p.Y - o.Y*d})
	}
	return dst
}

// Area is the signed area of a closed outline: positive when it runs clockwise on the screen.
func Area(pts []Point) float64 {
	sum := 0.0
	for i, j := 0, len(pts)-1; i < len(pts); j, i = i, i+1 {
		sum += pts[j].X*pts[i].Y - pts[i].X*pts[j].Y
	}
	return sum / 2
}

// Mitre is the offset of the corner at b, on the way from a over b to c, that moves both edges by one pixel to the
// left of the way as the screen shows it (the outside of an outline that runs clockwise). Corners sharper than limit
// times the offset are cut there, and sharp is true.
func Mitre(a, b, c Point, limit float64) (o Point, sharp bool) {
	u, uok := unit(a, b)
	v, vok := unit(b, c)
	switch {
	case !uok && !vok:
		return Point{}, false
	case !uok:
		u = v
	case !vok:
		v = u
	}
	n := Point{u.Y + v.Y, -u.X - v.X} // the sum of the two normals
	if l := n.X*n.X + n.Y*n.Y; l > 4/(limit*limit) {
		return Point{n.X * 2 / l, n.Y * 2 / l}, false
	}
	if l := math.Hypot(n.X, n.Y); l > 1e-9 {
		return Point{n.X / l * limit, n.Y / l * limit}, true
	}
	return Point{u.Y, -u.X}, true // the way turns straight back
}

// unit is the direction from a to b; ok is false if they are the same place.
func unit(a, b Point) (u Point, ok bool) {
	d := Point{b.X - a.X, b.Y - a.Y}
	l := math.Sqrt(d.X*d.X + d.Y*d.Y)
	if l < 1e-9 {
		return Point{}, false
	}
	return Point{d.X / l, d.Y / l}, true
}

// Pieces cuts a way into what a Dash draws and hands each piece on; the slice is valid during the call only. Scratch
// is a buffer to work in. Without a dash the whole way is one piece (a closed one comes back to its first point).
func Pieces(pts []Point, closed bool, dash Dash, scratch []Point, emit func(piece []Point, closed bool)) []Point {
	if dash.On <= 0 || dash.Off <= 0 {
		emit(pts, closed)
		return scratch
	}
	scratch = scratch[:0]
	n := len(pts)
	if closed {
		n++
	}
	left, on := dash.On, true
	for i := 1; i < n; i++ {
		a, b := pts[i-1], pts[i%len(pts)]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		if on && len(scratch) == 0 {
			scratch = append(scratch, a)
		}
		for at := 0.0; l > 0; {
			if at+left >= l {
				left -= l - at
				if on {
					scratch = append(scratch, b)
				}
				break
			}
			at += left
			cut := Point{a.X + (b.X-a.X)*at/l, a.Y + (b.Y-a.Y)*at/l}
			scratch = append(scratch, cut)
			if on {
				emit(scratch, false)
				scratch, left = scratch[:0], dash.Off
			} else {
				left = dash.On
			}
			on = !on
		}
	}
	if on && len(scratch) > 1 {
		emit(scratch, false)
	}
	return scratch[:0]
}
