package figure

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/handheld"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
)

// Handheld is a radio as it is drawn: every control where it sits, with the pilot's own name for it or its job, and its number in the order of
// the channels. Nothing moves and nothing is marked; say writes texts out.
func Handheld(r *handset.Radio, say func(words.Text) string) *handheld.Radio {
	d := &handheld.Radio{Sticks: [2]handheld.Stick{handheld.Middle, handheld.Middle}}
	for i, g := range Gimbals[ui.StickMode(r.StickMode)] {
		d.Sticks[i].Up, d.Sticks[i].Across = say(tell.JobName(JobFacts[g.Up].Word)), say(tell.JobName(JobFacts[g.Across].Word))
		if g.Up == Throttle {
			d.Sticks[i].High = 0
		}
	}
	for i := range r.Controls {
		c := &r.Controls[i]
		if c.Kind == handset.Stick {
			continue
		}
		name := c.Called
		if name == "" {
			name = say(tell.JobName(c.Job))
		}
		d.Controls = append(d.Controls, handheld.Control{Job: c.Job, Channel: c.Channel, Spot: c.Spot, Name: name, Number: strconv.Itoa(len(d.Controls) + 1),
			Positions: len(c.Positions), Springs: c.Momentary, At: -1, To: -1})
	}
	for v := handset.OnFace; v < handset.ViewCount; v++ {
		d.Titles[v] = say(tell.SeatTitle(v))
	}
	return d
}

// Standing has the controls and sticks of a drawn radio stand where the hands hold them now.
func Standing(d *handheld.Radio, r *handset.Radio, v *ui.View, l *layout.Config) {
	if !v.Snap.In.HasSent {
		return
	}
	for i := range d.Controls {
		c := r.On(d.Controls[i].Channel)
		if w := v.Snap.In.Sent[d.Controls[i].Channel]; c != nil && w.Valid() {
			d.Controls[i].At = c.Share(w)
		}
	}
	for i, g := range Gimbals[ui.StickMode(r.StickMode)] {
		if w := v.Snap.In.Sent[ChannelOf(l, g.Across)]; w.Valid() {
			d.Sticks[i].Right = ui.Clamp(Share(w), 0, 1)
		}
		if w := v.Snap.In.Sent[ChannelOf(l, g.Up)]; w.Valid() {
			d.Sticks[i].High = ui.Clamp(Share(w), 0, 1)
		}
	}
}

// Handheld draws a radio in the sizes of a sheet, and below it in words which control must move and which way, where one is marked so.
func (b *Board) Handheld(r ink.Rect, d *handheld.Radio) handheld.Drawn {
	d.Size, d.Pen, d.Least = b.Small, b.U, b.Least()
	for i := range d.Controls {
		c := &d.Controls[i]
		if c.Mark != handheld.Moves {
			continue
		}
		says := words.AsIs(c.Name)
		if way := tell.SeatWay(c.Spot, c.Backwards()); !way.Empty() && c.To >= 0 {
			says = words.T("seat.move", words.Args{"name": says, "way": way})
		}
		var line ink.Rect
		line, r = r.CutBottom(ink.BlockHeight(b.Body, 1), 4*b.U)
		b.Group("radio")
		b.Fitted("radio-move", line, ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Centre}, b.Say(says))
	}
	return handheld.Draw(b.Page, r, d)
}

// MarkStick marks the stick that carries a job, and says which way it must go: −1 to the low end of the job, 1 to its high end, 0 for not said.
func MarkStick(d *handheld.Radio, mode int, job string, m handheld.Mark, to float64) {
	for i, g := range Gimbals[ui.StickMode(mode)] {
		switch job {
		case JobFacts[g.Up].Word:
			d.Sticks[i].Mark, d.Sticks[i].ToHigh = m, to
		case JobFacts[g.Across].Word:
			d.Sticks[i].Mark, d.Sticks[i].ToRight = m, to
		}
	}
}
