package paper

import (
	"maps"
	"slices"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"propsoff.example/assets/face"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// usedFont is what a page uses of one weight of the text face.
type usedFont struct {
	font   *sfnt.Font
	ttf    []byte
	buf    sfnt.Buffer
	em     int                      // units to the em
	of     map[rune]sfnt.GlyphIndex // of each character used; 0, the empty box, for one that the face lacks
	glyphs map[sfnt.GlyphIndex]glyph
}

// glyph is one that a page uses.
type glyph struct {
	advance int     // in units
	way     []piece // its outline in units, y downwards; nil for one that draws nothing
	letter  string  // what it says
}

// ids are the numbers of the glyphs used, in order.
func (f *usedFont) ids() []sfnt.GlyphIndex { return slices.Sorted(maps.Keys(f.glyphs)) }

// loadFonts finds what a page uses of both weights.
func loadFonts(p *ink.Page) (out [2]*usedFont, err error) {
	for w, ttf := range [2][]byte{ink.Regular: face.Regular(), ink.Bold: face.Bold()} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			return out, words.Wrong("paper.face").Because(err)
		}
		out[w] = &usedFont{font: f, ttf: ttf, em: int(f.UnitsPerEm()), of: map[rune]sfnt.GlyphIndex{}, glyphs: map[sfnt.GlyphIndex]glyph{}}
	}
	for i := range p.Items() {
		if it := &p.Items()[i]; it.Kind == ink.KindText {
			for _, r := range it.Text {
				if err := out[it.Weight].use(r); err != nil {
					return out, err
				}
			}
		}
	}
	return out, nil
}

// use takes a character among those used.
func (f *usedFont) use(r rune) error {
	if _, known := f.of[r]; known {
		return nil
	}
	g, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil || r < ' ' {
		g = 0
	}
	f.of[r] = g
	if _, known := f.glyphs[g]; known {
		return nil
	}
	a, err := f.font.GlyphAdvance(&f.buf, g, fixed.Int26_6(f.em)<<6, font.HintingNone)
	if err != nil {
		return err
	}
	way, err := f.outline(g)
	f.glyphs[g] = glyph{a.Round(), way, string(r)}
	return err
}

// outline gives a character as a way in font units, y downwards.
func (f *usedFont) outline(g sfnt.GlyphIndex) (way []piece, err error) {
	segments, err := f.font.LoadGlyph(&f.buf, g, fixed.Int26_6(f.em)<<6, nil)
	if err != nil {
		return nil, err
	}
	at := func(q fixed.Point26_6) ink.Point { return ink.Point{X: float64(q.X) / 64, Y: float64(q.Y) / 64} }
	var last ink.Point
	for _, s := range segments {
		a, b, c := at(s.Args[0]), at(s.Args[1]), at(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(way) > 0 {
				way = append(way, piece{op: closed})
			}
			way, last = append(way, piece{moveTo, [3]ink.Point{a}}), a
		case sfnt.SegmentOpLineTo:
			way, last = append(way, piece{lineTo, [3]ink.Point{a}}), a
		case sfnt.SegmentOpQuadTo: // raised to a cubic curve
			third := func(p, q ink.Point) ink.Point { return ink.Point{X: p.X + (q.X-p.X)*2/3, Y: p.Y + (q.Y-p.Y)*2/3} }
			way, last = append(way, piece{curveTo, [3]ink.Point{third(last, a), third(b, a), b}}), b
		case sfnt.SegmentOpCubeTo:
			way, last = append(way, piece{curveTo, [3]ink.Point{a, b, c}}), c
		}
	}
	if len(way) > 0 {
		way = append(way, piece{op: closed})
	}
	return way, nil
}
