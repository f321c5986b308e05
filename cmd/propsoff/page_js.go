package main

import (
	"context"
	"fmt"
	"os"

	"propsoff.example/assets/tidylater"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/pageside"
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

// openPage opens the window as the page's own address asks, and begins without what cannot be had of it or of what is kept.
func openPage(ctx context.Context, w *world.World, args []string) error {
	w.Book = w.SystemLanguage()
	a := readAddress(w, args)
	o, wrong := a.options(w)
	for i, why := range a.why {
		pageside.Unused(a.unused[i], w.Say(why))
	}
	return beginWindow(ctx, o, wrong)
}
