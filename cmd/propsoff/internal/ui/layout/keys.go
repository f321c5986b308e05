// Package layout is the sheet of the switch layout: what the craft does at each position of each switch of the radio, what is called out, and
// changes to the craft file.
package layout

import "propsoff/cmd/propsoff/internal/ui"

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnLayout, Key: "F6", Everywhere: true,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave},
	}
}
