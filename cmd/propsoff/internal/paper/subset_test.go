package paper

import (
	"encoding/binary"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"

	"propsoff.example/assets/face"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// The reference is the font reader of golang.org/x/image: what was kept reads there as before, and nothing else has an
// outline.
func TestACutFontDrawsTheSame(t *testing.T) {
	for w, ttf := range weights() {
		whole, err := sfnt.Parse(ttf)
		require.NoError(t, err)
		var buf, buf2 sfnt.Buffer
		var ids []uint16
		keep := map[sfnt.GlyphIndex]bool{0: true}
		for _, r := range "Throttle ½ Ö é µ ffi 0129 Å ç" {
			g, err := whole.GlyphIndex(&buf, r)
			require.NoError(t, err)
			ids, keep[g] = append(ids, uint16(g)), true
		}
		cut, err := cutDown(ttf, ids)
		require.NoError(t, err)
		require.Less(t, len(cut), len(ttf)/4)
		require.Equal(t, uint32(0xB1B0AFBA), sum(cut), "the check sum of the whole (OpenType specification, head)")
		f, err := sfnt.Parse(withMap(t, cut, ttf))
		require.NoError(t, err)
		empty := 0
		for g := range sfnt.GlyphIndex(whole.NumGlyphs()) {
			want, err := whole.LoadGlyph(&buf, g, fixed.I(2048), nil)
			require.NoError(t, err)
			got, err := f.LoadGlyph(&buf2, g, fixed.I(2048), nil)
			require.NoError(t, err)
			if keep[g] {
				require.Equal(t, want, got, "%v glyph %d", ink.Weight(w), g)
			} else if len(got) == 0 {
				empty++
			}
		}
		assert.Greater(t, empty, whole.NumGlyphs()-60)
	}
}

// withMap puts back the tables that a font in a PDF does without and the reference asks for.
func withMap(t *testing.T, cut, whole []byte) []byte {
	c, err := tables(cut)
	require.NoError(t, err)
	w, err := tables(whole)
	require.NoError(t, err)
	for tag := range w {
		if len(c[tag]) == 0 {
			c[tag] = w[tag]
		}
	}
	var tags []string
	for tag := range c {
		tags = append(tags, tag)
	}
	out := binary.BigEndian.AppendUint32(nil, 0x00010000)
	out = binary.BigEndian.AppendUint16(out, uint16(len(tags)))
	out = append(out, 0, 0, 0, 0, 0, 0)
	at := 12 + 16*len(tags)
	// Tables are found in the order of their tags.
	for i := range tags {
		for j := i; j > 0 && tags[j] < tags[j-1]; j-- {
			tags[j], tags[j-1] = tags[j-1], tags[j]
		}
	}
	for _, tag := range tags {
		out = append(out, tag...)
		for _, v := range [3]uint32{0, uint32(at), uint32(len(c[tag]))} {
			out = binary.BigEndian.AppendUint32(out, v)
		}
		at += (len(c[tag]) + 3) / 4 * 4
	}
	for _, tag := range tags {
		out = append(out, c[tag]...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	return out
}

// The widths in the document add up to what the page measured.
func TestWidthsInThePDFAreThoseOfThePage(t *testing.T) {
	d := printOf(A4(), Fine)
	fonts, err := loadFonts(d.Page)
	require.NoError(t, err)
	for w, f := range fonts {
		list := strings.NewReplacer("[", " ", "]", " ").Replace(string(f.widths(f.ids())))
		sum := 0.0
		for _, g := range f.ids() {
			sum += float64(f.glyphs[g].advance) * 1000 / float64(f.em)
			assert.Contains(t, list, string(number(nil, float64(f.glyphs[g].advance)*1000/float64(f.em), 4)))
		}
		letters := ""
		for _, g := range f.ids() {
			letters += f.glyphs[g].letter
		}
		assert.InDelta(t, ink.Width(letters, 1000, ink.Weight(w)), sum, 0.5)
	}
}

func TestABrokenFontIsRefused(t *testing.T) {
	ttf := weights()[0]
	for _, n := range []int{0, 4, 11, 100, 5000, len(ttf) - 20000} {
		_, err := cutDown(ttf[:n], []uint16{3})
		assert.Error(t, err, "%d bytes", n)
	}
	_, err := cutDown(ttf, []uint16{60000})
	assert.Error(t, err)
	// Whatever is broken in it, there is an error or a font, never a panic.
	rapid.Check(t, func(t *rapid.T) {
		b := append([]byte(nil), ttf...)
		for range rapid.IntRange(1, 20).Draw(t, "bytes") {
			at := rapid.IntRange(0, 400).Draw(t, "at")
			if rapid.Bool().Draw(t, "inside") {
				at = rapid.IntRange(0, len(b)-1).Draw(t, "anywhere")
			}
			b[at] = rapid.Byte().Draw(t, "to")
		}
		_, _ = cutDown(b, []uint16{3, 40, 200, 600})
	})
}

// cutDown is subset of a whole font.
func cutDown(ttf []byte, glyphs []uint16) ([]byte, error) {
	t, err := tables(ttf)
	if err != nil {
		return nil, err
	}
	return subset(t, glyphs)
}

// weights are the fonts of the text face.
func weights() [2][]byte { return [2][]byte{face.Regular(), face.Bold()} }
