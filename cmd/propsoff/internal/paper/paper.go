// Package paper is a page as PDF, SVG and PNG.
//
// What stands on an ink.Page is put on paper as it is: every shape at its place, every text at its place and in the
// built-in text face, which the file carries along. In the PDF text stays text, to be selected and searched; in the SVG
// it is drawn by the outlines of its characters, so that it looks the same wherever it is opened, and said in words
// beside them. The same page gives the same bytes: no clock is asked, and a date stands in the file only where one is
// given.
package paper

import (
	"io"
	"math"
	"path/filepath"
	"strings"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// Size is a size of paper, upright, in millimetres.
type Size struct {
	Name          string
	Width, Height float64
}

// inch is in millimetres.
const inch = 25.4

// A4 is the sheet of ISO 216.
func A4() Size { return Size{"A4", 210, 297} }

// Letter is the sheet of ANSI/ASME Y14.1, size A: 8.5 by 11 inches.
func Letter() Size { return Size{"Letter", 8.5 * inch, 11 * inch} }

// Sizes are the sizes that the program prints on.
func Sizes() []Size { return []Size{A4(), Letter()} }

// SizeNamed finds a size by its name in small or large letters.
func SizeNamed(name string) (Size, bool) {
	for _, s := range Sizes() {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return Size{}, false
}

// Fine is the number of pixels to the inch at which a page is laid out for print: text sizes are whole pixels, and at
// this many a step is a quarter of a point.
const Fine = 300

// Page is an empty page for this paper at so many pixels to the inch, its width and height rounded to whole ones. Its Scale makes Px and
// TextSize take points (1/72 inch).
func (s Size) Page(dpi float64) *ink.Page {
	return ink.NewPage(math.Round(s.Width/inch*dpi), math.Round(s.Height/inch*dpi), dpi/72, Theme())
}

// Theme holds the colours of what is printed.
func Theme() *ink.Theme { return ink.Print() }

// Print is a page about to be put on paper.
type Print struct {
	Page *ink.Page
	// DPI is how many pixels of the page make an inch.
	DPI float64
	// Title and About stand in the file's particulars, not on the page, and so does Language, as in BCP 47; empty for none.
	Title, About, Language string
	// Date stands in the particulars of a PDF; the zero time leaves it out.
	Date time.Time
}

// Format is a kind of file.
type Format uint8

// The formats.
const (
	PDF Format = iota
	SVG
	PNG
)

// Extensions are the endings of file names, by Format.
func Extensions() []string { return []string{".pdf", ".svg", ".png"} }

// FormatOf finds the format by the ending of a file name; false for any other ending.
func FormatOf(name string) (Format, bool) {
	for f, e := range Extensions() {
		if strings.EqualFold(filepath.Ext(name), e) {
			return Format(f), true
		}
	}
	return 0, false
}

// Write writes the page in a format.
func (d *Print) Write(w io.Writer, f Format) error {
	if d.Page == nil || !(d.DPI > 0) || math.IsInf(d.DPI, 0) || !(d.Page.W >= 1) || !(d.Page.H >= 1) {
		return words.Wrong("paper.no-page")
	}
	for i := range d.Page.Items() {
		if it := &d.Page.Items()[i]; !it.Box.Finite() {
			return words.Wrong("paper.not-a-number", words.Args{"item": words.Quote(it.Group + "/" + it.Name)})
		}
	}
	switch f {
	case PDF:
		return d.pdf(w)
	case SVG:
		return d.svg(w)
	case PNG:
		return d.png(w)
	}
	return ErrEnding
}
