package learn

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/learn"
)

// mostPens is how many axes have a pen on the sheet at once, and leastLane how wide its lane is at the least, in pixels of the least
// window (ours).
const (
	mostPens  = 16
	leastLane = 19
)

// raw draws what the radio sends: a pen for each axis, and the buttons.
func (b *board) raw(r ink.Rect) {
	b.Group("raw")
	buttons := b.V.Device.Buttons
	cell := ink.Width(strconv.Itoa(max(buttons, 10)), b.Small, ink.Bold) + 3.5*b.U
	perRow := max(1, min(int(r.W/cell), 16))
	lines := (buttons + perRow - 1) / perRow
	step := b.RowHeight() + 0.5*b.U
	if lines < 4 {
		step = 24 * b.U
	}
	below := b.SectionHeight() + step*float64(lines)
	if r.H < below {
		return
	}
	pens, keys := r.CutTop(max(r.H-below-b.Gap, 0), b.Gap)
	b.pens(pens)
	b.Group("raw")
	keys = b.Section(keys, "buttons-heading", b.Say(words.T("learn-title.buttons", words.Args{"n": words.Count(buttons)})))
	area := ink.Rect{X: keys.X, Y: keys.Y, W: keys.W, H: step * float64(lines)}
	for i := range buttons {
		c := area.Cell(i, perRow, lines, 0)
		h := min(c.H-0.5*b.U, 22*b.U)
		b.rawButton(ink.Rect{X: c.X, Y: c.Centre().Y - h/2, W: c.W - b.U, H: h}, i)
	}
}

func (b *board) rawButton(r ink.Rect, i int) {
	style := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}
	paint := ink.Paint{Line: ink.Rule}
	if b.V.Learn.Raw.Button(i) {
		style.Colour, style.Weight = ink.Paper, ink.Bold
		paint = ink.Paint{Fill: ink.Ink, Line: ink.Ink}
	}
	b.RoundRect("button", r, 2*b.U, paint)
	b.Text("button-number", r.Centre().X, r.Centre().Y, style, strconv.Itoa(i+1))
}

// pens draws chart paper with a pen for each axis: time runs down the page, the newest at the top. The one that answers is marked by a
// word, a frame and a larger pen.
func (b *board) pens(r ink.Rect) {
	b.Group("pens")
	l := &b.V.Learn
	seconds := ink.Width(b.Say(words.T("sheet.now")), b.Small, ink.Regular) + 6*b.U
	if r.H < 4*b.RowHeight()+b.SectionHeight() {
		return
	}
	shown := PensShown(l, len(b.V.Device.Axes), max(1, min(mostPens, int((r.W-seconds)/(leastLane*b.U)))))
	r = b.SectionOf(r, "axes-heading", tell.PensTitle(len(shown), len(b.V.Device.Axes)))
	line := b.RowHeight()
	heads, r := r.CutTop(line, 0)
	numbers, r := r.CutTop(line, 0)
	hats, r := r.CutTop(line, 2*b.U)
	nibs, paper := r.CutTop(13*b.U, 0)
	if len(shown) == 0 || paper.H < 30*b.U {
		return
	}
	_, paper = paper.CutLeft(seconds, 0)
	b.TimeMarks(paper, learn.PenParts*learn.PenPart/1_000_000)
	for k, i := range shown {
		w := paper.W / float64(len(shown))
		lane := ink.Rect{X: paper.X + w*float64(k) + 1.5*b.U, Y: paper.Y, W: w - 3*b.U, H: paper.H}
		x := lane.Centre().X
		answers := i == l.Axis && !b.V.Out
		style := ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}
		if answers {
			style.Weight, style.Colour = ink.Bold, ink.Ink
			word := b.Say(words.T("learn-title.answers"))
			half := ink.Width(word, b.Small, ink.Bold) / 2
			b.Text("pen-answers", ui.Clamp(x, heads.X+half, heads.Right()-half), heads.Centre().Y, style, word)
			b.RoundRect("pen-frame", ink.Rect{X: lane.X - b.U, Y: nibs.Y, W: lane.W + 2*b.U, H: paper.Bottom() - nibs.Y}, 3*b.U, ink.Paint{Line: ink.Focus, Width: 2 * b.U})
		} else {
			b.Line("pen-edge", lane.X, nibs.Bottom(), lane.X, paper.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
			b.Line("pen-edge", lane.Right(), nibs.Bottom(), lane.Right(), paper.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
		}
		b.Text("axis-number", x, numbers.Centre().Y, style, strconv.Itoa(i+1))
		if b.V.Device.Axes[i].Hat {
			b.Text("axis-hat", x, hats.Centre().Y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}, b.Say(words.T("learn-title.hat")))
		}
		b.pen(lane.Inset(3*b.U), nibs, i, answers)
	}
}

// pen draws one axis: what it drew, and the pen itself where the axis stands now.
func (b *board) pen(lane, nibs ink.Rect, i int, answers bool) {
	l := &b.V.Learn
	colour, width := ink.Ink, 1.4*b.U
	if answers {
		colour, width = ink.Focus, 2.4*b.U
	}
	paint := ink.Paint{Line: colour, Width: width}
	x := func(share int) float64 { return lane.X + lane.W*ui.Clamp(float64(share)/1000, 0, 1) }
	if s := l.Shares[i]; l.Begun && s >= 0 {
		d := 4 * b.U
		if answers {
			d = 6 * b.U
		}
		p := ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.2 * b.U}
		if answers {
			p = ink.Paint{Fill: colour}
		}
		top := nibs.Bottom() - d*1.7
		b.Triangle("pen", p, ink.Point{X: x(s), Y: nibs.Bottom()}, ink.Point{X: x(s) - d*0.8, Y: top}, ink.Point{X: x(s) + d*0.8, Y: top})
	}
	if l.Pens == nil {
		return
	}
	pts := b.V.Pts[:0]
	for age := range l.Pens.Parts() {
		s, ok := l.Pens.At(i, age)
		if !ok {
			b.Polyline("pen-line", pts, paint)
			pts = pts[:0]
			continue
		}
		p := ink.Point{X: x(s), Y: lane.Y - 3*b.U + (lane.H+6*b.U)*float64(age)/(learn.PenParts-1)}
		if n := len(pts); n > 1 && pts[n-1].X == p.X && pts[n-2].X == p.X {
			pts[n-1].Y = p.Y // straight on
			continue
		}
		pts = append(pts, p)
	}
	b.Polyline("pen-line", pts, paint)
	b.V.Pts = pts
}

// PensShown are the axes that have a pen on the sheet, by their numbers: all, or where there are too many those that moved last and the
// first ones.
func PensShown(l *learn.View, axes, most int) []int {
	all := make([]int, axes)
	moved := make([]int, axes) // how long ago
	for i := range all {
		all[i], moved[i] = i, math.MaxInt
		if l.Pens == nil {
			continue
		}
		now, _ := l.Pens.At(i, 0)
		for age := range l.Pens.Parts() {
			if s, ok := l.Pens.At(i, age); ok && (s-now > stirred || now-s > stirred) {
				moved[i] = age
				break
			}
		}
		if i == l.Axis {
			moved[i] = -1
		}
	}
	if axes <= most {
		return all
	}
	slices.SortStableFunc(all, func(a, b int) int { return cmp.Compare(moved[a], moved[b]) })
	all = all[:most]
	slices.Sort(all)
	return all
}

// stirred is how far an axis must have moved, in tenths of a percent, to be shown before others (ours): more than its noise.
const stirred = 50
