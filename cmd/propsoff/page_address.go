package main

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/world"
)

// address is what the page's own address asks for, as far as it can be had.
type address struct {
	named world.Named
	flags windowFlags
	// unused are the names of what it asks for that cannot be had, why says so of each: the page begins without it.
	unused []string
	why    []words.Text
}

// readAddress reads what an address asks for: each name behind two dashes, with its value behind "=".
func readAddress(w *world.World, args []string) *address {
	a, had := new(address), []string(nil)
	a.flags.asked = func(name string) bool { return slices.Contains(had, name) }
	for _, arg := range args {
		name, value, _ := strings.Cut(strings.TrimPrefix(arg, "--"), "=")
		if why := a.take(w, name, value); !why.Empty() {
			a.unused = append(a.unused, name)
			a.why = append(a.why, words.T("address.unused", words.Args{"name": words.Typed(name), "value": words.Typed(value), "why": why}))
			continue
		}
		had = append(had, name)
	}
	return a
}

// take takes one thing that an address asks for, or says why it cannot be had.
func (a *address) take(w *world.World, name, value string) (why words.Text) {
	switch name {
	case "language":
		if speak(&w.Book, value) != nil {
			return canBe(languages())
		}
	case "sheet":
		if ink.ThemeNamed(value) == nil {
			return canBe(sheetNames())
		}
		a.flags.theme = value
	case "open":
		if !slices.Contains(house.Openable(), value) {
			return canBe(house.Openable())
		}
		a.flags.open = value
	case "craft":
		switch _, err := w.LoadCraft(value, ""); {
		case errors.Is(err, fs.ErrNotExist):
			return words.T("address.no-craft")
		case err != nil:
			return words.T("address.wrong-craft", words.Args{"why": words.Quote(w.Error(err))})
		}
		a.named.Craft = value
	case "pupil":
		pupil, err := logbook.Name(value)
		if err != nil {
			return words.T("address.no-name")
		}
		a.flags.pupil = pupil
	case "play":
		a.flags.play = value
	case "outside":
		a.flags.outside = true
	default:
		return words.T("address.unknown")
	}
	return words.Text{}
}

func canBe(all []string) words.Text {
	return words.T("address.one-of", words.Args{"words": withCommas(all)})
}
