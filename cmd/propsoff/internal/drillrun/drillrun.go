// Package drillrun runs drills on a practice: it does what the drill asks of the bench and keeps what came of it.
//
// It looks on in the loop's goroutine, after every tick (Listen), and is asked and told from the window's. A drill decides
// nothing here: sim/drill does.
package drillrun

import (
	"slices"
	"sync"

	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Bench is what a coach does to a practice and asks of it; live.Loop has it.
type Bench interface {
	// UseCraft puts another craft on the bench; the note says for takes what it is about.
	UseCraft(cfg sim.Config, note string)
	// Driving says whose hands play now; it is asked from Listen only.
	Driving() input.By
}

// Options of a Coach. All but Ended are needed.
type Options struct {
	Bench Bench
	// Put puts a bench input, at the next tick.
	Put func(pulse.Kind, int32)
	// Ended, where given, is told of a run that has ended, in the loop's goroutine; it must not block for long.
	Ended func(Result)
	// Told, where given, hears every event of the drill in the loop's goroutine; it must not block for long, nor call the coach.
	Told func(tick int64, e drill.Event, v *View)
	// AtOnce, where not 0, says that a cue is seen as soon as Told has returned, and how much of that is not known, in ms.
	AtOnce uint16
}

// Result is a run that has ended, and whose it was.
type Result struct {
	drill.Run
	// Radio and Keyboard say which of the pupil's hands drove in it.
	Radio, Keyboard bool
	// Other is what came in besides the pupil's own hand, and ended the run. The tries are those of before: they are his.
	Other Other
}

// Other is what is not the pupil's own hand.
type Other uint8

// The others.
const (
	NoOther    Other = iota
	Demo             // the demo pilot drove
	Script           // a script or a take drove
	Instructor       // the instructor's radio had the sticks, or kept the craft disarmed
	Planted          // an instructor planted or lifted a fault
)

// Code is the word for it in logbooks; empty for none.
func (o Other) Code() string {
	return [...]string{"", "demo-pilot", "script", "instructor", "fault"}[min(o, Planted)]
}

// Hands are the code words of the hands that drove in the run.
func (r *Result) Hands() []string {
	var out []string
	if r.Radio {
		out = append(out, "radio")
	}
	if r.Keyboard {
		out = append(out, "keyboard")
	}
	return out
}

// View is what a screen may know of a run.
type View struct {
	// On: a drill runs, or its end is still shown.
	On bool
	// Config is the drill; read only. State is how far it has come.
	Config *drill.Config
	State  drill.State
	// Missing has a bit for each want of the present step that is not so yet.
	Missing uint32
	// Cue is the number of the cue that is shown, counted over the run from 1; 0 while none is.
	Cue int
	// Tries are those of this run, in their order.
	Tries []drill.Try
	// Did is what the hand did in the try that is looked at (drill.Looking), else nothing.
	Did drill.Did
	// Mark is the mark that is followed now.
	Mark Mark
	// Alone: there is nobody who could say that he wants to go on, so nothing that is looked at waits for it.
	Alone bool
	// Trouble: the run could not go on; Other says what came in where it was somebody else's hand.
	Trouble Trouble
	Other   Other
}

// Trouble says why a run was ended by the coach.
type Trouble uint8

// The troubles.
const (
	NoTrouble Trouble = iota
	OtherHand         // something else than the pupil's own hand came in
	OffPace           // time stood still or ran slower
	Unseen            // nobody could see it
)

// Coach runs one drill at a time. Use New.
type Coach struct {
	mu sync.Mutex
	o  Options

	view View // its Cue is the last one also after it, its tries stand in run
	base sim.Config
	run  Result
	in   drill.Input
	out  drill.Events
	snap sim.Snapshot
	// way is that of the hands in the try under way, or the last one; mark is what is followed in it.
	way  drill.Way
	mark drill.Following

	answer    int
	on        bool
	cued      bool
	cuedAt    int64
	uncertain uint16
	tick      int64
	changed   bool
	hands     hands
	before    before
}

// New makes a coach that runs nothing yet.
func New() *Coach { return &Coach{} }

// Attach gives the coach its bench; before that it can run nothing.
func (c *Coach) Attach(o Options) {
	c.mu.Lock()
	c.o = o
	c.mu.Unlock()
}

// Start begins a run of a drill on a craft that is the pupil's own, on a day, with a seed. One that runs is left first.
func (c *Coach) Start(cfg *drill.Config, base sim.Config, day int32, seed uint64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.abandon()
	c.view = View{On: true, Config: cfg, State: drill.Begin(seed), Alone: c.view.Alone}
	c.base, c.run = base, Result{Run: drill.Run{Drill: cfg.Code, Day: day, Seed: seed}}
	c.answer, c.on, c.cued, c.changed = 0, false, false, false
	c.way, c.mark.On = drill.Way{}, false
}

// Leave ends the run that there is; the bench is given back.
func (c *Coach) Leave() {
	c.mu.Lock()
	c.abandon()
	c.view.On, c.view.Config = false, nil
	c.mu.Unlock()
}

// Answer gives the pupil's choice, counted as in the drill's file from 0.
func (c *Coach) Answer(choice int) {
	c.mu.Lock()
	c.answer = choice + 1
	c.mu.Unlock()
}

// GoOn tells that the pupil has seen a wrong try again; at any other time it means nothing.
func (c *Coach) GoOn() {
	c.mu.Lock()
	c.on = c.view.State.Phase == drill.Looking
	c.mu.Unlock()
}

// Alone tells that there is nobody who could say that he wants to go on: no try is shown again from now on.
func (c *Coach) Alone() {
	c.mu.Lock()
	c.view.Alone = true
	c.mu.Unlock()
}

// Way copies the way of the hands in the try that is looked at.
func (c *Coach) Way(dst *drill.Way) {
	c.mu.Lock()
	*dst = c.way
	c.mu.Unlock()
}

// Shown tells that a cue was seen or heard: its number, the tick of the first picture with it, and how much of that is not known, in
// ms. Telling it twice changes nothing.
func (c *Coach) Shown(cue int, tick int64, uncertain uint16) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.view.On && cue == c.view.Cue && c.view.State.CueAt < 0 && !c.cued {
		c.cued, c.cuedAt, c.uncertain = true, tick, uncertain
	}
}

// OffPace tells that the practice no longer runs at its own pace: a time measured now would be none.
func (c *Coach) OffPace() { c.endFor(OffPace) }

// Unseen tells that the sheet cannot be seen: a cue would be met late or never, and that is no hand's fault.
func (c *Coach) Unseen() { c.endFor(Unseen) }

// endFor ends a run in which something is being measured.
func (c *Coach) endFor(why Trouble) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if p := c.view.State.Phase; c.view.On && (p == drill.Waiting || p == drill.Running) {
		c.abandon()
		c.view.Trouble = why
	}
}

// View fills v; its Tries are a copy in v's own room.
func (c *Coach) View(v *View) {
	c.mu.Lock()
	defer c.mu.Unlock()
	tries := append(v.Tries[:0], c.run.Tries...)
	*v = c.view
	if v.Tries = tries; v.State.Phase != drill.Running {
		v.Cue = 0
	}
}

// Listen looks at the tick that p has just run.
func (c *Coach) Listen(p *practice.Practice) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.tick = p.Tick() - 1
	if c.o.Bench == nil {
		return
	}
	c.hands.follow(c.o.Bench.Driving(), p.Happenings())
	if !c.view.On || c.view.State.Phase == drill.Over {
		return
	}
	if c.view.State.Phase == drill.Starting && c.view.State.Attempt == 0 {
		c.before.look(p)
	}
	if other := c.hands.other(c.view.State.Phase == drill.Starting); other != NoOther {
		c.run.Other = other
		c.abandon()
		c.view.Trouble, c.view.Other = OtherHand, other
		return
	}
	c.run.Radio = c.run.Radio || c.hands.by == input.ByRadio
	c.run.Keyboard = c.run.Keyboard || c.hands.by == input.ByKeyboard
	p.Snapshot(&c.snap)
	c.in = drill.Input{
		Tick: c.tick, Facts: drill.FactsOf(&c.snap, p.Bench().Config()), Happened: p.Happenings(),
		Answer: c.answer, Cued: c.cued, CueAt: c.cuedAt, Uncertain: c.uncertain, On: c.on || c.view.Alone,
	}
	c.answer, c.cued, c.on = 0, false, false
	v := &c.view
	c.follow(&p.Bench().Config().Control)
	v.State = drill.Step(v.Config, v.State, &c.in, &c.out)
	v.Missing = drill.Missing(v.Config, &v.State, &c.in)
	c.way.Step(&v.State, &c.in)
	if v.State.Phase != drill.Looking {
		v.Did = drill.Did{}
	}
	c.obey()
}

// obey does what the events of a step ask for.
func (c *Coach) obey() {
	craft := c.base
	if n := int(c.view.State.Case); n < len(c.view.Config.Cases) {
		craft = c.view.Config.Cases[n].Craft.On(c.base)
	}
	for _, e := range c.out.All() {
		if e.Kind == drill.TryEnds {
			c.view.Did = drill.DidOf(c.view.Config, &e.Try, &c.way)
		}
		if c.o.Told != nil {
			c.o.Told(c.tick, e, &c.view)
		}
		switch e.Kind {
		case drill.UseCraft:
			c.changed = true
			c.o.Bench.UseCraft(craft, "drill "+c.view.Config.Code)
		case drill.Tell:
			if r, ok := e.Put.Reading(&craft.Layout); ok {
				if r.Kind == pulse.Instructor {
					c.hands.own = append(c.hands.own, r.Value)
				}
				c.o.Put(r.Kind, r.Value)
			}
		case drill.CueNow:
			c.view.Cue++
			if c.o.AtOnce > 0 {
				c.cued, c.cuedAt, c.uncertain = true, c.tick, c.o.AtOnce
			}
		case drill.TryEnds:
			c.run.Tries = append(c.run.Tries, e.Try)
		case drill.RunEnds:
			c.run.Learned = e.Number != 0
			c.over()
			return
		}
	}
}

// over gives the pupil's own craft back, on the bench as it stood, and hands the run on.
func (c *Coach) over() {
	if c.changed {
		c.o.Bench.UseCraft(c.base, "")
		c.changed = false
	}
	c.giveBack()
	if c.o.Ended != nil {
		run := c.run
		run.Tries = slices.Clone(c.run.Tries)
		c.o.Ended(run)
	}
}

// Refusals appends the refusals since the last call that the pupil's own hand met, as sets.
func (c *Coach) Refusals(dst []int32) []int32 {
	c.mu.Lock()
	defer c.mu.Unlock()
	dst = append(dst, c.hands.refused...)
	c.hands.refused = c.hands.refused[:0]
	return dst
}

// abandon ends a run before its time.
func (c *Coach) abandon() {
	if !c.view.On || c.view.State.Phase == drill.Over {
		return
	}
	c.run.BrokenOff = true
	c.view.State = drill.Abandon(c.view.Config, c.view.State, &c.out)
	c.obey()
}
