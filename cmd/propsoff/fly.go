package main

import (
	"cmp"
	"context"
	"errors"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/flightlog"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
)

type flyFlags struct {
	every      time.Duration
	table      string
	plot, size string
	over       bool
}

func newFly(w *world.World, flags *world.Named) *cobra.Command {
	var f flyFlags
	cmd := newCommand(w, "fly FILE", words.T("command.fly"), words.T("command.fly-about"))
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return words.Wrong("refused.no-script")
		}
		return nil
	}
	cmd.ValidArgsFunction = cobra.FixedCompletions(assets.Scripts(), cobra.ShellCompDirectiveDefault)
	cmd.RunE = func(cmd *cobra.Command, args []string) error { return fly(cmd.Context(), w, flags, f, args[0]) }
	s := cmd.Flags()
	s.DurationVar(&f.every, "every", 10*time.Millisecond, w.Say(words.T("flag.every")))
	s.StringVarP(&f.table, "table", "o", "", w.Say(words.T("flag.table")))
	s.StringVar(&f.plot, "plot", "", w.Say(words.T("flag.plot")))
	s.BoolVar(&f.over, "over", false, w.Say(words.T("flag.over-files")))
	s.StringVar(&f.size, "size", "1280x1000", w.Say(words.T("flag.size-plot")))
	return cmd
}

func fly(ctx context.Context, w *world.World, flags *world.Named, f flyFlags, name string) error {
	if f.every < time.Millisecond || f.every%time.Millisecond != 0 {
		return exit.BadInput(words.Wrong("refused.every", words.Args{"value": words.Quote(f.every.String())}))
	}
	format, ok, err := w.Format(f.plot)
	switch {
	case err != nil:
		return err
	case f.plot != "" && !ok:
		return exit.BadInput(words.Wrong("refused.plot", words.Args{"value": words.Quote(f.plot), "endings": withCommas(paper.Extensions())}))
	}
	wide, high, err := parseSize(f.size)
	if err != nil {
		return exit.BadInput(err)
	}
	p, err := playback.New(w, flags, name)
	if err != nil {
		return err
	}
	defer p.Close()
	if j := p.Judge; j != nil && j.Older() {
		w.Tell(tell.FlownOlder(j.Model, sim.Model))
	}
	p.Judge = nil // a take is flown, not compared: it was recorded elsewhere
	cfg := p.Craft.Config()
	log := flightlog.New(&cfg, int64(f.every/time.Millisecond))
	if f.table == "" && f.plot == "" {
		f.table = door.Dash
	}
	told := w.Out
	if door.IsStdout(f.table) || door.IsStdout(f.plot) {
		told = w.Err // standard output is the table's or the plot's
	}
	r := playback.NewReport(p, false, func(line func([]byte) []byte) { _, _ = told.Write(line(nil)) })
	out := door.Out{Over: f.over}
	if err := w.Try(out, f.table, f.plot); err != nil {
		return err
	}
	rec, err := p.Record(w, flags.Record)
	if err != nil {
		return err
	}
	pr, recorded := playback.Through(ctx, p, rec, lossrun.Carried(&cfg), func(pr *practice.Practice) {
		log.Add(pr.Tick()-1, pr.Happenings(), pr.Snapshot)
		r.Observe(pr)
	})
	if pr == nil || errors.Is(recorded, exit.ErrStopped) { // half a table could pass for a whole one
		return recorded
	}
	// What one output came to keeps neither the other nor the verdict from being told.
	var tableErr, plotErr error
	if f.table != "" {
		tableErr = w.Publish(f.table, out, log.WriteCSV)
	}
	if f.plot != "" {
		page := ink.NewPage(float64(wide), float64(high), 0, paper.Theme())
		log.Plot(page, w.Language(), words.T("flown.title", words.Args{"name": words.Quote(strings.TrimSpace(p.Name)), "craft": words.Quote(p.Craft.Name)}))
		plotErr = w.Publish(f.plot, out, func(to io.Writer) error {
			return (&paper.Print{Page: page, DPI: 96, Title: p.Name}).Write(to, format)
		})
	}
	return cmp.Or(recorded, tableErr, plotErr, r.Finish(pr.Tick()-1, pr.Digest()))
}
