package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

// speakForLibrary has all that the command library says by itself said as a message: help texts, the flags and commands that it adds, and
// what its own commands refuse. By themselves they print a help text and end as if all were well.
func speakForLibrary(w *world.World, root *cobra.Command) {
	root.SetUsageFunc(func(c *cobra.Command) error {
		writeUsage(w, c.OutOrStderr(), c)
		return nil
	})
	root.SetVersionTemplate(w.Say(words.T("usage.version", words.Args{"command": words.Quote(root.Name()), "version": words.Quote(root.Version)})) + "\n")
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		switch c.Name() {
		case "help":
			c.Short, c.Long = w.Say(words.T("usage.help")), w.Say(words.T("usage.help-about"))
			helpWithTopics(w, root, c)
		case "completion":
			c.Short, c.Long = w.Say(words.T("usage.completion")), w.Say(words.T("usage.completion-about"))
			c.Args = commandsOnly
			c.RunE = func(c *cobra.Command, _ []string) error { return c.Help() } // what cannot run never sees its arguments
			for _, shell := range c.Commands() {
				speakForShell(w, shell)
			}
		}
	}
	speakOfFlags(w, root)
	groupCommands(w, root)
	completions(w, root)
}

// shells are what the script of each shell needs, and how it is taken up: now, and in every new shell. The places are those that the command
// library names.
var shells = map[string]struct{ needs, now, ever words.Quote }{
	"bash":       {"bash-completion", "source <(propsoff completion bash)", "propsoff completion bash > /etc/bash_completion.d/propsoff"},
	"fish":       {"", "propsoff completion fish | source", "propsoff completion fish > ~/.config/fish/completions/propsoff.fish"},
	"powershell": {"", "propsoff completion powershell | Out-String | Invoke-Expression", "propsoff completion powershell >> $PROFILE"},
	"zsh":        {"compinit", "source <(propsoff completion zsh)", "propsoff completion zsh > \"${fpath[1]}/_propsoff\""},
}

func speakForShell(w *world.World, c *cobra.Command) {
	shell, how := words.Quote(c.Name()), shells[c.Name()]
	c.Short = w.Say(words.T("usage.completion-shell", words.Args{"shell": shell}))
	c.Long = w.Say(words.T("usage.completion-shell-about", words.Args{"shell": shell, "needs": how.needs, "now": how.now, "ever": how.ever}))
	c.Args = noArguments
	c.Flags().Lookup("no-descriptions").Usage = w.Say(words.T("usage.no-descriptions"))
}

// speakOfFlags words --help and --version of a command and of those under it.
func speakOfFlags(w *world.World, c *cobra.Command) {
	of := words.Args{"command": words.Quote(c.DisplayName())}
	c.InitDefaultHelpFlag()
	c.Flags().Lookup("help").Usage = w.Say(words.T("usage.help-flag", of))
	c.InitDefaultVersionFlag()
	if f := c.Flags().Lookup("version"); f != nil {
		f.Usage = w.Say(words.T("usage.version-flag", of))
	}
	for _, under := range c.Commands() {
		speakOfFlags(w, under)
	}
}

// writeUsage writes how a command is called, which commands are under it, and its flags. The program itself is asked by whoever is new to it: what can be done
// with it stands first.
func writeUsage(w *world.World, out io.Writer, c *cobra.Command) {
	if !c.HasParent() {
		writeCommands(w, out, c)
		fmt.Fprintf(out, "\n\n%s\n\n", w.Say(words.T("usage.more", words.Args{"command": words.Quote(c.CommandPath())})))
		writeTopics(w, out, c)
		fmt.Fprint(out, "\n\n")
	}
	fmt.Fprint(out, w.Say(words.T("usage.usage")))
	if c.Runnable() {
		fmt.Fprintf(out, "\n  %s", strings.Replace(c.UseLine(), "[flags]", w.Say(words.T("usage.any-flags")), 1))
	}
	if c.HasAvailableSubCommands() {
		fmt.Fprintf(out, "\n  %s %s", c.CommandPath(), w.Say(words.T("usage.any-command")))
		if c.HasParent() {
			fmt.Fprint(out, "\n\n")
			writeCommands(w, out, c)
		}
	}
	if c.HasExample() {
		fmt.Fprintf(out, "\n\n%s\n%s", w.Say(words.T("usage.examples")), c.Example)
	}
	if c.HasAvailableLocalFlags() {
		fmt.Fprintf(out, "\n\n%s\n%s", w.Say(words.T("usage.flags")), flagUsages(w, c.LocalFlags()))
	}
	if c.HasAvailableInheritedFlags() {
		fmt.Fprintf(out, "\n\n%s\n%s", w.Say(words.T("usage.global-flags")), flagUsages(w, c.InheritedFlags()))
	}
	if c.HasAvailableSubCommands() && c.HasParent() {
		fmt.Fprintf(out, "\n\n%s", w.Say(words.T("usage.more", words.Args{"command": words.Quote(c.CommandPath())})))
	}
	seeItsTopic(w, out, c)
	fmt.Fprintln(out)
}

// writeCommands lists the commands under one: by what they are for, in the order of tasks, where they have that.
func writeCommands(w *world.World, out io.Writer, c *cobra.Command) {
	list := func(title string, under []*cobra.Command) {
		fmt.Fprint(out, title)
		for _, u := range under {
			fmt.Fprintf(out, "\n  %-*s %s", u.NamePadding(), u.Name(), u.Short)
		}
	}
	all := slices.DeleteFunc(slices.Clone(c.Commands()), func(u *cobra.Command) bool { return !u.IsAvailableCommand() && u.Name() != "help" })
	if len(c.Groups()) == 0 {
		list(w.Say(words.T("usage.commands")), all)
		return
	}
	for i, g := range c.Groups() {
		if i > 0 {
			fmt.Fprint(out, "\n\n")
		}
		of := slices.DeleteFunc(slices.Clone(all), func(u *cobra.Command) bool { return u.GroupID != g.ID })
		order := tasks[i].commands
		place := func(u *cobra.Command) int {
			if at := slices.Index(order, u.Name()); at >= 0 {
				return at
			}
			return len(order)
		}
		slices.SortStableFunc(of, func(a, b *cobra.Command) int { return place(a) - place(b) })
		list(g.Title, of)
	}
}

// flagUsages are the lines of flags. The library would write what a flag has by itself behind its text, in English: we write it there.
func flagUsages(w *world.World, all *pflag.FlagSet) string {
	said := pflag.NewFlagSet("", pflag.ContinueOnError)
	all.VisitAll(func(f *pflag.Flag) {
		if own := f.DefValue; hasOwn(f) {
			if f.Value.Type() == "string" {
				own = fmt.Sprintf("%q", own)
			}
			f = &pflag.Flag{Name: f.Name, Shorthand: f.Shorthand, Value: f.Value, NoOptDefVal: f.NoOptDefVal, Usage: f.Usage + " " + w.Say(words.T("usage.default", words.Args{"value": words.Quote(own)}))}
			f.Value = unsaid{f.Value}
		}
		said.AddFlag(f)
	})
	return strings.TrimRight(said.FlagUsages(), " \n")
}

// hasOwn reports whether a flag has something by itself that says anything.
func hasOwn(f *pflag.Flag) bool {
	return !slices.Contains([]string{"", "false", "0", "0s", "[]"}, f.DefValue)
}

// unsaid is a value of which the library does not know what it is by itself.
type unsaid struct{ pflag.Value }
