package spoken

import (
	"sync"

	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/practice"
)

// Drills says a course of drills, and the bench beneath them. Begins and Ended may be called from any goroutine, Told and Listen from the practice's.
type Drills struct {
	coach *drillrun.Coach

	mu    sync.Mutex
	bench *Bench
	drill Drill
	cue   drill.Event // of this tick, where one came

	// The practice's goroutine only.
	teller facts.Teller
	view   drillrun.View
	snap   sim.Snapshot
}

// NewDrills says what a coach runs, as a Drill does.
func NewDrills(coach *drillrun.Coach, d Drill) *Drills {
	return &Drills{coach: coach, bench: NewBench(d.Say), drill: d}
}

// Begins says which drill comes. A stick mode of 0 is one that is not known.
func (s *Drills) Begins(d *drillfile.Drill, stickMode uint8) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.drill.Hands.StickMode = stickMode
	s.drill.Begins(d)
}

// Ended says what a run came to.
func (s *Drills) Ended(run *drillrun.Result) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.drill.Ended(run)
}

// Told is for drillrun.Options.
func (s *Drills) Told(tick int64, e drill.Event, v *drillrun.View) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.drill.Told(tick, e, v)
	if e.Kind == drill.CueNow {
		s.cue = e
	}
}

// Listen has the coach look at the tick that p has just run, then says what is new on the bench.
func (s *Drills) Listen(p *practice.Practice) {
	s.coach.Listen(p)
	s.mu.Lock()
	defer s.mu.Unlock()
	cfg := p.Bench().Config()
	for _, h := range p.Happenings() {
		s.bench.Happened(h, cfg)
	}
	if s.cue.Kind == drill.CueNow {
		p.Snapshot(&s.snap)
		s.drill.Propellers(s.cue, &s.snap, cfg)
		s.cue = drill.Event{}
	}
	tick := p.Tick() - 1
	if tick%LookEvery != 0 {
		return
	}
	s.coach.View(&s.view)
	s.bench.ReadSticks(s.drill.Asks(&s.view))
	f := s.teller.Of(p, facts.Whose{Hand: facts.Radio})
	f.Plain = true // the drill asks for something, so nothing else does
	s.bench.Look(&f)
	m := p.Menu()
	s.bench.Menu(tick, &m)
	s.drill.Look(tick, &s.view)
}
