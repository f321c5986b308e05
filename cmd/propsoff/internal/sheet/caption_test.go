package sheet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sound"
)

// captionSheets are all sheets, each with a view that it can draw.
func captionSheets(t testing.TB) map[string]struct {
	draw func(*ink.Page, *View)
	v    *View
} {
	type one = struct {
		draw func(*ink.Page, *View)
		v    *View
	}
	card := ready(t).v
	card.Card = CardView{Paper: "A4"}
	return map[string]one{
		"bench": {Bench, ready(t).v}, "in the air": {Bench, flightScenes[0].make(t).v}, "first": {First, firstScenes[0].make(t).v},
		"three": {Three, threeScenes[0].make(t).v}, "loss": {Loss, lossScenes[0].make(t).v}, "drills": {Drills, drillScenes[0].make(t).v},
		"desk": {Desk, deskScenes[0].make(t).v}, "questions": {Questions, questionScenes[0].make(t).v}, "check": {Check, checkScenes[0].make(t).v},
		"layout": {Layout, layoutScenes[0].make(t).v}, "prove": {Prove, proveScenes[0].make(t).v}, "card": {Card, card},
		"help": {Help, ready(t).v}, "gestures": {Gestures, ready(t).v},
	}
}

// A caption can be read on every sheet, in the window and from afar, and when it comes and goes nothing else moves.
func TestCaptionsStandInTheMarginOfEverySheet(t *testing.T) {
	// The longest: three at once, not to be heard.
	longest := phrase.SoundCaptions([]sound.Code{sound.Refused, sound.LinkBack, sound.ModeHorizon}, true)
	for name, one := range captionSheets(t) {
		t.Run(name, func(t *testing.T) {
			p := ink.NewPage(960, 600, 0, nil)
			for _, class := range []bool{false, true} {
				if class && (name == "card" || name == "help") { // they have no class view
					continue
				}
				one.v.Class, one.v.Full = class, class
				for _, z := range sizes {
					for _, theme := range themesAt(z) {
						what := fmt.Sprintf("%vx%v %s class %v", z.w, z.h, theme.Name, class)
						page := func(caption string) ink.Sheet {
							one.v.Sound.Caption, one.v.Dark = caption, theme == ink.Dark()
							p.Reset(z.w, z.h, 0, theme)
							one.draw(p, one.v)
							return ink.Describe(p)
						}
						without := page("")
						_, there := without.Text("sound caption")
						assert.False(t, there)
						was := map[string]int{}
						for _, q := range ink.Check(p) {
							was[q.String()]++
						}
						for _, caption := range []string{"♪ armed", longest} {
							with := page(caption)
							for _, q := range ink.Check(p) { // what the sheet itself has is told by its own tests
								if was[q.String()] == 0 && q.Fault != ink.DeadSpace {
									t.Errorf("%s: %v", what, q)
								}
							}
							text, _ := with.Text("sound caption")
							assert.Equal(t, caption, text, "%s: whole", what)
							if class {
								size := with.Named("sound caption")[0].Size
								assert.GreaterOrEqual(t, size, 0.035*min(z.h, z.w*600/960), what)
							}
							draw(t, "caption "+name+fmt.Sprint(class), p)
							rest := with.Items[:0]
							for _, it := range with.Items {
								if it.Group != "sound" {
									rest = append(rest, it)
								}
							}
							require.Equal(t, without.Items, rest, "%s: nothing moves", what)
						}
					}
				}
			}
		})
	}
}
