package sheet

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// How much of the callouts stands at the places: all, one line each, or the mark alone (the words stand in the list).
const (
	wordy = iota
	terse
	marked
)

// leverPlan is how the levers are set: which of them, where, and how large.
type leverPlan struct {
	size    float64
	detail  int
	columns int
	width   float64
	first   int // lever
	cells   []leverCell
}

// leverCell is one lever's place; of its positions those from from up to, not including, to are drawn.
type leverCell struct {
	lever, column int
	from, to      int
	y, h          float64
}

// leverText is the room to the left of a position's words.
func (b *board) leverText() float64 { return 22 * b.u }

// leastColumn is the least width of a column of levers at a text size.
func leastColumn(size float64) float64 { return size * 17.2 }

// planLevers finds the largest text and the most words at which every lever has its place; where there is no room for all,
// those round the chosen one.
func (b *board) planLevers(r ink.Rect) leverPlan {
	levers := b.v.Layout.Levers
	largest := b.large
	if b.v.Class {
		largest = 3 * b.small
	}
	for size := largest; size > b.small; size -= max(1, math.Floor(b.small/12)) {
		if p := b.pack(r, size, wordy, 0); len(p.cells) == len(levers) {
			return p
		}
	}
	for detail := wordy; detail <= marked; detail++ {
		if p := b.pack(r, b.small, detail, 0); len(p.cells) == len(levers) {
			return p
		}
	}
	// Not all of them: as many as there is room for, with as many words as the tallest leaves room for.
	for detail := wordy; detail <= marked; detail++ {
		for first := 0; first < len(levers); first++ {
			p := b.pack(r, b.small, detail, first)
			if n := len(p.cells); n > 0 && p.first <= b.v.Layout.Chosen && b.v.Layout.Chosen < p.first+n {
				return p
			}
		}
	}
	// Not even one as a whole: those of its positions that have room, round the chosen one.
	p := leverPlan{size: b.small, detail: marked, columns: 1, width: r.W, first: b.v.Layout.Chosen}
	l := &levers[p.first]
	from := min(b.v.Layout.At, max(len(l.Positions)-1, 0))
	to := min(from+1, len(l.Positions))
	for grown := true; grown; {
		grown = false
		for _, next := range [...][2]int{{from, to + 1}, {from - 1, to}} {
			if next[0] >= 0 && next[1] <= len(l.Positions) && b.leverHeight(l, p.width, p.size, p.detail, next[0], next[1]) <= r.H {
				from, to, grown = next[0], next[1], true
			}
		}
	}
	p.cells = append(p.cells, leverCell{lever: p.first, from: from, to: to, y: r.Y, h: b.leverHeight(l, p.width, p.size, p.detail, from, to)})
	return p
}

// pack fills columns from the first lever on.
func (b *board) pack(r ink.Rect, size float64, detail, first int) leverPlan {
	levers := b.v.Layout.Levers
	columns := max(1, int((r.W+b.gap)/(leastColumn(size)+b.gap)))
	columns = min(columns, max(len(levers)-first, 1))
	p := leverPlan{size: size, detail: detail, columns: columns, first: first}
	p.width = (r.W - float64(columns-1)*b.gap) / float64(columns)
	column, y := 0, r.Y
	for i := first; i < len(levers); i++ {
		all := len(levers[i].Positions)
		h := b.leverHeight(&levers[i], p.width, size, detail, 0, all)
		if y+h > r.Bottom() && y > r.Y {
			column, y = column+1, r.Y
		}
		if column >= columns || y+h > r.Bottom() {
			break
		}
		p.cells = append(p.cells, leverCell{lever: i, column: column, to: all, y: y, h: h})
		y += h + b.gap
	}
	// A column each where there are no more levers than columns.
	if len(p.cells) == len(levers)-first && len(p.cells) <= columns {
		for i := range p.cells {
			p.cells[i].column, p.cells[i].y = i, r.Y
		}
	}
	return p
}

// noteLines is how many lines a note takes.
func noteLines(text string, w, size float64, detail int) int {
	switch detail {
	case terse:
		return 1
	case marked:
		return 0
	}
	n, _ := ink.CountLines(text, w, size, ink.Regular)
	return n
}

func (b *board) leverTitle(size float64) float64 { return 2*ink.LineHeight(size) + 7*b.u }

func (b *board) leverHeight(l *LayoutLever, w, size float64, detail, from, to int) float64 {
	h := b.leverTitle(size)
	if detail < marked {
		for _, n := range l.Notes {
			h += float64(noteLines(n, w-17*b.u, size, detail))*ink.LineHeight(size) + 2*b.u
		}
	}
	for i := from; i < to; i++ {
		h += b.placeHeight(&l.Positions[i], w, size, detail)
	}
	return h
}

// placeHeight is the height of one position: what the craft does there, value and margin, and its notes.
func (b *board) placeHeight(p *LayoutPosition, w, size float64, detail int) float64 {
	w -= b.leverText() + 4*b.u
	lines := 2
	if !b.oneLine(p, w, size) {
		lines = 3
	}
	h := float64(lines)*ink.LineHeight(size) + 7*b.u
	if detail < marked {
		for _, n := range p.Notes {
			h += float64(noteLines(n, w-17*b.u, size, detail)) * ink.LineHeight(size)
		}
	}
	return max(h, 25*b.u)
}

// oneLine tells whether value and margin stand on one line.
func (b *board) oneLine(p *LayoutPosition, w, size float64) bool {
	return ink.Width(p.Value+"; "+p.Margin, size, ink.Regular) <= w
}

// layoutLevers draws the switches as levers. Where not all have room, their names stand in a row above.
func (b *board) layoutLevers(r ink.Rect) {
	b.Group("levers")
	levers := b.v.Layout.Levers
	if len(levers) == 0 {
		b.sticks(r)
		return
	}
	plan := b.planLevers(b.belowTitle(r))
	if len(plan.cells) < len(levers) {
		below := b.belowTitle(r)
		row, rest := below.CutTop(b.switchRow()*float64(b.nameRows(below)), b.gap)
		plan = b.planLevers(rest)
		b.section(r, "levers heading", phrase.LayoutTitle(len(plan.cells), len(levers)))
		b.switchNames(row)
		b.placeLevers(rest, &plan)
		return
	}
	b.section(r, "levers heading", phrase.LayoutTitle(len(levers), len(levers)))
	b.placeLevers(b.belowTitle(r), &plan)
}

func (b *board) belowTitle(r ink.Rect) ink.Rect {
	_, rest := r.CutTop(b.sectionHeight(), 0)
	return rest
}

func (b *board) switchRow() float64 { return max(29*b.u, 1.7*b.small) }

// nameRows is how many rows the names of all switches take.
func (b *board) nameRows(r ink.Rect) int {
	per := max(1, int(r.W/(7.5*b.small)))
	return (len(b.v.Layout.Levers) + per - 1) / per
}

// switchNames draws the names of all switches; the chosen one is framed, one with a warning has its mark.
func (b *board) switchNames(r ink.Rect) {
	levers := b.v.Layout.Levers
	rows := b.nameRows(r)
	columns := (len(levers) + rows - 1) / rows
	for i := range levers {
		cell := r.Cell(i, columns, rows, 3*b.u)
		if i == b.v.Layout.Chosen {
			b.RoundRect("switch chosen", cell, 3*b.u, ink.Paint{Line: ink.Focus, Width: 1.6 * b.u})
		} else {
			b.RoundRect("switch", cell, 3*b.u, ink.Paint{Line: ink.Rule})
		}
		x := cell.X + 5*b.u
		if levers[i].Warns {
			b.warning(x, cell.Centre().Y)
			x += 16 * b.u
		}
		b.fitted("switch name", ink.Rect{X: x, Y: cell.Y, W: cell.Right() - x - 4*b.u, H: cell.H}, ink.Style{Size: b.small}, levers[i].Name)
		b.Hit(leverPrefix+strconv.Itoa(i+1), "", cell)
	}
}

// placeLevers draws the planned levers, with the room that is left shared out between their positions.
func (b *board) placeLevers(r ink.Rect, p *leverPlan) {
	for column := range p.columns {
		used, places := 0.0, 0
		for _, c := range p.cells {
			if c.column == column {
				used = max(used, c.y+c.h-r.Y)
				places += c.to - c.from
			}
		}
		spare := 0.0
		if places > 0 {
			spare = clamp((r.H-used)/float64(places), 0, 3.2*p.size)
		}
		shift := 0.0
		for _, c := range p.cells {
			if c.column != column {
				continue
			}
			more := spare * float64(c.to-c.from)
			x := r.X + float64(column)*(p.width+b.gap)
			b.layoutLever(ink.Rect{X: x, Y: c.y + shift, W: p.width, H: c.h + more}, c, p, spare)
			shift += more
		}
	}
}

// layoutLever draws one switch: its name and source, its notes, and its positions from high to low along the slot.
func (b *board) layoutLever(r ink.Rect, c leverCell, p *leverPlan, spare float64) {
	n := c.lever
	l := &b.v.Layout.Levers[n]
	line := ink.LineHeight(p.size)
	name := "lever " + strconv.Itoa(n+1)
	x := r.X
	if l.Warns {
		b.warning(x, r.Y+line/2+b.u)
		x += 17 * b.u
	}
	one := ink.Block{Width: r.Right() - x, MaxLines: 1, Shorten: true}
	b.Block(name+" name", x, r.Y, ink.Style{Size: p.size, Weight: ink.Bold, Within: r}, one, l.Name)
	from := l.From
	if c.to-c.from < len(l.Positions) {
		from = phrase.LayoutPartly(c.to-c.from, len(l.Positions)) + "; " + from
	}
	b.Block(name+" from", r.X, r.Y+line, ink.Style{Size: p.size, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W, MaxLines: 1, Shorten: true}, from)
	_, rest := r.CutTop(b.leverTitle(p.size), 0)
	if p.detail < marked {
		for _, text := range l.Notes {
			rest = b.leverNote(rest, name, text, p)
		}
	}
	if c.to == c.from {
		return
	}
	slot := rest.X + 8*b.u
	height := func(i int) float64 { return b.placeHeight(&l.Positions[i], r.W, p.size, p.detail) + spare }
	last := rest.Y - height(c.from)/2
	for i := c.from; i < c.to; i++ {
		last += height(i)
	}
	b.Line(name+" slot", slot, rest.Y+height(c.to-1)/2, slot, last, ink.Paint{Line: ink.Rule, Width: 2 * b.u})
	y := rest.Y
	for i := c.to - 1; i >= c.from; i-- {
		h := height(i)
		b.layoutPlace(ink.Rect{X: rest.X, Y: y, W: rest.W, H: h}, n, i, p)
		y += h
	}
}

// leverNote writes a callout about a whole switch below its name.
func (b *board) leverNote(r ink.Rect, name, text string, p *leverPlan) ink.Rect {
	lines := noteLines(text, r.W-17*b.u, p.size, p.detail)
	row, rest := r.CutTop(float64(lines)*ink.LineHeight(p.size)+2*b.u, 0)
	b.Block(name+" note", row.X+17*b.u, row.Y, ink.Style{Size: p.size, Within: row.Inset(-2 * b.u)}, ink.Block{Width: row.W - 17*b.u, MaxLines: lines, Shorten: true}, text)
	return rest
}

// layoutPlace draws one position: the lever stands at the live one, the chosen one is framed.
func (b *board) layoutPlace(r ink.Rect, n, i int, p *leverPlan) {
	l := &b.v.Layout.Levers[n]
	at := &l.Positions[i]
	name := "place " + strconv.Itoa(n+1) + "-" + strconv.Itoa(i+1)
	live, chosen := i == l.Live, n == b.v.Layout.Chosen && i == b.v.Layout.At
	box := ink.Rect{X: r.X + 15*b.u, Y: r.Y + b.u, W: r.W - 15*b.u, H: r.H - 2*b.u}
	paint := ink.Paint{}
	if live {
		paint = ink.Paint{Fill: ink.Panel, Line: ink.Rule}
	}
	if chosen {
		paint.Line, paint.Width = ink.Focus, 1.8*b.u
	}
	if live || chosen {
		b.RoundRect(name+" box", box, 3*b.u, paint)
	}
	slot, y := r.X+8*b.u, r.Centre().Y
	if live {
		b.Rect(name+" lever", ink.Rect{X: slot - 7*b.u, Y: y - 5*b.u, W: 14 * b.u, H: 10 * b.u}, ink.Paint{Fill: ink.Ink})
	} else {
		b.Circle(name+" rest", slot, y, 3.2*b.u, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.3 * b.u})
	}
	x := r.X + b.leverText()
	w := r.Right() - x - 4*b.u
	line := ink.LineHeight(p.size)
	one := ink.Block{Width: w, MaxLines: 1, Shorten: true}
	need := b.placeHeight(at, r.W, p.size, p.detail) - 7*b.u
	top := r.Y + (r.H-need)/2
	weight := ink.Bold
	does := one
	if len(at.Notes) > 0 {
		does.Width -= 16 * b.u
		b.warning(x+w-13*b.u, top+line/2)
	}
	b.Block(name+" does", x, top, ink.Style{Size: p.size, Weight: weight, Within: r}, does, at.Does)
	faint := ink.Style{Size: p.size, Colour: ink.Faint, Within: r}
	top += line
	if b.oneLine(at, w, p.size) {
		b.Block(name+" value", x, top, faint, one, at.Value+"; "+at.Margin)
	} else {
		b.Block(name+" value", x, top, faint, one, at.Value)
		top += line
		b.Block(name+" margin", x, top, faint, one, at.Margin)
	}
	top += line
	if p.detail < marked {
		for _, text := range at.Notes {
			lines := noteLines(text, w-17*b.u, p.size, p.detail)
			b.Block(name+" note", x, top, ink.Style{Size: p.size, Within: r}, ink.Block{Width: w - 17*b.u, MaxLines: lines, Shorten: true}, text)
			top += float64(lines) * line
		}
	}
	b.Hit(leverPrefix+strconv.Itoa(n+1)+"-"+strconv.Itoa(i+1), "", ink.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H})
}
