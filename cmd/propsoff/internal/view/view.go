// Package view turns places in the world into places on a page: a pinhole camera, and lines and outlines cut at the edge of its picture.
//
// World axes are north, east, down, in metres; a page has x to the right and y down, in pixels. A place that is x to the right of the camera, y below it and
// z ahead of it stands at (f·x/z, f·y/z) from the middle of the picture, f being the focal length in pixels (the pinhole camera of every textbook).
package view

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/vec"
)

// Near is how far ahead of the camera what it sees begins, m (ours).
const Near = 0.02

// Camera is a pinhole camera.
type Camera struct {
	// At is where it stands, m; Right, Down and Ahead are unit vectors in the world, each upright on the others.
	At, Right, Down, Ahead vec.V
	// Frame is its picture and Focal its focal length, px.
	Frame ink.Rect
	Focal float64
}

// Standing is the camera of somebody who stands upright: it looks pan rad from north clockwise, and tilt rad up from level.
func Standing(at vec.V, pan, tilt float64) Camera {
	s, c := math.Sincos(pan)
	return tilted(at, vec.V{X: c, Y: s}, vec.V{X: -s, Y: c}, vec.V{Z: 1}, tilt)
}

// Aboard is the camera of a craft in an attitude: it looks forward, and tilt rad up from there.
func Aboard(at vec.V, att vec.Q, tilt float64) Camera {
	att = att.Unit()
	return tilted(at, att.Turn(vec.V{X: 1}), att.Turn(vec.V{Y: 1}), att.Turn(vec.V{Z: 1}), tilt)
}

func tilted(at, ahead, right, down vec.V, tilt float64) Camera {
	s, c := math.Sincos(tilt)
	return Camera{At: at, Right: right, Down: down.Scale(c).Plus(s, ahead), Ahead: ahead.Scale(c).Plus(-s, down)}
}

// In gives the camera its picture, which is so many rad wide from side to side.
func (c Camera) In(frame ink.Rect, wide float64) Camera {
	c.Frame, c.Focal = frame, frame.W/2/math.Tan(wide/2)
	return c
}

// own is a place in the camera's own axes: to the right, down, ahead.
func (c *Camera) own(p vec.V) vec.V {
	d := p.Sub(c.At)
	return vec.V{X: d.Dot(c.Right), Y: d.Dot(c.Down), Z: d.Dot(c.Ahead)}
}

// onPage is where a place in the camera's own axes is seen.
func (c *Camera) onPage(v vec.V) ink.Point {
	m, k := c.Frame.Centre(), c.Focal/v.Z
	return ink.Point{X: m.X + v.X*k, Y: m.Y + v.Y*k}
}

// See is where a place is seen, perhaps beyond the edge of the picture, and how far ahead it is, m. False: it lies behind the camera or all too near.
func (c *Camera) See(p vec.V) (at ink.Point, ahead float64, ok bool) {
	v := c.own(p)
	if v.Z < Near {
		return ink.Point{}, v.Z, false
	}
	return c.onPage(v), v.Z, true
}

// Line is the part of a straight line that is in the picture.
func (c *Camera) Line(a, b vec.V) (from, to ink.Point, ok bool) {
	u, v := c.own(a), c.own(b)
	if u.Z < Near && v.Z < Near {
		return from, to, false
	}
	if u.Z < Near {
		u = nearEnd(v, u)
	} else if v.Z < Near {
		v = nearEnd(u, v)
	}
	return Clip(c.onPage(u), c.onPage(v), c.Frame)
}

// nearEnd is where a line from one that is ahead to one that is not meets the plane at which seeing begins.
func nearEnd(ahead, behind vec.V) vec.V {
	p := ahead.Plus((ahead.Z-Near)/(ahead.Z-behind.Z), behind.Sub(ahead))
	p.Z = Near
	return p
}

// Outline appends the part of a closed outline that is in the picture; nothing where none is.
func (c *Camera) Outline(dst []ink.Point, pts ...vec.V) []ink.Point {
	start := len(dst)
	last := c.own(pts[len(pts)-1])
	for _, p := range pts {
		v := c.own(p)
		if (v.Z < Near) != (last.Z < Near) {
			ahead, behind := v, last
			if v.Z < Near {
				ahead, behind = last, v
			}
			dst = append(dst, c.onPage(nearEnd(ahead, behind)))
		}
		if v.Z >= Near {
			dst = append(dst, c.onPage(v))
		}
		last = v
	}
	return within(dst, start, c.Frame)
}

// Ground appends the part of the picture that lies below the horizon: where straight lines over an endless plain end.
func (c *Camera) Ground(dst []ink.Point) []ink.Point {
	f, start := c.Frame, len(dst)
	dst = append(dst, ink.Point{X: f.X, Y: f.Y}, ink.Point{X: f.Right(), Y: f.Y}, ink.Point{X: f.Right(), Y: f.Bottom()}, ink.Point{X: f.X, Y: f.Bottom()})
	return cut(dst, start, c.dips)
}

// Horizon is the horizon in the picture; false where it is not in there.
func (c *Camera) Horizon() (from, to ink.Point, ok bool) {
	var room [8]ink.Point
	ground := c.Ground(room[:0])
	slack := 1e-6 * c.Focal
	for i, p := range ground {
		q := ground[(i+1)%len(ground)]
		if math.Abs(c.dips(p)) < slack && math.Abs(c.dips(q)) < slack && p != q {
			return p, q, true
		}
	}
	return from, to, false
}

// dips is how far what is seen at a place of the page points down, by the part of the focal length; on the horizon 0.
func (c *Camera) dips(p ink.Point) float64 {
	m := c.Frame.Centre()
	return (p.X-m.X)*c.Right.Z + (p.Y-m.Y)*c.Down.Z + c.Focal*c.Ahead.Z
}

// within cuts the outline from start on to what lies in a box (by Sutherland and Hodgman).
func within(dst []ink.Point, start int, r ink.Rect) []ink.Point {
	dst = cut(dst, start, func(p ink.Point) float64 { return p.X - r.X })
	dst = cut(dst, start, func(p ink.Point) float64 { return r.Right() - p.X })
	dst = cut(dst, start, func(p ink.Point) float64 { return p.Y - r.Y })
	return cut(dst, start, func(p ink.Point) float64 { return r.Bottom() - p.Y })
}

// cut leaves of an outline from start on what lies on the side of a straight line where in is not below 0.
func cut(dst []ink.Point, start int, in func(ink.Point) float64) []ink.Point {
	var room [64]ink.Point
	pts := append(room[:0], dst[start:]...)
	dst = dst[:start]
	for i, p := range pts {
		last := pts[(i+len(pts)-1)%len(pts)]
		d, e := in(p), in(last)
		if (d < 0) != (e < 0) {
			t := e / (e - d)
			dst = append(dst, ink.Point{X: last.X + t*(p.X-last.X), Y: last.Y + t*(p.Y-last.Y)})
		}
		if d >= 0 {
			dst = append(dst, p)
		}
	}
	return dst
}

// Clip is the part of a stroke that lies in a box (by Liang and Barsky).
func Clip(a, c ink.Point, r ink.Rect) (from, to ink.Point, ok bool) {
	t0, t1 := 0.0, 1.0
	dx, dy := c.X-a.X, c.Y-a.Y
	for _, e := range [4][2]float64{{-dx, a.X - r.X}, {dx, r.Right() - a.X}, {-dy, a.Y - r.Y}, {dy, r.Bottom() - a.Y}} {
		switch p, q := e[0], e[1]; {
		case p == 0:
			if q < 0 {
				return a, c, false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	if t0 >= t1 {
		return a, c, false
	}
	return ink.Point{X: a.X + t0*dx, Y: a.Y + t0*dy}, ink.Point{X: a.X + t1*dx, Y: a.Y + t1*dy}, true
}
