package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
)

type gestureFlags struct {
	file string
	mode int
	json bool
}

func newGestures(w *world.World) *cobra.Command {
	var gf gestureFlags
	cmd := newCommand(w, "gestures", words.T("command.gestures"), words.T("command.gestures-about"))
	cmd.RunE = func(*cobra.Command, []string) error { return listGestures(w, &gf) }
	f := cmd.Flags()
	f.StringVar(&gf.file, "gestures", "", w.Say(words.T("flag.gestures")))
	f.IntVar(&gf.mode, "stick-mode", 2, w.Say(words.T("flag.stick-mode-drawn")))
	stickModes(cmd)
	jsonFlag(w, cmd, &gf.json)
	return cmd
}

func listGestures(w *world.World, gf *gestureFlags) error {
	if gf.mode < 1 || gf.mode > 4 {
		return exit.BadInput(words.Wrong("refused.stick-mode", words.Args{"value": words.Whole(gf.mode)}))
	}
	cfg := sim.Default()
	g, err := w.LoadGestures(gf.file, "", true, cfg.SlotTicks)
	if err != nil {
		return err
	}
	mode, form := uint8(gf.mode), terminal.Form{JSON: gf.json, Book: w.Language()}
	var out []byte
	if !gf.json {
		out = append(out, w.Say(tell.GestureList(mode, len(g.Gestures.Patterns), g.Shipped))+"\n"...)
	}
	for n := range g.Gestures.Patterns {
		out = form.Gesture(out, &g.Gestures, &g.Menus, n, mode)
	}
	return put(w, out)
}
