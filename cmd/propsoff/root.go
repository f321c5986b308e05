package main

import (
	"context"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
)

// execute runs one command line and gives the exit status.
func execute(ctx context.Context, args []string, w *world.World) int {
	w, closeDoors := w.WithDoors(ctx)
	w.Book = spoken(args, w.SystemLanguage())
	cmd := rootFor(w, args)
	cmd.SetArgs(forLibrary(args))
	cmd.SetErr(w.Err)
	code, err := exit.Code(cmd.ExecuteContext(ctx))
	if err != nil {
		fmt.Fprintln(w.Err, strings.TrimRight(inLine(args, w.Error(err)), "\n"))
	}
	if err := closeDoors(); err != nil && code == exit.CodeDone { // what nobody could read was not done
		fmt.Fprintln(w.Err, w.Error(err))
		code = exit.CodeTrouble
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

func newRoot(w *world.World) *cobra.Command {
	flags, win := new(world.Named), new(windowFlags)
	root := newCommand(w, "propsoff", words.T("command.root"), words.T("command.root-about", caution()))
	root.Version, root.SilenceErrors, root.SilenceUsage = world.Version, true, true
	root.PersistentPreRunE = func(cmd *cobra.Command, _ []string) (err error) {
		cmd.Flags().Visit(func(f *pflag.Flag) { // an empty variable of a shell must not leave out what was asked for
			if name, _ := pflag.UnquoteUsage(f); f.Value.Type() == "string" && f.Value.String() == "" {
				err = words.Wrong("refused.nothing-given", words.Args{"flag": words.Quote(f.Name), "name": words.Quote(name)})
			}
		})
		return err
	}
	root.RunE = func(cmd *cobra.Command, _ []string) error { return runWindow(cmd.Context(), w, flags, win) }
	languageFlag(w, root)
	watch, run, fly := newWatch(w, flags), newRun(w, flags), newFly(w, flags)
	for _, cmd := range []*cobra.Command{root, watch, run, fly} { // the commands that run a practice
		addNamed(w, cmd, flags)
	}
	win.add(w, root)
	root.SetFlagErrorFunc(flagError)
	root.SuggestionsMinimumDistance = 2
	root.AddCommand(newRadios(w), newLearn(w), newCheck(w), watch, run, newProve(w), newCard(w, time.Now), fly, newGestures(w), newDrill(w), newLogbook(w, time.Now), newLinkLoss(w), newRepair(w), newVersion(w), newLicences(w))
	root.AddCommand(outside(w)...)
	root.SetOut(w.Out) // the completion command keeps the output that it finds when it is made
	speakForLibrary(w, root)
	return root
}

// newCommand makes a command that takes no arguments unless its Args are set. use is its name and what may follow it; short stands in the list of
// commands, long, which may be empty, in its own help.
func newCommand(w *world.World, use string, short, long words.Text) *cobra.Command {
	return &cobra.Command{Use: use, Short: w.Say(short), Long: w.Say(long), Args: noArguments}
}

// caution is the value of the help texts of commands that read a radio.
func caution() words.Args { return words.Args{"caution": tell.Cautions()[0]} }

// withCommas are names or code words with commas between them.
func withCommas(names []string) words.Quote { return words.Quote(strings.Join(names, ", ")) }

// ofCommand are the values of a refusal by a command.
func ofCommand(cmd *cobra.Command, word string) words.Args {
	return words.Args{"command": words.Quote(cmd.CommandPath()), "word": words.Typed(word)}
}

// commandsOnly refuses a word after a command that is followed by commands of its own.
func commandsOnly(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return unknownWord(cmd, args[0])
}

// unknownWord refuses a word that names no command under cmd.
func unknownWord(cmd *cobra.Command, word string) error {
	names := subcommands(cmd)
	switch {
	case !cmd.HasParent():
		return noArguments(cmd, []string{word})
	case len(names) == 0:
		return words.Wrong("refused.no-commands-under", ofCommand(cmd, word))
	}
	near, _ := yamldoc.Near(word, names)
	return words.Wrong("refused.not-under", words.Args{"command": words.Quote(cmd.CommandPath()), "word": words.Typed(word), "near": words.Typed(near), "names": withCommas(names)})
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

// addNamed registers the flags of a command that runs a practice.
func addNamed(w *world.World, cmd *cobra.Command, flags *world.Named) {
	p := cmd.Flags()
	radioFlag(w, cmd, &flags.Radio)
	craftFlag(cmd, &flags.Craft, flownCraft(w))
	p.StringVar(&flags.Gestures, "gestures", "", w.Say(words.T("flag.gestures")))
	p.StringVar(&flags.Record, "record", "", w.Say(words.T("flag.record")))
}

// flownCraft says what --craft is for where the craft is flown: which ones there are.
func flownCraft(w *world.World) string {
	return w.Say(words.T("flag.craft", words.Args{"crafts": withCommas(world.Crafts())}))
}

// craftFlag registers --craft.
func craftFlag(cmd *cobra.Command, craft *string, usage string) {
	cmd.Flags().StringVar(craft, "craft", "", usage)
	_ = cmd.RegisterFlagCompletionFunc("craft", cobra.FixedCompletions(world.Crafts(), cobra.ShellCompDirectiveDefault))
}

// deviceFlag registers --device of a command that reads a radio, radioFlag its --radio, and jsonFlag --json of one that writes lines.
func deviceFlag(w *world.World, cmd *cobra.Command, device *string) {
	cmd.Flags().StringVar(device, "device", "", w.Say(words.T("flag.device")))
}

func radioFlag(w *world.World, cmd *cobra.Command, radio *string) {
	cmd.Flags().StringVar(radio, "radio", "", w.Say(words.T("flag.radio")))
}

func jsonFlag(w *world.World, cmd *cobra.Command, json *bool) {
	cmd.Flags().BoolVar(json, "json", false, w.Say(words.T("flag.json")))
}

// plainFlag registers --plain of a command that tells what goes on; the wish that it gives is for when the command runs.
func plainFlag(w *world.World, cmd *cobra.Command) func() termlive.Plain {
	on := cmd.Flags().Bool("plain", false, w.Say(words.T("flag.plain")))
	return func() termlive.Plain {
		switch {
		case *on:
			return termlive.PlainAlways
		case cmd.Flags().Changed("plain"):
			return termlive.PlainNever
		}
		return termlive.PlainIfFit
	}
}

// stickModes completes --stick-mode.
func stickModes(cmd *cobra.Command) {
	_ = cmd.RegisterFlagCompletionFunc("stick-mode", cobra.FixedCompletions([]string{"1", "2", "3", "4"}, cobra.ShellCompDirectiveNoFileComp))
}

// pupilFlag has a flag take the name of a pupil: what is no name is refused in the same words by each command.
func pupilFlag(to *pflag.FlagSet, name *string, usage string) {
	to.Func("pupil", usage, func(text string) (err error) {
		*name, err = logbook.Name(text)
		return err
	})
}

// noArguments refuses words after a command that takes none, and suggests what may have been meant.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if cmd.HasParent() {
		return words.Wrong("refused.takes-none", ofCommand(cmd, args[0]))
	}
	names := subcommands(cmd)
	near, ok := yamldoc.Near(args[0], names)
	if !ok && strings.ContainsAny(args[0], "./\\") {
		return words.Wrong("refused.no-command-file", words.Args{"word": words.Typed(args[0]), "file": words.Quote(args[0])})
	}
	return words.Wrong("refused.no-command", words.Args{"word": words.Typed(args[0]), "near": words.Typed(near), "names": withCommas(names)})
}

// flagError adds the flag that was probably meant, and says in plain words what a flag takes.
func flagError(cmd *cobra.Command, err error) error {
	see := words.Quote(cmd.CommandPath())
	switch e := err.(type) {
	case *pflag.InvalidValueError:
		return badValue(e)
	case *pflag.ValueRequiredError:
		return words.Wrong("refused.no-value", words.Args{"flag": words.Quote(e.GetSpecifiedName()), "letters": words.Quote(e.GetSpecifiedShortnames()), "command": see})
	case *pflag.InvalidSyntaxError:
		return words.Wrong("refused.no-shape", words.Args{"flag": words.Quote(e.GetSpecifiedFlag()), "command": see})
	case *pflag.NotExistError:
		if letters := e.GetSpecifiedShortnames(); letters != "" {
			return words.Wrong("refused.no-letter", words.Args{"letter": words.Typed(e.GetSpecifiedName()), "letters": words.Quote(letters), "command": see})
		}
		var names []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		near, _ := yamldoc.Near(e.GetSpecifiedName(), names)
		return words.Wrong("refused.no-flag", words.Args{"flag": words.Quote(e.GetSpecifiedName()), "near": words.Quote(near), "command": see})
	}
	return err
}

// badValue says what a flag takes.
func badValue(e *pflag.InvalidValueError) error {
	f := e.GetFlag()
	given := words.Args{"flag": words.Quote(f.Name), "value": words.Quote(e.GetValue())}
	switch f.Value.Type() {
	case "duration":
		given["such"] = words.Quote("10s")
		if f.DefValue != "0s" {
			given["such"] = words.Quote(f.DefValue)
		}
		return words.Wrong("refused.time", given)
	case "uint16":
		given["most"] = words.Whole(math.MaxUint16)
		return words.Wrong("refused.whole-to", given)
	case "uint64":
		return words.Wrong("refused.whole", given)
	case "float64":
		return words.Wrong("refused.number", given)
	case "bool":
		return words.Wrong("refused.alone", given)
	case "int": // of stick modes alone
		return words.Wrong("refused.stick-mode", words.Args{"value": words.Quote(e.GetValue())})
	}
	return words.Within("--"+f.Name, e.Unwrap()) // a flag of our own says itself what it takes
}
