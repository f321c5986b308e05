package card

import (
	"math"
	"strconv"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
)

// sizes are those of what hands do: of the words that a person must find at once, and of the rest, in points.
type sizes struct{ largeMost, largeLeast, textMost, textLeast float64 }

// hands draws what hands do into a place, in the largest words with which all of it stands there; large ones count most (ours: a point of them
// makes up for half a point of the others).
func (k *card) hands(r ink.Rect, z sizes) {
	away := *k
	away.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
	below := func(large, text float64) (left float64, fits bool) {
		away.Reset(k.W, k.H, k.Scale, k.Theme)
		away.plan.text, away.plan.sentences = text, text
		c := away.at(r)
		fits = c.holds(large) && c.y <= r.Bottom()
		return r.Bottom() - c.y, fits
	}
	step, best, large, text := max(1, math.Floor(k.u/4)), 0.0, k.TextSize(z.largeLeast), k.TextSize(z.textLeast)
	for t := k.TextSize(z.textMost); t >= k.TextSize(z.textLeast); t -= step {
		for l := k.TextSize(z.largeMost); l >= k.TextSize(z.largeLeast) && l+2*t > best; l -= step {
			if _, fits := below(l, t); fits {
				best, large, text = l+2*t, l, t
				break
			}
		}
	}
	left, _ := below(large, text)
	one := *k
	one.plan.text, one.plan.sentences = text, text
	one.spare = min(max(0, left)/float64(max(len(k.words.holds), 1)), 12*k.u)
	one.at(r).holds(large)
}

// holds writes all that hands do; false where a word is wider than the column.
func (c *column) holds(large float64) (fits bool) {
	c.Group("hands")
	fits = true
	t := c.plan.text
	if c.words.cannot != "" {
		c.write("cannot-arm", c.words.cannot, 0, ink.Style{Size: math.Floor(t * 1.3), Weight: ink.Bold, Colour: ink.Refusal})
		c.y += t*0.5 + c.spare
	}
	for i := range c.words.holds {
		h := &c.words.holds[i]
		size := large
		if i > 0 || c.words.modeOnly {
			size = math.Floor(t * 1.25)
		}
		if c.words.cannot != "" && !c.words.modeOnly && i == 0 {
			continue // what would arm other radios
		}
		fits = c.hold(h, size) && fits
		if i == 0 && !c.words.modeOnly {
			c.write("first", c.words.first, 0, ink.Style{Size: t})
		}
		c.y += t*0.5 + c.spare
	}
	c.write("guessed", c.words.guessed, 0, ink.Style{Size: t})
	c.write("always-mode", c.words.fixed, 0, ink.Style{Size: t})
	c.write("absent", c.words.absent[0], 0, ink.Style{Size: t, Weight: ink.Bold, Colour: ink.Refusal})
	return fits
}

// hold writes what one control does: its number and name, and below each word with a small picture of the control beside it.
func (c *column) hold(h *hold, size float64) (fits bool) {
	t := c.plan.text
	if h.k != nil {
		ring := c.ring()
		c.badge(c.x+ring/2, c.y+ring/2, h.k.number)
		head := *c
		head.x, head.w = c.x+ring+3*c.u, c.w-ring-3*c.u
		head.y += (ring - ink.BlockHeight(t, 1)) / 2
		name := h.name
		if with := name + ": " + h.called; h.called != "" && ink.Width(with, t, ink.Bold) <= head.w {
			name = with
		}
		head.write("switch", name, 1, ink.Style{Size: t, Weight: ink.Bold})
		c.y = max(head.y, c.y+ring) + 1*c.u
	} else { // nothing stands above its first word, which is higher than the small picture beside it
		c.y += size * 0.1
	}
	fits = true
	for i := range h.ways {
		fits = c.way(h, &h.ways[i], size) && fits
	}
	return fits
}

// way writes one thing that hands do.
func (c *column) way(h *hold, w *way, size float64) (fits bool) {
	t := c.plan.text
	icon := ink.Rect{X: c.x, Y: c.y, W: size * 0.62, H: size * 0.94}
	if h.k == nil {
		icon.W = size * 1.8
	} else if x, _ := axis(h.k.Control); x != 0 {
		icon.W = size * 0.94
	}
	c.icon(icon, h.k, w)
	style, tell := ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Middle}, ink.Style{Size: t}
	switch w.tone {
	case armed:
		style.Colour, style.State = ink.Armed, true
	case disarmed:
		style.Colour, style.State = ink.Disarmed, true
	}
	if w.tone != plain { // where it goes must be found as soon as the word
		tell.Size = math.Floor(max(t, size*0.38))
	}
	gap := max(size*0.2, 2.5*c.u)
	x, right := icon.Right()+gap, c.x+c.w
	if w.tone == plain && ink.Width(w.word, size, ink.Bold) > right-x {
		long := column{c.card, x, c.y, right - x}
		long.write("way", w.word, 0, ink.Style{Size: t, Weight: ink.Bold})
		long.write("how", w.how, 0, tell)
		c.y = max(long.y, icon.Bottom()) + 1*c.u
		return true
	}
	word := c.Text("way", x, icon.Centre().Y, style, w.word)
	beside := column{c.card, word.Right() + gap, 0, right - word.Right() - gap}
	if n, all := ink.CountLines(w.how, beside.w, tell.Size, ink.Regular); beside.w > 0 && all && ink.BlockHeight(tell.Size, n) <= icon.H+1.5*c.u {
		beside.y = icon.Centre().Y - ink.BlockHeight(tell.Size, n)/2
		beside.write("how", w.how, 0, tell)
		c.y += max(icon.H, ink.BlockHeight(tell.Size, n)) + 1*c.u
		return word.Right() <= right
	}
	below := column{c.card, x, icon.Bottom() - 0.5*c.u, right - x}
	below.write("how", w.how, 0, tell)
	c.y = below.y + 1.5*c.u
	return word.Right() <= right
}

// axis is the way in which a control goes to its high end as its pilot sees it, 0, −1 for up; a place that is only guessed is drawn so.
func axis(k *handset.Control) (x, y float64) {
	if k.Spot.Guessed {
		return 0, -1
	}
	switch k.Spot.Way {
	case handset.GoesRight:
		return 1, 0
	case handset.GoesLeft:
		return -1, 0
	case handset.GoesDown:
		return 0, 1
	}
	return 0, -1
}

// turns tells whether a control is turned.
func turns(k *handset.Control) bool {
	return k.Kind == handset.Knob || k.Spot.Way == handset.TurnsClockwise || k.Spot.Way == handset.TurnsBack
}

// icon is a small picture of a control, its positions filled in which a thing is done; of sticks it is both wells.
func (k *card) icon(r ink.Rect, of *control, w *way) {
	line := ink.Paint{Line: ink.Ink, Width: max(0.5*k.u, r.H*0.035)}
	if of == nil {
		for i := range w.stand {
			well := r.Cell(i, 2, 1, r.H*0.12).Square()
			k.RoundRect("hand-well", well, well.W*0.16, ink.Paint{Line: ink.Rule, Width: line.Width})
			at := well.Centre()
			at.X += w.stand[i][0] * well.W * 0.3
			at.Y -= w.stand[i][1] * well.H * 0.3
			k.Circle("hand-stick", at.X, at.Y, well.W*0.15, ink.Paint{Fill: ink.Ink})
		}
		return
	}
	if of.Spot.Guessed {
		line.Dash = ink.Dash{On: 2 * line.Width, Off: 1.5 * line.Width}
	}
	c, n := r.Centre(), len(of.Positions)
	if of.Kind == handset.Knob || n == 0 {
		k.Circle("hand-knob", c.X, c.Y, min(r.W, r.H)*0.4, line)
		k.Circle("hand-place", c.X, c.Y, min(r.W, r.H)*0.12, ink.Paint{Fill: ink.Ink})
		return
	}
	dot := min(r.W, r.H) * 0.2
	place := func(i int) ink.Point {
		share := float64(i)/float64(max(n-1, 1)) - 0.5
		if turns(of.Control) {
			a := 1.5*math.Pi*share - math.Pi/2
			if of.Spot.Way == handset.TurnsBack {
				a = -math.Pi - a
			}
			return ink.Point{X: c.X + (min(r.W, r.H)/2-dot)*math.Cos(a), Y: c.Y + (min(r.W, r.H)/2-dot)*math.Sin(a)}
		}
		x, y := axis(of.Control)
		return ink.Point{X: c.X + x*share*(r.W-2.6*dot), Y: c.Y + y*share*(r.H-2.6*dot)}
	}
	if !turns(of.Control) {
		a, b := place(0), place(n-1)
		slot := ink.Rect{X: min(a.X, b.X) - 1.3*dot, Y: min(a.Y, b.Y) - 1.3*dot, W: math.Abs(a.X-b.X) + 2.6*dot, H: math.Abs(a.Y-b.Y) + 2.6*dot}
		k.RoundRect("hand-slot", slot, 1.3*dot, line)
	}
	small := min(dot, max(r.W, r.H)/float64(2*n+1))
	for i := range n {
		at := place(i)
		if i >= w.first && i <= w.last {
			k.Circle("hand-place", at.X, at.Y, small, ink.Paint{Fill: ink.Ink})
		} else {
			k.Circle("hand-place", at.X, at.Y, small*0.4, ink.Paint{Fill: ink.Rule})
		}
	}
}

// largest is how large a control is drawn for the height of the radio's face (ours: nearly as high as the shoulders).
const largest = 0.34

// radio draws the radio as it is, with the number of each control that says tells: the one that arms marked, and where it must go.
func (k *card) radio(r ink.Rect, size float64, titles bool, says func(number int) bool) {
	d := figure.Handheld(&k.words.Radio, k.words.speaker.say)
	d.Size, d.Pen, d.Largest = size, 0.8*k.u, largest
	if !titles {
		clear(d.Titles[:])
	}
	for i := range d.Controls {
		c := &d.Controls[i]
		c.Name, c.Number = "", ""
		if of := on(k.words.all, c.Channel); of != nil && says(of.number) {
			c.Number = strconv.Itoa(of.number)
			c.Name = c.Number
		}
		if c.Channel == k.words.Config.Layout.Arm && !facts.BySticks(&k.words.Config) && k.words.cannot == "" {
			k.markArm(c)
		}
	}
	if facts.BySticks(&k.words.Config) && k.words.cannot == "" {
		d.MarkStick(figure.JobFacts[figure.Yaw].Word, handheld.Moves, 1)
	}
	handheld.Draw(k.Page, r, d)
}

// markArm has the control that arms stand where the craft is disarmed, and point to where it arms.
func (k *card) markArm(c *handheld.Control) {
	of := on(k.words.all, c.Channel)
	c.Mark = handheld.Chosen
	if of == nil || of.Kind == handset.Knob || len(of.Positions) < 2 {
		return
	}
	off, arms := -1, -1
	for _, p := range of.positions {
		if p.does.Arm == layout.Inside {
			arms = max(arms, p.last)
		} else if off < 0 || p.first < off {
			off = p.first
		}
	}
	if off >= 0 && arms >= 0 {
		n := float64(len(of.Positions) - 1)
		c.Mark, c.At, c.To = handheld.Moves, float64(off)/n, float64(arms)/n
	}
}
