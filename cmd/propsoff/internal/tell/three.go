package tell

import (
	"math"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/layout"
)

// ThreeMode says in a few words what a mode does with a stick that is let go, and horizon with one that is held.
func ThreeMode(m layout.Mode, h facts.Horizon) words.Text {
	return words.Of("three", m.Code(), words.Args{"over": Percent(int(math.Round(h.Over * 100)))})
}
