package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
)

// SoundView is what the sheets know of sounds.
type SoundView struct {
	// Caption are the words for what sounds now, or has just; empty for nothing. They stand still: nothing flashes.
	Caption string
	// Off: all sounds are off.
	Off bool
}

// captionHeight is how high a caption is.
func (b *board) captionHeight() float64 { return ink.BlockHeight(b.small, 1) + 2*b.u }

// captionRoom is how far below the upper edge of the page a sheet begins: in the margin there is always room for a caption, so nothing
// moves when one comes.
func (b *board) captionRoom() float64 {
	return math.Max(b.Px(15), b.captionHeight()+b.u)
}

// caption writes what sounds as a tag on the frame of the sheet, at the right of its upper edge.
func (b *board) caption(frame ink.Rect) {
	text := b.v.Sound.Caption
	if text == "" {
		return
	}
	b.Group("sound")
	s := ink.Style{Size: b.small, Weight: ink.Bold}
	w := math.Min(ink.Width(text, s.Size, s.Weight)+12*b.u, frame.W-28*b.u)
	tag := ink.Rect{X: frame.Right() - 14*b.u - w, Y: b.u / 2, W: w, H: b.captionHeight()}
	b.Rect("sound tag", tag, ink.Paint{Fill: ink.Panel})
	b.fitted("sound caption", ink.Rect{X: tag.X + 6*b.u, Y: tag.Y, W: tag.W - 12*b.u, H: tag.H}, s, text)
	b.Group("sheet")
}
