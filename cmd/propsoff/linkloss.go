package main

import (
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
)

type lossFlags struct {
	craft, stored string
	height        float64
	off           time.Duration
	json          bool
	over          mapFlags
}

func newLinkLoss(w *world.World) *cobra.Command {
	var f lossFlags
	stored := terminal.StoredWords()
	cmd := newCommand(w, "link-loss", words.T("command.link-loss"), words.T("command.link-loss-about"))
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		if err := f.over.fit(cmd.Flags()); err != nil {
			return err
		}
		if f.over.on {
			return lossMap(cmd.Context(), w, f)
		}
		return linkLoss(w, f)
	}
	s := cmd.Flags()
	craftFlag(cmd, &f.craft, flownCraft(w))
	s.StringVar(&f.stored, "stored", "", w.Say(words.T("flag.stored", words.Args{"values": withCommas(stored)})))
	s.Float64Var(&f.height, "height", 10, w.Say(words.T("flag.height")))
	s.DurationVar(&f.off, "off", 10*time.Second, w.Say(words.T("flag.off")))
	f.over.register(w, cmd)
	jsonFlag(w, cmd, &f.json)
	_ = cmd.RegisterFlagCompletionFunc("stored", cobra.FixedCompletions(stored, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func linkLoss(w *world.World, f lossFlags) error {
	c, err := w.LoadCraft(f.craft, "")
	if err != nil {
		return err
	}
	o := lossrun.Options{Craft: c.Config(), Height: f.height, OffFor: f.off.Milliseconds()}
	if o.Stored, err = f.store(c.Name, &o.Craft); err != nil {
		return err
	}
	if !(f.height >= lossrun.HeightLeast && f.height <= lossrun.HeightMost) {
		return exit.BadInput(words.Wrong("refused.height", words.Args{"value": words.Quote(fmt.Sprint(f.height)), "least": words.Whole(lossrun.HeightLeast), "most": words.Whole(lossrun.HeightMost)}))
	}
	if o.OffFor < lossrun.OffLeast || o.OffFor > lossrun.OffMost {
		return exit.BadInput(words.Wrong("refused.off", words.Args{"value": ofTime(f.off), "least": ofTime(lossrun.OffLeast * time.Millisecond), "most": ofTime(lossrun.OffMost * time.Millisecond)}))
	}
	out, err := lossrun.Demonstrate(o)
	if err != nil {
		named := c.Name
		if f.craft != "" {
			named = f.craft + ": " + named
		}
		return exit.BadInput(words.Within(named, err))
	}
	return put(w, terminal.Form{JSON: f.json, Book: w.Language()}.Loss(nil, c.Name, &o, out))
}

// store is what the receiver that sends stored values has stored.
func (f *lossFlags) store(name string, craft *sim.Config) (lossrun.Stored, error) {
	if f.stored == "" {
		return lossrun.FirstStored(craft), nil
	}
	known := terminal.StoredWords()
	i, err := oneOf("stored", f.stored, known)
	switch {
	case err != nil:
		return 0, err
	case lossrun.Stored(i) == lossrun.OfFile && !lossrun.Own(craft):
		return 0, exit.BadInput(words.Wrong("refused.stored-file", words.Args{"craft": words.Quote(name), "words": withCommas(known[1:])}))
	}
	return lossrun.Stored(i), nil
}

// oneOf is which of some words the value of a flag is.
func oneOf(flag, value string, known []string) (int, error) {
	i := slices.Index(known, value)
	if i < 0 {
		return 0, exit.BadInput(words.Wrong("refused.one-of", words.Args{"flag": words.Quote(flag), "value": words.Quote(value), "words": withCommas(known)}))
	}
	return i, nil
}

// ofTime is a time as flags take it.
func ofTime(d time.Duration) words.Quote { return words.Quote(d.String()) }
