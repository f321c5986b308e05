package figure

import (
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
)

// WhyNeeds is the height that the refusals take in a width, and the largest size of text at which that is at most room.
func (b *Board) WhyNeeds(w, room float64) (height, size float64) {
	for size = b.Large; ; size-- {
		if height = b.WhyHeight(w, size); height <= room || size <= b.Small {
			return height, size
		}
	}
}

// WhyHeight is what the refusals take in a width at a size of text.
func (b *Board) WhyHeight(w, size float64) float64 { return b.why(ink.Rect{W: w}, size, false) }

// Why draws the refusals as sentences in their groups, each crossed off as it clears.
func (b *Board) Why(r ink.Rect, size float64) { b.why(r, size, true) }

// why is Why, or only the height that it takes.
func (b *Board) why(r ink.Rect, size float64, draw bool) (height float64) {
	rows := b.V.RefusalRows()
	at, style := r, ink.Style{Size: size, Within: r}
	down := func(h float64) { at.Y += h }
	if draw {
		b.Group("why-not")
		b.Section(r, "why-heading", b.Say(tell.WhyTitle(b.V.Snap.Armed)))
	}
	down(b.SectionHeight())
	if sentence := b.Say(tell.WhySentence(&b.V.Facts, len(rows) > 0)); sentence != "" {
		if draw {
			b.Block("why-sentence", at.X, at.Y, style, ink.Block{Width: at.W}, sentence)
		}
		down(ui.TextHeight(sentence, at.W, style) + 3*b.U)
	}
	group := facts.Groups
	for i := range rows {
		row := &rows[i]
		if g := row.Refusal.Group(); g != group {
			group = g
			down(3 * b.U)
			if draw {
				b.Text("group", at.X, at.Y, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top, Within: r}, b.Say(tell.WhoCures(g)))
			}
			down(ink.BlockHeight(b.Small, 1) + b.U)
		}
		text, cure := at, Cures(b.V, row.Refusal)
		if cure != ui.NoAction {
			text.W -= b.Cap + 6*b.U
		}
		if draw {
			b.refusal(text, row, size, 13*b.U)
			if cure != ui.NoAction && row.Stands {
				b.KeyCap("cure-key", r.Right()-b.Cap/2, at.Y+max(b.Cap, ink.BlockHeight(size, 1))/2, b.Cap, b.V.House.KeyOf(cure))
			}
		}
		down(b.SayHeight(row.Text, text.W-13*b.U, style) + b.U)
	}
	return at.Y - r.Y
}

// refusal writes one refusal with its mark at the top of r, its text so far in.
func (b *Board) refusal(r ink.Rect, row *ui.Row, size, in float64) {
	b.WhyMark(r.X+4.5*b.U, r.Y+ink.BlockHeight(size, 1)/2, row.Stands)
	style := ink.Style{Size: size}
	if !row.Stands {
		style.Colour = ink.Faint
	}
	style.Within = ink.Rect{X: r.X, Y: r.Y, W: r.W, H: b.H}
	b.Block("refusal "+codes.Refusal(row.Refusal), r.X+in, r.Y, style, ink.Block{Width: r.W - in, Crossed: row.Crossed}, b.Say(row.Text))
}

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

// RowsFor writes as many of the refusals as there is room for and counts the rest; it tells where it ends, and whether all are there.
func (b *Board) RowsFor(r ink.Rect, rows []ui.Row, size float64) (y float64, all bool) {
	in, one, at := 1.2*size, ink.BlockHeight(size, 1), r
	for i := range rows {
		need, after := b.SayHeight(rows[i].Text, r.W-in, ink.Style{Size: size}), 0.0
		if i < len(rows)-1 {
			after = one + 2*b.U
		}
		if at.Y+need+after > r.Bottom() {
			b.Text("refusals-left", r.X, at.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, b.Say(tell.RefusalsLeft(len(rows)-i)))
			return at.Y, false
		}
		b.refusal(at, &rows[i], size, in)
		at.Y += need + 3*b.U
	}
	return at.Y, true
}

// AirWhy draws the refusals; where there is no room for all, as many as there is, and counts the rest.
func (b *Board) AirWhy(r ink.Rect, size float64) {
	if b.WhyHeight(r.W, size) <= r.H+0.5 {
		b.Why(r, size)
		return
	}
	b.Group("why-not")
	rows := b.V.RefusalRows()
	d := b.Down(b.Section(r, "why-heading", b.Say(tell.WhyTitle(b.V.Snap.Armed))), 3*b.U)
	d.Say("why-sentence", tell.WhySentence(&b.V.Facts, len(rows) > 0), ink.Style{Size: b.Small})
	b.RowsFor(d.R, rows, b.Small)
}
