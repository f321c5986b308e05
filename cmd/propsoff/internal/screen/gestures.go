package screen

import (
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/gestures"
	"propsoff/gestures/menu"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// GestureOptions are what the sheet of two-stick gestures needs besides the craft, which has the gestures themselves.
type GestureOptions struct {
	// Name is what the gesture file of the craft is called, Text what stands in it; Shipped tells that it came with the program.
	Name    string
	Shipped bool
	Text    []byte
	// Own is the path of the pilot's own gesture file, in which recorded gestures are kept; empty keeps none.
	Own string
}

// Under these limits the sticks count as resting (ours): moves of less, for at least so long.
const (
	restless  = 40 * pulse.Eighths
	restTicks = 500
)

// gesturesPart is the work behind the sheet of two-stick gestures.
type gesturesPart struct {
	s        *Screen
	selected int
	set      []gestures.State
	menu     menu.State
	told     events
	scores   map[string]*sheet.GestureScore // by the code word of the pattern
	try      sheet.GestureTry
	stood    []uint16 // for how many slots each pattern stood when it last did
	said     string
	rec      recording

	// since is the tick at which the sticks left their rest, −1 while they rest; moved that of their last move, from anchor.
	since, moved int64
	anchor       [gestures.Directions]pulse.Width
}

func newGestures(s *Screen) *gesturesPart {
	return &gesturesPart{s: s, scores: map[string]*sheet.GestureScore{}, since: -1}
}

func (p *gesturesPart) open() {
	p.told.since(p.s.o.Loop)
	p.said, p.since, p.try = "", -1, sheet.GestureTry{}
}

func (p *gesturesPart) close() { p.rec.drop() }

// sticks are the stick channels of a frame by job.
func (p *gesturesPart) sticks(f *pulse.Frame) [gestures.Directions]pulse.Width {
	l := &p.s.cfg.Layout
	return [...]pulse.Width{gestures.Throttle: f[l.Throttle], gestures.Roll: f[l.Roll], gestures.Pitch: f[l.Pitch], gestures.Yaw: f[l.Yaw]}
}

// patterns are those of the craft.
func (p *gesturesPart) patterns() []gestures.Pattern {
	if g := p.s.cfg.Gestures; g != nil {
		return g.Patterns
	}
	return nil
}

// turn follows the sticks while the sheet is open.
func (p *gesturesPart) turn() {
	p.set, p.menu = p.s.o.Loop.Gestures(p.set)
	happened := p.told.since(p.s.o.Loop)
	if p.s.tool != sheet.OnGestures {
		return
	}
	if n := len(p.patterns()); n > 0 {
		p.selected = min(p.selected, n-1)
	}
	p.try.Held = p.try.Held && p.selected < len(p.set) && p.set[p.selected].Phase == gestures.Spent
	for i := range happened {
		p.happened(&happened[i])
	}
	p.follow()
	p.record()
	p.stood = append(p.stood[:0], make([]uint16, len(p.set))...)
	for i, s := range p.set {
		if s.Phase == gestures.Standing && s.Time > 0 {
			p.stood[i] = s.Time - 1
		}
	}
}

// follow notes when the sticks left their rest. One who holds the gesture looked at does not rest.
func (p *gesturesPart) follow() {
	live := &p.s.flight.live
	now := p.sticks(&live.In.Sent)
	for i := range now {
		if d := now[i] - p.anchor[i]; d > restless || d < -restless {
			p.anchor, p.moved = now, live.Tick
			if p.since < 0 {
				p.since = live.Tick
			}
			break
		}
	}
	holds := false
	if p.selected < len(p.set) {
		switch p.set[p.selected].Phase {
		case gestures.Standing, gestures.Held, gestures.HeldOver:
			holds = true
		}
	}
	if !holds && live.Tick-p.moved > restTicks {
		p.since = -1
	}
}

// happened counts what was made and nearly made, and keeps the verdict on the gesture looked at.
func (p *gesturesPart) happened(h *happening.Happening) {
	all := p.patterns()
	if h.Code != happening.Gesture && h.Code != happening.GestureNear || h.A < 0 || int(h.A) >= len(all) || p.rec.on() {
		return
	}
	n := int(h.A)
	score := p.scores[all[n].Code]
	if score == nil {
		score = &sheet.GestureScore{}
		p.scores[all[n].Code] = score
	}
	if h.Code == happening.Gesture {
		score.Made++
		p.try = sheet.GestureTry{Done: true, Made: n == p.selected, Held: n == p.selected, Took: h.Tick - p.since}
		if p.since < 0 {
			p.try.Took = int64(h.B)
		}
		if n != p.selected {
			p.try.Other = all[n].Name
		}
		p.since = -1
		return
	}
	how, direction := happening.Near(h.B&0xff), int(h.B>>8)
	if how >= happening.NearCount {
		return
	}
	score.Near[how]++
	if n != p.selected {
		return
	}
	p.try = sheet.GestureTry{Done: true, How: how, Direction: direction}
	if how == happening.NearEarly && n < len(p.stood) && p.stood[n] > 0 {
		part := 0
		if n < len(p.set) {
			part = int(p.set[n].Part)
		}
		if dwell := all[n].Parts[part].Dwell; dwell > p.stood[n] {
			p.try.Early = int64(dwell-p.stood[n]) * int64(p.s.cfg.SlotTicks)
		}
	}
}

func (p *gesturesPart) fill(v *sheet.View) {
	g := &v.Gestures
	g.File, g.Shipped, g.Set, g.Selected, g.Said, g.Not = p.s.o.Gestures.Name, p.s.o.Gestures.Shipped, p.set, p.selected, p.said, p.whyNot()
	g.Sticks = p.sticks(&v.Snap.Received)
	g.Scores = g.Scores[:0]
	for i := range p.patterns() {
		score := sheet.GestureScore{}
		if s := p.scores[p.patterns()[i].Code]; s != nil {
			score = *s
		}
		g.Scores = append(g.Scores, score)
	}
	g.Try = p.try
	g.Try.Running = -1
	if p.since >= 0 {
		g.Try.Running = max(v.Snap.Tick-p.since, 0)
	}
	p.fillRecord(g)
}

func (p *gesturesPart) act(a sheet.Action) bool {
	switch a {
	case sheet.GestureAbove:
		p.look(p.selected - 1)
	case sheet.GestureBelow:
		p.look(p.selected + 1)
	default:
		return p.actRecord(a)
	}
	return true
}

func (p *gesturesPart) look(i int) {
	if n := len(p.patterns()); n > 0 {
		p.selected, p.try, p.since, p.said = (i+n)%n, sheet.GestureTry{}, -1, ""
	}
}

func (p *gesturesPart) hit(name string) bool {
	i, ok := sheet.GestureOf(name)
	if ok && i < len(p.patterns()) && !p.rec.on() {
		p.look(i)
	}
	return ok
}
