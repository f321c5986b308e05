package ui

import (
	"unicode/utf8"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// tallBelow is the width to height ratio below which the bench stacks its chart under the rest (ours).
const tallBelow = 1.15

// tallWidth is how many pixels of the least window a stacked bench is wide: two columns need less than three (ours).
const tallWidth = 740

// Board is a page being drawn for a view, with the text sizes and distances that fit it.
type Board struct {
	*ink.Page
	V  *View
	On Place // the sheet that is drawn
	// Text sizes in pixels: labels, sentences, headings, the sentence that matters now.
	Small, Body, Head, Large float64
	// U is one pixel of the least window, Gap the distance between two panels.
	U, Gap float64
	Cap    float64 // height of a key cap
	Tall   bool    // portrait: two columns, or stacked
}

// NewBoard begins a page.
func NewBoard(p *ink.Page, v *View) *Board {
	b := &Board{Page: p, V: v, Tall: p.W/p.H < tallBelow}
	b.sizes()
	return b
}

// The least height of what can be pressed, in pixels of the system: by a finger, and by a mouse (WCAG 2.2, 2.5.5 and 2.5.8, from memory).
const (
	leastByFinger = 44
	leastByMouse  = 24
)

// Least is the least height of what can be pressed.
func (b *Board) Least() float64 {
	return max(b.U*b.leastAt(), b.leastHit()*b.dense())
}

// leastAt is that of the least window, in its pixels.
func (b *Board) leastAt() float64 {
	if b.V.Touch {
		return leastByFinger
	}
	return leastByMouse
}

// leastHit is the same in pixels of the system. On a screen that is smaller than the least window, a phone's, everything is: else a sheet would have no room
// for what it shows.
func (b *Board) leastHit() float64 { return b.leastAt() * min(b.fit(), 1) }

// Language is the language of the sheets.
func (v *View) Language() *words.Book { return v.Book.OrEnglish() }

// Say writes a text out in the language of the sheets.
func (v *View) Say(t words.Text) string { return v.Language().Say(t) }

// Say writes a text out in the language of the sheets.
func (b *Board) Say(t words.Text) string { return b.V.Say(t) }

// StickKeys tells whether sticks and switches can be moved as they are drawn, and by keys.
func (b *Board) StickKeys() bool {
	return b.V.Driver != Radio && b.V.Driver != Played && b.V.House.Flown(b.On) && !b.V.Flight.Replay.On
}

// StickCaps tells whether key caps stand beside sticks and switches: where they move them, and no finger does.
func (b *Board) StickCaps() bool { return b.StickKeys() && !b.V.Touch }

// SheetArea is the page without its margin, inside a thin frame as on a drafting sheet.
func (b *Board) SheetArea() ink.Rect {
	b.Group("sheet")
	r := b.Bounds().Inset(b.Px(6))
	b.Rect("frame", r, ink.Paint{Line: ink.Rule})
	b.caption(r)
	b.recordingTag(r)
	b.pupilTag(r)
	_, in := r.Inset(b.Px(9)).CutTop(b.captionRoom()-b.Px(15), 0)
	return in
}

// Section draws a heading with a rule to the right edge and gives what is left below it.
func (b *Board) Section(r ink.Rect, name, title string) ink.Rect {
	h := ink.BlockHeight(b.Small, 1)
	b.Fitted(name, ink.Rect{X: r.X, Y: r.Y, W: r.W, H: h}, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint}, title)
	if x := r.X + ink.Width(title, b.Small, ink.Bold) + 6*b.U; x < r.Right() {
		b.Line(name+" rule", x, r.Y+h/2, r.Right(), r.Y+h/2, ink.Paint{Line: ink.Grid})
	}
	_, rest := r.CutTop(h, 3*b.U)
	return rest
}

// SectionOf is Section under the first of some titles that fits the width, or the last.
func (b *Board) SectionOf(r ink.Rect, name string, titles ...words.Text) ink.Rect {
	return b.Section(r, name, b.FirstFit(r.W, ink.Style{Size: b.Small, Weight: ink.Bold}, titles...))
}

// FirstFit is the first of some texts that fits a width, or the last.
func (b *Board) FirstFit(w float64, s ink.Style, all ...words.Text) (text string) {
	for _, t := range all {
		if text = b.Say(t); ink.Width(text, s.Size, s.Weight) <= w {
			break
		}
	}
	return text
}

// SectionHeight is what a heading takes.
func (b *Board) SectionHeight() float64 { return ink.BlockHeight(b.Small, 1) + 3*b.U }

// RowHeight is the height of one line of labels.
func (b *Board) RowHeight() float64 { return ink.BlockHeight(b.Small, 1) }

// Fitted is text at a size that fits a width, shortened at the end where even the smallest does not.
func (b *Board) Fitted(name string, r ink.Rect, s ink.Style, text string) {
	s.Within = r
	blk := ink.Block{Width: r.W, MaxLines: 1, Shorten: true}
	b.Block(name, r.X, r.Y+(r.H-ink.BlockHeight(s.Size, 1))/2, s, blk, text)
}

// WholeLine is the first of some texts that fits a line whole; where none does, nothing stands there.
func (b *Board) WholeLine(name string, r ink.Rect, s ink.Style, texts ...words.Text) {
	if text := b.FirstFit(r.W+0.5, s, texts...); ink.Width(text, s.Size, s.Weight) <= r.W+0.5 {
		b.Fitted(name, r, s, text)
	}
}

// Hatch draws slanting lines across a place, so that it is told from the sheet in any light.
func (b *Board) Hatch(name string, z ink.Rect, line ink.Role) {
	step := 7 * b.U
	for d := step; d < z.W+z.H; d += step {
		b.Line(name, z.X+min(d, z.W), z.Y+max(d-z.W, 0), z.X+max(d-z.H, 0), z.Y+min(d, z.H), ink.Paint{Line: line, Under: true})
	}
}

// ZoneEdge is the edge of a place that something is to come into: dashed, and a full line once it is in.
func (b *Board) ZoneEdge(in bool) ink.Paint {
	if in {
		return ink.Paint{Line: ink.Focus, Width: 3 * b.U}
	}
	return ink.Paint{Line: ink.Focus, Width: 2 * b.U, Dash: ink.Dash{On: 6 * b.U, Off: 4 * b.U}}
}

// Clamp keeps v between two bounds.
func Clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }

// ClampInt is Clamp of whole numbers.
func ClampInt(v, lo, hi int) int { return max(lo, min(hi, v)) }

// BreakLong puts a space into every word that is wider than a line, such as the path of a file, where the line ends.
func BreakLong(text string, w, size float64, weight ink.Weight) string {
	out := make([]byte, 0, len(text)+8)
	sum := 0.0
	for i, r := range text {
		step := ink.Advance(r, size, weight)
		switch {
		case r == ' ':
			sum = 0
		case sum+step > w && i > 0:
			out, sum = append(out, ' '), step
		default:
			sum += step
		}
		out = utf8.AppendRune(out, r)
	}
	return string(out)
}

// CautionWeight is how heavy caution i, from 0, is written: the first can hurt somebody at this very moment.
func CautionWeight(i int) ink.Weight {
	if i == 0 {
		return ink.Bold
	}
	return ink.Regular
}

// SayHeight is the height of a text in a width, 0 for one that says nothing.
func (b *Board) SayHeight(t words.Text, w float64, s ink.Style) float64 {
	return TextHeight(b.Say(t), w, s)
}

// TextHeight is SayHeight of a text that is written out already.
func TextHeight(text string, w float64, s ink.Style) float64 {
	if text == "" {
		return 0
	}
	n, _ := ink.CountLines(text, w, s.Size, s.Weight)
	return ink.BlockHeight(s.Size, n)
}
