package card

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// column is a place of the card where one thing is written below the other: x and w are its place, y is where the next thing begins.
type column struct {
	*card
	x, y, w float64
}

// at begins a column at the top of a place, whose height does not count.
func (k *card) at(r ink.Rect) *column { return &column{k, r.X, r.Y, r.W} }

// write writes a text in at most so many lines, 0 for all that it takes; an empty one takes no room. Where it takes more, the card knows that it was
// cut.
func (c *column) write(name, text string, lines int, s ink.Style) {
	if text != "" {
		n, whole := ink.CountLines(text, c.w, s.Size, s.Weight)
		if !whole {
			lines = min(lines, 1) // a word wider than the column is cut, and not run beyond it
		}
		if lines > 0 && n > lines {
			*c.cut = true
		}
		h, _ := c.Block(name, c.x, c.y, s, ink.Block{Width: c.w, MaxLines: lines, Shorten: lines > 0}, text)
		c.y += h
	}
}

// heading writes a heading with a thin rule to the right edge.
func (c *column) heading(name, text string) {
	size := c.plan.sentences
	box := c.Text(name, c.x, c.y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Faint}, text)
	if from := box.Right() + 4*c.u; from < c.x+c.w {
		mid := box.Y + box.H*0.55
		c.Line(name+" rule", from, mid, c.x+c.w, mid, ink.Paint{Line: ink.Rule, Width: 0.5 * c.u})
	}
	c.y += ink.BlockHeight(size, 1) + 1.5*c.u
}

// section writes a section, its lines one below the other.
func (c *column) section(s *section) {
	c.Group(s.group)
	c.heading(s.group+" heading", s.heading)
	for i, l := range s.lines {
		if i > 0 {
			c.y += 2 * c.u
		}
		c.write(l.name, l.text, 0, ink.Style{Size: c.plan.sentences, Weight: l.weight, Colour: l.colour})
	}
}

// spread draws n things in their order in so many columns, the highest of which is as low as can be. What draws one moves the column that it
// is given; each is measured on a page of its own first.
func (c *column) spread(n, columns int, gap float64, draw func(c *column, i int)) {
	away := *c.card
	away.Page = ink.NewPage(c.W, c.H, c.Scale, c.Theme)
	heights := make([]float64, n)
	place := func(i int) ink.Rect { return (ink.Rect{X: c.x, Y: c.y, W: c.w}).Cell(i, columns, 1, c.gut) }
	for i := range heights {
		one := away.at(place(0))
		draw(one, i)
		heights[i] = one.y - c.y
	}
	low := c.y
	for i, some := range split(heights, columns, gap) {
		one := c.at(place(i))
		for n := some[0]; n < some[1]; n++ {
			if n > some[0] {
				one.y += gap
			}
			draw(one, n)
		}
		low = max(low, one.y)
	}
	c.y = low
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

// title heads the card: what it is and for whom, the craft's name, whose radio, the date.
func (c *column) title() {
	c.Group("title")
	right, large, head := c.x+c.w, c.plan.sentences*2.3, c.plan.sentences*1.15
	wide := c.w
	if c.words.day != "" {
		wide -= c.Text("date", right, c.y, ink.Style{Size: head, Anchor: ink.Right | ink.Top}, c.words.day).W + head
	}
	is, what := *c, c.words.title
	if c.words.Whom != "" {
		what += " " + c.words.whom
	}
	is.w = wide
	is.write("card", what, 0, ink.Style{Size: head, Weight: ink.Bold, Colour: ink.Faint})
	c.y = is.y
	size, _ := ink.Fit(c.w, c.plan.sentences*1.3, large, ink.Bold, c.words.Craft)
	c.write("craft", c.words.Craft, 3, ink.Style{Size: size, Weight: ink.Bold})
	c.write("whose-craft", c.words.craftOf, 0, ink.Style{Size: c.plan.sentences})
	c.write("whose-radio", c.words.radio, 0, ink.Style{Size: c.plan.sentences})
	c.y += 4 * c.u
	c.Line("title-rule", c.x, c.y, right, c.y, ink.Paint{Line: ink.Ink, Width: 1.2 * c.u})
	c.y += 2 * c.u
}

// proved writes in a few lines what a search found, or that nobody searched, and counts what the layout sheet calls out.
func (c *column) proved() {
	w := c.words
	c.section(&w.proved)
	most := [...]int{8, 8, 6, 4, 4, 4}[c.plan.detail]
	c.spread(min(len(w.broken), most), 2, 0, func(c *column, i int) {
		c.write("rule", "• "+w.broken[i], 1, ink.Style{Size: c.fine, Weight: ink.Bold, Colour: ink.Armed})
	})
	if left := len(w.broken) - most; left > 0 {
		c.write("rules-left", w.speaker.say(words.T("card.more-broken", words.Args{"n": words.Count(left)})), 0, ink.Style{Size: c.fine, Colour: ink.Faint})
	}
	c.write("warned", w.warned, 0, ink.Style{Size: c.plan.sentences, Weight: ink.Bold, Colour: ink.Refusal})
}

// foot writes at the lower edge what is to be signed and the cautions; it gives where it begins.
func (k *card) foot() float64 {
	away := *k
	away.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
	c := away.at(k.area)
	c.footing()
	high := c.y - k.area.Y
	foot, _ := k.area.CutBottom(high, 0)
	k.at(foot).footing()
	return foot.Y
}

func (c *column) footing() {
	c.Group("foot")
	c.toSign()
	c.y += c.plan.sentences * 0.6
	c.write("caution", c.words.cautions, 0, ink.Style{Size: c.fine})
}

// toSign draws what is to be filled in by hand after the test on the craft itself: what was tested, and by whom and when in a line of its own
// where there is no room to write in beside it.
func (c *column) toSign() {
	t := c.fine
	box, high, right := t*0.85, ink.BlockHeight(t, 1), c.x+c.w
	at := c.Text("to-sign", c.x, c.y, ink.Style{Size: t, Weight: ink.Bold, Anchor: ink.Top}, c.words.sign).Right() + t*0.8
	next := func(most float64) {
		if at > most {
			at = c.x
			c.y += high + 4*c.u
		}
	}
	for _, part := range c.words.parts {
		next(right - box - t*1.3 - ink.Width(part, t, ink.Regular))
		c.Rect("box-to-tick", ink.Rect{X: at, Y: c.y + high/2 - box/2, W: box, H: box}, ink.Paint{Line: ink.Ink, Width: 0.8 * c.u})
		at = c.Text("part-to-sign", at+box+t*0.35, c.y, ink.Style{Size: t, Anchor: ink.Top}, part).Right() + t*0.9
	}
	next(right - 120*c.u)
	half := (right - at - t) / 2
	for _, what := range c.words.names {
		from := c.Text("signed", at, c.y, ink.Style{Size: t, Anchor: ink.Top}, what).Right() + t*0.4
		c.Line("line-to-sign", from, c.y+high-1*c.u, at+half, c.y+high-1*c.u, ink.Paint{Line: ink.Ink, Width: 0.6 * c.u})
		at += half + t
	}
	c.y += high
}
