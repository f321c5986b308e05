package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/ui"
)

// Whoever gives an action or a place a code word that another has is told so at once, with both owners.
func TestACodeWordIsOfOneOwner(t *testing.T) {
	own := func(p ui.Place, key string, acts ...ui.Action) *ui.About {
		a := &ui.About{Place: p, Key: key}
		for _, act := range acts {
			a.Own = append(a.Own, ui.Act{Action: act})
		}
		return a
	}
	assert.NotPanics(t, func() { ui.NewHouse(own("one", "F13", "lift"), own("other", "F14", "drop")) })
	for said, sheets := range map[string][]*ui.About{
		`the code word "lift" is of two: of one and of other`:  {own("one", "F13", "lift"), own("other", "F14", "lift")},
		`the code word "one" is of two: of one and of other`:   {own("one", "F13"), own("other", "F14", "one")},
		`the code word "help" is of two: of shared and of one`: {own("one", "F13", ui.ShowHelp)},
		`two sheets have the place "one"`:                      {own("one", ""), own("one", "")},
	} {
		assert.PanicsWithValue(t, said, func() { ui.NewHouse(sheets...) })
	}
}

// A key that means something everywhere is nothing else on any sheet; whoever takes it is told so at once.
func TestAKeyHasOneMeaning(t *testing.T) {
	own := func(p ui.Place, opens, key string, flown bool) *ui.About {
		return &ui.About{Place: p, Key: opens, Flown: flown, Own: []ui.Act{{Action: ui.Action("do-" + p), Physical: key}}}
	}
	assert.NotPanics(t, func() {
		ui.NewHouse(own("one", "F13", "Enter", true), own("other", "F14", "Enter", false), own("third", "", "Up", false))
	})
	for _, sheets := range [][]*ui.About{
		{own("one", "", "L", false)},                                   // the radio
		{own("one", "", "W", false)},                                   // the pilot's throttle
		{own("one", "", "Up", true)},                                   // the pilot flies there
		{own("one", "F13", "", false), own("other", "", "F13", false)}, // it opens another
		{own("one", "F13", "", false), own("other", "F13", "", false)},
		{own("one", "L", "", false)},
		{own("one", "Q", "", false)},
	} {
		assert.Panics(t, func() { ui.NewHouse(sheets...) })
	}
}
