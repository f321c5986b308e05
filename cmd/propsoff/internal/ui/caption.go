package ui

import (
	"math"
	"path/filepath"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
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
	text := b.Say(words.T("sheet.recording", words.Args{"file": words.Quote(filepath.Base(b.V.Recording))}))
	disc := b.captionHeight() * 0.22
	left := 6*b.U + 2*disc + 5*b.U
	most := frame.W * tagShare
	if b.V.Practises.Empty() {
		most = frame.W/2 - 2*tagRoom*b.U
	}
	w := math.Min(left+ink.Width(text, b.Small, ink.Bold)+6*b.U, most)
	x := frame.X + tagRoom*b.U
	b.tag("recording-tag", "recording-file", x, w, left, 4*b.U, text)
	b.Circle("recording-mark", x+6*b.U+disc, (b.U+b.captionHeight())/2, disc, ink.Paint{Fill: ink.Ink})
	b.Group("sheet")
}

// pupilTag says on the frame, at the left of its upper edge or behind the recording, who practises.
func (b *Board) pupilTag(frame ink.Rect) {
	text := b.Say(b.V.Practises)
	if text == "" {
		return
	}
	b.Group("pupil")
	x := frame.X + tagRoom*b.U
	if b.V.Recording != "" {
		x += frame.W*tagShare + tagRoom*b.U
	}
	b.tag("pupil-tag", "pupil", x, b.pupilWidth(frame), 6*b.U, 6*b.U, text)
	b.Group("sheet")
}

// pupilWidth is how wide the tag of who practises is, 0 where there is none.
func (b *Board) pupilWidth(frame ink.Rect) float64 {
	text := b.Say(b.V.Practises)
	if text == "" {
		return 0
	}
	return math.Min(ink.Width(text, b.Small, ink.Bold)+12*b.U, frame.W*tagShare)
}

// tagShare is how much of the frame each tag may take that others stand beside.
const tagShare = 0.3

// tag writes a text on the frame, so far from the left and the right end of its ground.
func (b *Board) tag(ground, name string, x, w, left, right float64, text string) {
	r := ink.Rect{X: x, Y: b.U / 2, W: w, H: b.captionHeight()}
	b.Rect(ground, r, ink.Paint{Fill: ink.Panel})
	b.Fitted(name, ink.Rect{X: x + left, Y: r.Y, W: w - left - right, H: r.H}, ink.Style{Size: b.Small, Weight: ink.Bold}, text)
}

// caption writes what sounds as a tag on the frame of the sheet, at the right of its upper edge.
func (b *Board) caption(frame ink.Rect) {
	text := b.Say(b.V.Sound.Caption)
	if text == "" {
		return
	}
	b.Group("sound")
	room := frame.W - 2*tagRoom*b.U
	if b.V.Recording != "" {
		room -= frame.W*tagShare + tagRoom*b.U
	}
	if w := b.pupilWidth(frame); w > 0 {
		room -= w + tagRoom*b.U
	}
	w := math.Min(ink.Width(text, b.Small, ink.Bold)+12*b.U, room)
	b.tag("sound-tag", "sound-caption", frame.Right()-tagRoom*b.U-w, w, 6*b.U, 6*b.U, text)
	b.Group("sheet")
}
