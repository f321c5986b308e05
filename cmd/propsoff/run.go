package main

import (
	"bufio"
	"cmp"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"propsoff.example/assets"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
)

// demoName is the shipped demo pilot.
const demoName = "demo"

type runFlags struct {
	json, live, demo bool
	plain            termlive.Plain
}

func newRun(w *world.World, flags *world.Named) *cobra.Command {
	var rf runFlags
	cmd := newCommand(w, "run FILE", words.T("command.run"), words.T("command.run-about", words.Args{"demo": words.Quote(demoName)}))
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		switch {
		case rf.demo && len(args) > 0:
			return words.Wrong("refused.file-or-demo")
		case !rf.demo && len(args) == 0:
			return words.Wrong("refused.no-file")
		case len(args) > 1:
			return words.Wrong("refused.two-files")
		}
		return nil
	}
	cmd.ValidArgsFunction = cobra.FixedCompletions(assets.Scripts(), cobra.ShellCompDirectiveDefault)
	plain := plainFlag(w, cmd)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if rf.plain = plain(); rf.plain == termlive.PlainAlways && !rf.live {
			return exit.BadInput(words.Wrong("refused.plain-live"))
		}
		name := demoName
		if !rf.demo {
			name = args[0]
		}
		return run(cmd.Context(), w, flags, rf, name)
	}
	jsonFlag(w, cmd, &rf.json)
	cmd.Flags().BoolVar(&rf.live, "live", false, w.Say(words.T("flag.live")))
	cmd.Flags().BoolVar(&rf.demo, "demo", false, w.Say(words.T("flag.demo")))
	return cmd
}

func run(ctx context.Context, w *world.World, flags *world.Named, rf runFlags, name string) error {
	p, err := playback.New(w, flags, name)
	if err != nil {
		return err
	}
	defer p.Close()
	rec, err := p.Record(w, flags.Record)
	if err != nil {
		return err
	}
	if rf.live {
		return termlive.Play(ctx, w, p, rf.json, rf.plain, rec)
	}
	out := bufio.NewWriterSize(w.Out, 64<<10)
	r := playback.NewReport(p, rf.json, func(f func([]byte) []byte) { _, _ = out.Write(f(out.AvailableBuffer())) })
	if !rf.json {
		fmt.Fprintln(out, mouth.Printable(w.Say(tell.Running(p.Name, p.Craft.Name, p.Replay))))
	}
	err = playback.Fast(ctx, p, r, rec)
	return cmp.Or(err, exit.Trouble(out.Flush()))
}
