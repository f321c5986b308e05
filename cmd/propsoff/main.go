// Command propsoff is a ground-school bench for pilots of small multirotors: it reads a real radio by USB and shows what a
// craft would do, without a craft, a battery or a propeller in the room.
//
// The package holds commands and wiring; what they do is in the packages below it.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	tidy()
	code := execute(ctx, os.Args[1:], realWorld())
	stop()
	os.Exit(code)
}
