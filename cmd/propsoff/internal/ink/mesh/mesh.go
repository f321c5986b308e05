// Package mesh turns a page into triangles with soft edges, characters included.
//
// Every edge carries a fringe one pixel wide over which the colour fades out, so a plain triangle renderer draws
// smooth edges without sampling a pixel more than once. Characters are rectangles cut from one picture, the atlas, which
// also holds the white that shapes are painted with: a whole page is one call of the renderer, or a few.
package mesh

import (
	"image"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// Vertex is a corner of a triangle: its place on the page and in the atlas in pixels, and colour 0 … 1 multiplied by
// its opacity A. What the renderer draws is the colour times the opacity of the atlas.
type Vertex struct{ X, Y, U, V, R, G, B, A float32 }

// Half the width in pixels of the fringe in which an edge fades.
const fringe = 0.5

// Corners sharper than this many times half the width are not drawn out to a point.
const mitreLimit = 2

// The most vertices that 16-bit indices can count.
const maxVertices = 1 << 16

// Mesh collects triangles and hands them on in heaps. Its buffers are kept, so drawing allocates nothing once they have
// grown and every character has been met. One goroutine at a time.
type Mesh struct {
	flush    func(vertices []Vertex, indices []uint16)
	atlas    *atlas
	vertices []Vertex
	indices  []uint16
	outline  []ink.Point
	scratch  []ink.Point
	ears     []int
	piece    func([]ink.Point, bool) // stroke and corners as values, made once
	corner   func([4]ink.Point, int)
	r, g, b  float32
	width    float64
}

// New makes a mesh. The atlas is side by side pixels, at least MinAtlas; put copies a picture into it with its upper left
// corner at x, y (from 0). flush draws what has been collected: every three indices are a triangle; the slices are
// valid during the call. What was put may be overwritten after a flush.
func New(side int, put func(x, y int, m *image.Alpha), flush func(vertices []Vertex, indices []uint16)) (*Mesh, error) {
	a, err := newAtlas(side, put)
	if err != nil {
		return nil, err
	}
	m := &Mesh{flush: flush, atlas: a}
	m.piece, m.corner = m.stroke, m.corners
	return m, nil
}

// Ground collects a part of a page as bare paper, to be drawn beneath what Page collects next.
func (m *Mesh) Ground(p *ink.Page, part ink.Rect) {
	m.room(4)
	m.colour(p.Theme.Colour(ink.Paper))
	m.quad(m.vertex(part.X, part.Y, 1), m.vertex(part.Right(), part.Y, 1), m.vertex(part.X, part.Bottom(), 1), m.vertex(part.Right(), part.Bottom(), 1))
}

// Page collects and flushes the items of a page that may leave a mark in a part of it, each of them whole.
func (m *Mesh) Page(p *ink.Page, part ink.Rect) {
	items := p.Items()
	for i := range items {
		if p.Reach(&items[i]).Meets(part) {
			m.add(p, &items[i])
		}
	}
	m.done()
}

// Emptied counts how often the atlas was full and had to begin anew. If that happens page after page, it is too small.
func (m *Mesh) Emptied() int { return m.atlas.emptied }

// done flushes what is left.
func (m *Mesh) done() {
	if len(m.indices) > 0 {
		m.flush(m.vertices, m.indices)
	}
	m.vertices, m.indices = m.vertices[:0], m.indices[:0]
}

// room flushes if n more vertices could not be counted in 16 bits.
func (m *Mesh) room(n int) {
	if len(m.vertices)+n > maxVertices {
		m.done()
	}
}

// add collects the triangles of one item of a page.
func (m *Mesh) add(p *ink.Page, it *ink.Item) {
	switch it.Kind {
	case ink.KindText:
		m.colour(p.Theme.Colour(it.Fill))
		m.text(it)
		return
	case ink.KindBand:
		m.colour(p.Theme.Colour(it.Fill))
		m.band(p.Sides(it))
		return
	}
	if it.Fill != ink.None {
		m.colour(p.Theme.Colour(it.Fill))
		m.outline, _ = p.Outline(m.outline[:0], it, 0)
		m.fill(m.outline)
	}
	if it.Line == ink.None {
		return
	}
	m.colour(p.Theme.Colour(it.Line))
	var closed bool
	m.outline, closed = p.Outline(m.outline[:0], it, it.Width/2)
	m.width = it.Width
	if it.Dash.On <= 0 || it.Dash.Off <= 0 {
		m.stroke(m.outline, closed)
		return
	}
	m.scratch = ink.Pieces(m.outline, closed, it.Dash, m.scratch, m.piece)
}

func (m *Mesh) colour(c ink.Colour) {
	m.r, m.g, m.b = float32(c.R)/255, float32(c.G)/255, float32(c.B)/255
}

func (m *Mesh) vertex(x, y, a float64) uint16 {
	f := float32(a)
	m.vertices = append(m.vertices, Vertex{float32(x), float32(y), white, white, m.r * f, m.g * f, m.b * f, f})
	return uint16(len(m.vertices) - 1)
}

func (m *Mesh) triangle(a, b, c uint16) { m.indices = append(m.indices, a, b, c) }

// quad joins two pairs of neighbours: a–b before, c–d after.
func (m *Mesh) quad(a, b, c, d uint16) { m.indices = append(m.indices, a, b, c, b, d, c) }
