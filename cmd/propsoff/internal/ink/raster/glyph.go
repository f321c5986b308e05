// Package raster is a page as a picture, drawn without a graphics card.
package raster

import (
	"image"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"propsoff.example/assets/face"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// Phases is the number of places within a pixel at which a character may start.
const Phases = 4

// Glyphs draws characters of the text face. One goroutine at a time.
type Glyphs struct {
	fonts [2]*sfnt.Font
	buf   sfnt.Buffer
	rast  vector.Rasterizer
}

// NewGlyphs reads the built-in text face.
func NewGlyphs() (*Glyphs, error) {
	g := &Glyphs{}
	for w, ttf := range [2][]byte{ink.Regular: face.Regular(), ink.Bold: face.Bold()} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			return nil, err
		}
		g.fonts[w] = f
	}
	return g, nil
}

// Draw draws one character at a size in pixels, started phase/Phases of a pixel to the right of the whole pixel. The
// picture's corner goes left and up from there: add its bounds to the start on the base line. A character that draws
// nothing gives nil; one that the face lacks gives the face's empty box.
func (g *Glyphs) Draw(w ink.Weight, r rune, size float64, phase int) *image.Alpha {
	f := g.fonts[w]
	gi, err := f.GlyphIndex(&g.buf, r)
	if err != nil {
		gi = 0
	}
	segments, err := f.LoadGlyph(&g.buf, gi, fixed.Int26_6(size*64+0.5), nil)
	if err != nil || len(segments) == 0 {
		return nil
	}
	shift := fixed.Int26_6(64 * phase / Phases)
	b := segments.Bounds()
	box := image.Rect((b.Min.X + shift).Floor(), b.Min.Y.Floor(), (b.Max.X + shift).Ceil(), b.Max.Y.Ceil())
	if box.Empty() {
		return nil
	}
	g.rast.Reset(box.Dx(), box.Dy())
	at := func(p fixed.Point26_6) (x, y float32) {
		return float32(p.X+shift)/64 - float32(box.Min.X), float32(p.Y)/64 - float32(box.Min.Y)
	}
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			g.rast.ClosePath()
			g.rast.MoveTo(at(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			g.rast.LineTo(at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			bx, by := at(s.Args[0])
			cx, cy := at(s.Args[1])
			g.rast.QuadTo(bx, by, cx, cy)
		case sfnt.SegmentOpCubeTo:
			bx, by := at(s.Args[0])
			cx, cy := at(s.Args[1])
			dx, dy := at(s.Args[2])
			g.rast.CubeTo(bx, by, cx, cy, dx, dy)
		}
	}
	g.rast.ClosePath()
	dst := image.NewAlpha(box)
	g.rast.Draw(dst, box, image.Opaque, image.Point{})
	return dst
}

// Above this size in pixels a character starts on a whole pixel: a fraction would not be seen.
const fine = 48

// Place splits the start of a character of a size into the whole pixel and the phase within it.
func Place(x, size float64) (pixel, phase int) {
	if size > fine {
		return int(math.Floor(x + 0.5)), 0
	}
	q := int(math.Floor(x*Phases + 0.5))
	pixel = int(math.Floor(float64(q) / Phases))
	return pixel, q - pixel*Phases
}
