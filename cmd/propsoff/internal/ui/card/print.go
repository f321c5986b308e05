package card

import (
	"math"
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/sim/handset"
)

// Lengths of the card in points, 1/72 inch (ours). Printers leave a margin of 6 mm or less; 12 mm leave room for a pin.
const (
	margin = 34
	// least is the smallest text, most the largest size of running text, sentencesMost that of sentences.
	least         = 7.5
	most          = 13
	sentencesMost = 13.5
	// radioMost is the widest that the radio is drawn.
	radioMost = 300
)

// plan is one way of laying the card out.
type plan struct {
	// beside puts the switches of each side beside the radio; else they stand below it, and the sentences beside it.
	beside bool
	// detail 0 has everything, 1 puts positions that do the same into one, 2 has fewer lines and leaves out rules that hold, 3 has one line a
	// position and leaves out those beyond the sixth, 4 also what to set, which the sheet of the search tells, 5 also what the pilot calls a control.
	detail int
	// text is the size of text in pixels of the page; sentences that of headings and sentences, which may be larger.
	text, sentences float64
	// room is what is left over on the page in pixels, to be shared out.
	room float64
}

// levels are the plans in the order in which they are tried, each from its largest text to its least (ours): switches stand beside the
// radio where that leaves the text readable from a step away, and detail goes before the text gets small.
var levels = [...]struct {
	beside   bool
	detail   int
	from, to float64
}{
	{true, 0, most, 9.5}, {false, 0, most, 9.5}, {true, 0, 9.5, 8.5}, {false, 0, 9.5, 8.5}, {true, 1, 10, 8.5}, {false, 1, 10, 8.5},
	{true, 1, 8.5, least}, {false, 1, 8.5, least}, {true, 2, 9, least}, {false, 2, 9, least}, {true, 3, 9, least}, {false, 3, 9, least},
	{true, 4, 8.5, least}, {false, 4, 8.5, least}, {true, 5, 8, least}, {false, 5, 8, least},
}

// card is a switch card being drawn.
type card struct {
	*ink.Page
	words    *content
	plan     plan
	u        float64 // one point in pixels
	small    float64 // text size of what matters less beside a switch
	fine     float64 // the same among the sentences
	gap, gut float64 // between sections, between columns
	area     ink.Rect
}

// Print draws the switch card in a language on a page whose Scale is pixels to the point (paper.Size.Page makes one). It takes the largest
// text and the most detail with which everything stands inside the margins.
func Print(p *ink.Page, book *words.Book, data *Data) {
	c := speaker{book}.content(data)
	best := plan{}
	trial := ink.NewPage(p.W, p.H, p.Scale, p.Theme)
	for _, level := range levels {
		for text := p.TextSize(level.from); text >= p.TextSize(level.to); text-- {
			best = plan{beside: level.beside, detail: level.detail, text: text, sentences: text}
			if !best.fits(trial, c) {
				continue
			}
			for next := best; next.sentences < min(p.TextSize(sentencesMost), math.Floor(text*1.3)); {
				next.sentences++
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
func (l *plan) fits(trial *ink.Page, c *content) bool {
	trial.Reset(trial.W, trial.H, trial.Scale, trial.Theme)
	l.room = 0
	left, ok := newCard(trial, c, *l).draw()
	l.room = left
	return ok && left >= 0
}

func newCard(p *ink.Page, c *content, l plan) *card {
	k := &card{Page: p, words: c, plan: l, u: p.Scale, small: math.Floor(max(l.text*0.88, p.TextSize(least))), fine: math.Floor(max(l.sentences*0.86, p.TextSize(least)))}
	k.area = p.Bounds().Inset(margin * k.u)
	k.gap, k.gut = l.text*1.0, l.text*1.3
	return k
}

// on gives the switches of a side.
func (k *card) on(side handset.Side) []lever { return k.words.levers[min(k.plan.detail, 1)][side] }

// draw draws the whole card and gives the height in pixels that is left over; ok is false where the plan is not for this
// radio.
func (k *card) draw() (left float64, ok bool) {
	foot := k.foot()
	c := k.at(k.area)
	c.title()
	k.gap += min(k.plan.room*0.12, 22*k.u) // the radio takes its part of the room where it is drawn
	c.y += k.gap
	if k.plan.beside {
		ok = c.beside()
	} else {
		c.below()
		ok = true
	}
	c.y += k.gap
	c.proved()
	return foot - k.gap - c.y, ok
}

// beside sets the switches of the left and right side beside the radio, the others in rows of their own.
func (c *column) beside() bool {
	left, right := c.on(handset.Left), c.on(handset.Right)
	if len(left)+len(right) == 0 {
		return false
	}
	c.band(handset.Top)
	one := c.leverWidth(slices.Concat(left, right))
	wide := [2]float64{} // what each side takes, with the gap to the radio
	for i, s := range [...][]lever{left, right} {
		if len(s) > 0 {
			wide[i] = one + c.gut
		}
	}
	middle := c.w - wide[0] - wide[1]
	if middle < max(c.radioLeast(), 180*c.u) {
		return false
	}
	both := len(left) > 0 && len(right) > 0
	if most := radioMost * c.u; middle > most && both {
		one += (middle - most) / 2
		middle = most
	}
	low := c.y
	for i, side := range [...]handset.Side{handset.Left, handset.Right} {
		s := c.at(ink.Rect{X: c.x + float64(i)*(c.w-one), Y: c.y, W: one})
		s.side(side, 1)
		low = max(low, s.y)
	}
	radio := ink.Rect{Y: c.y, W: min(middle, radioMost*c.u)}
	radio.X = c.x + wide[0] + (middle-radio.W)/2
	if both {
		radio.X = c.x + (c.w-radio.W)/2
	}
	radio.H = max(radio.W*0.64, min(low-c.y, radio.W*0.9))
	radio.H = min(radio.H+c.plan.room*0.35, radio.W*0.86)
	radio.Y += max(0, low-c.y-radio.H) / 2
	c.radio(radio)
	c.y = max(low, radio.Bottom()) + c.gap
	c.band(handset.NoSide)
	c.spread(2, 2, 0, func(c *column, i int) { c.section([...]*section{&c.words.arming, &c.words.loss}[i]) })
	return true
}

// below sets the sentences beside the radio and all switches below it.
func (c *column) below() {
	radio := ink.Rect{X: c.x, Y: c.y, W: c.w * 0.5}
	s := c.at(ink.Rect{X: radio.Right() + c.gut, Y: c.y, W: c.w - radio.W - c.gut})
	s.section(&c.words.arming)
	s.y += c.gap
	s.section(&c.words.loss)
	high := s.y - c.y
	radio.H = max(radio.W*0.58, min(high, radio.W*0.74))
	radio.H = min(radio.H+c.plan.room*0.3, radio.W*0.74)
	if c.plan.detail >= 2 {
		radio.H = max(radio.W*0.45, high)
	}
	c.radio(radio)
	c.y = max(s.y, radio.Bottom()) + c.gap
	c.band(handset.Top)
	var sides []handset.Side
	for _, side := range [...]handset.Side{handset.Left, handset.Right} {
		if len(c.on(side)) > 0 {
			sides = append(sides, side)
		}
	}
	low := c.y
	for i, side := range sides {
		half := c.at((ink.Rect{X: c.x, Y: c.y, W: c.w}).Cell(i, len(sides), 1, c.gut))
		half.band(side)
		low = max(low, half.y)
	}
	c.y = low
	c.band(handset.NoSide)
	c.y -= c.gap
}
