package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/gestures"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// GesturesView is what the sheet of two-stick gestures knows. The patterns themselves are those of View.Config.
type GesturesView struct {
	// File is what the gesture file is called; Shipped tells that it came with the program.
	File    string
	Shipped bool
	// Set is how each pattern stands, Sticks what the craft received last, throttle, roll, pitch and yaw.
	Set    []gestures.State
	Sticks [gestures.Directions]pulse.Width
	// Selected is the pattern looked at; Scores are those of this session, for each.
	Selected int
	Scores   []GestureScore
	Try      GestureTry
	Record   GestureRecord
	Goggles  GogglesView
	// Said is one sentence about what was done last, such as that a gesture was kept; empty for none.
	Said string
	// Not says why none can be recorded now; empty where one can.
	Not string
}

// GestureScore counts the tries of one gesture in this session.
type GestureScore struct {
	Made int
	Near [happening.NearCount]int
}

// nears is how often it was nearly made.
func (s *GestureScore) nears() (n int) {
	for _, k := range s.Near {
		n += k
	}
	return n
}

// GestureTry is the last try of the gesture looked at.
type GestureTry struct {
	// Running is how long the sticks have been under way, in ms; −1 while they rest.
	Running int64
	// Done: there was a try, and Made or missed it was. Took is how long it took in ms.
	Done, Made bool
	Took       int64
	// Held: it was made, and the sticks have not left it since.
	Held bool
	// How it was missed, Direction in the pattern's own order, and Early how much too early it was let go, 0 unknown.
	How       happening.Near
	Direction int
	Early     int64
	// Other is the gesture that was made in its place; empty for none.
	Other string
}

// RecordPhase is how far a recording is.
type RecordPhase uint8

// The phases.
const (
	NoRecord     RecordPhase = iota
	RecordRest               // begun, and the sticks rest
	RecordMoving             // the sticks are away
	RecordBack               // they rest again
	RecordDone               // what was seen is shown
	RecordNaming             // … and its name is typed
)

// GestureRecord is a gesture being recorded from the pilot's own hand.
type GestureRecord struct {
	Phase RecordPhase
	// Millis is how long the recording runs.
	Millis  int64
	Pattern gestures.Pattern
	Verdict gestures.Verdict
	// Opens is the name of the menu that it is to open; empty for none.
	Opens string
	Typed string
	// Trouble says why it could not be kept; empty for none.
	Trouble string
}

// on tells whether a recording runs or its result is shown.
func (r *GestureRecord) on() bool { return r.Phase != NoRecord }

// seen tells whether a pattern was seen and can be kept.
func (r *GestureRecord) seen() bool {
	return r.Phase >= RecordDone && r.Verdict.Recording == gestures.Recorded
}

// gesturePrefix and a number from 1 name the hit areas of gestures.
const gesturePrefix = "gesture-number-"

// GestureOf finds the index of a gesture's hit area.
func GestureOf(code string) (int, bool) { return numberOf(code, gesturePrefix) }

// gestureSet are the patterns of the craft, nil for none.
func (v *View) gestureSet() *gestures.Config {
	if g := v.Config.Gestures; g != nil && len(g.Patterns) > 0 {
		return g
	}
	return nil
}

// pattern is the one looked at, or the one that was recorded; nil for none.
func (v *View) pattern() *gestures.Pattern {
	g := &v.Gestures
	if g.Record.on() {
		if g.Record.seen() {
			return &g.Record.Pattern
		}
		return nil
	}
	if set := v.gestureSet(); set != nil && g.Selected >= 0 && g.Selected < len(set.Patterns) {
		return &set.Patterns[g.Selected]
	}
	return nil
}

// glance is how the pattern looked at stands; false where there is none, or what is shown is a recording.
func (v *View) glance() (gestures.Glance, bool) {
	g := &v.Gestures
	set := v.gestureSet()
	if set == nil || g.Record.on() || g.Selected < 0 || g.Selected >= len(set.Patterns) {
		return gestures.Glance{}, false
	}
	s := gestures.State{Phase: gestures.Away}
	if g.Selected < len(g.Set) {
		s = g.Set[g.Selected]
	}
	in := gestures.Input{Sticks: g.Sticks, StickMode: uint8(stickMode(v.StickMode)), Valid: true, Live: v.gesturesLive()}
	return gestures.Look(set, g.Selected, s, &in), true
}

// gesturesLive tells whether gestures count now.
func (v *View) gesturesLive() bool {
	s := &v.Snap
	return s.In.Powered && !s.Armed && s.Link == facts.Good && s.In.Craft.Menu == pulse.MenuClosed
}

// onSticks turns places in a pattern's own order into those of the physical sticks: left across, left up, right across, right up.
func onSticks(p *gestures.Pattern, at [gestures.Directions]gestures.Place, mode int) [gestures.Directions]gestures.Place {
	if p.Physical {
		return at
	}
	var out [gestures.Directions]gestures.Place
	for i, job := range gestures.OnSticks(uint8(mode)) {
		out[i] = at[job]
	}
	return out
}

// corner tells in which corner of a craft armed by sticks the sticks stand now.
func (v *View) corner() (arms, there bool) {
	a, s := &v.Config.Arming, &v.Gestures.Sticks
	thr, yaw := s[gestures.Throttle], s[gestures.Yaw]
	if !facts.BySticks(v.Config) || !v.Snap.In.Powered || !thr.Valid() || thr >= a.LowThrottle {
		return false, false
	}
	return yaw >= a.YawRight, yaw >= a.YawRight || yaw.Valid() && yaw <= a.YawLeft
}

// millis is a time in slots in ms.
func millis(set *gestures.Config, slots uint16) int64 {
	return int64(slots) * int64(max(set.SlotTicks, 1))
}

// showsGestures tells whether an action of the sheet of gestures is there to be done; known is false for other actions.
func (v *View) showsGestures(a Action, on Place) (shows, known bool) {
	r := &v.Gestures.Record
	set := v.gestureSet()
	switch a {
	case GestureAbove, GestureBelow:
		return !r.on() && set != nil && len(set.Patterns) > 1 && !v.Gestures.Goggles.Open, true
	case RecordGesture:
		return r.Phase != RecordNaming && !v.Gestures.Goggles.Open && !v.playing() && (r.on() || v.Gestures.Not == ""), true
	case KeepGesture, GestureByJob:
		return r.seen() && (a == KeepGesture || r.Phase == RecordDone), true
	case GestureMenu:
		return r.seen() && r.Phase == RecordDone && v.Config.Menus != nil && len(v.Config.Menus.Menus) > 0, true
	case DropGesture:
		return r.on() && r.Phase != RecordNaming, true
	case TurnMenu:
		if on == OnGestures {
			return v.Snap.In.Craft.Menu != pulse.MenuClosed && !v.playing(), true
		}
	}
	return false, false
}

// Gestures draws the practice of two-stick gestures; while a menu is open, the goggles picture with it.
func Gestures(p *ink.Page, v *View) {
	b := newBoard(p, v)
	if v.Class {
		b.gesturesForRoom()
		return
	}
	r := b.footer(b.sheetArea(), OnGestures)
	if v.Gestures.Goggles.Open {
		b.gogglesSheet(r)
		return
	}
	if v.gestureSet() == nil && !v.Gestures.Record.on() {
		b.gesturePractice(r)
		return
	}
	if b.tall {
		top, low := r.CutTop(r.H*0.58, b.gap)
		b.gesturePractice(top)
		left, right := low.CutLeft(low.W*0.48, b.gap*1.6)
		b.gestureList(left)
		b.gestureFacts(right)
		return
	}
	left, right := r.CutLeft(clamp(r.W*0.32, 250*b.u, 460*b.u), b.gap*1.6)
	b.gestureLeft(left)
	b.gesturePractice(right)
}

// gestureLeft is the list over what there is to know of the one looked at.
func (b *board) gestureLeft(r ink.Rect) {
	n := 1
	if set := b.v.gestureSet(); set != nil {
		n = len(set.Patterns)
	}
	list := min(float64(n)*b.gestureRowHeight(1.5)+b.sectionHeight(), r.H*0.42)
	top, low := r.CutTop(list, b.gap)
	b.gestureList(top)
	b.gestureFacts(low)
}

// gesturesForRoom draws the same for a room: the state, what is missing now, both sticks; or the goggles picture.
func (b *board) gesturesForRoom() {
	v := b.v
	r := b.classKeys(OnGestures, GestureAbove, GestureBelow, RecordGesture, KeepGesture, DropGesture, TurnMenu, TurnFullScreen, Leave)
	p := v.pattern()
	g, live := v.glance()
	words := ""
	switch {
	case v.Gestures.Goggles.Open:
		words = v.Gestures.Goggles.Name
	case v.Gestures.Record.on():
		words = phrase.RecordTitle()
	case p != nil:
		words = p.Name
	}
	r = b.roomState(r, words)
	if v.Gestures.Goggles.Open {
		b.gogglesSheet(r)
		return
	}
	if b.tall {
		larger := math.Ceil(b.body * 1.3) // a portrait screen has the height for more
		b.small, b.body, b.head, b.large = larger, larger, larger, larger
		top, low := r.CutTop(r.H*0.3, b.gap)
		b.gestureWords(top, p, &g)
		b.gestureSticks(low, p, g, live)
		return
	}
	left, right := r.CutLeft(r.W*0.4, b.gap*1.4)
	b.gestureWords(left, p, &g)
	b.gestureSticks(right, p, g, live)
}

// roomState is the state as a class must see it, with a few words beside it; it gives what is left below.
func (b *board) roomState(r ink.Rect, words string) ink.Rect {
	beside, rest := b.afarState(r)
	if beside.W < 9*b.body {
		beside, rest = rest.CutTop(ink.BlockHeight(b.body, 1), 4*b.u)
	}
	n := max(1, int((beside.H+3*b.u)/ink.LineHeight(b.body)))
	b.Block("room words", beside.X, beside.Y, ink.Style{Size: b.body, Weight: ink.Bold, Within: beside.Inset(-2 * b.u)}, ink.Block{Width: beside.W, MaxLines: n, Shorten: true}, words)
	return rest
}

// gestureWords is what a room reads of the gesture looked at: the step, what is missing now, and the last try.
func (b *board) gestureWords(r ink.Rect, p *gestures.Pattern, g *gestures.Glance) {
	v := b.v
	if yours := v.gesturesYours(); yours != "" && !v.Gestures.Record.on() {
		n, _ := ink.CountLines(yours, r.W, b.body, ink.Regular)
		var foot ink.Rect
		foot, r = r.CutBottom(ink.BlockHeight(b.body, n), 4*b.u)
		b.Block("yours", foot.X, foot.Y, ink.Style{Size: b.body, Within: foot}, ink.Block{Width: foot.W}, yours)
	}
	if p != nil && p.Count > 1 {
		h := 1.5 * b.body
		steps, rest := r.CutTop(h, b.gap)
		b.gestureSteps(steps, v.gestureSet(), p, g)
		r = rest
	}
	if v.Gestures.Record.on() {
		b.recordBand(r)
		return
	}
	if v.gestureSet() == nil {
		b.Group("gesture")
		b.Block("none", r.X, r.Y, ink.Style{Size: b.body, Within: r}, ink.Block{Width: r.W}, phrase.NoGestures(b.v.KeyFor(RecordGesture, OnGestures)))
		return
	}
	b.gestureBand(r, p, g)
}

// gesturePractice is the heart of the sheet: the steps of a chain, both sticks with the target, and what is missing now.
func (b *board) gesturePractice(r ink.Rect) {
	v := b.v
	set, p := v.gestureSet(), v.pattern()
	if set == nil && !v.Gestures.Record.on() {
		b.Group("gesture")
		b.Block("none", r.X, r.Y, ink.Style{Size: b.large, Within: r}, ink.Block{Width: r.W}, phrase.NoGestures(b.v.KeyFor(RecordGesture, OnGestures)))
		_, r = r.CutTop(2*ink.LineHeight(b.large), b.gap)
		b.gestureSticks(r, nil, gestures.Glance{}, false)
		return
	}
	g, live := v.glance()
	if !v.Class && p != nil {
		name := p.Name
		if v.Gestures.Record.on() {
			name = phrase.RecordTitle()
		}
		b.Group("gesture")
		row, rest := r.CutTop(ink.BlockHeight(b.large, 1), 4*b.u)
		b.fitted("gesture name", row, ink.Style{Size: b.large, Weight: ink.Bold}, name)
		r = rest
	} else if v.Gestures.Record.on() {
		b.Group("gesture")
		row, rest := r.CutTop(ink.BlockHeight(b.large, 1), 2*b.u)
		b.fitted("gesture name", row, ink.Style{Size: b.large, Weight: ink.Bold}, phrase.RecordTitle())
		r = rest
	}
	band, r := r.CutBottom(b.bandHeight(r), b.gap)
	if v.Gestures.Record.on() {
		b.recordBand(band)
	} else {
		b.gestureBand(band, p, &g)
	}
	if p != nil && (p.Count > 1 || v.Gestures.Record.on()) {
		h := min(r.H*0.3, 62*b.u)
		if v.Class {
			h = 1.8 * b.body
		}
		steps, rest := r.CutTop(h, b.gap)
		b.gestureSteps(steps, set, p, &g)
		r = rest
	}
	b.gestureSticks(r, p, g, live)
}
