package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// version of the program.
const version = "0.1.0"

func newVersion(w *world) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Say which version this is",
		Args:  noArguments,
		RunE: func(*cobra.Command, []string) error {
			fmt.Fprintf(w.out, "propsoff %s%s (%s, %s/%s)\n", version, revision(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return nil
		},
	}
}

// revision is the state of the source that this was built from, where the build knows it.
func revision() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	rev, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			rev = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ", changed since"
		}
	}
	if rev == "" {
		return ""
	}
	return ", revision " + rev[:min(12, len(rev))] + changed
}
