package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"propsoff.example/assets/door"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/take"
)

func newRepair(w *world.World) *cobra.Command {
	cmd := newCommand(w, "repair TAKE", words.T("command.repair"), words.T("command.repair-about"))
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return words.Wrong("refused.one-take", words.Args{"command": words.Quote(cmd.CommandPath())})
		}
		return nil
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		copied, end, err := take.Repair(args[0])
		switch {
		case errors.Is(err, take.ErrWhole):
			fmt.Fprintln(w.Out, mouth.Printable(w.Error(err)))
			return nil
		case errors.As(err, new(*door.Error)):
			return exit.Shut(err)
		case err != nil:
			return exit.BadInput(err)
		}
		fmt.Fprintln(w.Out, mouth.Printable(w.Say(words.T("command.repaired", words.Args{"path": words.Quote(copied), "time": tell.Clock(end.Tick)}))))
		return nil
	}
	return cmd
}
