package sheet

import (
	"slices"
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// LayoutView is what the sheet of the switch layout may know. Its texts are made by whoever fills it, in the words of phrase.
type LayoutView struct {
	// Of says which craft and radio, Kept where the craft file is and what is not saved yet.
	Of, Kept string
	// Levers are the switches, in the order of their channels; Chosen and At are the lever and position that keys act on.
	Levers     []LayoutLever
	Chosen, At int
	// Doing is what keys do at that position; Choices are those of the craft as a whole.
	Doing   []LayoutKey
	Choices []LayoutChoice
	// Calls are all callouts, those about the craft first.
	Calls []LayoutCall
	// Said is what came of the last act.
	Said string
	// Asking, where not empty, stands in place of what keys do otherwise: a question, with Typed as the answer so far where
	// Typing. Answers are its keys.
	Asking  string
	Typing  bool
	Typed   string
	Answers []LayoutKey
}

// LayoutLever is one switch.
type LayoutLever struct {
	// Name, and From: its channel and what carries it.
	Name, From string
	// Notes are callouts about the switch as a whole.
	Notes []string
	// Warns: something about it is a warning.
	Warns bool
	// Positions from low to high; Live is where it stands now, −1 where that is not known.
	Positions []LayoutPosition
	Live      int
}

// LayoutPosition is one position of a lever.
type LayoutPosition struct {
	Does, Value, Margin string
	Notes               []string
}

// LayoutKey is a key and what it does; Code names its hit area.
type LayoutKey struct {
	Key, Code, Words string
}

// LayoutChoice is one choice of the craft with its options; Taken is the option that holds.
type LayoutChoice struct {
	LayoutKey
	Options []string
	Taken   int
}

// LayoutCall is one callout and the place that it is about, empty for the craft: a lever and a position of it, −1 for none.
type LayoutCall struct {
	Place, Text     string
	Lever, Position int
	Told            bool
}

// rank is where a callout stands in the list: what is about the chosen position and switch first, what is only told last.
func (c *LayoutCall) rank(l *LayoutView) int {
	switch {
	case c.Lever < 0, c.Lever == l.Chosen && c.Position == l.At:
		return 0
	case c.Lever == l.Chosen && !c.Told:
		return 1
	case !c.Told:
		return 2
	case c.Lever == l.Chosen:
		return 3
	}
	return 4
}

// leverPrefix and two numbers from 1 name the hit area of a position, with one number that of a switch.
const leverPrefix = "lever-"

// LeverOf finds lever and position of a hit area; position is −1 where it is that of the whole switch.
func LeverOf(code string) (lever, position int, ok bool) {
	rest, is := strings.CutPrefix(code, leverPrefix)
	if !is {
		return 0, 0, false
	}
	first, second, both := strings.Cut(rest, "-")
	lever, err := strconv.Atoi(first)
	if err != nil || lever < 1 {
		return 0, 0, false
	}
	if !both {
		return lever - 1, -1, true
	}
	position, err = strconv.Atoi(second)
	return lever - 1, position - 1, err == nil && position > 0
}

// Layout draws the switch layout: every switch as a lever, and what the craft does at each position.
func Layout(p *ink.Page, v *View) {
	b := newBoard(p, v)
	if v.Class {
		b.classLayout()
		return
	}
	r := b.footer(b.sheetArea(), OnLayout)
	r = b.layoutHead(r)
	var left, right ink.Rect
	if b.tall {
		share := 0.56
		if len(v.Layout.Levers) == 0 {
			share = 0.75
		}
		left, right = r.CutTop(r.H*share, b.gap)
	} else {
		left, right = r.CutLeft(r.W*0.665, b.gap*1.6)
	}
	b.layoutLevers(left)
	b.layoutPanel(right)
}

// layoutHead says what is looked at and what came of the last act.
func (b *board) layoutHead(r ink.Rect) ink.Rect {
	b.Group("head")
	l := &b.v.Layout
	for _, line := range [...]struct {
		name, text string
		weight     ink.Weight
	}{{"of", l.Of, ink.Bold}, {"kept", l.Kept, ink.Regular}, {"said", l.Said, ink.Bold}} {
		if line.text == "" {
			continue
		}
		lines, _ := ink.CountLines(line.text, r.W, b.body, line.weight)
		lines = min(lines, 2)
		var row ink.Rect
		row, r = r.CutTop(ink.BlockHeight(b.body, lines), 3*b.u)
		b.Block(line.name, row.X, row.Y, ink.Style{Size: b.body, Weight: line.weight, Within: row}, ink.Block{Width: row.W, MaxLines: lines, Shorten: true}, line.text)
	}
	_, r = r.CutTop(0, b.gap*0.6)
	return r
}

// layoutPanel draws what can be done at the chosen position, the choices of the craft, and everything that is called out.
func (b *board) layoutPanel(r ink.Rect) {
	l := &b.v.Layout
	if b.tall {
		left, right := r.CutLeft(r.W*0.5, b.gap*1.6)
		rest := b.layoutDoing(left)
		b.layoutChoices(rest)
		b.layoutCalls(right)
		return
	}
	r = b.layoutDoing(r)
	if l.Asking == "" {
		r = b.layoutChoices(r)
	}
	b.layoutCalls(r)
}

// layoutDoing draws the keys that act on the chosen position, or a question.
func (b *board) layoutDoing(r ink.Rect) ink.Rect {
	b.Group("doing")
	l := &b.v.Layout
	title, keys := "", l.Doing
	if l.Chosen < len(l.Levers) {
		lever := &l.Levers[l.Chosen]
		value := ""
		if l.At < len(lever.Positions) {
			value = lever.Positions[l.At].Value
		}
		title = phrase.LayoutChosen(lever.Name, value)
	}
	r = b.section(r, "doing heading", b.shortened(title, r.W-20*b.u, b.small, ink.Bold))
	if l.Asking != "" {
		keys = l.Answers
		h, _ := b.Block("asking", r.X, r.Y, ink.Style{Size: b.body, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W}, l.Asking)
		_, r = r.CutTop(h, 4*b.u)
		if l.Typing {
			var row ink.Rect
			row, r = r.CutTop(30*b.u, 6*b.u)
			b.RoundRect("typing frame", row, 4*b.u, ink.Paint{Line: ink.Focus, Width: 1.6 * b.u})
			b.fitted("typed", row.Inset(6*b.u), ink.Style{Size: b.large, Weight: ink.Bold}, l.Typed+"_")
		}
	}
	columns := 2
	if len(keys) > 14 && !b.tall {
		columns = 3
	}
	rows := (len(keys) + columns - 1) / columns
	height := 25 * b.u
	area, rest := r.CutTop(float64(rows)*height, b.gap)
	for i, k := range keys {
		b.layoutKey(area.Cell(i, columns, rows, 0), k)
	}
	return rest
}

// layoutKey draws a key cap with what it does.
func (b *board) layoutKey(r ink.Rect, k LayoutKey) {
	key := capWord(k.Key)
	w := b.capWidth(b.cap+b.u, key)
	b.keyCap(k.Code+" key", r.X+w/2, r.Centre().Y, b.cap+b.u, key)
	x := r.X + w + 5*b.u
	b.fitted(k.Code, ink.Rect{X: x, Y: r.Y, W: r.Right() - x - 3*b.u, H: r.H}, ink.Style{Size: b.small}, k.Words)
	b.Hit(k.Code, k.Key, r)
}

// layoutChoices draws the choices of the craft: the option taken has a filled mark and bold words.
func (b *board) layoutChoices(r ink.Rect) ink.Rect {
	b.Group("choices")
	if len(b.v.Layout.Choices) == 0 {
		return r
	}
	r = b.section(r, "craft heading", phrase.LayoutCraftTitle())
	line, need := max(b.rowHeight(), 15*b.u), 0.0
	for _, c := range b.v.Layout.Choices {
		need += line*(1+float64(len(c.Options))) + 5*b.u
	}
	// Where callouts would find no room beside every option, only those that hold are written.
	if !b.tall {
		need += b.sectionHeight() + clamp(b.callsHeight(b.v.Layout.Calls, r.W, b.small), 2*line, 7*line)
	}
	short := need > r.H
	for _, c := range b.v.Layout.Choices {
		if short {
			row, rest := r.CutTop(25*b.u, 0)
			k := c.LayoutKey
			k.Words += ": " + c.Options[c.Taken]
			b.layoutKey(row, k)
			r = rest
			continue
		}
		area, rest := r.CutTop(max(24*b.u, line*(1+float64(len(c.Options)))), 5*b.u)
		key := c.Key
		w := b.capWidth(b.cap, key)
		b.keyCap(c.Code+" key", area.X+w/2, area.Y+line/2+b.u, b.cap, key)
		x := area.X + w + 7*b.u
		b.fitted(c.Code, ink.Rect{X: x, Y: area.Y, W: area.Right() - x, H: line}, ink.Style{Size: b.small, Colour: ink.Faint}, c.Words)
		for i, o := range c.Options {
			y := area.Y + line*(float64(i)+1.5)
			style := ink.Style{Size: b.small, Colour: ink.Faint}
			paint := ink.Paint{Line: ink.Rule, Width: 1.3 * b.u}
			if i == c.Taken {
				style.Colour, style.Weight = ink.Ink, ink.Bold
				paint = ink.Paint{Fill: ink.Ink, Line: ink.Ink}
			}
			b.Circle(c.Code+" mark", x+4*b.u, y, 3.6*b.u, paint)
			b.fitted(c.Code+" option", ink.Rect{X: x + 13*b.u, Y: y - line/2, W: area.Right() - x - 13*b.u, H: line}, style, o)
		}
		b.Hit(c.Code, c.Key, area)
		r = rest
	}
	_, r = r.CutTop(0, b.gap*0.5)
	return r
}

// layoutCalls writes what is called out, each with its place, as far as there is room.
func (b *board) layoutCalls(r ink.Rect) {
	b.Group("calls")
	l := &b.v.Layout
	calls := slices.Clone(l.Calls)
	slices.SortStableFunc(calls, func(x, y LayoutCall) int { return x.rank(l) - y.rank(l) })
	if r.H < b.sectionHeight()+b.rowHeight() {
		return
	}
	r = b.section(r, "calls heading", phrase.LayoutCallsTitle(len(calls)))
	if len(calls) == 0 {
		b.Block("nothing called out", r.X, r.Y, ink.Style{Size: b.small, Colour: ink.Faint, Within: r}, ink.Block{Width: r.W}, phrase.LayoutNothing())
		return
	}
	// The largest size at which all of them are seen.
	size := b.small
	for s := b.head; s > b.small; s-- {
		if b.callsHeight(calls, r.W, s) <= r.H {
			size = s
			break
		}
	}
	indent, one := 17*b.u, ink.BlockHeight(size, 1)
	y := r.Y
	for i, c := range calls {
		text := c.words()
		n, _ := ink.CountLines(text, r.W-indent, size, ink.Regular)
		h := ink.BlockHeight(size, n)
		after := 0.0
		if i < len(calls)-1 {
			after = one + 3*b.u
		}
		if y+h+after > r.Bottom() {
			b.Text("calls left", r.X, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, phrase.LayoutMore(len(calls)-i))
			return
		}
		if !c.Told {
			b.warning(r.X, y+one/2)
		}
		b.Block("call", r.X+indent, y, ink.Style{Size: size, Within: r}, ink.Block{Width: r.W - indent}, text)
		y += h + 3*b.u
	}
}

func (c *LayoutCall) words() string {
	if c.Place == "" {
		return c.Text
	}
	return c.Place + ": " + c.Text
}

func (b *board) callsHeight(calls []LayoutCall, w, size float64) float64 {
	sum := 0.0
	for i := range calls {
		n, _ := ink.CountLines(calls[i].words(), w-17*b.u, size, ink.Regular)
		sum += ink.BlockHeight(size, n) + 3*b.u
	}
	return sum
}

// shortened cuts a text until it fits a width.
func (b *board) shortened(text string, w, size float64, weight ink.Weight) string {
	if ink.Width(text, size, weight) <= w {
		return text
	}
	letters := []rune(text)
	for len(letters) > 1 && ink.Width(string(letters)+"…", size, weight) > w {
		letters = letters[:len(letters)-1]
	}
	return strings.TrimRight(string(letters), " ,;:") + "…"
}

// classLayout draws the levers for a room: what each position does and its margin, in large letters, and what was said.
func (b *board) classLayout() {
	_, text, r := b.roomKeys(OnLayout)
	l := &b.v.Layout
	b.Group("head")
	say := l.Asking
	if l.Typing {
		say += " " + l.Typed + "_"
	}
	for _, words := range [...]string{say, l.Said, l.Of} {
		if words == "" {
			continue
		}
		lines, _ := ink.CountLines(words, r.W, text, ink.Bold)
		lines = min(lines, 2)
		var head ink.Rect
		head, r = r.CutTop(ink.BlockHeight(text, lines), 5*b.u)
		b.Block("said", head.X, head.Y, ink.Style{Size: text, Weight: ink.Bold, Within: head}, ink.Block{Width: head.W, MaxLines: lines, Shorten: true}, words)
		break
	}
	b.layoutLevers(r)
}
