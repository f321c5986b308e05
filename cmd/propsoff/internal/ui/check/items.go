package check

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	ck "propsoff.example/input/check"
)

// itemHeight is the height of one line of items.
func (b *board) itemHeight() float64 { return ink.LineHeight(b.Body) + 0.5*b.U }

// detail draws every item of the control that is looked at: mark, name, measured value, limit and verdict; and of what warns or fails why it
// matters and what to set, as far as there is room.
func (b *board) detail(r ink.Rect) {
	b.Group("items")
	which, name := Of(b.V).control()
	r = b.Section(r, "items-heading", b.Say(name))
	items := Of(b.V).items(which)
	d := 4.2 * b.U
	_, text := r.CutLeft(2*d+8*b.U, 0)
	lines := make([][4]string, len(items))
	wide, weights := [4]float64{}, [4]ink.Weight{3: ink.Bold}
	for i, it := range items {
		lines[i] = [4]string{b.Say(tell.CheckItem(it.Kind)), b.Say(tell.CheckValue(it)), b.Say(tell.CheckMust(it)), b.Say(tell.CheckVerdict(it.Verdict))}
		for k, s := range lines[i] {
			wide[k] = max(wide[k], ink.Width(s, b.Body, weights[k]))
		}
	}
	b.V.Cells = text.Columns(b.V.Cells[:0], 8*b.U, ink.Share(wide[0], 0), ink.Share(wide[1], 0), ink.Share(wide[2], 0), ink.Share(wide[3], 0))
	down := b.Down(r, 0)
	for i, it := range items {
		row := down.Row(b.itemHeight())
		b.VerdictMark(row.X+d+b.U, row.Centre().Y, d, it.Verdict)
		for k, s := range lines[i] {
			b.Fitted(it.Kind.Code()+" "+[4]string{"item", "value", "limit", "verdict"}[k], ink.Rect{X: b.V.Cells[k].X, Y: row.Y, W: b.V.Cells[k].W, H: row.H},
				ink.Style{Size: b.Body, Weight: weights[k], Colour: [4]ink.Role{2: ink.Faint}[k]}, s)
		}
	}
	down.Gap = 5 * b.U
	down.Row(0)
	for _, it := range items {
		if it.Verdict > ck.Passes && !b.advice(down, it, false) {
			return
		}
	}
}

// adviceTexts are the title of an item that warns or fails, why it matters, and what to set.
func (b *board) adviceTexts(it *ck.Item) [3]words.Text {
	v := &Of(b.V).Check
	return [3]words.Text{tell.CheckVerdictOf(v, it), words.T("check.why", words.Args{"why": tell.CheckWhy(it.Why)}), words.T("check.do", words.Args{"cure": tell.CheckCure(v, it)})}
}

// adviceStyle is how text i of those is written.
func (b *board) adviceStyle(i int) ink.Style {
	return ink.Style{Size: b.Body, Weight: [3]ink.Weight{ink.Bold}[i]}
}

// adviceHeight is what advice takes in a width.
func (b *board) adviceHeight(w float64, it *ck.Item, titled bool) (need float64) {
	for i, t := range b.adviceTexts(it) {
		if titled {
			need += b.SayHeight(t, w-1.3*b.Body, b.adviceStyle(i))
		} else if i > 0 {
			need += b.SayHeight(t, w, b.adviceStyle(i))
		}
	}
	return need
}

// advice writes why an item matters and what to set, under its title where titled; false where there is no room for it.
func (b *board) advice(d *ui.Down, it *ck.Item, titled bool) bool {
	need := b.adviceHeight(d.R.W, it, titled)
	if need > d.R.H {
		return false
	}
	texts, lead, from := b.adviceTexts(it), 0.0, 1
	if titled {
		lead, from = 1.3*b.Body, 0
	}
	row := d.Row(need)
	if titled {
		m := 0.34 * b.Body
		b.VerdictMark(row.X+m+b.U, row.Y+ink.BlockHeight(b.Body, 1)/2, m, it.Verdict)
	}
	_, text := row.CutLeft(lead, 0)
	in := b.Down(text, 0)
	for i := from; i < len(texts); i++ {
		in.Say([3]string{"finding", "why", "do"}[i], texts[i], b.adviceStyle(i))
	}
	return true
}

// findings lists what fails and what warns, with why and what to set, from the first that is asked for on.
func (b *board) findings(r ink.Rect) {
	b.Group("findings")
	v := Of(b.V)
	all := v.findings()
	d := b.Down(r, 8*b.U)
	if len(all) == 0 {
		d.Gap = b.Gap
		d.Say("good", words.T("check.good"), ink.Style{Size: b.Head})
		b.looksAt(d.R)
		return
	}
	high, sum, list := make([]float64, len(all)), 0.0, ink.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H + d.Gap}
	for i := range all {
		high[i] = b.adviceHeight(r.W, all[i], true) + d.Gap
		sum += high[i]
	}
	line := max(ink.BlockHeight(b.Body, 1), b.Least())
	from := ui.ClampInt(v.From, 0, len(all)-1)
	if sum > list.H { // a line is kept for those that are not shown
		list.H -= line + 6*b.U
	}
	first, end := b.Rolled("findings", list, high, -1-from, from)
	for k := first; k < end; k++ {
		if !b.advice(d, all[k], true) {
			end = k
		}
	}
	if n := len(all); first > 0 || end < n {
		says := tell.AndMore(n - end)
		if end == n {
			says = words.T("check.above", words.Args{"n": words.Whole(first)})
		}
		row := d.Row(line)
		b.Fitted("findings-left", row, ink.Style{Size: b.Body, Colour: ink.Faint}, b.Say(says))
		b.TurnedBy("findings", row)
	}
}

// looksAt lists what the check looks at, in a size and with distances that fill the room.
func (b *board) looksAt(r ink.Rect) {
	b.Group("list")
	texts := words.Each("check.sees", "direction", "travel", "rest", "noise", "switches", "reports")
	_, text := r.CutLeft(14*b.U, 0)
	height := func(size float64) (sum float64) {
		for _, t := range texts {
			sum += b.SayHeight(t, text.W, ink.Style{Size: size})
		}
		return sum
	}
	n, size, gap := float64(len(texts)), b.Body, 6*b.U
	for size < 1.6*b.Body && height(size+1)+n*gap <= r.H {
		size++
	}
	d := b.Down(text, ui.Clamp((r.H-height(size))/n, gap, 1.6*size))
	for _, t := range texts {
		if b.SayHeight(t, text.W, ink.Style{Size: size}) > d.R.H {
			return
		}
		b.Circle("point", r.X+4*b.U, d.R.Y+ink.BlockHeight(size, 1)/2, 2*b.U, ink.Paint{Fill: ink.Ink})
		d.Say("looked-at", t, ink.Style{Size: size})
	}
}
