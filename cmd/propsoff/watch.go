package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
)

func newWatch(w *world.World, flags *world.Named) *cobra.Command {
	var o termlive.WatchOptions
	cmd := newCommand(w, "watch", words.T("command.watch"), words.T("command.watch-about", caution()))
	plain := plainFlag(w, cmd)
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if o.Length <= 0 && cmd.Flags().Changed("for") {
			return exit.BadInput(words.Wrong("refused.no-time", words.Args{"such": words.Quote("10s")}))
		}
		o.Named, o.Plain = *flags, plain()
		return termlive.Watch(cmd.Context(), w, &o)
	}
	f := cmd.Flags()
	f.BoolVar(&o.JSON, "json", false, w.Say(words.T("flag.json-watch")))
	f.BoolVar(&o.Raw, "raw", false, w.Say(words.T("flag.raw")))
	f.DurationVar(&o.Length, "for", 0, w.Say(words.T("flag.for-watch")))
	deviceFlag(w, cmd, &o.Device)
	return cmd
}
