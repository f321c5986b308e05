package yamldoc

import (
	"bytes"
	"strings"
)

// Writer writes a YAML file line by line: fields, lists and comments, indented
// by two spaces a level. Nothing can fail; what is written is read back by
// [Parse] with the same texts. The zero Writer is an empty file.
type Writer struct {
	buf   bytes.Buffer
	depth int  // open levels
	dash  bool // the next line begins with the `- ` of an item
}

// Bytes gives the file so far.
func (w *Writer) Bytes() []byte { return bytes.Clone(w.buf.Bytes()) }

func (w *Writer) line(s string) {
	if w.dash {
		w.buf.WriteString(strings.Repeat("  ", w.depth-1) + "- ")
		w.dash = false
	} else {
		w.buf.WriteString(strings.Repeat("  ", w.depth))
	}
	w.buf.WriteString(s + "\n")
}

// Comment writes a comment line for each line of text. Between [Writer.Item]
// and its first field the comment goes before the item's dash.
func (w *Writer) Comment(text string) {
	depth := w.depth
	if w.dash {
		depth--
	}
	for l := range strings.Lines(text) {
		l = strings.TrimRight(visible(l), " ")
		w.buf.WriteString(strings.TrimRight(strings.Repeat("  ", depth)+"# "+l, " ") + "\n")
	}
}

// visible takes out what [Parse] refuses in a file.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case r < 0x20, r >= 0x7F && r < 0xA0, r == 0x2028, r == 0x2029, r == 0xFEFF, r == 0xFFFE, r == 0xFFFF:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// Text writes a field with a text, quoted where needed ([Quote]).
func (w *Writer) Text(name, value string) { w.line(Quote(name) + ": " + Quote(value)) }

// Value writes a field with a number, with or without unit ("1500.125",
// "300ms", "-35 %"): plain where the value is one, else as [Writer.Text].
func (w *Writer) Value(name, value string) { w.line(Quote(name) + ": " + number(value)) }

// Inline writes a field with a value that stands on its line: a word, a number, a group in braces, a list in brackets.
func (w *Writer) Inline(name string, value Inline) { w.line(fieldName(name) + ": " + value.String()) }

// number leaves plain what begins as a number does and holds nothing but
// digits, point, letters, % and single spaces.
func number(s string) string {
	num, unit := splitUnit(s)
	if _, bad := parseDecimal(num); !bad.Empty() || strings.HasSuffix(s, " ") || strings.Trim(unit, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ%") != "" {
		return Quote(s)
	}
	return s
}

// Open begins the group of fields of a field; [Writer.Close] ends it. At least
// one field must follow: YAML has no empty group without brackets.
func (w *Writer) Open(name string) {
	w.line(Quote(name) + ":")
	w.depth++
}

// OpenList begins the list of a field; [Writer.Close] ends it. Items are
// written by [Writer.TextItem] and [Writer.Item]; at least one must follow.
func (w *Writer) OpenList(name string) {
	w.line(Quote(name) + ":")
	w.depth++
}

// TextItem writes a list item that is a text.
func (w *Writer) TextItem(value string) { w.line("- " + Quote(value)) }

// Item begins a list item that is a group of fields; [Writer.Close] ends it. At
// least one field must follow.
func (w *Writer) Item() {
	w.depth++
	w.dash = true
}

// Close ends what was last begun by Open, OpenList or Item.
func (w *Writer) Close() {
	if w.depth > 0 {
		w.depth--
	}
	w.dash = false
}
