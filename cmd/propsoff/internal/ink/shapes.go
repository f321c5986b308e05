package ink

import "math"

// Paint says how a shape is drawn. Lines use Line, Width and Dash; closed shapes may have a Fill too, and keep their
// outline inside their edge. None means that it is not filled, or has no line.
type Paint struct {
	Fill, Line Role
	Width      float64 // pixels; 0 with a Line means one pixel of the least window, scaled; a strong theme draws none below two that means anything
	Dash       Dash
	Under      bool // a guide that text may lie over (its colour must then leave the text its contrast)
}

func (p *Page) shape(k Kind, name string, c Paint) Item {
	switch hair := p.hair(); {
	case c.Line == None:
		c.Width = 0
	case p.Theme.Strong && !c.Under && !c.Line.Decor():
		c.Width = math.Max(c.Width, math.Max(2, math.Round(strongLine*p.Scale)))
	case c.Width <= 0:
		c.Width = hair
	}
	return Item{Kind: k, Name: name, Paint: c, owner: -1}
}

// hair is the width of the thinnest line.
func (p *Page) hair() float64 { return math.Max(1, math.Round(p.Scale)) }

// strongLine is the width of the thinnest line that means something on a strong theme, in pixels of the least window, where it is drawn two wide (ours).
const strongLine = 1.8

// tight is the height of a box, in pixels of the least window, below which a frame leaves no room for text but as a hairline (ours).
const tight = 18

// Line draws a straight line. Upright and level lines are moved to whole pixels, so that they are sharp.
func (p *Page) Line(name string, x1, y1, x2, y2 float64, c Paint) {
	it := p.shape(KindLine, name, c)
	if x1 == x2 || y1 == y2 {
		it.Width = math.Max(1, math.Round(it.Width))
	}
	sharp := func(v float64) float64 { return math.Round(v-it.Width/2) + it.Width/2 }
	switch {
	case x1 == x2:
		x1 = sharp(x1)
		x2 = x1
	case y1 == y2:
		y1 = sharp(y1)
		y2 = y1
	}
	it.A, it.B = Point{x1, y1}, Point{x2, y2}
	// The stroke ends square at A and B: half the width to each side only.
	dx, dy := math.Abs(x2-x1), math.Abs(y2-y1)
	if d := math.Hypot(dx, dy); d > 0 {
		dx, dy = dx/d, dy/d
	}
	h := it.Width / 2
	it.Box = Rect{math.Min(x1, x2) - dy*h, math.Min(y1, y2) - dx*h, math.Abs(x2-x1) + 2*dy*h, math.Abs(y2-y1) + 2*dx*h}
	p.add(it)
}

// Rect draws a rectangle, moved to whole pixels.
func (p *Page) Rect(name string, r Rect, c Paint) { p.box(KindRect, name, r, 0, c) }

// RoundRect draws a rectangle with round corners of a radius in pixels, moved to whole pixels.
func (p *Page) RoundRect(name string, r Rect, radius float64, c Paint) {
	p.box(KindRoundRect, name, r, radius, c)
}

func (p *Page) box(k Kind, name string, r Rect, radius float64, c Paint) {
	it := p.shape(k, name, c)
	it.Box = r.snap()
	if c.Line != None && it.Box.H < tight*p.Scale {
		if it.Width = c.Width; c.Width <= 0 {
			it.Width = p.hair()
		}
	}
	it.Radius = math.Max(0, math.Min(radius, math.Min(it.Box.W, it.Box.H)/2))
	if it.Line != None {
		it.Width = math.Max(1, math.Round(it.Width))
	}
	p.add(it)
}

// Circle draws a circle; its outline lies inside the radius.
func (p *Page) Circle(name string, x, y, radius float64, c Paint) {
	it := p.shape(KindCircle, name, c)
	it.A, it.Radius = Point{x, y}, radius
	it.Box = Rect{x - radius, y - radius, 2 * radius, 2 * radius}
	p.add(it)
}

// Arc draws a part of a circle, the stroke's middle on the radius. Angles are radians, 0 to the right, growing
// clockwise on the screen; it runs from the first to the second.
func (p *Page) Arc(name string, x, y, radius, from, to float64, c Paint) {
	c.Fill = None
	it := p.shape(KindArc, name, c)
	it.A, it.Radius, it.From, it.To = Point{x, y}, radius, from, to
	mark := len(p.points)
	p.points = appendArc(p.points, x, y, radius, from, to)
	it.Box = bounds(p.points[mark:]).Inset(-it.Width / 2)
	p.points = p.points[:mark]
	p.add(it)
}

// Polyline draws a stroke through the points, which are copied. Fewer than two points draw nothing.
func (p *Page) Polyline(name string, pts []Point, c Paint) {
	if len(pts) < 2 {
		return
	}
	c.Fill = None
	it := p.shape(KindPolyline, name, c)
	p.addPoints(it, it.Width/2, pts)
}

// Polygon draws a closed shape through the points, which are copied; its edge may not cross itself. Fewer than
// three points draw nothing.
func (p *Page) Polygon(name string, pts []Point, c Paint) {
	if len(pts) < 3 {
		return
	}
	p.addPoints(p.shape(KindPolygon, name, c), 0, pts)
}

// Band fills the area between two strokes of equally many points, which are copied; the strokes may cross. Its width
// is the message (how far two values are apart), so it never gets thinner than one pixel. Fewer than two points, or
// strokes of different lengths, draw nothing.
func (p *Page) Band(name string, a, b []Point, fill Role) {
	if len(a) < 2 || len(a) != len(b) {
		return
	}
	p.addPoints(p.shape(KindBand, name, Paint{Fill: fill}), 0.5, a, b)
}

// Sides gives the two strokes of a band. Valid until the next Reset.
func (p *Page) Sides(it *Item) (a, b []Point) {
	pts := p.Points(it)
	return pts[:len(pts)/2], pts[len(pts)/2:]
}

// addPoints adds an item with its strokes, which it draws so many pixels beyond.
func (p *Page) addPoints(it Item, beyond float64, strokes ...[]Point) {
	it.from = int32(len(p.points))
	for _, pts := range strokes {
		p.points = append(p.points, pts...)
	}
	it.to = int32(len(p.points))
	it.Box = bounds(p.Points(&it)).Inset(-beyond)
	p.add(it)
}
