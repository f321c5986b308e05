package ink

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"propsoff.example/assets/mouth"
)

// Anchor says which part of a text stands at the given place: one of Left, Centre, Right together with one of
// Base, Middle, Top, Bottom, as in Right|Middle. The zero value is Left|Base.
type Anchor uint8

// Across: the place is the start, middle or end of the text.
const (
	Left   Anchor = 0
	Centre Anchor = 1
	Right  Anchor = 2
	across Anchor = 3
)

// Upright: the place is on the base line, at half the height of the capitals, at the top or the bottom of the line.
const (
	Base    Anchor = 0
	Middle  Anchor = 4
	Top     Anchor = 8
	Bottom  Anchor = 12
	upright Anchor = 12
)

// Style says how a text looks. The zero Colour means Ink.
type Style struct {
	Size   float64 // pixels to the em; drawn in whole pixels, so 12.9 is 12
	Weight Weight
	Colour Role
	Anchor Anchor
	State  bool // a state word (ARMED): contrast 7 : 1 is asked of it
	Within Rect // where the text must stay, for Check; empty = the page
}

// Text draws one line of text at a place and returns the box of the line. The base line is moved to a whole pixel. Here and in all that draws
// and measures, what steers in a text is shown (package mouth).
func (p *Page) Text(name string, x, y float64, s Style, text string) Rect {
	return p.line(name, x, y, s, text, 0).Box
}

// CrossText draws a text with a stroke through the first part of it: done 0 shows none, 1 all of it crossed off.
func (p *Page) CrossText(name string, x, y float64, s Style, text string, done float64) Rect {
	it := p.line(name, x, y, s, text, 0)
	box := it.Box
	p.strike(len(p.items)-1, done)
	return box
}

func (p *Page) line(name string, x, y float64, s Style, text string, row int) *Item {
	if s.Colour == None {
		s.Colour = Ink
	}
	s.Size = whole(s.Size)
	text = mouth.Printable(text)
	m := faces()[s.Weight]
	w := Width(text, s.Size, s.Weight)
	switch s.Anchor & across {
	case Centre:
		x -= w / 2
	case Right:
		x -= w
	}
	switch s.Anchor & upright {
	case Middle:
		y += m.capital * s.Size / 2
	case Top:
		y += m.ascent * s.Size
	case Bottom:
		y -= m.descent * s.Size
	}
	y = math.Round(y)
	return p.add(Item{Kind: KindText, Name: name, Paint: Paint{Fill: s.Colour}, A: Point{x, y}, Text: text, Size: s.Size, Weight: s.Weight,
		State: s.State, Within: s.Within, Row: row, owner: -1,
		Box: Rect{x, y - m.ascent*s.Size, w, (m.ascent + m.descent) * s.Size}})
}

// strike crosses off the first part of the text with number n.
func (p *Page) strike(n int, done float64) {
	it := &p.items[n]
	it.Crossed = math.Max(0, math.Min(1, done))
	if it.Crossed == 0 || it.Box.W == 0 {
		return
	}
	// Through the middle of the small letters.
	y := it.A.Y - faces()[it.Weight].lowercase*it.Size/2
	x, w, owner, colour := it.A.X, it.Box.W*it.Crossed, int32(n), it.Fill
	p.Line(it.Name, x, y, x+w, y, Paint{Line: colour, Width: math.Max(1, it.Size/12)})
	p.items[len(p.items)-1].owner = owner
}

// inkBox is the box of what a text really draws: its width, and the highest and lowest of its characters.
func (it *Item) inkBox() Rect {
	top, bottom := faces()[it.Weight].extent(it.Text)
	return Rect{it.A.X, it.A.Y - top*it.Size, it.Box.W, (top - bottom) * it.Size}
}

// Block says how a text is broken into lines.
type Block struct {
	Width    float64 // pixels
	MaxLines int     // 0 = as many as it takes
	Shorten  bool    // with MaxLines: end the last line in "…" instead of running on
	Crossed  float64 // how much of the whole is crossed off, 0 … 1, line after line
}

// Block draws a text broken at its spaces (never at a no-break space) and at "\n", from y downwards, and returns its
// height and number of lines. The anchor's upright part is not used; its other part sets the lines left, centred or
// right in the width that starts at x. A word wider than the width stands out, and a text longer than MaxLines that
// may not be shortened runs on: Check finds both.
func (p *Page) Block(name string, x, y float64, s Style, b Block, text string) (height float64, lines int) {
	s.Size = whole(s.Size)
	if s.Within.Empty() {
		s.Within = Rect{x, y, b.Width, p.H - y}
		if b.MaxLines > 0 {
			s.Within.H = BlockHeight(s.Size, b.MaxLines)
		}
	}
	switch s.Anchor & across {
	case Centre:
		x += b.Width / 2
	case Right:
		x += b.Width
	}
	s.Anchor = s.Anchor&across | Base
	y += Ascent(s.Size, s.Weight)
	text = mouth.Lines(text)
	first, total := len(p.items), 0.0
	for rest := text; rest != ""; lines++ {
		var line string
		line, rest = nextLine(rest, b.Width, s.Size, s.Weight)
		if rest != "" && b.Shorten && b.MaxLines > 0 && lines == b.MaxLines-1 {
			line, rest = shorten(line, b.Width, s.Size, s.Weight), ""
		}
		total += p.line(name, x, y+float64(lines)*LineHeight(s.Size), s, line, lines).Box.W
	}
	for n, last, left := first, len(p.items), total*math.Max(0, b.Crossed); n < last && left > 0; n++ {
		if w := p.items[n].Box.W; w > 0 {
			p.strike(n, left/w)
			left -= w
		}
	}
	return BlockHeight(s.Size, lines), lines
}

// BlockHeight is the height in pixels of a block of so many lines.
func BlockHeight(size float64, lines int) float64 {
	if lines <= 0 {
		return 0
	}
	m := faces()[Regular]
	size = whole(size)
	return float64(lines-1)*LineHeight(size) + (m.ascent+m.descent)*size
}

// CountLines is the number of lines that a text takes in a width at a size, and whether each fits the width.
func CountLines(text string, width, size float64, w Weight) (lines int, fits bool) {
	fits, size = true, whole(size)
	text = mouth.Lines(text)
	for rest := text; rest != ""; lines++ {
		var line string
		line, rest = nextLine(rest, width, size, w)
		fits = fits && Width(line, size, w) <= width
	}
	return lines, fits
}

// FitBlock is the largest size in whole pixels, at most largest and never below smallest, at which the text broken into
// lines fits a box of w by h pixels; fits is false if even the smallest does not.
func FitBlock(w, h, smallest, largest float64, weight Weight, text string) (size float64, fits bool) {
	smallest = whole(smallest)
	for size = whole(largest); ; size-- {
		n, ok := CountLines(text, w, size, weight)
		if ok && BlockHeight(size, n) <= h {
			return size, true
		}
		if size <= smallest {
			return smallest, false
		}
	}
}

// Units are the units that stand behind a number with a space between (the International System of Units, 9th edition, 5.4.3: a space, and none
// for degrees). That space is no place to break a line.
var Units = []string{"µs", "ms", "s", "min", "h", "V", "m", "m/s", "N", "%"}

// tied reports whether the space at a place stands between a number and its unit.
func tied(text string, space int) bool {
	if space == 0 || text[space-1] < '0' || text[space-1] > '9' {
		return false
	}
	word := text[space+1:]
	if end := strings.IndexFunc(word, func(r rune) bool { return r != '/' && r != '%' && !unicode.IsLetter(r) && !unicode.IsDigit(r) }); end >= 0 {
		word = word[:end]
	}
	return slices.Contains(Units, word)
}

// Together writes a text with spaces that do not break (U+00A0) between numbers and their units, for what breaks its lines elsewhere.
func Together(text string) string {
	var out strings.Builder
	from := 0
	for i := range text {
		if text[i] == ' ' && tied(text, i) {
			out.WriteString(text[from:i] + "\u00a0")
			from = i + 1
		}
	}
	return out.String() + text[from:]
}

// nextLine takes one line off a text: as many words as fit the width, at least one. A number and its unit are one word.
func nextLine(text string, width, size float64, w Weight) (line, rest string) {
	m, sum, brk := faces()[w], 0.0, -1
	for i, r := range text {
		if r == '\n' {
			return strings.TrimRight(text[:i], " "), text[i+1:]
		}
		if r == ' ' && !tied(text, i) {
			brk = i
		}
		sum += float64(m.glyph(r).advance) * size
		// A space may hang over the edge: it draws nothing.
		if sum > width+1e-6 && r != ' ' && brk > 0 {
			return strings.TrimRight(text[:brk], " "), strings.TrimLeft(text[brk:], " ")
		}
	}
	return text, ""
}

// shorten cuts a line until it fits the width together with "…".
func shorten(line string, width, size float64, w Weight) string {
	const dots = "…"
	room := width - Width(dots, size, w)
	m, sum, end := faces()[w], 0.0, len(line)
	for i, r := range line {
		sum += float64(m.glyph(r).advance) * size
		if sum > room {
			end = i
			break
		}
	}
	return strings.TrimRight(line[:end], " ,;:–") + dots
}
