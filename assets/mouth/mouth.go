// Package mouth lets text from outside be seen, and steer nothing: names of files, radios, pupils and drills, words of files and of the
// system, before they reach a terminal, a table, JSON, a page or the particulars of a file.
//
// What steers is shown where a person reads, as [U+202E] for a character and [0xE9] for a byte that is no UTF-8 text: whoever reads it sees
// what was there. The brackets mean nothing in HTML, XML or a table, so one form does for all. JSON keeps the character itself, as an
// escape (RFC 8259, section 7), which a terminal takes for letters: no data is lost.
package mouth

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Steers reports a character that does something to a terminal or to the order of the text around it instead of being seen:
//
//   - the control characters C0, delete and C1 (ECMA-48, 5th edition, sections 5.2 and 5.3; of delete ISO/IEC 6429): with them names move a cursor, colour a
//     screen, or end a line and write one of their own;
//   - the explicit directional formatting characters U+202A to U+202E and U+2066 to U+2069, and the three marks U+061C, U+200E and U+200F. They
//     are all of the property Bidi_Control (Unicode Standard Annex #9, section 2; why they are refused in names: Unicode Technical Report #36,
//     section 2.5, and Technical Standard #39, section 3). The marks reorder figures and signs beside them, in a table for one, and no name
//     needs them to be written: letters carry their own direction. The joiners U+200C and U+200D, which some languages need, stay;
//   - the line and paragraph separators U+2028 and U+2029, which end a line for some readers of JSON and HTML and for others not.
func Steers(r rune) bool {
	switch {
	case r < ' ', r >= 0x7f && r < 0xa0, r == '\u2028', r == '\u2029':
		return true
	case r < 0x600: // the first of those below is U+061C; most text ends here
		return false
	}
	return unicode.Is(unicode.Bidi_Control, r)
}

// Printable shows what steers in a text that stands in one line: its ends of lines and tabs too.
func Printable(s string) string { return printable(s, "") }

// Lines is Printable for a text whose ends of lines are ours.
func Lines(s string) string { return printable(s, "\n") }

func printable(s, layout string) string {
	i := firstSteering(s, layout)
	if i < 0 {
		return s
	}
	return string(appendPrintable([]byte(s[:i]), s[i:], layout))
}

// firstSteering is where the first thing stands that is to be shown, −1 for nothing.
func firstSteering(s, layout string) int {
	plain := 0
	for plain < len(s) && s[plain] >= ' ' && s[plain] < 0x7f {
		plain++
	}
	for i, r := range s[plain:] {
		i += plain
		if Steers(r) && !strings.ContainsRune(layout, r) {
			return i
		}
		if r == utf8.RuneError {
			if _, n := utf8.DecodeRuneInString(s[i:]); n == 1 {
				return i
			}
		}
	}
	return -1
}

func appendPrintable(dst []byte, s, layout string) []byte {
	for s != "" {
		r, n := utf8.DecodeRuneInString(s)
		switch {
		case r == utf8.RuneError && n == 1:
			dst = fmt.Appendf(dst, "[0x%02X]", s[0])
		case Steers(r) && !strings.ContainsRune(layout, r):
			dst = fmt.Appendf(dst, "[U+%04X]", r)
		default:
			dst = append(dst, s[:n]...)
		}
		s = s[n:]
	}
	return dst
}

// AppendJSON appends a value as JSON, without a line's end, in which nothing steers.
func AppendJSON(dst []byte, v any) []byte {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		panic("mouth: " + err.Error()) // a value of ours that has no JSON: a mistake of whoever wrote its type
	}
	return AppendEscaped(dst, bytes.TrimSpace(b.Bytes()))
}

// AppendEscaped appends JSON with what steers in its texts as escapes. What does so stands in texts only: outside them JSON has no such
// character but the white space of its layout, which is no part of one line.
func AppendEscaped(dst, js []byte) []byte {
	for len(js) > 0 {
		r, n := utf8.DecodeRune(js)
		switch {
		case Steers(r): // none of them is beyond U+FFFF
			dst = fmt.Appendf(dst, `\u%04x`, r)
		case r == utf8.RuneError && n == 1:
			dst = append(dst, "\uFFFD"...) // as encoding/json writes it
		default:
			dst = append(dst, js[:n]...)
		}
		js = js[n:]
	}
	return dst
}

// Writer is the door to standard output, standard error and a file that people read: what passes shows what steers, ends of lines and tabs left
// out. A program's own cursor and colours go another way. Writes may break a character in two.
type Writer struct {
	to   io.Writer
	rest []byte // the beginning of a character, or a carriage return of which the line's end is to come
	buf  []byte
	bad  error // the first one
}

// NewWriter makes the door to w. Close it after the last write.
func NewWriter(w io.Writer) *Writer { return &Writer{to: w} }

// Write passes text on. It counts what came in.
func (w *Writer) Write(p []byte) (int, error) {
	text := p
	if len(w.rest) > 0 {
		text = append(w.rest, p...)
	}
	whole := len(text) - unfinished(text)
	w.rest = append([]byte(nil), text[whole:]...)
	return len(p), w.pass(text[:whole])
}

// unfinished is how many bytes at the end of a text cannot be judged yet.
func unfinished(text []byte) int {
	if n := len(text); n > 0 && text[n-1] == '\r' {
		return 1
	}
	for n := 1; n < utf8.UTFMax && n <= len(text); n++ {
		if tail := text[len(text)-n:]; utf8.RuneStart(tail[0]) {
			if utf8.FullRune(tail) {
				return 0
			}
			return n
		}
	}
	return 0
}

// pass writes text; a carriage return before a line's end belongs to that (RFC 4180 ends the rows of a table so).
func (w *Writer) pass(text []byte) error {
	if len(text) == 0 {
		return nil
	}
	w.buf = w.buf[:0]
	for line := range bytes.SplitAfterSeq(text, []byte("\r\n")) {
		body, ended := bytes.CutSuffix(line, []byte("\r\n"))
		w.buf = appendPrintable(w.buf, string(body), "\n\t")
		if ended {
			w.buf = append(w.buf, "\r\n"...)
		}
	}
	_, err := w.to.Write(w.buf)
	if w.bad == nil {
		w.bad = err
	}
	return err
}

// Close passes on what still waits; what it writes to stays open. It gives the first error that there was, of Write too.
func (w *Writer) Close() error {
	rest := w.rest
	w.rest = nil
	_ = w.pass(rest)
	return w.bad
}
