// Package lossplot draws where a lost link leads: a map over height and climb, at one throttle in one wind.
//
// It draws into any place of any page, so the sheet and the printed page show the same.
package lossplot

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/lossmap"
)

// Look is how a map is looked at.
type Look struct {
	Map            *lossmap.Map
	Measure        lossmap.Measure
	Throttle, Wind int
	Book           *words.Book
	// Small is the size of text, U one pixel of the least window.
	Small, U float64
}

// In tells whether a spot is seen.
func (l *Look) In(s lossmap.Spot) bool { return s.Throttle == l.Throttle && s.Wind == l.Wind }

// drawing is a map that is being drawn.
type drawing struct {
	*Look
	p *ink.Page
	// in is the place of the squares, over and up how many of the axes' values a square stands for, columns and rows how many squares there are.
	in            ink.Rect
	over, up      int
	columns, rows int
	w, h          float64
}

// Draw draws it: the squares with their values, both axes in words, what is shown above and the legend below.
func Draw(p *ink.Page, r ink.Rect, l *Look) {
	d := drawing{Look: l, p: p}
	p.Group("loss-map")
	line := ink.LineHeight(l.Small)
	r = d.legend(r)
	head, r := r.CutTop(line, 2*l.U)
	d.write("map-shows", head, ink.Style{Weight: ink.Bold}, tell.MapMeasure(l.Measure))
	up, r := r.CutTop(line, 0)
	d.write("map-climb", up, ink.Style{Colour: ink.Faint}, words.T("loss-map.climb"))
	over, r := r.CutBottom(line, 0)
	marks, r := r.CutBottom(line, 0)
	label := d.widest(len(l.Map.Climbs), func(i int) words.Text { return tell.MapStep(l.Map.Climbs[i]) }) + 6*l.U
	names, in := r.CutLeft(label, 0)
	d.in = in
	value := d.widest(2, func(i int) words.Text { return tell.MapValue(l.Measure, [2]float64{8.88, 888}[i]) }) + 7*l.U
	d.over, d.columns = fit(len(l.Map.Heights), in.W, value)
	d.up, d.rows = fit(len(l.Map.Climbs), in.H, ink.BlockHeight(l.Small, 1)+1*l.U)
	if d.columns == 0 || d.rows == 0 {
		return
	}
	d.w, d.h = in.W/float64(d.columns), in.H/float64(d.rows)
	d.squares()
	for c := range d.columns {
		d.p.Text("map-height", d.square(c, 0).Centre().X, marks.Y, ink.Style{Size: l.Small, Colour: ink.Faint, Anchor: ink.Centre | ink.Top}, d.say(tell.MapStep(l.Map.Heights[d.height(c)])))
	}
	for row := range d.rows {
		d.p.Text("map-climbs", names.Right()-3*l.U, d.square(0, row).Centre().Y, ink.Style{Size: l.Small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, d.say(tell.MapStep(l.Map.Climbs[d.climb(row)])))
	}
	d.write("map-height-name", over, ink.Style{Colour: ink.Faint, Anchor: ink.Right}, words.T("loss-map.height"))
	d.worst()
}

// fit is of how many values one is shown so that each has so much room, and how many squares that makes.
func fit(n int, room, each float64) (step, squares int) {
	if room < each {
		return 1, 0
	}
	step = int(math.Ceil(float64(n) * each / room))
	step = max(step, 1)
	return step, (n + step - 1) / step
}

func (d *drawing) say(t words.Text) string { return d.Book.Say(t) }

// widest is the width of the widest of n texts.
func (d *drawing) widest(n int, of func(i int) words.Text) (w float64) {
	for i := range n {
		w = max(w, ink.Width(d.say(of(i)), d.Small, ink.Bold))
	}
	return w
}

// write writes a line in a place, shortened where it must be.
func (d *drawing) write(name string, r ink.Rect, s ink.Style, t words.Text) {
	text := d.say(t)
	s.Size, s.Within = d.Small, r
	x := r.X
	if s.Anchor == ink.Right {
		x, s.Anchor = max(r.X, r.Right()-ink.Width(text, d.Small, s.Weight)), 0
	}
	d.p.Block(name, x, r.Y, s, ink.Block{Width: r.Right() - x, MaxLines: 1, Shorten: true}, text)
}

// height and climb are the places on the axes that a column and a row stand for: the greatest that falls into it. Rows are counted from the top.
func (d *drawing) height(column int) int { return len(d.Map.Heights) - 1 - (d.columns-1-column)*d.over }

func (d *drawing) climb(row int) int { return len(d.Map.Climbs) - 1 - row*d.up }

// square is the place of a square.
func (d *drawing) square(column, row int) ink.Rect {
	return ink.Rect{X: d.in.X + float64(column)*d.w, Y: d.in.Y + float64(row)*d.h, W: d.w, H: d.h}
}

// unknown is the class of what is not worked out yet.
const unknown = -1

// value is that of a square, and its class.
func (d *drawing) value(column, row int) (v float64, class int) {
	o, ok := d.Map.Outcome(lossmap.Spot{Height: d.height(column), Climb: d.climb(row), Throttle: d.Throttle, Wind: d.Wind})
	if !ok {
		return 0, unknown
	}
	v = d.Measure.Of(&o)
	return v, tell.MapClass(d.Measure, v)
}

// squares draws what lies under the values, one patch for squares of one class side by side, and the values.
func (d *drawing) squares() {
	for row := range d.rows {
		from := 0
		for c := 1; c <= d.columns; c++ {
			_, was := d.value(from, row)
			if c < d.columns {
				if _, is := d.value(c, row); is == was {
					continue
				}
			}
			first, last := d.square(from, row), d.square(c-1, row)
			d.patch(ink.Rect{X: first.X, Y: first.Y, W: last.Right() - first.X, H: d.h}, was)
			from = c
		}
		for c := range d.columns {
			v, class := d.value(c, row)
			if class == unknown {
				continue
			}
			s := ink.Style{Size: d.Small, Anchor: ink.Centre | ink.Middle}
			if class == 2 {
				s.Weight = ink.Bold
			}
			at := d.square(c, row).Centre()
			d.p.Text("map-value", at.X, at.Y, s, d.say(tell.MapValue(d.Measure, v)))
		}
	}
	d.p.Rect("map-edge", d.in, ink.Paint{Line: ink.Rule})
}

// patch draws what a class looks like: the second is hatched, the third crosshatched on a darker ground, what never ends is plain and edged.
func (d *drawing) patch(r ink.Rect, class int) {
	switch class {
	case 1:
		d.hatch(r, 1)
	case 2:
		d.p.Rect("map-ground", r, ink.Paint{Fill: ink.Panel, Under: true})
		d.hatch(r, 1)
		d.hatch(r, -1)
	case tell.MapClasses:
		d.p.Rect("map-endless", r.Inset(1*d.U), ink.Paint{Line: ink.Grid, Under: true})
	}
}

// hatch draws slanting lines, rising (1) or falling (−1), that go on from one patch into the next.
func (d *drawing) hatch(r ink.Rect, slant float64) {
	step := 7 * d.U
	// A line is where x + slant·y is a multiple of the step.
	low, high := r.X+min(slant*r.Y, slant*r.Bottom()), r.Right()+max(slant*r.Y, slant*r.Bottom())
	for k := math.Ceil(low/step) * step; k < high; k += step {
		y1, y2 := slant*(k-r.X), slant*(k-r.Right())
		y1, y2 = min(max(y1, r.Y), r.Bottom()), min(max(y2, r.Y), r.Bottom())
		if math.Abs(y1-y2) > 0.5 {
			d.p.Line("map-hatch", k-slant*y1, y1, k-slant*y2, y2, ink.Paint{Line: ink.Grid, Under: true})
		}
	}
}

// worst marks the worst square of those that are seen.
func (d *drawing) worst() {
	s, ok := d.Map.Worst(d.Measure, d.In)
	if !ok {
		return
	}
	c := d.columns - 1 - (len(d.Map.Heights)-1-s.Height)/d.over
	row := (len(d.Map.Climbs) - 1 - s.Climb) / d.up
	d.p.Rect("map-worst", d.square(c, row).Inset(1*d.U), ink.Paint{Line: ink.Armed, Width: 2 * d.U})
}

// legend says below the map what each class looks like, and gives what is left above.
func (d *drawing) legend(r ink.Rect) ink.Rect {
	line, box := ink.LineHeight(d.Small)+2*d.U, d.Small*1.5
	type entry struct {
		class int
		text  string
	}
	entries := []entry{}
	for c := range tell.MapClasses {
		entries = append(entries, entry{c, d.say(tell.MapLegend(d.Measure, c))})
	}
	if d.endless() {
		entries = append(entries, entry{tell.MapClasses, d.say(tell.MapLegend(d.Measure, tell.MapClasses))})
	}
	if _, ok := d.Map.Worst(d.Measure, d.In); ok {
		entries = append(entries, entry{unknown, d.say(words.T("loss-map.worst-mark"))})
	}
	width := func(e entry) float64 { return box + 4*d.U + ink.Width(e.text, d.Small, ink.Regular) + 12*d.U }
	rows, x := 1, 0.0
	for _, e := range entries {
		if x > 0 && x+width(e) > r.W {
			rows, x = rows+1, 0
		}
		x += width(e)
	}
	low, rest := r.CutBottom(float64(rows)*line, 3*d.U)
	x, y := low.X, low.Y
	for _, e := range entries {
		if x > low.X && x+width(e) > low.Right() {
			x, y = low.X, y+line
		}
		sign := ink.Rect{X: x, Y: y + 1*d.U, W: box, H: line - 3*d.U}
		d.patch(sign, e.class)
		paint := ink.Paint{Line: ink.Rule}
		if e.class == unknown {
			paint = ink.Paint{Line: ink.Armed, Width: 2 * d.U}
		}
		d.p.Rect("map-sign", sign, paint)
		d.p.Text("map-legend", sign.Right()+4*d.U, sign.Centre().Y, ink.Style{Size: d.Small, Anchor: ink.Middle}, e.text)
		x += width(e)
	}
	return rest
}

// endless tells whether a square that is seen never ends.
func (d *drawing) endless() bool {
	for h := range d.Map.Heights {
		for c := range d.Map.Climbs {
			o, ok := d.Map.Outcome(lossmap.Spot{Height: h, Climb: c, Throttle: d.Throttle, Wind: d.Wind})
			if ok && math.IsInf(d.Measure.Of(&o), 1) {
				return true
			}
		}
	}
	return false
}
