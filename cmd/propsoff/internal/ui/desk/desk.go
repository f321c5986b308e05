package desk

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
)

// View is what the instructor's desk knows.
type View struct {
	// Faults are all that can be planted, Selected the index of the one looked at.
	Faults   []Fault
	Selected int
	// Does says what the one looked at does with its numbers, Seen what a pupil notices of it.
	Does, Seen words.Text
	// Numbers are its numbers, Number the index of the one that the keys change.
	Numbers []Number
	Number  int
	// Hidden: the hidden keys work on the pupil's sheet.
	Hidden bool
	// Radio says which radio is the instructor's, Hands who has the sticks; that says nothing where none is.
	Radio, Hands words.Text
	// Marks are the last commentary marks, newest first.
	Marks []words.Text
}

// Fault is one fault that can be planted.
type Fault struct {
	Name words.Text
	// On: it is planted. Fits: this craft has something for it.
	On, Fits bool
	// Key is the hidden key that plants and lifts it; empty for none.
	Key string
}

// Number is one number of a fault.
type Number struct{ Name, Value words.Text }

// faultPrefix and a number from 1 name the hit areas of the faults.
const faultPrefix = "fault-"

// board is a page with the desk on it.
type board struct{ *figure.Board }

// Draw draws the instructor's desk: what can be planted and what is, the bench as it is, and the record with everything in it.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	if v.Class {
		b.class(b.ThreeState(b.ClassKeys(ui.OnDesk, Plant, Above, Below, LiftAll, ui.TurnFullScreen, ui.ShowHelp, ui.Leave)))
		return
	}
	r := b.Footer(b.SheetArea(), ui.OnDesk)
	b.Group("desk")
	d := b.Down(r, 2*b.U)
	d.Say("title", words.T("desk.title"), ink.Style{Size: b.TextSize(20), Weight: ink.Bold})
	d.Say("what", words.T("desk.what"), ink.Style{Size: b.Body})
	_, r = d.R.CutTop(0, 4*b.U)
	if b.Tall {
		top, low := r.CutTop(r.H*0.56, b.Gap)
		left, right := top.CutLeft(top.W*0.46, b.Gap*1.4)
		b.faults(left)
		b.facts(right)
		b.bench(low)
		return
	}
	cols := r.Columns(nil, b.Gap*1.4, ink.Share(29, 0), ink.Share(36, 0), ink.Share(33, 0))
	b.faults(cols[0])
	b.facts(cols[1])
	b.bench(cols[2])
}

// class is what a class sees of the desk: what can be wrong, what the one looked at does, and the sticks.
func (b *board) class(r ink.Rect) {
	wide := r.Columns(nil, b.Gap*1.4, ink.Share(38, 0), ink.Share(42, 0), ink.Share(18, 0))
	left, right, sticks := wide[0], wide[1], wide[2]
	if b.Tall {
		left, sticks = r.CutTop(r.H*0.7, b.Gap)
		left, right = left.CutLeft(left.W*0.5, b.Gap*1.4)
	}
	b.faults(left)
	b.facts(right)
	b.Sticks(sticks)
}

// faults lists the faults; what is planted bears a filled square, and is bold.
func (b *board) faults(r ink.Rect) {
	b.Group("faults")
	v := Of(b.V)
	r = b.Section(r, "faults-heading", b.Say(words.T("desk.faults")))
	least := ink.BlockHeight(b.Body, 1) + 6*b.U
	h := ui.Clamp(r.H/float64(max(len(v.Faults), 1)), least, 1.6*least)
	b.ListAll(r, len(v.Faults), v.Selected, h, func(row ink.Rect, i int) {
		f := &v.Faults[i]
		if i == v.Selected {
			b.Rect("selected", row.Inset(0.5*b.U), ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.5 * b.U})
		}
		d := ink.CapHeight(b.Body, ink.Bold)
		box := ink.Rect{X: row.X + 6*b.U, Y: row.Centre().Y - d/2, W: d, H: d}
		paint, style := ink.Paint{Line: ink.Ink, Width: 1.3 * b.U}, ink.Style{Size: b.Body}
		if f.On {
			paint, style.Weight = ink.Paint{Fill: ink.Refusal}, ink.Bold
		}
		if !f.Fits {
			style.Colour = ink.Faint
		}
		b.Rect("plant-box", box, paint)
		in := ink.Rect{X: box.Right() + 8*b.U, Y: row.Y, W: row.Right() - box.Right() - 12*b.U, H: row.H}
		if f.Key != "" {
			w := b.CapWidth(b.Cap, f.Key)
			b.KeyCap("hidden-key", in.Right()-w/2, in.Centre().Y, min(b.Cap, h-2*b.U), f.Key)
			in.W -= w + 6*b.U
		}
		text := b.Say(tell.DeskFault(f.Name, f.On))
		if ink.Width(text, style.Size, style.Weight) > in.W {
			text = b.Say(f.Name) // that it is planted the square tells
		}
		b.Fitted("fault "+strconv.Itoa(i+1), in, style, text)
		b.Hit(faultPrefix+strconv.Itoa(i+1), "", row)
	})
}

// facts is what the fault looked at does, its numbers, what a pupil sees of it, and what else the desk holds.
func (b *board) facts(r ink.Rect) {
	b.Group("facts")
	v := Of(b.V)
	if v.Selected < 0 || v.Selected >= len(v.Faults) {
		return
	}
	d := b.Down(b.Section(r, "facts-heading", b.Say(words.T("desk.looked"))), 5*b.U)
	plain, label := ink.Style{Size: b.Body}, ink.Style{Size: b.Small, Colour: ink.Faint}
	bold, head := plain, label
	bold.Weight, head.Weight = ink.Bold, ink.Bold
	d.Say("name", v.Faults[v.Selected].Name, ink.Style{Size: b.Large, Weight: ink.Bold})
	d.Say("does", v.Does, plain)
	for i, n := range v.Numbers {
		text, line := b.Say(n.Value), max(ink.BlockHeight(b.Body, 1)+4*b.U, 22*b.U)
		wide := ink.Width(text, b.Body, ink.Bold) + 2*b.U
		h := line
		if wide+ink.Width(b.Say(n.Name), b.Small, ink.Regular) > d.R.W-14*b.U {
			h *= 2 // the value below its name
		}
		row := d.Row(h)
		if i == v.Number {
			b.Rect("number-chosen", row, ink.Paint{Line: ink.Focus, Width: 1.5 * b.U})
		}
		name, value := ink.Rect{X: row.X + 4*b.U, Y: row.Y, W: row.W - 8*b.U, H: line}, ink.Rect{}
		if value, _ = name.CutRight(wide, 0); h > line {
			value.Y += line
		} else {
			name.W -= wide
		}
		b.Fitted("number-name", name, label, b.Say(n.Name))
		b.Fitted("number-value", value, bold, text)
	}
	d.Say("seen-head", words.T("desk.pupil-sees"), head)
	d.Say("seen", v.Seen, plain)
	if b.V.Class {
		return
	}
	d.Say("radio", v.Radio, plain)
	d.Say("hands", v.Hands, bold)
	d.Say("hidden", tell.DeskHidden(v.Hidden), ink.Style{Size: b.Small})
	for _, m := range v.Marks {
		d.Say("mark", m, label)
	}
}

// bench is the bench as it is, small, with the whole record.
func (b *board) bench(r ink.Rect) {
	b.Group("state")
	d := b.Down(b.StateHead(r, b.Px(24), b.Px(16), b.Px(32), 4*b.U), 4*b.U)
	b.PaceRow(d.Row(25 * b.U))
	b.Sticks(d.Row(ui.Clamp(d.R.H*0.34, 90*b.U, 200*b.U)))
	if _, r = d.R.CutTop(0, 6*b.U); r.H > 120*b.U {
		b.Chart(r)
	}
}
