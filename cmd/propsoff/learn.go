package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
)

func newLearn(w *world.World) *cobra.Command {
	var o termlive.LearnOptions
	cmd := newCommand(w, "learn", words.T("command.learn"), words.T("command.learn-about", caution()))
	cmd.RunE = func(cmd *cobra.Command, _ []string) error { return termlive.Learn(cmd.Context(), w, &o) }
	f := cmd.Flags()
	jsonFlag(w, cmd, &o.JSON)
	craftFlag(cmd, &o.Craft, w.Say(words.T("flag.craft-learned")))
	deviceFlag(w, cmd, &o.Device)
	f.StringVarP(&o.Output, "output", "o", "", w.Say(words.T("flag.output-radio")))
	f.BoolVar(&o.Over, "over", false, w.Say(words.T("flag.over-radio")))
	f.BoolVar(&o.Anew, "anew", false, w.Say(words.T("flag.anew")))
	f.IntVar(&o.StickMode, "stick-mode", 0, w.Say(words.T("flag.stick-mode")))
	stickModes(cmd)
	return cmd
}
