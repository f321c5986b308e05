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
			p.Rows = append(p.Rows, []Cell{keyCap(a.Physical), said(does(a.Action))})
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
		var says []words.Text
		if s.Key != "" {
			says = append(says, words.T("look-up.opened-by", words.Args{"key": ui.Caps(nil).Word(s.Key), "sheet": words.Quote(s.Place)}))
		}
		if s.ByDoor {
			says = append(says, words.T("look-up.by-door", words.Args{"sheet": words.Quote(s.Place)}))
		}
		if s.More != nil {
			says = append(says, words.T("look-up.keys-come"))
		}
		if len(s.Own) > 0 || len(says) > 0 {
			acts(words.T("look-up.sheet", words.Args{"title": words.Of("spoken-title", string(s.Place))}), s.Own, says...)
		}
	}
	return all
}

// does says what the key of an action does. Where help is spoken of from a sheet, it calls that this one.
func does(a ui.Action) words.Text {
	if a == ui.ShowHelp {
		return words.T("look-up.key-help")
	}
	return tell.KeyHelp(a.Code(), languages())
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
