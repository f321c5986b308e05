package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"propsoff/assets/door"
	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/take"
)

func newRepair(w *world) *cobra.Command {
	return &cobra.Command{
		Use:   "repair TAKE",
		Short: "Copy the whole part of a take that was cut off or damaged",
		Long: "Writes the part of a take before its torn or damaged place into a new file beside it, NAME-repaired.take, which must not be there yet; the\n" +
			"original is left alone.\n" +
			"A take whose end was merely torn by a kill plays as it is and needs no repair.",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("%q takes one take; see \"%s --help\"", cmd.CommandPath(), cmd.CommandPath())
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			copied, end, err := take.Repair(args[0])
			switch {
			case errors.Is(err, take.ErrWhole):
				fmt.Fprintln(w.out, mouth.Printable(err.Error()))
				return nil
			case errors.As(err, new(*door.Error)):
				return shut(err)
			case err != nil:
				return badInput(err)
			}
			fmt.Fprintf(w.out, "%s holds the whole part, up to %s.\n", mouth.Printable(copied), phrase.Clock(end.Tick))
			return nil
		},
	}
}
