package ui

import (
	"math"
	"path/filepath"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
)

// SoundView is what the sheets know of sounds.
type SoundView struct {
	// Caption are the words for what sounds now, or has just; empty for nothing. They stand still: nothing flashes.
	Caption words.Text
	// Off: all sounds are off.
	Off bool
}

// captionHeight is how high a caption is.
func (b *Board) captionHeight() float64 { return ink.BlockHeight(b.Small, 1) + 2*b.U }

// captionRoom is how far below the upper edge of the page a sheet begins: in the margin there is always room for a caption, so nothing
// moves when one comes.
func (b *Board) captionRoom() float64 {
	return math.Max(b.Px(15), b.captionHeight()+b.U)
}

// tagRoom is how far a tag on the frame keeps from its ends.
const tagRoom = 14

// recordingTag says on the frame, at the left of its upper edge, that a take is written and to which file: a disc and words, on every sheet.
func (b *Board) recordingTag(frame ink.Rect) {
	if b.V.Recording == "" {
		return
	}
	b.Group("recording")
	s := ink.Style{Size: b.Small, Weight: ink.Bold}
	text := b.Say(tell.RecordingTo(filepath.Base(b.V.Recording)))
	disc := b.captionHeight() * 0.22
	left := 6*b.U + 2*disc + 5*b.U
	w := math.Min(left+ink.Width(text, s.Size, s.Weight)+6*b.U, frame.W/2-2*tagRoom*b.U)
	tag := ink.Rect{X: frame.X + tagRoom*b.U, Y: b.U / 2, W: w, H: b.captionHeight()}
	b.Rect("recording-tag", tag, ink.Paint{Fill: ink.Panel})
	b.Circle("recording-mark", tag.X+6*b.U+disc, tag.Centre().Y, disc, ink.Paint{Fill: ink.Ink})
	b.Fitted("recording-file", ink.Rect{X: tag.X + left, Y: tag.Y, W: tag.Right() - tag.X - left - 4*b.U, H: tag.H}, s, text)
	b.Group("sheet")
}

// caption writes what sounds as a tag on the frame of the sheet, at the right of its upper edge.
func (b *Board) caption(frame ink.Rect) {
	text := b.Say(b.V.Sound.Caption)
	if text == "" {
		return
	}
	b.Group("sound")
	s := ink.Style{Size: b.Small, Weight: ink.Bold}
	room := frame.W - 2*tagRoom*b.U
	if b.V.Recording != "" {
		room = frame.W/2 - tagRoom*b.U
	}
	w := math.Min(ink.Width(text, s.Size, s.Weight)+12*b.U, room)
	tag := ink.Rect{X: frame.Right() - tagRoom*b.U - w, Y: b.U / 2, W: w, H: b.captionHeight()}
	b.Rect("sound-tag", tag, ink.Paint{Fill: ink.Panel})
	b.Fitted("sound-caption", ink.Rect{X: tag.X + 6*b.U, Y: tag.Y, W: tag.W - 12*b.U, H: tag.H}, s, text)
	b.Group("sheet")
}
