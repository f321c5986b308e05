// Package uitest is what the tests of sheets share: a real bench before them, and what holds for every scene.
package uitest

import (
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/house"
)

// AllSheets is the house with every sheet in it, as the program has it.
func AllSheets() *ui.House { return house.Sheets() }
