package card

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// Lengths of the page in points, 1/72 inch (ours). Printers leave a margin of 6 mm or less; 12 mm leave room for a pin.
const (
	margin = 34
	// least is the smallest text, most the largest size of running text, sentencesMost that of sentences.
	least         = 7.5
	most          = 13
	sentencesMost = 13.5
	// heroLeast is how high the drawn radio is at least, heroMore what it takes of the room that is left over.
	heroLeast, heroMore = 185, 120
)

// plan is one way of laying the page out.
type plan struct {
	// detail 0 has everything, 1 puts positions that do the same into one, 2 has fewer lines, 3 has one line a position and leaves out those
	// beyond the sixth and what sticks send, 5 also what the pilot calls a control.
	detail int
	// text is the size of text in pixels of the page; sentences that of headings and sentences, which may be larger.
	text, sentences float64
	// room is what is left over on the page in pixels, to be shared out.
	room float64
	// cut: texts may be shortened.
	cut bool
}

// levels are the plans in the order in which they are tried, each from its largest text to its least (ours): detail goes before the text gets
// small.
var levels = [...]struct {
	detail   int
	from, to float64
}{{0, most, 8.5}, {1, 10, least}, {2, 9, least}, {3, 9, least}, {4, 8.5, least}, {5, 8, least}}

// card is a switch card being drawn.
type card struct {
	*ink.Page
	words    *content
	plan     plan
	u        float64 // one point in pixels
	least    float64 // the smallest text in points
	small    float64 // text size of what matters less beside a switch
	fine     float64 // the same among the sentences
	gap, gut float64 // between sections, between columns
	spare    float64 // what is shared out between what hands do
	brief    bool    // what comes of a hover when the link is lost has no room
	trial    bool    // it is only measured
	cut      *bool   // a text on it was shortened
	area     ink.Rect
	frames   []ink.Rect // what is looked at closely, one after the other
}

// Print draws the page of the switch card in a language on a page whose Scale is pixels to the point (paper.Size.Page makes one). It takes the
// largest text and the most detail with which everything stands inside the margins, and gives the frames that it consists of.
func Print(p *ink.Page, book *words.Book, data *Data) (frames []ink.Rect) {
	c := speaker{book}.content(data)
	best := plan{}
	trial := ink.NewPage(p.W, p.H, p.Scale, p.Theme)
	for _, cut := range [...]bool{false, true} { // only names beyond all measure are cut
		for _, level := range levels {
			for text := p.TextSize(level.from); text >= p.TextSize(level.to); text-- {
				best = plan{detail: level.detail, text: text, sentences: text, cut: cut}
				if !best.fits(trial, c) {
					continue
				}
				for next := best; next.sentences < min(p.TextSize(sentencesMost), math.Floor(text*1.3)); {
					next.sentences++
					if next.fits(trial, c) {
						best = next
					}
				}
				k := newCard(p, c, best)
				k.draw()
				return k.frames
			}
		}
	}
	// Nothing fits whole; the densest plan shows what ink.Check then finds. A radio has at most twelve such controls, and
	// those fit.
	k := newCard(p, c, best)
	k.draw()
	return k.frames
}

// fits tells whether the card stands inside the margins by this plan, nothing on it cut that may not be, and notes what is left over.
func (l *plan) fits(trial *ink.Page, c *content) bool {
	trial.Reset(trial.W, trial.H, trial.Scale, trial.Theme)
	l.room = 0
	k := newCard(trial, c, *l)
	k.trial = true
	l.room = k.draw()
	return l.room >= 0 && (l.cut || !*k.cut)
}

func newCard(p *ink.Page, c *content, l plan) *card {
	k := &card{Page: p, words: c, plan: l, u: p.Scale, cut: new(bool), least: least, small: math.Floor(max(l.text*0.88, p.TextSize(least))), fine: math.Floor(max(l.sentences*0.86, p.TextSize(least)))}
	k.area = p.Bounds().Inset(margin * k.u)
	k.gap, k.gut = l.text*1.0, l.text*1.3
	return k
}

// list are the switches as the plan has them.
func (k *card) list() []lever { return k.words.levers[min(k.plan.detail, 1)] }

// draw draws the whole page, what is of most use first, and gives the height in pixels that is left over.
func (k *card) draw() (left float64) {
	foot := k.foot()
	c := k.at(k.area)
	c.title()
	k.gap += min(k.plan.room*0.1, 18*k.u) // the figure takes its part of the room where it is drawn
	c.y += k.gap * 0.6
	from := k.area.Y
	frame := func(upTo float64) {
		k.frames = append(k.frames, ink.Rect{X: k.area.X, Y: from, W: k.area.W, H: upTo - from}.Inset(-4*k.u))
		from = upTo
	}
	c.hero()
	frame(c.y)
	c.y += k.gap
	c.spread(2, 2, 0, func(c *column, i int) { c.section([...]*section{&c.words.loss, &c.words.arming}[i]) })
	frame(c.y)
	c.y += k.gap
	c.switches()
	frame(c.y)
	c.y += k.gap
	c.proved()
	frame(k.area.Bottom())
	return foot - k.gap - c.y
}

// hero draws the radio as it is, and beside it large what arms, what disarms and the modes.
func (c *column) hero() {
	high := heroLeast*c.u + min(c.plan.room*0.6, heroMore*c.u)
	r := ink.Rect{X: c.x, Y: c.y, W: c.w, H: high}
	c.y += high
	if c.trial {
		return // it takes the place that it is given
	}
	radio, hands := r.CutLeft(r.W*0.52, 14*c.u)
	c.card.radio(radio, c.TextSize(9), true, func(int) bool { return true })
	c.card.hands(hands, sizes{56, 16, 12, 9})
}
