package screen

import (
	"strings"

	"propsoff/cmd/propsoff/internal/coach"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/craftfile"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/pulse"
)

// DrillOptions are what the sheet of drills needs; without a Coach there are none.
type DrillOptions struct {
	Coach *coach.Coach
	// Course is what the course is called, Drills its drills in order; ShippedGestures tells that the gestures they name are those that ship.
	Course          string
	ShippedGestures bool
	Drills          []*drillfile.Drill
	// Pupils keeps what came of them; nil keeps nothing.
	Pupils Pupils
	// Day gives the number of today, Seed makes times and cases random.
	Day  func() int32
	Seed uint64
}

// Pupils keeps what pupils did.
type Pupils interface {
	// Open says who practises from now on; empty for nobody.
	Open(pupil string) error
	Pupil() string
	// Runs are all runs of the pupil in order of time.
	Runs() []drill.Run
	// Keep keeps a run, and what the pupil held in it; one without a try is none, and keeps nothing. Refused counts a refusal, as a set.
	Keep(run *coach.Result, d *drillfile.Drill, held Held) error
	Refused(set int32)
	// Where says where it is kept.
	Where() string
}

// Held is what a pupil practises with.
type Held struct {
	// Radio is its name, or the keyboard's; empty where it is not known.
	Radio string
	// StickMode is 1 to 4, 0 where it is not known.
	StickMode int
	// Craft is the pupil's own craft, as it is and not as the program was started; nil where it is not known. Gestures is the name of
	// its gesture file.
	Craft    *craftfile.File
	Gestures string
}

// hold notes what the pupil practises with, as long as he does.
func (p *drillsPart) hold() {
	d, o := &p.s.driver, &p.s.o
	switch d.Who {
	case drive.Radio:
		p.held.Radio = d.Name
	case drive.Keyboard:
		p.held.Radio = phrase.LogbookKeyboard()
	default:
		return
	}
	p.held.StickMode, p.held.Craft, p.held.Gestures = d.StickMode, o.Craft, o.Gestures.Name
}

// drillsPart is the work behind the sheet of drills. A drill that runs goes on while other sheets are open.
type drillsPart struct {
	s        *Screen
	o        *DrillOptions
	selected int
	mark     int
	running  int // index of the drill that runs, or ran last
	begun    uint64
	run      coach.View
	was      bool // a drill ran at the last turn
	held     Held // what the pupil held last in the run
	asked    bool // a drill was to begin, and the pupil's hand was not there
	kept     error
	typing   bool // a pupil's name is typed
	cue      int  // the last cue that was shown
	choices  []int
	last     *coach.Result // the run that has just ended, until the next
	ended    chan coach.Result
	refused  []int32
	next     int
	why      drill.Reason
	cards    []drill.Card
	sumOf    int // the drill that sum is about; −1 for none
	sum      string
}

func newDrills(s *Screen) *drillsPart {
	p := &drillsPart{s: s, o: &s.o.Drills, ended: make(chan coach.Result, 8)}
	if c := p.o.Coach; c != nil {
		c.Attach(coach.Options{Bench: s.o.Loop, Put: s.o.Loop.Desk().Put, Ended: func(r coach.Result) {
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
func (p *drillsPart) choose() {
	p.cards, p.sumOf = drill.Cards(p.codes(), p.runs()), -1
	p.next, p.why = drill.Next(p.codes(), p.runs(), p.day(), p.o.Seed)
}

func (p *drillsPart) codes() []string {
	out := make([]string, len(p.o.Drills))
	for i, d := range p.o.Drills {
		out[i] = d.Config.Code
	}
	return out
}

func (p *drillsPart) runs() []drill.Run {
	if p.o.Pupils == nil {
		return nil
	}
	return p.o.Pupils.Runs()
}

func (p *drillsPart) day() int32 {
	if p.o.Day == nil {
		return 0
	}
	return p.o.Day()
}

func (p *drillsPart) open()  {}
func (p *drillsPart) close() { p.typing = false }

// turn keeps what has ended, and notes that time does not run as it must.
func (p *drillsPart) turn() {
	if p.o.Coach == nil {
		return
	}
	p.asked = p.asked && p.needsHand() != ""
	p.refused = p.o.Coach.Refusals(p.refused[:0])
	for _, set := range p.refused {
		if p.o.Pupils != nil {
			p.o.Pupils.Refused(set)
		}
	}
	if p.s.o.Loop.Pace() != loop.Running {
		p.o.Coach.OffPace()
	}
	p.o.Coach.View(&p.run)
	for more := true; more; {
		select {
		case r := <-p.ended:
			p.over(r)
		default:
			more = false
		}
	}
	if p.was = p.run.On && p.run.State.Phase != drill.Over; p.was {
		p.hold()
	}
}

func (p *drillsPart) over(r coach.Result) {
	p.last = &r
	if p.o.Pupils != nil {
		p.kept = p.o.Pupils.Keep(&r, p.o.Drills[p.running], p.held)
	}
	p.choose()
	if !r.BrokenOff && p.next >= 0 {
		p.selected = p.next
	}
}

// on tells whether a drill runs.
func (p *drillsPart) on() bool { return p.was && p.run.On && p.run.State.Phase != drill.Over }

// needsHand says whose hand a drill waits for; empty where the pupil's is there.
func (p *drillsPart) needsHand() string {
	d := &p.s.driver
	after, radio := p.s.o.Driver.After()
	h := phrase.DrillHand{Driving: phrase.Driving{Who: int(who(d.Who)), Name: d.Name, Next: int(who(after)), NextName: radio, Key: sheet.KeyOf(sheet.NextDriver), Ended: d.Ended},
		StickKey: sheet.KeyOfStick(), Unplugged: !d.Plugged, Instructor: d.Instructor != "" && p.s.desk.hands}
	return phrase.DrillNeedsHand(h)
}

// begin runs the drill that is looked at, once the pupil's hand is there.
func (p *drillsPart) begin() {
	if p.selected < 0 || p.selected >= len(p.o.Drills) {
		return
	}
	if p.asked = p.needsHand() != ""; p.asked {
		return
	}
	p.running, p.last, p.mark, p.cue, p.kept = p.selected, nil, 0, 0, nil
	p.begun++
	p.hold()
	p.o.Coach.Start(&p.o.Drills[p.running].Config, *p.s.o.Loop.Craft(), p.day(), p.o.Seed+p.begun)
	p.o.Coach.View(&p.run)
	p.was = true
}

func (p *drillsPart) act(a sheet.Action) bool {
	if p.o.Coach == nil {
		return false
	}
	switch a {
	case sheet.BeginDrill:
		switch {
		case p.on() && len(p.choices) > 0:
			p.o.Coach.Answer(p.choices[min(p.mark, len(p.choices)-1)])
		case p.on():
		case p.last != nil:
			p.last = nil
		default:
			p.begin()
		}
	case sheet.DrillAbove, sheet.DrillBelow:
		step := 1
		if a == sheet.DrillAbove {
			step = -1
		}
		if n := len(p.choices); p.on() && n > 0 {
			p.mark = (p.mark + step + n) % n
		} else if n := len(p.o.Drills); !p.on() && n > 0 {
			p.selected = (p.selected + step + n) % n
			p.last = nil
		}
	case sheet.LeaveDrill:
		p.o.Coach.Leave()
		p.turn()
	case sheet.CallPupil:
		p.s.typed = ""
		p.typing = true
	case sheet.PropellersRight:
		p.s.o.Loop.Desk().Put(pulse.Propellers, pulse.PropellersValue(p.s.flight.live.In.Hands, true))
	case sheet.Leave:
		if !p.on() {
			return false
		}
		p.o.Coach.Leave() // first out of the drill, then off the sheet
		p.turn()
	default:
		return false
	}
	return true
}

// key takes keys while a pupil's name is typed; its letters come by Type.
func (p *drillsPart) key(name string, down bool) bool {
	if !p.typing || p.o.Coach == nil || strings.HasPrefix(name, "F") && len(name) > 1 {
		return false
	}
	if down {
		switch {
		case name == "Enter":
			p.typing = false
			if p.o.Pupils != nil {
				p.kept = p.o.Pupils.Open(strings.TrimSpace(p.s.typed))
				p.choose()
				p.selected = max(p.next, 0)
			}
		case name == "Esc":
			p.typing = false
		case name == "Backspace":
			p.s.back()
		}
	}
	return true
}

func (p *drillsPart) hit(name string) bool {
	if i, ok := sheet.DrillOf(name); ok && i < len(p.o.Drills) && !p.on() {
		if p.selected == i {
			p.begin()
			return true
		}
		p.selected = i
		return true
	}
	if i, ok := sheet.AnswerOf(name); ok && i < len(p.choices) && p.on() {
		p.mark = i
		p.o.Coach.Answer(p.choices[i])
		return true
	}
	return false
}

// drawn is told after a page was drawn: a cue that is on it has been seen for the first time now.
func (p *drillsPart) drawn(tick int64) {
	if p.o.Coach == nil || p.s.place() != sheet.OnDrills || !p.s.view.Drills.Run.Cue || p.run.Cue == 0 || p.run.Cue == p.cue {
		return
	}
	p.cue = p.run.Cue
	p.o.Coach.Shown(p.cue, tick, picturePeriod)
}

// picturePeriod is one picture at sixty a second in ms, rounded up: how much of the time of a cue is not known.
const picturePeriod = 17
