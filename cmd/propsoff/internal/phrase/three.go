package phrase

import "propsoff/sim/layout"

// ThreeTitle heads the sheet of three crafts.
func ThreeTitle() string { return "One pair of sticks, three crafts" }

// ThreeWhat says what is to be seen.
func ThreeWhat() string {
	return "All three get the same sticks at the same time; each is held in its own mode. Bank one way, let the stick go, and compare."
}

// ThreeMode says in a few words what a mode does with a stick that is let go.
func ThreeMode(m layout.Mode) string {
	switch m {
	case layout.Angle:
		return "levels itself when the stick is let go"
	case layout.Horizon:
		return "levels itself, yet turns over at full stick"
	}
	return "keeps what it has when the stick is let go"
}
