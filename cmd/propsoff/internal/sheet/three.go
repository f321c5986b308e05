package sheet

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/layout"
)

// ThreeView is what the sheet of three crafts side by side may know: they fly the same sticks at once, one in each mode. The
// sticks, armed or not, and the pace are those of View.Snap and View.Flight.
type ThreeView struct {
	Crafts [layout.Modes]ThreeCraft
	// Horizon is what a held stick does in horizon.
	Horizon facts.Horizon
}

// ThreeCraft is one of them.
type ThreeCraft struct {
	// Mode is the mode that it is held in; Snap.Mode may say otherwise.
	Mode layout.Mode
	Snap sim.Snapshot
	// Trail as in FlightView.
	Trail []TrailPoint
}
