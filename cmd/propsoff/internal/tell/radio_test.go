package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/handset"
)

// What was measured of a radio, and by what it is known.
func TestHowMuchOfARadioIsKnown(t *testing.T) {
	whole := handset.Radio{Name: "Moorland Desk 7", StickMode: 3, Measured: true, Controls: []handset.Control{{Job: "roll"}, {Job: "arm", Kind: handset.Switch}}}
	partly := whole
	partly.Controls = []handset.Control{{Job: "roll", Assumed: true}, {Job: "arm", Kind: handset.Switch, Called: "left", Assumed: true}}
	nothing := partly
	nothing.Measured, nothing.Name = false, ""
	for _, c := range []struct {
		r                      *handset.Radio
		by                     facts.By
		searched, layout, card string
	}{
		{&whole, facts.NoneGiven, "Craft T, with an ideal radio, because none was given: full travel, and three positions on every switch. A radio file proves your own.",
			"What each switch does: craft T with an ideal radio: no radio file is in use, so nothing here was measured.",
			"Stick mode 3. Values in µs. Ideal radio: no radio file is in use, so full travel and three positions on every switch are taken for granted."},
		{&whole, facts.NoneDrives, "Craft T, with an ideal radio, because no radio drives: full travel, and three positions on every switch. Your own is searched once it drives.",
			"What each switch does: craft T with an ideal radio: no radio file is in use, so nothing here was measured.",
			"Stick mode 3. Values in µs. Ideal radio: no radio file is in use, so full travel and three positions on every switch are taken for granted."},
		{&whole, facts.ItsFile, "Craft T, radio Moorland Desk 7, as it was measured.", "What each switch does: craft T with Moorland Desk 7.", "Stick mode 3. Values in µs as measured. Radio Moorland Desk 7."},
		{&partly, facts.GivenFile, "Craft T, radio Moorland Desk 7 (the file of --radio), as far as its file says: full travel is assumed for roll and arm switch (left).",
			"What each switch does: craft T with Moorland Desk 7 (the file of --radio), as far as its file says: full travel is assumed for roll and arm switch (left).",
			"Stick mode 3. Values in µs as measured, but for roll and arm switch (left): full travel is taken for granted there. Radio Moorland Desk 7."},
		{&nothing, facts.ItsFile, "Craft T, a radio without a name, of which nothing was measured: full travel is taken for granted.",
			"What each switch does: craft T with a radio without a name, of which nothing was measured: full travel is taken for granted.",
			"Stick mode 3. Values in µs. Nothing was measured: full travel is taken for granted. A radio without a name."},
	} {
		assert.Equal(t, c.searched, spoken(Searched("T", c.r, c.by)))
		assert.Equal(t, c.layout, spoken(LayoutOf("T", c.r, c.by)))
		assert.Equal(t, c.card, spoken(CardRadio(c.r, !c.by.Ideal())))
	}
	assert.Empty(t, spoken(CardOf(facts.ItsFile)))
	assert.NotEqual(t, spoken(CardOf(facts.GivenFile)), spoken(CardOf(facts.NoneDrives)))
}
