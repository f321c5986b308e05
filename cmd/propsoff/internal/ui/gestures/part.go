package gestures

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Under these limits the sticks count as resting (ours): moves of less, for at least so long.
const (
	restless  = 40 * pulse.Eighths
	restTicks = 500
)

// part is the work behind the sheet of two-stick gestures.
type part struct {
	screen.Base
	s *screen.Screen
	View
	menu   menu.State
	told   screen.Events
	scores map[string]Score // by the code word of the pattern
	stood  []uint16         // for how many slots each pattern stood when it last did
	rec    recorder

	// since is the tick at which the sticks left their rest, −1 while they rest; moved that of their last move, from anchor.
	since, moved int64
	anchor       [gestures.Directions]pulse.Width
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, scores: map[string]Score{}, since: -1}
	s.Goggles = func(f *facts.Facts) ui.GogglesView { return Goggles(&s.Config, &p.menu, uint8(s.Driving.StickMode), f) }
	s.Losses = append(s.Losses, screen.Loss{At: ui.OnGestures, Lost: p.lost})
	return p
}

// Open begins without a try.
func (p *part) Open() {
	p.told.Since(p.s.Options.Loop)
	p.look(p.Selected)
}

// Close drops what is being recorded.
func (p *part) Close() { p.drop() }

// sticks are the sticks of a frame by job.
func (p *part) sticks(f *pulse.Frame) [gestures.Directions]pulse.Width {
	return sticks(&p.s.Config.Layout, f)
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
	p.Set, p.menu = p.s.Options.Loop.Gestures(p.Set)
	happened := p.told.Since(p.s.Options.Loop)
	if p.s.Tool != ui.OnGestures {
		return
	}
	if n := len(p.patterns()); n > 0 {
		p.Selected = min(p.Selected, n-1)
	}
	p.Try.Held = p.Try.Held && p.Selected < len(p.Set) && p.Set[p.Selected].Phase == gestures.Spent
	for i := range happened {
		p.happened(&happened[i])
	}
	p.follow()
	if !blocked(p.s.View()).Empty() {
		p.since = -1 // no try is under way
	}
	p.record()
	p.stood = append(p.stood[:0], make([]uint16, len(p.Set))...)
	for i, s := range p.Set {
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
	holds := []gestures.Phase{gestures.Standing, gestures.Held, gestures.HeldOver}
	if !(p.Selected < len(p.Set) && slices.Contains(holds, p.Set[p.Selected].Phase)) && live.Tick-p.moved > restTicks {
		p.since = -1
	}
}

// happened counts what was made and nearly made, and keeps the verdict on the gesture looked at.
func (p *part) happened(h *happening.Happening) {
	all := p.patterns()
	if h.Code != happening.Gesture && h.Code != happening.GestureNear || h.A < 0 || int(h.A) >= len(all) || p.Recording.on() {
		return
	}
	n := int(h.A)
	score := p.scores[all[n].Code]
	defer func() { p.scores[all[n].Code] = score }()
	if h.Code == happening.Gesture {
		score.Made++
		p.Try = Try{Done: true, Made: n == p.Selected, Held: n == p.Selected, Took: h.Tick - p.since}
		if p.since < 0 {
			p.Try.Took = int64(h.B)
		}
		if n != p.Selected {
			p.Try.Other = tell.GestureName(&all[n])
		}
		p.since = -1
		return
	}
	how, direction := happening.Near(h.B&0xff), int(h.B>>8)
	if how >= happening.NearCount {
		return
	}
	score.Near[how]++
	if n != p.Selected {
		return
	}
	p.Try = Try{Done: true, How: how, Direction: direction}
	if how == happening.NearEarly && n < min(len(p.stood), len(p.Set)) && p.stood[n] > 0 {
		if dwell := all[n].Parts[p.Set[n].Part].Dwell; dwell > p.stood[n] {
			p.Try.Early = int64(dwell-p.stood[n]) * int64(p.s.Config.SlotTicks)
		}
	}
}

// Fill tells how each gesture stands, what came of it, and how far a recording is.
func (p *part) Fill(v *ui.View) {
	v.CannotRecord, p.Reach = p.whyNot(), p.s.Told.Whose(p.s).Reach
	p.File, p.Shipped = p.s.Options.Gestures.Name, p.s.Options.Gestures.Shipped
	p.Scores = p.Scores[:0]
	for _, one := range p.patterns() {
		p.Scores = append(p.Scores, p.scores[one.Code])
	}
	p.Try.Running = -1
	if p.since >= 0 {
		p.Try.Running = max(v.Snap.Tick-p.since, 0)
	}
	p.Recording.Millis, p.Recording.Opens = p.s.Flight.Live.Tick-p.rec.from, words.Text{}
	if m := p.rec.menu(p); m != nil {
		p.Recording.Opens = tell.MenuName(m)
	}
	*Of(v) = p.View
}

// Act throws a recording away, once that is said, before the sheet is left.
func (p *part) Act(a ui.Action) bool {
	leaves := a == ui.Leave && p.Recording.on()
	if leaves {
		p.s.Leaving(ui.OnGestures, true, p.drop)
	}
	return leaves
}

// lost says that a gesture is recorded and not kept yet.
func (p *part) lost() (t words.Text) {
	if r := &p.Recording; r.seen() || r.Phase == Moving || r.Phase == Back {
		t = words.T("asked.lost-gesture")
	}
	return t
}

// look looks at another gesture, round the list, of which there is no try yet.
func (p *part) look(i int) {
	n := max(len(p.patterns()), 1)
	p.Selected, p.Try, p.since, p.Said = (i+n)%n, Try{}, -1, words.Text{}
}

// Draw draws the sheet.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }
