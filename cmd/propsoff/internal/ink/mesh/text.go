package mesh

import (
	"image"
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
)

// MinAtlas is the smallest side of an atlas in pixels: the largest character must find room.
const MinAtlas = 512

// Characters up to this size are cut from the atlas pixel by pixel; larger ones are stretched from it.
const largest = 400

// white is the middle of the white corner of the atlas, which is three pixels wide.
const white = 1.5

type atlas struct {
	side    int
	put     func(x, y int, m *image.Alpha)
	glyphs  *raster.Glyphs
	spots   map[glyphKey]spot
	x, y    int // where the next picture goes
	shelf   int // height of the row that is being filled
	emptied int // how often
}

type glyphKey struct {
	r      rune
	size   uint16
	weight ink.Weight
	phase  uint8
}

// A spot is where a character lies in the atlas, and where it goes from its start on the base line. An empty one
// draws nothing.
type spot struct{ u, v, w, h, left, top float32 }

func newAtlas(side int, put func(x, y int, m *image.Alpha)) (*atlas, error) {
	if side < MinAtlas {
		panic("ink/mesh: an atlas below MinAtlas")
	}
	g, err := raster.NewGlyphs()
	if err != nil {
		return nil, err
	}
	a := &atlas{side: side, put: put, glyphs: g, spots: map[glyphKey]spot{}}
	a.empty()
	return a, nil
}

// empty forgets all characters and puts the white corner.
func (a *atlas) empty() {
	clear(a.spots)
	m := image.NewAlpha(image.Rect(0, 0, 3, 3))
	for i := range m.Pix {
		m.Pix[i] = 255
	}
	a.put(0, 0, m)
	a.x, a.y, a.shelf = 4, 0, 4
}

// find gives the spot of a character; ok is false if the atlas is full.
func (a *atlas) find(k glyphKey) (s spot, ok bool) {
	if s, ok = a.spots[k]; ok {
		return s, true
	}
	m := a.glyphs.Draw(k.weight, k.r, float64(k.size), int(k.phase))
	if m == nil {
		a.spots[k] = spot{}
		return spot{}, true
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	if a.x+w > a.side {
		a.x, a.y, a.shelf = 0, a.y+a.shelf, 0
	}
	if a.y+h > a.side || w > a.side {
		return spot{}, false
	}
	a.put(a.x, a.y, m)
	s = spot{float32(a.x), float32(a.y), float32(w), float32(h), float32(m.Rect.Min.X), float32(m.Rect.Min.Y)}
	a.x, a.shelf = a.x+w+1, max(a.shelf, h+1)
	a.spots[k] = s
	return s, true
}

// text draws each character where measuring put it: from the sum of the widths before it.
func (m *Mesh) text(it *ink.Item) {
	size := math.Min(it.Size, largest)
	stretch := float32(it.Size / size)
	k := glyphKey{size: uint16(size), weight: it.Weight}
	x, y := it.A.X, float32(math.Round(it.A.Y))
	for _, r := range it.Text {
		pixel, phase := raster.Place(x, it.Size)
		k.r, k.phase = r, uint8(phase)
		s, ok := m.atlas.find(k)
		if !ok { // full: draw what stands, and begin anew
			m.done()
			m.atlas.empty()
			m.atlas.emptied++
			s, _ = m.atlas.find(k)
		}
		if s.w > 0 {
			m.room(4)
			m.cut(s, float32(pixel), y, stretch)
		}
		x += ink.Advance(r, it.Size, it.Weight)
	}
}

// cut draws a rectangle from the atlas.
func (m *Mesh) cut(s spot, x, y, stretch float32) {
	x, y = x+s.left*stretch, y+s.top*stretch
	w, h := s.w*stretch, s.h*stretch
	n := uint16(len(m.vertices))
	m.vertices = append(m.vertices,
		Vertex{x, y, s.u, s.v, m.r, m.g, m.b, 1}, Vertex{x + w, y, s.u + s.w, s.v, m.r, m.g, m.b, 1},
		Vertex{x, y + h, s.u, s.v + s.h, m.r, m.g, m.b, 1}, Vertex{x + w, y + h, s.u + s.w, s.v + s.h, m.r, m.g, m.b, 1})
	m.quad(n, n+1, n+2, n+3)
}
