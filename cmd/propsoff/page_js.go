package main

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"

	"propsoff.example/assets/tidylater"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/world"
)

// In a browser's page there is the window alone: no terminal, no commands, and so no command library, which would be a tenth of what has to come over the network.

func main() {
	tidylater.Begin()
	w := world.Real()
	w, closeDoors := w.WithDoors(context.Background())
	err := openPage(context.Background(), w, os.Args[1:])
	_ = closeDoors()
	code, err := exit.Code(err)
	if err != nil {
		fmt.Fprintln(os.Stderr, w.Error(err))
	}
	os.Exit(code)
}

// openPage opens the window as the page's own script asks: flags as a command line has them, each with its value behind "=".
func openPage(ctx context.Context, w *world.World, args []string) (err error) {
	w.Book = w.SystemLanguage()
	named, f, given := new(world.Named), &windowFlags{}, []string(nil)
	f.asked = func(flag string) bool { return slices.Contains(given, flag) }
	for _, arg := range args {
		flag, value, _ := strings.Cut(strings.TrimPrefix(arg, "--"), "=")
		given = append(given, flag)
		switch flag {
		case "language":
			err = speak(&w.Book, value)
		case "sheet":
			f.theme = value
		case "open":
			f.open = value
		case "play":
			f.play = value
		case "craft":
			named.Craft = value
		case "radio":
			named.Radio = value
		case "gestures":
			named.Gestures = value
		case "pupil":
			f.pupil, err = logbook.Name(value)
		case "outside":
			f.outside = true
		default:
			err = words.Wrong("refused.no-flag", words.Args{"flag": words.Typed(arg), "near": words.Quote(""), "command": words.Quote("propsoff")})
		}
		if err != nil {
			return exit.BadInput(err)
		}
	}
	return runWindow(ctx, w, named, f)
}
