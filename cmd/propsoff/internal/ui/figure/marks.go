package figure

import (
	"math"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	ck "propsoff/input/check"
	"propsoff/sim/prove"
)

// Lines writes a text in as many lines as there is room for, at most so many; it gives the height.
func (b *Board) Lines(r ink.Rect, name, text string, size float64, w ink.Weight, most int) float64 {
	n, _ := ink.CountLines(text, r.W, size, w)
	n = max(1, min(n, most, int((r.H+0.3*size)/ink.LineHeight(size))))
	h, _ := b.Block(name, r.X, r.Y, ink.Style{Size: size, Weight: w, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, text)
	return h
}

// CornerNote warns of the corner in which the sticks stand; it gives its height, 0 for none.
func (b *Board) CornerNote(r ink.Rect, size float64) float64 {
	words, ok := cornerWords(b.V)
	if !ok || r.H < ink.BlockHeight(size, 1)-1 {
		return 0
	}
	b.Warning(r.X, r.Y+ink.BlockHeight(size, 1)/2)
	return b.Lines(ink.Rect{X: r.X + 18*b.U, Y: r.Y, W: r.W - 18*b.U, H: r.H}, "corner", b.Say(words), size, ink.Bold, 3)
}

// cornerWords says what else the corner does in which the sticks stand.
func cornerWords(v *ui.View) (words.Text, bool) {
	arms, there := corner(v)
	if !there {
		return words.Text{}, false
	}
	text := tell.CornerNow(&v.Facts, arms)
	return text, !text.Empty()
}

// Facts writes sentences one below the other, as many as there is room for, in the largest size of text up to that of headings in which all take
// at most a height; it gives what is left below.
func (b *Board) Facts(r ink.Rect, name string, texts []words.Text, most float64) (rest ink.Rect) {
	style, gap := ink.Style{Size: b.Head}, 5*b.U
	for ; style.Size > b.Small; style.Size-- {
		h := 0.0
		for _, t := range texts {
			h += b.SayHeight(t, r.W, style) + gap
		}
		if h <= most {
			break
		}
	}
	d := b.Down(r, gap)
	for _, t := range texts {
		d.Say(name, t, style)
	}
	return d.R
}

// NeedMark is an empty box, or one with a tick.
func (b *Board) NeedMark(x, y, d float64, done bool) {
	r := ink.Rect{X: x, Y: y + d*0.12, W: d * 0.76, H: d * 0.76}
	b.Rect("need-box", r, ink.Paint{Line: ink.Ink, Width: 1.3 * b.U})
	if done {
		b.V.Pts = append(b.V.Pts[:0], ink.Point{X: r.X + r.W*0.18, Y: r.Y + r.H*0.5}, ink.Point{X: r.X + r.W*0.42, Y: r.Y + r.H*0.76}, ink.Point{X: r.X + r.W*1.1, Y: r.Y - r.H*0.12})
		b.Polyline("need-tick", b.V.Pts, ink.Paint{Line: ink.Link, Width: max(2*b.U, d*0.13)})
	}
}

// Tick draws a tick round a place, d from there to its right end.
func (b *Board) Tick(name string, x, y, d float64, p ink.Paint) {
	pts := [...]ink.Point{{X: x - d*0.9, Y: y}, {X: x - d*0.2, Y: y + d*0.75}, {X: x + d, Y: y - d*0.85}}
	b.Polyline(name, pts[:], p)
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
	switch o {
	case prove.Holds:
		b.Tick("holds", x, y, d, ink.Paint{Line: ink.Link, Width: w * 1.3})
	case prove.Broken:
		a := [...]ink.Point{{X: x, Y: y - d}, {X: x + d*1.1, Y: y + d*0.9}, {X: x - d*1.1, Y: y + d*0.9}}
		b.Polygon("broken", a[:], ink.Paint{Fill: ink.Armed})
	case prove.WithIt:
		a := [...]ink.Point{{X: x, Y: y - d*1.1}, {X: x + d*1.1, Y: y}, {X: x, Y: y + d*1.1}, {X: x - d*1.1, Y: y}}
		b.Polygon("comes-with-it", a[:], ink.Paint{Line: ink.Focus, Width: w})
		h := [...]ink.Point{{X: x, Y: y - d*1.1}, {X: x, Y: y + d*1.1}, {X: x - d*1.1, Y: y}}
		b.Polygon("half", h[:], ink.Paint{Fill: ink.Focus})
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

// corner tells in which corner of a craft armed by sticks the sticks stand now.
func corner(v *ui.View) (arms, there bool) {
	a, l := &v.Config.Arming, &v.Config.Layout
	thr, yaw := v.Snap.Received[l.Throttle], v.Snap.Received[l.Yaw]
	if !facts.BySticks(v.Config) || !v.Snap.In.Powered || !thr.Valid() || thr >= a.LowThrottle {
		return false, false
	}
	return yaw >= a.YawRight, yaw >= a.YawRight || yaw.Valid() && yaw <= a.YawLeft
}
