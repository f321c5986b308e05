package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/gestures"
)

// gestureRowHeight is the height of a row of the list: so many times that of its text, and never less than can be clicked.
func (b *board) gestureRowHeight(times float64) float64 {
	return max(25*b.u, times*ink.LineHeight(b.body))
}

// gestureList lists the gestures, each with both sticks small, and how often it was made.
func (b *board) gestureList(r ink.Rect) {
	b.Group("gestures")
	v := &b.v.Gestures
	r = b.section(r, "gestures heading", phrase.GesturesTitle(v.File, v.Shipped))
	set := b.v.gestureSet()
	if set == nil {
		return
	}
	n := len(set.Patterns)
	least := b.gestureRowHeight(1)
	fit := max(1, int(r.H/least))
	first := 0
	if n > fit {
		first = clampInt(v.Selected-fit/2, 0, n-fit)
	}
	shown := min(n, fit)
	h := min(r.H/float64(shown), 2.2*least)
	mode := uint8(stickMode(b.v.StickMode))
	for i := first; i < first+shown; i++ {
		p := &set.Patterns[i]
		row := ink.Rect{X: r.X, Y: r.Y + float64(i-first)*h, W: r.W, H: h - b.u}
		style := ink.Style{Size: b.body}
		if i == v.Selected {
			b.RoundRect("gesture looked at", row, 4*b.u, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 1.6 * b.u})
			style.Weight = ink.Bold
		}
		size := row.H - 8*b.u
		small := ink.Rect{X: row.X + 5*b.u, Y: row.Y + 4*b.u, W: 2*size + 3*b.u, H: size}
		stands := make([][gestures.Directions]gestures.Zone, max(p.Count, 1))
		for k := range stands {
			stands[k] = p.StickZones(k, mode)
		}
		b.smallSticks("gesture", small, stands...)
		words := row
		words.X = small.Right() + 7*b.u
		words.W = row.Right() - words.X - 6*b.u
		score := ""
		if i < len(v.Scores) {
			score = phrase.GestureScore(v.Scores[i].Made, v.Scores[i].nears())
		}
		if two := ink.LineHeight(b.body) + ink.LineHeight(b.small); row.H > two+4*b.u {
			top := ink.Rect{X: words.X, Y: row.Centre().Y - two/2, W: words.W, H: ink.LineHeight(b.body)}
			b.fitted("gesture", top, style, p.Name)
			b.fitted("score", ink.Rect{X: words.X, Y: top.Bottom(), W: words.W, H: ink.LineHeight(b.small)}, ink.Style{Size: b.small, Colour: ink.Faint}, score)
		} else {
			w := ink.Width(score, b.small, ink.Regular) + 2*b.u
			b.fitted("gesture", ink.Rect{X: words.X, Y: words.Y, W: words.W - w - 5*b.u, H: words.H}, style, p.Name)
			b.Text("score", words.Right(), words.Centre().Y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Right | ink.Middle, Within: row}, score)
		}
		b.Hit(gesturePrefix+strconv.Itoa(i+1), "", ink.Rect{X: row.X, Y: row.Y - b.u/2, W: row.W, H: h})
	}
}

// gesturesYours says of the shipped gestures that a craft's own will differ; empty for a pilot's own file.
func (v *View) gesturesYours() string {
	if !v.Gestures.Shipped {
		return ""
	}
	return phrase.GestureYours(v.KeyFor(RecordGesture, OnGestures))
}

// gestureFacts is what there is to know of the gesture looked at, and that the pilot's own may differ.
func (b *board) gestureFacts(r ink.Rect) {
	b.Group("facts")
	v := b.v
	g := &v.Gestures
	var foot ink.Rect
	if yours := v.gesturesYours(); yours != "" {
		n, _ := ink.CountLines(yours, r.W, b.body, ink.Bold)
		foot, r = r.CutBottom(ink.BlockHeight(b.body, n), 6*b.u)
		b.Block("yours", foot.X, foot.Y, ink.Style{Size: b.body, Weight: ink.Bold, Within: foot}, ink.Block{Width: foot.W}, yours)
	}
	if g.Said != "" {
		said := breakLong(g.Said, r.W, b.small, ink.Regular)
		n, _ := ink.CountLines(said, r.W, b.small, ink.Regular)
		n = min(n, 4)
		foot, r = r.CutBottom(ink.BlockHeight(b.small, n), 6*b.u)
		b.Block("said", foot.X, foot.Y, ink.Style{Size: b.small, Within: foot}, ink.Block{Width: foot.W, MaxLines: n, Shorten: true}, said)
	}
	set := v.gestureSet()
	if set == nil || g.Selected < 0 || g.Selected >= len(set.Patterns) {
		return
	}
	r = b.section(r, "facts heading", phrase.GestureOf())
	mode := uint8(stickMode(v.StickMode))
	p := &set.Patterns[g.Selected]
	texts := []string{}
	if g.Selected < len(g.Scores) {
		if s := phrase.GestureNears(g.Scores[g.Selected].Near); s != "" {
			texts = append(texts, s)
		}
	}
	name, camera := "", false
	if m := v.Config.Menus; m != nil && p.Opens > 0 && int(p.Opens) <= len(m.Menus) {
		name, camera = m.Menus[p.Opens-1].Name, m.Menus[p.Opens-1].Camera
	}
	texts = append(texts, phrase.GestureOpens(name, camera), phrase.GestureGiven(p, mode))
	texts = append(texts, phrase.CornerFacts(v.Config, set, g.Selected, mode)...)
	texts = append(texts, phrase.GestureInside(set, g.Selected, mode)...)
	b.facts(r, texts)
}

// facts writes sentences one below the other, as many as there is room for, in the largest size at which all fit.
func (b *board) facts(r ink.Rect, texts []string) {
	size := b.small
	for next := b.head; next > b.small; next-- {
		if b.factsHeight(r.W, texts, next) <= r.H {
			size = next
			break
		}
	}
	for _, text := range texts {
		n, _ := ink.CountLines(text, r.W, size, ink.Regular)
		n = min(n, int((r.H+0.3*size)/ink.LineHeight(size)))
		if n < 1 {
			return
		}
		h, _ := b.Block("fact", r.X, r.Y, ink.Style{Size: size, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, text)
		_, r = r.CutTop(h, 5*b.u)
	}
}

func (b *board) factsHeight(w float64, texts []string, size float64) float64 {
	h := 0.0
	for _, text := range texts {
		n, _ := ink.CountLines(text, w, size, ink.Regular)
		h += ink.BlockHeight(size, n) + 5*b.u
	}
	return h
}

// recordBand says what to do while a gesture is recorded, or what was seen.
func (b *board) recordBand(r ink.Rect) {
	b.Group("record")
	v := b.v
	rec := &v.Gestures.Record
	b.Line("record rule", r.X, r.Y, r.Right(), r.Y, ink.Paint{Line: ink.Grid})
	_, r = r.CutTop(4*b.u, 0)
	mode := uint8(stickMode(v.StickMode))
	first, rest := "", []string(nil)
	switch rec.Phase {
	case RecordDone, RecordNaming:
		first = phrase.RecordVerdict(rec.Verdict, &rec.Pattern, mode)
		if rec.seen() && rec.Phase == RecordNaming {
			first, rest = phrase.RecordName(rec.Typed), append(rest, phrase.RecordTyping())
		} else if rec.seen() {
			rest = append(rest, phrase.RecordBy(rec.Pattern.Physical, physicalOf(GestureByJob)))
			if v.Config.Menus != nil && len(v.Config.Menus.Menus) > 0 {
				rest = append(rest, phrase.RecordOpens(rec.Opens, physicalOf(GestureMenu)))
			}
			rest = append(rest, phrase.RecordAskName(physicalOf(KeepGesture)))
		}
		if rec.Trouble != "" {
			rest = append([]string{rec.Trouble}, rest...)
		}
	default:
		first = phrase.RecordSay(rec.Phase != RecordRest, rec.Phase == RecordBack, physicalOf(RecordGesture))
		rest = append(rest, phrase.RecordTime(rec.Millis))
	}
	n, _ := ink.CountLines(first, r.W, b.large, ink.Bold)
	n = max(1, min(n, 3, int(r.H/ink.LineHeight(b.large))))
	h, _ := b.Block("record say", r.X, r.Y, ink.Style{Size: b.large, Weight: ink.Bold, Within: r}, ink.Block{Width: r.W, MaxLines: n, Shorten: true}, first)
	_, r = r.CutTop(h, 3*b.u)
	b.facts(r, rest)
}
