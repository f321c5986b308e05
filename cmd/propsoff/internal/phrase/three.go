package phrase

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/layout"
)

// ThreeTitle heads the sheet of three crafts.
func ThreeTitle() string { return "One pair of sticks, three crafts" }

// ThreeWhat says what is to be seen.
func ThreeWhat() string {
	return "All three get the same sticks at the same time; each is held in its own mode. Bank one way, let the stick go, and compare."
}

// ThreeMode says in a few words what a mode does with a stick that is let go, and horizon with one that is held.
func ThreeMode(m layout.Mode, h facts.Horizon) string {
	switch m {
	case layout.Angle:
		return "levels itself when the stick is let go"
	case layout.Horizon:
		return "levels itself; held beyond " + strconv.Itoa(int(math.Round(h.Over*100))) + " % it turns over"
	}
	return "keeps what it has when the stick is let go"
}
