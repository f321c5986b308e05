package paper

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"golang.org/x/image/font/sfnt"

	"propsoff.example/assets/mouth"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// svg writes the page as a drawing (Scalable Vector Graphics 1.1, second edition). Each character used stands once
// among the definitions, as an outline in the units of its font; a text puts them side by side.
func (d *Print) svg(w io.Writer) error {
	f, err := loadFonts(d.Page)
	if err != nil {
		return err
	}
	p, language := d.Page, ""
	if d.Language != "" {
		language = fmt.Sprintf(" xml:lang=%q", escape(d.Language))
	}
	out := fmt.Appendf(nil, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\"%s width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n",
		language, number(nil, p.W/d.DPI*inch, 3), number(nil, p.H/d.DPI*inch, 3), number(nil, p.W, 2), number(nil, p.H, 2))
	if d.Title != "" {
		out = fmt.Appendf(out, "<title>%s</title>\n", escape(d.Title))
	}
	if d.About != "" {
		out = fmt.Appendf(out, "<desc>%s</desc>\n", escape(d.About))
	}
	out = append(out, "<defs>\n"...)
	for weight, used := range f {
		for _, g := range used.ids() {
			if way := used.glyphs[g].way; len(way) > 0 {
				out = fmt.Appendf(out, "<path id=\"%s\" d=\"%s\"/>\n", glyphName(ink.Weight(weight), g), svgWay(nil, way))
			}
		}
	}
	out = append(out, "</defs>\n"...)
	out = fmt.Appendf(out, "<rect width=\"%s\" height=\"%s\" fill=\"%s\"/>\n", number(nil, p.W, 2), number(nil, p.H, 2), p.Theme.Colour(ink.Paper))
	for i := range p.Items() {
		it := &p.Items()[i]
		if it.Kind == ink.KindText {
			out = f[it.Weight].svgText(out, it, p.Theme.Colour(it.Fill))
			continue
		}
		for _, m := range marks(p, it) {
			if len(m.way) > 0 {
				out = svgMark(out, &m)
			}
		}
	}
	out = append(out, "</svg>\n"...)
	_, err = w.Write(out)
	return err
}

func svgMark(out []byte, m *mark) []byte {
	out = fmt.Appendf(out, "<path d=\"%s\" ", svgWay(nil, m.way))
	if !m.stroke {
		return fmt.Appendf(out, "fill=\"%s\"/>\n", m.colour)
	}
	out = fmt.Appendf(out, "fill=\"none\" stroke=\"%s\" stroke-width=\"%s\" stroke-miterlimit=\"2\"", m.colour, number(nil, m.width, 2))
	if m.dash.On > 0 && m.dash.Off > 0 {
		out = fmt.Appendf(out, " stroke-dasharray=\"%s,%s\"", number(nil, m.dash.On, 2), number(nil, m.dash.Off, 2))
	}
	return append(out, "/>\n"...)
}

func svgWay(out []byte, way []piece) []byte {
	for _, s := range way {
		switch s.op {
		case moveTo:
			out = point(append(out, 'M'), s.p[0])
		case lineTo:
			out = point(append(out, 'L'), s.p[0])
		case curveTo:
			out = point(append(out, 'C'), s.p[0])
			out = point(append(out, ' '), s.p[1])
			out = point(append(out, ' '), s.p[2])
		case closed:
			out = append(out, 'Z')
		}
	}
	return out
}

// svgText draws a text from its characters' outlines and says it in words.
func (f *usedFont) svgText(out []byte, it *ink.Item, colour ink.Colour) []byte {
	if it.Text == "" {
		return out
	}
	out = fmt.Appendf(out, "<g transform=\"translate(%s,%s) scale(%s)\" fill=\"%s\"><desc>%s</desc>",
		number(nil, it.A.X, 2), number(nil, it.A.Y, 2), number(nil, it.Size/float64(f.em), 6), colour, escape(it.Text))
	x := 0
	for _, r := range it.Text {
		g := f.of[r]
		if len(f.glyphs[g].way) > 0 {
			out = fmt.Appendf(out, "<use xlink:href=\"#%s\" x=\"%d\"/>", glyphName(it.Weight, g), x)
		}
		x += f.glyphs[g].advance
	}
	return append(out, "</g>\n"...)
}

func glyphName(w ink.Weight, g sfnt.GlyphIndex) string { return fmt.Sprintf("%c%d", "rb"[w], g) }

// escape writes a text as XML; what XML cannot hold is shown (package mouth), like all that steers.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(mouth.Printable(s))) // a Builder never fails
	return b.String()
}
