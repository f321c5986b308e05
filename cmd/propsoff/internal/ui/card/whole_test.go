package card_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/ui/card"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
)

// longNamed is a radio as somebody may have learned it, with names as long as a USB radio, a pilot and a workshop give them.
func longNamed() handset.Radio {
	arm, mode, more := aSwitch(4, "arm", handset.Left, 2), aSwitch(5, "mode", handset.Right, 3), aSwitch(7, "channel 8", handset.Left, 2)
	arm.Called, mode.Called, more.Called = "the red-capped toggle at the left rear shoulder", "Dreistufenschalter vorn rechts neben dem Griff", "the small spring button behind the antenna"
	arm.Source, more.Momentary = "buttons 5, 6", true
	return measured("Moorland Valley Instruments Desk Transmitter 7 Deluxe, Full-Speed USB", arm, mode, more)
}

// Nothing on a card ends in an ellipsis: of every craft that ships, without a radio and with one of long names, on both papers, in every language.
func TestNothingOnACardIsCut(t *testing.T) {
	for _, name := range assets.Crafts() {
		f := shippedCraft(t, name)
		for _, r := range []handset.Radio{radioreach.Ideal(f), longNamed()} {
			c := dated(f, r, r.Name != "")
			if c.Given = r.Measured; c.Given {
				c.Whom = "Maximiliane-Friederike von Grünewald"
			}
			for _, book := range languages {
				for _, s := range paper.Sizes() {
					for _, z := range sizes {
						p, frames := z.Lay(s, book, &c)
						assert.Empty(t, faults(z, p, frames), "%s on %s, %s", name, s.Name, book.Tag())
						text := said(p)
						assert.NotContains(t, text, "…", "%s %d on %s, %s", name, z, s.Name, book.Tag())
						if c.Given {
							joined := strings.Join(strings.Fields(text), " ")
							assert.Contains(t, joined, c.Radio.Name, "%s %d, %s", name, z, book.Tag())
							assert.Contains(t, joined, c.Whom, "%s %d, %s", name, z, book.Tag())
						}
						draw(t, "long names "+name+" "+s.Name+" "+book.Code(), z, s, book, &c)
					}
				}
			}
		}
	}
}

// No key stands on paper, whatever is known of the search.
func TestNoKeyStandsOnPaper(t *testing.T) {
	c := scenes[2].make(t)
	rep := prove.Report{Situations: 5, Partial: true, Results: []prove.Result{{Rule: 0, Outcome: prove.Undecided}}}
	broken := prove.Report{Situations: 5, Results: []prove.Result{{Rule: 0, Outcome: prove.Broken, Cause: prove.StoredSwitchOn}}}
	for i, found := range []*prove.Report{nil, nil, &rep, &broken} {
		c.Proved, c.Searching = found, i == 1
		for _, book := range languages {
			for _, z := range sizes {
				p, _ := z.Lay(paper.A4(), book, &c)
				assert.NotRegexp(t, `\bF\d`, said(p), "%d %d %s", i, z, book.Tag())
			}
		}
	}
}

// A control that the pilot placed on the face is drawn on the side where he placed it, and near that place, where no stick sits there.
func TestAPlacedControlIsDrawnWhereItSits(t *testing.T) {
	for _, z := range sizes {
		for _, x := range []int16{50, 420, 460, 540, 580, 950} {
			for _, y := range []int16{150, 500} {
				mode := aSwitch(5, "mode", handset.Right, 3)
				mode.Spot = handset.Spot{View: handset.OnFace, X: x, Y: y, Way: handset.GoesUp}
				c := dated(shippedCraft(t, "built-in"), measured("Moorland Desk 7", aSwitch(4, "arm", handset.Left, 2), mode), true)
				p, _ := z.Lay(paper.A4(), languages[0], &c)
				var face, at ink.Rect
				for i := range p.Items() {
					switch it := &p.Items()[i]; {
					case it.Group == "radio" && it.Name == "face":
						face = it.Box
					case it.Group == "radio" && it.Name == "control-slot" && face.Has(it.Box.Centre()):
						at = it.Box
					}
				}
				drawn := 1000 * (at.Centre().X - face.X) / face.W
				assert.InDelta(t, float64(x), drawn, 70, "%s at %d, %d", card.SizeCodes()[z], x, y)
				assert.Equal(t, x > 500, drawn > 500, "%s at %d, %d is drawn at %.0f", card.SizeCodes()[z], x, y, drawn)
			}
		}
	}
}
