package gestures

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/gestures"
	"propsoff/gestures/menu"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// Under these limits the sticks count as resting (ours): moves of less, for at least so long.
const (
	restless  = 40 * pulse.Eighths
	restTicks = 500
)

// part is the work behind the sheet of two-stick gestures.
type part struct {
	screen.Base
	s        *screen.Screen
	selected int
	set      []gestures.State
	menu     menu.State
	told     screen.Events
	scores   map[string]*Score // by the code word of the pattern
	try      Try
	stood    []uint16 // for how many slots each pattern stood when it last did
	said     words.Text
	rec      recorder

	// since is the tick at which the sticks left their rest, −1 while they rest; moved that of their last move, from anchor.
	since, moved int64
	anchor       [gestures.Directions]pulse.Width
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, scores: map[string]*Score{}, since: -1}
	s.Goggles = func(f *facts.Facts) ui.GogglesView { return Goggles(&s.Config, &p.menu, uint8(s.Driving.StickMode), f) }
	return p
}

// Open begins without a try.
func (p *part) Open() {
	p.told.Since(p.s.Options.Loop)
	p.look(p.selected)
}

// Close drops what is being recorded.
func (p *part) Close() { p.rec.drop() }

// sticks are the stick channels of a frame by job.
func (p *part) sticks(f *pulse.Frame) [gestures.Directions]pulse.Width {
	l := &p.s.Config.Layout
	return [...]pulse.Width{gestures.Throttle: f[l.Throttle], gestures.Roll: f[l.Roll], gestures.Pitch: f[l.Pitch], gestures.Yaw: f[l.Yaw]}
}

// patterns are those of the craft.
func (p *part) patterns() []gestures.Pattern {
	if g := p.s.Config.Gestures; g != nil {
		return g.Patterns
	}
	return nil
}

// Turn follows the sticks while the sheet is open.
func (p *part) Turn() {
	p.set, p.menu = p.s.Options.Loop.Gestures(p.set)
	happened := p.told.Since(p.s.Options.Loop)
	if p.s.Tool != ui.OnGestures {
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
func (p *part) follow() {
	live := &p.s.Flight.Live
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
func (p *part) happened(h *happening.Happening) {
	all := p.patterns()
	if h.Code != happening.Gesture && h.Code != happening.GestureNear || h.A < 0 || int(h.A) >= len(all) || p.rec.on() {
		return
	}
	n := int(h.A)
	score := p.scores[all[n].Code]
	if score == nil {
		score = &Score{}
		p.scores[all[n].Code] = score
	}
	if h.Code == happening.Gesture {
		score.Made++
		p.try = Try{Done: true, Made: n == p.selected, Held: n == p.selected, Took: h.Tick - p.since}
		if p.since < 0 {
			p.try.Took = int64(h.B)
		}
		if n != p.selected {
			p.try.Other = tell.GestureName(&all[n])
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
	p.try = Try{Done: true, How: how, Direction: direction}
	if how == happening.NearEarly && n < len(p.stood) && p.stood[n] > 0 {
		part := 0
		if n < len(p.set) {
			part = int(p.set[n].Part)
		}
		if dwell := all[n].Parts[part].Dwell; dwell > p.stood[n] {
			p.try.Early = int64(dwell-p.stood[n]) * int64(p.s.Config.SlotTicks)
		}
	}
}

// Fill tells how each gesture stands, what came of it, and how far a recording is.
func (p *part) Fill(v *ui.View) {
	g := Of(v)
	g.File, g.Shipped, g.Set, g.Selected, g.Said, v.CannotRecord = p.s.Options.Gestures.Name, p.s.Options.Gestures.Shipped, p.set, p.selected, p.said, p.whyNot()
	g.Sticks = p.sticks(&v.Snap.Received)
	g.Scores = g.Scores[:0]
	for i := range p.patterns() {
		g.Scores = append(g.Scores, Score{})
		if s := p.scores[p.patterns()[i].Code]; s != nil {
			g.Scores[i] = *s
		}
	}
	g.Try = p.try
	g.Try.Running = -1
	if p.since >= 0 {
		g.Try.Running = max(v.Snap.Tick-p.since, 0)
	}
	g.Recording = p.rec.Recording
	g.Recording.Typed, g.Recording.Millis = p.s.Typed, p.s.Flight.Live.Tick-p.rec.from
	if m := p.rec.menu(p); m != nil {
		g.Recording.Opens = tell.MenuName(m)
	}
}

// Act does what a key of the sheet stands for.
func (p *part) Act(a ui.Action) bool {
	switch a {
	case Above:
		p.look(p.selected - 1)
	case Below:
		p.look(p.selected + 1)
	default:
		return p.actRecord(a)
	}
	return true
}

// look looks at another gesture, round the list, of which there is no try yet.
func (p *part) look(i int) {
	n := max(len(p.patterns()), 1)
	p.selected, p.try, p.since, p.said = (i+n)%n, Try{}, -1, words.Text{}
}

// Hit looks at a gesture that is clicked.
func (p *part) Hit(name string) bool {
	i, ok := ui.NumberOf(name, prefix)
	if ok && i < len(p.patterns()) && !p.rec.on() {
		p.look(i)
	}
	return ok
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About { return About() }
