package screen

import (
	"unicode"
	"unicode/utf8"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// Writing is text that a person types, over whatever is open: the one way in which this program has something typed.
//
// The letters are those that the system's text input gives, so that capitals, letters with accents and what dead keys make of two presses
// come as they are set. The engine's experimental package for input methods is not used: it has one on some systems only, and under Linux it
// gives what comes here as well.
type Writing struct {
	// Says is what is asked for, Typed what stands there: at first, and then as it is.
	Says  words.Text
	Typed string
	// Most is how many letters are taken, Numbers that only figures are.
	Most    int
	Numbers bool
	// Loose: nothing is lost where it is dropped. first is what stood there at first.
	Loose bool
	first string
	// More is what else may be done meanwhile.
	More []Answer
	// Take is given the text; it says why that will not do, or nothing.
	Take func(text string) words.Text
	// Trouble says why the text will not do, Full that a letter was not taken for want of room.
	Trouble words.Text
	Full    bool
}

// mostBytes is how much text is ever taken for one letter, with the marks that stand on it (ours).
const mostBytes = 16

// Write has something typed. A newer one takes the place of one that stands.
func (s *Screen) Write(w Writing) {
	w.first = w.Typed
	s.writing = &w
}

// Written is what is typed now, nil for nothing.
func (s *Screen) Written() *Writing { return s.writing }

// lostTyping says what would be lost of what is typed.
func (s *Screen) lostTyping() (t words.Text) {
	if w := s.writing; w != nil && !w.Loose && w.Typed != w.first {
		t = words.T("asked.lost-write", words.Args{"text": words.Quote(w.Typed)})
	}
	return t
}

// Type takes text that is typed. It comes before the keys that it was typed by.
func (s *Screen) Type(text string) {
	switch t, types := s.open().(interface{ Type(text string) }); {
	case s.Place() == ui.OnWrite:
		s.writing.Add(text)
	case types: // a sheet that has something looked for
		t.Type(text)
	}
}

// EndWriting takes what is typed, or drops it.
func (s *Screen) EndWriting(take bool) {
	w := s.writing
	switch {
	case w == nil:
	case !take:
		s.writing = nil
	default:
		s.writing = nil // what is done with it may have the next thing typed
		if w.Trouble = w.Take(w.Typed); !w.Trouble.Empty() {
			s.writing = w
		}
	}
}

// Add appends what can be seen of a text, as far as there is room.
func (w *Writing) Add(text string) {
	w.Full, w.Trouble = false, words.Text{}
	for _, r := range text {
		if r == utf8.RuneError || !w.takes(r) {
			continue
		}
		w.Full = !joins(r) && Letters(w.Typed) >= w.Most || len(w.Typed)+utf8.RuneLen(r) > w.Most*mostBytes
		if w.Full {
			return
		}
		w.Typed += string(r)
	}
}

// takes tells whether a character may stand in the text.
func (w *Writing) takes(r rune) bool {
	if w.Numbers {
		return r >= '0' && r <= '9' || r == '.' || r == ' '
	}
	return unicode.IsPrint(r) || joins(r)
}

// Back takes the last letter off, with the marks that stand on it.
func (w *Writing) Back() {
	w.Full, w.Trouble = false, words.Text{}
	for len(w.Typed) > 0 {
		r, n := utf8.DecodeLastRuneInString(w.Typed)
		if w.Typed = w.Typed[:len(w.Typed)-n]; !joins(r) {
			return
		}
	}
}

// Letters counts the letters of a text; marks count with the letter that they stand on.
func Letters(text string) (n int) {
	for _, r := range text {
		if !joins(r) {
			n++
		}
	}
	return n
}

// joins tells whether a character belongs to the letter before it: a mark, or what joins letters.
func joins(r rune) bool { return unicode.Is(unicode.M, r) || r == '\u200c' || r == '\u200d' }
