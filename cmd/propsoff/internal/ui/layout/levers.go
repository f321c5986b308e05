package layout

import (
	"math"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// block is some texts one below the other, and the height that they take; broken where one takes several lines.
type block struct {
	texts  []text
	h      float64
	broken bool
}

// text is one text of a block: where it stands in it, how wide, and in how many lines.
type text struct {
	name, says string
	x, y, w    float64
	lines      int
	style      ink.Style
}

func (k *block) add(name, says string, x, w float64, s ink.Style) {
	n, _ := ink.CountLines(says, w, s.Size, s.Weight)
	k.texts = append(k.texts, text{name, says, x, k.h, w, n, s})
	k.h += float64(n) * ink.LineHeight(s.Size)
	k.broken = k.broken || n > 1
}

// set is a lever set in a width at a size: its head, and its places from low to high; broken where facts at a place take several lines.
type set struct {
	head   block
	places []block
	broken bool
}

// set sets a lever. Its callouts stand there as far as they are to be told here; else their mark alone, and their words in the list.
func (b *board) set(n int, w, size float64, told bool) set {
	l, plain, bold, faint := &b.v.Levers[n], ink.Style{Size: size}, ink.Style{Size: size, Weight: ink.Bold}, ink.Style{Size: size, Colour: ink.Faint}
	notes := func(k *block, all []words.Text, x, w float64) {
		for i := range all {
			if told {
				k.add(" note", b.say(&all[i]), x, w, plain)
			}
		}
	}
	var s set
	x := 0.0
	if l.Warns {
		x = b.mark()
	}
	s.head.add(" name", b.say(&l.Name), x, w-x, bold)
	s.head.add(" from", b.say(&l.From), 0, w, faint)
	notes(&s.head, l.Notes, b.mark(), w-b.mark())
	s.head.h += 7 * b.U
	x = 22 * b.U
	w -= x + 4*b.U
	for i := range l.Positions {
		p, k, does := &l.Positions[i], block{}, w
		if len(p.Notes) > 0 {
			does -= b.mark()
		}
		k.add(" does", b.say(&p.Does), x, does, bold)
		value, margin := b.say(&p.Value), b.say(&p.Margin)
		if both := value + "; " + margin; ink.Width(both, size, ink.Regular) <= w {
			k.add(" value", both, x, w, faint)
		} else {
			k.add(" value", value, x, w, faint)
			k.add(" margin", margin, x, w, faint)
		}
		s.broken = s.broken || k.broken
		notes(&k, p.Notes, x, w-b.mark())
		k.h = b.ForFinger(max(k.h+7*b.U, 25*b.U))
		s.places = append(s.places, k)
	}
	return s
}

// height is what a lever with those of its places takes.
func (s *set) height(from, to int) float64 {
	h := s.head.h
	for i := from; i < to; i++ {
		h += s.places[i].h
	}
	return h
}

// plan is how the levers are set: which of them, where, and how large.
type plan struct {
	size    float64
	columns int
	width   float64
	cells   []cell
}

// cell is one lever's place; of its positions those from from up to, not including, to are drawn.
type cell struct {
	set
	lever, column int
	from, to      int
	y, h          float64
}

// plan finds the largest text and the most words at which every lever has its place; where there is no room for all, those round the chosen one.
func (b *board) plan(r ink.Rect) plan {
	n, largest := len(b.v.Levers), b.Large
	if b.V.Class {
		largest = 3 * b.Small
	}
	for _, whole := range [...]bool{true, false} { // a little smaller, if then each fact stands on one line
		for size := largest; size > b.Small; size -= max(1, math.Floor(b.Small/12)) {
			if p := b.pack(r, size, b.columns(r, size), true, 0); len(p.cells) == n && !(whole && slices.ContainsFunc(p.cells, func(c cell) bool { return c.broken })) {
				return p
			}
		}
	}
	for _, told := range [...]bool{true, false} {
		if p := b.pack(r, b.Small, b.columns(r, b.Small), told, 0); len(p.cells) == n {
			return p
		}
	}
	// Not all of them: as many as there is room for.
	for _, told := range [...]bool{true, false} {
		for columns := b.columns(r, b.Small); columns > 0; columns-- {
			for first := range b.v.Chosen + 1 {
				if p := b.pack(r, b.Small, columns, told, first); first+len(p.cells) > b.v.Chosen {
					return p
				}
			}
		}
	}
	// Not even one as a whole: those of its positions that have room, round the chosen one.
	c := cell{set: b.set(b.v.Chosen, r.W, b.Small, false), lever: b.v.Chosen, y: r.Y}
	all := len(c.places)
	c.from = min(b.v.At, max(all-1, 0))
	c.to = min(c.from+1, all)
	for grown := true; grown; {
		grown = false
		for _, next := range [...][2]int{{c.from, c.to + 1}, {c.from - 1, c.to}} {
			if next[0] >= 0 && next[1] <= all && c.height(next[0], next[1]) <= r.H {
				c.from, c.to, grown = next[0], next[1], true
			}
		}
	}
	c.h = c.height(c.from, c.to)
	return plan{size: b.Small, columns: 1, width: r.W, cells: []cell{c}}
}

// columns is in how many columns levers stand at most, ours: of at least 17.2 text sizes each.
func (b *board) columns(r ink.Rect, size float64) int {
	return max(1, int((r.W+b.Gap)/(17.2*size+b.Gap)))
}

// pack fills columns from the first lever on.
func (b *board) pack(r ink.Rect, size float64, columns int, told bool, first int) plan {
	left := len(b.v.Levers) - first
	columns = min(columns, left)
	p := plan{size: size, columns: columns, width: (r.W - float64(columns-1)*b.Gap) / float64(columns)}
	column, y := 0, r.Y
	for i := first; i < len(b.v.Levers); i++ {
		c := cell{set: b.set(i, p.width, size, told), lever: i, to: len(b.v.Levers[i].Positions)}
		c.h = c.height(0, c.to)
		if y+c.h > r.Bottom() && y > r.Y {
			column, y = column+1, r.Y
		}
		if column >= columns || y+c.h > r.Bottom() {
			break
		}
		c.column, c.y = column, y
		p.cells = append(p.cells, c)
		y += c.h + b.Gap
	}
	// A column each where there are no more levers than columns.
	if len(p.cells) == left && left <= columns {
		for i := range p.cells {
			p.cells[i].column, p.cells[i].y = i, r.Y
		}
	}
	return p
}

// drawLevers draws the switches as levers. Where not all have room, their names stand in rows above.
func (b *board) drawLevers(r ink.Rect) {
	b.Group("levers")
	n := len(b.v.Levers)
	if n == 0 {
		b.Sticks(r)
		return
	}
	_, below := r.CutTop(b.SectionHeight(), 0)
	p := b.plan(below)
	if len(p.cells) < n {
		below = b.names(below)
		p = b.plan(below)
	}
	b.Section(r, "levers-heading", b.Say(tell.LayoutTitle(len(p.cells), n)))
	b.placeLevers(below, &p)
}

// names draws the names of all switches, the chosen one framed, one with a warning with its mark; it gives what is left below.
func (b *board) names(r ink.Rect) ink.Rect {
	n := len(b.v.Levers)
	per := max(1, int(r.W/(7.5*b.Small)))
	rows := (n + per - 1) / per
	row, rest := r.CutTop(b.ForFinger(max(29*b.U, 1.7*b.Small))*float64(rows)+float64(rows-1)*3*b.U, b.Gap)
	for i := range b.v.Levers {
		l, box := &b.v.Levers[i], row.Cell(i, (n+rows-1)/rows, rows, 3*b.U)
		name, paint := "switch", ink.Paint{Line: ink.Rule}
		if i == b.v.Chosen {
			name, paint = "switch-chosen", ink.Paint{Line: ink.Focus, Width: 1.6 * b.U}
		}
		b.RoundRect(name, box, 3*b.U, paint)
		x := box.X + 5*b.U
		if l.Warns {
			b.Warning(x, box.Centre().Y)
			x += 16 * b.U
		}
		b.Fitted("switch-name", ink.Rect{X: x, Y: box.Y, W: box.Right() - x - 4*b.U, H: box.H}, ink.Style{Size: b.Small}, b.say(&l.Name))
		b.Hit(leverPrefix+strconv.Itoa(i+1), "", box)
	}
	return rest
}

// placeLevers draws the planned levers, with the room that is left shared out between their positions.
func (b *board) placeLevers(r ink.Rect, p *plan) {
	for column := range p.columns {
		used, places := 0.0, 0
		for _, c := range p.cells {
			if c.column == column {
				used = max(used, c.y+c.h-r.Y)
				places += c.to - c.from
			}
		}
		spare := ui.Clamp((r.H-used)/float64(max(places, 1)), 0, 3.2*p.size)
		shift := 0.0
		for i := range p.cells {
			c := &p.cells[i]
			if c.column != column {
				continue
			}
			more := spare * float64(c.to-c.from)
			b.drawLever(ink.Rect{X: r.X + float64(column)*(p.width+b.Gap), Y: c.y + shift, W: p.width, H: c.h + more}, c, spare)
			shift += more
		}
	}
}

// drawLever draws one switch: its name and source, its notes, and its positions from high to low along the slot.
func (b *board) drawLever(r ink.Rect, c *cell, spare float64) {
	name := "lever " + strconv.Itoa(c.lever+1)
	head := c.head.texts
	if b.v.Levers[c.lever].Warns {
		b.Warning(r.X, r.Y+ink.LineHeight(head[0].style.Size)/2+b.U)
	}
	if all := len(c.places); c.to-c.from < all {
		head[1].says = b.Say(words.Clauses(words.T("layout.partly", words.Args{"shown": words.Whole(c.to - c.from), "n": words.Count(all), "up": words.T("key-cap.up"), "down": words.T("key-cap.down")}), b.v.Levers[c.lever].From))
	}
	b.drawBlock(r, r.Y, name, &c.head)
	if c.to == c.from {
		return
	}
	_, rest := r.CutTop(c.head.h, 0)
	slot := rest.X + 8*b.U
	b.Line(name+" slot", slot, rest.Y+(c.places[c.to-1].h+spare)/2, slot, rest.Bottom()-(c.places[c.from].h+spare)/2, ink.Paint{Line: ink.Rule, Width: 2 * b.U})
	for i := c.to - 1; i >= c.from; i-- {
		var row ink.Rect
		row, rest = rest.CutTop(c.places[i].h+spare, 0)
		b.drawPlace(row, c, i)
	}
}

// drawPlace draws one position: the lever stands at the live one, the chosen one is framed.
func (b *board) drawPlace(r ink.Rect, c *cell, i int) {
	l := &b.v.Levers[c.lever]
	at := strconv.Itoa(c.lever+1) + "-" + strconv.Itoa(i+1)
	name := "place " + at
	live, chosen := i == l.Live, c.lever == b.v.Chosen && i == b.v.At
	paint := ink.Paint{}
	if live {
		paint = ink.Paint{Fill: ink.Panel, Line: ink.Rule}
	}
	if chosen {
		paint.Line, paint.Width = ink.Focus, 1.8*b.U
	}
	if live || chosen {
		b.RoundRect(name+" box", ink.Rect{X: r.X + 15*b.U, Y: r.Y + b.U, W: r.W - 15*b.U, H: r.H - 2*b.U}, 3*b.U, paint)
	}
	slot, y := r.X+8*b.U, r.Centre().Y
	if live {
		b.Rect(name+" lever", ink.Rect{X: slot - 7*b.U, Y: y - 5*b.U, W: 14 * b.U, H: 10 * b.U}, ink.Paint{Fill: ink.Ink})
	} else {
		b.Circle(name+" rest", slot, y, 3.2*b.U, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.3 * b.U})
	}
	k := &c.places[i]
	top := r.Y + (r.H-k.h+7*b.U)/2
	if len(l.Positions[i].Notes) > 0 {
		b.Warning(r.Right()-17*b.U, top+ink.LineHeight(k.texts[0].style.Size)/2)
	}
	b.drawBlock(r, top, name, k)
	b.Hit(leverPrefix+at, "", r)
}

// drawBlock draws texts from a height on.
func (b *board) drawBlock(r ink.Rect, y float64, name string, k *block) {
	for _, t := range k.texts {
		t.style.Within = r
		b.Block(name+t.name, r.X+t.x, y+t.y, t.style, ink.Block{Width: t.w, MaxLines: t.lines, Shorten: true}, t.says)
	}
}
