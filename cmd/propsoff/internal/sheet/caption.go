package sheet

import (
	"math"
	"path/filepath"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
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

// tagRoom is how far a tag on the frame keeps from its ends.
const tagRoom = 14

// recordingTag says on the frame, at the left of its upper edge, that a take is written and to which file: a disc and words, on every sheet.
func (b *board) recordingTag(frame ink.Rect) {
	if b.v.Recording == "" {
		return
	}
	b.Group("recording")
	s := ink.Style{Size: b.small, Weight: ink.Bold}
	text := phrase.RecordingTo(filepath.Base(b.v.Recording))
	disc := b.captionHeight() * 0.22
	left := 6*b.u + 2*disc + 5*b.u
	w := math.Min(left+ink.Width(text, s.Size, s.Weight)+6*b.u, frame.W/2-2*tagRoom*b.u)
	tag := ink.Rect{X: frame.X + tagRoom*b.u, Y: b.u / 2, W: w, H: b.captionHeight()}
	b.Rect("recording tag", tag, ink.Paint{Fill: ink.Panel})
	b.Circle("recording mark", tag.X+6*b.u+disc, tag.Centre().Y, disc, ink.Paint{Fill: ink.Ink})
	b.fitted("recording file", ink.Rect{X: tag.X + left, Y: tag.Y, W: tag.Right() - tag.X - left - 4*b.u, H: tag.H}, s, text)
	b.Group("sheet")
}

// caption writes what sounds as a tag on the frame of the sheet, at the right of its upper edge.
func (b *board) caption(frame ink.Rect) {
	text := b.v.Sound.Caption
	if text == "" {
		return
	}
	b.Group("sound")
	s := ink.Style{Size: b.small, Weight: ink.Bold}
	room := frame.W - 2*tagRoom*b.u
	if b.v.Recording != "" {
		room = frame.W/2 - tagRoom*b.u
	}
	w := math.Min(ink.Width(text, s.Size, s.Weight)+12*b.u, room)
	tag := ink.Rect{X: frame.Right() - tagRoom*b.u - w, Y: b.u / 2, W: w, H: b.captionHeight()}
	b.Rect("sound tag", tag, ink.Paint{Fill: ink.Panel})
	b.fitted("sound caption", ink.Rect{X: tag.X + 6*b.u, Y: tag.Y, W: tag.W - 12*b.u, H: tag.H}, s, text)
	b.Group("sheet")
}
