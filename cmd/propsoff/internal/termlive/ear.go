package termlive

import (
	"sync"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/practice"
)

// plain tells whether plain sentences are told of drills.
func (o *DrillOptions) plain(w *world.World) bool { return !o.JSON && o.Plain.fits(w) }

// ByEar keeps of the drills those that can be done by ear where plain sentences are told, and says which were left out; one that was asked for by its
// name is refused.
func (o *DrillOptions) ByEar(w *world.World, named bool) error {
	if !o.plain(w) {
		return nil
	}
	var kept []*drillfile.Drill
	for _, d := range o.Drills {
		switch {
		case !spoken.Eyes(d):
			kept = append(kept, d)
		case named:
			return exit.BadInput(words.Wrong("refused.eyes-drill", words.Args{"drill": words.Typed(d.Config.Code)}))
		}
	}
	if left := spoken.Leaves(o.Drills); !left.Empty() {
		w.Tell(left)
	}
	o.Drills = kept
	return nil
}

// ear tells drills, and the bench beneath them, in plain sentences. A nil one tells nothing.
type ear struct {
	r    *drillRun
	form terminal.Form

	// Begun and ended in the course's goroutine, told in the loop's.
	mu    sync.Mutex
	bench *spoken.Bench
	drill spoken.Drill
	cue   drill.Event // of this tick, where one came

	// The loop's goroutine only.
	teller facts.Teller
	view   drillrun.View
	snap   sim.Snapshot
}

func newEar(r *drillRun) *ear {
	e := &ear{r: r, form: terminal.Form{Plain: true, Book: r.w.Language()}}
	say := func(t words.Text, _ bool) { r.lines.Add(func(dst []byte) []byte { return e.form.Sentence(dst, t) }) }
	e.bench = spoken.NewBench(say)
	e.drill = spoken.Drill{Say: say, GoOn: words.T("spoken.go-on", words.Args{"key": words.T("key-cap.enter")})}
	return e
}

// typing says what can be typed, where somebody could.
func (e *ear) typing() {
	if e != nil && e.r.w.In != nil {
		e.r.say("notice", "text", words.T("spoken.typing", words.Args{"key": words.T("key-cap.enter"), "words": words.Listed(words.AsAre(TypedWords()[1:]...)...)}))
	}
}

func (e *ear) begins(d *drillfile.Drill, stickMode uint8) {
	if e == nil {
		return
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	e.drill.Hands = tell.DrillHands{StickMode: stickMode, Shipped: e.r.o.ShippedGestures}
	e.drill.Begins(d)
}

func (e *ear) ended(run *drillrun.Result) {
	if e == nil {
		return
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	e.drill.Ended(run)
}

func (e *ear) told(tick int64, event drill.Event, v *drillrun.View) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.drill.Told(tick, event, v)
	if event.Kind == drill.CueNow {
		e.cue = event
	}
}

// listen has the coach look at the tick that p has just run, then says what is new on the bench.
func (e *ear) listen(p *practice.Practice) {
	e.r.o.Coach.Listen(p)
	e.mu.Lock()
	defer e.mu.Unlock()
	cfg := p.Bench().Config()
	for _, h := range p.Happenings() {
		e.bench.Happened(h, cfg)
	}
	if e.cue.Kind == drill.CueNow {
		p.Snapshot(&e.snap)
		e.drill.Propellers(e.cue, &e.snap, cfg)
		e.cue = drill.Event{}
	}
	tick := p.Tick() - 1
	if tick%spoken.LookEvery != 0 {
		return
	}
	e.r.o.Coach.View(&e.view)
	e.bench.ReadSticks(e.drill.Asks(&e.view))
	f := e.teller.Of(p, facts.Whose{Hand: facts.Radio})
	f.Plain = true // the drill asks for something, so nothing else does
	e.bench.Look(&f)
	e.drill.Look(tick, &e.view)
}
