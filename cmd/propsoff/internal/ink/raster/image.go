package raster

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// Image draws a page, one pixel of the picture to one of the page.
func Image(p *ink.Page) (*image.RGBA, error) {
	g, err := NewGlyphs()
	if err != nil {
		return nil, err
	}
	c := &canvas{dst: image.NewRGBA(image.Rect(0, 0, int(math.Ceil(p.W)), int(math.Ceil(p.H)))), glyphs: g}
	draw.Draw(c.dst, c.dst.Bounds(), image.NewUniform(p.Theme.Colour(ink.Paper)), image.Point{}, draw.Src)
	for i := range p.Items() {
		it := &p.Items()[i]
		if it.Kind == ink.KindText {
			c.text(p, it)
		} else {
			c.shape(p, it)
		}
	}
	return c.dst, nil
}

type canvas struct {
	dst     *image.RGBA
	glyphs  *Glyphs
	rast    vector.Rasterizer
	box     image.Rectangle // the part of the picture that the rasteriser works on
	outline []ink.Point
	scratch []ink.Point
}

func (c *canvas) text(p *ink.Page, it *ink.Item) {
	colour, x := image.NewUniform(p.Theme.Colour(it.Fill)), it.A.X
	for _, r := range it.Text {
		pixel, phase := Place(x, it.Size)
		if m := c.glyphs.Draw(it.Weight, r, it.Size, phase); m != nil {
			to := m.Rect.Add(image.Pt(pixel, int(math.Round(it.A.Y))))
			draw.DrawMask(c.dst, to, colour, image.Point{}, m, m.Rect.Min, draw.Over)
		}
		x += ink.Advance(r, it.Size, it.Weight)
	}
}

func (c *canvas) shape(p *ink.Page, it *ink.Item) {
	b := it.Box.Inset(-2*it.Width - 1) // room for pointed corners
	c.box = image.Rect(int(math.Floor(b.X)), int(math.Floor(b.Y)), int(math.Ceil(b.Right())), int(math.Ceil(b.Bottom()))).Intersect(c.dst.Bounds())
	if c.box.Empty() {
		return
	}
	if it.Fill != ink.None {
		c.rast.Reset(c.box.Dx(), c.box.Dy())
		if it.Kind == ink.KindBand {
			a, b := p.Sides(it)
			ink.BandPieces(a, b, func(q [4]ink.Point, n int) { c.path(q[:n]) })
			c.stroke(a, false, 1)
			c.stroke(b, false, 1)
		} else {
			c.outline, _ = p.Outline(c.outline[:0], it, 0)
			c.path(c.outline)
		}
		c.paint(p.Theme.Colour(it.Fill))
	}
	if it.Line != ink.None {
		c.rast.Reset(c.box.Dx(), c.box.Dy())
		var closed bool
		c.outline, closed = p.Outline(c.outline[:0], it, it.Width/2)
		c.scratch = ink.Pieces(c.outline, closed, it.Dash, c.scratch, func(piece []ink.Point, closed bool) { c.stroke(piece, closed, it.Width) })
		c.paint(p.Theme.Colour(it.Line))
	}
}

func (c *canvas) paint(colour ink.Colour) {
	c.rast.Draw(c.dst, c.box, image.NewUniform(colour), image.Point{})
}

// path adds a closed outline, always the same way round: the rasteriser adds up what overlaps and takes away what
// runs the other way.
func (c *canvas) path(pts []ink.Point) {
	if len(pts) < 3 {
		return
	}
	n, back := len(pts), ink.Area(pts) < 0
	for i := range pts {
		q := pts[i]
		if back {
			q = pts[n-1-i]
		}
		x, y := float32(q.X-float64(c.box.Min.X)), float32(q.Y-float64(c.box.Min.Y))
		if i == 0 {
			c.rast.MoveTo(x, y)
		} else {
			c.rast.LineTo(x, y)
		}
	}
	c.rast.ClosePath()
}

// stroke adds a way as one rectangle for each piece, and a disc at each turn that would leave a gap.
func (c *canvas) stroke(pts []ink.Point, closed bool, width float64) {
	n, h := len(pts), width/2
	last := n - 1
	if closed {
		last = n
	}
	for i := range last {
		a, b := pts[i], pts[(i+1)%n]
		o, _ := ink.Mitre(a, a, b, 2)
		c.path([]ink.Point{{X: a.X + o.X*h, Y: a.Y + o.Y*h}, {X: b.X + o.X*h, Y: b.Y + o.Y*h}, {X: b.X - o.X*h, Y: b.Y - o.Y*h}, {X: a.X - o.X*h, Y: a.Y - o.Y*h}})
		if (i > 0 || closed) && width > 1.2 {
			c.joint(pts[(i+n-1)%n], a, b, h)
		}
	}
}

// joint fills the outside of a turn: a wedge to the mitre, or a disc where the turn is sharp.
func (c *canvas) joint(a, b, d ink.Point, h float64) {
	o, sharp := ink.Mitre(a, b, d, 2)
	if sharp {
		var disc [24]ink.Point
		for i := range disc {
			s, co := math.Sincos(2 * math.Pi * float64(i) / float64(len(disc)))
			disc[i] = ink.Point{X: b.X + h*co, Y: b.Y + h*s}
		}
		c.path(disc[:])
		return
	}
	in, _ := ink.Mitre(a, b, b, 2)
	out, _ := ink.Mitre(b, b, d, 2)
	if in.X*out.Y-in.Y*out.X < 0 { // turns left: the outside is on the right
		in, out, o = ink.Point{X: -in.X, Y: -in.Y}, ink.Point{X: -out.X, Y: -out.Y}, ink.Point{X: -o.X, Y: -o.Y}
	}
	c.path([]ink.Point{b, {X: b.X + in.X*h, Y: b.Y + in.Y*h}, {X: b.X + o.X*h, Y: b.Y + o.Y*h}, {X: b.X + out.X*h, Y: b.Y + out.Y*h}})
}
