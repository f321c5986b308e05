//go:build cgo || windows || js

package window

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/mesh"
)

// Sides of the atlas of characters in pixels: at first, and the most it may grow to.
const (
	firstAtlas = 1024
	lastAtlas  = 4096
)

// Drawer draws pages. It keeps the characters it has met in one picture on the graphics card, together with the white that
// shapes are painted with, so a part of a page is one call of the engine. Text is not shaped by the engine: the face has no
// kerning and no ligatures, and each character is put where ink measured it.
type Drawer struct {
	mesh     *mesh.Mesh
	atlas    *ebiten.Image
	side     int
	emptied  int // as counted after the last page
	full     int // pages in a row for which the atlas was too small
	dst      *ebiten.Image
	vertices []ebiten.Vertex
	pixels   []byte
	options  ebiten.DrawTrianglesOptions
}

// NewDrawer makes a drawer. An error means that the built-in text face cannot be read.
func NewDrawer() (*Drawer, error) {
	d := &Drawer{}
	d.options.ColorScaleMode = ebiten.ColorScaleModePremultipliedAlpha
	if err := d.resize(firstAtlas); err != nil {
		return nil, err
	}
	return d, nil
}

// resize begins anew with an atlas of another size.
func (d *Drawer) resize(side int) (err error) {
	if d.atlas != nil {
		d.atlas.Deallocate()
	}
	d.atlas = ebiten.NewImageWithOptions(image.Rect(0, 0, side, side), &ebiten.NewImageOptions{Unmanaged: true})
	d.side, d.emptied, d.full = side, 0, 0
	d.mesh, err = mesh.New(side, d.put, d.flush)
	return err
}

// Draw fills parts of dst, in whole pixels, with a page, one pixel of dst to one of the page. The rest of dst stays as it is.
func (d *Drawer) Draw(dst *ebiten.Image, p *ink.Page, parts []ink.Rect) {
	for _, r := range parts {
		d.dst = dst.SubImage(image.Rect(int(r.X), int(r.Y), int(r.Right()), int(r.Bottom()))).(*ebiten.Image)
		d.mesh.Ground(p, r)
		d.mesh.Page(p, r)
	}
	d.dst = nil
	// A rare full atlas is cheap. One that is too small for a single page would be filled anew for each picture.
	if n := d.mesh.Emptied(); n > d.emptied {
		d.emptied = n
		d.full++
	} else {
		d.full = 0
	}
	if d.full >= 2 && d.side < lastAtlas {
		if err := d.resize(2 * d.side); err != nil {
			// The face was read once already, from memory: it cannot fail now.
			panic(err)
		}
	}
}

// put copies the opacity of a picture into the atlas, as white.
func (d *Drawer) put(x, y int, m *image.Alpha) {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	d.pixels = d.pixels[:0]
	for row := range h {
		for _, a := range m.Pix[row*m.Stride : row*m.Stride+w] {
			d.pixels = append(d.pixels, a, a, a, a)
		}
	}
	part := d.atlas.SubImage(image.Rect(x, y, x+w, y+h)).(*ebiten.Image)
	part.WritePixels(d.pixels)
}

func (d *Drawer) flush(vertices []mesh.Vertex, indices []uint16) {
	d.vertices = d.vertices[:0]
	for i := range vertices {
		v := &vertices[i]
		d.vertices = append(d.vertices, ebiten.Vertex{DstX: v.X, DstY: v.Y, SrcX: v.U, SrcY: v.V,
			ColorR: v.R, ColorG: v.G, ColorB: v.B, ColorA: v.A})
	}
	d.dst.DrawTriangles(d.vertices, indices, d.atlas, &d.options)
}
