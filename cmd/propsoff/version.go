package main

import (
	"cmp"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

// commit and date are told to the linker by what ships the program (scripts/stamp.sh); elsewhere Go itself knows them, if the build was let look.
var commit, date string

// build is what this program is and was built from: the values of --json.
type build struct {
	Version string   `json:"version"`
	Commit  string   `json:"commit"`
	Date    string   `json:"date"`
	Changed bool     `json:"changed"` // since the commit
	Go      string   `json:"go"`
	OS      string   `json:"os"`
	Arch    string   `json:"arch"`
	Tags    []string `json:"tags"`
	Cgo     bool     `json:"cgo"`
}

func newVersion(w *world.World) *cobra.Command {
	var asJSON bool
	cmd := newCommand(w, "version", words.T("command.version"), words.Text{})
	cmd.RunE = func(*cobra.Command, []string) error {
		b := thisBuild(debug.ReadBuildInfo())
		if asJSON {
			_, err := w.Out.Write(append(mouth.AppendJSON(nil, b), '\n'))
			return err
		}
		fmt.Fprintln(w.Out, "propsoff", w.Say(words.T("command.this-version", words.Args{
			"version": words.Quote(b.Version), "revision": words.Quote(b.Commit[:min(12, len(b.Commit))]), "changed": words.Flag(b.Changed),
			"tools": withCommas([]string{b.Go, b.OS + "/" + b.Arch}),
		})))
		return nil
	}
	jsonFlag(w, cmd, &asJSON)
	return cmd
}

// thisBuild puts together what the linker was told and what Go knows. What was told wins: it is of the tree that ships.
func thisBuild(info *debug.BuildInfo, ok bool) build {
	b := build{Version: world.Version, Commit: commit, Date: date, Go: runtime.Version(), OS: runtime.GOOS, Arch: runtime.GOARCH, Tags: []string{}}
	if !ok {
		return b
	}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			b.Commit = cmp.Or(commit, s.Value)
		case "vcs.time":
			b.Date = cmp.Or(date, s.Value)
		case "vcs.modified":
			b.Changed = commit == "" && s.Value == "true"
		case "-tags":
			b.Tags = strings.Split(s.Value, ",")
		case "CGO_ENABLED":
			b.Cgo = s.Value == "1"
		}
	}
	return b
}
