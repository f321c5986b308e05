package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
)

func newCheck(w *world.World) *cobra.Command {
	var o termlive.CheckOptions
	cmd := newCommand(w, "check", words.T("command.check"), words.T("command.check-about", caution()))
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if o.Length <= 0 && cmd.Flags().Changed("for") {
			return exit.BadInput(words.Wrong("refused.no-time", words.Args{"such": words.Quote("30s")}))
		}
		return termlive.Check(cmd.Context(), w, &o)
	}
	f := cmd.Flags()
	f.BoolVar(&o.JSON, "json", false, w.Say(words.T("flag.json-check")))
	f.DurationVar(&o.Length, "for", 0, w.Say(words.T("flag.for-check")))
	deviceFlag(w, cmd, &o.Device)
	radioFlag(w, cmd, &o.Radio)
	craftFlag(cmd, &o.Craft, w.Say(words.T("flag.craft-checked")))
	return cmd
}
