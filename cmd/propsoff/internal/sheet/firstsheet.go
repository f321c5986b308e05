package sheet

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/flight"
)

// First draws the sheet before the first flight: what must have been seen, and the propellers.
func First(p *ink.Page, v *View) {
	b := newBoard(p, v)
	var r ink.Rect
	if v.Class {
		r = b.classKeys(OnFirst, NextMotor, TurnPropeller, PropellersChecked, GoOut, TurnFullScreen, ShowHelp, Leave)
	} else {
		r = b.footer(b.sheetArea(), OnFirst)
	}
	b.Group("first")
	air := v.Snap.In.Air
	size := b.TextSize(20)
	if v.Class {
		size = b.body * 1.3
	}
	size, _ = ink.Fit(r.W, b.body, size, ink.Bold, phrase.FirstTitle(true), phrase.FirstTitle(false))
	b.Text("title", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, phrase.FirstTitle(air))
	_, r = r.CutTop(ink.BlockHeight(size, 1), 2*b.u)
	if !v.Class {
		h, _ := b.Block("what", r.X, r.Y, ink.Style{Size: b.head, Within: r}, ink.Block{Width: r.W}, phrase.FirstWhat(air))
		_, r = r.CutTop(h, 5*b.u)
	}
	r = b.outing(r)
	if b.tall {
		top, low := r.CutTop(r.H*0.4, b.gap)
		b.needs(top)
		b.puzzle(low)
		return
	}
	left, right := r.CutLeft(r.W*0.44, b.gap*1.6)
	b.needs(left)
	b.puzzle(right)
}

// classKeys begins a class view of a sheet: its text size, and a row with the keys of some actions; it gives what is left.
func (b *board) classKeys(on Place, shown ...Action) ink.Rect {
	b.classSizes(1.45)
	return b.keysOf(on, shown...)
}

// keysOf draws those of some keys that do something on a sheet; it gives what is left above them.
func (b *board) keysOf(on Place, shown ...Action) ink.Rect {
	b.on = on
	r := b.sheetArea()
	b.Group("keys")
	var now []Act
	for _, a := range shown {
		for _, act := range acts {
			if act.Action == a && b.v.Shows(act, on) {
				now = append(now, act)
			}
		}
	}
	one, gap := max(b.cap+4*b.u, 25*b.u), 10*b.u
	var parts []ink.Part
	sum, most := -gap, 0.0
	for _, act := range now {
		w := b.capWidth(b.cap+b.u, capWord(act.Physical)) + ink.Width(b.v.does(act.Action, on), b.small, ink.Regular) + 8*b.u
		parts = append(parts, ink.Share(w, 0))
		sum, most = sum+w+gap, max(most, w+gap)
	}
	if sum <= r.W { // in one row, each as wide as its words ask for
		row, rest := r.CutBottom(one, 6*b.u)
		for i, cell := range row.Columns(nil, gap, parts...) {
			b.action(cell, now[i], on)
		}
		return rest
	}
	columns := max(1, min(len(now), int(r.W/most)))
	rows := (len(now) + columns - 1) / columns
	columns = (len(now) + rows - 1) / rows
	area, rest := r.CutBottom(one*float64(rows), 6*b.u)
	for i, act := range now {
		b.action(area.Cell(i, columns, rows, 0), act, on)
	}
	return rest
}

// outing says what the last flight came to, where it came to grief; it gives what is left.
func (b *board) outing(r ink.Rect) ink.Rect {
	v := &b.v.First
	if v.Came == NoOuting {
		return r
	}
	words := phrase.FlightCame(v.Came == Flipped)
	if !v.Planted { // else it is for the pupil to find out
		words = phrase.WrongPropellers(v.Turns, v.Tried, v.Came == Flipped)
	}
	w := r.W - 22*b.u
	n, _ := ink.CountLines(words, w, b.head, ink.Bold)
	row, rest := r.CutTop(ink.BlockHeight(b.head, n), 6*b.u)
	b.warning(row.X, row.Y+ink.BlockHeight(b.head, 1)/2)
	b.Block("outing", row.X+22*b.u, row.Y, ink.Style{Size: b.head, Weight: ink.Bold, Within: row}, ink.Block{Width: w}, words)
	return rest
}

// needs lists what must have been seen: a box with a tick in it, or an empty one, what it is, and how it was seen or can be.
func (b *board) needs(r ink.Rect) {
	b.Group("needs")
	v := &b.v.First
	r = b.section(r, "needs heading", phrase.FirstHeading())
	keys := phrase.FirstKeys{Check: physicalOf(OpenCheck), First: physicalOf(OpenFirst), Radio: physicalOf(SwitchRadio), Checked: physicalOf(PropellersChecked), Played: b.v.playing(), Drives: b.v.Driver == Radio,
		LetDrive: b.v.KeyToRadio(OnFirst), Radios: len(b.v.Radios)}
	left := 0
	for i := range NeedCount {
		if !v.done(i) {
			left++
		}
	}
	air := b.v.Snap.In.Air
	words := phrase.FirstReady(air, left, b.v.KeyFor(GoOut, OnFirst))
	n, _ := ink.CountLines(words, r.W, b.large, ink.Bold)
	foot, r := r.CutBottom(ink.BlockHeight(b.large, n), 6*b.u)
	b.Block("ready", foot.X, foot.Y, ink.Style{Size: b.large, Weight: ink.Bold, Within: foot}, ink.Block{Width: foot.W}, words)

	// The names as large as they fit, the sentences below a little smaller.
	name, small := b.large, b.body
	if b.v.Class {
		name, small = b.body, b.small
	}
	mark := ink.BlockHeight(name, 1)
	text := ink.Rect{X: r.X + mark + 8*b.u, Y: r.Y, W: r.W - mark - 8*b.u, H: r.H}
	seen := func(i int) string {
		switch {
		case !v.done(i):
			return phrase.NeedHow(i, keys)
		case i == NeedPropellers:
			return phrase.PropellersSeen()
		}
		return phrase.NeedSeen(v.Needs[i].Tick, v.Needs[i].How)
	}
	height := func(how bool) (need float64) {
		for i := range NeedCount {
			n, _ := ink.CountLines(phrase.Need(i), text.W, name, ink.Bold)
			need += ink.BlockHeight(name, n)
			if how {
				n, _ = ink.CountLines(seen(i), text.W, small, ink.Regular)
				need += ink.BlockHeight(small, n)
			}
		}
		return need + 4*NeedCount*b.u
	}
	how := !b.v.Class
	for how && height(true) > r.H && name > b.small {
		name, small = name-1, max(small-1, b.small)
	}
	how = how && height(true) <= r.H
	space := clamp((r.H-height(how))/NeedCount, 0, 22*b.u)
	y := r.Y + 3*b.u
	for i := range NeedCount {
		b.needMark(r.X, y, ink.BlockHeight(name, 1), v.done(i))
		h, _ := b.Block("need", text.X, y, ink.Style{Size: name, Weight: ink.Bold, Within: r}, ink.Block{Width: text.W}, phrase.Need(i))
		y += h
		if how {
			style := ink.Style{Size: small, Within: r}
			if v.done(i) {
				style.Colour = ink.Faint
			}
			h, _ = b.Block("need seen", text.X, y, style, ink.Block{Width: text.W}, seen(i))
			y += h
		}
		y += space + 3*b.u
	}
}

// needMark is an empty box, or one with a tick.
func (b *board) needMark(x, y, d float64, done bool) {
	r := ink.Rect{X: x, Y: y + d*0.12, W: d * 0.76, H: d * 0.76}
	b.Rect("need box", r, ink.Paint{Line: ink.Ink, Width: 1.3 * b.u})
	if done {
		b.v.pts = append(b.v.pts[:0], ink.Point{X: r.X + r.W*0.18, Y: r.Y + r.H*0.5}, ink.Point{X: r.X + r.W*0.42, Y: r.Y + r.H*0.76}, ink.Point{X: r.X + r.W*1.1, Y: r.Y - r.H*0.12})
		b.Polyline("need tick", b.v.pts, ink.Paint{Line: ink.Link, Width: max(2*b.u, d*0.13)})
	}
}

// puzzle draws the four motors from above, what turns how, and the propeller on each.
func (b *board) puzzle(r ink.Rect) {
	b.Group("propellers")
	r = b.section(r, "puzzle heading", phrase.PuzzleHeading())
	rules := []string{phrase.PuzzleRules(), phrase.PuzzleNotTold()}
	if b.v.Class {
		rules = nil
	}
	for i := len(rules) - 1; i >= 0; i-- {
		n, _ := ink.CountLines(rules[i], r.W, b.small, ink.Regular)
		var row ink.Rect
		row, r = r.CutBottom(ink.BlockHeight(b.small, n), 3*b.u)
		b.Block("puzzle rule", row.X, row.Y, ink.Style{Size: b.small, Within: row}, ink.Block{Width: row.W}, rules[i])
	}
	// Motors stand in the corners of a square as far as their words leave one.
	line := ink.BlockHeight(b.small, 1)
	words := float64(len(b.motorWords(0))) * line
	cell := r.Cell(0, 2, 2, 0)
	radius := max(min((cell.H-words)/2-8*b.u, cell.W/2-6*b.u), 10*b.u)
	reach := clamp(cell.W/2, radius*1.2, max(radius*1.2, min(cell.W-radius-8*b.u, radius*2.2)))
	if b.v.Class { // words need all the width there is
		reach = cell.W / 2
	}
	c := r.Centre()
	b.Group("propellers")
	at := func(i int) ink.Point {
		p := ink.Point{X: c.X - reach, Y: c.Y - radius - 7*b.u}
		if i%2 == 1 {
			p.X = c.X + reach
		}
		if i >= 2 {
			p.Y = c.Y + radius + 7*b.u
		}
		return p
	}
	b.puzzleBody(c, radius, at)
	for i := range flight.Motors {
		b.puzzleMotor(i, at(i), radius, r)
	}
}

// puzzleBody is the craft without its motors: arms that end at their rings, and a body with a nose.
func (b *board) puzzleBody(c ink.Point, radius float64, at func(int) ink.Point) {
	for i := range flight.Motors {
		p := at(i)
		d := math.Hypot(p.X-c.X, p.Y-c.Y)
		k := (d - radius - b.u) / d
		b.Line("arm", c.X+(p.X-c.X)*0.1, c.Y+(p.Y-c.Y)*0.1, c.X+(p.X-c.X)*k, c.Y+(p.Y-c.Y)*k, ink.Paint{Line: ink.Ink, Width: 4 * b.u})
	}
	w, h := radius*0.36, radius*0.62
	b.Rect("body", ink.Rect{X: c.X - w, Y: c.Y - h, W: 2 * w, H: 2 * h}, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.5 * b.u})
	b.v.pts = append(b.v.pts[:0], ink.Point{X: c.X - w*0.7, Y: c.Y - h - 1.5*b.u}, ink.Point{X: c.X + w*0.7, Y: c.Y - h - 1.5*b.u}, ink.Point{X: c.X, Y: c.Y - h - radius*0.4})
	b.Polygon("nose", b.v.pts, ink.Paint{Fill: ink.Ink})
}

// puzzleMotor draws one motor in its ring, outside of which an arrow tells how it turns, with the propeller on it, whose own arrow
// tells how it must be turned to lift; and both in words.
func (b *board) puzzleMotor(i int, c ink.Point, radius float64, r ink.Rect) {
	v := &b.v.First
	line := ink.BlockHeight(b.small, 1)
	selected := i == v.Selected
	// The words stand on the far side from the body.
	w := r.W/2 - 2*b.u
	rows := b.motorWords(i)
	tall := float64(len(rows)) * line
	text := ink.Rect{X: r.Centre().X - w - 2*b.u, Y: c.Y - radius - 5*b.u - tall, W: w, H: tall}
	if i%2 == 1 {
		text.X = r.Centre().X + 2*b.u
	}
	if i >= 2 {
		text.Y = c.Y + radius + 4*b.u
	}
	if selected {
		b.selection(c, radius)
	}
	b.Circle("motor ring", c.X, c.Y, radius*0.86, ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: b.u})
	b.turnArrow("motor arrow", c, radius*0.97, v.Turns[i], 0.9, ink.Paint{Line: ink.Ink, Width: 1.6 * b.u})
	if v.Hands[i] != 0 {
		b.blades(c, radius*0.72, v.Hands[i])
		b.turnArrow("propeller arrow", c, radius*0.44, v.Hands[i], 1.9, ink.Paint{Line: ink.Focus, Width: 2.6 * b.u})
	}
	b.Circle("motor shaft", c.X, c.Y, radius*0.1, ink.Paint{Fill: ink.Ink})

	for k, words := range rows {
		style := ink.Style{Size: b.small, Anchor: ink.Centre}
		if k == 0 {
			style.Weight = ink.Bold
		}
		if k == len(rows)-1 && selected {
			style.Weight = ink.Bold
		}
		b.fitted("motor words "+strconv.Itoa(i+1), ink.Rect{X: c.X - textHalf(c.X, text), Y: text.Y + float64(k)*line, W: 2 * textHalf(c.X, text), H: line}, style, words)
	}
	b.Hit(motorPrefix+strconv.Itoa(i+1), "", ink.Rect{X: c.X - radius, Y: c.Y - radius, W: 2 * radius, H: 2 * radius})
}

// motorWords are the lines at a motor; for a class the way it turns is left to its arrow.
func (b *board) motorWords(i int) []string {
	v, place := &b.v.First, phrase.Places()[i]
	if b.v.Class {
		return []string{place, phrase.ClassPropeller(v.Hands[i])}
	}
	return []string{place, phrase.MotorTurns(v.Turns[i]), phrase.PropellerIs(v.Hands[i])}
}

// textHalf is half the width that words centred at x have in a field.
func textHalf(x float64, field ink.Rect) float64 { return min(x-field.X, field.Right()-x) }

// selection marks the motor whose propeller the key changes: two brackets, one at each side.
func (b *board) selection(c ink.Point, radius float64) {
	d := radius + 4*b.u
	for _, s := range [2]float64{-1, 1} {
		x := c.X + s*d
		b.v.pts = append(b.v.pts[:0], ink.Point{X: x - s*7*b.u, Y: c.Y - d*0.92}, ink.Point{X: x, Y: c.Y - d*0.92}, ink.Point{X: x, Y: c.Y + d*0.92}, ink.Point{X: x - s*7*b.u, Y: c.Y + d*0.92})
		b.Polyline("selected", b.v.pts, ink.Paint{Line: ink.Focus, Width: 2 * b.u})
	}
}

// turnArrow draws part of a circle, to both sides of its top and of its bottom so many radians in all, with a tip at the end towards
// which it turns: clockwise where direction is positive.
func (b *board) turnArrow(name string, c ink.Point, radius float64, direction int8, span float64, p ink.Paint) {
	if direction == 0 {
		return
	}
	s := float64(direction)
	for _, middle := range [2]float64{-math.Pi / 2, math.Pi / 2} {
		from, to := middle-span/2, middle+span/2
		b.Arc(name, c.X, c.Y, radius, from, to, p)
		end := to
		if s < 0 {
			end = from
		}
		sin, cos := math.Sincos(end)
		tip := ink.Point{X: c.X + radius*cos, Y: c.Y + radius*sin}
		// Along the circle, and across it.
		ax, ay := -sin*s, cos*s
		d := max(3.2*p.Width, 4*b.u)
		b.v.pts = append(b.v.pts[:0], ink.Point{X: tip.X + ax*d, Y: tip.Y + ay*d}, ink.Point{X: tip.X + cos*d*0.75, Y: tip.Y + sin*d*0.75}, ink.Point{X: tip.X - cos*d*0.75, Y: tip.Y - sin*d*0.75})
		b.Polygon(name+" tip", b.v.pts, ink.Paint{Fill: p.Line})
	}
}

// blades draws a propeller of two blades from above. The leading edge is the straight one, so the two kinds are mirror images.
func (b *board) blades(c ink.Point, radius float64, hand int8) {
	s := float64(hand)
	for _, side := range [2]float64{-1, 1} {
		b.v.pts = b.v.pts[:0]
		for _, q := range [...]ink.Point{{X: 0.08, Y: -0.05}, {X: 1, Y: -0.1}, {X: 1.03, Y: 0.02}, {X: 0.6, Y: 0.2}, {X: 0.25, Y: 0.16}, {X: 0.08, Y: 0.06}} {
			b.v.pts = append(b.v.pts, ink.Point{X: c.X + side*q.X*radius, Y: c.Y + side*s*q.Y*radius})
		}
		b.Polygon("blade", b.v.pts, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.3 * b.u})
	}
}
