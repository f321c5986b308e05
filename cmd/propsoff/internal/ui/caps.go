package ui

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/input/keyboard"
)

// Caps is what is printed on the keys of the keyboard at hand, by the name that the place of each has: the letter of the US layout there, "Comma" and
// so on. A place that it does not know is printed as in the US; nil knows none.
type Caps map[string]string

// signs are what the US layout has on places that have names.
var signs = map[string]string{"Backquote": "`", "Minus": "-", "Equal": "=", "BracketLeft": "[", "BracketRight": "]", "Backslash": `\`,
	"Semicolon": ";", "Quote": "'", "Comma": ",", "Period": ".", "Slash": "/"}

// Writes tells whether the key of a place writes a letter or a sign, which differ from layout to layout. Digits stand on their keys in every layout,
// alone or with something else.
func Writes(physical string) bool {
	return signs[physical] != "" || len(physical) == 1 && 'A' <= physical[0] && physical[0] <= 'Z'
}

// NewCaps makes the table by the engine's words for what the key of each place writes; those of which the text face has no letters are left out.
func NewCaps(names map[string]string) Caps {
	c := Caps{}
	for physical, name := range names {
		if r, n := utf8.DecodeRuneInString(name); n == len(name) && unicode.ToLower(unicode.ToUpper(r)) == r { // a sharp s has no capital on any key
			name = strings.ToUpper(name)
		}
		if Writes(physical) && ink.Has(name) {
			c[physical] = name
		}
	}
	return c
}

// drawn is what stands on a drawn cap: beside a lever there is no room for the whole name of the space bar, and a sign stands alone.
func (c Caps) drawn(physical string) words.Text {
	switch {
	case physical == "Space":
		return words.T("key-cap.space-drawn")
	case Writes(physical):
		return words.AsIs(c.printed(physical))
	}
	return c.Word(physical)
}

// Word is how a sentence calls a key in the reader's language: by its letter or name, an arrow, or the sign that it writes.
func (c Caps) Word(physical string) words.Text {
	switch printed := c.printed(physical); {
	case Writes(physical) && !isLetter(printed):
		return words.T("key-cap.sign", words.Args{"sign": words.Quote(printed)})
	case Writes(physical):
		return words.AsIs(printed)
	case len(physical) > 1 && 'a' <= physical[1] && physical[1] <= 'z': // every other key has a digit, F and its number, or a range
		return words.Of("key-cap", strings.ToLower(physical))
	}
	return words.AsIs(physical)
}

// printed is what the key of a place writes.
func (c Caps) printed(physical string) string {
	if name := c[physical]; name != "" {
		return name
	}
	if sign := signs[physical]; sign != "" {
		return sign
	}
	return physical
}

// isLetter tells whether a text is one letter.
func isLetter(text string) bool {
	r, n := utf8.DecodeRuneInString(text)
	return n == len(text) && unicode.IsLetter(r)
}

// Sticks are the keys that fly, as a sentence names them.
func (c Caps) Sticks() words.Text {
	var all []words.Text
	for _, k := range [...]keyboard.Key{keyboard.ThrottleUp, keyboard.YawLeft, keyboard.ThrottleDown, keyboard.YawRight} {
		all = append(all, c.drawn(KeyOf(k)))
	}
	return words.T("key-cap.sticks", words.Args{"letters": words.Row(all...)})
}
