package screen

import (
	"strings"
	"unicode/utf8"
)

// longestName is the longest name of a switch that is typed, in letters (ours: what stands beside it on the card).
const longestName = 24

// TypeLetter takes one key of a name.
func (s *Screen) TypeLetter(key string) {
	switch {
	case key == "Backspace":
		s.Back()
	case len(s.Typed) >= longestName:
	case key == "Space":
		s.Typed += " "
	case len(key) == 1:
		s.Typed += strings.ToLower(key)
	}
}

// Back takes the last letter off what is typed.
func (s *Screen) Back() {
	_, n := utf8.DecodeLastRuneInString(s.Typed)
	s.Typed = s.Typed[:len(s.Typed)-n]
}

// Digit is the number on a key, 0 for none.
func Digit(name string) int {
	if len(name) == 1 && name[0] >= '1' && name[0] <= '9' {
		return int(name[0] - '0')
	}
	return 0
}
