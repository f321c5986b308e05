package check

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	ck "propsoff/input/check"
)

// class draws the check for a room: what to do, the sticks, and the items of the control that is moved; at the end the findings.
func (b *board) class() {
	r := b.ClassKeys(ui.OnCheck, Findings, Below, Anew, ui.TurnFullScreen, ui.ShowHelp, ui.Leave)
	if b.Tall {
		text := math.Ceil(b.Body * 1.3)
		b.Small, b.Body, b.Head = text, text, text
	}
	b.Large = math.Ceil(b.Body * 1.5)
	if !Of(b.V).Needs.Empty() {
		d := b.Down(r, b.Gap)
		b.needed(d, b.Large*1.4, r.H*0.4)
		b.looksAt(d.R)
		return
	}
	r = b.ask(r, 4)
	left, right := r.CutLeft(r.W*0.42, b.Gap*1.2)
	if b.Tall {
		left, right = r.CutTop(r.H*0.42, b.Gap)
	}
	b.classHands(left)
	if Of(b.V).Findings {
		b.findings(right)
		return
	}
	b.classItems(right)
}

// classHands draws the sticks, and of the levers the one that is looked at: all of them would be too small to be read from afar.
func (b *board) classHands(r ink.Rect) {
	b.Group("hands")
	v := Of(b.V)
	if i := v.Selected; i < len(v.Check.Controls) && v.Check.Controls[i].Form != ck.Stick {
		var low ink.Rect
		r, low = r.CutTop(r.H*0.55, b.Gap)
		b.lever(low, &v.Check.Controls[i], i == v.Check.Control)
	}
	b.BothSticks(r, b.stick)
}

// classItems writes the items of the control that is looked at.
func (b *board) classItems(r ink.Rect) {
	b.Group("items")
	which, name := Of(b.V).control()
	items := Of(b.V).items(which)
	line := ui.Clamp(r.H/float64(len(items)+1), ink.LineHeight(b.Body)+3*b.U, 2.2*ink.LineHeight(b.Body))
	d := b.Down(r, 0)
	b.Fitted("items-heading", d.Row(line), ink.Style{Size: b.Body, Weight: ink.Bold}, b.Say(name))
	for _, it := range items {
		if line > d.R.H+1 {
			return
		}
		row, m := d.Row(line), b.Body*0.32
		b.VerdictMark(row.X+m+b.U, row.Centre().Y, m, it.Verdict)
		verdict := b.Say(tell.CheckVerdict(it.Verdict))
		_, row = row.CutLeft(2*m+10*b.U, 0)
		last, row := row.CutRight(ink.Width(verdict, b.Body, ink.Bold)+b.U, 9*b.U)
		b.Fitted(it.Kind.Code()+" verdict", last, ink.Style{Size: b.Body, Weight: ink.Bold}, verdict)
		b.Fitted(it.Kind.Code()+" item", row, ink.Style{Size: b.Body}, b.Say(tell.CheckItem(it.Kind))+": "+b.Say(tell.CheckValue(it)))
	}
	if d.R.H > b.H*0.25 {
		b.looksAt(d.R)
	}
}
