package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
)

// capWidth is the width of a key cap of height h.
func (b *board) capWidth(h float64, key string) float64 {
	return max(h, ink.Width(key, b.small, ink.Bold)+8*b.u)
}

// keyCap draws a key centred at a place.
func (b *board) keyCap(name string, x, y, h float64, key string) ink.Rect {
	w := b.capWidth(h, key)
	r := ink.Rect{X: x - w/2, Y: y - h/2, W: w, H: h}
	b.RoundRect(name, r, 3*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Rule})
	b.Line(name+" foot", r.X+2*b.u, r.Bottom()-2.5*b.u, r.Right()-2*b.u, r.Bottom()-2.5*b.u, ink.Paint{Line: ink.Grid, Under: true})
	b.Text(name+" word", x, y-0.5*b.u, ink.Style{Size: b.small, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: r}, key)
	return r
}

// leastKey is the least width of a field of the row of keys in pixels of the least window: a cap and fifteen letters.
const leastKey = 112

// footer draws at the lower edge who drives, what there is to know, and what can be done; it gives what is left above.
func (b *board) footer(r ink.Rect, on Place) ink.Rect {
	b.on = on
	r = b.actions(r, on)
	b.Group("driver")
	if n := len(b.v.Notices); n > 0 {
		for i := min(n, 2) - 1; i >= 0; i-- {
			r = b.notice(r, b.v.Notices[i])
		}
	}
	text := phrase.Asked(b.v.Device.Name)
	switch {
	case on == OnWhich:
		text = phrase.NobodyYet()
	case on == OnQuestions && b.v.Learn.Question >= learn.Done && b.v.Driver == Radio:
		text = phrase.AskedDriver(b.v.Device.Name, b.v.Out)
	case on != OnQuestions || b.v.Learn.Question >= learn.Done:
		d := phrase.Driving{Who: int(b.v.Driver), Name: b.v.DriverName, Next: int(b.v.Next), NextName: b.v.NextName, Blunted: b.v.Blunted, Ended: b.v.Ended}
		d.Key = b.v.keyHere(NextDriver, on)
		d.Sticks, d.Caps = on&OnFlown != 0, on == OnBench && b.stickKeys()
		if b.v.Flight.Replay.On && b.v.Driver != Keyboard { // two of the stick keys go back and on in it
			d.Sticks = false
		}
		text = phrase.WhoDrives(d)
	}
	size, least := b.head, ink.BlockHeight(b.small, 1)
	lines, _ := ink.CountLines(text, r.W, size, ink.Regular)
	if lines > 1 {
		size = b.small
		lines, _ = ink.CountLines(text, r.W, size, ink.Regular)
	}
	lines = min(lines, 2)
	line, rest := r.CutBottom(max(least, ink.BlockHeight(size, lines)), 6*b.u)
	b.Block("who drives", line.X, line.Y, ink.Style{Size: size, Weight: ink.Regular, Within: line},
		ink.Block{Width: line.W, MaxLines: lines, Shorten: true}, text)
	b.Line("footer rule", line.X, rest.Bottom()+2*b.u, line.Right(), rest.Bottom()+2*b.u, ink.Paint{Line: ink.Grid})
	return rest
}

// notice draws one sentence with a mark before it, in at most two lines.
func (b *board) notice(r ink.Rect, text string) ink.Rect {
	w := r.W - 18*b.u
	text = breakLong(text, w, b.small, ink.Regular)
	lines, _ := ink.CountLines(text, w, b.small, ink.Regular)
	lines = min(lines, 2)
	line, rest := r.CutBottom(ink.BlockHeight(b.small, lines), 3*b.u)
	y := line.Y + ink.BlockHeight(b.small, 1)/2
	b.warning(line.X, y)
	b.Block("notice", line.X+18*b.u, line.Y, ink.Style{Size: b.small, Within: line}, ink.Block{Width: w, MaxLines: lines, Shorten: true}, text)
	return rest
}

// warning is the mark before a notice: a triangle.
func (b *board) warning(x, y float64) {
	tri := [...]ink.Point{{X: x + 6*b.u, Y: y - 5.5*b.u}, {X: x + 12.5*b.u, Y: y + 5*b.u}, {X: x, Y: y + 5*b.u}}
	b.Polygon("notice mark", tri[:], ink.Paint{Line: ink.Ink, Width: 1.5 * b.u})
}

// actions draws every action of a sheet with its key, and where it can be clicked.
func (b *board) actions(r ink.Rect, on Place) ink.Rect {
	b.Group("keys")
	n := 0
	for _, a := range acts {
		if b.v.Shows(a, on) && a.Action != Understood {
			n++
		}
	}
	columns := max(1, int((r.W+4*b.u)/(leastKey*b.u+4*b.u)))
	rows := (n + columns - 1) / columns
	columns = (n + rows - 1) / rows
	row := 25 * b.u
	area, rest := r.CutBottom(float64(rows)*row+float64(rows-1)*2*b.u, 5*b.u)
	i := 0
	for _, a := range acts {
		if !b.v.Shows(a, on) || a.Action == Understood {
			continue
		}
		cell := area.Cell(i, columns, rows, 2*b.u)
		b.action(cell, a, on)
		i++
	}
	return rest
}

func (b *board) action(r ink.Rect, a Act, on Place) {
	h := b.cap + b.u
	key := capWord(a.Physical)
	w := b.capWidth(h, key)
	b.keyCap(a.Code+" key", r.X+w/2, r.Centre().Y, h, key)
	x := r.X + w + 5*b.u
	b.fitted(a.Code, ink.Rect{X: x, Y: r.Y, W: r.Right() - x, H: r.H}, ink.Style{Size: b.small}, b.v.does(a.Action, on))
	b.Hit(a.Code, a.Physical, r)
}

// choice draws the radios to choose from by number.
func (b *board) choice(r ink.Rect) ink.Rect {
	b.Group("choice")
	radios := b.v.Radios[:min(len(b.v.Radios), MostChoices)]
	rest := b.section(r, "choice heading", phrase.ChoiceTitle(len(b.v.Radios)))
	left, first := b.cap+11*b.u, max(26*b.u, b.cap+4*b.u)
	for i, name := range radios {
		w := rest.W - left
		if i == b.v.Reading {
			name = phrase.BeingRead(name)
		}
		lines, _ := ink.CountLines(name, w, b.body, ink.Regular)
		lines = min(lines, 2)
		var row ink.Rect
		row, rest = rest.CutTop(first+float64(lines-1)*ink.LineHeight(b.body), 2*b.u)
		digit := strconv.Itoa(i + 1)
		b.keyCap("choice key", row.X+b.cap/2+b.u, row.Y+first/2, b.cap+b.u, digit)
		b.Block("choice", row.X+left, row.Y+first/2-ink.BlockHeight(b.body, 1)/2, ink.Style{Size: b.body, Within: row.Inset(-2 * b.u)},
			ink.Block{Width: w, MaxLines: lines, Shorten: true}, name)
		b.Hit(choicePrefix+digit, digit, row)
	}
	_, rest = rest.CutTop(0, b.gap)
	return rest
}
