package tell

import (
	"math"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/layout"
)

// ThreeTitle heads the sheet of three crafts, ThreeWhat says what is to be seen.
func ThreeTitle() words.Text { return words.T("three.title") }
func ThreeWhat() words.Text  { return words.T("three.what") }

// ThreeMode says in a few words what a mode does with a stick that is let go, and horizon with one that is held.
func ThreeMode(m layout.Mode, h facts.Horizon) words.Text {
	return words.Of("three", m.Code(), words.Args{"over": Percent(int(math.Round(h.Over * 100)))})
}
