package main

import (
	"cmp"
	"fmt"

	"github.com/spf13/cobra"

	"propsoff.example/assets/licences"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

func newLicences(w *world.World) *cobra.Command {
	cmd := newCommand(w, "licences", words.T("command.licences"), words.T("command.licences-about"))
	cmd.Aliases = []string{"licenses"}
	cmd.RunE = func(*cobra.Command, []string) error {
		_, err := fmt.Fprintf(w.Out, "%s\n\n%s\n%s\n", w.Say(words.T("licences.own")), licences.Own(),
			cmp.Or(licences.OfOthers(), w.Say(words.T("licences.elsewhere"))))
		return err
	}
	return cmd
}
