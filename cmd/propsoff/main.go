//go:build !js

// Command propsoff is a ground-school bench for pilots of small multirotors: it reads a real radio by USB and shows what a
// craft would do, without a craft, a battery or a propeller in the room.
//
// The package holds commands and wiring; what they do is in the packages below it.
package main

import (
	"context"
	"os"

	"github.com/spf13/cobra"

	"propsoff.example/assets/tidylater"
	"propsoff.example/cmd/propsoff/internal/world"
)

func main() { os.Exit(start(os.Args[1:])) }

func start(args []string) int {
	tidylater.Begin()
	cobra.MousetrapHelpText = "" // on Windows a window may be opened by a click
	w := world.Real()
	w.OpenPage = inBrowser
	defer w.Console.Restore()
	ctx, interrupt := listenForSignals(context.Background(), w.Console, os.Exit)
	w.Interrupt = interrupt
	world.Tidy()
	return execute(ctx, args, w)
}
