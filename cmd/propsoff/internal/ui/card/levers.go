package card

import (
	"strconv"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// switches draws all switches under their heading, in as many columns as there is room for, and what the sticks send.
func (c *column) switches() {
	if all := c.list(); len(all) > 0 {
		c.Group("switches")
		c.heading("switches-heading", c.words.switches)
		between := 3 * c.u
		if c.plan.detail < 2 {
			between = c.plan.text*0.7 + min(c.plan.room*0.03, 8*c.u)
		}
		columns := min(len(all), max(1, int((c.w+c.gut)/(c.leverWidth(all)+c.gut))))
		c.spread(len(all), columns, between, func(c *column, i int) { c.lever(&all[i]) })
		c.y += c.gap * 0.5
	}
	if c.plan.detail < 3 {
		c.Group("sticks")
		place, low := ink.Rect{X: c.x, Y: c.y, W: c.w}, c.y
		for i, stick := range c.words.sticks {
			one := c.at(place.Cell(i, len(c.words.sticks), 1, c.gut*0.6))
			one.write("stick", stick.name, 0, ink.Style{Size: c.small, Weight: ink.Bold})
			one.write("travel", stick.travel, 0, ink.Style{Size: c.small})
			low = max(low, one.y)
		}
		c.y = low + c.gap*0.5
	}
	if c.plan.detail < 5 {
		c.write("up", c.words.up, 0, ink.Style{Size: c.small, Colour: ink.Faint})
	}
}

// leverWidth is the width of a column of switches: what their words take in one line, within bounds.
func (k *card) leverWidth(all []lever) float64 {
	t, need := k.plan.text, 0.0
	for i := range all {
		need = max(need, ink.Width(all[i].name, t, ink.Bold))
		value := k.valueWidth(&all[i])
		for _, r := range all[i].rows {
			w := value + t*0.6 + ink.Width(r.rest, t, ink.Regular)
			if r.state != "" {
				w += ink.Width(r.state, t, ink.Bold) + t*0.4
			}
			need = max(need, w)
		}
	}
	return ui.Clamp(need+k.ring()+6*k.u, t*11, t*15)
}

// valueWidth is the width that the values of a switch take. Those of a knob stand each by itself, for they differ much.
func (k *card) valueWidth(l *lever) float64 {
	w := ink.Width("2012", k.plan.text, ink.Regular)
	for _, r := range l.rows {
		w = max(w, ink.Width(r.value, k.plan.text, ink.Regular))
	}
	return w
}

// ring is how wide the circle is that the number of a switch stands in.
func (k *card) ring() float64 { return 1.8 * k.badgeSize() }

// badgeSize is the size of the number in it.
func (k *card) badgeSize() float64 { return max(k.plan.text*0.9, k.Px(k.least)) }

// badge draws the number of a switch in its circle.
func (k *card) badge(x, y float64, number int) {
	k.Circle("number-ring", x, y, k.ring()/2, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 0.8 * k.u})
	k.Text("number", x, y, ink.Style{Size: k.badgeSize(), Weight: ink.Bold, Anchor: ink.Centre | ink.Middle}, strconv.Itoa(number))
}

// atMost is how many lines a text may take that takes n where there is room.
func (k *card) atMost(n int) int {
	if k.plan.detail >= 2 {
		return 1
	}
	return n
}

// lever draws one switch: its number, what it is for, what carries it, and a slot with its positions; beside each its value and what the
// craft does.
func (c *column) lever(l *lever) {
	t, ring := c.plan.text, c.ring()
	c.badge(c.x+ring/2, c.y+ring/2, l.number)
	head := *c
	head.x, head.w = c.x+ring+4*c.u, c.w-ring-4*c.u
	head.y += (ring - ink.BlockHeight(t, 1)) / 2
	head.write("switch", l.name, c.atMost(3), ink.Style{Size: t, Weight: ink.Bold})
	head.y = max(c.y+ring, head.y)
	if c.plan.detail < 5 {
		head.write("called", l.called, c.atMost(4), ink.Style{Size: c.small})
	}
	if c.plan.detail < 3 {
		head.write("source", l.source, c.atMost(3), ink.Style{Size: c.small, Colour: ink.Faint})
	}
	head.y += 1.5 * c.u
	rows, more := l.rows, ""
	if c.plan.detail >= 3 && l.more != "" {
		rows, more = rows[:mostRows], l.more
	}
	value, slot := c.valueWidth(l), c.x+ring/2
	mids := make([]float64, len(rows))
	for i := range rows {
		mids[i] = head.y + ink.BlockHeight(t, 1)/2
		head.row(&rows[i], l.knob, value)
		if c.plan.detail < 2 {
			head.y += 1.2 * c.u
		}
	}
	if n := len(mids); n > 1 {
		c.Line("slot", slot, mids[0], slot, mids[n-1], ink.Paint{Line: ink.Ink, Width: 0.9 * c.u})
	}
	for i, r := range rows { // a full dot where the craft is armed
		size, paint := t*0.26, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 0.9 * c.u}
		if r.tone == armed {
			size, paint.Fill = size*1.45, ink.Ink
		}
		c.Circle("place", slot, mids[i], size, paint)
	}
	head.write("more-positions", more, 1, ink.Style{Size: c.small, Colour: ink.Faint})
	c.y = head.y
}

// row writes one position: its value, and what the craft does there, beside or below the word for whether it is armed.
func (c *column) row(r *row, knob bool, value float64) {
	t := c.plan.text
	does, right := *c, c.x+c.w
	if knob {
		does.x = c.Text("zone", c.x, c.y, ink.Style{Size: t, Anchor: ink.Top}, r.value).Right() + t*0.6
	} else {
		c.Text("value", c.x+value, c.y, ink.Style{Size: t, Anchor: ink.Right | ink.Top}, r.value)
		does.x += value + t*0.6
	}
	does.w = right - does.x
	if r.state != "" {
		style := ink.Style{Size: t, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Armed, State: true}
		if r.tone == disarmed {
			style.Weight, style.Colour = ink.Regular, ink.Disarmed
		}
		word := c.Text("state", does.x, c.y, style, r.state)
		if x := word.Right() + t*0.4; r.rest == "" || x+ink.Width(r.rest, t, ink.Regular) <= right {
			if r.rest != "" {
				c.Text("does", x, c.y, ink.Style{Size: t, Anchor: ink.Top}, r.rest)
			}
			c.y += ink.BlockHeight(t, 1)
			return
		}
		does.y += ink.LineHeight(t)
	}
	style := ink.Style{Size: t}
	if r.tone == idle {
		style.Colour = ink.Faint
	}
	does.write("does", r.rest, [...]int{4, 4, 3, 1, 1, 1}[c.plan.detail], style)
	c.y = does.y
}
