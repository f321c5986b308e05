package termlive

import (
	"context"
	"sync"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// printed is how much of the time of a cue in a terminal is not known, in ms: until its line is out, and read (ours).
const printed = 20

// DrillOptions says which drills are run, on what, and who keeps what came of them.
type DrillOptions struct {
	world.Named
	// Flown is the craft and Read the radio file, nil for the stored one, as they were read of Named.
	Flown *world.Craft
	Read  *radio.File
	// Device is the radio that is wanted, by name, number or path; empty takes the best known, else the first.
	Device string
	// JSON has everything told as JSON Lines.
	JSON bool
	// Plain says whether plain sentences are told. Those drills are left out then that take eyes.
	Plain Plain
	// Drills are run one after the other, each with at most Tries tries where that is not 0; times and cases follow from Seed.
	Drills []*drillfile.Drill
	Tries  uint16
	Seed   uint64
	// Coach runs them, on what Day gives as the day (drill.Run); ShippedGestures says that the gestures are those that ship.
	Coach           *drillrun.Coach
	Day             func() int32
	ShippedGestures bool
	// Keep, where given, keeps a run of a drill with the radio that was read, in its stick mode, 0 where that is not known.
	Keep func(run *drillrun.Result, d *drillfile.Drill, radio string, stickMode int) error
}

// drillRun is the running of drills in a terminal.
type drillRun struct {
	w   *world.World
	o   *DrillOptions
	l   *live.Loop
	now *drillfile.Drill
	// ear tells all in plain sentences, in the form plain; nil where columns are told.
	ear   *spoken.Drills
	plain terminal.Form

	mu    sync.Mutex
	lines *terminal.Lines
	order []int
	radio string // that is read
	mode  int    // its stick mode, 0 where that is not known
	ended chan drillrun.Result
	// nobody is closed once nobody can type any more; found is given how many radios are there at the beginning.
	nobody chan struct{}
	found  chan int
}

// Drills runs drills on the radio that is plugged in. The error has its status (exit); it is exit.CodeFailed where one was not learned.
func Drills(ctx context.Context, w *world.World, o *DrillOptions) error {
	s, lo, err := begin(w, &o.Named, o.Device, o.Flown, o.Read, "drills")
	if err != nil {
		return err
	}
	defer s.close()
	w.Tell(tell.Cautions()[0])
	r := &drillRun{w: w, o: o, ended: make(chan drillrun.Result, 1), nobody: make(chan struct{}), found: make(chan int, 1)}
	s.looked = func(found int) { r.found <- found }
	r.lines = terminal.NewLines(w.Out, func(dst []byte, n int) []byte { return r.appendLine(dst, -1, "notice", "text", tell.LinesLeftOut(n)) })
	lo.Listen = func(p *practice.Practice) { o.Coach.Listen(p) }
	if o.TellsPlain(w) {
		r.byEar()
		lo.Listen = r.ear.Listen
	}
	lo.Begin = []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
	r.l = live.New(*lo)
	o.Coach.Attach(drillrun.Options{Bench: r.l, Put: r.l.Desk().Put, AtOnce: printed, Told: r.told, Ended: func(run drillrun.Result) { r.ended <- run }})
	s.use, s.reads, s.mode, s.onRaw = r.l.Use, r.reads, r.inMode, func(*input.Info, *input.Raw) {}
	s.notice = func(t words.Text) { r.say("notice", "text", t) }
	go r.typed()
	learned := 0
	err = w.Together(ctx, r.l.Run, s.run, r.lines.Run, func(ctx context.Context) error {
		var err error
		learned, err = r.course(ctx)
		return err
	})
	if err := ended(r.l, err, r.lines.Flush()); err != nil {
		return err
	}
	if learned < len(o.Drills) {
		return exit.With(exit.CodeFailed)
	}
	return nil
}

// reads notes the name of the radio that is read, and inMode its stick mode; both in the session's goroutine.
func (r *drillRun) reads(radio string, _ *terminal.Radio) {
	r.mu.Lock()
	r.radio, r.mode = radio, 0
	r.mu.Unlock()
}

func (r *drillRun) inMode(mode int) {
	r.mu.Lock()
	r.mode = mode
	r.mu.Unlock()
	r.l.Desk().Put(pulse.StickMode, int32(mode))
}

// course runs the drills one after the other and counts those that were learned.
func (r *drillRun) course(ctx context.Context) (learned int, err error) {
	for i, d := range r.o.Drills {
		cfg := d.Config
		if r.o.Tries > 0 {
			cfg.Tries = min(cfg.Tries, r.o.Tries)
		}
		if handed, err := r.handed(ctx); err != nil || !handed || ctx.Err() != nil {
			return learned, err
		}
		r.mu.Lock()
		r.now = d
		mode := r.mode
		r.mu.Unlock()
		if r.ear != nil {
			r.ear.Begins(d, uint8(mode))
		}
		r.say("drill", "drill", d.Config.Code, "name", tell.DrillText(d.Config.Code, d.Name), "about", tell.DrillAbout(d, tell.DrillHands{StickMode: uint8(mode), Shipped: r.o.ShippedGestures}))
		r.o.Coach.Start(&cfg, r.o.Flown.Config(), r.o.Day(), r.o.Seed+uint64(i))
		var run drillrun.Result
		select {
		case run = <-r.ended:
		case <-ctx.Done():
			r.o.Coach.Leave() // which tells of the run at once: it is kept like one that was left by hand
			select {
			case run = <-r.ended:
			default:
				return learned, nil
			}
		}
		if run.Learned {
			learned++
		}
		if r.ear != nil {
			r.ear.Ended(&run)
		}
		r.say("drill-ended", "drill", run.Drill, "learned", run.Learned, "text", tell.DrillCount(drill.Summarise(run.Tries)))
		if r.o.Keep != nil {
			r.mu.Lock()
			radio, mode := r.radio, r.mode
			r.mu.Unlock()
			if err := r.o.Keep(&run, d, radio, mode); err != nil {
				r.say("notice", "text", words.Error(err))
			}
		}
		var v drillrun.View
		switch r.o.Coach.View(&v); v.Trouble {
		case drillrun.OffPace:
			return learned, words.Wrong("drill.off-pace")
		case drillrun.OtherHand:
			return learned, tell.DrillOtherHand(v.Other.Code()).Problem()
		}
	}
	return learned, nil
}

// handed waits until a radio drives: without a hand no drill begins. It reports false where the run ends before that. Where no radio was there at the
// beginning and nobody can type, nobody may be there to plug one in either: that ends it.
func (r *drillRun) handed(ctx context.Context) (is bool, err error) {
	var now sim.Snapshot
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	none, asked, nobody := false, false, r.nobody
	for {
		if r.l.Snapshot(&now); now.In.Plugged && now.In.HasSent {
			return true, nil
		}
		if none && nobody == nil {
			return false, exit.Trouble(words.Wrong("drill.none-and-nobody"))
		}
		select {
		case <-ctx.Done():
			return false, nil
		case found := <-r.found:
			none = found == 0
		case <-nobody:
			nobody = nil
		case <-tick.C:
			if !asked {
				r.say("notice", "text", words.T("drill.waits"))
			}
			asked = true
		}
	}
}
