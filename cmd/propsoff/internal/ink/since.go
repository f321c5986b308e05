package ink

import "math"

// How far the search for the next item that both pages have goes before both are given up.
const sameAhead = 48

// The most parts that Since keeps apart; beyond, those that lie best together are joined.
const mostParts = 8

// joined is how much larger than two parts their union may be so that it is drawn in their place: each part costs a walk over the items.
const joined = 1.25

// Since appends to dst the parts of the page that look otherwise than a page that stands drawn already: upright rectangles of whole
// pixels, which may overlap. No part means that both pages look the same. All that lies outside them is drawn by the same items in the
// same order on both pages, so drawing the parts alone gives the picture of the whole page.
func (p *Page) Since(drawn *Page, dst []Rect) []Rect {
	if p.W != drawn.W || p.H != drawn.H || p.Theme != drawn.Theme {
		return append(dst, p.Bounds())
	}
	first := len(dst)
	old, now := drawn.items, p.items
	for i, j := 0, 0; i < len(old) || j < len(now); {
		gone, come := len(old)-i, len(now)-j // all that is left, where one page has no more
		if gone > 0 && come > 0 {
			if p.same(&now[j], drawn, &old[i]) {
				i, j = i+1, j+1
				continue
			}
			gone, come = p.ahead(drawn, i, j)
		}
		for ; gone > 0; i, gone = i+1, gone-1 {
			dst = p.part(dst, first, drawn.Reach(&old[i]))
		}
		for ; come > 0; j, come = j+1, come-1 {
			dst = p.part(dst, first, p.Reach(&now[j]))
		}
	}
	return dst
}

// ahead is how many items are gone from place i of the drawn page and have come at place j of this one, up to the next that both have.
func (p *Page) ahead(drawn *Page, i, j int) (gone, come int) {
	old, now := drawn.items[i:], p.items[j:]
	for n := 1; n < sameAhead; n++ {
		if n < len(old) && n < len(now) && p.same(&now[n], drawn, &old[n]) {
			return n, n
		}
		for k := range n {
			if n < len(old) && k < len(now) && p.same(&now[k], drawn, &old[n]) {
				return n, k
			}
			if n < len(now) && k < len(old) && p.same(&now[n], drawn, &old[k]) {
				return k, n
			}
		}
	}
	return 1, 1
}

// same tells whether an item of this page draws what one of another draws.
func (p *Page) same(a *Item, other *Page, b *Item) bool {
	if a.Kind != b.Kind || a.Box != b.Box || a.Fill != b.Fill || a.Line != b.Line || a.Width != b.Width || a.Dash != b.Dash ||
		a.A != b.A || a.B != b.B || a.Radius != b.Radius || a.From != b.From || a.To != b.To ||
		a.Text != b.Text || a.Size != b.Size || a.Weight != b.Weight || a.to-a.from != b.to-b.from {
		return false
	}
	q := other.Points(b)
	for i, pt := range p.Points(a) {
		if pt != q[i] {
			return false
		}
	}
	return true
}

// Reach is where an item may leave a mark: its box, and what edges, pointed corners and characters may draw beyond it.
func (p *Page) Reach(it *Item) Rect {
	if it.Kind == KindText {
		d := it.Size/4 + 2
		return it.Box.Inset(-d)
	}
	return it.Box.Inset(-2*it.Width - 2)
}

// part adds a part in whole pixels to those from the first on, joined with others that lie close.
func (p *Page) part(dst []Rect, first int, r Rect) []Rect {
	r = r.within(p.Bounds())
	if !(r.W > 0 && r.H > 0) { // nor what is no number, which no drawing shows
		return dst
	}
	for k := first; k < len(dst); k++ {
		if u := r.Union(dst[k]); u.W*u.H <= joined*(r.W*r.H+dst[k].W*dst[k].H) {
			r = u
			dst = append(dst[:k], dst[k+1:]...)
			k = first - 1 // what it did not lie close to before it may lie close to now
		}
	}
	if dst = append(dst, r); len(dst)-first <= mostParts {
		return dst
	}
	best, a, b := math.Inf(1), 0, 0
	for i := first; i < len(dst); i++ {
		for j := i + 1; j < len(dst); j++ {
			u := dst[i].Union(dst[j])
			if waste := u.W*u.H - dst[i].W*dst[i].H - dst[j].W*dst[j].H; waste < best {
				best, a, b = waste, i, j
			}
		}
	}
	r = dst[a].Union(dst[b])
	dst = append(dst[:b], dst[b+1:]...)
	return p.part(append(dst[:a], dst[a+1:]...), first, r)
}

// within is what of a rectangle, widened to whole pixels, lies in another.
func (r Rect) within(o Rect) Rect {
	x, y := math.Max(math.Floor(r.X), o.X), math.Max(math.Floor(r.Y), o.Y)
	return Rect{x, y, math.Min(math.Ceil(r.Right()), o.Right()) - x, math.Min(math.Ceil(r.Bottom()), o.Bottom()) - y}
}
