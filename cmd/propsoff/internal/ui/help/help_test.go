package help_test

import (
	"testing"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/help"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/input/keyboard"
)

// Help shows the keys of the sheet on which it was asked for, and the cautions always.
func TestHelpShowsEveryKeyAndTheCautions(t *testing.T) {
	for _, about := range uitest.AllSheets().Sheets() {
		of := about.Place
		if of == ui.OnHelp || of == ui.OnCautions { // they have no help of their own
			continue
		}
		s := uitest.Ready(t)
		s.V.HelpOf = of
		says := said(tell.Cautions()...)
		if of == ui.OnBench {
			for _, k := range ui.LayoutKeys {
				if k.Key == keyboard.Second { // the built-in craft has none
					says = append(says, uitest.Say(tell.NoSwitch("second")))
					continue
				}
				says = append(says, uitest.Say(words.Of("hand", k.Code)))
			}
			says = append(says, helps(ui.Understood))
		}
		for _, a := range uitest.AllSheets().Keys(of) {
			says = append(says, helps(a.Action))
		}
		t.Run(string(of), func(t *testing.T) { uitest.Check(t, "help of "+string(of), s, help.Draw, says...) })
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
	uitest.Check(t, "cautions", uitest.Ready(t), help.DrawCautions, append(said(tell.Cautions()...), "Before you start", "I have read this")...)
}
