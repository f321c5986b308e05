package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/lookup"
	"propsoff.example/cmd/propsoff/internal/world"
)

// Topics of help: tables to look things up in, besides what commands say of themselves.

// topicsOf are all topics, in the order in which they are listed.
func topicsOf(w *world.World, root *cobra.Command) []lookup.Topic {
	return slices.Insert(lookup.Topics(), 1, lookup.Commands(func() []lookup.Part { return commandParts(w, root) }))
}

// seeTopic are the topics that a command has to do with.
var seeTopic = map[string]string{
	"radios": "radio-file", "learn": "radio-file", "prove": "craft-file", "card": "craft-file", "gestures": "gesture-file",
	"run": "script-file", "fly": "script-file", "drill": "drill-file", "logbook": "files", "pack": "files", "keep": "files",
}

// helpWithTopics has the help command tell of topics where no command is meant.
func helpWithTopics(w *world.World, root, help *cobra.Command) {
	names := func() (all []string) {
		for _, t := range lookup.Topics() {
			all = append(all, t.Name)
		}
		return append(all, lookup.Commands(nil).Name)
	}
	asked := func(args []string) (lookup.Topic, bool) {
		if len(args) != 1 {
			return lookup.Topic{}, false
		}
		if found, _, err := root.Find(args); err == nil && found != root {
			return lookup.Topic{}, false
		}
		return lookup.Find(topicsOf(w, root), args[0])
	}
	help.Args = func(_ *cobra.Command, args []string) error {
		found, rest, err := root.Find(args)
		if _, ok := asked(args); ok || err != nil || len(rest) == 0 {
			return err
		}
		if found != root {
			return unknownWord(found, rest[0])
		}
		near, _ := yamldoc.Near(rest[0], append(subcommands(root), names()...))
		return words.Wrong("refused.no-topic", words.Args{"word": words.Typed(rest[0]), "near": words.Typed(near), "names": withCommas(subcommands(root)), "topics": withCommas(names())})
	}
	ofCommands := help.Run
	help.Run = func(c *cobra.Command, args []string) {
		if topic, ok := asked(args); ok {
			_, _ = io.WriteString(c.OutOrStdout(), lookup.Text(topic, w.Language(), widthOf(w)))
			return
		}
		ofCommands(c, args)
	}
	complete := help.ValidArgsFunction
	help.ValidArgsFunction = func(c *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
		all, then := complete(c, args, begun)
		for _, t := range topicsOf(w, root) {
			if len(args) == 0 && strings.HasPrefix(t.Name, begun) {
				all = append(all, cobra.CompletionWithDesc(t.Name, w.Say(t.Title)))
			}
		}
		return all, then
	}
}

// usualWidth is that of a terminal of which nothing is known, or of a text that goes elsewhere.
const usualWidth = 80

func widthOf(w *world.World) int {
	if w.Screen != nil {
		if columns, _, ok := w.Screen(); ok {
			return columns
		}
	}
	return usualWidth
}

// writeTopics names all topics.
func writeTopics(w *world.World, out io.Writer, root *cobra.Command) {
	var names []string
	for _, t := range topicsOf(w, root) {
		names = append(names, t.Name)
	}
	fmt.Fprintf(out, "%s\n  %s", w.Say(words.T("look-up.topics", words.Args{"command": words.Quote(root.CommandPath())})), strings.Join(names, ", "))
}

// seeItsTopic names the topic that a command has to do with.
func seeItsTopic(w *world.World, out io.Writer, c *cobra.Command) {
	if topic := seeTopic[c.Name()]; topic != "" && c.HasParent() && !c.Parent().HasParent() {
		fmt.Fprintf(out, "\n\n%s", w.Say(words.T("look-up.see-topic", words.Args{"topic": words.Quote(topic)})))
	}
}

// commandParts are the commands, each with its flags, and those of every command last.
func commandParts(w *world.World, root *cobra.Command) (parts []lookup.Part) {
	var add func(c *cobra.Command)
	add = func(c *cobra.Command) {
		if !c.IsAvailableCommand() && c != root {
			return
		}
		p := lookup.Part{Heading: words.AsIs(strings.TrimSuffix(c.UseLine(), " [flags]")), Example: strings.ReplaceAll(strings.TrimPrefix(c.Example, "  "), "\n  ", "\n"), Columns: flagColumns()}
		for text := range strings.SplitSeq(cmp.Or(c.Long, c.Short), "\n\n") {
			p.Says = append(p.Says, words.AsIs(strings.Join(strings.Fields(text), " ")))
		}
		p.Rows = flagRows(w, c.NonInheritedFlags())
		parts = append(parts, p)
		for _, under := range inOrder(c) {
			add(under)
		}
	}
	add(root)
	return append(parts, lookup.Part{Heading: words.T("look-up.commands-shared"), Columns: flagColumns(), Rows: flagRows(w, root.PersistentFlags())})
}

// inOrder are the commands under one: below the program itself by what they are for, as its help lists them.
func inOrder(c *cobra.Command) []*cobra.Command {
	var order []string
	for _, t := range tasks {
		order = append(order, t.commands...)
	}
	all := slices.Clone(c.Commands())
	place := func(c *cobra.Command) uint { return uint(slices.Index(order, c.Name())) } // one that is nowhere comes last
	if !c.HasParent() {
		slices.SortStableFunc(all, func(a, b *cobra.Command) int { return cmp.Compare(place(a), place(b)) })
	}
	return all
}

func flagColumns() []words.Text { return words.Each("look-up", "flag", "default", "does") }

// flagRows are the rows of flags; --help, which every command has, is left out.
func flagRows(w *world.World, flags *pflag.FlagSet) (rows [][]lookup.Cell) {
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Name == "help" || f.Hidden {
			return
		}
		name, usage := pflag.UnquoteUsage(f)
		if name = "--" + f.Name + " " + name; f.Shorthand != "" {
			name = "-" + f.Shorthand + ", " + name
		}
		own := lookup.Cell{}
		if hasOwn(f) {
			own.Codes = []string{f.DefValue}
		}
		rows = append(rows, []lookup.Cell{{Codes: []string{strings.TrimSpace(name)}}, own, {Text: words.AsIs(usage)}})
	})
	return rows
}
