package ui

import (
	"math"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/learn"
)

// What class view asks for, as shares of the picture's height (ours): the capitals of the state word, and
// the size of sentences and values. On a picture that is taller than wide, of five eighths of its width.
const (
	ClassState = 0.12
	ClassText  = 0.035
)

// CapWidth is the width of the cap of a physical key, of height h.
func (b *Board) CapWidth(h float64, key string) float64 {
	return max(h, ink.Width(b.Say(b.V.Caps.drawn(key)), b.capText(h), ink.Bold)+8*b.U)
}

// KeyCap draws the cap of a physical key centred at a place.
func (b *Board) KeyCap(name string, x, y, h float64, key string) ink.Rect {
	w := b.CapWidth(h, key)
	r := ink.Rect{X: x - w/2, Y: y - h/2, W: w, H: h}
	b.RoundRect(name, r, 3*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Rule})
	b.Line(name+" foot", r.X+2*b.U, r.Bottom()-2.5*b.U, r.Right()-2*b.U, r.Bottom()-2.5*b.U, ink.Paint{Line: ink.Grid, Under: true})
	b.Text(name+" word", x, y-0.5*b.U, ink.Style{Size: b.capText(h), Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: r}, b.Say(b.V.Caps.drawn(key)))
	return r
}

// CapHit makes a place do what the key does whose cap is drawn there, or which its sentence names, where it is large enough to be pressed and nothing
// else is pressed there.
func (b *Board) CapHit(code, key string, r ink.Rect) {
	if b.Free(r) {
		b.Hit(code, key, r)
	}
}

// Free tells whether a place is large enough to be pressed, and nothing else is pressed there.
func (b *Board) Free(r ink.Rect) bool {
	least := b.Least()
	return r.W >= least && r.H >= least && !slices.ContainsFunc(b.Hits(), func(h ink.Hit) bool { return h.Box.Meets(r) })
}

// capText is the size of what is printed on a cap of a height.
func (b *Board) capText(h float64) float64 {
	if h >= 1.7*b.Body {
		return b.Body
	}
	return b.Small
}

// KeyAt draws a key at the left of a row, and gives what is left of the row, with a gap.
func (b *Board) KeyAt(r ink.Rect, name, key string, h, gap float64) (rest ink.Rect) {
	cap, rest := r.CutLeft(b.CapWidth(h, key), gap)
	b.KeyCap(name, cap.Centre().X, cap.Centre().Y, h, key)
	return rest
}

// Footer draws at the lower edge who drives, what there is to know, and what can be done; it gives what is left above.
func (b *Board) Footer(r ink.Rect, on Place) ink.Rect {
	b.On = on
	r = b.Actions(r, on)
	b.Group("driver")
	for i := min(len(b.V.Notices), 2) - 1; i >= 0; i-- {
		r = b.Notice(r, b.V.Notices[i])
	}
	text := b.Say(b.V.whoDrives(on, on == OnBench && b.StickCaps()))
	if text == "" {
		return r
	}
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
	case on == OnAsk && !v.Drives.Empty():
		return v.Drives
	case on == OnStart && v.Driver == Demo: // nothing is seen to fly there
		return words.Text{}
	case on == OnWhich:
		return words.T("learned.nobody-yet")
	case asking:
		if v.Learn.Trying {
			return words.T("ask.about-try", words.Args{"name": words.Quote(v.Device.Name)})
		}
		return words.T("ask.about", words.Args{"name": words.Quote(v.Device.Name)})
	case on == OnQuestions && v.Driver == Radio:
		return tell.WhoDrives(tell.Driving{Who: int(Radio), Name: v.Device.Name, Out: v.Out})
	}
	return tell.WhoDrives(tell.Driving{Who: int(v.Driver), Name: v.DriverName, Next: int(v.Next), NextName: v.NextName, Blunted: v.Blunted, Out: v.Out, Ended: v.Ended, StickKeys: v.stickKeys(), Finger: v.Touch,
		Key: v.KeyHere(NextDriver, on), Caps: caps,
		Sticks: v.House.Flown(on) && (!v.Flight.Replay.On || v.Driver == Keyboard)}) // two of the stick keys go back and on in a look back
}

// Larger takes text so many times as large for everything.
func (b *Board) Larger(times float64) {
	text := math.Ceil(b.Body * times)
	b.Small, b.Body, b.Head, b.Large = text, text, text, text
}

// Notice draws one sentence, with a mark before it where it warns, in at most three lines.
func (b *Board) Notice(r ink.Rect, notice Notice) ink.Rect { return b.notice(r, notice, b.Small) }

// ClassCaution draws for a room the first notice that warns of something; it gives what is left above.
func (b *Board) ClassCaution(r ink.Rect) ink.Rect {
	if i := slices.IndexFunc(b.V.Notices, func(n Notice) bool { return !n.Good }); i >= 0 {
		return b.notice(r, b.V.Notices[i], b.Body)
	}
	return r
}

// notice is Notice in text of a size.
func (b *Board) notice(r ink.Rect, notice Notice, size float64) ink.Rect {
	w := r.W - 18*b.U
	text := BreakLong(b.Say(notice.Text), w, size, ink.Regular)
	lines, _ := ink.CountLines(text, w, size, ink.Regular)
	lines = min(lines, 3)
	line, rest := r.CutBottom(ink.BlockHeight(size, lines), 3*b.U)
	y := line.Y + ink.BlockHeight(size, 1)/2
	if notice.Good {
		b.Circle("notice-dot", line.X+6*b.U, y, 2.5*b.U, ink.Paint{Fill: ink.Ink})
	} else {
		b.Warning(line.X, y)
	}
	b.Block("notice", line.X+18*b.U, line.Y, ink.Style{Size: size, Within: line}, ink.Block{Width: w, MaxLines: lines, Shorten: true}, text)
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

// Choice draws the radios to choose from by number.
func (b *Board) Choice(r ink.Rect) ink.Rect {
	b.Group("choice")
	radios := b.V.Radios[:min(len(b.V.Radios), MostChoices)]
	rest := b.Section(r, "choice-heading", b.Say(words.T("sheet.choice", words.Args{"n": words.Count(len(b.V.Radios)), "finger": words.Flag(b.V.Touch)})))
	left, first := b.Cap+11*b.U, b.ForFinger(max(26*b.U, b.Cap+4*b.U))
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
