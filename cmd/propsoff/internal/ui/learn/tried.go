package learn

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// tried draws the radio by the file that is tried, the control that is asked for marked where it sits: what moves on the drawing is what the
// file has moved.
func (b *board) tried(r ink.Rect) {
	b.Group("radio")
	l := &b.V.Learn
	r = b.Section(r, "radio-heading", b.Say(words.T("learn-title.radio", words.Args{"mode": words.Whole(ui.StickMode(l.StickMode))})))
	b.RadioNow(r, func(d *handheld.Radio) {
		mark, to := handheld.Moves, 1.0
		if l.Step == learn.AndBack {
			mark, to = handheld.Chosen, 0
		}
		if slices.Contains(radio.Needed(), l.Job) {
			d.MarkStick(l.Job, mark, to)
			return
		}
		if c := answer(b.V, l.Job); c != nil && (c.Momentary || !c.IsSwitch()) {
			to = -1 // to each of its ends
		}
		d.Mark(l.Job, mark, to)
	})
}
