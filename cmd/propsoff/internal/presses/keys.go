// Package presses puts in order what an engine knows of keys, mouse and fingers at one picture: presses, moves and releases.
//
// An engine tells what was pressed and released since its last picture, not in which order. On a slow machine a hand does several things between
// two pictures; each of them counts here, and in its order as far as anything tells it. Nothing here knows the engine: the window says what it sees.
package presses

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Keys follows which keys are down. The zero value is ready.
type Keys struct {
	down         []string
	up           []string // let go of in this picture
	order, typed []string
}

// Seen is what an engine knows of the keys at one picture. Keys are named by their place.
type Seen struct {
	// Pressed and Released since the last picture; a key may be in both. Held are those that are down now, and those that are in Pressed.
	Pressed, Released, Held []string
	// Text is what was typed since the last picture, in its order; Types says what a key types, empty for nothing.
	Text  string
	Types func(key string) string
}

// Follow tells of each key that went down or up, in order: first the keys that were down before and were let go, then those that were pressed, in the order
// of what they typed.
func (k *Keys) Follow(s Seen, tell func(key string, down bool)) {
	k.up = k.up[:0]
	for i := 0; i < len(k.down); i++ {
		if key := k.down[i]; slices.Contains(s.Released, key) || !slices.Contains(s.Held, key) {
			k.down = slices.Delete(k.down, i, i+1)
			i--
			k.up = append(k.up, key)
			tell(key, false)
		}
	}
	for _, key := range k.ordered(&s) {
		if slices.Contains(k.down, key) {
			continue
		}
		tell(key, true)
		if slices.Contains(s.Released, key) && !slices.Contains(k.up, key) { // after the press; whether it is down again the next picture tells
			tell(key, false)
			continue
		}
		k.down = append(k.down, key)
	}
}

// ordered are the keys that were pressed, those that typed something in the order of that, each of the others where the engine has it.
func (k *Keys) ordered(s *Seen) []string {
	text := fold(s.Text)
	place := func(key string) int {
		if types := s.types(key); types != "" {
			return strings.Index(text, types)
		}
		return -1
	}
	k.order = append(k.order[:0], s.Pressed...)
	for _, key := range s.Held { // pressed again in the last picture, after it was let go of
		if !slices.Contains(s.Pressed, key) {
			k.order = append(k.order, key)
		}
	}
	k.typed = slices.DeleteFunc(append(k.typed[:0], k.order...), func(key string) bool { return place(key) < 0 })
	slices.SortStableFunc(k.typed, func(a, b string) int { return place(a) - place(b) })
	next := 0
	for i, key := range k.order {
		if place(key) >= 0 {
			k.order[i] = k.typed[next]
			next++
		}
	}
	return k.order
}

// types is the first letter of what a key types, small; a space for the space bar.
func (s *Seen) types(key string) string {
	if key == "Space" {
		return " "
	}
	if s.Types == nil {
		return ""
	}
	r, n := utf8.DecodeRuneInString(s.Types(key))
	if n == 0 || r == utf8.RuneError {
		return ""
	}
	return string(unicode.ToLower(r))
}

// fold makes letters small, so that those typed with Shift are found.
func fold(text string) string { return strings.Map(unicode.ToLower, text) }
