package sheet

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// whyHead is the heading over the refusals, and a sentence under it where one is needed.
func (b *board) whyHead() (title, sentence string) {
	s := &b.v.Snap
	rows := b.v.refusals()
	return phrase.WhyTitle(s.Armed), phrase.WhySentence(&b.v.Facts, len(rows) > 0)
}

// whyNeeds is the height that the refusals take in a width, and the largest size of text at which that is at most room.
func (b *board) whyNeeds(w, room float64) (height, size float64) {
	for size = b.large; ; size-- {
		if height = b.whyHeight(w, size); height <= room || size <= b.small {
			return height, size
		}
	}
}

func (b *board) whyHeight(w, size float64) float64 {
	_, sentence := b.whyHead()
	h := b.sectionHeight()
	if sentence != "" {
		n, _ := ink.CountLines(sentence, w, size, ink.Regular)
		h += ink.BlockHeight(size, n) + 3*b.u
	}
	group := facts.Groups
	for _, row := range b.v.rows {
		if g := row.Refusal.Group(); g != group {
			group = g
			h += ink.BlockHeight(b.small, 1) + 4*b.u
		}
		n, _ := ink.CountLines(row.Text, w-b.bullet()-b.cure(row.Refusal), size, ink.Regular)
		h += ink.BlockHeight(size, n) + 1*b.u
	}
	return h
}

// bullet is the room to the left of a sentence.
func (b *board) bullet() float64 { return 13 * b.u }

// cures is the action whose key cures a refusal at its next press, NoAction where hands, time or more presses do.
func (v *View) cures(r facts.Refusal) Action {
	x, _ := v.Facts.Of(r)
	if v.playing() || v.Facts.Plain || !x.Cure.OK || x.Cure.N != 1 {
		return NoAction
	}
	switch x.Cure.Deed[0].Do {
	case facts.SetLevel:
		if NextTilt(v.Snap.In.Craft.TiltTenths) <= v.Config.Arming.TiltLimitTenths {
			return TiltCraft
		}
	case facts.CableOut:
		return PlugCable
	case facts.MenuClosed:
		return TurnMenu
	case facts.RadioOn:
		return SwitchRadio
	}
	return NoAction
}

// cure is the room that the key of a cure takes.
func (b *board) cure(r facts.Refusal) float64 {
	if b.v.cures(r) == NoAction {
		return 0
	}
	return b.cap + 6*b.u
}

// why draws the refusals as sentences in their groups, each crossed off as it clears.
func (b *board) why(r ink.Rect, size float64) {
	b.Group("why not")
	title, sentence := b.whyHead()
	rest := b.section(r, "why heading", title)
	if sentence != "" {
		h, _ := b.Block("why sentence", rest.X, rest.Y, ink.Style{Size: size, Within: r}, ink.Block{Width: rest.W}, sentence)
		_, rest = rest.CutTop(h, 3*b.u)
	}
	y, group := rest.Y, facts.Groups
	for _, row := range b.v.rows {
		if g := row.Refusal.Group(); g != group {
			group = g
			y += 3 * b.u
			b.Text("group", r.X, y, ink.Style{Size: b.small, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top, Within: r}, phrase.WhoCures(g))
			y += ink.BlockHeight(b.small, 1) + 1*b.u
		}
		b.whyMark(r.X+4.5*b.u, y+ink.BlockHeight(size, 1)/2, row.Stands)
		style := ink.Style{Size: size, Within: r}
		if !row.Stands {
			style.Colour = ink.Faint
		}
		h, _ := b.Block("refusal "+phrase.Refusal(row.Refusal), r.X+b.bullet(), y, style, ink.Block{Width: r.W - b.bullet() - b.cure(row.Refusal), Crossed: row.Crossed}, row.Text)
		if a := b.v.cures(row.Refusal); a != NoAction && row.Stands {
			b.keyCap("cure key", r.Right()-b.cap/2, y+max(b.cap, ink.BlockHeight(size, 1))/2, b.cap, physicalOf(a))
		}
		y += h + 1*b.u
	}
}

// whyMark is a bar across the way for what refuses, a tick for what is cleared.
func (b *board) whyMark(x, y float64, stands bool) {
	d := 3.5 * b.u
	if stands {
		b.Rect("refuses", ink.Rect{X: x - d, Y: y - d*0.6, W: 2 * d, H: 1.2 * d}, ink.Paint{Fill: ink.Refusal})
		return
	}
	pts := [...]ink.Point{{X: x - d, Y: y}, {X: x - d*0.2, Y: y + d*0.8}, {X: x + d*1.1, Y: y - d}}
	b.Polyline("cleared", pts[:], ink.Paint{Line: ink.Rule, Width: 1.6 * b.u})
}
