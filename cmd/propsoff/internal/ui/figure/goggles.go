package figure

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/view"
	"propsoff.example/sim/vec"
)

// craftStands is how the craft stands, and before it which menu is open and where its mark stands.
func craftStands(v *ui.View) words.Text {
	if g := &v.Goggles; g.Open {
		return words.T("goggles.first", words.Args{"stands": g.Stands, "craft": tell.CraftStands(&v.Snap)})
	}
	return tell.CraftStands(&v.Snap)
}

// GogglesSheet draws the goggles picture while a menu is open, and beside it the sticks that move it.
func (b *Board) GogglesSheet(r ink.Rect) {
	picture, hands := b.Split(r, r.W*0.62, r.H*0.55, 1.4)
	b.GogglesPicture(picture)
	b.gogglesHands(hands)
}

// gogglesHands is how the menu is moved, and the sticks.
func (b *Board) gogglesHands(r ink.Rect) {
	b.Group("moves")
	if !b.V.Class {
		r = b.Section(r, "moves-heading", b.Say(words.T("goggles.moves-title")))
	}
	r = b.Facts(r, "move", b.V.Goggles.Moves, r.H*0.55)
	_, r = r.CutTop(b.CornerNote(r, b.Head), 5*b.U)
	if !b.V.Class {
		b.Sticks(r)
		return
	}
	b.Group("sticks")
	b.BothSticks(r, func(r ink.Rect, g Gimbal, name string) {
		if size := min(r.W, r.H); size >= 40*b.U {
			b.Well(name, ink.Rect{X: r.Centre().X - size/2, Y: r.Y, W: size, H: size}, g)
		}
	})
}

// GogglesPicture is the picture in the goggles: a drafted frame, what the camera sees, one line of instruments, and a menu that is open as a sheet laid over it.
func (b *Board) GogglesPicture(r ink.Rect) {
	b.Group("goggles")
	small := r.H < 260*b.U && !b.V.Class // a panel of the bench
	edge, gap := 8*b.U, 12*b.U
	if small {
		edge, gap = 4*b.U, 5*b.U
	}
	b.RoundRect("goggles-frame", r, 16*b.U, ink.Paint{Line: ink.Ink, Width: 2.5 * b.U})
	in := r.Inset(edge)
	b.RoundRect("goggles-inner-frame", in, 12*b.U, ink.Paint{Line: ink.Rule})
	bar, scene := in.CutBottom(ink.BlockHeight(b.Body, 1)+gap-2*b.U, 0)
	b.onBoard(scene.Inset(3 * b.U))
	b.Line("instruments-rule", in.X+2*b.U, bar.Y, in.Right()-2*b.U, bar.Y, ink.Paint{Line: ink.Rule})
	b.instruments(ink.Rect{X: bar.X + 12*b.U, Y: bar.Y, W: bar.W - 24*b.U, H: bar.H - 2*b.U})
	if b.V.Goggles.Open {
		b.menuSheet(scene.Inset(gap), small)
	}
}

// onBoard draws what the camera on board sees of the field: in the air from where the craft is, on the desk bench from as high as a desk.
func (b *Board) onBoard(r ink.Rect) {
	at, att := b.V.Snap.Air.Body.Pos, b.V.Snap.Air.Body.Att
	if !b.V.Snap.In.Air {
		at, att = vec.V{Z: -deskHigh}, b.tilted()
	}
	at.Z = min(at.Z, -2*view.Near)
	c := view.Aboard(at, att, b.V.Config.Camera.Tilt).In(r, b.V.Config.Camera.View)
	b.land(&c, 0)
}

// deskHigh is how high a craft stands on the desk, m (ours).
const deskHigh = 0.8

// instruments are the one line at the lower edge of the picture: pack, mode, armed or not, link; where they have no room, without link, pack, mode.
func (b *Board) instruments(r ink.Rect) {
	line := tell.GogglesLine(&b.V.Facts)
	const armed = 2
	gap, free := 6*b.U, r.W
	var wide [len(line)]float64
	for i, w := range line {
		wide[i] = ink.Width(b.Say(w), b.Body, ink.Bold) + 2*b.U
		free -= wide[i] + gap
	}
	for _, i := range [...]int{3, 0, 1} {
		if free+gap < 0 {
			free += wide[i] + gap
			wide[i] = 0
		}
	}
	var parts [len(line)]ink.Part
	shown := parts[:0]
	for i := range line {
		switch {
		case i == armed: // never cut
			shown = append(shown, ink.Fix(wide[i]))
		case wide[i] > 0:
			shown = append(shown, ink.Share(wide[i], 0))
		}
	}
	cells := r.Columns(b.V.Cells[:0], gap, shown...)
	for i, w := range line {
		if wide[i] == 0 {
			continue
		}
		style := ink.Style{Size: b.Body}
		if i == armed {
			style.Weight = ink.Bold
		}
		b.Fitted("instrument", cells[0], style, b.Say(w))
		cells = cells[1:]
	}
}

// menuItems are the lines of the menu and which of them is marked; on leaving, the question and its answers.
func menuItems(v *ui.GogglesView) (items []ui.GogglesItem, mark int) {
	if !v.Leaving {
		return v.Items, v.Mark
	}
	items = append(items, ui.GogglesItem{Kind: ui.GogglesLeave, Label: words.T("goggles.leaving", words.Args{"n": words.Count(v.Changed)})})
	for _, a := range v.Answers {
		items = append(items, ui.GogglesItem{Kind: ui.GogglesLeave, Label: a})
	}
	return items, v.Answer + 1
}

// menuSheet is the menu: its path, and the lines with the mark.
func (b *Board) menuSheet(r ink.Rect, small bool) {
	v := &b.V.Goggles
	items, mark := menuItems(v)
	least, rows := ink.LineHeight(b.Body)+5*b.U, len(items)
	// Large enough to be read, but with some of the land to be seen; and every label and value whole, where that is possible.
	text, w := b.TextSize(22), max(0.72*r.W, min(r.W, 360*b.U))
	if b.V.Class {
		text = b.Body * 1.3
	}
	if small {
		text, w = b.Body, r.W
	}
	for ; text > b.Body && float64(rows)*(ink.LineHeight(text)+8*b.U) > r.H*0.62; text-- {
	}
	for ; text > 1.2*b.Body && b.menuWidth(items, text, true) > r.W; text-- {
	}
	for ; text > b.Body && b.menuWidth(items, text, false) > r.W; text-- {
	}
	text = max(text, b.Body)
	w = ui.Clamp(b.menuWidth(items, text, true), w, r.W)
	line := ink.LineHeight(text) + 8*b.U
	head := ink.LineHeight(b.Head) + 10*b.U
	foot := ink.LineHeight(b.Small) + 6*b.U
	if b.V.Class || small {
		foot = 0
	}
	if want := (r.H - head - foot - 12*b.U) / float64(max(rows, 1)); want < line {
		line, text = max(want, least), b.Body
	}
	fit := max(1, int((r.H-head-foot-12*b.U)/line))
	shown := min(rows, fit)
	s := ink.Rect{X: r.X, Y: r.Y, W: w, H: head + float64(shown)*line + foot + 12*b.U}
	b.Rect("menu-sheet", s, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.6 * b.U})
	in := s.Inset(6 * b.U)
	row, in := in.CutTop(head-4*b.U, 4*b.U)
	var paths []words.Text // from its first page on, or from a later one
	for i := range v.Path {
		paths = append(paths, tell.GogglesPath(v.Path[i:]))
	}
	at, bold := ink.Rect{X: row.X + 4*b.U, Y: row.Y, W: row.W - 8*b.U, H: row.H - 4*b.U}, ink.Style{Size: b.Head, Weight: ink.Bold}
	b.Fitted("menu-path", at, bold, b.FirstFit(at.W, bold, paths...))
	b.Line("menu-rule", row.X, row.Bottom()-b.U, row.Right(), row.Bottom()-b.U, ink.Paint{Line: ink.Rule})
	b.Round(ink.Rect{X: in.X, Y: in.Y, W: in.W, H: float64(shown) * line}, rows, mark, line, func(row ink.Rect, i int) {
		b.menuRow(row, text, &items[i], i == mark, i == mark || v.Leaving && i == 0)
	})
	if foot > 0 {
		note := ink.Rect{X: in.X + 4*b.U, Y: s.Bottom() - foot - 2*b.U, W: in.W - 8*b.U, H: foot}
		b.WholeLine("menu-changed", note, ink.Style{Size: b.Small, Colour: ink.Faint}, tell.GogglesChanged(v.Changed))
	}
}

// menuStart is how far the words of a line stand from its left edge.
const menuStart = 12

// menuWidth is how wide a menu is whose labels and values are written whole at a size; was counts in what they were.
func (b *Board) menuWidth(items []ui.GogglesItem, text float64, was bool) float64 {
	left := (12 + menuStart + 8) * b.U // the sheet's edges, and the room at both sides
	d := ink.CapHeight(text, ink.Bold) * 0.42
	most := 0.0
	for i := range items {
		it := &items[i]
		w := ink.Width(b.Say(it.Label), text, ink.Bold) + 3*d
		switch it.Kind {
		case ui.GogglesPage:
			w += ink.Width(b.Say(words.T("goggles.inside", words.Args{"n": words.Whole(it.Holds)})), text, ink.Regular) + 16*b.U
		case ui.GogglesValue:
			w += ink.Width(b.Say(it.Value), text, ink.Bold) + 4*d + 6*b.U + 16*b.U
			if was && it.Changed {
				w += ink.Width(b.Say(tell.GogglesWas(it.Was, false)), max(b.Small, text*0.62), ink.Regular) + 16*b.U
			}
		}
		most = max(most, w)
	}
	return most + left
}

// menuRow is one line: its label, and how many stand in a page, or the value with its unit; a changed one has a diamond and says what it was. The one
// that is marked is framed.
func (b *Board) menuRow(r ink.Rect, text float64, it *ui.GogglesItem, marked, bold bool) {
	if marked {
		b.RoundRect("mark", r.Inset(b.U), 4*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 2 * b.U})
	}
	style, at := ink.Style{Size: text}, ink.Style{Size: text, Anchor: ink.Right | ink.Middle, Within: r}
	if bold {
		style.Weight = ink.Bold
	}
	y := r.Centre().Y
	in := ink.Rect{X: r.X + menuStart*b.U, Y: r.Y, W: r.W - (menuStart+8)*b.U, H: r.H} // what is left for the label
	switch it.Kind {
	case ui.GogglesPage:
		in.W -= b.Text("inside", in.Right(), y, at, b.Say(words.T("goggles.inside", words.Args{"n": words.Whole(it.Holds)}))).W + 8*b.U
	case ui.GogglesValue:
		at.Weight = ink.Bold
		d := ink.CapHeight(text, ink.Bold) * 0.42
		in.W -= 4*d + 6*b.U
		if it.Moves { // which way there is room stands beside the value
			b.room(in.Right()+3*b.U, y, d, it)
		}
		value := b.Text("value", in.Right(), y, at, b.Say(it.Value))
		if it.Inside { // a line under the value that was gone into
			under := y + ink.CapHeight(text, ink.Bold)*0.5 + 0.3*text
			b.Line("value-gone-into", value.X, under, in.Right(), under, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
		}
		if in.W -= value.W + 8*b.U; it.Changed {
			in.W = b.changed(in, it, text, d, ink.Width(b.Say(it.Label), text, style.Weight)+8*b.U)
		}
	}
	b.Fitted("item", in, style, b.Say(it.Label))
}

// changed draws a diamond at the right for a value that is changed, and before it what it was, where the label has so much room besides; it gives
// the width that is left.
func (b *Board) changed(r ink.Rect, it *ui.GogglesItem, text, d, label float64) float64 {
	c, h := ink.Point{X: r.Right() - d, Y: r.Centre().Y}, d*1.3
	b.Polygon("changed", []ink.Point{{X: c.X, Y: c.Y - h}, {X: c.X + h, Y: c.Y}, {X: c.X, Y: c.Y + h}, {X: c.X - h, Y: c.Y}}, ink.Paint{Fill: ink.Focus})
	r.W -= 2.6*d + 5*b.U
	style := ink.Style{Size: max(b.Small, text*0.62), Colour: ink.Faint, Anchor: ink.Right | ink.Middle, Within: r}
	was := b.FirstFit(r.W-label, style, tell.GogglesWas(it.Was, false), tell.GogglesWas(it.Was, true))
	if w := ink.Width(was, style.Size, ink.Regular); w < r.W-label {
		b.Text("was", r.Right(), c.Y, style, was)
		r.W -= w + 8*b.U
	}
	return r.W
}

// room draws which way there is room for a value, from x on in a width of four times d: an arrow, or a bar where there is none.
func (b *Board) room(x, y, d float64, it *ui.GogglesItem) {
	for i, there := range [2]bool{it.Less, it.More} {
		way := [2]float64{-1, 1}[i]
		c := ink.Point{X: x + d + float64(i)*(2*d+2*b.U), Y: y}
		at := func(across, along float64) ink.Point {
			if it.Upright { // more is up
				return ink.Point{X: c.X + across, Y: c.Y - along*way}
			}
			return ink.Point{X: c.X + along*way, Y: c.Y + across}
		}
		if there {
			b.Polygon("room", []ink.Point{at(-d*0.95, -d*0.8), at(0, d*0.8), at(d*0.95, -d*0.8)}, ink.Paint{Fill: ink.Ink})
		} else {
			b.stroke("no-room", at(-d*0.9, d*0.5), at(d*0.9, d*0.5), ink.Paint{Line: ink.Rule, Width: 1.6 * b.U})
		}
	}
}
