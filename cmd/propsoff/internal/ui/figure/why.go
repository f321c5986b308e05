package figure

import (
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// whyHead is the heading over the refusals, and a sentence under it where one is needed.
func (b *Board) whyHead() (title, sentence string) {
	s := &b.V.Snap
	rows := b.V.RefusalRows()
	return b.Say(tell.WhyTitle(s.Armed)), b.Say(tell.WhySentence(&b.V.Facts, len(rows) > 0))
}

// WhyNeeds is the height that the refusals take in a width, and the largest size of text at which that is at most room.
func (b *Board) WhyNeeds(w, room float64) (height, size float64) {
	for size = b.Large; ; size-- {
		if height = b.WhyHeight(w, size); height <= room || size <= b.Small {
			return height, size
		}
	}
}

// WhyHeight is what the refusals take in a width at a size of text.
func (b *Board) WhyHeight(w, size float64) float64 {
	_, sentence := b.whyHead()
	h := b.SectionHeight()
	if sentence != "" {
		n, _ := ink.CountLines(sentence, w, size, ink.Regular)
		h += ink.BlockHeight(size, n) + 3*b.U
	}
	group := facts.Groups
	for _, row := range b.V.Rows {
		if g := row.Refusal.Group(); g != group {
			group = g
			h += ink.BlockHeight(b.Small, 1) + 4*b.U
		}
		n, _ := ink.CountLines(b.Say(row.Text), w-b.bullet()-b.cure(row.Refusal), size, ink.Regular)
		h += ink.BlockHeight(size, n) + 1*b.U
	}
	return h
}

// bullet is the room to the left of a sentence.
func (b *Board) bullet() float64 { return 13 * b.U }

// Cures is the action whose key cures a refusal at its next press, NoAction where hands, time or more presses do.
func Cures(v *ui.View, r facts.Refusal) ui.Action {
	x, _ := v.Facts.Of(r)
	if v.Playing() || v.Facts.Plain || !x.Cure.OK || x.Cure.N != 1 {
		return ui.NoAction
	}
	switch x.Cure.Deed[0].Do {
	case facts.SetLevel:
		if ui.NextTilt(v.Snap.In.Craft.TiltTenths) <= v.Config.Arming.TiltLimitTenths {
			return ui.TiltCraft
		}
	case facts.CableOut:
		return ui.PlugCable
	case facts.MenuClosed:
		return ui.TurnMenu
	case facts.RadioOn:
		return ui.SwitchRadio
	}
	return ui.NoAction
}

// cure is the room that the key of a cure takes.
func (b *Board) cure(r facts.Refusal) float64 {
	if Cures(b.V, r) == ui.NoAction {
		return 0
	}
	return b.Cap + 6*b.U
}

// Why draws the refusals as sentences in their groups, each crossed off as it clears.
func (b *Board) Why(r ink.Rect, size float64) {
	b.Group("why not")
	title, sentence := b.whyHead()
	rest := b.Section(r, "why heading", title)
	if sentence != "" {
		h, _ := b.Block("why sentence", rest.X, rest.Y, ink.Style{Size: size, Within: r}, ink.Block{Width: rest.W}, sentence)
		_, rest = rest.CutTop(h, 3*b.U)
	}
	y, group := rest.Y, facts.Groups
	for _, row := range b.V.Rows {
		if g := row.Refusal.Group(); g != group {
			group = g
			y += 3 * b.U
			b.Text("group", r.X, y, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top, Within: r}, b.Say(tell.WhoCures(g)))
			y += ink.BlockHeight(b.Small, 1) + 1*b.U
		}
		b.WhyMark(r.X+4.5*b.U, y+ink.BlockHeight(size, 1)/2, row.Stands)
		style := ink.Style{Size: size, Within: r}
		if !row.Stands {
			style.Colour = ink.Faint
		}
		h, _ := b.Block("refusal "+codes.Refusal(row.Refusal), r.X+b.bullet(), y, style, ink.Block{Width: r.W - b.bullet() - b.cure(row.Refusal), Crossed: row.Crossed}, b.Say(row.Text))
		if a := Cures(b.V, row.Refusal); a != ui.NoAction && row.Stands {
			b.KeyCap("cure key", r.Right()-b.Cap/2, y+max(b.Cap, ink.BlockHeight(size, 1))/2, b.Cap, b.V.House.KeyOf(a))
		}
		y += h + 1*b.U
	}
}

// WhyMark is a bar across the way for what refuses, a tick for what is cleared.
func (b *Board) WhyMark(x, y float64, stands bool) {
	d := 3.5 * b.U
	if stands {
		b.Rect("refuses", ink.Rect{X: x - d, Y: y - d*0.6, W: 2 * d, H: 1.2 * d}, ink.Paint{Fill: ink.Refusal})
		return
	}
	pts := [...]ink.Point{{X: x - d, Y: y}, {X: x - d*0.2, Y: y + d*0.8}, {X: x + d*1.1, Y: y - d}}
	b.Polyline("cleared", pts[:], ink.Paint{Line: ink.Rule, Width: 1.6 * b.U})
}

// RowsFor writes as many of the refusals as there is room for and counts the rest; it tells where it ends, and whether all
// are there.
func (b *Board) RowsFor(r ink.Rect, rows []ui.Row, size float64) (y float64, all bool) {
	y, one := r.Y, ink.BlockHeight(size, 1)
	for i, row := range rows {
		n, _ := ink.CountLines(b.Say(row.Text), r.W-1.2*size, size, ink.Regular)
		need := ink.BlockHeight(size, n)
		after := 0.0
		if i < len(rows)-1 {
			after = one + 2*b.U
		}
		if y+need+after > r.Bottom() {
			b.Text("refusals left", r.X, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, b.Say(tell.RefusalsLeft(len(rows)-i)))
			return y, false
		}
		b.WhyMark(r.X+4.5*b.U, y+one/2, row.Stands)
		style := ink.Style{Size: size, Within: r}
		if !row.Stands {
			style.Colour = ink.Faint
		}
		b.Block("refusal "+codes.Refusal(row.Refusal), r.X+1.2*size, y, style, ink.Block{Width: r.W - 1.2*size, Crossed: row.Crossed}, b.Say(row.Text))
		y += need + 3*b.U
	}
	return y, true
}

// AirWhy draws the refusals; where there is no room for all, as many as there is, and counts the rest.
func (b *Board) AirWhy(r ink.Rect, size float64) {
	if b.WhyHeight(r.W, size) <= r.H+0.5 {
		b.Why(r, size)
		return
	}
	b.Group("why not")
	title, sentence := b.whyHead()
	rest := b.Section(r, "why heading", title)
	if sentence != "" {
		h, _ := b.Block("why sentence", rest.X, rest.Y, ink.Style{Size: b.Small, Within: r}, ink.Block{Width: rest.W, MaxLines: max(1, int(rest.H/ink.LineHeight(b.Small))), Shorten: true}, sentence)
		_, rest = rest.CutTop(h, 3*b.U)
	}
	b.RowsFor(rest, b.V.Rows, b.Small)
}
