package figure_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/pulse"
)

// However little room there is, the paper says that the craft was disarmed and why, before what is told least.
func TestTheMostTellingNoteStays(t *testing.T) {
	s := uitest.Ready(t).Set(4, 2012).Wait(800)
	require.True(t, s.V.Snap.Armed)
	s.Tell(pulse.Link, 0).Wait(1500).Set(4, 988).Tell(pulse.Link, 1).Wait(2500)
	s.Facts()
	require.False(t, s.V.Snap.Armed)
	for h := 400.0; h > 150; h -= 10 {
		p := ink.NewPage(960, 600, 0, nil)
		b := figure.NewBoard(p, s.V)
		b.Chart(ink.Rect{X: 8, Y: 8, W: 460, H: h})
		notes := strings.Join(textsOf(p, "note"), " ")
		assert.Contains(t, notes, "Disarmed", "%v px", h)
	}
}

// textsOf are the texts of one name, joined as they stand.
func textsOf(p *ink.Page, name string) (all []string) {
	for _, it := range p.Items() {
		if it.Name == name {
			all = append(all, it.Text)
		}
	}
	return all
}
