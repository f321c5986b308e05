package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/world"
)

// What a shell offers for the value of a flag, at the Tab key.

// files offers files with one ending.
func files(ending string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return []cobra.Completion{ending}, cobra.ShellCompDirectiveFilterFileExt
	}
}

// pluggedIn offers the radios that are plugged in, by their names.
func pluggedIn(w *world.World) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) (names []cobra.Completion, _ cobra.ShellCompDirective) {
		found, _, err := w.Radios.List()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		for i := range found {
			names = append(names, found[i].Name)
		}
		return names, cobra.ShellCompDirectiveNoFileComp
	}
}

// pupilsOf offers everybody who has a logbook in the folder of some flags.
func pupilsOf(lf *logbookFlags) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		s, err := lf.store()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		found, _, _ := s.Pupils()
		return found, cobra.ShellCompDirectiveNoFileComp
	}
}

// completions offers values for the flags that mean the same in each command, and have none yet.
func completions(w *world.World, cmd *cobra.Command) {
	for name, offer := range map[string]cobra.CompletionFunc{
		"device": pluggedIn(w), "pupil": pupilsOf(new(logbookFlags)), "radio": files("yaml"), "gestures": files("yaml"), "instructor": files("yaml"), "like-radio": files("yaml"),
		"drill": cobra.FixedCompletions(assets.Drills(), cobra.ShellCompDirectiveNoFileComp), "paper": cobra.FixedCompletions([]cobra.Completion{"a4", "letter"}, cobra.ShellCompDirectiveNoFileComp),
	} {
		if cmd.LocalFlags().Lookup(name) == nil {
			continue
		}
		if _, has := cmd.GetFlagCompletionFunc(name); !has {
			_ = cmd.RegisterFlagCompletionFunc(name, offer)
		}
	}
	for _, under := range cmd.Commands() {
		completions(w, under)
	}
}
