package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/sim/prove"
)

type proveFlags struct {
	json     bool
	write    string
	gestures string
}

func newProve(w *world) *cobra.Command {
	var pf proveFlags
	cmd := &cobra.Command{
		Use:   "prove CRAFT [RADIO]",
		Short: "Search every situation of a switch layout for surprises",
		Long: "Search every situation that a craft and a radio can come into: all positions of all switches, stick zones, link, power,\n" +
			"cable and time, one movement at a time. CRAFT is a craft file or a shipped craft, RADIO a radio file; without it an ideal\n" +
			"radio is taken. Each rule is printed with what was found, a broken one with the shortest way to it; then what\n" +
			"the switch layout has to call out, which breaks no rule. Ctrl-C stops the search\n" +
			"with what is known so far.\n\n" +
			"Exit status: 0 every rule was searched to its end, and none is broken; 1 a rule is broken; 2 bad input; 3 the machine did not let it; 4 none was found broken,\n" +
			"and the search was stopped or ran out of memory before its end.",
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return fmt.Errorf("give a craft file or a shipped craft, and a radio file where there is one; see %q", cmd.CommandPath()+" --help")
			case len(args) > 2:
				return errors.New("give one craft and at most one radio file")
			}
			return nil
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return crafts(), cobra.ShellCompDirectiveDefault
			}
			return nil, cobra.ShellCompDirectiveDefault
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			radioPath := ""
			if len(args) == 2 {
				radioPath = args[1]
			}
			return proveLayout(cmd.Context(), w, pf, args[0], radioPath)
		},
	}
	cmd.Flags().BoolVar(&pf.json, "json", false, "print one JSON object a line")
	cmd.Flags().StringVar(&pf.gestures, "gestures", "", "gesture `FILE`: the two-stick gestures and menus to be searched too; else your own, or the shipped ones")
	cmd.Flags().StringVar(&pf.write, "write", "", "write each way as a pilot script into `FOLDER`, over none but what was written so before")
	return cmd
}

func proveLayout(ctx context.Context, w *world, pf proveFlags, craftPath, radioPath string) error {
	c, err := w.loadFlown(&shared{craft: craftPath, gestures: pf.gestures})
	if err != nil {
		return err
	}
	file, err := w.loadRadio(radioPath, "", c)
	if err != nil {
		return err
	}
	if err := checkWays(pf.write, c); err != nil {
		return err
	}
	l := facts.LayoutOf(c.File, file, nil)
	report, err := search(ctx, w, l)
	if err != nil {
		return err
	}
	looks := facts.Look(&l.Config, c.More(), &l.Radio)
	proof := terminal.Proof{Layout: &l, Report: report, Craft: c.Name, CalledOut: phrase.Callouts(looks, &l.Config)}
	by := facts.NoneGiven
	if file != nil {
		proof.Radio, by = l.Radio.Name, facts.ItsFile
	}
	proof.Of = phrase.Searched(c.Name, &l.Radio, by)
	var unwritten error
	if pf.write != "" {
		proof.Written, unwritten = w.writeWays(pf.write, c, &l, report)
	}
	out := proof.AppendText
	if pf.json {
		out = proof.AppendJSON
	}
	if _, err := w.out.Write(out(nil)); err != nil {
		return trouble(err)
	}
	return cmp.Or(unwritten, exitOf(report.Verdict()))
}

// search searches a layout until it is done or the context ends, and tells how far it is.
func search(ctx context.Context, w *world, l prove.Layout) (*prove.Report, error) {
	tell := newTeller(w)
	report, err := facts.Prove(l, func(p prove.Progress) bool {
		tell.progress(p)
		return ctx.Err() != nil
	})
	tell.clear()
	if err != nil {
		return nil, badInput(err)
	}
	return &report, nil
}

// tellAfter is how long a search goes on before its progress is told, tellEvery how often then, in µs (ours).
const (
	tellAfter = 1_000_000
	tellEvery = 200_000
)

// teller writes the progress of a search over itself, on a terminal only.
type teller struct {
	w    io.Writer // nil for no terminal
	now  func() int64
	from int64
	last int64
	told bool
}

func newTeller(w *world) *teller {
	return &teller{w: w.progress, now: w.now, from: w.now()}
}

func (t *teller) progress(p prove.Progress) {
	if t.w == nil {
		return
	}
	now := t.now()
	if now-t.from < tellAfter || now-t.last < tellEvery {
		return
	}
	t.last, t.told = now, true
	fmt.Fprintf(t.w, "\r%s\x1b[K", phrase.Progress(p))
}

// clear takes the progress away again.
func (t *teller) clear() {
	if t.told {
		fmt.Fprint(t.w, "\r\x1b[K")
	}
}
