package ui

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// Leaves are the pages of what does not fit one: At is the one that is shown, from 0, Of how many there were when it was drawn last.
type Leaves struct{ At, Of int }

// Says says which page is shown, of how many.
func (l *Leaves) Says() words.Text {
	return words.T("sheet.page", words.Args{"n": words.Whole(l.At + 1), "of": words.Whole(l.Of)})
}

// Leafed draws n things of some heights one below the other in class view, gap apart, on as few pages as they fit, those of the page that is shown;
// where there are several, a line at the lower edge says which it is, with the keys for the others. It gives what is left below.
func (b *Board) Leafed(r ink.Rect, n int, gap float64, high func(i int) float64, draw func(i int, at ink.Rect)) (rest ink.Rect) {
	l := &b.V.Leaves
	first, whole := leafed(n, r.H, gap, high), r
	if len(first) > 1 {
		var line ink.Rect
		line, r = r.CutBottom(b.leafLine(), 2*b.U)
		first = leafed(n, r.H, gap, high)
		l.Of, l.At = len(first), min(l.At, len(first)-1)
		b.leaf(line)
		b.RollLeaves(whole)
	} else {
		l.Of, l.At = 1, 0
	}
	end := n
	if l.At+1 < len(first) {
		end = first[l.At+1]
	}
	for i := first[l.At]; i < end; i++ {
		var at ink.Rect
		at, r = r.CutTop(min(high(i), r.H), gap)
		draw(i, at)
	}
	return r
}

// LeavesRoll is the name under which the pages of what does not fit one are turned.
const LeavesRoll = "leaves"

// RollLeaves has pages turned by wheel and drag in a place; half of the step is more than a press that slips (ours).
func (b *Board) RollLeaves(r ink.Rect) {
	b.Page.List(ink.List{Name: LeavesRoll, Box: r, Step: 80 * b.U, Leaf: true})
}

// leafed is with which of n things each page begins; there is one page at least.
func leafed(n int, h, gap float64, high func(i int) float64) (first []int) {
	first = []int{0}
	y := 0.0
	for i := range n {
		need := high(i)
		if y+need > h && y > 0 {
			first, y = append(first, i), 0
		}
		y += need + gap
	}
	return first
}

// leafLine is how high the line is that says which page is shown.
func (b *Board) leafLine() float64 { return b.keyHigh(b.Body) }

// leaf says which page is shown, with the keys that turn it.
func (b *Board) leaf(r ink.Rect) {
	l := &b.V.Leaves
	says, bold := b.Say(l.Says()), ink.Style{Size: b.Body, Weight: ink.Bold}
	text, rest := r.CutLeft(ink.Width(says, bold.Size, bold.Weight)+b.U, 10*b.U)
	b.Fitted("leaf", text, bold, says)
	for _, a := range [...]Action{LeafBack, LeafOn} {
		if key := b.V.House.KeyOf(a); leafTurns(b.V, a) {
			h := b.keyCap(b.Body)
			var box ink.Rect
			box, rest = rest.CutLeft(max(b.CapWidth(h, key), b.Least()), 4*b.U)
			b.KeyCap(a.Code()+" key", box.Centre().X, box.Centre().Y, h, key)
			b.Hit(a.Code(), key, box)
		}
	}
}

// leafTurns tells whether there is a page to turn to.
func leafTurns(v *View, a Action) bool {
	if a == LeafBack {
		return v.Leaves.At > 0
	}
	return v.Leaves.At+1 < v.Leaves.Of
}
