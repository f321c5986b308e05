package layout

import (
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
)

// board is a page being drawn. What was said once is kept, since setting levers and callouts tries many sizes.
type board struct {
	*figure.Board
	v     *View
	said  map[*words.Text]string
	calls []*Call // in the order in which they are shown
}

func (b *board) say(t *words.Text) string {
	s, ok := b.said[t]
	if !ok {
		s = b.Say(*t)
		b.said[t] = s
	}
	return s
}

// Draw draws the switch layout: every switch as a lever, and what the craft does at each position. For a room the levers stand
// alone, in large letters, under what was said last; the rest is on the pages after them.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnLayout)
	b := &board{Board: on, v: Of(v), said: map[*words.Text]string{}}
	for i := range b.v.Calls {
		b.calls = append(b.calls, &b.v.Calls[i])
	}
	slices.SortStableFunc(b.calls, func(x, y *Call) int { return b.v.rank(x) - b.v.rank(y) })
	r = b.head(r)
	if v.Class {
		b.class(r)
		return
	}
	share := 0.56
	if len(b.v.Levers) == 0 {
		share = 0.75
	}
	left, right := b.Split(r, r.W*0.665, r.H*share, 1.6)
	b.drawLevers(b.radio(left))
	if v.Touch {
		b.paged(right)
		return
	}
	b.panel(right)
}

// radio draws the radio under the levers with each where it sits, the chosen one marked, where they keep room for themselves in fair letters; it
// gives what is left.
func (b *board) radio(r ink.Rect) ink.Rect {
	n := len(b.v.Levers)
	for _, share := range [...]float64{0.45, 0.36, 0.28} {
		drawing, rest := r.CutBottom(r.H*share, b.Gap)
		_, below := rest.CutTop(b.SectionHeight(), 0)
		if n == 0 || drawing.H < 105*b.U {
			return r
		}
		if p := b.plan(below); len(p.cells) < n || p.size < b.Body {
			continue
		}
		d := figure.Handheld(&b.v.Radio, b.V.Say)
		figure.Standing(d, &b.v.Radio, b.V, &b.V.Config.Layout)
		for i := range d.Controls {
			if d.Controls[i].Channel == b.v.Levers[b.v.Chosen].Channel {
				d.Controls[i].Mark = handheld.Chosen
			}
		}
		b.Handheld(drawing, d)
		return rest
	}
	return r
}

// head says what is looked at and what came of the last act; it gives what is left below.
func (b *board) head(r ink.Rect) ink.Rect {
	b.Group("head")
	v, bold := b.v, ink.Style{Size: b.Body, Weight: ink.Bold}
	d := b.Down(r, 3*b.U)
	if b.V.Class { // the one that matters most, in two lines
		d.R.H = 2 * ink.LineHeight(b.Body)
		for _, t := range [...]words.Text{v.Said, v.Of} {
			if !t.Empty() {
				d.Say("said", t, bold)
				break
			}
		}
	} else {
		d.Say("of", v.Of, bold)
		d.Say("kept", v.Kept, ink.Style{Size: b.Body})
		if d.Say("said", v.Said, bold); v.Said.Empty() { // its line stays free, so that nothing moves when something is said
			d.Row(ink.BlockHeight(b.Body, 1))
		}
	}
	_, r = r.CutTop(d.R.Y-r.Y, 5*b.U)
	return r
}

// panel draws what can be done at the chosen position, the choices of the craft, and everything that is called out.
func (b *board) panel(r ink.Rect) {
	if b.Tall {
		left, right := r.CutLeft(r.W*0.5, b.Gap*1.6)
		b.choices(b.doing(left), 0)
		b.drawCalls(right)
		return
	}
	r = b.doing(r)
	lines := max(b.RowHeight(), 15*b.U)
	b.drawCalls(b.choices(r, b.SectionHeight()+ui.Clamp(b.callsHeight(r.W, b.Small), 2*lines, 7*lines)))
}

// arrows are the keys that choose a switch and a position.
var arrows = [...]string{"Left", "Right", "Up", "Down"}

// doing draws the keys that act on the chosen position, or a question.
func (b *board) doing(r ink.Rect) ink.Rect {
	b.Group("doing")
	keys := b.v.Doing
	d := b.Down(b.SectionOf(r, "doing-heading", b.v.chosen()...), 4*b.U)
	const columns, most = 2, 14
	if len(keys) > most && !b.Tall { // the arrow keys go without saying, and every lever and position can be pressed
		keys = slices.DeleteFunc(slices.Clone(keys), func(k Key) bool { return slices.Contains(arrows[:], k.Key) })
	}
	n := len(keys)
	if n > 0 && !slices.ContainsFunc(keys, func(k Key) bool { return k.Key == "Backspace" }) {
		n += 2 // the first change brings two more, to undo it and to save, and nothing else may move then
	}
	rows := (n + columns - 1) / columns
	d.Gap = b.Gap
	area := d.Row(float64(rows) * 25 * b.U)
	for i, k := range keys {
		cell := area.Cell(i, columns, rows, 0)
		cell.W -= 3 * b.U
		b.KeyRow(cell, k.Code, k.Key, b.Say(k.Does))
	}
	return d.R
}

// choices draws the choices of the craft: the option taken has a filled mark and bold words. Where there would not be so much room left below
// beside every option, only those that hold are written.
func (b *board) choices(r ink.Rect, below float64) ink.Rect {
	b.Group("choices")
	if len(b.v.Choices) == 0 {
		return r
	}
	d := b.Down(b.Section(r, "craft-heading", b.Say(words.T("layout.craft"))), 5*b.U)
	line, all := max(b.RowHeight(), 15*b.U), below
	option := max(line, b.Least()) // each of several is taken by a press on it
	for _, c := range b.v.Choices {
		all += option*float64(1+len(c.Options)) + d.Gap
	}
	short := all > d.R.H
	if !short {
		line = option
	}
	for i := range b.v.Choices {
		c := b.v.Choices[i]
		if short {
			c.Options, c.Taken = c.Options[c.Taken:c.Taken+1], 0
		}
		if short && b.besideFits(d.R.W, &c) {
			b.choice(d.Row(option), option, &c, true)
		} else {
			b.choice(d.Row(line*float64(1+len(c.Options))), line, &c, false)
		}
	}
	return d.R
}

// choiceMark is what the mark of an option takes, with the room behind it, in pixels of the least window.
const choiceMark = 13

// besideFits tells whether the one option of a choice has room beside what it is about.
func (b *board) besideFits(w float64, c *Choice) bool {
	about, option := ink.Width(b.Say(c.Does), b.Small, ink.Regular), ink.Width(b.Say(c.Options[0]), b.Small, ink.Bold)
	return b.CapWidth(b.Cap, c.Key.Key)+7*b.U+about+b.Gap+choiceMark*b.U+option <= w
}

// choice draws one choice of the craft, its lines so high: what it is about, and each option below, or the only one beside it.
func (b *board) choice(area ink.Rect, line float64, c *Choice, beside bool) {
	w := b.CapWidth(b.Cap, c.Key.Key)
	b.KeyCap(c.Code+" key", area.X+w/2, area.Y+line/2+b.U, b.Cap, c.Key.Key)
	_, rest := area.CutLeft(w, 7*b.U)
	row, rest := rest.CutTop(line, 0)
	if len(c.Options) > 1 {
		b.Hit(c.Code, c.Key.Key, ink.Rect{X: area.X, Y: area.Y, W: area.W, H: line})
	} else {
		b.Hit(c.Code, c.Key.Key, area)
	}
	if beside {
		rest = row
		row, rest = rest.CutLeft(ink.Width(b.Say(c.Does), b.Small, ink.Regular)+b.Gap, 0)
	}
	b.Fitted(c.Code, row, ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(c.Does))
	for o, option := range c.Options {
		row, rest = rest.CutTop(line, 0)
		if len(c.Options) > 1 {
			b.Hit(c.Code+"-"+strconv.Itoa(o+1), "", row)
		}
		style, paint := ink.Style{Size: b.Small, Colour: ink.Faint}, ink.Paint{Line: ink.Rule, Width: 1.3 * b.U}
		if o == c.Taken {
			style.Colour, style.Weight, paint = ink.Ink, ink.Bold, ink.Paint{Fill: ink.Ink, Line: ink.Ink}
		}
		mark, text := row.CutLeft((choiceMark-5)*b.U, 5*b.U)
		b.Circle(c.Code+" mark", mark.Centre().X, mark.Centre().Y, 3.6*b.U, paint)
		b.Fitted(c.Code+" option", text, style, b.Say(option))
	}
}

// drawCalls writes what is called out, as far as there is room, at the largest size at which all of it is seen;
// where one is too long, a later one that is not.
func (b *board) drawCalls(r ink.Rect) {
	b.Group("calls")
	n := len(b.calls)
	if r.H < b.SectionHeight()+b.RowHeight() {
		return
	}
	d := b.Down(b.Section(r, "calls-heading", b.Say(tell.LayoutCallsTitle(n))), 3*b.U)
	if n == 0 {
		d.Say("nothing-called-out", words.T("layout.nothing"), ink.Style{Size: b.Small, Colour: ink.Faint})
		return
	}
	size := b.Small
	for s := b.Head; s > b.Small && size == b.Small; s-- {
		if b.callsHeight(d.R.W, s) <= d.R.H {
			size = s
		}
	}
	from := b.firstCall(d.R, size)
	left := n - from
	for _, c := range b.calls[from:] {
		need, after := ui.TextHeight(b.say(&c.Text), d.R.W-b.mark(), ink.Style{Size: size}), 0.0
		if left > 1 {
			after = ink.BlockHeight(size, 1) + d.Gap
		}
		if need+after > d.R.H {
			continue
		}
		left--
		b.call(d.Row(need), c, size)
	}
	switch says := tell.AndMore(left); {
	case from > 0:
		says = tell.Unlisted(from, left)
		fallthrough
	case left > 0:
		d.Say("calls-left", says, ink.Style{Size: size, Weight: ink.Bold})
	}
}

// firstCall is which of the callouts stands first: where they were turned to, if they do not fit.
func (b *board) firstCall(r ink.Rect, size float64) (first int) {
	high := make([]float64, len(b.calls))
	for i, c := range b.calls {
		high[i] = ui.TextHeight(b.say(&c.Text), r.W-b.mark(), ink.Style{Size: size}) + 3*b.U
	}
	if r.H += 3 * b.U; b.callsHeight(r.W, size) > r.H {
		r.H -= ink.BlockHeight(size, 1) + 3*b.U // for the line that counts the others
	}
	first, _ = b.Rolled("calls", r, high, -1, 0)
	return first
}

// call writes what is called out, a warning with its mark.
func (b *board) call(row ink.Rect, c *Call, size float64) {
	if !c.Told {
		b.Warning(row.X, row.Y+ink.BlockHeight(size, 1)/2)
	}
	_, text := row.CutLeft(b.mark(), 0)
	b.Block("call", text.X, text.Y, ink.Style{Size: size, Within: row.Inset(-b.U)}, ink.Block{Width: text.W}, b.say(&c.Text))
}

// mark is the room that the mark of a warning takes before a text.
func (b *board) mark() float64 { return 17 * b.U }

// callsHeight is what all callouts take, with the distances between them.
func (b *board) callsHeight(w, size float64) (sum float64) {
	for _, c := range b.calls {
		sum += ui.TextHeight(b.say(&c.Text), w-b.mark(), ink.Style{Size: size}) + 3*b.U
	}
	return sum
}
