package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff/assets"
	"propsoff/assets/mouth"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/phrase"
)

// shared are the flags that work for every command that runs a practice: window, watch, run.
type shared struct {
	radio, craft, record string
	gestures             string
}

// execute runs one command line and gives the exit status.
func execute(ctx context.Context, args []string, w *world) int {
	w, closeDoors := w.withDoors(ctx)
	cmd := newRoot(w)
	cmd.SetArgs(forLibrary(args))
	cmd.SetErr(w.err)
	code, text := exitCode(cmd.ExecuteContext(ctx))
	if text != "" {
		fmt.Fprintln(w.err, strings.TrimRight(inLine(args, text), "\n"))
	}
	if err := closeDoors(); err != nil && code == exitDone { // what nobody could read was not done
		fmt.Fprintln(w.err, err)
		code = exitTrouble
	}
	return code
}

// forLibrary gives a line as the command library may have it. When a shell asks how a line could go on, the library itself prints what is
// wrong with it, past our mouth: so what steers is made visible first. Nothing that we offer holds such a character.
func forLibrary(args []string) []string {
	if len(args) == 0 || args[0] != cobra.ShellCompRequestCmd && args[0] != cobra.ShellCompNoDescRequestCmd {
		return args
	}
	shown := make([]string, len(args))
	for i, arg := range args {
		shown[i] = mouth.Printable(arg)
	}
	return shown
}

// inLine shows what steers in the arguments that an error names, their ends of lines too: those of the error itself are its layout.
func inLine(args []string, text string) string {
	for _, arg := range args {
		_, value, _ := strings.Cut(arg, "=")
		for _, said := range []string{arg, value} {
			if strings.ContainsAny(said, "\n\t") {
				text = strings.ReplaceAll(text, said, mouth.Printable(said))
			}
		}
	}
	return text
}

func newRoot(w *world) *cobra.Command {
	flags, win := new(shared), new(windowFlags)
	root := &cobra.Command{
		Use:   "propsoff",
		Short: "Rehearse arming, modes and link loss with your own radio, no craft in the room",
		Long: "propsoff reads your radio by USB, shows what a craft would do with it, and says why arming is refused.\n" +
			"Without a command it opens its window.\n\n" +
			"Ctrl-C, SIGTERM or a hang-up ends any command cleanly; a second one ends it at once, with status 128 plus the signal's number.\n\n" + phrase.Cautions()[0],
		Version:       version,
		Args:          noArguments,
		SilenceErrors: true,
		SilenceUsage:  true,
		PersistentPreRunE: func(cmd *cobra.Command, _ []string) (err error) {
			cmd.Flags().Visit(func(f *pflag.Flag) { // an empty variable of a shell must not leave out what was asked for
				if name, _ := pflag.UnquoteUsage(f); f.Value.Type() == "string" && f.Value.String() == "" {
					err = fmt.Errorf("--%s: nothing is given; write a %s, or leave it out", f.Name, name)
				}
			})
			return err
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runWindow(cmd.Context(), w, flags, win)
		},
	}
	watch, run, fly := newWatch(w, flags), newRun(w, flags), newFly(w, flags)
	for _, cmd := range []*cobra.Command{root, watch, run, fly} { // the commands that run a practice
		flags.add(cmd)
	}
	win.add(root)
	root.SetFlagErrorFunc(flagError)
	root.SuggestionsMinimumDistance = 2
	root.AddCommand(newRadios(w), newLearn(w), newCheck(w), watch, run, newProve(w), newCard(w, time.Now), fly, newGestures(w), newDrill(w), newLogbook(w, time.Now), newLinkLoss(w), newRepair(w), newVersion(w))
	root.SetOut(w.out) // the completion command keeps the output that it finds when it is made
	refuseUnknownTopics(root)
	return root
}

// refuseUnknownTopics has the library's own commands, help and completion, refuse a word that they do not know. By themselves
// they print a help text and end as if all were well.
func refuseUnknownTopics(root *cobra.Command) {
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		switch c.Name() {
		case "help":
			c.Args = func(_ *cobra.Command, args []string) error {
				found, rest, err := root.Find(args)
				if err != nil || len(rest) == 0 {
					return err
				}
				return unknownWord(found, rest[0])
			}
		case "completion":
			c.Args = func(c *cobra.Command, args []string) error {
				if len(args) == 0 {
					return nil
				}
				return unknownWord(c, args[0])
			}
			c.RunE = func(c *cobra.Command, _ []string) error { return c.Help() } // what cannot run never sees its arguments
		}
	}
}

// unknownWord refuses a word that names no command under cmd.
func unknownWord(cmd *cobra.Command, word string) error {
	names := subcommands(cmd)
	switch near, ok := yamldoc.Near(word, names); {
	case !cmd.HasParent():
		return noArguments(cmd, []string{word})
	case len(names) == 0:
		return fmt.Errorf("%q has no commands under it, but got %q", cmd.CommandPath(), word)
	case ok:
		return fmt.Errorf("%q does not know %q: did you mean %q? It knows %s", cmd.CommandPath(), word, near, strings.Join(names, ", "))
	}
	return fmt.Errorf("%q does not know %q; it knows %s", cmd.CommandPath(), word, strings.Join(names, ", "))
}

func subcommands(cmd *cobra.Command) []string {
	var names []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return names
}

// add registers the flags of a command that runs a practice.
func (flags *shared) add(cmd *cobra.Command) {
	p := cmd.Flags()
	p.StringVar(&flags.radio, "radio", "", "radio `FILE` that says which axis or button is what")
	p.StringVar(&flags.craft, "craft", "", "craft `FILE`, or a shipped craft: "+strings.Join(crafts(), ", "))
	p.StringVar(&flags.gestures, "gestures", "", "gesture `FILE`: the two-stick gestures and the menus that they open")
	p.StringVar(&flags.record, "record", "", "record the practice into a new take, `FILE`")
	_ = cmd.RegisterFlagCompletionFunc("craft", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return crafts(), cobra.ShellCompDirectiveDefault
	})
}

// crafts are the names that --craft knows besides files.
func crafts() []string { return append([]string{assets.BuiltIn}, assets.Crafts()...) }

// noArguments refuses words after a command that takes none, and suggests what may have been meant.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if cmd.HasParent() {
		return fmt.Errorf("%q takes no arguments, but got %q; see \"%s --help\"", cmd.CommandPath(), args[0], cmd.CommandPath())
	}
	names := subcommands(cmd)
	if near, ok := yamldoc.Near(args[0], names); ok {
		return fmt.Errorf("there is no command %q: did you mean %q? Commands: %s", args[0], near, strings.Join(names, ", "))
	}
	if strings.ContainsAny(args[0], "./\\") {
		return fmt.Errorf("there is no command %q; to run a script or a take: propsoff run %s", args[0], args[0])
	}
	return fmt.Errorf("there is no command %q; commands: %s", args[0], strings.Join(names, ", "))
}

// flagError adds the flag that was probably meant, and says in plain words what a flag takes.
func flagError(cmd *cobra.Command, err error) error {
	text := err.Error()
	var bad *pflag.InvalidValueError
	if errors.As(err, &bad) {
		switch name, value := bad.GetFlag().Name, bad.GetValue(); bad.GetFlag().Value.Type() {
		case pupilType:
			return fmt.Errorf("--%s: %w", name, bad.Unwrap())
		case "duration":
			such := "10s"
			if usual := bad.GetFlag().DefValue; usual != "0s" {
				such = usual
			}
			return fmt.Errorf("--%s %s: write a time with its unit, such as %s", name, value, such)
		case "uint16":
			return fmt.Errorf("--%s %s: write a whole number, 0 to 65535", name, value)
		case "uint64":
			return fmt.Errorf("--%s %s: write a whole number, not below 0", name, value)
		case "float64":
			return fmt.Errorf("--%s %s: write a number", name, value)
		case "bool":
			return fmt.Errorf("--%s=%s: write --%s alone, or leave it out", name, value, name)
		}
	}
	name, ok := strings.CutPrefix(text, "unknown flag: --")
	if !ok {
		return fmt.Errorf("%s; see \"%s --help\"", text, cmd.CommandPath())
	}
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	if near, ok := yamldoc.Near(name, names); ok {
		return fmt.Errorf("there is no flag --%s: did you mean --%s? See \"%s --help\"", name, near, cmd.CommandPath())
	}
	return fmt.Errorf("there is no flag --%s; see \"%s --help\"", name, cmd.CommandPath())
}
