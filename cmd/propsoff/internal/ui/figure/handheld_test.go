package figure_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/handset"
)

// desk is a radio as it is met: switches, a button and a knob; some of them placed.
func desk() handset.Radio {
	r := handset.Ideal([]handset.Want{{Channel: 2, Job: "throttle"}, {Channel: 0, Job: "roll"}, {Channel: 1, Job: "pitch"}, {Channel: 3, Job: "yaw"},
		{Channel: 4, Job: "arm", Kind: handset.Switch}, {Channel: 5, Job: "mode", Kind: handset.Switch}, {Channel: 6, Job: "second", Kind: handset.Switch},
		{Channel: 7, Job: "finder sound", Kind: handset.Switch}, {Channel: 8, Job: "channel 9", Kind: handset.Knob}})
	for i := range r.Controls {
		switch c := &r.Controls[i]; c.Job {
		case "arm":
			c.Spot, c.Positions = handset.Spot{View: handset.OnShoulders, X: 100, Y: 650, Way: handset.GoesDown}, []handset.Position{{Width: 7904}, {Width: 16096}}
		case "finder sound":
			c.Spot, c.Momentary = handset.Spot{View: handset.OnBack, X: 120, Y: 300, Way: handset.Pressed}, true
		}
	}
	return r
}

// A radio is drawn by its file in every language and theme: each control with its name and nothing overlapping, and below it in words which one
// must move, and which way where that is known.
func TestARadioIsDrawnAsItIs(t *testing.T) {
	for book, first := words.English(), true; first || book != words.English(); book, first = book.Next(), false {
		for _, theme := range []*ink.Theme{ink.Light(), ink.Dark()} {
			for _, z := range [][2]float64{{960, 600}, {480, 420}, {420, 700}} {
				r := desk()
				v := &ui.View{Book: book}
				p := ink.NewPage(z[0], z[1], 1, theme)
				b := figure.NewBoard(p, v)
				d := figure.Handheld(&r, v.Say)
				d.Mark("arm", handheld.Moves, 1)
				d.MarkStick("yaw", handheld.Moves, -1)
				b.Handheld(p.Bounds().Inset(8), d)
				limits := ink.DefaultLimits()
				limits.TextSize, limits.Hole = 0, 1
				for _, q := range ink.CheckWith(p, limits) {
					assert.Fail(t, q.String(), "%s %v", book.Tag(), z)
				}
				sheet := ink.Describe(p)
				assert.Len(t, sheet.Named("control-name"), 5)
				assert.Len(t, sheet.Named("view-title"), 3)
				said, _ := sheet.Text("radio-move")
				assert.Equal(t, map[string]string{"en": "arm switch: move it towards you", "de": "Scharfschalter: zu dir hin bewegen"}[book.Tag().String()], said)
				uitest.Draw(t, fmt.Sprintf("desk-%s", book.Tag()), p)

				d.Mark("arm", handheld.Plain, -1)
				d.Mark("mode", handheld.Moves, 1)
				p.Reset(z[0], z[1], 1, theme)
				b.Handheld(p.Bounds().Inset(8), d)
				said, _ = ink.Describe(p).Text("radio-move")
				assert.Equal(t, map[string]string{"en": "mode switch", "de": "Modusschalter"}[book.Tag().String()], said, "where it sits is guessed")
			}
		}
	}
}
