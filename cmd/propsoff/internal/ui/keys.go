package ui

import (
	"math"
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/input/learn"
)

// What class view asks for, as shares of the picture's height (ours): the capitals of the state word, and
// the size of sentences and values. On a picture that is taller than wide, of five eighths of its width.
const (
	ClassState = 0.12
	ClassText  = 0.035
)

// drawn is CapWord on a drawn cap: beside a lever there is no room for the whole name of the space bar.
func drawn(physical string) words.Text {
	if physical == "Space" {
		return words.T("key-cap.space-drawn")
	}
	return CapWord(physical)
}

// CapWidth is the width of the cap of a physical key, of height h.
func (b *Board) CapWidth(h float64, key string) float64 {
	return max(h, ink.Width(b.Say(drawn(key)), b.Small, ink.Bold)+8*b.U)
}

// KeyCap draws the cap of a physical key centred at a place.
func (b *Board) KeyCap(name string, x, y, h float64, key string) ink.Rect {
	w := b.CapWidth(h, key)
	r := ink.Rect{X: x - w/2, Y: y - h/2, W: w, H: h}
	b.RoundRect(name, r, 3*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Rule})
	b.Line(name+" foot", r.X+2*b.U, r.Bottom()-2.5*b.U, r.Right()-2*b.U, r.Bottom()-2.5*b.U, ink.Paint{Line: ink.Grid, Under: true})
	b.Text(name+" word", x, y-0.5*b.U, ink.Style{Size: b.Small, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: r}, b.Say(drawn(key)))
	return r
}

// KeyAt draws a key at the left of a row, and gives what is left of the row, with a gap.
func (b *Board) KeyAt(r ink.Rect, name, key string, h, gap float64) (rest ink.Rect) {
	cap, rest := r.CutLeft(b.CapWidth(h, key), gap)
	b.KeyCap(name, cap.Centre().X, cap.Centre().Y, h, key)
	return rest
}

// KeyRow draws a key with what it does in a row, to be clicked.
func (b *Board) KeyRow(r ink.Rect, code, physical, does string) {
	rest := b.KeyAt(r, code+" key", physical, b.Cap+b.U, 5*b.U)
	b.Fitted(code, rest, ink.Style{Size: b.Small}, does)
	b.Hit(code, physical, r)
}

// KeyWidth is the width that KeyRow needs.
func (b *Board) KeyWidth(physical, does string) float64 {
	return b.CapWidth(b.Cap+b.U, physical) + ink.Width(does, b.Small, ink.Regular) + 8*b.U
}

// Footer draws at the lower edge who drives, what there is to know, and what can be done; it gives what is left above.
func (b *Board) Footer(r ink.Rect, on Place) ink.Rect {
	b.On = on
	r = b.Actions(r, on)
	b.Group("driver")
	for i := min(len(b.V.Notices), 2) - 1; i >= 0; i-- {
		r = b.Notice(r, b.V.Notices[i])
	}
	text := b.Say(b.V.whoDrives(on, on == OnBench && b.StickKeys()))
	size, least := b.Head, ink.BlockHeight(b.Small, 1)
	lines, _ := ink.CountLines(text, r.W, size, ink.Regular)
	if lines > 1 {
		size = b.Small
		lines, _ = ink.CountLines(text, r.W, size, ink.Regular)
	}
	lines = min(lines, 2)
	line, rest := r.CutBottom(max(least, ink.BlockHeight(size, lines)), 6*b.U)
	b.Block("who-drives", line.X, line.Y, ink.Style{Size: size, Weight: ink.Regular, Within: line},
		ink.Block{Width: line.W, MaxLines: lines, Shorten: true}, text)
	b.Line("footer-rule", line.X, rest.Bottom()+2*b.U, line.Right(), rest.Bottom()+2*b.U, ink.Paint{Line: ink.Grid})
	return rest
}

// whoDrives says who drives, or who is asked; caps: the keys of the sticks stand beside them.
func (v *View) whoDrives(on Place, caps bool) words.Text {
	asking := on == OnQuestions && v.Learn.Question < learn.Done
	switch {
	case on == OnWhich:
		return words.T("learned.nobody-yet")
	case asking:
		return words.T("ask.about", words.Args{"name": words.Quote(v.Device.Name)})
	case on == OnQuestions && v.Driver == Radio:
		return words.T("ask.drives", words.Args{"name": words.Quote(v.Device.Name), "out": words.Flag(v.Out)})
	}
	return tell.WhoDrives(tell.Driving{Who: int(v.Driver), Name: v.DriverName, Next: int(v.Next), NextName: v.NextName, Blunted: v.Blunted, Ended: v.Ended,
		Key: v.KeyHere(NextDriver, on), Caps: caps,
		Sticks: v.House.Flown(on) && (!v.Flight.Replay.On || v.Driver == Keyboard)}) // two of the stick keys go back and on in a look back
}

// Larger takes text so many times as large for everything.
func (b *Board) Larger(times float64) {
	text := math.Ceil(b.Body * times)
	b.Small, b.Body, b.Head, b.Large = text, text, text, text
}

// Notice draws one sentence with a mark before it, in at most three lines.
func (b *Board) Notice(r ink.Rect, notice words.Text) ink.Rect {
	w := r.W - 18*b.U
	text := BreakLong(b.Say(notice), w, b.Small, ink.Regular)
	lines, _ := ink.CountLines(text, w, b.Small, ink.Regular)
	lines = min(lines, 3)
	line, rest := r.CutBottom(ink.BlockHeight(b.Small, lines), 3*b.U)
	y := line.Y + ink.BlockHeight(b.Small, 1)/2
	b.Warning(line.X, y)
	b.Block("notice", line.X+18*b.U, line.Y, ink.Style{Size: b.Small, Within: line}, ink.Block{Width: w, MaxLines: lines, Shorten: true}, text)
	return rest
}

// Warning is the mark before a notice: a triangle.
func (b *Board) Warning(x, y float64) {
	b.Triangle("notice-mark", ink.Paint{Line: ink.Ink, Width: 1.5 * b.U}, ink.Point{X: x + 6*b.U, Y: y - 5.5*b.U}, ink.Point{X: x + 12.5*b.U, Y: y + 5*b.U}, ink.Point{X: x, Y: y + 5*b.U})
}

// Triangle draws a triangle between three points.
func (b *Board) Triangle(name string, p ink.Paint, a, c, d ink.Point) {
	b.Polygon(name, []ink.Point{a, c, d}, p)
}

// Actions draws every action of a sheet with its key, and where it can be clicked; it gives what is left above them.
func (b *Board) Actions(r ink.Rect, on Place) ink.Rect {
	var all []Action
	for _, a := range b.V.House.Keys(on) {
		if a.Action != Understood {
			all = append(all, a.Action)
		}
	}
	return b.keyRows(r, on, 25*b.U, all)
}

// ClassKeys begins a class view of a sheet: its large text sizes, and the keys of some actions; it gives what is left.
func (b *Board) ClassKeys(on Place, shown ...Action) ink.Rect {
	b.ClassSizes(1.45)
	return b.KeysOf(on, shown...)
}

// ClassSizes takes the large text sizes of class view; keys are so many times as high as text.
func (b *Board) ClassSizes(key float64) {
	b.Body = min(b.H, b.W*ink.LeastHeight/ink.LeastWidth) * ClassText
	b.Larger(1)
	b.Cap = b.Body * key
}

// KeysOf draws those of some keys that do something on a sheet; it gives what is left above them.
func (b *Board) KeysOf(on Place, shown ...Action) ink.Rect {
	return b.keyRows(b.SheetArea(), on, max(b.Cap+4*b.U, 25*b.U), shown)
}

// keyRows draws those of some keys that do something on a sheet in rows of a height, in as many columns as their words leave room for.
func (b *Board) keyRows(r ink.Rect, on Place, row float64, shown []Action) ink.Rect {
	b.On = on
	b.Group("keys")
	var now []Act
	var does []string
	var wide []float64
	for _, a := range shown {
		if b.V.Shows(a, on) {
			act, says := b.V.House.acts[a], b.Say(b.V.Does(a, on))
			now, does = append(now, act), append(does, says)
			wide = append(wide, b.KeyWidth(act.Physical, says))
		}
	}
	gap, n := 9*b.U, len(now)
	columns, spare := keyColumns(wide, n, r.W, gap)
	for ; spare < 0 && n > 1; n-- {
		columns, spare = keyColumns(wide, n-1, r.W, gap)
	}
	rows := (len(now) + max(n, 1) - 1) / max(n, 1)
	if even := (len(now) + max(rows, 1) - 1) / max(rows, 1); even < n { // the last row is not left almost empty
		if fewer, left := keyColumns(wide, even, r.W, gap); left >= 0 {
			columns, spare = fewer, left
		}
	}
	area, rest := r.CutBottom(max(float64(rows)*(row+2*b.U)-2*b.U, 0), 5*b.U)
	at := ink.Rect{X: area.X, Y: area.Y, H: row}
	for i, a := range now {
		at.W = columns[i%len(columns)] + spare/float64(len(columns))
		b.KeyRow(at, a.Action.Code(), a.Physical, does[i])
		if at.X += at.W + gap; i%len(columns) == len(columns)-1 {
			at.X, at.Y = area.X, at.Y+row+2*b.U
		}
	}
	return rest
}

// keyColumns are the widths of n columns of keys, row after row, and what they leave of a width.
func keyColumns(wide []float64, n int, w, gap float64) (columns []float64, spare float64) {
	columns, spare = make([]float64, n), w-float64(n-1)*gap
	for i := range wide {
		columns[i%n] = max(columns[i%n], wide[i])
	}
	for _, c := range columns {
		spare -= c
	}
	return columns, spare
}

// Choice draws the radios to choose from by number.
func (b *Board) Choice(r ink.Rect) ink.Rect {
	b.Group("choice")
	radios := b.V.Radios[:min(len(b.V.Radios), MostChoices)]
	rest := b.Section(r, "choice-heading", b.Say(words.T("sheet.choice", words.Args{"n": words.Count(len(b.V.Radios))})))
	left, first := b.Cap+11*b.U, max(26*b.U, b.Cap+4*b.U)
	for i, name := range radios {
		w := rest.W - left
		if i == b.V.Reading {
			name = b.Say(words.T("sheet.being-read", words.Args{"name": words.Quote(name)}))
		}
		lines, _ := ink.CountLines(name, w, b.Body, ink.Regular)
		lines = min(lines, 2)
		var row ink.Rect
		row, rest = rest.CutTop(first+float64(lines-1)*ink.LineHeight(b.Body), 2*b.U)
		digit := strconv.Itoa(i + 1)
		b.KeyCap("choice-key", row.X+b.Cap/2+b.U, row.Y+first/2, b.Cap+b.U, digit)
		b.Block("choice", row.X+left, row.Y+first/2-ink.BlockHeight(b.Body, 1)/2, ink.Style{Size: b.Body, Within: row.Inset(-2 * b.U)},
			ink.Block{Width: w, MaxLines: lines, Shorten: true}, name)
		b.Hit(choicePrefix+digit, digit, row)
	}
	_, rest = rest.CutTop(0, b.Gap)
	return rest
}
