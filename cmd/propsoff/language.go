package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

// speak takes the name of a language that the program speaks.
func speak(book **words.Book, name string) error {
	spoken, ok := words.Speaks(name)
	if !ok {
		return words.Wrong("refused.language", words.Args{"value": words.Typed(name), "languages": words.Or(words.AsAre(languages()...)...)})
	}
	*book = spoken
	return nil
}

// languages are the codes of those that the program speaks.
func languages() (codes []string) {
	for _, tag := range words.Languages() {
		base, _ := tag.Base()
		codes = append(codes, base.String())
	}
	return codes
}

// languageFlag registers --language for every command.
func languageFlag(w *world.World, root *cobra.Command) {
	usage := w.Say(words.T("flag.language", words.Args{"languages": withCommas(languages())}))
	root.PersistentFlags().Func("language", usage, func(name string) error { return speak(&w.Book, name) })
	_ = root.RegisterFlagCompletionFunc("language", cobra.FixedCompletions(languages(), cobra.ShellCompDirectiveNoFileComp))
}

// spoken is the language that a line asks for, else the system's. It is looked for before there is a command that could read the line: what
// the commands and flags are for is written when they are made. Whether the flag stands where it may, and says what it may, is found then.
func spoken(args []string, system *words.Book) *words.Book {
	const flag = "--language"
	if i := slices.Index(args, "--"); i >= 0 {
		args = args[:i]
	}
	for i, arg := range args {
		name, ok := strings.CutPrefix(arg, flag+"=")
		if arg == flag && i+1 < len(args) {
			name, ok = args[i+1], true
		}
		if ok {
			_ = speak(&system, name)
		}
	}
	return system
}
