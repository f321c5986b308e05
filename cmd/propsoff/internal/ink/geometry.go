package ink

import "math"

// Point is a place on a page in pixels, x to the right, y down.
type Point struct{ X, Y float64 }

// Rect is an upright rectangle in pixels: its top left corner and its size.
type Rect struct{ X, Y, W, H float64 }

// Right is the x of the right edge.
func (r Rect) Right() float64 { return r.X + r.W }

// Bottom is the y of the lower edge.
func (r Rect) Bottom() float64 { return r.Y + r.H }

// Centre is the middle of the rectangle.
func (r Rect) Centre() Point { return Point{r.X + r.W/2, r.Y + r.H/2} }

// Empty tells whether the rectangle has no area.
func (r Rect) Empty() bool { return r.W <= 0 || r.H <= 0 }

// Finite tells whether its place and size are numbers, and none of them infinite.
func (r Rect) Finite() bool { return finite(r.X, r.Y, r.W, r.H) }

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Inset moves every edge inwards by d pixels (outwards if negative).
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Has tells whether a point lies in the rectangle; its left and upper edges belong to it, the others do not.
func (r Rect) Has(p Point) bool {
	return p.X >= r.X && p.X < r.Right() && p.Y >= r.Y && p.Y < r.Bottom()
}

// Holds tells whether o lies wholly in r, give or take slack pixels.
func (r Rect) Holds(o Rect, slack float64) bool {
	return o.X >= r.X-slack && o.Y >= r.Y-slack && o.Right() <= r.Right()+slack && o.Bottom() <= r.Bottom()+slack
}

// Meets tells whether the two rectangles share an area.
func (r Rect) Meets(o Rect) bool {
	return r.X < o.Right() && o.X < r.Right() && r.Y < o.Bottom() && o.Y < r.Bottom()
}

// Union is the smallest rectangle that holds both; an empty one adds nothing.
func (r Rect) Union(o Rect) Rect {
	if r.Empty() {
		return o
	}
	if o.Empty() {
		return r
	}
	x, y := math.Min(r.X, o.X), math.Min(r.Y, o.Y)
	return Rect{x, y, math.Max(r.Right(), o.Right()) - x, math.Max(r.Bottom(), o.Bottom()) - y}
}

// snap moves the edges to whole pixels, so that straight edges are drawn sharp.
func (r Rect) snap() Rect {
	x, y := math.Round(r.X), math.Round(r.Y)
	return Rect{x, y, math.Round(r.Right()) - x, math.Round(r.Bottom()) - y}
}

// bounds is the smallest rectangle that holds all points.
func bounds(pts []Point) Rect {
	if len(pts) == 0 {
		return Rect{}
	}
	lo, hi := pts[0], pts[0]
	for _, p := range pts[1:] {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	return Rect{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}

// segmentMeets tells whether the segment from a to b touches the inside of r (clipping by Liang and Barsky).
func segmentMeets(a, b Point, r Rect) bool {
	t0, t1 := 0.0, 1.0
	d := Point{b.X - a.X, b.Y - a.Y}
	for _, e := range [4][2]float64{{-d.X, a.X - r.X}, {d.X, r.Right() - a.X}, {-d.Y, a.Y - r.Y}, {d.Y, r.Bottom() - a.Y}} {
		p, q := e[0], e[1]
		switch {
		case p == 0:
			if q <= 0 {
				return false
			}
		case p < 0:
			t0 = math.Max(t0, q/p)
		default:
			t1 = math.Min(t1, q/p)
		}
	}
	return t0 < t1
}

// inside tells whether p lies in the closed outline (even-odd rule).
func inside(p Point, outline []Point) bool {
	in := false
	for i, j := 0, len(outline)-1; i < len(outline); j, i = i, i+1 {
		a, b := outline[i], outline[j]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}
