package ui

import (
	"math"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// Down lays out one thing below the other; what there is no room for is left out. R is the room that is left, Gap what is kept free after
// each, in pixels.
type Down struct {
	R   ink.Rect
	Gap float64
	b   *Board
}

// Down begins a column in r.
func (b *Board) Down(r ink.Rect, gap float64) *Down { return &Down{R: r, Gap: gap, b: b} }

// Say writes a text in as many lines as it needs, or as there is room for; an empty one takes no room. The style's size counts.
func (d *Down) Say(name string, t words.Text, s ink.Style) { d.Write(name, d.b.Say(t), s) }

// Write is Say of a text that is written out already. A word that is wider than the column is broken where the line ends.
func (d *Down) Write(name, text string, s ink.Style) { d.Lines(math.MaxInt, name, text, s) }

// Lines is Write of a text that takes so many lines at most.
func (d *Down) Lines(most int, name, text string, s ink.Style) {
	if text == "" {
		return
	}
	text = BreakLong(text, d.R.W, s.Size, s.Weight)
	n, _ := ink.CountLines(text, d.R.W, s.Size, s.Weight)
	if n = min(n, most, int((d.R.H+0.5-ink.BlockHeight(s.Size, 1))/ink.LineHeight(s.Size)+1)); n < 1 || d.R.H+0.5 < ink.BlockHeight(s.Size, 1) {
		return
	}
	s.Within = d.R
	h, _ := d.b.Block(name, d.R.X, d.R.Y, s, ink.Block{Width: d.R.W, MaxLines: n, Shorten: true}, text)
	_, d.R = d.R.CutTop(h, d.Gap)
}

// Whole is Say of a text that is left out where there is no room for all of it: half a sentence says nothing. It tells whether it was written.
func (d *Down) Whole(name string, t words.Text, s ink.Style) bool {
	if h := d.b.SayHeight(t, d.R.W, s); h == 0 || h > d.R.H+0.5 {
		return false
	}
	d.Say(name, t, s)
	return true
}

// Row takes a row of a height.
func (d *Down) Row(h float64) (row ink.Rect) {
	row, d.R = d.R.CutTop(h, d.Gap)
	return row
}

// Split makes two places of one: beside each other, the first so wide, or on a portrait page one over the other, the first so high. apart is how
// far those beside each other are from each other, in gaps.
func (b *Board) Split(r ink.Rect, wide, high, apart float64) (first, second ink.Rect) {
	if b.Tall {
		return r.CutTop(high, b.Gap)
	}
	return r.CutLeft(wide, apart*b.Gap)
}

// Three makes three places of one, beside each other, so far apart: as wide as their shares; or on a portrait page the first two, of which the first
// is so wide, over the third, all as shares of the place.
func (b *Board) Three(r ink.Rect, shares [3]float64, apart, high, wide float64) (first, second, third ink.Rect) {
	if b.Tall {
		first, third = r.CutTop(r.H*high, b.Gap)
		first, second = first.CutLeft(first.W*wide, apart)
		return first, second, third
	}
	cols := r.Columns(nil, apart, ink.Share(shares[0], 0), ink.Share(shares[1], 0), ink.Share(shares[2], 0))
	return cols[0], cols[1], cols[2]
}

// AtRight writes a text at the right edge of a row, with some room to spare, and gives what is left of it, with a gap.
func (b *Board) AtRight(r ink.Rect, name, text string, s ink.Style, spare, gap float64) (rest ink.Rect) {
	right, rest := r.CutRight(ink.Width(text, s.Size, s.Weight)+spare, gap)
	b.Fitted(name, right, s, text)
	return rest
}

// Foot writes a text at the lower edge of r, in so many lines at most, and gives where it stands and what is left above it, with a gap. A text
// that says nothing takes no room.
func (b *Board) Foot(r ink.Rect, gap float64, most int, name string, t words.Text, s ink.Style) (foot, rest ink.Rect) {
	text := b.Say(t)
	if text == "" {
		return ink.Rect{}, r
	}
	n, _ := ink.CountLines(text, r.W, s.Size, s.Weight)
	n = min(n, most)
	foot, rest = r.CutBottom(ink.BlockHeight(s.Size, n), gap)
	s.Within = foot
	b.Block(name, foot.X, foot.Y, s, ink.Block{Width: foot.W, MaxLines: n, Shorten: true}, text)
	return foot, rest
}

// ForFinger is a height, or width, of what can be pressed: no less than a finger needs where one points.
func (b *Board) ForFinger(h float64) float64 {
	if b.V.Touch {
		h = max(h, b.Least())
	}
	return h
}

// Round draws rows of a height one below the other: all n of them, or as many as there is room for round the chosen one, −1 for none.
func (b *Board) Round(r ink.Rect, n, chosen int, h float64, draw func(row ink.Rect, i int)) {
	h = b.ForFinger(h)
	shown := max(min(n, int((r.H+0.5)/h)), 0)
	b.rows(r, ClampInt(chosen-shown/2, 0, n-shown), shown, h, draw)
}

// rows draws some rows of a height from one on.
func (b *Board) rows(r ink.Rect, first, shown int, h float64, draw func(row ink.Rect, i int)) {
	for i := range shown {
		draw(ink.Rect{X: r.X, Y: r.Y + float64(i)*h, W: r.W, H: h}, first+i)
	}
}

// List is Round of a list that is turned by wheel and drag where it does not fit, under a name.
func (b *Board) List(name string, r ink.Rect, n, chosen int, h float64, draw func(row ink.Rect, i int)) {
	b.list(name, r, n, chosen, b.ForFinger(h), draw)
}

func (b *Board) list(name string, r ink.Rect, n, chosen int, h float64, draw func(row ink.Rect, i int)) (first, end int) {
	shown := max(min(n, int((r.H+0.5)/h)), 0)
	if shown > 0 {
		first, end = b.Rolled(name, r, slices.Repeat([]float64{h}, n), chosen, ClampInt(chosen-shown/2, 0, n-shown))
	}
	b.rows(r, first, end-first, h, draw)
	return first, end
}

// ListAll is List with a line below that counts those for which there is no room, in place of the last row; it fills r.
func (b *Board) ListAll(name string, r ink.Rect, n, chosen int, h float64, draw func(row ink.Rect, i int)) {
	h = b.ForFinger(h)
	if n == 0 || float64(n)*h <= r.H+0.5 {
		b.list(name, r, n, chosen, h, draw)
		return
	}
	line, r := r.CutBottom(b.UnlistedHeight(), 2*b.U)
	first, end := b.list(name, r, n, chosen, h, draw)
	b.Unlisted(name, line, first, end, n)
}
