package paper

import (
	"crypto/md5"
	"encoding/binary"
	"fmt"
	"slices"
	"unicode/utf16"

	"golang.org/x/image/font/sfnt"

	"propsoff.example/cmd/propsoff/internal/ink"
)

func fontName(w ink.Weight) string { return [2]string{"F0", "F1"}[w] }

// font writes what a page uses of a font: a composite font whose character codes are glyph numbers (9.7), its outlines
// cut down to the glyphs used, and the table by which a reader finds the characters again (9.10.3).
func (f *file) font(used *usedFont, w ink.Weight) (int, error) {
	glyphs := used.ids()
	ids := make([]uint16, len(glyphs))
	for i, g := range glyphs {
		ids[i] = uint16(g)
	}
	t, err := tables(used.ttf)
	if err != nil {
		return 0, err
	}
	cut, err := subset(t, ids)
	if err != nil {
		return 0, err
	}
	if len(t["head"]) < 54 || len(t["hhea"]) < 8 {
		return 0, errFont
	}
	own, err := used.font.Name(&used.buf, sfnt.NameIDPostScript)
	if err != nil {
		return 0, err
	}
	name := tag(ids) + "+" + own
	em := float64(used.em)
	part := func(b []byte) string {
		return string(number(nil, float64(int16(binary.BigEndian.Uint16(b)))*1000/em, 2))
	}
	box := ""
	for i := range 4 {
		box += " " + part(t["head"][36+2*i:])
	}
	stem := [2]int{ink.Regular: 80, ink.Bold: 140} // of the letters' upright strokes, roughly; only a replacement would use it

	data := f.stream(fmt.Sprintf(" /Length1 %d", len(cut)), cut)
	codes := f.stream("", used.codes(glyphs))
	about, inner, whole := f.number(), f.number(), f.number()
	f.object(about, "<< /Type /FontDescriptor /FontName /%s /Flags 4 /FontBBox [%s ] /ItalicAngle 0 /Ascent %s /Descent %s /CapHeight %s /StemV %d /FontFile2 %d 0 R >>",
		name, box, part(t["hhea"][4:]), part(t["hhea"][6:]), number(nil, ink.CapHeight(1000, w), 2), stem[w], data)
	f.object(inner, "<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /FontDescriptor %d 0 R /CIDToGIDMap /Identity /DW 1000 /W [%s] >>",
		name, about, used.widths(glyphs))
	f.object(whole, "<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>", name, inner, codes)
	return whole, nil
}

// tag is the six letters before the name of a font that was cut down (9.6.4), made of its glyphs.
func tag(glyphs []uint16) string {
	var b []byte
	for _, g := range glyphs {
		b = binary.BigEndian.AppendUint16(b, g)
	}
	h := md5.Sum(b)
	out := make([]byte, 6)
	for i := range out {
		out[i] = 'A' + h[i]%26
	}
	return string(out)
}

// widths writes the glyphs' widths in thousandths of an em (9.7.4.3), neighbours together, unrounded: a text ends where
// the page measured it.
func (f *usedFont) widths(glyphs []sfnt.GlyphIndex) []byte {
	var out []byte
	for i, g := range glyphs {
		switch {
		case i == 0:
			out = fmt.Appendf(out, "%d [", g)
		case glyphs[i-1]+1 != g:
			out = fmt.Appendf(out, "] %d [", g)
		default:
			out = append(out, ' ')
		}
		out = number(out, float64(f.glyphs[g].advance)*1000/float64(f.em), 4)
	}
	if len(glyphs) > 0 {
		out = append(out, ']')
	}
	return out
}

// codes writes which character each glyph stands for.
func (f *usedFont) codes(glyphs []sfnt.GlyphIndex) []byte {
	out := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for some := range slices.Chunk(glyphs, 100) { // no more than 100 at a time
		out = fmt.Appendf(out, "%d beginbfchar\n", len(some))
		for _, g := range some {
			out = fmt.Appendf(out, "<%04X> <", g)
			for _, u := range utf16.Encode([]rune(f.glyphs[g].letter)) {
				out = fmt.Appendf(out, "%04X", u)
			}
			out = append(out, ">\n"...)
		}
		out = append(out, "endbfchar\n"...)
	}
	return append(out, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
