package drills

import (
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/live/whodrives"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/pulse"
)

// hold notes what the pupil practises with, as long as he does.
func (p *part) hold() {
	d, o := &p.s.Driving, &p.s.Options
	switch d.Who {
	case whodrives.Radio:
		p.held.Radio = d.Name
	case whodrives.Keyboard:
		p.held.Radio = codes.Keyboard
	default:
		return
	}
	p.held.StickMode, p.held.Craft, p.held.Gestures = d.StickMode, o.Craft, o.Gestures.Name
}

// part is the work behind the sheet of drills. A drill that runs goes on while other sheets are open.
type part struct {
	screen.Base
	s        *screen.Screen
	o        *screen.DrillOptions
	selected int
	mark     int
	running  int         // index of the drill that runs, or ran last
	was      bool        // a drill ran at the last turn
	held     screen.Held // what the pupil held last in the run
	asked    bool        // a drill was to begin, and the pupil's hand was not there
	kept     error
	cue      int // the last cue that was shown
	choices  []int
	last     *drillrun.Result // the run that has just ended, until the next
	ended    chan drillrun.Result
	refused  []int32
	next     int
	why      drill.Reason
	cards    []drill.Card
	sumOf    int // the drill that sum is about; −1 for none
	sum      words.Text
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, o: &s.Options.Drills, ended: make(chan drillrun.Result, 8)}
	s.Drilling, s.Drawn = p.on, append(s.Drawn, p.drawn)
	if p.o.Pupils == nil {
		p.o.Pupils = nobody{}
	}
	if c := p.o.Coach; c != nil {
		c.Attach(drillrun.Options{Bench: s.Options.Loop, Put: s.Options.Loop.Desk().Put, Ended: func(r drillrun.Result) {
			select {
			case p.ended <- r:
			default: // nobody looks any more
			}
		}})
		p.choose()
		p.selected = max(p.next, 0)
	}
	return p
}

// choose finds what is next, and how each drill stands; called when there is something new. A logbook may be long, and a picture has
// a sixtieth of a second.
func (p *part) choose() {
	codes := make([]string, len(p.o.Drills))
	for i, d := range p.o.Drills {
		codes[i] = d.Config.Code
	}
	p.cards, p.sumOf = drill.Cards(codes, p.o.Pupils.Runs()), -1
	p.next, p.why = drill.Next(codes, p.o.Pupils.Runs(), p.o.Day(), p.o.Seed)
}

// nobody keeps nothing.
type nobody struct{}

func (nobody) Open(string) error                                          { return nil }
func (nobody) Pupil() string                                              { return "" }
func (nobody) Runs() []drill.Run                                          { return nil }
func (nobody) Keep(*drillrun.Result, *drillfile.Drill, screen.Held) error { return nil }
func (nobody) Refused(int32)                                              {}
func (nobody) Where() string                                              { return "" }

// Close ends the typing of a name.
func (p *part) Close() { p.s.Typing = false }

// Turn keeps what has ended, and notes that time does not run as it must.
func (p *part) Turn() {
	if p.o.Coach == nil {
		return
	}
	p.asked = p.asked && !p.needsHand().Empty()
	p.refused = p.o.Coach.Refusals(p.refused[:0])
	for _, set := range p.refused {
		p.o.Pupils.Refused(set)
	}
	if p.s.Options.Loop.Pace() != live.Running {
		p.o.Coach.OffPace()
	}
	p.o.Coach.View(&p.s.Run)
	for len(p.ended) > 0 {
		p.over(<-p.ended)
	}
	if p.was = p.s.Run.On && p.s.Run.State.Phase != drill.Over; p.was {
		p.hold()
	}
}

func (p *part) over(r drillrun.Result) {
	p.last = &r
	p.kept = p.o.Pupils.Keep(&r, p.o.Drills[p.running], p.held)
	p.choose()
	if !r.BrokenOff && p.next >= 0 {
		p.selected = p.next
	}
}

// on tells whether a drill runs.
func (p *part) on() bool { return p.was && p.s.Run.On && p.s.Run.State.Phase != drill.Over }

// needsHand says whose hand a drill waits for; nothing where the pupil's is there.
func (p *part) needsHand() words.Text {
	d := &p.s.Driving
	after, radio := p.s.Options.Driver.After()
	h := tell.DrillHand{Driving: tell.Driving{Who: int(screen.Who(d.Who)), Name: d.Name, Next: int(screen.Who(after)), NextName: radio, Key: p.s.House.KeyOf(ui.NextDriver), Ended: d.Ended},
		StickKey: ui.KeyOfStick(), Unplugged: !d.Plugged, Instructor: d.Instructor != "" && p.s.Hands}
	return tell.DrillNeedsHand(h)
}

// begin runs the drill that is looked at, once the pupil's hand is there.
func (p *part) begin() {
	if p.selected < 0 || p.selected >= len(p.o.Drills) {
		return
	}
	if p.asked = !p.needsHand().Empty(); p.asked {
		return
	}
	p.running, p.last, p.mark, p.cue, p.kept = p.selected, nil, 0, 0, nil
	p.s.Begun++
	p.hold()
	p.s.Drill = p.o.Drills[p.running]
	p.o.Coach.Start(&p.o.Drills[p.running].Config, *p.s.Options.Loop.Craft(), p.o.Day(), p.o.Seed+p.s.Begun)
	p.o.Coach.View(&p.s.Run)
	p.was = true
}

// Act does what a key of the sheet stands for.
func (p *part) Act(a ui.Action) bool {
	if p.o.Coach == nil {
		return false
	}
	switch a {
	case Begin:
		switch {
		case p.on() && len(p.choices) > 0:
			p.o.Coach.Answer(p.choices[min(p.mark, len(p.choices)-1)])
		case p.on():
		case p.last != nil:
			p.last = nil
		default:
			p.begin()
		}
	case Above, Below:
		step := 1
		if a == Above {
			step = -1
		}
		if n := len(p.choices); p.on() && n > 0 {
			p.mark = (p.mark + step + n) % n
		} else if n := len(p.o.Drills); !p.on() && n > 0 {
			p.selected = (p.selected + step + n) % n
			p.last = nil
		}
	case LeaveRun:
		p.o.Coach.Leave()
		p.Turn()
	case CallPupil:
		p.s.Typed, p.s.Typing = "", true
	case PropellersRight:
		p.s.Options.Loop.Desk().Put(pulse.Propellers, pulse.PropellersValue(p.s.Flight.Live.In.Hands, true))
	case ui.Leave:
		if !p.on() {
			return false
		}
		p.o.Coach.Leave() // first out of the drill, then off the sheet
		p.Turn()
	default:
		return false
	}
	return true
}

// Key takes keys while a pupil's name is typed; its letters come by Type.
func (p *part) Key(name string, down bool) bool {
	if !p.s.Typing || p.o.Coach == nil || strings.HasPrefix(name, "F") && len(name) > 1 {
		return false
	}
	if down {
		switch {
		case name == "Enter":
			p.s.Typing = false
			p.kept = p.o.Pupils.Open(strings.TrimSpace(p.s.Typed))
			p.choose()
			p.selected = max(p.next, 0)
		case name == "Esc":
			p.s.Typing = false
		case name == "Backspace":
			p.s.Back()
		}
	}
	return true
}

// Hit looks at a drill, begins the one that is looked at already, or gives an answer.
func (p *part) Hit(name string) bool {
	if i, ok := ui.NumberOf(name, drillPrefix); ok && i < len(p.o.Drills) && !p.on() {
		if p.selected == i {
			p.begin()
		} else {
			p.selected = i
		}
		return true
	}
	if i, ok := ui.NumberOf(name, answerPrefix); ok && i < len(p.choices) && p.on() {
		p.mark = i
		p.o.Coach.Answer(p.choices[i])
		return true
	}
	return false
}

// drawn is told after a page was drawn: a cue that is on it has been seen for the first time now.
func (p *part) drawn(tick int64) {
	if p.o.Coach == nil || p.s.Place() != ui.OnDrills || !Of(p.s.View()).Run.Cue || p.s.Run.Cue == 0 || p.s.Run.Cue == p.cue {
		return
	}
	p.cue = p.s.Run.Cue
	p.o.Coach.Shown(p.cue, tick, picturePeriod)
}

// picturePeriod is one picture at sixty a second in ms, rounded up: how much of the time of a cue is not known.
const picturePeriod = 17

// Draw draws the course, or the drill that runs.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About { return About() }
