package main

import (
	"cmp"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/sim/prove"
)

type proveFlags struct {
	json     bool
	write    string
	gestures string
}

func newProve(w *world.World) *cobra.Command {
	var pf proveFlags
	cmd := &cobra.Command{
		Use:   "prove CRAFT [RADIO]",
		Short: w.Say(words.T("command.prove")),
		Long:  w.Say(words.T("command.prove-about")),
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return words.Wrong("refused.no-craft", words.Args{"command": words.Quote(cmd.CommandPath())})
			case len(args) > 2:
				return words.Wrong("refused.many-crafts")
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
	jsonFlag(w, cmd, &pf.json)
	cmd.Flags().StringVar(&pf.gestures, "gestures", "", w.Say(words.T("flag.gestures-searched")))
	cmd.Flags().StringVar(&pf.write, "write", "", w.Say(words.T("flag.write")))
	return cmd
}

func proveLayout(ctx context.Context, w *world.World, pf proveFlags, craftPath, radioPath string) error {
	c, err := w.LoadFlown(world.Named{Craft: craftPath, Gestures: pf.gestures})
	if err != nil {
		return err
	}
	file, err := w.LoadRadio(radioPath, "", c)
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
	proof := terminal.Proof{Book: w.Language(), Layout: &l, Report: report, Craft: c.Name, CalledOut: tell.Callouts(looks, &l.Config)}
	by := facts.NoneGiven
	if file != nil {
		proof.Radio, by = l.Radio.Name, facts.ItsFile
	}
	proof.Of = tell.Searched(c.Name, &l.Radio, by)
	var unwritten error
	if pf.write != "" {
		proof.Written, unwritten = writeWays(w, pf.write, c, &l, report)
	}
	out := proof.AppendText
	if pf.json {
		out = proof.AppendJSON
	}
	if _, err := w.Out.Write(out(nil)); err != nil {
		return exit.Trouble(err)
	}
	return cmp.Or(unwritten, exit.Of(report.Verdict()))
}

// search searches a layout until it is done or the context ends, and tells how far it is.
func search(ctx context.Context, w *world.World, l prove.Layout) (*prove.Report, error) {
	told := newTeller(w)
	report, err := facts.Prove(l, func(p prove.Progress) bool {
		told.progress(p)
		return ctx.Err() != nil
	})
	told.clear()
	if err != nil {
		return nil, exit.BadInput(err)
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
	w    *world.World // its Progress is nil for no terminal
	from int64
	last int64
	told bool
}

func newTeller(w *world.World) *teller {
	return &teller{w: w, from: w.Now()}
}

func (t *teller) progress(p prove.Progress) {
	if t.w.Progress == nil {
		return
	}
	now := t.w.Now()
	if now-t.from < tellAfter || now-t.last < tellEvery {
		return
	}
	t.last, t.told = now, true
	fmt.Fprintf(t.w.Progress, "\r%s\x1b[K", t.w.Say(tell.Progress(p)))
}

// clear takes the progress away again.
func (t *teller) clear() {
	if t.told {
		fmt.Fprint(t.w.Progress, "\r\x1b[K")
	}
}
