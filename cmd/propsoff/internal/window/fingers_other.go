//go:build !js && (cgo || windows || darwin)

package window

import (
	"github.com/hajimehoshi/ebiten/v2"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/presses"
)

// cursor is where the mouse is on the page.
func cursor() ink.Point { return pointOf(ebiten.CursorPosition()) }

func pointOf(x, y int) ink.Point { return ink.Point{X: float64(x), Y: float64(y)} }

// fingers are those that the engine tells of.
type fingers struct{ ids []ebiten.TouchID }

// told does nothing: the system moves what is larger than its screen.
func (*fingers) told(ink.Pointer, func(across, down float64)) {}

// see appends the fingers that are down.
func (f *fingers) see(down []presses.Touch, _ []presses.Touched) ([]presses.Touch, []presses.Touched) {
	f.ids = ebiten.AppendTouchIDs(f.ids[:0])
	for _, id := range f.ids {
		down = append(down, presses.Touch{ID: int(id) + 1, At: pointOf(ebiten.TouchPosition(id))})
	}
	return down, nil
}
