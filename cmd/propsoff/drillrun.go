package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/coach"
	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/screen"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/sim"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// printed is how much of the time of a cue in a terminal is not known, in ms: until its line is out, and read (ours).
const printed = 20

type drillRunFlags struct {
	shared
	device, pupil string
	json          bool
	tries         uint16
	seed          uint64
}

// newDrillRun is `propsoff drill run`.
func newDrillRun(w *world) *cobra.Command {
	var df drillRunFlags
	cmd := &cobra.Command{
		Use:   "run [DRILL…]",
		Short: "Run drills in the terminal, on the radio that is plugged in",
		Long: "Run drills of the shipped course one after the other, by their code words as listed by \"propsoff drill list\"; without any, the\n" +
			"whole course. What is asked for is printed a line at a time; the radio does it. What the radio has no control for is typed: " + strings.Join(typedWords(), ", ") + ".\n\n" + phrase.Cautions()[0],
		RunE: func(cmd *cobra.Command, args []string) error {
			if df.tries == 0 && cmd.Flags().Changed("tries") {
				return badInput(errors.New("--tries 0 runs nothing: write 1 or more, or leave it out"))
			}
			return runDrills(cmd.Context(), w, &df, args)
		},
	}
	f := cmd.Flags()
	f.StringVar(&df.radio, "radio", "", "radio `FILE` that says which axis or button is what")
	f.StringVar(&df.craft, "craft", "", "craft `FILE`, or a shipped craft: "+strings.Join(crafts(), ", "))
	f.StringVar(&df.gestures, "gestures", "", "gesture `FILE`")
	f.StringVar(&df.device, "device", "", "which radio: `NAME` or a part of it, its number as listed by \"propsoff radios\", or its path")
	f.Var(pupilName{&df.pupil}, "pupil", "`NAME` under which the results are kept in the logbook; without it they are kept nowhere")
	f.StringVar(&df.record, "record", "", "record the practice in `FILE`, a take that replays")
	f.BoolVar(&df.json, "json", false, "print one JSON object a line")
	f.Uint16Var(&df.tries, "tries", 0, "at most `N` tries of each drill, for a rehearsal; what counts as learned stays as it is")
	f.Uint64Var(&df.seed, "seed", 0, "`NUMBER` that times and cases follow from; 0 takes one from the clock")
	return cmd
}

// drillRun is the running of drills in a terminal.
type drillRun struct {
	w     *world
	df    *drillRunFlags
	l     *loop.Loop
	coach *coach.Coach
	now   *drillfile.Drill

	mu    sync.Mutex
	lines *terminal.Lines
	order []int
	held  screen.Held
	ended chan coach.Result
}

func runDrills(ctx context.Context, w *world, df *drillRunFlags, codes []string) (err error) {
	w.door.In = nil // answers come from there
	c, err := w.loadFlown(&df.shared)
	if err != nil {
		return err
	}
	file, err := w.loadRadio(df.radio, "", c)
	if err != nil {
		return err
	}
	options, end, err := drillOptions(c, coach.New(), df.pupil)
	if err != nil {
		return err
	}
	defer func() {
		if ending := end(); err == nil && ending != nil {
			err = trouble(ending)
		}
	}()
	drills, err := chosenDrills(options.Drills, codes)
	if err != nil {
		return err
	}
	if df.seed == 0 {
		df.seed = options.Seed
	}
	watcher, err := w.radios.Watch()
	if err != nil {
		return trouble(err)
	}
	defer watcher.Close()
	papers := papersOf(c)
	rec, err := w.beginTake(df.record, papers.WithRadio(file, nil), &loop.Start{Craft: c.Config(), Note: "drills"})
	if err != nil {
		return err
	}
	w.say(phrase.Cautions()[0])
	r := &drillRun{w: w, df: df, coach: options.Coach, ended: make(chan coach.Result, 1)}
	r.lines = terminal.NewLines(w.out, func(dst []byte, n int) []byte { return r.appendLine(dst, -1, "notice", "text", phrase.LinesLeftOut(n)) })
	r.held.Craft = c.File
	if c.gestures != nil {
		r.held.Gestures = c.gestures.name
	}
	lo := loop.Options{
		Craft: c.Config(), Clock: loop.RealClock(w.now), Listen: func(p *practice.Practice) { r.coach.Listen(p) },
		Begin: []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}},
	}
	if rec != nil {
		lo.Take, lo.Begun = rec, true
	}
	r.l = loop.New(lo)
	r.coach.Attach(coach.Options{Bench: r.l, Put: r.l.Desk().Put, AtOnce: printed, Told: r.told, Ended: func(run coach.Result) { r.ended <- run }})
	s := &session{
		world: w, watcher: watcher, craft: c, filePath: df.radio, epoch: w.now(),
		policy: follow.Policy{Wanted: df.device, File: file, Store: w.store},
		use:    r.l.Use, reads: r.reads, onRaw: func(*input.Info, *input.Raw) {},
		notice: func(text string) { r.say("notice", "text", text) },
		mode:   r.mode, filed: noteRadio(rec, papers),
	}
	go r.typed()
	learned := 0
	err = w.together(ctx, r.l.Run, s.run, r.lines.Run, func(ctx context.Context) error {
		var err error
		learned, err = r.course(ctx, c, drills, &options)
		return err
	})
	if ferr := r.lines.Flush(); err == nil {
		err = ferr
	}
	if err != nil {
		return trouble(err)
	}
	if why := r.l.Recording().Err; why != nil {
		return trouble(errors.New(phrase.RecordingStopped(why.Error())))
	}
	if learned < len(drills) {
		return &exitError{code: exitFailed}
	}
	return nil
}

// reads notes the name of the radio that is read, and mode its stick mode; both in the session's goroutine.
func (r *drillRun) reads(radio string, _ *terminal.Radio) {
	r.mu.Lock()
	r.held.Radio, r.held.StickMode = radio, 0
	r.mu.Unlock()
}

func (r *drillRun) mode(mode int) {
	r.mu.Lock()
	r.held.StickMode = mode
	r.mu.Unlock()
	r.l.Desk().Put(pulse.StickMode, int32(mode))
}

// chosenDrills finds drills by their code words; without any it is the whole course.
func chosenDrills(all []*drillfile.Drill, codes []string) ([]*drillfile.Drill, error) {
	if len(codes) == 0 {
		return all, nil
	}
	var known []string
	by := map[string]*drillfile.Drill{}
	for _, d := range all {
		known = append(known, d.Config.Code)
		by[d.Config.Code] = d
	}
	var out []*drillfile.Drill
	for _, code := range codes {
		d, ok := by[code]
		if !ok {
			if near, found := yamldoc.Near(code, known); found {
				return nil, badInput(fmt.Errorf("there is no drill %q: did you mean %q? \"propsoff drill list\" lists them", code, near))
			}
			return nil, badInput(fmt.Errorf("there is no drill %q; \"propsoff drill list\" lists them", code))
		}
		out = append(out, d)
	}
	return out, nil
}

// course runs the drills one after the other and counts those that were learned.
func (r *drillRun) course(ctx context.Context, c *craft, drills []*drillfile.Drill, o *screen.DrillOptions) (learned int, err error) {
	for i, d := range drills {
		cfg := d.Config
		if r.df.tries > 0 {
			cfg.Tries = min(cfg.Tries, r.df.tries)
		}
		if !r.handed(ctx) || ctx.Err() != nil {
			return learned, nil
		}
		r.mu.Lock()
		r.now = d
		mode := r.held.StickMode
		r.mu.Unlock()
		r.say("drill", "drill", d.Config.Code, "name", d.Name, "about", phrase.DrillAbout(d, phrase.DrillHands{StickMode: uint8(mode), Shipped: o.ShippedGestures}))
		r.coach.Start(&cfg, c.Config(), o.Day(), r.df.seed+uint64(i))
		var run coach.Result
		select {
		case run = <-r.ended:
		case <-ctx.Done():
			r.coach.Leave() // which tells of the run at once: it is kept like one that was left by hand
			select {
			case run = <-r.ended:
			default:
				return learned, nil
			}
		}
		if run.Learned {
			learned++
		}
		r.say("drill-ended", "drill", run.Drill, "learned", run.Learned, "text", phrase.DrillSum(drill.Summarise(run.Tries)))
		if o.Pupils != nil {
			r.mu.Lock()
			held := r.held
			r.mu.Unlock()
			if err := o.Pupils.Keep(&run, d, held); err != nil {
				r.say("notice", "text", err.Error())
			}
		}
		var v coach.View
		switch r.coach.View(&v); v.Trouble {
		case coach.OffPace:
			return learned, errors.New(phrase.DrillOffPace())
		case coach.OtherHand:
			return learned, errors.New(phrase.DrillOtherHand(v.Other.Code()))
		}
	}
	return learned, nil
}

// handed waits until a radio drives: without a hand no drill begins. It reports false where the run ends before that.
func (r *drillRun) handed(ctx context.Context) bool {
	var now sim.Snapshot
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	for asked := false; ; asked = true {
		if r.l.Snapshot(&now); now.In.Plugged && now.In.HasSent {
			return true
		}
		if !asked {
			r.say("notice", "text", phrase.DrillWaitsForHand())
		}
		select {
		case <-ctx.Done():
			return false
		case <-tick.C:
		}
	}
}
