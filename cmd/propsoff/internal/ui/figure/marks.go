package figure

import (
	"math"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	ck "propsoff.example/input/check"
	"propsoff.example/sim/prove"
)

// Lines writes a text in bold, in as many lines as there is room for, at most so many.
func (b *Board) Lines(r ink.Rect, name, text string, size float64, most int) {
	n, _ := ink.CountLines(text, r.W, size, ink.Bold)
	n = max(1, min(n, most, int((r.H+0.3*size)/ink.LineHeight(size))))
	b.Block(name, r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, text)
}

// Beware writes a text with a triangle before it, next below in a column.
func (b *Board) Beware(d *ui.Down, name string, t words.Text, s ink.Style) {
	_, in := d.R.CutLeft(18*b.U, 0)
	c := b.Down(in, d.Gap)
	if c.Say(name, t, s); c.R.Y > in.Y {
		b.Warning(d.R.X, in.Y+ink.LineHeight(s.Size)/2)
	}
	d.R.Y, d.R.H = c.R.Y, c.R.H
}

// CornerNote warns of the corner in which the sticks stand; it gives its height, 0 for none.
func (b *Board) CornerNote(r ink.Rect, size float64) float64 {
	d := b.Down(r, 0)
	if b.SayHeight(corner(b.V), r.W-18*b.U, ink.Style{Size: size, Weight: ink.Bold}) > r.H {
		return 0
	}
	b.Beware(d, "corner", corner(b.V), ink.Style{Size: size, Weight: ink.Bold})
	return d.R.Y - r.Y
}

// CornerHeight is the height that CornerNote needs for either corner, none where neither does anything.
func (b *Board) CornerHeight(w, size float64) (h float64) {
	if !facts.BySticks(b.V.Config) {
		return 0
	}
	for _, arm := range []bool{false, true} {
		h = max(h, b.SayHeight(tell.CornerNow(&b.V.Facts, arm), w-18*b.U, ink.Style{Size: size, Weight: ink.Bold}))
	}
	return h
}

// corner says what else the corner does in which the sticks of a craft armed by sticks stand; empty where they stand in none.
func corner(v *ui.View) (does words.Text) {
	a, l := &v.Config.Arming, &v.Config.Layout
	thr, yaw := v.Snap.Received[l.Throttle], v.Snap.Received[l.Yaw]
	if !facts.BySticks(v.Config) || !v.Snap.In.Powered || !thr.Valid() || thr >= a.LowThrottle {
		return does
	}
	if yaw >= a.YawRight || yaw.Valid() && yaw <= a.YawLeft {
		does = tell.CornerNow(&v.Facts, yaw >= a.YawRight)
	}
	return does
}

// Facts writes sentences one below the other, as many as there is room for, in the largest size of text up to that of headings in which all take
// at most a height; it gives what is left below.
func (b *Board) Facts(r ink.Rect, name string, texts []words.Text, most float64) (rest ink.Rect) {
	style := ink.Style{Size: b.Head}
	say := func(d *ui.Down) {
		d.Gap = 5 * b.U
		for _, t := range texts {
			d.Whole(name, t, style)
		}
	}
	for ; style.Size > b.Small && b.Takes(r.W, say) > most; style.Size-- {
	}
	d := b.Down(r, 0)
	say(d)
	return d.R
}

// Chosen frames the row of a list that is looked at.
func (b *Board) Chosen(row ink.Rect) {
	b.RoundRect("chosen", row, 4*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.5 * b.U})
}

// NeedMark is an empty box, or one with a tick.
func (b *Board) NeedMark(x, y, d float64, done bool) {
	r := ink.Rect{X: x, Y: y + d*0.12, W: d * 0.76, H: d * 0.76}
	b.Rect("need-box", r, ink.Paint{Line: ink.Ink, Width: 1.3 * b.U})
	if done {
		tick := []ink.Point{{X: r.X + r.W*0.18, Y: r.Y + r.H*0.5}, {X: r.X + r.W*0.42, Y: r.Y + r.H*0.76}, {X: r.X + r.W*1.1, Y: r.Y - r.H*0.12}}
		b.Polyline("need-tick", tick, ink.Paint{Line: ink.Link, Width: max(2*b.U, d*0.13)})
	}
}

// Tick draws a tick round a place, d from there to its right end.
func (b *Board) Tick(name string, x, y, d float64, p ink.Paint) {
	b.Polyline(name, []ink.Point{{X: x - d*0.9, Y: y}, {X: x - d*0.2, Y: y + d*0.75}, {X: x + d, Y: y - d*0.85}}, p)
}

// Cross draws two strokes across each other, d from their middle to the side.
func (b *Board) Cross(name string, x, y, d float64, p ink.Paint) {
	b.Line(name, x-d, y-d, x+d, y+d, p)
	b.Line(name, x-d, y+d, x+d, y-d, p)
}

// OutcomeMark tells an outcome by shape and colour: a tick for what holds, a filled triangle for what is broken, a half-filled
// diamond for what comes with the method, a bar for what is not asked, a broken ring for what is not decided.
func (b *Board) OutcomeMark(x, y, d float64, o prove.Outcome) {
	w := math.Max(1.5, d*0.24)
	top, right, foot, left := ink.Point{X: x, Y: y - d*1.1}, ink.Point{X: x + d*1.1, Y: y}, ink.Point{X: x, Y: y + d*1.1}, ink.Point{X: x - d*1.1, Y: y}
	switch o {
	case prove.Holds:
		b.Tick("holds", x, y, d, ink.Paint{Line: ink.Link, Width: w * 1.3})
	case prove.Broken:
		b.Polygon("broken", []ink.Point{{X: x, Y: y - d}, {X: right.X, Y: y + d*0.9}, {X: left.X, Y: y + d*0.9}}, ink.Paint{Fill: ink.Armed})
	case prove.WithIt:
		b.Polygon("comes-with-it", []ink.Point{top, right, foot, left}, ink.Paint{Line: ink.Focus, Width: w})
		b.Polygon("half", []ink.Point{top, foot, left}, ink.Paint{Fill: ink.Focus})
	case prove.Undecided:
		b.Circle("undecided", x, y, d, ink.Paint{Line: ink.Ink, Width: w, Dash: ink.Dash{On: d * 0.6, Off: d * 0.5}})
	default:
		b.Line("not-asked", x-d, y, x+d, y, ink.Paint{Line: ink.Rule, Width: w})
	}
}

// VerdictMark tells a verdict by shape and colour.
func (b *Board) VerdictMark(x, y, d float64, v ck.Verdict) {
	b.OutcomeMark(x, y, d, [ck.VerdictCount]prove.Outcome{ck.Waiting: prove.Undecided, ck.Passes: prove.Holds, ck.Warns: prove.WithIt, ck.Fails: prove.Broken}[v])
}
