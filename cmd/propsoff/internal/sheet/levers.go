package sheet

import (
	"slices"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// position is one span of a switch's channel and what the craft does there.
type position struct {
	span layout.Span
	word string
	gap  bool // no span of the craft file stands here
}

// mostPositions is how many positions of one switch are drawn; of more, those round the live one (ours).
const mostPositions = 5

// lever is one switch as it is drawn: positions from high to low.
type lever struct {
	name    string
	channel int8
	at      [2*layout.MaxModeSpans + 1]position
	n       int
	key     keyboard.Key // one key that changes it over, or 0
}

func (l *lever) add(p position) {
	if p.span.Low < p.span.High && l.n < len(l.at) {
		l.at[l.n] = p
		l.n++
	}
}

// levers are the switches of a craft: arm, second, mode.
func (v *View) levers() (out [3]lever, n int) {
	c := &v.Config.Layout
	if c.Arm != layout.NoChannel {
		out[n] = onOff("arm", c.Arm, c.ArmSpan, keyboard.Arm)
		n++
	}
	if c.Second != layout.NoChannel {
		out[n] = onOff("second", c.Second, c.SecondSpan, keyboard.Second)
		n++
	}
	if c.Mode != layout.NoChannel {
		out[n] = modeLever(c)
		n++
	}
	return out, n
}

func onOff(name string, channel int8, on layout.Span, key keyboard.Key) lever {
	l := lever{name: name, channel: channel, key: key}
	l.add(position{span: layout.Span{Low: on.High, High: pulse.Highest}, word: phrase.Position(false)})
	l.add(position{span: on, word: phrase.Position(true)})
	l.add(position{span: layout.Span{Low: pulse.Lowest, High: on.Low}, word: phrase.Position(false)})
	return l
}

func modeLever(c *layout.Config) lever {
	l := lever{name: "mode", channel: c.Mode}
	spans := c.Spans
	list := spans[:c.SpanCount]
	slices.SortFunc(list, func(a, b layout.ModeSpan) int { return int(b.Span.Low) - int(a.Span.Low) })
	top := pulse.Highest
	for _, s := range list {
		l.add(position{span: layout.Span{Low: s.Span.High, High: top}, word: phrase.Mode(layout.Rate), gap: true})
		l.add(position{span: s.Span, word: phrase.Mode(s.Mode)})
		top = s.Span.Low
	}
	l.add(position{span: layout.Span{Low: pulse.Lowest, High: top}, word: phrase.Mode(layout.Rate), gap: true})
	return l
}

// live is the position in which a width stands, −1 for none.
func (l *lever) live(w pulse.Width) int {
	for i := range l.at[:l.n] {
		if l.at[i].span.Contains(w) {
			return i
		}
	}
	return -1
}

// window is which positions are drawn: those round the live one.
func (l *lever) window(live int) (from, to int) {
	from = clampInt(live-mostPositions/2, 0, max(0, l.n-mostPositions))
	return from, min(l.n, from+mostPositions)
}

func clampInt(v, lo, hi int) int { return max(lo, min(hi, v)) }

// positionHeight is the height of one position: its word over its span.
func (b *board) positionHeight() float64 { return ink.BlockHeight(b.small, 2) + 7*b.u }

// leversHeight is what the switches take, 0 where the craft has none.
func (b *board) leversHeight() float64 {
	all, n := b.v.levers()
	most := 0
	for i := range all[:n] {
		most = max(most, min(all[i].n, mostPositions))
	}
	if most == 0 {
		return 0
	}
	return b.sectionHeight() + b.leverHead() + float64(most)*b.positionHeight()
}

// keyHit lets a key of the keyboard's layout be clicked.
func (b *board) keyHit(key keyboard.Key, r ink.Rect) {
	for _, k := range layoutKeys {
		if k.Key == key {
			b.Hit(k.Code, k.Physical, r)
		}
	}
}

// leverHead is the height of a lever's name and key.
func (b *board) leverHead() float64 { return 25 * b.u }

// levers draws the switches side by side.
func (b *board) levers(r ink.Rect) {
	b.Group("switches")
	all, n := b.v.levers()
	rest := b.section(r, "switches heading", phrase.SwitchesTitle())
	// Each gets room in proportion to what its words take.
	var parts [3]ink.Part
	for i := range all[:n] {
		parts[i] = ink.Share(b.leverNeeds(&all[i]), 0)
	}
	cols := rest.Columns(b.v.cells[:0], 6*b.u, parts[:max(n, 1)]...)
	b.v.cells = cols
	for i := range all[:n] {
		b.lever(cols[i], &all[i])
	}
}

// leverNeeds is the width that the words of a switch take.
func (b *board) leverNeeds(l *lever) float64 {
	head := ink.Width(l.name+" 2012", b.small, ink.Bold) + 6*b.u
	if b.stickKeys() && l.key != 0 {
		head += b.capWidth(b.cap, keyOf(l.key)) + 5*b.u
	}
	need := 0.0
	for i := range l.at[:l.n] {
		word := l.at[i].word
		if l.at[i].gap {
			word = phrase.Gap(word)
		}
		need = max(need, ink.Width(word, b.small, ink.Bold), ink.Width(phrase.SpanWords(l.at[i].span), b.small, ink.Regular))
	}
	need += 24 * b.u
	if b.stickKeys() && l.name == "mode" {
		need += 20 * b.u
	}
	return max(head, need)
}

// lever draws one switch: a slot with its positions, the lever standing at the live one, and beside each position what
// it means and where it begins and ends.
func (b *board) lever(r ink.Rect, l *lever) {
	w := b.v.Snap.In.Sent[l.channel]
	known := b.v.Snap.In.HasSent && w.Valid()
	live := -1
	if known {
		live = l.live(w)
	}
	head, rest := r.CutTop(b.leverHead(), 0)
	x := head.X
	if b.stickKeys() && l.key != 0 {
		key := keyOf(l.key)
		cw := b.capWidth(b.cap, key)
		b.keyCap(l.name+" key", x+cw/2, head.Centre().Y, b.cap, key)
		x += cw + 5*b.u
		b.keyHit(l.key, head)
	}
	box := b.Text(l.name+" name", x, head.Centre().Y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Middle}, l.name)
	value := "–"
	if known {
		value = phrase.Micros(w)
	}
	b.Text(l.name+" value", box.Right()+5*b.u, head.Centre().Y, ink.Style{Size: b.small, Weight: ink.Bold, Anchor: ink.Middle, Within: r}, value)

	from, to := l.window(live)
	h := b.positionHeight()
	slot := rest.X + 7*b.u
	b.Line(l.name+" slot", slot, rest.Y+h*0.3, slot, rest.Y+float64(to-from)*h-h*0.3, ink.Paint{Line: ink.Rule, Width: 2 * b.u})
	for i := from; i < to; i++ {
		b.position(ink.Rect{X: rest.X, Y: rest.Y + float64(i-from)*h, W: rest.W, H: h}, l, i, i == live)
	}
}

func (b *board) position(r ink.Rect, l *lever, i int, live bool) {
	p := &l.at[i]
	x, y := r.X+7*b.u, r.Centre().Y
	text := r.X + 20*b.u
	role, weight := ink.Faint, ink.Regular
	if live {
		role, weight = ink.Ink, ink.Bold
		b.RoundRect(l.name+" live", ink.Rect{X: r.X + 15*b.u, Y: r.Y + 0.5*b.u, W: r.W - 15*b.u, H: r.H - b.u}, 3*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Rule})
		b.Rect(l.name+" lever", ink.Rect{X: x - 7*b.u, Y: y - 4*b.u, W: 14 * b.u, H: 8 * b.u}, ink.Paint{Fill: ink.Ink})
	} else {
		b.Circle(l.name+" place", x, y, 3*b.u, ink.Paint{Fill: ink.Paper, Line: ink.Rule})
	}
	line := ink.LineHeight(b.small)
	top := r.Y + (r.H-ink.BlockHeight(b.small, 2))/2 - 0.5*b.u
	word := p.word
	if p.gap {
		word = phrase.Gap(word)
	}
	width := r.Right() - text - 3*b.u
	k := modeKey(p.span)
	if b.stickKeys() && l.name == "mode" && k != 0 {
		width -= 20 * b.u
	}
	one := ink.Block{Width: width, MaxLines: 1, Shorten: true}
	b.Block(l.name+" position", text, top, ink.Style{Size: b.small, Weight: weight, Within: r}, one, word)
	b.Block(l.name+" span", text, top+line, ink.Style{Size: b.small, Colour: role, Within: r}, one, phrase.SpanWords(p.span))
	if b.stickKeys() && l.name == "mode" && k != 0 {
		b.keyCap("mode key", r.Right()-11*b.u, y, b.cap, keyOf(k))
		b.keyHit(k, ink.Rect{X: r.X + 15*b.u, Y: r.Y, W: r.W - 15*b.u, H: r.H})
	}
}

// modeKey is the key that puts the mode switch into a span, 0 for none.
func modeKey(s layout.Span) keyboard.Key {
	switch {
	case s.Contains(pulse.Low):
		return keyboard.ModeLow
	case s.Contains(pulse.Centre):
		return keyboard.ModeMiddle
	case s.Contains(pulse.High):
		return keyboard.ModeHigh
	}
	return 0
}
