package help_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/help"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/keyboard"
)

// Help shows, page by page, the keys of the sheet on which it was asked for and those of the bench, and the cautions; what a finger presses is high enough.
func TestHelpShowsEveryKeyAndTheCautions(t *testing.T) {
	for _, about := range uitest.AllSheets().Sheets() {
		of := about.Place
		if of == ui.OnHelp || of == ui.OnCautions { // they have no help of their own
			continue
		}
		s := uitest.Ready(t)
		s.V.HelpOf = of
		says := append(said(tell.Cautions()...), helps(ui.Understood))
		if uitest.AllSheets().Flown(of) {
			for _, k := range ui.LayoutKeys {
				if k.Key == keyboard.Second { // the built-in craft has none
					says = append(says, uitest.Say(tell.NoSwitch("second")))
					continue
				}
				says = append(says, uitest.Say(words.Of("hand", k.Code)))
			}
		}
		for _, place := range []ui.Place{of, ui.OnBench} {
			for _, a := range uitest.AllSheets().Keys(place) {
				says = append(says, helps(a.Action))
			}
		}
		for _, touch := range []bool{false, true} {
			t.Run(fmt.Sprint(of, " by a finger ", touch), func(t *testing.T) {
				s.V.Touch = touch
				texts, pages := map[uitest.Size]string{}, 1
				for page := 0; page < pages; page++ {
					s.Everywhere(t, fmt.Sprint("help of ", of, page), func(p *ink.Page, v *ui.View) {
						v.Leaves.At = page
						help.Draw(p, v)
						pages = max(pages, v.Leaves.Of)
					}, func(z uitest.Size, all string) { texts[z] += all })
				}
				for z, all := range texts {
					for _, want := range says {
						assert.Contains(t, all, want, "%v", z)
					}
				}
			})
		}
	}
}

// What is typed narrows the list, by what keys do and by what is printed on them.
func TestHelpIsSearched(t *testing.T) {
	s := uitest.Ready(t)
	s.V.HelpOf = ui.OnBench
	for typed, want := range map[string]struct{ has, hasNot ui.Action }{
		"LINK lost three": {ui.OnLoss.Open(), ui.OnDrills.Open()}, "f12": {ui.TurnRecording, ui.OnLoss.Open()}, "  ": {ui.OnDrills.Open(), "nothing"}, "qqq": {"", ui.OnDrills.Open()}, "largest TEXTED": {ui.TurnTextSize, ui.OnLoss.Open()}, "téxt": {ui.TurnTextSize, ui.OnLoss.Open()},
	} {
		help.Of(s.V).Typed = typed
		s.Everywhere(t, "help searched "+typed, help.Draw, func(_ uitest.Size, texts string) {
			if want.has != "" {
				assert.Contains(t, texts, helps(want.has))
			}
			assert.NotContains(t, texts, helps(want.hasNot))
			assert.Equal(t, want.has == "", strings.Contains(texts, "No key matches that."))
		})
	}
}

// The heading of what was found stands over it, however little that is.
func TestAHeadingStandsOverItsFirstKey(t *testing.T) {
	s := uitest.Ready(t)
	s.V.HelpOf = ui.OnBench
	help.Of(s.V).Typed = "largest TEXTED"
	for _, size := range [][2]float64{{960, 600}, {1280, 800}, {1920, 1080}} {
		p := ink.NewPage(size[0], size[1], 0, nil)
		help.Draw(p, s.V)
		d := ink.Describe(p)
		heading, row := d.Named("help-heading"), d.Named(ui.TurnTextSize.Code()+" help")
		require.Len(t, heading, 1)
		require.NotEmpty(t, row)
		assert.Less(t, row[0].Box[0]-heading[0].Box[0], 0.1*size[0], "%v", size)
		assert.Greater(t, row[0].Box[1], heading[0].Box[1], "%v", size)
	}
}

// helps is what the key of an action does, in English.
func helps(a ui.Action) string {
	return uitest.Say(tell.KeyHelp(a.Code(), words.English().Next().Name()))
}

// said are texts in English.
func said(all ...words.Text) (out []string) {
	for _, t := range all {
		out = append(out, uitest.Say(t))
	}
	return out
}

func TestCautionsAreShownWhole(t *testing.T) {
	withOne := uitest.Ready(t)
	withOne.V.GoodNews(tell.AsSystem(2))
	uitest.Check(t, "cautions, and a sentence", withOne, help.DrawCautions, append(said(tell.Cautions()...), "as the system says again")...)
	uitest.Check(t, "cautions", uitest.Ready(t), help.DrawCautions, append(said(tell.Cautions()...), "Before you start", "I have read this")...)
}
