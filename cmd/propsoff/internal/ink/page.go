// Package ink is a page as lines, shapes and measured text in a theme.
//
// A screen is a function that draws to a Page; what the page holds is a plain list, so overlap, clipping, contrast
// and text size are ordinary tests (Check), what is drawn can be read back (Describe), and the same page becomes a
// window, a picture or a print. Lengths are pixels; colours are roles of a Theme. Building a page on the
// bones of the last one (Reset) allocates nothing.
package ink

import "math"

// The size of the smallest window that sheets are made for. Text and hit areas grow from here.
const (
	LeastWidth  = 960
	LeastHeight = 600
)

// FitScale is the factor by which a window of w by h pixels is larger than the least one (below 1 if smaller).
func FitScale(w, h float64) float64 { return math.Min(w/LeastWidth, h/LeastHeight) }

// Kind is the kind of an item.
type Kind uint8

// The kinds of items.
const (
	KindText Kind = iota
	KindLine
	KindRect
	KindRoundRect
	KindCircle
	KindArc
	KindPolyline
	KindPolygon
	KindBand
)

var kindNames = [...]string{"text", "line", "rect", "round-rect", "circle", "arc", "polyline", "polygon", "band"}

// String gives the kind's name.
func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return "unknown"
}

// Item is one thing on a page. Which fields count depends on Kind; screens do not build items but call the page's
// methods, readers (drawing, printing, checks) read them.
type Item struct {
	Kind  Kind
	Name  string // what it is, for tests and checks
	Group string // the part of the sheet it belongs to
	Box   Rect   // all that is drawn lies in here, for a text its line: ascent to descent

	Paint // of a text only Fill, its colour; of a shape without a Line the Width is 0

	A, B     Point   // text: A its start on the base line; line: ends; circle and arc: A the centre
	Radius   float64 // circle, arc (middle of the stroke), corners
	From, To float64 // arc: radians, 0 to the right, growing clockwise on the screen

	Text    string
	Size    float64 // pixels to the em
	Weight  Weight
	State   bool    // a state word: contrast 7 : 1 asked
	Within  Rect    // where it must stay; empty = the page
	Crossed float64 // how much of it is crossed off, 0 … 1
	Row     int     // line number in a text block, from 0

	from, to int32 // points
	owner    int32 // number of the text that this stroke belongs to, −1 = none
}

// Dash is a broken line: so many pixels drawn, so many left out. The zero value is an unbroken line.
type Dash struct{ On, Off float64 }

// Hit is a named area that can be clicked.
type Hit struct {
	Name  string // the action
	Key   string // the key that does the same, as shown
	Group string
	Box   Rect
	// Held: it acts from the press on for as long as it is held, as a lever or a stick does; others act when they are let go of.
	Held bool
	// Room is where what is dragged there goes from end to end; empty where nothing is.
	Room Rect
}

// List is a named area in which a list stands that goes on: a wheel turns it there, and a pointer that is drawn across it.
type List struct {
	Name string
	Box  Rect
	// Step is how far a pointer goes for one row on. Leaf: it is pages that are turned, by one a drag, upwards or to the left.
	Step float64
	Leaf bool
}

// Page is a sheet being drawn. The zero value is not usable: see NewPage. A page belongs to one goroutine.
type Page struct {
	W, H  float64 // pixels
	Scale float64 // factor of lengths against the least window; Px applies it
	Theme *Theme
	// Dense is how many pixels of the page one of the system's has, 0 for one: Reset leaves it. LeastText and LeastHit are what Check asks of text and of
	// hit areas, in pixels; 0 leaves both to its limits and the size of the page.
	Dense, LeastText, LeastHit float64

	items  []Item
	hits   []Hit
	lists  []List
	points []Point
	group  string
}

// NewPage makes an empty page of w by h pixels. A scale of 0 or less means FitScale(w, h); a nil theme means Light.
func NewPage(w, h, scale float64, t *Theme) *Page {
	p := &Page{}
	p.Reset(w, h, scale, t)
	return p
}

// Reset empties the page for the next picture and keeps its buffers.
func (p *Page) Reset(w, h, scale float64, t *Theme) {
	if scale <= 0 {
		scale = FitScale(w, h)
	}
	if t == nil {
		t = Light()
	}
	p.W, p.H, p.Scale, p.Theme, p.LeastText, p.LeastHit = w, h, scale, t, 0, 0
	p.items, p.hits, p.lists, p.points, p.group = p.items[:0], p.hits[:0], p.lists[:0], p.points[:0], ""
}

// Bounds is the whole page.
func (p *Page) Bounds() Rect { return Rect{0, 0, p.W, p.H} }

// Px turns a length of the least window into pixels of this page.
func (p *Page) Px(v float64) float64 { return v * p.Scale }

// TextSize turns a text size of the least window into one of this page: whole pixels, rounded down.
func (p *Page) TextSize(v float64) float64 { return whole(v * p.Scale) }

// Group names the part of the sheet that the following items belong to.
func (p *Page) Group(name string) { p.group = name }

// Items gives all items in the order in which they are drawn. Valid until the next Reset.
func (p *Page) Items() []Item { return p.items }

// Hits gives all hit areas. Valid until the next Reset.
func (p *Page) Hits() []Hit { return p.hits }

// Points gives the points of a polyline or polygon. Valid until the next Reset.
func (p *Page) Points(it *Item) []Point { return p.points[it.from:it.to] }

// Hit adds an area that can be clicked. Key is the key that does the same.
func (p *Page) Hit(name, key string, box Rect) {
	p.hits = append(p.hits, Hit{Name: name, Key: key, Group: p.group, Box: box})
}

// Hold is Hit for an area that acts for as long as it is held.
func (p *Page) Hold(name, key string, box Rect) {
	p.hits = append(p.hits, Hit{Name: name, Key: key, Group: p.group, Box: box, Held: true})
}

// Drag is Hold for an area in which something is dragged, from end to end of a room.
func (p *Page) Drag(name string, box, room Rect) {
	p.hits = append(p.hits, Hit{Name: name, Group: p.group, Box: box, Held: true, Room: room})
}

// List adds an area in which a list is turned.
func (p *Page) List(l List) { p.lists = append(p.lists, l) }

// Lists gives all areas in which lists are turned. Valid until the next Reset.
func (p *Page) Lists() []List { return p.lists }

// ListAt finds the area at a place of the page in which a list is turned.
func (p *Page) ListAt(at Point) (List, bool) {
	for _, l := range p.lists {
		if l.Box.Has(at) {
			return l, true
		}
	}
	return List{}, false
}

// HitAt finds the hit area at a place of the page; the last one added lies on top.
func (p *Page) HitAt(x, y float64) (Hit, bool) {
	for i := len(p.hits) - 1; i >= 0; i-- {
		if p.hits[i].Box.Has(Point{x, y}) {
			return p.hits[i], true
		}
	}
	return Hit{}, false
}

// add appends an item of the running group.
func (p *Page) add(it Item) *Item {
	it.Group = p.group
	p.items = append(p.items, it)
	return &p.items[len(p.items)-1]
}
