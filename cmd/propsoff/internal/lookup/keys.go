package lookup

import (
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/help"
	"propsoff.example/cmd/propsoff/internal/ui/house"
)

// keys are all keys of the window: those that several sheets have, by what they are for, then each sheet's own.
func keys() []Part {
	columns := words.Each("look-up", "key", "does")
	all := []Part{{Says: words.Each("look-up", "keys-place", "keys-meaning", "keys-more")}}
	h := house.Sheets()
	acts := func(heading words.Text, keys []ui.Act, says ...words.Text) {
		p := Part{Heading: heading, Says: says, Columns: columns}
		for _, a := range keys {
			p.Rows = append(p.Rows, []Cell{keyCap(a.Physical), said(tell.KeyHelp(a.Action.Code(), languages()))})
		}
		all = append(all, p)
	}
	for _, g := range help.Shared(h) {
		acts(g.Heading, g.Acts)
	}
	pilot := Part{Heading: words.T("look-up.keys-pilot"), Says: words.Each("look-up", "keys-pilot-about"), Columns: columns}
	for _, k := range ui.LayoutKeys {
		pilot.Rows = append(pilot.Rows, []Cell{keyCap(k.Physical), said(words.Of("hand", k.Code))})
	}
	all = append(all, pilot)
	for _, s := range h.Sheets() {
		if len(s.Own) == 0 {
			continue
		}
		var opened []words.Text
		if s.Key != "" {
			opened = append(opened, words.T("look-up.opened-by", words.Args{"key": ui.Caps(nil).Word(s.Key), "sheet": words.Quote(s.Place)}))
		}
		acts(words.Of("look-up-sheet", string(s.Place)), s.Own, opened...)
	}
	return all
}

// keyCap is a key as the US layout prints it: which keyboard the reader has is not known here.
func keyCap(physical string) Cell { return said(ui.Caps(nil).Word(physical)) }

// languages are the names of those that the program speaks, each as it calls itself.
func languages() string {
	var names []string
	for _, tag := range words.Languages() {
		names = append(names, words.In(tag.String()).Name())
	}
	return strings.Join(names, ", ")
}
