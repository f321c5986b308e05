package bench

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/sim/handset"
)

// radioShare is how much of a column's height the drawn radio takes, leastRadio the least that it is drawn in, px of the least window (ours): a window
// of 1280 by 800 has it, a smaller one keeps its room for what refuses.
const radioShare, leastRadio = 0.34, 200

// radio draws the radio that is in the pilot's hands at the lower end of a column, where there is room beside what refuses and the craft; it gives what
// is left above. Who drives by keys has no use for it.
func (b *board) radio(r ink.Rect) (rest ink.Rect) {
	high := r.H * radioShare
	if b.V.Driver != ui.Radio || !b.V.HasSeats || b.V.Drilling || b.Tall || high < leastRadio*b.U ||
		b.WhyHeight(r.W, b.Small)+b.CraftLeast()+high+2*b.Gap > r.H {
		return r
	}
	low, rest := r.CutBottom(high, b.Gap)
	b.Group("radio")
	low = b.SectionOf(low, "radio-heading", words.T("sheet.radio"))
	d := figure.HandheldNow(b.V)
	if b.asked(d); !marked(d) { // the line that says which control moves has its room always
		_, low = low.CutBottom(ink.BlockHeight(b.Body, 1), 4*b.U)
	}
	b.HandheldFor(low, d, tell.SeatFor(&b.V.Facts))
	return rest
}

// marked tells whether a control is marked besides the sticks.
func marked(d *handheld.Radio) bool {
	return slices.ContainsFunc(d.Controls, func(c handheld.Control) bool { return c.Mark == handheld.Moves })
}

// asked marks what the sentence under the state asks for, where it asks for sticks or a switch.
func (b *board) asked(d *handheld.Radio) {
	deed, ok := b.V.Facts.Asked()
	if f := &b.V.Flight; !ok || f.Replay.On || f.Pace.Paused {
		return
	}
	yaw := map[facts.Do]float64{facts.ToArm: 1, facts.ToDisarm: -1, facts.LeaveCorner: -1}[deed.Do]
	if yaw != 0 {
		d.MarkStick("yaw", handheld.Moves, yaw)
	}
	switch deed.Do {
	case facts.ToArm, facts.ToDisarm:
		d.MarkStick("throttle", handheld.Moves, -1)
	case facts.Move:
		b.toMove(d, &deed)
	}
}

// toMove marks the control of a deed: a stick with its way down, as only the throttle is ever asked for alone, a switch with the nearest position that
// does.
func (b *board) toMove(d *handheld.Radio, deed *facts.Deed) {
	c := b.V.Handset.On(deed.Channel)
	if c == nil {
		return
	}
	if c.Kind == handset.Stick {
		d.MarkStick(c.Job, handheld.Moves, -1)
		return
	}
	now, best, found := b.V.Snap.In.Sent[deed.Channel], 0, false
	for i, p := range c.Positions {
		if deed.Done(p.Width) && (!found || max(p.Width-now, now-p.Width) < max(c.Positions[best].Width-now, now-c.Positions[best].Width)) {
			best, found = i, true
		}
	}
	if found {
		d.Mark(c.Job, handheld.Moves, c.Share(c.Positions[best].Width))
	}
}
