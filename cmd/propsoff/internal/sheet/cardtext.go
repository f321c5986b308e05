package sheet

import (
	"slices"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// armingRule writes how the craft is armed, what its motors do then, and what the radio lacks; it gives where it ends.
func (k *card) armingRule(x, y, w float64) float64 {
	k.Group("arming")
	y = k.heading("arming heading", x, y, w, phrase.CardArmingTitle())
	l := &k.c.Config.Layout
	rule := phrase.CardArming(&k.c.Config, &k.c.Radio, numberOn(k.all, l.Arm), numberOn(k.all, l.Second))
	h, _ := k.Block("arming rule", x, y, ink.Style{Size: k.plan.words, Weight: ink.Bold}, ink.Block{Width: w}, phrase.Unbroken(rule))
	y += h + 2*k.u
	h, _ = k.Block("motors", x, y, ink.Style{Size: k.plan.words}, ink.Block{Width: w}, phrase.Unbroken(phrase.CardMotors(&k.c.Config)))
	y += h
	if absent := k.c.absent(); len(absent) > 0 {
		h, _ = k.Block("absent", x, y+2*k.u, ink.Style{Size: k.plan.words, Weight: ink.Bold, Colour: ink.Refusal}, ink.Block{Width: w}, phrase.CardAbsent(absent))
		y += h + 2*k.u
	}
	return y
}

// loss writes what happens when the radio falls silent.
func (k *card) loss(x, y, w float64) float64 {
	k.Group("loss")
	y = k.heading("loss heading", x, y, w, phrase.CardLossTitle())
	for i, text := range phrase.CardLoss(&k.c.Config, &k.c.Radio) {
		if i > 0 {
			y += 2 * k.u
		}
		h, _ := k.Block("loss", x, y, ink.Style{Size: k.plan.words}, ink.Block{Width: w}, phrase.Unbroken(text))
		y += h
	}
	return y
}

// proved writes what a search found, or that nobody searched.
func (k *card) proved(x, y, w float64) float64 {
	k.Group("proved")
	y = k.heading("proved heading", x, y, w, phrase.CardProvedTitle())
	style := ink.Style{Size: k.plan.words}
	if k.c.Verdict == "" {
		style.Weight = ink.Bold
		h, _ := k.Block("not proved", x, y, style, ink.Block{Width: w}, k.c.NotProved)
		return k.warned(x, y+h, w)
	}
	if k.c.Warn {
		style.Weight = ink.Bold
	}
	h, _ := k.Block("verdict", x, y, style, ink.Block{Width: w}, k.c.Verdict)
	y += h + 2*k.u
	var rules []CardRule
	left := 0
	for _, r := range k.c.Rules {
		if k.plan.detail >= 2 && r.Silent {
			left++
			continue
		}
		rules = append(rules, r)
	}
	cell := (ink.Rect{X: x, W: w}).Cell(0, 2, 1, k.gut)
	heights := make([]float64, len(rules))
	for i := range rules {
		d := *k
		d.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
		heights[i] = d.rule(0, 0, cell.W, &rules[i])
	}
	low := y
	if len(rules) > 0 {
		for column, some := range split(heights, 2, 0) {
			at, cell := y, (ink.Rect{X: x, W: w}).Cell(column, 2, 1, k.gut)
			for i := some[0]; i < some[1]; i++ {
				at += k.rule(cell.X, at, cell.W, &rules[i])
			}
			low = max(low, at)
		}
	}
	low = k.toSet(x, low, w)
	if left > 0 {
		h, _ = k.Block("rest", x, low, ink.Style{Size: k.fine, Colour: ink.Faint}, ink.Block{Width: w}, phrase.CardRest(left))
		low += h
	}
	return k.warned(x, low, w)
}

// warned counts what the layout sheet calls out; it gives where it ends.
func (k *card) warned(x, y, w float64) float64 {
	n := k.c.warnings()
	if n == 0 {
		return y
	}
	h, _ := k.Block("warned", x, y+2*k.u, ink.Style{Size: k.plan.words, Weight: ink.Bold, Colour: ink.Refusal}, ink.Block{Width: w}, phrase.CardWarnings(n))
	return y + 2*k.u + h
}

// rule writes one rule: a mark, its name, and what was found of it. It gives the height.
func (k *card) rule(x, y, w float64, r *CardRule) float64 {
	t := k.fine
	style := ink.Style{Size: t, Anchor: ink.Right | ink.Top}
	switch {
	case r.Bad:
		style.Weight, style.Colour = ink.Bold, ink.Armed
	case r.Open:
		style.Weight = ink.Bold
	case r.Silent:
		style.Colour = ink.Disarmed
	}
	name := ink.Style{Size: t, Weight: style.Weight}
	gap := t * 0.8
	room := w - ink.Width(r.Outcome, t, style.Weight) - gap
	h, _ := k.Block("rule", x, y, name, ink.Block{Width: room, MaxLines: k.lines(3), Shorten: true}, r.Name)
	k.Text("outcome", x+w, y, style, r.Outcome)
	if why := k.why(r); why != "" {
		more, _ := k.Block("why", x, y+h, ink.Style{Size: t}, ink.Block{Width: w}, phrase.Unbroken(why))
		h += more + 1.5*k.u
	}
	return h + 0.8*k.u
}

// why is what is said below a broken rule: all of it in a card with everything, then what to set, and nothing in a dense one,
// which says what to set once for all rules.
func (k *card) why(r *CardRule) string {
	switch k.plan.detail {
	case 0:
		return r.Why
	case 1:
		return r.Set
	}
	return ""
}

// toSet says once what to set against the broken rules, in a card that is too dense to say it below each; it gives where it
// ends.
func (k *card) toSet(x, y, w float64) float64 {
	var all []string
	for i := range k.c.Rules {
		if s := k.c.Rules[i].Set; s != "" && !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	if k.plan.detail < 2 || k.plan.detail > 3 || len(all) == 0 {
		return y
	}
	most := 6
	if k.plan.detail >= 3 {
		most = 2
	}
	h, _ := k.Block("to set", x, y, ink.Style{Size: k.fine}, ink.Block{Width: w, MaxLines: most, Shorten: true}, phrase.Unbroken(phrase.CardToSet(all)))
	return y + h
}

// foot writes at the lower edge what is to be signed and the cautions; it gives where it begins.
func (k *card) foot() float64 {
	d := *k
	d.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
	top := k.area.Bottom() - d.footAt(0)
	k.footAt(top)
	return top
}

func (k *card) footAt(y float64) float64 {
	k.Group("foot")
	x, w := k.area.X, k.area.W
	y = k.sign(x, y, w) + k.plan.words*0.8
	y = k.heading("cautions heading", x, y, w, phrase.CautionsHeading())
	all := phrase.Cautions()
	cell := (ink.Rect{X: x, W: w}).Cell(0, 2, 1, k.gut)
	heights := make([]float64, len(all))
	for i := range all {
		n, _ := ink.CountLines(all[i], cell.W-1.4*k.fine, k.fine, cautionWeight(i))
		heights[i] = ink.BlockHeight(k.fine, n)
	}
	gap, low := 2.2*k.u, y
	for column, some := range split(heights, 2, gap) {
		at, cell := y, (ink.Rect{X: x, W: w}).Cell(column, 2, 1, k.gut)
		for i := some[0]; i < some[1]; i++ {
			k.Text("caution number", cell.X, at, ink.Style{Size: k.fine, Weight: ink.Bold, Anchor: ink.Top}, strconv.Itoa(i+1))
			h, _ := k.Block("caution", cell.X+1.4*k.fine, at, ink.Style{Size: k.fine, Weight: cautionWeight(i)}, ink.Block{Width: cell.W - 1.4*k.fine}, all[i])
			at += h + gap
		}
		low = max(low, at)
	}
	return low - gap
}

// sign draws the row to be filled in by hand after the test on the craft itself: in one line where there is room to write
// in, else in two.
func (k *card) sign(x, y, w float64) float64 {
	t := k.fine
	box, high := t*0.85, ink.BlockHeight(t, 1)
	at := k.Text("to sign", x, y, ink.Style{Size: t, Weight: ink.Bold, Anchor: ink.Top}, phrase.CardSign()).Right() + t*0.8
	for _, part := range phrase.CardSignParts() {
		if at+box+t*1.3+ink.Width(part, t, ink.Regular) > x+w {
			at, y = x, y+high+2*k.u
		}
		k.Rect("box to tick", ink.Rect{X: at, Y: y + high/2 - box/2, W: box, H: box}, ink.Paint{Line: ink.Ink, Width: 0.8 * k.u})
		at = k.Text("part to sign", at+box+t*0.35, y, ink.Style{Size: t, Anchor: ink.Top}, part).Right() + t*0.9
	}
	if x+w-at < 190*k.u {
		at, y = x, y+high+5*k.u
	}
	half := (x + w - at - t) / 2
	for _, what := range phrase.CardSignNames() {
		from := k.Text("signed", at, y, ink.Style{Size: t, Anchor: ink.Top}, what).Right() + t*0.4
		k.Line("line to sign", from, y+high-1*k.u, at+half, y+high-1*k.u, ink.Paint{Line: ink.Ink, Width: 0.6 * k.u})
		at += half + t
	}
	return y + high
}
