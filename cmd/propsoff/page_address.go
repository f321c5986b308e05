package main

import (
	"errors"
	"io/fs"
	"path/filepath"
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
			a.without(name, value, why)
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

// without notes one thing that the page begins without.
func (a *address) without(name, value string, why words.Text) {
	a.unused = append(a.unused, name)
	a.why = append(a.why, words.T("address.unused", words.Args{"name": words.Typed(name), "value": words.Typed(value), "why": why}))
}

// options are those of the window. In a page nobody could name another file: so it begins without what cannot be played, and with the gestures that ship
// where its own cannot be read.
func (a *address) options(w *world.World) (o windowOptions, err error) {
	o, err = a.flags.options(w, &a.named)
	if err != nil && a.flags.play != "" {
		why := words.T("address.wrong-take", words.Args{"why": words.Quote(inThePage(w, err))})
		if errors.Is(err, fs.ErrNotExist) {
			why = words.T("address.no-take")
		}
		a.without("play", filepath.Base(a.flags.play), why)
		if a.flags.play = ""; o.plan != nil {
			o.plan.Close()
		}
		o, err = a.flags.options(w, &a.named)
	}
	if err != nil {
		with := a.named
		with.Gestures = world.ShippedGestures
		if shipped, wrong := a.flags.options(w, &with); wrong == nil {
			a.unused, a.why = append(a.unused, ""), append(a.why, words.T("address.wrong-gestures", words.Args{"why": words.Quote(inThePage(w, err))}))
			return shipped, nil
		}
	}
	return o, err
}

// inThePage is what an error says where there are no folders that a person could look into.
func inThePage(w *world.World, err error) string {
	said := w.Error(err)
	for _, dir := range []string{world.TakesFolder(), filepath.Dir(world.OwnGestures())} {
		if len(dir) > 1 {
			said = strings.ReplaceAll(said, dir+string(filepath.Separator), "")
		}
	}
	return said
}

func canBe(all []string) words.Text {
	return words.T("address.one-of", words.Args{"words": withCommas(all)})
}
