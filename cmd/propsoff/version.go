package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

func newVersion(w *world.World) *cobra.Command {
	cmd := newCommand(w, "version", words.T("command.version"), words.Text{})
	cmd.RunE = func(*cobra.Command, []string) error {
		revision, changed := source()
		fmt.Fprintln(w.Out, "propsoff", w.Say(words.T("command.this-version", words.Args{
			"version": words.Quote(world.Version), "revision": words.Quote(revision), "changed": words.Flag(changed),
			"tools": withCommas([]string{runtime.Version(), runtime.GOOS + "/" + runtime.GOARCH}),
		})))
		return nil
	}
	return cmd
}

// source is the revision that this was built from, where the build knows it, and whether it was changed since.
func source() (revision string, changed bool) {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "", false
	}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			revision = s.Value[:min(12, len(s.Value))]
		case "vcs.modified":
			changed = s.Value == "true"
		}
	}
	return revision, changed
}
