package gestures

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/gestures"
)

// board is a page with the sheet of gestures on it.
type board struct{ *figure.Board }

// Draw draws the practice of two-stick gestures; while a menu is open, the goggles picture with it.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnGestures)
	b := &board{on}
	switch {
	case v.Class:
		b.class(r)
	case v.Goggles.Open:
		b.GogglesSheet(r)
	case setOf(v) == nil && !Of(v).Recording.on():
		b.Group("gesture")
		d := b.Down(r, b.Gap)
		d.Say("none", words.T("gesture.none", words.Args{"key": v.KeyFor(Record, ui.OnGestures)}), ink.Style{Size: b.Large})
		b.sticks(d.R, nil, &gestures.Glance{}, false)
	case b.Tall:
		top, low := r.CutTop(r.H*0.58, b.Gap)
		left, right := low.CutLeft(low.W*0.48, b.Gap*1.6)
		b.practice(top)
		b.list(left)
		b.facts(right)
	default:
		left, right := r.CutLeft(ui.Clamp(r.W*0.36, 250*b.U, 460*b.U), b.Gap*1.6)
		n := 1
		if set := setOf(v); set != nil {
			n = len(set.Patterns)
		}
		top, low := left.CutTop(min(float64(n)*1.5*b.row()+b.SectionHeight(), left.H*0.42), b.Gap)
		b.list(top)
		b.facts(low)
		b.practice(right)
	}
}

// class draws the same for a room: the state, what is missing now, both sticks; or the goggles picture.
func (b *board) class(r ink.Rect) {
	v := b.V
	p := shown(v)
	beside, r := b.StateAfar(r, 1)
	if beside.W < 9*b.Body {
		beside, r = r.CutTop(ink.BlockHeight(b.Body, 1), 4*b.U)
	}
	bold := ink.Style{Size: b.Body, Weight: ink.Bold}
	switch d := b.Down(beside, 0); {
	case v.Goggles.Open:
		d.Say("room-words", v.Goggles.Name, bold)
		b.GogglesSheet(r)
		return
	case Of(v).Recording.on():
		d.Say("room-words", words.T("gesture.record-title"), bold)
	case p != nil:
		d.Say("room-words", tell.GestureName(p), bold)
	}
	g, live := glance(v)
	if b.Tall { // a portrait screen has the height for more
		b.Larger(1.3)
	}
	left, right := b.Split(r, r.W*0.4, r.H*0.3, 1.4)
	b.roomWords(left, p, &g)
	b.sticks(right, p, &g, live)
}

// roomWords is what a room reads of the gesture looked at: the step, what is missing now, and the last try.
func (b *board) roomWords(r ink.Rect, p *gestures.Pattern, g *gestures.Glance) {
	v := b.V
	recording := Of(v).Recording.on()
	if !recording {
		_, r = b.Foot(r, 4*b.U, 9, "yours", yours(v), ink.Style{Size: b.Body})
	}
	if p != nil && p.Count > 1 {
		var steps ink.Rect
		steps, r = r.CutTop(1.5*b.Body, b.Gap)
		b.steps(steps, p, g)
	}
	switch {
	case recording:
		b.recording(r)
	case p == nil:
		b.Group("gesture")
		b.Down(r, 0).Say("none", words.T("gesture.none", words.Args{"key": v.KeyFor(Record, ui.OnGestures)}), ink.Style{Size: b.Body})
	default:
		b.band(r, p, g)
	}
}

// practice is the heart of the sheet: the steps of a chain, both sticks with the target, and what is missing now.
func (b *board) practice(r ink.Rect) {
	v := b.V
	p, recording := shown(v), Of(v).Recording.on()
	g, live := glance(v)
	var name words.Text
	switch {
	case recording:
		name = words.T("gesture.record-title")
	case p != nil:
		name = tell.GestureName(p)
	}
	b.Group("gesture")
	row, r := r.CutTop(ink.BlockHeight(b.Large, 1), 4*b.U)
	b.Fitted("gesture-name", row, ink.Style{Size: b.Large, Weight: ink.Bold}, b.Say(name))
	// Two lines of the sentence that matters now, the last try, and a warning.
	band, r := r.CutBottom(min(ink.BlockHeight(b.Large, 2)+2*ink.LineHeight(b.Head)+16*b.U, r.H*0.5), b.Gap)
	if recording {
		b.recording(band)
	} else {
		b.band(band, p, &g)
	}
	if p != nil && (p.Count > 1 || recording) {
		var steps ink.Rect
		steps, r = r.CutTop(min(r.H*0.3, 62*b.U), b.Gap)
		b.steps(steps, p, &g)
	}
	b.sticks(r, p, &g, live)
}

// row is the least height of a row of the list, never less than can be clicked.
func (b *board) row() float64 { return max(25*b.U, ink.LineHeight(b.Body)) }

// list lists the gestures, each with both sticks small, and how often it was made.
func (b *board) list(r ink.Rect) {
	b.Group("gestures")
	v := Of(b.V)
	r = b.Section(r, "gestures-heading", b.Say(words.T("gesture.title", words.Args{"file": words.Quote(v.File), "shipped": words.Flag(v.Shipped)})))
	set := setOf(b.V)
	if set == nil {
		return
	}
	n := len(set.Patterns)
	b.ListAll("gestures", r, n, v.Selected, ui.Clamp(r.H/float64(n), b.row(), 2.2*b.row()), func(row ink.Rect, i int) {
		p := &set.Patterns[i]
		b.Hit(prefix+strconv.Itoa(i+1), "", row)
		row.H -= b.U
		style, small := ink.Style{Size: b.Body}, ink.Style{Size: b.Small, Colour: ink.Faint}
		if i == v.Selected {
			b.Chosen(row)
			style.Weight = ink.Bold
		}
		size := row.H - 8*b.U
		sticks, in := row.Inset(4*b.U).CutLeft(2*size+3*b.U, 7*b.U)
		stands := make([][gestures.Directions]gestures.Zone, max(p.Count, 1))
		for k := range stands {
			stands[k] = p.StickZones(k, mode(b.V))
		}
		if ink.Width(b.Say(tell.GestureName(p)), b.Small, ink.Bold) > in.W-4*b.Body && !b.Tall { // the name tells more than the picture
			in = row.Inset(4 * b.U)
		} else {
			b.smallSticks("gesture", sticks, stands...)
		}
		score := ""
		if i < len(v.Scores) {
			score = b.Say(tell.GestureScore(v.Scores[i].Made, v.Scores[i].nears()))
		}
		name := ink.Rect{X: in.X, Y: row.Y, W: in.W, H: row.H}
		if first, second := ink.LineHeight(b.Body), ink.LineHeight(b.Small); row.H > first+second+4*b.U {
			name.Y, name.H = row.Centre().Y-(first+second)/2, first
			b.Fitted("score", ink.Rect{X: in.X, Y: name.Bottom(), W: in.W, H: second}, small, score)
		} else {
			name = b.AtRight(name, "score", score, small, 2*b.U, 5*b.U)
		}
		called := b.Say(tell.GestureName(p))
		style.Size, _ = ink.Fit(name.W, b.Small, b.Body, style.Weight, called)
		if ink.Width(called, style.Size, style.Weight) > name.W { // the chosen one stands beside, large
			style.Weight = ink.Regular
		}
		b.Fitted("listed", name, style, called)
	})
}

// yours says of the shipped gestures that a craft's own will differ; nothing for a pilot's own file.
func yours(v *ui.View) words.Text {
	if !Of(v).Shipped {
		return words.Text{}
	}
	return tell.GestureYours(v.KeyFor(Record, ui.OnGestures))
}

// facts is what there is to know of the gesture looked at, and that the pilot's own may differ.
func (b *board) facts(r ink.Rect) {
	b.Group("facts")
	v := b.V
	g := Of(v)
	_, r = b.Foot(r, 6*b.U, 9, "yours", yours(v), ink.Style{Size: b.Body, Weight: ink.Bold})
	said := words.AsIs(ui.BreakLong(b.Say(g.Said), r.W, b.Small, ink.Regular))
	_, r = b.Foot(r, 6*b.U, 4, "said", said, ink.Style{Size: b.Small})
	p := chosen(v)
	if p == nil {
		return
	}
	r = b.Section(r, "facts-heading", b.Say(words.T("gesture.what")))
	var texts []words.Text
	if g.Selected < len(g.Scores) {
		texts = append(texts, tell.GestureNears(g.Scores[g.Selected].Near))
	}
	opens, camera := words.Text{}, false
	if m := v.Config.Menus; m != nil && p.Opens > 0 && int(p.Opens) <= len(m.Menus) {
		t := &m.Menus[p.Opens-1]
		opens, camera = tell.MenuName(t), t.Camera
	}
	texts = append(texts, words.T("gesture.opens-which", words.Args{"menu": opens, "camera": words.Flag(camera)}), tell.GestureGiven(p, mode(v)))
	texts = append(texts, tell.CornerFacts(v.Config, setOf(v), g.Selected, mode(v))...)
	texts = append(texts, tell.GestureInside(setOf(v), g.Selected, mode(v))...)
	b.Facts(r, "fact", texts, r.H)
}

// recording says what to do while a gesture is recorded, or what was seen.
func (b *board) recording(r ink.Rect) {
	b.Group("record")
	v := b.V
	rec := &Of(v).Recording
	key := func(a ui.Action) words.Text { return v.Named(a, ui.OnGestures) }
	b.Line("record-rule", r.X, r.Y, r.Right(), r.Y, ink.Paint{Line: ink.Grid})
	_, r = r.CutTop(4*b.U, 0)
	first, rest := tell.RecordVerdict(rec.Verdict, &rec.Pattern, mode(v)), []words.Text{rec.Trouble}
	switch {
	case rec.runs():
		first, rest = words.T("gesture.record-say", words.Args{"moved": words.Flag(rec.Phase != AtRest), "back": words.Flag(rec.Phase == Back), "key": key(Record)}), []words.Text{words.T("gesture.record-time", words.Args{"time": tell.ShortSeconds(rec.Millis)})}
	case rec.seen():
		rest = append(rest, words.T("gesture.record-by", words.Args{"stick": words.Flag(rec.Pattern.Physical), "key": key(ByJob)}))
		if hasMenus(v) {
			rest = append(rest, words.T("gesture.record-opens", words.Args{"menu": rec.Opens, "key": key(Opens)}))
		}
		rest = append(rest, words.T("gesture.record-ask-name", words.Args{"key": key(Keep)}))
	}
	d := b.Down(r, 3*b.U)
	d.Lines(5, "record-say", b.Say(first), ink.Style{Size: b.Large, Weight: ink.Bold})
	b.Facts(d.R, "fact", rest, d.R.H)
}
