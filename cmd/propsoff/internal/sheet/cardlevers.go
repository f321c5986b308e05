package sheet

import (
	"slices"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/handset"
)

// cardMostPositions is how many positions of a switch are drawn in the densest plan.
const cardMostPositions = 6

// column draws the switches of a side one below the other and gives where they end.
func (k *card) column(side handset.Side, x, y, w float64, all []cardSwitch) float64 {
	if len(all) == 0 {
		return y
	}
	k.Group("switches")
	y = k.heading("side", x, y, w, k.placed(side))
	for i := range all {
		if i > 0 {
			y += k.between()
		}
		y = k.lever(x, y, w, &all[i])
	}
	return y
}

// placed heads the switches of a side.
func (k *card) placed(side handset.Side) string {
	all := k.on(side)
	knobs := slices.ContainsFunc(all, func(s cardSwitch) bool { return s.control.Kind == handset.Knob })
	return phrase.CardPlace(side, knobs, len(all) < len(k.all))
}

// between is the distance between two switches one below the other.
func (k *card) between() float64 {
	if k.plan.detail >= 2 {
		return 3 * k.u
	}
	return k.plan.text*0.7 + min(k.plan.room*0.03, 8*k.u)
}

// band draws the switches of a side in as many columns as there is room for, and gives where they end, with a gap; r.H
// does not count. A side without switches takes nothing.
func (k *card) band(side handset.Side, r ink.Rect) float64 {
	all := k.on(side)
	if len(all) == 0 {
		return r.Y
	}
	k.Group("switches")
	y := k.heading("side", r.X, r.Y, r.W, k.placed(side))
	columns := min(len(all), max(1, int((r.W+k.gut)/(k.width(all)+k.gut))))
	heights := make([]float64, len(all))
	cell := (ink.Rect{X: r.X, W: r.W}).Cell(0, columns, 1, k.gut)
	for i := range all {
		heights[i] = k.leverHeight(cell.W, &all[i])
	}
	low := y
	for column, some := range split(heights, columns, k.between()) {
		at, cell := y, (ink.Rect{X: r.X, W: r.W}).Cell(column, columns, 1, k.gut)
		for i := some[0]; i < some[1]; i++ {
			if i > some[0] {
				at += k.between()
			}
			at = k.lever(cell.X, at, cell.W, &all[i])
		}
		low = max(low, at)
	}
	return low + k.gap
}

// split puts things of some heights, in their order, into columns so that the highest column is as low as can be: of
// each column the first and the one after the last.
func split(heights []float64, columns int, gap float64) (out [][2]int) {
	fill := func(most float64) (parts [][2]int) {
		from, sum := 0, 0.0
		for i, h := range heights {
			if i > from && sum+gap+h > most {
				parts, from, sum = append(parts, [2]int{from, i}), i, 0
			}
			if i > from {
				sum += gap
			}
			sum += h
		}
		return append(parts, [2]int{from, len(heights)})
	}
	low, high := 0.0, gap*float64(len(heights))
	for _, h := range heights {
		low, high = max(low, h), high+h
	}
	for range 40 {
		if mid := (low + high) / 2; len(fill(mid)) <= columns {
			high = mid
		} else {
			low = mid
		}
	}
	return fill(high)
}

// leverHeight is what a switch takes: it is drawn on a page of its own.
func (k *card) leverHeight(w float64, s *cardSwitch) float64 {
	d := *k
	d.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
	return d.lever(0, 0, w, s)
}

// badge draws the number of a switch in a circle.
func (k *card) badge(x, y float64, number int) {
	k.Circle("number ring", x, y, k.badgeSize()/2, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 0.8 * k.u})
	k.Text("number", x, y, ink.Style{Size: k.Px(cardLeast), Weight: ink.Bold, Anchor: ink.Centre | ink.Middle}, strconv.Itoa(number))
}

func (k *card) badgeSize() float64 { return 13.5 * k.u }

// lever draws one switch: its number, what it is for, what carries it, and a slot with its positions; beside each its
// value and what the craft does. It gives where it ends.
func (k *card) lever(x, y, w float64, s *cardSwitch) float64 {
	t, c := k.plan.text, s.control
	ring := k.badgeSize()
	k.badge(x+ring/2, y+ring/2, s.number)
	at, room := x+ring+4*k.u, w-ring-4*k.u
	name := phrase.CardSwitch(c.Job)
	head := y + (ring-ink.BlockHeight(t, 1))/2
	h, _ := k.Block("switch", at, head, ink.Style{Size: t, Weight: ink.Bold}, ink.Block{Width: room, MaxLines: 1, Shorten: true}, name)
	y = max(y+ring, head+h)
	if c.Called != "" && c.Called != c.Job {
		h, _ = k.Block("called", at, y, ink.Style{Size: k.small}, ink.Block{Width: room, MaxLines: k.lines(2), Shorten: true}, c.Called)
		y += h
	}
	if src := phrase.CardSource(c); src != "" && k.plan.detail < 3 {
		h, _ = k.Block("source", at, y, ink.Style{Size: k.small, Colour: ink.Faint}, ink.Block{Width: room, MaxLines: k.lines(2), Shorten: true}, src)
		y += h
	}
	y += 1.5 * k.u
	shown := s.positions
	if k.plan.detail >= 3 && len(shown) > cardMostPositions {
		shown = shown[:cardMostPositions]
	}
	value, slot := k.valueWidth(s), x+ring/2
	mids := make([]float64, len(shown))
	for i := range shown {
		mids[i] = y + ink.BlockHeight(t, 1)/2
		y = k.position(x, y, w, value, &shown[i]) + k.rowGap()
	}
	if n := len(mids); n > 1 {
		k.Line("slot", slot, mids[0], slot, mids[n-1], ink.Paint{Line: ink.Ink, Width: 0.9 * k.u})
	}
	for i := range shown {
		k.dot(slot, mids[i], &shown[i])
	}
	if n := len(s.positions) - len(shown); n > 0 {
		h, _ = k.Block("more positions", at, y, ink.Style{Size: k.small, Colour: ink.Faint}, ink.Block{Width: room, MaxLines: 1, Shorten: true}, phrase.CardMorePositions(n))
		y += h
	}
	return y
}

// lines is how many lines a text may take that takes n where there is room.
func (k *card) lines(n int) int {
	if k.plan.detail >= 2 {
		return 1
	}
	return n
}

func (k *card) rowGap() float64 {
	if k.plan.detail >= 2 {
		return 0
	}
	return 1.2 * k.u
}

// valueWidth is the width that the values of a switch take.
func (k *card) valueWidth(s *cardSwitch) float64 {
	w := ink.Width("2012", k.plan.text, ink.Regular)
	for i := range s.positions {
		if s.positions[i].zone == "" {
			w = max(w, ink.Width(phrase.CardValue(s.positions[i].low, s.positions[i].high), k.plan.text, ink.Regular))
		}
	}
	return w
}

// dot marks a position on the slot: full where the craft is armed or does something, empty where it does nothing.
func (k *card) dot(x, y float64, p *cardPosition) {
	r := k.plan.text * 0.26
	paint := ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 0.9 * k.u}
	if p.does[0].tone == armedTone {
		r *= 1.45
		paint.Fill = ink.Ink
	}
	k.Circle("place", x, y, r, paint)
}

// deedText joins what the craft does at a position. Where it is armed or disarmed the word stands apart, before.
func deedText(p *cardPosition) (word string, t tone, rest string) {
	for i, d := range p.does {
		switch {
		case i == 0 && (d.tone == armedTone || d.tone == disarmedTone):
			word, t = d.text, d.tone
		case rest != "":
			rest += " + " + d.text
		default:
			rest = d.text
		}
	}
	if word != "" && rest != "" {
		rest = "+ " + rest
	}
	return word, t, rest
}

// position writes one position: its value, and what the craft does there. It gives where it ends.
func (k *card) position(x, y, w, value float64, p *cardPosition) float64 {
	t := k.plan.text
	at := x + k.badgeSize() + 4*k.u
	right := x + w
	if p.zone != "" {
		box := k.Text("zone", at, y, ink.Style{Size: t, Anchor: ink.Top}, p.zone)
		at = box.Right() + t*0.6
	} else {
		k.Text("value", at+value, y, ink.Style{Size: t, Anchor: ink.Right | ink.Top}, phrase.CardValue(p.low, p.high))
		at += value + t*0.6
	}
	word, state, rest := deedText(p)
	if word != "" {
		style := ink.Style{Size: t, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Armed, State: true}
		if state == disarmedTone {
			style = ink.Style{Size: t, Anchor: ink.Top, Colour: ink.Disarmed, State: true}
		}
		box := k.Text("state", at, y, style, word)
		if rest == "" {
			return y + ink.BlockHeight(t, 1)
		}
		if box.Right()+t*0.4+ink.Width(rest, t, ink.Regular) <= right {
			k.Text("does", box.Right()+t*0.4, y, ink.Style{Size: t, Anchor: ink.Top}, rest)
			return y + ink.BlockHeight(t, 1)
		}
		y += ink.LineHeight(t)
	}
	style := ink.Style{Size: t}
	if p.does[0].tone == idleTone {
		style.Colour = ink.Faint
	}
	h, _ := k.Block("does", at, y, style, ink.Block{Width: right - at, MaxLines: k.lines(4), Shorten: true}, rest)
	return y + h
}
