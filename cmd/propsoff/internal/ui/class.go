package ui

import (
	"math"
	"propsoff/cmd/propsoff/internal/ink"
)

// What class view asks for, as shares of the picture's height (ours): the capitals of the state word, and
// the size of sentences and values. On a picture that is taller than wide, of five eighths of its width.
const (
	ClassState = 0.12
	ClassText  = 0.035
)

// ClassSizes takes the large text sizes of class view; keys are so many times as high as text. It gives the height that sizes
// are shares of, and the size of text.
func (b *Board) ClassSizes(key float64) (h, text float64) {
	h = min(b.H, b.W*ink.LeastHeight/ink.LeastWidth)
	text = math.Ceil(h * ClassText)
	b.Small, b.Body, b.Head, b.Large, b.Cap = text, text, text, text, text*key
	return h, text
}

// RoomKeys takes the large text sizes of class view and draws the few keys that a sheet shows there. It gives the height that
// sizes are shares of, the size of text, and what is left above the keys.
func (b *Board) RoomKeys(on Place) (h, text float64, rest ink.Rect) {
	b.On = on
	h, text = b.ClassSizes(1.45)
	r := b.SheetArea()
	b.Group("keys")
	row, rest := r.CutBottom(max(b.Cap+4*b.U, 25*b.U), 6*b.U)
	shown := [...]Action{TurnFullScreen, ShowHelp, Leave}
	for i, a := range shown {
		b.Action(row.Cell(i, len(shown), 1, b.Gap), Act{a, b.V.House.KeyOf(a)}, on)
	}
	return h, text, rest
}
