package ui

import (
	"cmp"
	"math"
	"slices"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// TextSizes are those to choose from, in percent of the usual one (ours).
var TextSizes = [...]int{85, 100, 125, 150}

// NextTextSize is the size after the one that is chosen, of those for which the page has room; after the largest it is the smallest.
func (v *View) NextTextSize() int {
	const least = 4 // a step that is hardly to be seen is none
	now := cmp.Or(v.TextSize, usualSize)
	for _, p := range TextSizes {
		if p > now && (p <= usualSize || float64(now) < v.textRoom-least) {
			return p
		}
	}
	return TextSizes[0]
}

// NextTheme is the theme that follows on the one that is drawn in, nil for none: as the system says.
func (v *View) NextTheme() *ink.Theme {
	if i, all := v.themeAfter(), ink.Themes(); i < len(all) {
		return all[i]
	}
	return nil
}

// themeAfter is its place among ink.Themes, or their number for none. None follows on the one that the system says, once that was chosen: so the first
// that is chosen always looks otherwise.
func (v *View) themeAfter() int {
	all := ink.Themes()
	if v.SystemTheme != nil && v.Chosen && v.Theme == v.SystemTheme {
		return len(all)
	}
	return (max(slices.Index(all, v.Theme), 0) + 1) % len(all)
}

// usualSize is the size of text that nobody chose.
const usualSize = 100

// slower is the power of the window's growth by which text and lengths grow: a window of 2560 by 1440 is 2.4 times the least, and its text half as
// large again; so it shows more. A larger one shows as much as that, larger (ours).
const slower, showsMost = 0.463, 2.4

// The sizes of text in the least window: labels, sentences, headings, the sentence that matters now (ours: what the least window has room for).
const smallText, bodyText, headText, largeText = 13, 14, 15, 19

// dense is how many pixels of the page one of the system's has.
func (b *Board) dense() float64 { return max(b.Dense, 1) }

// sizes takes the text sizes and lengths of the page, by its size and the size of text that is wished. No text grows beyond what there is room for: the
// page is never smaller than the least window, measured in its own lengths.
func (b *Board) sizes() {
	p, dense := b.Page, b.dense()
	fit := b.fit()
	scale := fit
	if fit > 1 {
		scale = math.Pow(min(fit, showsMost), slower) * max(fit/showsMost, 1)
	}
	most := max(fit, scale)
	b.V.textRoom = usualSize * most / scale
	if wished := float64(b.V.TextSize) / usualSize; wished > 0 {
		scale = min(scale*wished, most)
	}
	p.Scale = scale * dense
	b.Small, b.Body, b.Head, b.Large = p.TextSize(smallText), p.TextSize(bodyText), p.TextSize(headText), p.TextSize(largeText)
	b.U, b.Gap, b.Cap = p.Px(1), p.Px(10), p.Px(19)
	p.LeastText, p.LeastHit = b.Small, b.leastHit()*dense
}

// fit is how many times as large as the least window the page is, in pixels of the system.
func (b *Board) fit() float64 {
	if b.Tall {
		return min(b.H/ink.LeastHeight, b.W/tallWidth) / b.dense()
	}
	return ink.FitScale(b.W, b.H) / b.dense()
}
