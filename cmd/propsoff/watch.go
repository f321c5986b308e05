package main

import (
	"context"
	"errors"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/sim/pulse"
)

type watchFlags struct {
	json, raw bool
	length    time.Duration
	device    string
}

func newWatch(w *world, flags *shared) *cobra.Command {
	var wf watchFlags
	cmd := &cobra.Command{
		Use:   "watch",
		Short: "Show channels, jobs, arm state and refusals live in the terminal",
		Long: "Read the radio and show live what a craft would do: channels with their jobs and values, armed or not, and what to do\n" +
			"about each refusal. Where the output is no terminal, happenings are printed one a line. Ctrl-C ends it.\n\n" + phrase.Cautions()[0],
		Args: noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if wf.length <= 0 && cmd.Flags().Changed("for") {
				return badInput(errors.New("--for needs a time of more than nothing, for example 10s"))
			}
			return watch(cmd.Context(), w, flags, wf)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&wf.json, "json", false, "print one JSON object a line: happenings, and values whenever they change")
	f.BoolVar(&wf.raw, "raw", false, "show the device's own axes and buttons instead: every state that it reports")
	f.DurationVar(&wf.length, "for", 0, "stop after `TIME`, for example 10s")
	f.StringVar(&wf.device, "device", "", "which radio: `NAME` or a part of it, its number as listed by \"propsoff radios\", or its path")
	return cmd
}

func watch(ctx context.Context, w *world, flags *shared, wf watchFlags) error {
	if wf.raw && flags.record != "" {
		return badInput(errors.New("--raw shows a device and runs no practice, so there is nothing to record: leave out one of --raw and --record"))
	}
	w.door.In = nil // a radio file is read again when its radio comes
	c, err := w.loadFlown(flags)
	if err != nil {
		return err
	}
	file, err := w.loadRadio(flags.radio, "", c)
	if err != nil {
		return err
	}
	watcher, err := w.radios.Watch()
	if err != nil {
		return trouble(err)
	}
	defer watcher.Close()
	papers := papersOf(c)
	rec, err := w.beginTake(flags.record, papers.WithRadio(file, nil), &loop.Start{Craft: c.Config(), Note: "watch"})
	if err != nil {
		return err
	}
	if wf.length > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, wf.length)
		defer cancel()
	}

	d := newDisplay(w, "watch", mannerOf(w, wf.json), c.Config())
	if d.manner == asScreen {
		d.notice(phrase.Cautions()[0])
	} else {
		w.say(phrase.Cautions()[0])
	}
	epoch := w.now()
	o := loop.Options{
		Craft: c.Config(), Clock: loop.RealClock(w.now), Listen: d.listen,
		Begin: []pulse.Reading{{Kind: pulse.Power, Value: 1}},
	}
	on := len(watcher.Found()) > 0
	if on {
		o.Begin = slices.Insert(o.Begin, 0, pulse.Reading{Kind: pulse.Link, Value: 1})
	}
	if rec != nil {
		o.Take, o.Begun = rec, true
	}
	if wf.raw {
		o.Listen = nil // no practice is shown
	}
	l := loop.New(o)
	d.follow(l)
	s := &session{
		world: w, watcher: watcher, craft: c, filePath: flags.radio, epoch: epoch, rawOnly: wf.raw,
		policy: follow.Policy{Wanted: wf.device, File: file, Store: w.store},
		use: func(players ...loop.Player) error {
			if !on { // the radio is switched on when there is one
				on = true
				l.Desk().Put(pulse.Link, 1)
			}
			return l.Use(players...)
		},
		mode:   func(mode int) { l.Desk().Put(pulse.StickMode, int32(mode)) },
		notice: d.notice, reads: d.reads, onRaw: d.rawState(wf.raw), filed: noteRadio(rec, papers),
	}
	err = w.together(ctx, l.Run, d.run, s.run)
	if ferr := d.flush(); err == nil {
		err = ferr
	}
	var e *exitError
	switch {
	case err == nil:
	case errors.As(err, &e):
		return err
	default:
		return trouble(err)
	}
	if why := l.Recording().Err; why != nil {
		return trouble(errors.New(phrase.RecordingStopped(why.Error())))
	}
	return nil
}

// calmEvery is how often raw states are printed as text, in µs: a person cannot read a thousand lines a second. JSON Lines
// hold every one.
const calmEvery = 100_000

// rawState shows raw states. Each one with --raw or as JSON; else a few a second, until the radio is learned.
func (d *display) rawState(every bool) func(info *input.Info, raw *input.Raw) {
	last := int64(-calmEvery)
	return func(info *input.Info, raw *input.Raw) {
		axes := len(info.Axes)
		switch {
		case d.manner == asScreen:
			r := terminal.NewRadio(1, info, raw)
			d.reads(info.Name, &r)
		case d.manner == asJSON:
			d.lines.Add(func(dst []byte) []byte { return terminal.AppendRaw(dst, raw.At, raw, axes) })
		case every || raw.At-last >= calmEvery:
			last = raw.At
			d.lines.Add(func(dst []byte) []byte { return terminal.AppendRawText(dst, raw.At, raw, axes) })
		}
	}
}
