package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	ck "propsoff/input/check"
)

// checkDetail draws every item of the control that is looked at: mark, name, measured value, limit and verdict; and of what
// warns or fails why it matters and what to set, as far as there is room.
func (b *board) checkDetail(r ink.Rect) {
	b.Group("items")
	v := &b.v.Check.Check
	which, name := b.v.Check.Selected, phrase.CheckOfRadio()
	if which < len(v.Controls) {
		name = phrase.CheckName(&v.Controls[which])
	} else {
		which = -1
	}
	r = b.section(r, "items heading", name)
	y, line := r.Y, b.checkLine()
	var bad []int
	for i := range v.Items {
		it := &v.Items[i]
		if it.Control != which {
			continue
		}
		b.checkItem(ink.Rect{X: r.X, Y: y, W: r.W, H: line}, it)
		y += line
		if it.Verdict > ck.Passes {
			bad = append(bad, i)
		}
	}
	_, r = r.CutTop(y-r.Y+5*b.u, 0)
	for _, i := range bad {
		h := b.checkAdvice(r, &v.Items[i], false)
		if h == 0 {
			return
		}
		_, r = r.CutTop(h, 5*b.u)
	}
}

// checkItem is one line: what it is, what was measured, what it must be, and the verdict as shape and word.
func (b *board) checkItem(r ink.Rect, it *ck.Item) {
	d := 4.2 * b.u
	b.verdictMark(r.X+d+b.u, r.Centre().Y, d, it.Verdict)
	x := r.X + 2*d + 8*b.u
	shares := [4]float64{0.25, 0.24, 0.33, 0.18}
	texts := [4]string{phrase.CheckItem(it.Kind), phrase.CheckValue(it), phrase.CheckMust(it), phrase.CheckVerdict(it.Verdict)}
	w := r.Right() - x
	for i, text := range texts {
		cell := ink.Rect{X: x, Y: r.Y, W: w*shares[i] - 5*b.u, H: r.H}
		s := ink.Style{Size: b.body}
		switch i {
		case 2:
			s.Colour = ink.Faint
		case 3:
			s.Weight = ink.Bold
		}
		b.fitted(it.Kind.Code()+" "+[4]string{"item", "value", "limit", "verdict"}[i], cell, s, text)
		x += w * shares[i]
	}
}

// checkAdvice writes why an item matters and what to set, under its title where titled; 0 where there is no room for it.
func (b *board) checkAdvice(r ink.Rect, it *ck.Item, titled bool) float64 {
	v := &b.v.Check.Check
	title := phrase.CheckVerdictOf(v, it)
	why, do := phrase.CheckWhyWord()+phrase.CheckWhy(it.Why), phrase.CheckDoWord()+phrase.CheckCure(v, it)
	size := b.body
	lead := 0.0
	if titled {
		lead = 1.3 * size
	}
	w := r.W - lead
	heights := [3]float64{}
	for i, text := range [3]string{title, why, do} {
		if i == 0 && !titled {
			continue
		}
		weight := ink.Regular
		if i == 0 {
			weight = ink.Bold
		}
		n, _ := ink.CountLines(text, w, size, weight)
		heights[i] = ink.BlockHeight(size, n)
	}
	need := heights[0] + heights[1] + heights[2]
	if need > r.H {
		return 0
	}
	y := r.Y
	if titled {
		d := 0.34 * size
		b.verdictMark(r.X+d+b.u, y+ink.BlockHeight(size, 1)/2, d, it.Verdict)
	}
	for i, text := range [3]string{title, why, do} {
		if heights[i] == 0 {
			continue
		}
		s := ink.Style{Size: size, Within: r}
		if i == 0 {
			s.Weight = ink.Bold
		}
		b.Block([3]string{"finding", "why", "do"}[i], r.X+lead, y, s, ink.Block{Width: w}, text)
		y += heights[i]
	}
	return need
}

// checkFindings lists what fails and what warns, with why and what to set, from the first that is asked for on.
func (b *board) checkFindings(r ink.Rect) {
	b.Group("findings")
	v := &b.v.Check
	all := v.findings(nil)
	if !b.v.Class {
		r = b.section(r, "findings heading", phrase.CheckFindings(len(all)))
	}
	if len(all) == 0 {
		h, _ := b.Block("good", r.X, r.Y, ink.Style{Size: b.head, Within: r}, ink.Block{Width: r.W}, phrase.CheckGood())
		_, r = r.CutTop(h, b.gap)
		b.checkList(r)
		return
	}
	from := clampInt(v.From, 0, len(all)-1)
	one := ink.BlockHeight(b.body, 1)
	for k := from; k < len(all); k++ {
		room := r
		if k < len(all)-1 || from > 0 {
			room.H -= one + 6*b.u
		}
		h := b.checkAdvice(room, &v.Check.Items[all[k]], true)
		if h == 0 {
			b.fitted("findings left", ink.Rect{X: r.X, Y: r.Y, W: r.W, H: one}, ink.Style{Size: b.body, Colour: ink.Faint}, phrase.CheckLeft(len(all)-k))
			return
		}
		_, r = r.CutTop(h, 8*b.u)
	}
	if from > 0 {
		b.fitted("findings above", ink.Rect{X: r.X, Y: r.Y, W: r.W, H: one}, ink.Style{Size: b.body, Colour: ink.Faint}, phrase.CheckAboveLeft(from))
		_, r = r.CutTop(one, 8*b.u)
	}
}

// checkList lists what the check looks at, in a size and with distances that fill the room.
func (b *board) checkList(r ink.Rect) {
	texts, w := phrase.CheckWhatIsSeen(), r.W-14*b.u
	heights := func(size float64) (total float64) {
		for _, text := range texts {
			n, _ := ink.CountLines(text, w, size, ink.Regular)
			total += ink.BlockHeight(size, n)
		}
		return total
	}
	size, gap := b.body, 6*b.u
	for size < 1.6*b.body && heights(size+1)+float64(len(texts))*gap <= r.H {
		size++
	}
	gap = clamp((r.H-heights(size))/float64(len(texts)), gap, 1.6*size)
	for _, text := range texts {
		n, _ := ink.CountLines(text, w, size, ink.Regular)
		h := ink.BlockHeight(size, n)
		if h > r.H {
			return
		}
		b.Circle("point", r.X+4*b.u, r.Y+ink.BlockHeight(size, 1)/2, 2*b.u, ink.Paint{Fill: ink.Ink})
		b.Block("looked at", r.X+14*b.u, r.Y, ink.Style{Size: size, Within: r}, ink.Block{Width: w}, text)
		_, r = r.CutTop(h, gap)
	}
}

// checkNeeds says what to do where nothing can be checked, beside the sticks as they are.
func (b *board) checkNeeds(r ink.Rect) {
	b.Group("ask")
	r = b.section(r, "check heading", phrase.CheckTitle())
	size, _ := ink.FitBlock(r.W, ink.BlockHeight(b.TextSize(22), 2), b.head, b.TextSize(22), ink.Bold, b.v.Check.Needs)
	h, _ := b.Block("needs", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, b.v.Check.Needs)
	_, r = r.CutTop(h, b.gap*1.5)
	left, right := r.CutLeft(r.W*0.5, b.gap*2)
	if b.tall {
		left, right = r.CutTop(r.H*0.5, b.gap*2)
	}
	b.sticks(left)
	b.Group("list")
	b.checkList(right)
}

// classCheck draws the same for a room: what to do, the sticks, and the items of the control that is moved; at the end the
// findings.
func (b *board) classCheck() {
	h := math.Min(b.H, b.W*ink.LeastHeight/ink.LeastWidth)
	text := math.Ceil(h * classText)
	if b.tall {
		text = math.Ceil(text * 1.3)
	}
	b.small, b.body, b.head, b.large, b.cap = text, text, text, math.Ceil(text*1.5), text*1.45
	r := b.sheetArea()
	b.Group("keys")
	shown, columns := [...]Action{CheckFindings, CheckBelow, CheckAnew, TurnFullScreen, ShowHelp, Leave}, 6
	if b.W/b.H < 2 { // the words would not fit
		columns = 3
	}
	rows := len(shown) / columns
	height := math.Max(b.cap+4*b.u, 25*b.u)
	row, r := r.CutBottom(height*float64(rows)+4*b.u*float64(rows-1), 6*b.u)
	i := 0
	for _, a := range shown {
		for _, act := range acts {
			if act.Action == a && b.v.Shows(act, OnCheck) {
				b.action(row.Cell(i, columns, rows, 4*b.u), act, OnCheck)
				i++
			}
		}
	}
	if b.v.Check.Needs != "" {
		b.Group("ask")
		size, _ := ink.FitBlock(r.W, r.H*0.4, text, b.large*1.4, ink.Bold, b.v.Check.Needs)
		h, _ := b.Block("needs", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, b.v.Check.Needs)
		_, r = r.CutTop(h, b.gap)
		b.Group("list")
		b.checkList(r)
		return
	}
	r = b.checkAsk(r)
	if b.tall {
		top, bottom := r.CutTop(r.H*0.42, b.gap)
		b.classHeld(top)
		b.classItems(bottom)
		return
	}
	left, right := r.CutLeft(r.W*0.42, b.gap*1.2)
	b.classHeld(left)
	b.classItems(right)
}

// classHeld draws the sticks, and of the levers the one that is looked at: all of them would be too small to be read from afar.
func (b *board) classHeld(r ink.Rect) {
	b.Group("hands")
	v := &b.v.Check
	if i := v.Selected; i < len(v.Check.Controls) && v.Check.Controls[i].Form != ck.Stick {
		var low ink.Rect
		r, low = r.CutTop(r.H*0.55, b.gap)
		b.checkLever(low, &v.Check.Controls[i], i == v.Check.Control)
	}
	for i, g := range gimbals[stickMode(b.v.StickMode)] {
		b.checkStick(r.Cell(i, 2, 1, b.gap), g, [2]string{"left", "right"}[i])
	}
}

// classItems writes the items of the control that is looked at, or the findings.
func (b *board) classItems(r ink.Rect) {
	v := &b.v.Check
	if v.Findings {
		b.checkFindings(r)
		return
	}
	b.Group("items")
	which, name := v.Selected, phrase.CheckOfRadio()
	if which < len(v.Check.Controls) {
		name = phrase.CheckName(&v.Check.Controls[which])
	} else {
		which = -1
	}
	n := 1
	for i := range v.Check.Items {
		if v.Check.Items[i].Control == which {
			n++
		}
	}
	line := clamp(r.H/float64(n), ink.LineHeight(b.body)+3*b.u, 2.2*ink.LineHeight(b.body))
	head, r := r.CutTop(line, 0)
	b.fitted("items heading", head, ink.Style{Size: b.body, Weight: ink.Bold}, name)
	for i := range v.Check.Items {
		it := &v.Check.Items[i]
		if it.Control != which || line > r.H+1 {
			continue
		}
		var row ink.Rect
		row, r = r.CutTop(line, 0)
		d := b.body * 0.32
		b.verdictMark(row.X+d+b.u, row.Centre().Y, d, it.Verdict)
		x := row.X + 2*d + 10*b.u
		verdict := phrase.CheckVerdict(it.Verdict)
		w := ink.Width(verdict, b.body, ink.Bold)
		b.Text(it.Kind.Code()+" verdict", row.Right(), row.Centre().Y, ink.Style{Size: b.body, Weight: ink.Bold, Anchor: ink.Right | ink.Middle}, verdict)
		b.fitted(it.Kind.Code()+" item", ink.Rect{X: x, Y: row.Y, W: row.Right() - w - 10*b.u - x, H: row.H}, ink.Style{Size: b.body}, phrase.CheckItem(it.Kind)+": "+phrase.CheckValue(it))
	}
	if r.H > b.H*0.25 {
		b.checkList(r)
	}
}
