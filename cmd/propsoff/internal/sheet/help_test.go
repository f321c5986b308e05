package sheet

import (
	"fmt"
	"testing"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
)

// Help shows the keys of the sheet on which it was asked for, and the cautions always.
func TestHelpShowsEveryKeyAndTheCautions(t *testing.T) {
	for of := OnBench; of <= OnDesk; of <<= 1 {
		if of == OnHelp || of == OnCautions { // they have no help of their own
			continue
		}
		s := ready(t)
		s.v.HelpOf = of
		says := append([]string{}, phrase.Cautions()...)
		if of == OnBench {
			for _, k := range layoutKeys {
				if k.Key == keyboard.Second { // the built-in craft has none
					says = append(says, phrase.NoSwitch("second"))
					continue
				}
				says = append(says, phrase.KeyHelp(k.Code))
			}
			says = append(says, phrase.ActionHelp(Understood.Code()))
		}
		for _, a := range Acts() {
			if a.On&of != 0 {
				says = append(says, phrase.ActionHelp(a.Code))
			}
		}
		check(t, fmt.Sprintf("help of sheet %d", of), s, Help, says...)
	}
}
