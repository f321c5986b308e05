package paper

import (
	"bytes"
	"compress/zlib"
	"crypto/md5"
	"encoding/hex"
	"fmt"
	"io"
	"time"
	"unicode/utf16"

	"propsoff.example/assets/mouth"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// pdf writes the page as a document of one page (PDF 1.5; sections in comments are those of ISO 32000-1).
func (d *Print) pdf(w io.Writer) error {
	fonts, err := loadFonts(d.Page)
	if err != nil {
		return err
	}
	f := &file{}
	f.out = append(f.out, "%PDF-1.5\n%\xE2\xE3\xCF\xD3\n"...)
	catalogue, pages, page, info := f.number(), f.number(), f.number(), f.number()

	resources := ""
	for weight, used := range fonts {
		if len(used.glyphs) == 0 {
			continue
		}
		n, err := f.font(used, ink.Weight(weight))
		if err != nil {
			return err
		}
		resources += fmt.Sprintf(" /%s %d 0 R", fontName(ink.Weight(weight)), n)
	}
	content := f.stream("", d.content(fonts))

	p, k := d.Page, 72/d.DPI
	f.object(page, "<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %s %s] /Contents %d 0 R /Resources << /Font <<%s >> >> >>",
		pages, number(nil, p.W*k, 3), number(nil, p.H*k, 3), content, resources)
	f.object(pages, "<< /Type /Pages /Kids [%d 0 R] /Count 1 >>", page)
	f.object(catalogue, "<< /Type /Catalog /Pages %d 0 R /Lang %s /ViewerPreferences << /DisplayDocTitle true >> >>", pages, textString(d.Language))
	f.object(info, "<< /Title %s /Subject %s /Creator (propsoff)%s >>", textString(d.Title), textString(d.About), dateEntry(d.Date))
	f.end(catalogue, info)
	_, err = w.Write(f.out)
	return err
}

// file is a document being written; places are those of the objects, by number from 1.
type file struct {
	out    []byte
	places []int
}

// number reserves the number of an object.
func (f *file) number() int {
	f.places = append(f.places, 0)
	return len(f.places)
}

// object writes an object.
func (f *file) object(n int, format string, args ...any) {
	f.places[n-1] = len(f.out)
	f.out = fmt.Appendf(f.out, "%d 0 obj\n", n)
	f.out = fmt.Appendf(f.out, format, args...)
	f.out = append(f.out, "\nendobj\n"...)
}

// stream writes data, compressed, as an object with further entries in its dictionary, and gives its number.
func (f *file) stream(entries string, data []byte) int {
	var b bytes.Buffer
	z, _ := zlib.NewWriterLevel(&b, zlib.BestCompression) // a level that there is
	_, _ = z.Write(data)                                  // a Buffer takes everything
	_ = z.Close()
	n := f.number()
	f.object(n, "<< /Length %d /Filter /FlateDecode%s >>\nstream\n%s\nendstream", b.Len(), entries, b.Bytes())
	return n
}

// end writes the table of places (7.5.4) and the trailer. The identifier is made of the content.
func (f *file) end(root, info int) {
	id := md5.Sum(f.out)
	at := len(f.out)
	f.out = fmt.Appendf(f.out, "xref\n0 %d\n0000000000 65535 f \n", len(f.places)+1)
	for _, p := range f.places {
		f.out = fmt.Appendf(f.out, "%010d 00000 n \n", p)
	}
	f.out = fmt.Appendf(f.out, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%x> <%x>] >>\nstartxref\n%d\n%%%%EOF\n",
		len(f.places)+1, root, info, id, id, at)
}

// content draws the page: its pixels become units of the document, y downwards as on the page.
func (d *Print) content(fonts [2]*usedFont) []byte {
	p, k := d.Page, 72/d.DPI
	s := &scribe{}
	s.out = fmt.Appendf(s.out, "%s 0 0 -%s 0 %s cm\n2 M\n", number(nil, k, 8), number(nil, k, 8), number(nil, p.H*k, 3))
	if paper := p.Theme.Colour(ink.Paper); paper != (ink.Colour{R: 255, G: 255, B: 255}) {
		s.fill(paper)
		s.out = fmt.Appendf(s.out, "0 0 %s %s re f\n", number(nil, p.W, 2), number(nil, p.H, 2))
	}
	for i := range p.Items() {
		it := &p.Items()[i]
		if it.Kind == ink.KindText {
			s.text(it, fonts[it.Weight], p.Theme.Colour(it.Fill))
			continue
		}
		for _, m := range marks(p, it) {
			s.mark(&m)
		}
	}
	return s.out
}

// scribe writes drawing operators (8, 9) and remembers what is set already.
type scribe struct {
	out                []byte
	filled, lined      bool
	filling, lining    ink.Colour
	width              float64
	dash               ink.Dash
	fontSize, fontKind string
}

func colour(dst []byte, c ink.Colour, operator string) []byte {
	for _, v := range [3]uint8{c.R, c.G, c.B} {
		dst = append(number(dst, float64(v)/255, 4), ' ')
	}
	return append(append(dst, operator...), '\n')
}

func (s *scribe) fill(c ink.Colour) {
	if !s.filled || s.filling != c {
		s.out = colour(s.out, c, "rg")
		s.filled, s.filling = true, c
	}
}

func (s *scribe) mark(m *mark) {
	if len(m.way) == 0 {
		return
	}
	if !m.stroke {
		s.fill(m.colour)
		s.way(m.way)
		s.out = append(s.out, "f\n"...)
		return
	}
	if !s.lined || s.lining != m.colour {
		s.out = colour(s.out, m.colour, "RG")
		s.lined, s.lining = true, m.colour
	}
	if m.width != s.width {
		s.out = append(number(s.out, m.width, 2), " w\n"...)
		s.width = m.width
	}
	dash := m.dash
	if dash.On <= 0 || dash.Off <= 0 {
		dash = ink.Dash{}
	}
	if dash != s.dash {
		s.dash = dash
		if dash == (ink.Dash{}) {
			s.out = append(s.out, "[] 0 d\n"...)
		} else {
			s.out = fmt.Appendf(s.out, "[%s %s] 0 d\n", number(nil, dash.On, 2), number(nil, dash.Off, 2))
		}
	}
	s.way(m.way)
	s.out = append(s.out, "S\n"...)
}

func (s *scribe) way(way []piece) {
	for _, q := range way {
		switch q.op {
		case moveTo:
			s.out = append(point(s.out, q.p[0]), " m\n"...)
		case lineTo:
			s.out = append(point(s.out, q.p[0]), " l\n"...)
		case curveTo:
			for _, h := range q.p {
				s.out = append(point(s.out, h), ' ')
			}
			s.out = append(s.out, "c\n"...)
		case closed:
			s.out = append(s.out, "h\n"...)
		}
	}
}

// text writes a text as the numbers of its glyphs (9.7.4.3: two bytes each).
func (s *scribe) text(it *ink.Item, f *usedFont, c ink.Colour) {
	if it.Text == "" {
		return
	}
	s.fill(c)
	s.out = append(s.out, "BT\n"...)
	if name, size := fontName(it.Weight), string(number(nil, it.Size, 2)); name != s.fontKind || size != s.fontSize {
		s.fontKind, s.fontSize = name, size
		s.out = fmt.Appendf(s.out, "/%s %s Tf\n", name, size)
	}
	// The page's y runs downwards, the text's upwards.
	s.out = append(point(append(s.out, "1 0 0 -1 "...), it.A), " Tm <"...)
	for _, r := range it.Text {
		s.out = fmt.Appendf(s.out, "%04X", f.of[r])
	}
	s.out = append(s.out, "> Tj\nET\n"...)
}

// textString writes a string that a person reads (7.9.2.2): UTF-16 with its mark, in hexadecimal.
func textString(s string) string {
	b := []byte{0xFE, 0xFF}
	for _, u := range utf16.Encode([]rune(mouth.Printable(s))) {
		b = append(b, byte(u>>8), byte(u))
	}
	return "<" + hex.EncodeToString(b) + ">"
}

// dateEntry writes a date (7.9.4), nothing for none.
func dateEntry(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return " /CreationDate (D:" + t.UTC().Format("20060102150405") + "Z)"
}
