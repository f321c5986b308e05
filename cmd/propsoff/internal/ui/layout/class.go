package layout

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// leafPart is a part of a page of class view: how high it is, and what draws it.
type leafPart struct {
	high float64
	draw func(at ink.Rect)
}

// class draws the sheet for a room: the levers, which fill the first page; then what keys do, the choices of the craft, and what is called out.
func (b *board) class(r ink.Rect) {
	b.Group("levers")
	b.leafed(r, leafPart{r.H, b.drawLevers})
}

// paged draws in pages what can be done at the chosen position, the choices of the craft, and everything that is called out: for a finger.
func (b *board) paged(r ink.Rect) { b.leafed(r) }

// leafed draws some parts, and after them all but the levers.
func (b *board) leafed(r ink.Rect, all ...leafPart) {
	all = append(all, b.headed("doing", "doing-heading", b.leafDoing(r.W), b.v.chosen()...)...)
	all = append(all, b.headed("choices", "craft-heading", b.leafChoices(r.W), words.T("layout.craft"))...)
	all = append(all, b.headed("calls", "calls-heading", b.leafCalls(r.W), tell.LayoutCallsTitle(len(b.calls)))...)
	b.Leafed(r, len(all), 4*b.U, func(i int) float64 { return all[i].high }, func(i int, at ink.Rect) { all[i].draw(at) })
}

// headed are the parts of a group, the first of them under a heading.
func (b *board) headed(group, name string, parts []leafPart, titles ...words.Text) []leafPart {
	for i := range parts {
		head, draw := 0.0, parts[i].draw
		if i == 0 {
			head = b.SectionHeight()
		}
		parts[i] = leafPart{parts[i].high + head, func(at ink.Rect) {
			b.Group(group)
			if head > 0 {
				at = b.SectionOf(at, name, titles...)
			}
			draw(at)
		}}
	}
	return parts
}

// leafDoing are the keys that act on the chosen position, two in a row where that has room for the words of all.
func (b *board) leafDoing(w float64) (out []leafPart) {
	abreast, high := 2, max(b.Cap+6*b.U, b.Least())
	for _, k := range b.v.Doing {
		if b.KeyWidth(k.Key, b.Say(k.Does)) > (w-b.Gap)/2 {
			abreast = 1
		}
	}
	for keys := b.v.Doing; len(keys) > 0; {
		row := keys[:min(abreast, len(keys))]
		keys = keys[len(row):]
		out = append(out, leafPart{high, func(at ink.Rect) {
			for i, k := range row {
				b.KeyRow(at.Cell(i, abreast, 1, b.Gap), k.Code, k.Key, b.Say(k.Does))
			}
		}})
	}
	return out
}

// leafChoices are the choices of the craft, two in a row where that has room for the words of all.
func (b *board) leafChoices(w float64) (out []leafPart) {
	line, abreast := max(b.RowHeight(), b.Cap+2*b.U, b.Least()), 2
	for _, c := range b.v.Choices {
		for _, t := range append(c.Options, c.Does) {
			if ink.Width(b.Say(t), b.Body, ink.Bold)+b.CapWidth(b.Cap, c.Key.Key)+24*b.U > (w-b.Gap)/2 {
				abreast = 1
			}
		}
	}
	for all := b.v.Choices; len(all) > 0; {
		row, most := all[:min(abreast, len(all))], 0
		all = all[len(row):]
		for _, c := range row {
			most = max(most, len(c.Options))
		}
		out = append(out, leafPart{line * float64(1+most), func(at ink.Rect) {
			for i := range row {
				cell := at.Cell(i, abreast, 1, b.Gap)
				cell.H = line * float64(1+len(row[i].Options))
				b.choice(cell, line, &row[i], false)
			}
		}})
	}
	return out
}

// leafCalls is what is called out.
func (b *board) leafCalls(w float64) (out []leafPart) {
	if len(b.calls) == 0 {
		t := words.T("layout.nothing")
		out = append(out, leafPart{b.SayHeight(t, w, ink.Style{Size: b.Body}), func(at ink.Rect) {
			b.Down(at, 0).Say("nothing-called-out", t, ink.Style{Size: b.Body, Colour: ink.Faint})
		}})
	}
	for _, c := range b.calls {
		high := ui.TextHeight(b.say(&c.Text), w-b.mark(), ink.Style{Size: b.Body})
		out = append(out, leafPart{high, func(at ink.Rect) { b.call(at, c, b.Body) }})
	}
	return out
}
