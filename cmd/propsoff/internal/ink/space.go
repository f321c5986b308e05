package ink

import "math"

// The page is looked at through so many cells to find what is empty.
const (
	spaceColumns = 64
	spaceRows    = 40
)

type spaceGrid [spaceRows][spaceColumns]bool

// EmptyShare is the share 0 … 1 of the page on which nothing is drawn, as seen through 64 by 40 cells. A ground
// (Paper, Panel) and a guide (Grid) count as nothing; of a shape without fill only its edge counts.
func EmptyShare(p *Page) float64 {
	g, n := occupied(p), 0
	for y := range g {
		for x := range g[y] {
			if !g[y][x] {
				n++
			}
		}
	}
	return float64(n) / (spaceColumns * spaceRows)
}

// LargestHole is the largest rectangle of cells on which nothing is drawn, and its share 0 … 1 of the page.
func LargestHole(p *Page) (Rect, float64) {
	g := occupied(p)
	var high [spaceColumns]int
	var best Rect
	most := 0
	for y := range spaceRows {
		for x := range spaceColumns {
			high[x]++
			if g[y][x] {
				high[x] = 0
			}
		}
		for x := range spaceColumns {
			h := high[x]
			for x2 := x; x2 < spaceColumns && h > 0; x2++ {
				h = min(h, high[x2])
				if a := h * (x2 - x + 1); a > most {
					most, best = a, Rect{float64(x), float64(y - h + 1), float64(x2 - x + 1), float64(h)}
				}
			}
		}
	}
	cw, ch := p.W/spaceColumns, p.H/spaceRows
	return Rect{best.X * cw, best.Y * ch, best.W * cw, best.H * ch}, float64(most) / (spaceColumns * spaceRows)
}

// occupied marks the cells that something is drawn on.
func occupied(p *Page) *spaceGrid {
	g := &spaceGrid{}
	if p.W <= 0 || p.H <= 0 {
		return g
	}
	cw, ch := p.W/spaceColumns, p.H/spaceRows
	mark := func(r Rect) {
		x0, y0 := max(0, int(r.X/cw)), max(0, int(r.Y/ch))
		x1, y1 := min(spaceColumns-1, int(r.Right()/cw)), min(spaceRows-1, int(r.Bottom()/ch))
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				g[y][x] = true
			}
		}
	}
	for i := range p.items {
		it := &p.items[i]
		switch {
		case it.Kind == KindText:
			if it.Text != "" {
				mark(it.inkBox())
			}
			continue
		case it.Fill.Decor() && it.Line.Decor():
			continue
		case !it.Fill.Decor():
			mark(it.Box)
			continue
		}
		pts, closed := p.Outline(nil, it, 0)
		if closed {
			pts = append(pts, pts[0])
		}
		for j := 1; j < len(pts); j++ {
			a, b := pts[j-1], pts[j]
			steps := max(1, int(math.Hypot((b.X-a.X)/cw, (b.Y-a.Y)/ch)*2))
			for s := range steps + 1 {
				f := float64(s) / float64(steps)
				mark(Rect{a.X + (b.X-a.X)*f, a.Y + (b.Y-a.Y)*f, 0, 0})
			}
		}
	}
	return g
}
