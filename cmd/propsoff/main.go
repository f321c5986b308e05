// Command propsoff is a ground-school bench for pilots of small multirotors: it reads a real radio by USB and shows what a
// craft would do, without a craft, a battery or a propeller in the room.
//
// The package holds commands and wiring; what they do is in the packages below it.
package main

import (
	"context"
	"os"
)

func main() { os.Exit(start(os.Args[1:])) }

func start(args []string) int {
	w := realWorld()
	defer w.console.Restore()
	ctx, interrupt := listenForSignals(context.Background(), w.console, os.Exit)
	w.interrupt = interrupt
	tidy()
	return execute(ctx, args, w)
}
