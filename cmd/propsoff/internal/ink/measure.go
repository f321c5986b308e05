package ink

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"propsoff.example/assets/face"
	"propsoff.example/assets/mouth"
)

// Weight is one of the two weights of the one text face.
type Weight uint8

// Regular is for sentences and values, Bold for state words and headings.
const (
	Regular Weight = iota
	Bold
	weightCount
)

// String gives the weight's name in small letters.
func (w Weight) String() string {
	if w == Bold {
		return "bold"
	}
	return "regular"
}

// glyph holds what measuring needs of one character, in parts of the text size (1 = one em). Top and bottom are
// the drawn extents above (positive) and below (negative) the base line.
type glyph struct {
	advance, top, bottom float32
	known                bool
}

// Characters are held in a plain array up to here; the face has few beyond, none that a sheet uses.
const glyphTable = 0x2700

// metrics is one weight, measured once and then only read: safe to use from any goroutine.
type metrics struct {
	glyphs                              [glyphTable]glyph
	missing                             glyph
	ascent, descent, capital, lowercase float64
}

// faces measures both weights at the first use. The fonts are built in, so an error is a broken build.
var faces = sync.OnceValue(func() (m [weightCount]*metrics) {
	for w, ttf := range [weightCount][]byte{face.Regular(), face.Bold()} {
		f, err := measureFace(ttf)
		if err != nil {
			panic(fmt.Sprintf("ink: the built-in text face %v cannot be read: %v", Weight(w), err))
		}
		m[w] = f
	}
	return m
})

// measureFace reads the sizes of all characters of a TrueType font, unhinted.
func measureFace(ttf []byte) (*metrics, error) {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, err
	}
	var buf sfnt.Buffer
	// At a size of one em in font units every number comes out whole and unrounded.
	em := fixed.Int26_6(f.UnitsPerEm()) << 6
	part := func(v fixed.Int26_6) float64 { return float64(v) / float64(em) }
	read := func(g sfnt.GlyphIndex) (glyph, error) {
		b, advance, err := f.GlyphBounds(&buf, g, em, font.HintingNone)
		if err != nil {
			return glyph{}, err
		}
		return glyph{float32(part(advance)), float32(-part(b.Min.Y)), float32(-part(b.Max.Y)), g != 0}, nil
	}
	m := &metrics{}
	if m.missing, err = read(0); err != nil {
		return nil, err
	}
	for r := range m.glyphs {
		m.glyphs[r] = m.missing
		g, err := f.GlyphIndex(&buf, rune(r))
		if err == nil && g != 0 && r >= ' ' {
			m.glyphs[r], err = read(g)
		}
		if err != nil {
			return nil, err
		}
	}
	all, err := f.Metrics(&buf, em, font.HintingNone)
	if err != nil {
		return nil, err
	}
	m.ascent, m.descent = part(all.Ascent), part(all.Descent)
	m.capital, m.lowercase = part(all.CapHeight), part(all.XHeight)
	return m, nil
}

func (m *metrics) glyph(r rune) glyph {
	if r >= 0 && r < glyphTable {
		return m.glyphs[r]
	}
	return m.missing
}

// extent is how far above and below the base line a text is drawn, in em; both are 0 where nothing is.
func (m *metrics) extent(text string) (top, bottom float64) {
	for _, r := range text {
		switch g := m.glyph(r); {
		case g.top == g.bottom: // a space draws nothing
		case top == bottom: // the first that is drawn
			top, bottom = float64(g.top), float64(g.bottom)
		default:
			top, bottom = max(top, float64(g.top)), min(bottom, float64(g.bottom))
		}
	}
	return top, bottom
}

// Has tells whether the face has every character of a text, and there is one.
func Has(text string) bool {
	m := faces()[Regular]
	return text != "" && !strings.ContainsFunc(text, func(r rune) bool { return !m.glyph(r).known })
}

// Width is the width in pixels of one line of text at a size in pixels (the em).
func Width(text string, size float64, w Weight) float64 {
	m, sum := faces()[w], 0.0
	for _, r := range mouth.Printable(text) {
		sum += float64(m.glyph(r).advance)
	}
	return sum * size
}

// Advance is the distance in pixels from the start of a character to the start of the next one.
func Advance(r rune, size float64, w Weight) float64 {
	return float64(faces()[w].glyph(r).advance) * size
}

// Ascent is the height in pixels of a line above its base line, accents included.
func Ascent(size float64, w Weight) float64 { return faces()[w].ascent * size }

// CapHeight is the height in pixels of capital letters.
func CapHeight(size float64, w Weight) float64 { return faces()[w].capital * size }

// LineHeight is the distance in pixels from one base line of a text block to the next.
func LineHeight(size float64) float64 { return 1.3 * size }

// Missing returns the first character of a text that the face cannot draw; ok is false if there is none.
func Missing(text string, w Weight) (r rune, ok bool) {
	m := faces()[w]
	for _, r := range text {
		if r == utf8.RuneError || !m.glyph(r).known {
			return r, true
		}
	}
	return 0, false
}

// whole is the size at which a text is drawn: whole pixels, never larger than asked. The shaper of the window places the
// characters of a size in between as if it were the next larger one, so such sizes are not used at all.
func whole(size float64) float64 { return math.Max(1, math.Floor(size+1e-6)) }

// Fit is the largest size in whole pixels, at most largest and never below smallest, at which every one of the texts is
// no wider than width. fits is false if even the smallest is too wide.
func Fit(width, smallest, largest float64, w Weight, texts ...string) (size float64, fits bool) {
	widest := 0.0
	for _, t := range texts {
		widest = max(widest, Width(t, 1, w))
	}
	smallest, size = whole(smallest), whole(largest)
	if widest*size > width {
		size = whole(width / widest)
	}
	size = max(size, smallest)
	return size, widest*size <= width+1e-6
}
