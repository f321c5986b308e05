package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"propsoff/assets"
	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/flown"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

type flyFlags struct {
	every      time.Duration
	table      string
	plot, size string
	over       bool
}

func newFly(w *world, flags *shared) *cobra.Command {
	var f flyFlags
	cmd := &cobra.Command{
		Use:   "fly FILE",
		Short: "Fly a pilot script through the air bench and write its state over time",
		Long: "Fly a pilot script (or the hands of a take) through the air bench without a window, as fast as the machine can. The craft stands\n" +
			"outside from the beginning, with the right propellers fitted and checked, unless the script says otherwise\n" +
			"(bench: desk, propellers: {…}). The table goes to standard output, or to --table FILE.\n\n" +
			"Exit status: 0 flown to the end; 1 an expectation of the script failed; 2 bad input; 3 the machine did not let\n" +
			"it, or a signal stopped it: then no table and no plot are written. FILE may be - for standard input.",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("give the path of one pilot script")
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return assets.Scripts(), cobra.ShellCompDirectiveDefault
		},
		RunE: func(cmd *cobra.Command, args []string) error { return fly(cmd.Context(), w, flags, f, args[0]) },
	}
	s := cmd.Flags()
	s.DurationVar(&f.every, "every", 10*time.Millisecond, "time between two rows of the table, whole milliseconds")
	s.StringVarP(&f.table, "table", "o", "", "write the table to `FILE`, - for standard output (the default without --plot)")
	s.StringVar(&f.plot, "plot", "", "draw the flight into `FILE`: .png, .svg or .pdf, - for a PDF on standard output")
	s.BoolVar(&f.over, "over", false, "write over files that are there already")
	s.StringVar(&f.size, "size", "1280x1000", "size of the plot, `WxH` pixels")
	return cmd
}

func fly(ctx context.Context, w *world, flags *shared, f flyFlags, name string) error {
	if f.every < time.Millisecond || f.every%time.Millisecond != 0 {
		return badInput(fmt.Errorf("--every %v: write whole milliseconds, such as 10ms", f.every))
	}
	format, ok, err := w.format(f.plot)
	switch {
	case err != nil:
		return err
	case f.plot != "" && !ok:
		return badInput(fmt.Errorf("--plot %s: end the name with one of %s", f.plot, strings.Join(paper.Extensions(), ", ")))
	}
	wide, high, err := parseSize(f.size)
	if err != nil {
		return badInput(err)
	}
	p, err := w.newPlan(flags, name)
	if err != nil {
		return err
	}
	defer p.Close()
	if j := p.judge; j != nil && j.Older() {
		w.say(phrase.FlownOlder(j.Model, sim.Model))
	}
	p.judge = nil // a take is flown, not compared: it was recorded elsewhere
	cfg := p.craft.Config()
	log := flown.New(&cfg, int64(f.every/time.Millisecond))
	if f.table == "" && f.plot == "" {
		f.table = door.Dash
	}
	told := w.out
	if door.IsStdout(f.table) || door.IsStdout(f.plot) {
		told = w.err // standard output is the table's or the plot's
	}
	r := newReport(p, false, func(line func([]byte) []byte) { _, _ = told.Write(line(nil)) })
	out := door.Out{Over: f.over}
	if err := w.try(out, f.table, f.plot); err != nil {
		return err
	}
	rec, err := p.record(w, flags.record)
	if err != nil {
		return err
	}
	outside := []pulse.Reading{{Kind: pulse.Air, Value: 1}, {Kind: pulse.Propellers, Value: pulse.PropellersValue(cfg.Body.Hand, true)}}
	pr, recorded := stepThrough(ctx, p, rec, outside, func(pr *practice.Practice) {
		log.Add(pr.Tick()-1, pr.Happenings(), pr.Snapshot)
		r.observe(pr)
	})
	if pr == nil || errors.Is(recorded, errStopped) { // half a table could pass for a whole one
		return recorded
	}
	// What one output came to keeps neither the other nor the verdict from being told.
	var tableErr, plotErr error
	if f.table != "" {
		tableErr = w.publish(f.table, out, log.WriteCSV)
	}
	if f.plot != "" {
		page := ink.NewPage(float64(wide), float64(high), 0, paper.Theme())
		log.Plot(page, phrase.FlownTitle(p.name, p.craft.Name))
		plotErr = w.publish(f.plot, out, func(to io.Writer) error {
			return (&paper.Print{Page: page, DPI: 96, Title: p.name}).Write(to, format)
		})
	}
	return cmp.Or(recorded, tableErr, plotErr, r.finish(pr.Tick()-1, pr.Digest()))
}
