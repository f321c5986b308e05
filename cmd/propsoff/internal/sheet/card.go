package sheet

import (
	"math"
	"slices"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/handset"
)

// Lengths of the card in points, 1/72 inch (ours). Printers leave a margin of 6 mm or less; 12 mm leave room for a pin.
const (
	cardMargin = 34
	// cardLeast is the smallest text, cardMost the largest size of running text.
	cardLeast = 7.5
	cardMost  = 13
	// cardWordsMost is the largest size of sentences.
	cardWordsMost = 13.5
	// cardRadioMost is the widest that the radio is drawn.
	cardRadioMost = 300
)

// cardPlan is one way of laying the card out. The first plan is tried first; each next one is denser.
type cardPlan struct {
	// beside puts the switches of each side beside the radio; else they stand below it, and the sentences beside it.
	beside bool
	// detail 0 has everything, 1 puts positions that do the same into one, 2 has one line a position and leaves out rules that
	// hold, 3 leaves out positions beyond the sixth, 4 also what to set, which the sheet of the search tells.
	detail int
	// text is the size of text in pixels of the page; words that of headings and sentences, which may be larger.
	text, words float64
	// room is what is left over on the page in pixels, to be shared out.
	room float64
}

// cardLevels are the plans in the order in which they are tried, each from its largest text to its least (ours): switches
// stand beside the radio where that leaves the text readable from a step away, and detail goes before the text gets small.
var cardLevels = [...]struct {
	beside      bool
	detail      int
	most, least float64
}{
	{true, 0, cardMost, 9.5}, {false, 0, cardMost, 9.5}, {true, 0, 9.5, 8.5}, {false, 0, 9.5, 8.5}, {true, 1, 10, 8.5}, {false, 1, 10, 8.5},
	{true, 1, 8.5, cardLeast}, {false, 1, 8.5, cardLeast}, {true, 2, 9, cardLeast}, {false, 2, 9, cardLeast}, {true, 3, 9, cardLeast}, {false, 3, 9, cardLeast},
	{true, 4, 8.5, cardLeast}, {false, 4, 8.5, cardLeast},
}

// card is a switch card being drawn.
type card struct {
	*ink.Page
	c        *CardData
	plan     cardPlan
	all      []cardSwitch
	u        float64 // one point in pixels
	small    float64 // text size of what matters less beside a switch
	fine     float64 // the same among the sentences
	gap, gut float64 // between sections, between columns
	area     ink.Rect
}

// PrintCard draws the switch card on a page whose Scale is pixels to the point (paper.Size.Page makes one). It takes
// the largest text and the most detail with which everything stands inside the margins.
func PrintCard(p *ink.Page, c *CardData) {
	best := cardPlan{}
	trial := ink.NewPage(p.W, p.H, p.Scale, p.Theme)
	for _, level := range cardLevels {
		for text := p.TextSize(level.most); text >= p.TextSize(level.least); text-- {
			best = cardPlan{beside: level.beside, detail: level.detail, text: text, words: text}
			if !best.fits(trial, c) {
				continue
			}
			for next := best; next.words < min(p.TextSize(cardWordsMost), math.Floor(text*1.3)); {
				next.words++
				if next.fits(trial, c) {
					best = next
				}
			}
			newCard(p, c, best).draw()
			return
		}
	}
	// Nothing fits whole; the densest plan shows what ink.Check then finds. A radio has at most twelve such controls, and
	// those fit.
	newCard(p, c, best).draw()
}

// fits tells whether the card stands inside the margins by this plan, and notes what is left over.
func (l *cardPlan) fits(trial *ink.Page, c *CardData) bool {
	trial.Reset(trial.W, trial.H, trial.Scale, trial.Theme)
	l.room = 0
	left, ok := newCard(trial, c, *l).draw()
	l.room = left
	return ok && left >= 0
}

func newCard(p *ink.Page, c *CardData, plan cardPlan) *card {
	k := &card{Page: p, c: c, plan: plan, u: p.Scale, small: max(plan.text*0.88, p.TextSize(cardLeast)), all: c.switches(plan.detail > 0)}
	k.small = math.Floor(k.small)
	k.fine = math.Floor(max(plan.words*0.86, p.TextSize(cardLeast)))
	k.area = p.Bounds().Inset(cardMargin * k.u)
	k.gap, k.gut = plan.text*1.0, plan.text*1.3
	return k
}

// width is the width of a column of switches: what their words take in one line, within bounds.
func (k *card) width(all []cardSwitch) float64 {
	t := k.plan.text
	need := 0.0
	for i := range all {
		s := &all[i]
		need = max(need, ink.Width(phrase.CardSwitch(s.control.Job), t, ink.Bold))
		for n := range s.positions {
			word, _, rest := deedText(&s.positions[n])
			w := ink.Width(rest, t, ink.Regular) + t*0.6 + max(k.valueWidth(s), ink.Width(s.positions[n].zone, t, ink.Regular))
			if word != "" {
				w += ink.Width(word, t, ink.Bold) + t*0.4
			}
			need = max(need, w)
		}
	}
	return clamp(need+k.badgeSize()+6*k.u, t*11, t*15)
}

// on gives the switches of a side.
func (k *card) on(side handset.Side) (out []cardSwitch) {
	for _, s := range k.all {
		if s.control.Side == side {
			out = append(out, s)
		}
	}
	return out
}

// draw draws the whole card and gives the height in pixels that is left over; ok is false where the plan is not for this
// radio.
func (k *card) draw() (left float64, ok bool) {
	foot := k.foot()
	y := k.title(k.area.X, k.area.Y, k.area.W)
	k.shareRoom()
	y += k.gap
	if k.plan.beside {
		y, ok = k.drawBeside(y)
	} else {
		y, ok = k.drawBelow(y)
	}
	y = k.proved(k.area.X, y+k.gap, k.area.W)
	return foot - k.gap - y, ok
}

// shareRoom spreads what is left over between the sections; the radio takes its part where it is drawn.
func (k *card) shareRoom() { k.gap += min(k.plan.room*0.12, 22*k.u) }

// drawBeside sets the switches of the left and right side beside the radio, the others in rows of their own.
func (k *card) drawBeside(y float64) (below float64, ok bool) {
	left, right := k.on(handset.Left), k.on(handset.Right)
	if len(left)+len(right) == 0 {
		return y, false
	}
	y = k.band(handset.Top, ink.Rect{X: k.area.X, Y: y, W: k.area.W})
	w := k.width(slices.Concat(left, right))
	side := func(s []cardSwitch) float64 {
		if len(s) == 0 {
			return 0
		}
		return w + k.gut
	}
	middle := k.area.W - side(left) - side(right)
	least := max(k.radioLeast(), 180*k.u)
	if middle < least {
		return y, false
	}
	if most := cardRadioMost * k.u; middle > most && len(left) > 0 && len(right) > 0 {
		w += (middle - most) / 2
		middle = most
	}
	l := k.column(handset.Left, k.area.X, y, w, left)
	r := k.column(handset.Right, k.area.Right()-w, y, w, right)
	wide := min(middle, cardRadioMost*k.u)
	x := k.area.X + side(left) + (k.area.W-side(left)-side(right)-wide)/2
	if len(left) > 0 && len(right) > 0 {
		x = k.area.Centre().X - wide/2
	}
	high := max(wide*0.64, min(max(l, r)-y, wide*0.9))
	high = min(high+k.plan.room*0.35, wide*0.86)
	radio := ink.Rect{X: x, Y: y, W: wide, H: high}
	if beside := max(l, r) - y; beside > high {
		radio.Y += (beside - high) / 2
	}
	k.radio(radio)
	y = max(l, r, radio.Bottom()) + k.gap
	y = k.band(handset.NoSide, ink.Rect{X: k.area.X, Y: y, W: k.area.W})
	half := (k.area.W - k.gut) / 2
	a := k.armingRule(k.area.X, y, half)
	b := k.loss(k.area.X+half+k.gut, y, half)
	return max(a, b), true
}

// drawBelow sets the sentences beside the radio and all switches below it.
func (k *card) drawBelow(y float64) (below float64, ok bool) {
	wide := k.area.W * 0.5
	x := k.area.X + wide + k.gut
	a := k.armingRule(x, y, k.area.Right()-x)
	b := k.loss(x, a+k.gap, k.area.Right()-x)
	high := max(wide*0.58, min(b-y, wide*0.74))
	high = min(high+k.plan.room*0.3, wide*0.74)
	if k.plan.detail >= 2 {
		high = max(wide*0.45, b-y)
	}
	k.radio(ink.Rect{X: k.area.X, Y: y, W: wide, H: high})
	y = max(b, y+high) + k.gap
	y = k.band(handset.Top, ink.Rect{X: k.area.X, Y: y, W: k.area.W})
	left, right := k.on(handset.Left), k.on(handset.Right)
	switch l, r := (ink.Rect{X: k.area.X, Y: y, W: (k.area.W - k.gut) / 2}), (ink.Rect{X: k.area.Centre().X + k.gut/2, Y: y, W: (k.area.W - k.gut) / 2}); {
	case len(left) > 0 && len(right) > 0:
		y = max(k.band(handset.Left, l), k.band(handset.Right, r))
	case len(left) > 0 || len(right) > 0:
		r.X, r.W = k.area.X, k.area.W
		y = max(k.band(handset.Left, r), k.band(handset.Right, r))
	}
	return k.band(handset.NoSide, ink.Rect{X: k.area.X, Y: y, W: k.area.W}) - k.gap, true
}

// title heads the card: what it is, the craft's name, whose radio, the date. It gives where it ends.
func (k *card) title(x, y, w float64) float64 {
	k.Group("title")
	right := x + w
	large, head := k.plan.words*2.3, k.plan.words*1.15
	date := phrase.CardDate(k.c.Date)
	dated := ink.Style{Size: head, Anchor: ink.Right | ink.Top, Colour: ink.Ink}
	k.Text("card", x, y, ink.Style{Size: head, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Faint}, phrase.CardTitle())
	if k.c.Date != "" {
		k.Text("date", right, y, dated, date)
	}
	y += ink.BlockHeight(head, 1)
	size, _ := ink.Fit(w, k.plan.words*1.3, large, ink.Bold, k.c.Craft)
	h, _ := k.Block("craft", x, y, ink.Style{Size: size, Weight: ink.Bold}, ink.Block{Width: w, MaxLines: 1, Shorten: true}, k.c.Craft)
	y += h
	h, _ = k.Block("whose radio", x, y, ink.Style{Size: k.plan.words}, ink.Block{Width: w, MaxLines: 2, Shorten: true}, phrase.CardRadio(&k.c.Radio, k.c.Given))
	y += h
	if len(k.all) > 0 {
		h, _ = k.Block("up", x, y, ink.Style{Size: k.fine}, ink.Block{Width: w}, phrase.CardUp())
		y += h
	}
	y += 4 * k.u
	k.Line("title rule", x, y, right, y, ink.Paint{Line: ink.Ink, Width: 1.2 * k.u})
	return y + 2*k.u
}

// heading writes a heading with a thin rule to the right edge, and gives where it ends.
func (k *card) heading(name string, x, y, w float64, text string) float64 {
	size := k.plan.words
	box := k.Text(name, x, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Faint}, text)
	if from := box.Right() + 4*k.u; from < x+w {
		mid := box.Y + box.H*0.55
		k.Line(name+" rule", from, mid, x+w, mid, ink.Paint{Line: ink.Rule, Width: 0.5 * k.u})
	}
	return y + ink.BlockHeight(size, 1) + 1.5*k.u
}
