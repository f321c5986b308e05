package card

import (
	"math"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
)

// The bank-card in millimetres: the format ID-1 of ISO/IEC 7810 (width and height; the radius of its corners from memory). Front and back lie
// side by side and share the line along which they are folded.
const (
	bankWidth  = 85.6
	bankHeight = 54.0
	bankRadius = 3.18
)

// Other lengths on its sheet in millimetres (ours).
const (
	bankTop    = 42.0 // from the upper edge of the paper
	bankInset  = 2.7  // from the edge of the card to what stands on it
	markAway   = 2.0  // from the edge of the card to the marks
	markLong   = 6.0
	trueLength = 50.0 // of the line by which the size is checked
)

// bankLeast is the smallest text of the bank-card in points.
const bankLeast = 6

// BankDPI is how many pixels of the bank-card's sheet make an inch.
const BankDPI = 600

// PrintBank draws the bank-card on a sheet of paper to be cut out of it, its front and its back side by side, and gives the two.
func PrintBank(p *ink.Page, book *words.Book, data *Data) (frames []ink.Rect) {
	c := speaker{book}.content(data)
	k := &card{Page: p, words: c, u: p.Scale, least: bankLeast, cut: new(bool)}
	mm := p.Scale * 72 / 25.4
	both := ink.Rect{X: p.W/2 - bankWidth*mm, Y: bankTop * mm, W: 2 * bankWidth * mm, H: bankHeight * mm}
	front, back := both.CutLeft(bankWidth*mm, 0)
	k.marks(both, mm)
	k.Group("edge")
	k.RoundRect("card-edge", both, bankRadius*mm, ink.Paint{Line: ink.Rule, Width: 0.5 * k.u})
	k.front(front.Inset(bankInset * mm))
	k.back(back.Inset(bankInset * mm))
	return []ink.Rect{front, back}
}

// marks draws what leads scissors and fold, outside the card, and what a person must know of them.
func (k *card) marks(both ink.Rect, mm float64) {
	k.Group("marks")
	thin := ink.Paint{Line: ink.Ink, Width: 0.5 * k.u}
	for _, x := range [...]float64{both.X, both.Right()} {
		k.Line("cut-mark", x, both.Y-(markAway+markLong)*mm, x, both.Y-markAway*mm, thin)
		k.Line("cut-mark", x, both.Bottom()+markAway*mm, x, both.Bottom()+(markAway+markLong)*mm, thin)
	}
	for _, y := range [...]float64{both.Y, both.Bottom()} {
		k.Line("cut-mark", both.X-(markAway+markLong)*mm, y, both.X-markAway*mm, y, thin)
		k.Line("cut-mark", both.Right()+markAway*mm, y, both.Right()+(markAway+markLong)*mm, y, thin)
	}
	say := func(text words.Text) string { return k.words.speaker.say(text) }
	size := k.TextSize(8)
	middle := both.Centre().X
	fold := thin
	fold.Dash = ink.Dash{On: 1.6 * mm, Off: 1.2 * mm}
	k.Line("fold-line", middle, both.Y-(markAway+markLong)*mm, middle, both.Bottom()+(markAway+markLong)*mm, fold)
	k.Text("fold", middle+1.5*mm, both.Y-(markAway+markLong*0.7)*mm, ink.Style{Size: size, Anchor: ink.Middle}, say(words.T("card.fold")))
	k.Text("cut", both.X+1.5*mm, both.Y-(markAway+markLong*0.7)*mm, ink.Style{Size: size, Anchor: ink.Middle}, say(words.T("card.cut")))

	below := &column{k, both.X, both.Bottom() + (markAway+markLong+4)*mm, both.W}
	size = k.TextSize(10)
	below.write("bank-how", say(words.T("card.bank-how")), 0, ink.Style{Size: size})
	below.y += 5 * mm
	k.Line("true-line", both.X, below.y, both.X+trueLength*mm, below.y, thin)
	for _, x := range [...]float64{both.X, both.X + trueLength*mm} {
		k.Line("true-end", x, below.y-1.2*mm, x, below.y+1.2*mm, thin)
	}
	k.Text("true", both.X+(trueLength+2)*mm, below.y, ink.Style{Size: size, Anchor: ink.Middle}, say(words.T("card.bank-true")))
}

// front draws the radio, and beside it what arms, what disarms and the modes.
func (k *card) front(r ink.Rect) {
	k.Group("front")
	radio, hands := r.CutLeft(r.W*0.46, 5*k.u)
	size, one := ink.Fit(radio.W, k.TextSize(bankLeast), k.TextSize(8), ink.Bold, k.words.Craft)
	high, lines := ink.BlockHeight(k.TextSize(8), 1), 1
	if !one {
		high, lines = ink.BlockHeight(size, 2), 2
	}
	name, radio := radio.CutBottom(high, 1.5*k.u)
	c := k.at(name)
	c.write("craft", k.words.Craft, lines, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre})
	told := []int(nil) // what is said beside the radio
	for i := range k.words.holds {
		if h := &k.words.holds[i]; h.k != nil && !(i == 0 && !k.words.modeOnly && k.words.cannot != "") {
			told = append(told, h.k.number)
		}
	}
	if n := numberOn(k.words.all, k.words.Config.Layout.Second); n > 0 {
		told = append(told, n)
	}
	k.radio(radio, k.TextSize(8), false, func(n int) bool { return slices.Contains(told, n) })
	k.hands(hands, sizes{30, 10, 8, bankLeast})
}

// namedLeast is the smallest text in points in which the back still names what is called out; before it gets smaller, it only counts (ours).
const namedLeast = 7

// back draws what a lost link does, whose card it is, what was proved, and what is to be signed, in the largest text with which it fits.
func (k *card) back(r ink.Rect) {
	if k.backIn(r, k.words.proofNamed, namedLeast, false) || k.backIn(r, k.words.proof, bankLeast, false) {
		return
	}
	k.brief = true
	k.backIn(r, k.words.proof, bankLeast, true)
}

// backIn draws it in the largest text, down to a size in points, with which it fits, and with must in that where none does.
func (k *card) backIn(r ink.Rect, proof string, least float64, must bool) bool {
	away := *k
	away.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
	for text := k.TextSize(8.5); ; text-- {
		away.Reset(k.W, k.H, k.Scale, k.Theme)
		away.size(text, 0)
		c := away.at(r)
		c.backside(proof)
		left, last := r.Bottom()-c.y, text <= k.TextSize(least)
		if left >= 0 || last && must {
			k.size(text, max(0, left)/4)
			k.at(r).backside(proof)
			return true
		}
		if last {
			return false
		}
	}
}

// size has sentences of a size, with so much free between them.
func (k *card) size(text, spare float64) {
	k.plan.text, k.plan.sentences, k.spare = text, text, spare
	k.fine, k.small = math.Floor(max(text*0.9, k.TextSize(bankLeast))), text
}

func (c *column) backside(proof string) {
	c.Group("back")
	t, w := c.plan.sentences, c.words
	head := *c
	if w.day != "" {
		head.w -= c.Text("date", c.x+c.w, c.y+(ink.BlockHeight(t*1.3, 1)-ink.BlockHeight(t, 1))/2, ink.Style{Size: t, Anchor: ink.Right | ink.Top}, w.day).W + t
	}
	head.write("craft", w.Craft, 2, ink.Style{Size: t * 1.3, Weight: ink.Bold})
	c.y = head.y
	c.forWhom()
	c.write("whose-craft", w.craftOf, 0, ink.Style{Size: c.fine})
	c.y += c.spare
	c.Group("lost")
	c.write("lost-title", w.lost.heading, 1, ink.Style{Size: t * 1.4, Weight: ink.Bold, Colour: ink.Refusal})
	for _, l := range w.lost.lines {
		if c.brief && l.name == "lost-from" {
			continue
		}
		c.write(l.name, l.text, 0, ink.Style{Size: t, Weight: l.weight})
	}
	c.y += c.spare + 1.5*c.u
	c.Line("back-rule", c.x, c.y, c.x+c.w, c.y, ink.Paint{Line: ink.Rule, Width: 0.5 * c.u})
	c.y += 1.5 * c.u
	style := ink.Style{Size: t}
	if len(w.broken) > 0 {
		style.Weight, style.Colour = ink.Bold, ink.Armed
	}
	c.write("proof", proof, 0, style)
	c.y += c.spare
	c.Group("foot")
	c.toSign()
	c.y += c.spare + 1*c.u
	c.write("caution", w.caution, 0, ink.Style{Size: c.fine})
}

// forWhom writes whose radio it is and for whom the card is made; where nobody said, a line is there to write on.
func (c *column) forWhom() {
	w, t := c.words, c.fine
	half := *c
	half.w = c.w*0.6 - t
	half.write("whose-radio", w.short, 3, ink.Style{Size: t})
	whom := column{c.card, c.x + c.w*0.6, c.y, c.w * 0.4}
	if w.Whom != "" {
		whom.write("for", strings.TrimSpace(w.whom), 2, ink.Style{Size: t, Weight: ink.Bold})
	} else {
		from := c.Text("for", whom.x, c.y, ink.Style{Size: t, Anchor: ink.Top}, strings.TrimSpace(w.whom)).Right() + t*0.4
		y := c.y + ink.BlockHeight(t, 1) - 1*c.u
		c.Line("line-for", from, y, c.x+c.w, y, ink.Paint{Line: ink.Ink, Width: 0.5 * c.u})
	}
	c.y = max(half.y, whom.y)
}
