package paper

import (
	"bytes"
	"math"
	"strconv"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// op is what one piece of a way does.
type op uint8

const (
	moveTo  op = iota // p[0]
	lineTo            // p[0]
	curveTo           // a cubic Bézier curve: p[0] and p[1] are its handles, p[2] its end
	closed            // back to where the way began
)

// piece is one piece of a way.
type piece struct {
	op op
	p  [3]ink.Point
}

// mark is one way that is filled or stroked in one colour.
type mark struct {
	way    []piece
	colour ink.Colour
	stroke bool
	width  float64
	dash   ink.Dash
}

// marks gives what a shape draws, in the order of drawing: its inside, then its line. A text has none.
func marks(p *ink.Page, it *ink.Item) (out []mark) {
	if it.Fill != ink.None && it.Kind != ink.KindText {
		colour := p.Theme.Colour(it.Fill)
		if it.Kind == ink.KindBand {
			// A band never gets thinner than a pixel: its two sides are drawn too.
			a, b := p.Sides(it)
			var way []piece
			ink.BandPieces(a, b, func(q [4]ink.Point, n int) { way = outline(way, q[:n], true) })
			out = append(out, mark{way: way, colour: colour})
			for _, side := range [2][]ink.Point{a, b} {
				out = append(out, mark{way: outline(nil, side, false), colour: colour, stroke: true, width: 1})
			}
		} else {
			out = append(out, mark{way: edge(p, it, 0), colour: colour})
		}
	}
	if it.Line != ink.None {
		out = append(out, mark{way: edge(p, it, it.Width/2), colour: p.Theme.Colour(it.Line), stroke: true, width: it.Width, dash: it.Dash})
	}
	return out
}

// edge is the way round a shape, moved inwards by so many pixels, with true curves where it is round. It begins where
// ink's own outline begins and runs the same way, so that dashes fall on the same places.
func edge(p *ink.Page, it *ink.Item, inset float64) []piece {
	switch it.Kind {
	case ink.KindCircle:
		r := it.Radius - inset
		if r <= 0 {
			return nil
		}
		return append(arc(nil, it.A, r, 0, 2*math.Pi), piece{op: closed})
	case ink.KindArc:
		return arc(nil, it.A, it.Radius, it.From, it.To)
	case ink.KindRoundRect:
		b, r := it.Box.Inset(inset), math.Max(0, it.Radius-inset)
		if b.Empty() {
			return nil
		}
		way := arc(nil, ink.Point{X: b.X + r, Y: b.Y + r}, r, math.Pi, 1.5*math.Pi)
		way = arc(way, ink.Point{X: b.Right() - r, Y: b.Y + r}, r, 1.5*math.Pi, 2*math.Pi)
		way = arc(way, ink.Point{X: b.Right() - r, Y: b.Bottom() - r}, r, 0, math.Pi/2)
		way = arc(way, ink.Point{X: b.X + r, Y: b.Bottom() - r}, r, math.Pi/2, math.Pi)
		return append(way, piece{op: closed})
	}
	pts, ends := p.Outline(nil, it, inset)
	return outline(nil, pts, ends)
}

// outline adds a way of straight pieces.
func outline(way []piece, pts []ink.Point, ends bool) []piece {
	for i, q := range pts {
		o := lineTo
		if i == 0 {
			o = moveTo
		}
		way = append(way, piece{o, [3]ink.Point{q}})
	}
	if ends && len(pts) > 0 {
		way = append(way, piece{op: closed})
	}
	return way
}

// arc adds a part of a circle, joined to the way before it, in curves of at most a quarter turn. The handles of a curve
// over an angle a lie 4/3 · tan(a/4) radii from its ends, which keeps it within 0.03 % of the circle.
func arc(way []piece, c ink.Point, r, from, to float64) []piece {
	at := func(a float64) ink.Point { return ink.Point{X: c.X + r*math.Cos(a), Y: c.Y + r*math.Sin(a)} }
	start := piece{moveTo, [3]ink.Point{at(from)}}
	if len(way) > 0 {
		start.op = lineTo
	}
	way = append(way, start)
	n := max(1, int(math.Ceil(math.Abs(to-from)/(math.Pi/2)-1e-9)))
	step := (to - from) / float64(n)
	k := 4.0 / 3 * math.Tan(step/4) * r
	for i := range n {
		a, b := from+step*float64(i), from+step*float64(i+1)
		p, q := at(a), at(b)
		way = append(way, piece{curveTo, [3]ink.Point{
			{X: p.X - k*math.Sin(a), Y: p.Y + k*math.Cos(a)}, {X: q.X + k*math.Sin(b), Y: q.Y - k*math.Cos(b)}, q}})
	}
	return way
}

// number writes a number with at most so many decimals, one or more, and no needless zeros.
func number(dst []byte, v float64, decimals int) []byte {
	mark := len(dst)
	dst = strconv.AppendFloat(dst, v, 'f', decimals, 64)
	dst = bytes.TrimSuffix(bytes.TrimRight(dst, "0"), []byte{'.'})
	if string(dst[mark:]) == "-0" {
		dst = append(dst[:mark], '0')
	}
	return dst
}

// point writes a place with two decimals, which at any size of page is finer than any printer.
func point(dst []byte, q ink.Point) []byte {
	dst = append(number(dst, q.X, 2), ' ')
	return number(dst, q.Y, 2)
}
