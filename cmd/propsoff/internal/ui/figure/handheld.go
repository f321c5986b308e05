package figure

import (
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Handheld is a radio as it is drawn: every control where it sits, with the pilot's own name for it or its job, and its number in the order of
// the channels. Nothing moves and nothing is marked; say writes texts out.
func Handheld(r *handset.Radio, say func(words.Text) string) *handheld.Radio {
	d := &handheld.Radio{Sticks: [2]handheld.Stick{handheld.Middle, handheld.Middle}}
	for i, g := range Gimbals[ui.StickMode(r.StickMode)] {
		s := &d.Sticks[i]
		s.UpJob, s.AcrossJob = JobFacts[g.Up].Word, JobFacts[g.Across].Word
		if s.Up, s.Across = say(tell.JobName(s.UpJob)), say(tell.JobName(s.AcrossJob)); g.Up == Throttle {
			s.High = 0
		}
	}
	for i := range r.Controls {
		c := &r.Controls[i]
		if c.Kind == handset.Stick || c.Same != 0 { // what is the same piece of the radio is drawn with its first
			continue
		}
		name, full := c.Called, c.Called
		if name == "" {
			name, full = say(tell.JobName(c.Job)), say(tell.ControlName(c))
		}
		if name == "" { // nobody has given it a job
			name = say(tell.ChannelNumber(int(c.Channel)))
			full = name
		}
		var others []string
		for _, k := range r.With(i) {
			job := r.Controls[k].Job
			others = append(others, job)
			if c.Called == "" {
				name = say(words.Listed(words.AsIs(name), tell.JobName(job)))
			}
		}
		d.Controls = append(d.Controls, handheld.Control{Job: c.Job, Others: others, Channel: c.Channel, Spot: c.Spot, Name: name, Full: full, Number: strconv.Itoa(len(d.Controls) + 1),
			Positions: len(c.Positions), Springs: c.Momentary, At: -1, To: -1})
	}
	for v := handset.OnFace; v < handset.ViewCount; v++ {
		d.Titles[v] = [2]string{say(tell.SeatTitle(v, false)), say(tell.SeatTitle(v, true))}
	}
	return d
}

// Standing has the controls and sticks of a drawn radio stand where the hands hold them now.
func Standing(d *handheld.Radio, r *handset.Radio, v *ui.View, l *layout.Config) {
	if v.Snap.In.HasSent {
		StandAt(d, r, &v.Snap.In.Sent, l)
	}
}

// StandAt has them stand where they send a frame.
func StandAt(d *handheld.Radio, r *handset.Radio, sent *pulse.Frame, l *layout.Config) {
	for i := range d.Controls {
		c := r.On(d.Controls[i].Channel)
		if w := sent[d.Controls[i].Channel]; c != nil && w.Valid() {
			d.Controls[i].At = c.Share(w)
		}
	}
	for i, g := range Gimbals[ui.StickMode(r.StickMode)] {
		if w := sent[ChannelOf(l, g.Across)]; w.Valid() {
			d.Sticks[i].Right = ui.Clamp(Share(w), 0, 1)
		}
		if w := sent[ChannelOf(l, g.Up)]; w.Valid() {
			d.Sticks[i].High = ui.Clamp(Share(w), 0, 1)
		}
	}
}

// Handheld draws a radio in the sizes of a sheet, and below it in words which control must move and which way, where one is marked so.
func (b *Board) Handheld(r ink.Rect, d *handheld.Radio) handheld.Drawn {
	return b.HandheldFor(r, d, words.Text{})
}

// HandheldFor is Handheld with what the move is for; purpose says nothing where that is told elsewhere.
func (b *Board) HandheldFor(r ink.Rect, d *handheld.Radio, purpose words.Text) handheld.Drawn {
	d.Size, d.Pen = b.Small, b.U
	for i := range d.Controls {
		c := &d.Controls[i]
		if c.Mark != handheld.Moves {
			continue
		}
		spot, back, middle := c.Spot, c.Backwards(), c.To > 0.01 && c.To < 0.99
		spot.Guessed = spot.Guessed || c.To < 0 // which way is not known either
		name := words.AsIs(c.Full)
		says, short, least := tell.SeatMove(name, purpose, spot, back, middle), name, words.AsIs(c.Name)
		if way := tell.SeatWay(spot, back); !way.Empty() { // its name stands beside the one that is marked
			short, least = tell.SeatMove(words.Text{}, purpose, spot, back, middle), words.T("seat.way-alone", words.Args{"way": way, "middle": words.Flag(middle)})
		}
		var line ink.Rect
		line, r = r.CutBottom(ink.BlockHeight(b.Body, 1), 4*b.U)
		b.Group("radio")
		style := ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Centre}
		b.Fitted("radio-move", line, style, b.FirstFit(line.W, style, says, short, least))
	}
	return handheld.Draw(b.Page, r, d)
}

// HandheldNow is the radio that the view knows, its controls where they stand now.
func HandheldNow(v *ui.View) *handheld.Radio {
	d := Handheld(&v.Handset, v.Say)
	if v.Learn.Begun && v.Learn.Question < learn.Done {
		learnedSticks(d, &v.Learn)
		for i := range d.Controls {
			for k := range v.Learn.Answers {
				if c := &v.Learn.Answers[k]; c.Job == d.Controls[i].Job {
					d.Controls[i].At = rawShare(c, &v.Learn.Raw)
				}
			}
		}
		return d
	}
	if v.Driver == ui.Radio || v.Driver == ui.Keyboard || v.Driver == ui.Played {
		Standing(d, &v.Handset, v, &v.Config.Layout)
	}
	return d
}

// learnedSticks has the sticks of a radio that is being learned stand where the directions that are found already say. Before it is known which
// hand carries what, none is named, and they stand still.
func learnedSticks(d *handheld.Radio, l *learn.View) {
	if !l.ModeKnown {
		d.Sticks = [2]handheld.Stick{handheld.Middle, handheld.Middle}
		return
	}
	stands := func(j Job, to *float64) {
		for k := range l.Answers {
			if c := &l.Answers[k]; c.Job == JobFacts[j].Word {
				*to = max(0, rawShare(c, &l.Raw))
			}
		}
	}
	for i, g := range Gimbals[ui.StickMode(l.StickMode)] {
		stands(g.Across, &d.Sticks[i].Right)
		stands(g.Up, &d.Sticks[i].High)
	}
}

// rawShare is where a control that was just learned stands, from its low end, 0, to its high one, 1; below 0 where that is not known.
func rawShare(c *radio.Control, raw *input.Raw) float64 {
	n := max(len(c.Buttons), len(c.Positions))
	switch c.Form {
	case radio.Button:
		if raw.Button(c.Buttons[0]) {
			return 1
		}
		return 0
	case radio.Row:
		at := slices.IndexFunc(c.Buttons, func(b int) bool { return b != radio.None && raw.Button(b) })
		if at < 0 {
			at = slices.Index(c.Buttons, radio.None)
		}
		return float64(at) / float64(n-1)
	}
	now, best := radio.Halves(raw.Axes[c.Axis]), 0
	for i := range c.Positions {
		if away(c.Positions[i].At, now) < away(c.Positions[best].At, now) {
			best = i
		}
	}
	switch {
	case n > 1:
		return float64(best) / float64(n-1)
	case c.Scale == nil || c.Scale.Low == c.Scale.High:
		return -1
	}
	return ui.Clamp(float64(now-c.Scale.Low)/float64(c.Scale.High-c.Scale.Low), 0, 1)
}

func away(a, b radio.Half) radio.Half { return max(a-b, b-a) }

// RadioNow draws the radio that the view knows, as its controls stand now; mark, where it is given, marks what is to stand out. Where there is
// too little room for it nothing is drawn.
func (b *Board) RadioNow(r ink.Rect, mark func(d *handheld.Radio)) {
	if r.H < leastRadio*b.U || r.W < leastRadio*b.U {
		return
	}
	d := HandheldNow(b.V)
	if mark != nil {
		mark(d)
	}
	b.Handheld(r, d)
}

// leastRadio is the least side of a drawn radio that is worth looking at, px of the least window (ours).
const leastRadio = 92
