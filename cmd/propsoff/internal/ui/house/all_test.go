package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/cmd/propsoff/internal/ui"
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
	assert.NotPanics(t, func() { ui.NewHouse(own("one", "A", "lift"), own("other", "B", "drop")) })
	for said, sheets := range map[string][]*ui.About{
		`the code word "lift" is of two: of one and of other`:  {own("one", "A", "lift"), own("other", "B", "lift")},
		`the code word "one" is of two: of one and of other`:   {own("one", "A"), own("other", "B", "one")},
		`the code word "help" is of two: of shared and of one`: {own("one", "A", ui.ShowHelp)},
		`two sheets have the place "one"`:                      {own("one", ""), own("one", "")},
	} {
		assert.PanicsWithValue(t, said, func() { ui.NewHouse(sheets...) })
	}
}
