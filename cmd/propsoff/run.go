package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"

	"github.com/spf13/cobra"

	"propsoff/assets"
	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// takeMark begins every take.
const takeMark = "propsoff take "

// demoName is the shipped demo pilot.
const demoName = "demo"

type runFlags struct {
	json, live, demo bool
}

func newRun(w *world, flags *shared) *cobra.Command {
	var rf runFlags
	cmd := &cobra.Command{
		Use:   "run FILE",
		Short: "Run a pilot script or a take without a window",
		Long: "Run a pilot script or a take as fast as the machine can, and print what happens. The first bytes of the file\n" +
			"say which it is. \"" + demoName + "\" is the demo pilot that ships with the program.\n\n" +
			"Exit status: 0 run whole; 1 an expectation of the script failed, or the take did not replay to the same; 2 bad input;\n" +
			"3 the machine did not let it, or a signal stopped it. FILE may be - for standard input.\n" +
			"A take of an older model of the bench is told as it was recorded, and today's model plays the same hands: what comes out otherwise\n" +
			"is told and is no failure. With --craft a take's hands are run on another craft, and nothing is compared.",
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case rf.demo && len(args) > 0:
				return errors.New("give a file or --demo, not both")
			case !rf.demo && len(args) == 0:
				return errors.New("give the path of a pilot script or a take; \"propsoff run demo\" runs the demo pilot")
			case len(args) > 1:
				return errors.New("give one file at a time")
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return assets.Scripts(), cobra.ShellCompDirectiveDefault
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			name := demoName
			if !rf.demo {
				name = args[0]
			}
			return run(cmd.Context(), w, flags, rf, name)
		},
	}
	cmd.Flags().BoolVar(&rf.json, "json", false, "print one JSON object a line")
	cmd.Flags().BoolVar(&rf.live, "live", false, "play in real time, with the live screen where this is a terminal")
	cmd.Flags().BoolVar(&rf.demo, "demo", false, "run the demo pilot that ships with the program")
	return cmd
}

func run(ctx context.Context, w *world, flags *shared, rf runFlags, name string) error {
	p, err := w.newPlan(flags, name)
	if err != nil {
		return err
	}
	defer p.Close()
	rec, err := p.record(w, flags.record)
	if err != nil {
		return err
	}
	if rf.live {
		return runLive(ctx, w, rf, p, rec)
	}
	out := bufio.NewWriterSize(w.out, 64<<10)
	r := newReport(p, rf.json, func(f func([]byte) []byte) { _, _ = out.Write(f(out.AvailableBuffer())) })
	if !rf.json {
		r.add(func(dst []byte) []byte { return terminal.AppendRunning(dst, p.name, p.craft.Name, p.replay) })
	}
	err = runFast(ctx, p, r, rec)
	if ferr := out.Flush(); ferr != nil && err == nil {
		err = trouble(ferr)
	}
	return err
}

// runFast runs a plan without waiting for the clock.
func runFast(ctx context.Context, p *plan, r *report, rec *records.Recorder) error {
	pr, err := stepThrough(ctx, p, rec, nil, r.observe)
	switch {
	case errors.Is(err, errStopped):
		r.stopped(pr.Tick() - 1)
		return err
	case pr == nil:
		return err
	}
	// A recording that was not kept counts for more than what the run came to, which is told all the same.
	return cmp.Or(err, r.finish(pr.Tick()-1, pr.Digest()))
}

// errStopped is given where a signal ends a run.
var errStopped = door.ErrStopped

// stepThrough steps a practice through a plan to its end, without waiting for the clock. before are readings for the first tick that
// come before the plan's own; seen is called after every tick. The take is ended, however the run ends. Stopped by a signal it gives the practice
// too; any other error beside a practice is about the take alone.
func stepThrough(ctx context.Context, p *plan, rec *records.Recorder, before []pulse.Reading, seen func(*practice.Practice)) (*practice.Practice, error) {
	pr := practice.Begin(p.start.Craft, p.start.Tick, p.start.Stands)
	readings := append([]pulse.Reading(nil), before...)
	from := p.start.Tick
	var end error
	for end == nil {
		if pr.Tick()%4096 == 0 && ctx.Err() != nil {
			end = ctx.Err()
			break
		}
		readings, end = p.source.Poll(readings, pr.Tick()*1000)
		if start, ok := p.nextPart(pr.Tick()); ok {
			recordPart(rec, pr, from, start)
			from = start.Tick
			pr, end = practice.Begin(start.Craft, start.Tick, start.Stands), nil
			continue
		}
		pr.Step(readings)
		record(rec, pr, readings)
		seen(pr)
		readings = readings[:0]
	}
	recErr := endRecord(rec, pr, from)
	switch {
	case errors.Is(end, input.ErrEnd):
	case errors.Is(end, context.Canceled):
		if recErr != nil {
			return pr, trouble(errors.Join(recErr, errStopped))
		}
		return pr, trouble(errStopped)
	default:
		return nil, badInput(end)
	}
	if recErr != nil {
		return pr, trouble(recErr)
	}
	return pr, nil
}

// nextPart is the part of a take that begins at a tick.
func (p *plan) nextPart(tick int64) (*loop.Start, bool) {
	if p.parts == nil {
		return nil, false
	}
	return p.parts.Part(tick * 1000)
}

// record notes one tick in a take; its errors stick and are told at the end.
func record(rec *records.Recorder, pr *practice.Practice, readings []pulse.Reading) {
	if rec == nil {
		return
	}
	tick := pr.Tick() - 1
	for _, x := range readings {
		_ = rec.Reading(tick, x)
	}
	for _, h := range pr.Happenings() {
		_ = rec.Happening(h.Tick, uint8(h.Code), h.A, h.B)
	}
	if tick%1000 == 999 {
		_ = rec.Digest(tick, pr.Digest())
	}
}

// recordPart ends the part of pr, which began at a tick, in a take and begins the next.
func recordPart(rec *records.Recorder, pr *practice.Practice, from int64, start *loop.Start) {
	if rec == nil {
		return
	}
	recordDigest(rec, pr, from)
	_ = rec.Part(start)
}

func endRecord(rec *records.Recorder, pr *practice.Practice, from int64) error {
	if rec == nil {
		return nil
	}
	recordDigest(rec, pr, from)
	return rec.Close()
}

// recordDigest notes how a part ends, where it had a tick.
func recordDigest(rec *records.Recorder, pr *practice.Practice, from int64) {
	if pr.Tick() > from {
		_ = rec.Digest(pr.Tick()-1, pr.Digest())
	}
}
