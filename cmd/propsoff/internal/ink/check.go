package ink

import (
	"cmp"
	"fmt"
	"math"
)

// Limits says what Check asks of a page. Lengths are pixels of the least window (960×600) and grow with the page,
// whatever scale the page was drawn with.
type Limits struct {
	TextContrast    float64 // of every text on what it stands on: WCAG 2, 1.4.3
	StateContrast   float64 // of state words: WCAG 2, 1.4.6
	GraphicContrast float64 // of lines and shapes that carry meaning: WCAG 2, 1.4.11
	TextSize        float64 // smallest text, rounded down to whole pixels
	HitSize         float64 // smallest side of a hit area: WCAG 2.2, 2.5.8
	Hole            float64 // largest empty rectangle, as a share of the page
}

// DefaultLimits are what the look asks for; text size and hole are ours.
func DefaultLimits() Limits {
	return Limits{TextContrast: 4.5, StateContrast: 7, GraphicContrast: 3, TextSize: 11, HitSize: 24, Hole: 0.33}
}

// Fault is the kind of a problem.
type Fault string

// The faults that Check knows.
const (
	TextOffPage   Fault = "text-off-page"  // drawn outside the page
	TextOutside   Fault = "text-outside"   // drawn outside the box it was given
	TextOverlap   Fault = "text-overlap"   // two texts on the same place
	TextCrossed   Fault = "text-crossed"   // a line or edge runs through a text
	TextCovered   Fault = "text-covered"   // a shape was drawn over a text
	TextContrast  Fault = "text-contrast"  // text too pale on what it stands on
	TextSmall     Fault = "text-small"     // text too small for the page
	TextGlyph     Fault = "text-glyph"     // a character that the face does not have
	ShapeOffPage  Fault = "shape-off-page" // drawn outside the page
	ShapeContrast Fault = "shape-contrast" // a line or shape too pale on what it stands on
	HitOffPage    Fault = "hit-off-page"   // hit area outside the page
	HitSmall      Fault = "hit-small"      // hit area too small
	HitOverlap    Fault = "hit-overlap"    // two hit areas on the same place
	DeadSpace     Fault = "dead-space"     // a large part of the page is empty
	Nameless      Fault = "nameless"       // an item or hit area without a name
	NumberBad     Fault = "not-a-number"   // a place or length that is infinite or not a number
)

// Problem is one thing that is wrong with a page.
type Problem struct {
	Fault  Fault
	Item   string // group/name of the item
	Other  string // of the second one, if two are in it
	Detail string // the numbers: what is, and what the limit or the other place is
	Box    Rect   // where
}

// String gives the problem as one line.
func (q Problem) String() string {
	s := string(q.Fault) + ": " + q.Item
	if q.Other != "" {
		s += " / " + q.Other
	}
	return s + ": " + q.Detail
}

// slack: half a pixel of overlap is not seen, and places that were moved to whole pixels may overlap by as much.
const slack = 0.5

// Check looks for everything that DefaultLimits does not allow; on a strong theme all contrast is to be StrongContrast. A good page gives nothing. It takes time in the
// square of the number of texts: for tests, not for every picture.
func Check(p *Page) []Problem {
	lim := DefaultLimits()
	if p.Theme.Strong {
		lim.TextContrast, lim.GraphicContrast = StrongContrast, StrongContrast
	}
	return CheckWith(p, lim)
}

// CheckWith is Check with limits of the caller's.
func CheckWith(p *Page, lim Limits) []Problem {
	c := &checker{p: p, lim: lim, grow: FitScale(p.W, p.H)}
	if c.numbers(); len(c.found) > 0 {
		return c.found // the rest would compute nonsense from them
	}
	c.prepare()
	for i := range p.items {
		if p.items[i].Name == "" {
			c.add(Nameless, c.label(i), "", p.items[i].Box, "%v %s", p.items[i].Kind, p.items[i].Box)
		}
		if p.items[i].Kind == KindText {
			c.text(i)
		} else {
			c.drawn(i)
		}
	}
	c.hits()
	most := lim.Hole
	if p.LeastText > 0 { // a window whose text grows slower than itself has more room to spare
		most *= math.Sqrt(max(c.grow/p.Scale, 1))
	}
	if hole, share := LargestHole(p); share > most {
		c.add(DeadSpace, "page", "", hole, "%.0f %% > %.0f %%", 100*share, 100*most)
	}
	return c.found
}

type checker struct {
	p        *Page
	lim      Limits
	grow     float64
	ink      []Rect    // what each item really draws
	outlines [][]Point // of each shape
	closed   []bool
	found    []Problem
}

func (c *checker) add(f Fault, item, other string, box Rect, format string, args ...any) {
	c.found = append(c.found, Problem{f, item, other, fmt.Sprintf(format, args...), box})
}

// label names an item for a person: its group and name, and for a text what it says.
func (c *checker) label(i int) string {
	it := &c.p.items[i]
	s := it.Group + "/" + it.Name
	if it.Kind == KindText {
		s += fmt.Sprintf(" %q", it.Text)
	}
	return s
}

func (c *checker) numbers() {
	for i := range c.p.items {
		it := &c.p.items[i]
		ok := it.Box.Finite() && finite(it.A.X, it.A.Y, it.B.X, it.B.Y, it.Width, it.Radius, it.From, it.To, it.Size)
		for _, q := range c.p.Points(it) {
			ok = ok && finite(q.X, q.Y)
		}
		if !ok {
			c.add(NumberBad, c.label(i), "", Rect{}, "box %v", it.Box)
		}
	}
	for _, h := range c.p.hits {
		if !h.Box.Finite() {
			c.add(NumberBad, h.Group+"/"+h.Name, "", Rect{}, "%v", h.Box)
		}
	}
}

func (c *checker) prepare() {
	n := len(c.p.items)
	c.ink, c.outlines, c.closed = make([]Rect, n), make([][]Point, n), make([]bool, n)
	for i := range c.p.items {
		it := &c.p.items[i]
		if it.Kind == KindText {
			c.ink[i] = it.inkBox()
			continue
		}
		c.ink[i] = it.Box
		c.outlines[i], c.closed[i] = c.p.Outline(nil, it, 0)
	}
}

// covers tells whether filled shape i lies under or over the whole of a box.
func (c *checker) covers(i int, box Rect) bool {
	it := &c.p.items[i]
	if it.Fill == None || it.Kind == KindText || !it.Box.Holds(box, slack) {
		return false
	}
	if it.Kind == KindRect {
		return true
	}
	b := box.Inset(slack)
	for _, q := range [4]Point{{b.X, b.Y}, {b.Right(), b.Y}, {b.Right(), b.Bottom()}, {b.X, b.Bottom()}} {
		if !inside(q, c.outlines[i]) {
			return false
		}
	}
	return true
}

// ground finds what item n stands on: the last filled shape before it that covers the box, or the paper (index −1).
func (c *checker) ground(n int, box Rect) (role Role, index int) {
	for i := n - 1; i >= 0; i-- {
		if c.covers(i, box) {
			return c.p.items[i].Fill, i
		}
	}
	return Paper, -1
}

func (c *checker) contrast(a, b Role) float64 {
	return Contrast(c.p.Theme.Colour(a), c.p.Theme.Colour(b))
}

func (c *checker) text(n int) {
	it, box, name := &c.p.items[n], c.ink[n], c.label(n)
	if it.Text == "" {
		return
	}
	if !c.p.Bounds().Holds(box, slack) {
		c.add(TextOffPage, name, "", box, "%s, %.0f×%.0f", box, c.p.W, c.p.H)
	}
	if !it.Within.Empty() && !it.Within.Holds(box, slack) {
		c.add(TextOutside, name, "", box, "%s, %s", box, it.Within)
	}
	if least := cmp.Or(c.p.LeastText, whole(c.lim.TextSize*c.grow)); it.Size < least {
		c.add(TextSmall, name, "", box, "%.0f < %.0f", it.Size, least)
	}
	if r, bad := Missing(it.Text, it.Weight); bad {
		c.add(TextGlyph, name, "", box, "%q (%U)", r, r)
	}
	need := c.lim.TextContrast
	if it.State {
		need = c.lim.StateContrast
	}
	role, ground := c.ground(n, box)
	if got := c.contrast(it.Fill, role); got < need {
		c.add(TextContrast, name, "", box, "%v/%v: %.4f < %.1f", it.Fill, role, got, need)
	}
	for i := range c.p.items {
		o := &c.p.items[i]
		switch {
		case i == n || o.owner == int32(n) || !c.ink[i].Inset(-slack).Meets(box):
		case o.Kind == KindText:
			if i > n && o.Text != "" && c.ink[i].Inset(slack).Meets(box) {
				c.add(TextOverlap, name, c.label(i), box, "%s, %s", box, c.ink[i])
			}
		case i > n && c.covers(i, box):
			c.add(TextCovered, name, c.label(i), box, "%s, %s", box, c.ink[i])
		case i >= ground && c.crosses(i, box):
			if !o.Under {
				c.add(TextCrossed, name, c.label(i), box, "%s, %s", box, c.ink[i])
			} else if got := c.contrast(it.Fill, o.mark()); got < need {
				c.add(TextContrast, name, c.label(i), box, "%v/%v: %.4f < %.1f", it.Fill, o.mark(), got, need)
			}
		}
	}
}

// mark is the colour by which a shape is seen first: its line, else its fill.
func (it *Item) mark() Role { return cmp.Or(it.Line, it.Fill) }

// crosses tells whether a line, or the edge of a shape, runs through a box.
func (c *checker) crosses(i int, box Rect) bool {
	it, pts := &c.p.items[i], c.outlines[i]
	if it.mark() == None {
		return false
	}
	// A stroke has half its width to each side; a closed outline lies inside its edge, and asking for its width on
	// the outside too is on the safe side.
	reach := it.Width / 2
	if c.closed[i] {
		reach = it.Width
	}
	b := box.Inset(slack - reach)
	if b.Empty() {
		return false
	}
	for j := 1; j < len(pts); j++ {
		if segmentMeets(pts[j-1], pts[j], b) {
			return true
		}
	}
	return c.closed[i] && len(pts) > 2 && segmentMeets(pts[len(pts)-1], pts[0], b)
}

// drawn looks at a line or shape.
func (c *checker) drawn(n int) {
	it, name := &c.p.items[n], c.label(n)
	if it.mark() == None {
		return
	}
	if !c.p.Bounds().Holds(it.Box, 1) {
		c.add(ShapeOffPage, name, "", it.Box, "%s, %.0f×%.0f", it.Box, c.p.W, c.p.H)
	}
	// One of fill and outline must stand out against what is beneath, unless the shape is decoration.
	if (it.Fill.Decor()) && it.Line.Decor() {
		return
	}
	role, _ := c.ground(n, it.Box)
	if it.owner >= 0 {
		role, _ = c.ground(int(it.owner), c.ink[it.owner])
	}
	best := 0.0
	for _, r := range [2]Role{it.Fill, it.Line} {
		if r != None {
			best = math.Max(best, c.contrast(r, role))
		}
	}
	if best < c.lim.GraphicContrast {
		c.add(ShapeContrast, name, "", it.Box, "%v/%v: %.4f < %.1f", it.mark(), role, best, c.lim.GraphicContrast)
	}
}

func (c *checker) hits() {
	least := cmp.Or(c.p.LeastHit, c.lim.HitSize*c.grow)
	for i, h := range c.p.hits {
		if h.Name == "" {
			c.add(Nameless, h.Group+"/", "", h.Box, "%s", h.Box)
		}
		name := h.Group + "/" + h.Name
		if !c.p.Bounds().Holds(h.Box, slack) {
			c.add(HitOffPage, name, "", h.Box, "%s, %.0f×%.0f", h.Box, c.p.W, c.p.H)
		}
		if h.Box.W < least-1e-9 || h.Box.H < least-1e-9 {
			c.add(HitSmall, name, "", h.Box, "%.1f×%.1f < %.1f", h.Box.W, h.Box.H, least)
		}
		for _, o := range c.p.hits[i+1:] {
			if h.Box.Inset(slack).Meets(o.Box) {
				c.add(HitOverlap, name, o.Group+"/"+o.Name, h.Box, "%s, %s", h.Box, o.Box)
			}
		}
	}
}
