package main

import (
	"cmp"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/provescript"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/prove"
)

type proveFlags struct {
	world.Named
	json, mend bool
	every      bool
	elsewhere  bool
	write      string
	instructor string
	take       int
}

func newProve(w *world.World) *cobra.Command {
	var pf proveFlags
	cmd := newCommand(w, "prove CRAFT [RADIO] [CRAFT2] [RADIO2]", words.T("command.prove"), words.T("command.prove-about"))
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) == 0:
			return words.Wrong("refused.no-craft", words.Args{"command": words.Quote(cmd.CommandPath())})
		case len(args) > 4:
			return words.Wrong("refused.many-crafts")
		}
		return nil
	}
	cmd.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) < 3 { // a craft, or a second one
			return world.Crafts(), cobra.ShellCompDirectiveDefault
		}
		return nil, cobra.ShellCompDirectiveDefault
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		pf.Craft = args[0]
		if err := mendable(&pf, cmd.Flags().Changed("take")); err != nil {
			return err
		}
		named, err := layoutsNamed(w, args)
		if err != nil {
			return err
		}
		pf.Craft, pf.Radio = named[0].Craft, named[0].Radio
		switch {
		case len(named) == 2 && pf.mend:
			return words.Wrong("mend.one-layout")
		case pf.instructor != "" && (pf.mend || pf.elsewhere || len(named) == 2):
			return words.Wrong("refused.instructor-alone")
		case len(named) == 2 && pf.elsewhere:
			return words.Wrong("elsewhere.one-layout")
		}
		if len(named) == 2 {
			return compareLayouts(cmd.Context(), w, &pf, named[1])
		}
		return proveLayout(cmd.Context(), w, &pf)
	}
	jsonFlag(w, cmd, &pf.json)
	cmd.Flags().StringVar(&pf.Gestures, "gestures", "", w.Say(words.T("flag.gestures-searched")))
	cmd.Flags().BoolVar(&pf.every, "every-rule", false, w.Say(words.T("flag.every-rule")))
	cmd.Flags().StringVar(&pf.instructor, "instructor", "", w.Say(words.T("flag.instructor")))
	cmd.Flags().BoolVar(&pf.mend, "mend", false, w.Say(words.T("flag.mend")))
	cmd.Flags().BoolVar(&pf.elsewhere, "elsewhere", false, w.Say(words.T("flag.elsewhere")))
	cmd.Flags().IntVar(&pf.take, "take", 0, w.Say(words.T("flag.take")))
	cmd.Flags().StringVar(&pf.write, "write", "", w.Say(words.T("flag.write")))
	return cmd
}

func proveLayout(ctx context.Context, w *world.World, pf *proveFlags) error {
	c, file, err := w.LoadFlown(&pf.Named)
	if err != nil {
		return err
	}
	if pf.write != "" {
		if err := provescript.MakeFolder(pf.write, c); err != nil {
			return err
		}
	}
	l := facts.LayoutOf(c.File, file, nil)
	looks := facts.Look(&l.Config, c.More(), &l.Radio)
	proof := terminal.Proof{Every: pf.every, Book: w.Language(), Layout: &l, Craft: c.Name, CalledOut: tell.Callouts(looks, &l.Config)}
	if file != nil {
		proof.Radio = l.Radio.Name
	}
	proof.Of = tell.Searched(c.Name, &l.Radio, facts.ByFile(file))
	if pf.mend {
		return mendLayout(ctx, w, pf, c, file, proof)
	}
	report, err := search(ctx, w, l)
	if err != nil {
		return err
	}
	proof.Report = report
	if pf.instructor != "" {
		if err := besideInstructor(ctx, w, pf, c, &proof); err != nil {
			return err
		}
	}
	var unwritten error
	if pf.write != "" {
		proof.Folder = pf.write
		if proof.Written, unwritten = provescript.WriteAll(w, pf.write, c, proof.Layout, report); unwritten == nil {
			proof.Cleared, unwritten = provescript.ClearStale(pf.write, report)
		}
	}
	text, lines := proof.AppendText, proof.AppendJSON
	if pf.elsewhere {
		around := terminal.Elsewhere{Proof: proof, Tried: elsewhere(ctx, &l, report)}
		text, lines = around.AppendText, around.AppendJSON
	}
	if err := pf.put(w, text, lines); err != nil {
		return err
	}
	return cmp.Or(unwritten, exit.Of(report.Verdict()))
}

// besideInstructor searches what the instructor's radio does beside the pupil's, and takes it into what is told.
func besideInstructor(ctx context.Context, w *world.World, pf *proveFlags, c *world.Craft, proof *terminal.Proof) error {
	his, err := w.LoadRadio(pf.instructor, "", c)
	if err != nil {
		return err
	}
	found := facts.ProveTwo(*proof.Layout, proof.Report, his, c.Words, func() bool { return ctx.Err() != nil })
	proof.Layout, proof.Two, proof.Tutor = &found.Both, tell.TwoRadios(&found), found.His.Name
	return nil
}

// put prints what came of it, as text or as lines of JSON.
func (pf *proveFlags) put(w *world.World, text, lines func([]byte) []byte) error {
	if pf.json {
		text = lines
	}
	return put(w, text(nil))
}

// tellAfter is how long a search goes on before its progress is told, tellEvery how often then, in µs (ours).
const (
	tellAfter = 1_000_000
	tellEvery = 200_000
)

// search searches a layout until it is done or the context ends, and tells how far it is.
func search(ctx context.Context, w *world.World, l prove.Layout) (*prove.Report, error) {
	progress, end := telling(ctx, w)
	report, err := facts.Prove(l, progress)
	end()
	if err != nil {
		return nil, exit.BadInput(err)
	}
	return &report, nil
}

// telling tells how far a search is, on a terminal only, each time over the last, and stops it when the context ends. end clears what was told.
func telling(ctx context.Context, w *world.World) (progress func(prove.Progress) (stop bool), end func()) {
	line := newProgress(w)
	progress = func(p prove.Progress) bool {
		line.tell(func(from int64) words.Text { return words.Row(tell.Progress(p), tell.TimeLeft(p, from)) })
		return ctx.Err() != nil
	}
	return progress, line.end
}

// progress tells how far a search is, on a terminal only, each time over the last.
type progress struct {
	w          *world.World
	from, last int64
	// after and every are in µs.
	after, every int64
	told         bool
}

func newProgress(w *world.World) *progress {
	return &progress{w: w, from: w.Now(), after: tellAfter, every: tellEvery}
}

// tell tells it, if it is time to; how is given how long the search has gone on, in µs.
func (p *progress) tell(how func(from int64) words.Text) {
	if now := p.w.Now(); p.w.Progress != nil && now-p.from >= p.after && now-p.last >= p.every {
		p.last, p.told = now, true
		fmt.Fprintf(p.w.Progress, "\r%s\x1b[K", p.w.Say(how(now-p.from)))
	}
}

func (p *progress) end() {
	if p.told {
		fmt.Fprint(p.w.Progress, "\r\x1b[K")
	}
}
