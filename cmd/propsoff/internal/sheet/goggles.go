package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// GogglesView is the menu that is open, as the goggles show it. Its texts are made by whoever fills it.
type GogglesView struct {
	// Open: a menu is open. Name is what it is called; Camera: it is a camera's.
	Open   bool
	Name   string
	Camera bool
	// Path are the pages from the first one to the one that is shown.
	Path []string
	// Items of the page in their order; Mark is the one that the mark stands on.
	Items []GogglesItem
	Mark  int
	// Leaving: it is asked what is to become of what was changed. Answers in their order, Answer the one marked.
	Leaving bool
	Answers []string
	Answer  int
	// Changed is how many values stand otherwise than when the menu was opened.
	Changed int
	// Moves says how the sticks move the menu, a sentence each.
	Moves []string
	// Stands says in half a sentence which menu is open and where the mark stands, for the bench.
	Stands string
}

// GogglesKind is what an item is.
type GogglesKind uint8

// The kinds.
const (
	GogglesValue GogglesKind = iota // a value that is changed
	GogglesPage                     // it opens a page
	GogglesLeave                    // it leaves the page or the menu
)

// GogglesItem is one line of a page.
type GogglesItem struct {
	Kind  GogglesKind
	Label string
	// Holds is how many items a page holds, without its way out.
	Holds int
	// Value with its unit, and Was what it was when the menu was opened, where it was Changed. Less and More: there is room that way.
	Value, Was string
	Changed    bool
	Less, More bool
	// Moves: the sticks move the value now, Upright by up and down. Inside: it was gone into for that.
	Moves, Upright, Inside bool
}

// craftStands is how the craft stands, and before it which menu is open and where its mark stands.
func (v *View) craftStands() string {
	if g := &v.Gestures.Goggles; g.Open {
		return phrase.MenuFirst(g.Stands, phrase.CraftStands(&v.Snap))
	}
	return phrase.CraftStands(&v.Snap)
}

// gogglesInstead draws the goggles picture in the place of the craft while a menu is open, where there is room for it.
func (b *board) gogglesInstead(r ink.Rect) bool {
	g := &b.v.Gestures.Goggles
	if !g.Open || r.W < 220*b.u || r.H < 120*b.u {
		return false
	}
	b.gogglesPicture(r)
	return true
}

// gogglesSheet draws the goggles picture while a menu is open, and beside it the sticks that move it.
func (b *board) gogglesSheet(r ink.Rect) {
	if b.tall {
		top, low := r.CutTop(r.H*0.55, b.gap)
		b.gogglesPicture(top)
		b.gogglesHands(low)
		return
	}
	share := 0.64
	if b.v.Class {
		share = 0.68
	}
	left, right := r.CutLeft(r.W*share, b.gap*1.4)
	b.gogglesPicture(left)
	b.gogglesHands(right)
}

// gogglesHands is how the menu is moved, and the sticks.
func (b *board) gogglesHands(r ink.Rect) {
	b.Group("moves")
	v := &b.v.Gestures.Goggles
	size := b.head
	if !b.v.Class {
		r = b.section(r, "moves heading", phrase.GogglesMovesTitle())
	}
	most := r.H * 0.55
	for size > b.small && b.factsHeight(r.W, v.Moves, size) > most {
		size--
	}
	for _, text := range v.Moves {
		n, _ := ink.CountLines(text, r.W, size, ink.Regular)
		n = min(n, int((r.H*0.6+0.3*size)/ink.LineHeight(size)))
		if n < 1 {
			break
		}
		h, _ := b.Block("move", r.X, r.Y, ink.Style{Size: size, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, text)
		_, r = r.CutTop(h, 5*b.u)
	}
	if h := b.cornerNote(r, size); h > 0 {
		_, r = r.CutTop(h, 5*b.u)
	}
	b.Group("sticks")
	mode := stickMode(b.v.StickMode)
	if !b.v.Class {
		r = b.section(r, "sticks heading", phrase.SticksTitle(mode))
	}
	for i, g := range gimbals[mode] {
		cell := r.Cell(i, 2, 1, b.gap)
		if r.H > r.W {
			cell = r.Cell(i, 1, 2, b.gap)
		}
		b.gogglesStick(cell, i, g)
	}
}

// gogglesStick is one stick that moves the menu, without the words that the practice of gestures has.
func (b *board) gogglesStick(r ink.Rect, side int, g gimbal) {
	name := [2]string{"left", "right"}[side]
	if !b.v.Class {
		b.stick(r, g, name)
		return
	}
	size := min(r.W, r.H-ink.BlockHeight(b.body, 1)-4*b.u)
	if size < 40*b.u {
		return
	}
	well := ink.Rect{X: r.Centre().X - size/2, Y: r.Y, W: size, H: size}
	b.well(name, well, g)
	b.fitted(name+" stick word", ink.Rect{X: r.X, Y: well.Bottom() + 4*b.u, W: r.W, H: ink.BlockHeight(b.body, 1)}, ink.Style{Size: b.body, Anchor: ink.Centre}, phrase.StickName(side))
}

// gogglesPicture is the picture in the goggles: a drafted frame, the land drawn faintly, one line of instruments, and the menu as a
// sheet laid over it.
func (b *board) gogglesPicture(r ink.Rect) {
	b.Group("goggles")
	small := r.H < 260*b.u && !b.v.Class // a panel of the bench
	edge, gap := 8*b.u, 12*b.u
	if small {
		edge, gap = 4*b.u, 5*b.u
	}
	b.RoundRect("goggles frame", r, 16*b.u, ink.Paint{Line: ink.Ink, Width: 2.5 * b.u})
	in := r.Inset(edge)
	b.RoundRect("goggles inner frame", in, 12*b.u, ink.Paint{Line: ink.Rule})
	bar, scene := in.CutBottom(ink.BlockHeight(b.body, 1)+gap-4*b.u, 0)
	b.land(scene.Inset(2 * b.u))
	b.Line("instruments rule", in.X+2*b.u, bar.Y, in.Right()-2*b.u, bar.Y, ink.Paint{Line: ink.Rule})
	b.instruments(ink.Rect{X: bar.X + 12*b.u, Y: bar.Y, W: bar.W - 24*b.u, H: bar.H})
	b.menuSheet(scene.Inset(gap), small)
}

// land is what a camera on the ground sees: a level horizon, hills, a path that runs to it and some trees. It carries no meaning.
func (b *board) land(r ink.Rect) {
	grid := ink.Paint{Line: ink.Grid, Width: 1.2 * b.u, Under: true}
	y := r.Y + r.H*0.56
	b.Line("horizon", r.X, y, r.Right(), y, grid)
	hills := make([]ink.Point, 0, 25)
	for i := range 25 {
		x := float64(i) / 24
		hills = append(hills, ink.Point{X: r.X + r.W*x, Y: y - r.H*(0.05+0.035*math.Sin(7*x+1)+0.02*math.Sin(17*x))})
	}
	b.Polyline("hills", hills, grid)
	for _, s := range [...]float64{-1, 1} {
		b.Line("path", r.X+r.W*(0.62+0.006*s), y, r.X+r.W*(0.62+0.16*s), r.Bottom(), grid)
	}
	for _, t := range [...][2]float64{{0.08, 0.07}, {0.19, 0.05}, {0.31, 0.055}, {0.77, 0.05}, {0.86, 0.08}, {0.93, 0.06}} {
		x, h := r.X+r.W*t[0], r.H*t[1]*2
		b.Line("tree", x, y, x, y-h*0.45, grid)
		b.Circle("tree crown", x, y-h*0.75, h*0.32, grid)
	}
}

// instruments are the one line at the lower edge of the picture: pack, mode, armed or not, link.
func (b *board) instruments(r ink.Rect) {
	words := phrase.GogglesLine(&b.v.Facts)
	var parts [len(words)]ink.Part
	for i, w := range words {
		parts[i] = ink.Share(ink.Width(w, b.body, ink.Bold)+2*b.u, 0)
	}
	for i, cell := range r.Columns(b.v.cells[:0], 6*b.u, parts[:]...) {
		style := ink.Style{Size: b.body}
		if i == 2 {
			style.Weight = ink.Bold
		}
		b.fitted("instrument", cell, style, words[i])
	}
}

// menuSheet is the menu: its path, the items with the mark, and the leaving question.
func (b *board) menuSheet(r ink.Rect, small bool) {
	v := &b.v.Gestures.Goggles
	least, rows := ink.LineHeight(b.body)+5*b.u, len(v.Items)
	if v.Leaving {
		rows = len(v.Answers) + 1
	}
	// Large enough to be read, but with some of the land to be seen; and every label and value whole, where that is possible.
	text, w := b.TextSize(22), max(0.72*r.W, min(r.W, 360*b.u))
	if b.v.Class {
		text = b.body * 1.3
	}
	if small {
		text, w = b.body, r.W
	}
	for ; text > b.body && float64(rows)*(ink.LineHeight(text)+8*b.u) > r.H*0.62; text-- {
	}
	for ; text > 1.2*b.body && b.menuWidth(text, true) > r.W; text-- {
	}
	for ; text > b.body && b.menuWidth(text, false) > r.W; text-- {
	}
	w = clamp(b.menuWidth(text, true), w, r.W)
	line := ink.LineHeight(text) + 8*b.u
	head := ink.LineHeight(b.head) + 10*b.u
	foot := ink.LineHeight(b.small) + 6*b.u
	if b.v.Class || small {
		foot = 0
	}
	if want := (r.H - head - foot - 12*b.u) / float64(max(rows, 1)); want < line {
		line, text = max(want, least), b.body
	}
	fit := max(1, int((r.H-head-foot-12*b.u)/line))
	shown := min(rows, fit)
	s := ink.Rect{X: r.X, Y: r.Y, W: w, H: head + float64(shown)*line + foot + 12*b.u}
	b.Rect("menu sheet", s, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.6 * b.u})
	in := s.Inset(6 * b.u)
	row, in := in.CutTop(head-4*b.u, 4*b.u)
	b.fitted("menu path", ink.Rect{X: row.X + 4*b.u, Y: row.Y, W: row.W - 8*b.u, H: row.H - 4*b.u}, ink.Style{Size: b.head, Weight: ink.Bold}, phrase.GogglesPath(v.Path))
	b.Line("menu rule", row.X, row.Bottom()-b.u, row.Right(), row.Bottom()-b.u, ink.Paint{Line: ink.Rule})
	if v.Leaving {
		b.leaving(in, text, line)
	} else {
		first := 0
		if rows > fit {
			first = clampInt(v.Mark-fit/2, 0, rows-fit)
		}
		for i := first; i < first+shown; i++ {
			b.menuRow(ink.Rect{X: in.X, Y: in.Y + float64(i-first)*line, W: in.W, H: line}, text, &v.Items[i], i == v.Mark)
		}
	}
	if foot > 0 {
		note := ink.Rect{X: in.X + 4*b.u, Y: s.Bottom() - foot - 2*b.u, W: in.W - 8*b.u, H: foot}
		b.fitted("menu changed", note, ink.Style{Size: b.small, Colour: ink.Faint}, phrase.GogglesChanged(v.Changed))
	}
}

// menuWidth is how wide a menu is whose labels and values are written whole at a size; was counts in what they were.
func (b *board) menuWidth(text float64, was bool) float64 {
	v := &b.v.Gestures.Goggles
	left := 12*b.u + b.rowStart() + 8*b.u // the sheet's edges, and the room at both sides
	d := ink.CapHeight(text, ink.Bold) * 0.42
	most := 0.0
	for i := range v.Items {
		it := &v.Items[i]
		w := ink.Width(it.Label, text, ink.Bold) + 3*d
		switch it.Kind {
		case GogglesPage:
			w += ink.Width(phrase.GogglesInside(it.Holds), text, ink.Regular) + 16*b.u
		case GogglesValue:
			w += ink.Width(it.Value, text, ink.Bold) + 4*d + 6*b.u + 16*b.u
			if was && it.Changed {
				w += ink.Width(phrase.GogglesWas(it.Was, false), max(b.small, text*0.62), ink.Regular) + 16*b.u
			}
		}
		most = max(most, w)
	}
	if v.Leaving {
		most = ink.Width(phrase.GogglesLeaving(v.Changed), text, ink.Bold)
		for _, a := range v.Answers {
			most = max(most, ink.Width(a, text, ink.Bold))
		}
	}
	return most + left
}

// rowStart is how far the words of a row stand from its left edge.
func (b *board) rowStart() float64 { return 12 * b.u }

// markRow frames the row that the mark stands on, and gives where the words begin.
func (b *board) markRow(r ink.Rect, marked bool) float64 {
	if marked {
		b.RoundRect("mark", r.Inset(b.u), 4*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 2 * b.u})
	}
	return r.X + b.rowStart()
}

// menuRow is one item: its label, and how many stand in a page, or the value with its unit; a changed one has a diamond and says what it was.
func (b *board) menuRow(r ink.Rect, text float64, it *GogglesItem, marked bool) {
	x := b.markRow(r, marked)
	style := ink.Style{Size: text}
	if marked {
		style.Weight = ink.Bold
	}
	right := r.Right() - 8*b.u
	switch it.Kind {
	case GogglesPage:
		inside := phrase.GogglesInside(it.Holds)
		b.Text("inside", right, r.Centre().Y, ink.Style{Size: text, Anchor: ink.Right | ink.Middle, Within: r}, inside)
		b.fitted("item", ink.Rect{X: x, Y: r.Y, W: right - x - ink.Width(inside, text, ink.Regular) - 8*b.u, H: r.H}, style, it.Label)
		return
	case GogglesLeave:
		b.fitted("item", ink.Rect{X: x, Y: r.Y, W: right - x, H: r.H}, style, it.Label)
		return
	}
	d := ink.CapHeight(text, ink.Bold) * 0.42
	// Which way there is room stands beside the value that the sticks move.
	if it.Moves {
		b.room(right-4*d-3*b.u, r.Centre().Y, d, it)
	}
	right -= 4*d + 6*b.u
	w := ink.Width(it.Value, text, ink.Bold)
	b.Text("value", right, r.Centre().Y, ink.Style{Size: text, Weight: ink.Bold, Anchor: ink.Right | ink.Middle, Within: r}, it.Value)
	if it.Inside { // a line under the value that was gone into
		y := r.Centre().Y + ink.CapHeight(text, ink.Bold)*0.5 + 0.3*text
		b.Line("value gone into", right-w, y, right, y, ink.Paint{Line: ink.Focus, Width: 2 * b.u})
	}
	end := right - w - 8*b.u
	if it.Changed {
		cx := end - d
		pts := [...]ink.Point{{X: cx, Y: r.Centre().Y - d*1.3}, {X: cx + d*1.3, Y: r.Centre().Y}, {X: cx, Y: r.Centre().Y + d*1.3}, {X: cx - d*1.3, Y: r.Centre().Y}}
		b.Polygon("changed", pts[:], ink.Paint{Fill: ink.Focus})
		end -= 2.6*d + 5*b.u
		size := max(b.small, text*0.62)
		label := ink.Width(it.Label, text, style.Weight) + 8*b.u
		for _, short := range [2]bool{false, true} {
			words := phrase.GogglesWas(it.Was, short)
			if w := ink.Width(words, size, ink.Regular); end-w-x > label {
				b.Text("was", end, r.Centre().Y, ink.Style{Size: size, Colour: ink.Faint, Anchor: ink.Right | ink.Middle, Within: r}, words)
				end -= w + 8*b.u
				break
			}
		}
	}
	b.fitted("item", ink.Rect{X: x, Y: r.Y, W: end - x, H: r.H}, style, it.Label)
}

// room draws which way there is room for a value, from x on in a width of four times d: an arrow, or a bar where there is none.
func (b *board) room(x, y, d float64, it *GogglesItem) {
	for i, there := range [2]bool{it.Less, it.More} {
		way := [2]float64{-1, 1}[i]
		c := ink.Point{X: x + d + float64(i)*(2*d+2*b.u), Y: y}
		at := func(across, along float64) ink.Point {
			if it.Upright { // more is up
				return ink.Point{X: c.X + across, Y: c.Y - along*way}
			}
			return ink.Point{X: c.X + along*way, Y: c.Y + across}
		}
		if there {
			pts := [...]ink.Point{at(-d*0.95, -d*0.8), at(0, d*0.8), at(d*0.95, -d*0.8)}
			b.Polygon("room", pts[:], ink.Paint{Fill: ink.Ink})
			continue
		}
		from, to := at(-d*0.9, d*0.5), at(d*0.9, d*0.5)
		b.Line("no room", from.X, from.Y, to.X, to.Y, ink.Paint{Line: ink.Rule, Width: 1.6 * b.u})
	}
}

// leaving asks what is to become of what was changed.
func (b *board) leaving(r ink.Rect, text, line float64) {
	v := &b.v.Gestures.Goggles
	row, r := r.CutTop(line, 0)
	b.fitted("leaving", ink.Rect{X: row.X + 8*b.u, Y: row.Y, W: row.W - 16*b.u, H: row.H}, ink.Style{Size: text, Weight: ink.Bold}, phrase.GogglesLeaving(v.Changed))
	for i, a := range v.Answers {
		row := ink.Rect{X: r.X, Y: r.Y + float64(i)*line, W: r.W, H: line}
		x := b.markRow(row, i == v.Answer)
		style := ink.Style{Size: text}
		if i == v.Answer {
			style.Weight = ink.Bold
		}
		b.fitted("answer", ink.Rect{X: x, Y: row.Y, W: row.Right() - x - 8*b.u, H: row.H}, style, a)
	}
}
