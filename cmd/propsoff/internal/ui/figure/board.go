// Package figure draws what several sheets show: sticks and switches, the chart, the craft from above, behind and beside, the state and what
// refuses.
package figure

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ui"
)

// Board is a page being drawn for a view, with these figures to be drawn on it.
type Board struct{ *ui.Board }

// NewBoard begins a page.
func NewBoard(p *ink.Page, v *ui.View) *Board { return &Board{ui.NewBoard(p, v)} }
