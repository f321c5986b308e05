package ui_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/keyboard"
)

// Keys are called as the keyboard at hand has them, by their place: a French and a German one here, and one of which the face has no letters. Digits
// and keys with names are the same on all.
func TestKeysAreCalledAsTheKeyboardHasThem(t *testing.T) {
	french := ui.NewCaps(map[string]string{"Q": "a", "W": "z", "A": "q", "Z": "w", "M": ",", "Semicolon": "m", "Comma": ";", "Period": ":", "1": "&", "Enter": "x", "": "x"})
	german := ui.NewCaps(map[string]string{"Y": "z", "Z": "y", "Minus": "ß", "Semicolon": "ö", "BracketLeft": "ü", "Slash": "-", "Equal": ""})
	unknown := ui.NewCaps(map[string]string{"W": "\u3042", "A": "", "Comma": "\u3042"})
	say := func(c ui.Caps, keys ...string) (all []string) {
		for _, k := range keys {
			all = append(all, words.English().Say(c.Word(k)))
		}
		return all
	}
	assert.Equal(t, []string{"A", "Z", "Q", "W", "“,”", "M", "“;”", "“:”", "1", "Enter", "F1", "↑"}, say(french, "Q", "W", "A", "Z", "M", "Semicolon", "Comma", "Period", "1", "Enter", "F1", "Up"))
	assert.Equal(t, []string{"Z", "Y", "ß", "Ö", "Ü", "“-”", "“=”", "X"}, say(german, "Y", "Z", "Minus", "Semicolon", "BracketLeft", "Slash", "Equal", "X"))
	assert.Equal(t, []string{"W", "A", "“,”"}, say(unknown, "W", "A", "Comma"))
	assert.Equal(t, []string{"W", "“,”"}, say(nil, "W", "Comma"))
	assert.Equal(t, "Z Q S D, ← ↑ ↓ →", words.English().Say(french.Sticks()))
	assert.Equal(t, "„,“", words.In("de").Say(ui.Caps(nil).Word("Comma")))
	assert.Equal(t, "Z", words.English().Say(french.Word(ui.KeyOf(keyboard.ThrottleUp))))
}
