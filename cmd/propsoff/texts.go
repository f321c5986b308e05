package main

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

// What commands and flags are for is some hundred sentences, and hardly any line asks for one. So the commands of a line that does not are
// made without, and have them written in where somebody asks all the same.

// unwritten is the Book of commands that are made without texts: it has no words.
var unwritten = new(words.Book)

// rootFor makes the commands for a line: with their texts where it plainly asks what they are for.
func rootFor(w *world.World, args []string) *cobra.Command {
	if asksWhatFor(args) {
		return newRoot(w)
	}
	book := w.Book
	w.Book = unwritten
	root := newRoot(w)
	w.Book = book
	writeLater(w, root)
	return root
}

// asksWhatFor reports whether a line asks for help, for the version, or how it could go on.
func asksWhatFor(args []string) bool {
	for i, arg := range args {
		switch {
		case i == 0 && (arg == cobra.ShellCompRequestCmd || arg == cobra.ShellCompNoDescRequestCmd):
			return true
		case strings.Contains(arg, "help"), strings.HasPrefix(arg, "--version"):
			return true
		case strings.HasPrefix(arg, "-") && !strings.HasPrefix(arg, "--") && strings.ContainsAny(arg, "hv"): // letters, perhaps several
			return true
		}
	}
	return false
}

// writeLater has the texts written in where somebody is going to read them: a help text, and what a flag calls its value where that is nothing.
func writeLater(w *world.World, root *cobra.Command) {
	book, written := w.Book, false
	write := func() {
		if !written {
			written = true
			now := w.Book
			w.Book = book // the language in which the others would have been written
			writeIn(root, newRoot(w))
			w.Book = now
		}
	}
	help, usage, before := root.HelpFunc(), root.UsageFunc(), root.PersistentPreRunE
	root.SetHelpFunc(func(c *cobra.Command, args []string) { write(); help(c, args) })
	root.SetUsageFunc(func(c *cobra.Command) error { write(); return usage(c) })
	root.PersistentPreRunE = func(c *cobra.Command, args []string) error {
		c.Flags().Visit(func(f *pflag.Flag) {
			if f.Value.String() == "" {
				write()
			}
		})
		return before(c, args)
	}
}

// writeIn writes the texts of commands into the same commands made without.
func writeIn(root, with *cobra.Command) {
	root.Short, root.Long = with.Short, with.Long
	for i, g := range root.Groups() {
		g.Title = with.Groups()[i].Title
	}
	for _, flags := range [...]func(*cobra.Command) *pflag.FlagSet{(*cobra.Command).Flags, (*cobra.Command).PersistentFlags} {
		flags(root).VisitAll(func(f *pflag.Flag) {
			if its := flags(with).Lookup(f.Name); its != nil {
				f.Usage = its.Usage
			}
		})
	}
	for _, c := range root.Commands() {
		for _, its := range with.Commands() {
			if its.Name() == c.Name() {
				writeIn(c, its)
			}
		}
	}
}
