// Package desk is one sheet: the instructor's desk.
package desk

import (
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// What the keys of the desk do.
const (
	Plant   ui.Action = "desk-plant"    // plant the fault looked at, or lift it
	Above   ui.Action = "desk-above"    // the fault above
	Below   ui.Action = "desk-below"    // the fault below
	More    ui.Action = "desk-more"     // its number higher
	Less    ui.Action = "desk-less"     // its number lower
	Other   ui.Action = "desk-other"    // its other number
	LiftAll ui.Action = "desk-lift-all" // lift everything
	Mark    ui.Action = "desk-mark"     // a commentary mark
	Hidden  ui.Action = "desk-hidden"   // hidden keys on or off
	Radio   ui.Action = "desk-radio"    // the next radio is the instructor's
)

// Of is what the desk knows besides what all sheets know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	numbers := func(n int) func(*ui.View) bool {
		return func(v *ui.View) bool { return len(quantities(Of(v).Looked)) >= n }
	}
	return &ui.About{
		Place: ui.OnDesk, Key: "I", Flown: true,
		Shared: ui.Usual(ui.SwitchRadio, ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight),
		Common: []ui.Action{ui.PauseFlight, ui.StepFlight, ui.ReplayFlight},
		Own: []ui.Act{
			{Action: Plant, Physical: "Enter", Do: func() { p.put(p.view.Looked) }, Says: func(v *ui.View) words.Text {
				return words.T("desk.plant-key", words.Args{"on": words.Flag(Of(v).Planted.Has(Of(v).Looked))})
			}},
			{Action: Above, Physical: "PageUp", Do: func() { p.look(p.view.Looked - 1) }},
			{Action: Below, Physical: "PageDown", Do: func() { p.look(p.view.Looked + 1) }},
			{Action: More, Physical: "Period", Shows: numbers(1), Do: func() { p.change(1) }},
			{Action: Less, Physical: "Comma", Shows: numbers(1), Do: func() { p.change(-1) }},
			{Action: Other, Physical: "Slash", Shows: numbers(2), Do: func() { p.view.Number = 1 - p.view.Number }},
			{Action: LiftAll, Physical: "Backspace", Shows: func(v *ui.View) bool { return Of(v).Planted != 0 }, Do: func() { p.tell(fault.LiftAll()) }},
			{Action: Mark, Physical: "Semicolon", Do: func() { p.tell(pulse.InstructorValue(pulse.DeedMark, int32(len(p.view.Marks)+1))) }},
			{Action: Hidden, Physical: "Backslash", Do: func() { p.view.Hidden = !p.view.Hidden }, Says: func(v *ui.View) words.Text {
				return words.T("desk.hidden-key", words.Args{"on": words.Flag(Of(v).Hidden)})
			}},
			{Action: Radio, Physical: "Quote", Do: func() { p.s.Options.Driver.NextInstructor() }, Shows: func(v *ui.View) bool {
				return len(v.Radios) > 1 && (v.Driver == ui.Radio || v.Driver == ui.Keyboard)
			}},
		},
		Picks: []ui.Pick{{Prefix: faultPrefix, Do: p.pick}},
	}
}

// View is what the instructor's desk knows.
type View struct {
	// Looked is the fault looked at, Number the index of its number that the keys change.
	Looked pulse.Deed
	Number int
	// Chosen are the numbers of each fault as they will be planted; Planted are the faults that stand.
	Chosen  [fault.Count][2]int32
	Planted fault.Set
	// Hidden: the hidden keys work on the pupil's sheet.
	Hidden bool
	// Radio says which radio is the instructor's, Hands who has the sticks; that says nothing where none is.
	Radio, Hands words.Text
	// Drill says what the drill that runs, or ran last, has come to, with its times, which the pupil is not told; nothing where there was none.
	Drill words.Text
	// Marks are the commentary marks, oldest first.
	Marks []happening.Happening
}

// marksMost is how many commentary marks are listed.
const marksMost = 6

// faultPrefix and a number from 1 name the hit areas of the faults.
const faultPrefix = "fault-"

// board is a page with the desk on it.
type board struct{ *figure.Board }

// Draw draws the instructor's desk: what can be planted and what is, the bench as it is, and the record with everything in it.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnDesk)
	b := &board{on}
	if v.Class {
		b.class(b.StateAndHow(r))
		return
	}
	b.Group("desk")
	d := b.Down(r, 2*b.U)
	d.Say("title", words.T("desk.title"), ink.Style{Size: b.TextSize(20), Weight: ink.Bold})
	d.Say("what", words.T("desk.what"), ink.Style{Size: b.Body})
	_, r = d.R.CutTop(0, 4*b.U)
	left, right, low := b.Three(r, [3]float64{29, 36, 33}, b.Gap*1.4, 0.56, 0.46)
	b.faults(left)
	b.facts(right)
	b.bench(low)
}

// class is what a class sees of the desk: what can be wrong, what the one looked at does, and the sticks.
func (b *board) class(r ink.Rect) {
	left, right, sticks := b.Three(r, [3]float64{38, 42, 18}, b.Gap*1.4, 0.7, 0.5)
	b.faults(left)
	b.facts(right)
	b.Sticks(sticks)
}

// faults lists the faults; what is planted bears a filled square, and is bold.
func (b *board) faults(r ink.Rect) {
	b.Group("faults")
	v := Of(b.V)
	r = b.Section(r, "faults-heading", b.Say(words.T("desk.faults")))
	least, n := max(ink.BlockHeight(b.Body, 1)+6*b.U, b.Least()), int(fault.Count)-1
	h := ui.Clamp(r.H/float64(n), least, 1.6*least)
	b.ListAll("faults", r, n, int(v.Looked)-1, h, func(row ink.Rect, i int) {
		f := pulse.Deed(i + 1)
		if f == v.Looked {
			b.Chosen(row)
		}
		d := ink.CapHeight(b.Body, ink.Bold)
		box := ink.Rect{X: row.X + 6*b.U, Y: row.Centre().Y - d/2, W: d, H: d}
		paint, style := ink.Paint{Line: ink.Ink, Width: 1.3 * b.U}, ink.Style{Size: b.Body}
		if v.Planted.Has(f) {
			paint, style.Weight = ink.Paint{Fill: ink.Refusal}, ink.Bold
		}
		if _, _, fits := fault.Usual(f, &b.V.Config.Layout); !fits {
			style.Colour = ink.Faint
		}
		b.Rect("plant-box", box, paint)
		in := ink.Rect{X: box.Right() + 8*b.U, Y: row.Y, W: row.Right() - box.Right() - 12*b.U, H: row.H}
		if key := hiddenKeyOf(f); v.Hidden && key != "" {
			w := b.CapWidth(b.Cap, key)
			b.KeyCap("hidden-key", in.Right()-w/2, in.Centre().Y, min(b.Cap, h-2*b.U), key)
			in.W -= w + 6*b.U
		}
		text := b.FirstFit(in.W, style, words.T("desk.planted", words.Args{"fault": tell.FaultName(f), "planted": words.Flag(v.Planted.Has(f))}), tell.FaultName(f)) // that it is planted the square tells too
		b.Fitted("fault "+strconv.Itoa(i+1), in, style, text)
		b.Hit(faultPrefix+strconv.Itoa(i+1), "", row)
	})
}

// facts is what the fault looked at does, its numbers, what a pupil sees of it, and what else the desk holds.
func (b *board) facts(r ink.Rect) {
	b.Group("facts")
	v := Of(b.V)
	if v.Looked == 0 {
		return
	}
	d := b.Down(b.Section(r, "facts-heading", b.Say(words.T("desk.looked"))), 5*b.U)
	plain, faint := ink.Style{Size: b.Body}, ink.Style{Size: b.Small, Colour: ink.Faint}
	bold, head := plain, faint
	bold.Weight, head.Weight = ink.Bold, ink.Bold
	d.Say("name", tell.FaultName(v.Looked), ink.Style{Size: b.Large, Weight: ink.Bold})
	d.Say("does", v.does(b.V.Config), plain)
	for i, q := range quantities(v.Looked) {
		name, text := tell.FaultQuantity(q.Is), b.Say(tell.FaultValue(q.Is, v.Chosen[v.Looked][i], &b.V.Config.Layout))
		line := max(ink.BlockHeight(b.Body, 1)+4*b.U, 22*b.U)
		wide := ink.Width(text, b.Body, ink.Bold) + 2*b.U
		h := line
		if wide+ink.Width(b.Say(name), b.Small, ink.Regular) > d.R.W-14*b.U {
			h *= 2 // the value below its name
		}
		row := d.Row(h)
		if i == v.Number {
			b.Rect("number-chosen", row, ink.Paint{Line: ink.Focus, Width: 1.5 * b.U})
		}
		label, value := ink.Rect{X: row.X + 4*b.U, Y: row.Y, W: row.W - 8*b.U, H: line}, ink.Rect{}
		if value, _ = label.CutRight(wide, 0); h > line {
			value.Y += line
		} else {
			label.W -= wide
		}
		b.Fitted("number-name", label, faint, b.Say(name))
		b.Fitted("number-value", value, bold, text)
	}
	b.wind(d)
	seen := tell.FaultSeen(v.Looked, v.Chosen[v.Looked][0], v.Chosen[v.Looked][1], b.V.Config)
	if b.V.Class && b.SayHeight(seen, d.R.W, plain)+ink.BlockHeight(head.Size, 1)+2*d.Gap > d.R.H {
		return // half a sentence says nothing
	}
	d.Say("seen-head", words.T("desk.pupil-sees"), head)
	d.Say("seen", seen, plain)
	if b.V.Class {
		return
	}
	d.Say("radio", v.Radio, plain)
	d.Say("hands", v.Hands, bold)
	d.Whole("drill", v.Drill, plain)
	d.Say("hidden", words.T("desk.hidden", words.Args{"on": words.Flag(v.Hidden)}), ink.Style{Size: b.Small})
	for _, m := range slices.Backward(v.Marks[max(0, len(v.Marks)-marksMost):]) {
		d.Say("mark", words.T("desk.mark", words.Args{"n": words.Grouped(int(m.B)), "at": tell.Clock(m.Tick)}), faint)
	}
}

// wind is how the air moves at the craft now, where a wind is planted: an arrow as the pilot stands, and words. On the desk bench it is what will blow outside.
func (b *board) wind(d *ui.Down) {
	in := &b.V.Snap.In
	mean := in.Wind
	if mean == 0 {
		return
	}
	now := mean
	if in.Air {
		now = tell.WindNow(b.V.Snap.Air.Wind)
	}
	text := words.T("desk.wind", words.Args{"now": tell.Wind(now, true), "outside": words.Flag(in.Air)})
	side, style := 30*b.U, ink.Style{Size: b.Body}
	row := d.Row(max(side, b.SayHeight(text, d.R.W-side-8*b.U, style)))
	box, rest := row.CutLeft(side, 8*b.U)
	if _, from, _, _ := pulse.WindOf(now); !tell.Wind(now, false).Empty() {
		b.WindFromAbove("wind-now", ink.Rect{X: box.X, Y: box.Y, W: side, H: side}, from)
	}
	b.Down(rest, 0).Say("wind-words", text, style)
}

// quantities are what the numbers of a fault are: none, one or two.
func quantities(d pulse.Deed) []fault.Quantity {
	m := fault.Of(d)
	return slices.DeleteFunc([]fault.Quantity{m.A, m.B}, func(q fault.Quantity) bool { return q.Is == fault.Nothing })
}

// does says what the fault looked at does with its numbers at a craft, or that it cannot be planted there.
func (v *View) does(craft *sim.Config) words.Text {
	value, ok := fault.Plant(v.Looked, v.Chosen[v.Looked][0], v.Chosen[v.Looked][1])
	if !ok {
		return words.T("desk.refused", words.Args{"fault": tell.FaultName(v.Looked)})
	}
	_, number := pulse.InstructorOf(value)
	does := tell.FaultDoes(v.Looked, number, &craft.Layout)
	if v.Looked == fault.LowPack {
		does = words.Row(does, tell.DeskPackLimit(int(craft.Arming.PackLimitMilliVolts), int(v.Chosen[v.Looked][0])))
	}
	return does
}

// bench is the bench as it is, small, with the whole record.
func (b *board) bench(r ink.Rect) {
	b.Group("state")
	d := b.Down(b.StateHead(r, b.Px(24), b.Px(16), b.Px(32), 4*b.U), 4*b.U)
	b.PaceRow(d.Row(b.ForFinger(25 * b.U)))
	b.Sticks(d.Row(ui.Clamp(d.R.H*0.34, 90*b.U, 200*b.U)))
	if _, r = d.R.CutTop(0, 6*b.U); r.H > 120*b.U {
		b.Chart(r)
	}
}
