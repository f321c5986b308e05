package terminal

import (
	"strings"
	"unicode/utf8"

	"propsoff/assets/mouth"
	"propsoff/assets/words"
)

// say writes a text out in a language, nil for English; what steers in it is made visible.
func say(b *words.Book, t words.Text) string {
	if b == nil {
		b = words.English()
	}
	return mouth.Printable(b.Say(t))
}

// english is a text as JSON Lines have it in every language.
func english(t words.Text) string { return words.English().Say(t) }

// places is how many places a text takes.
func places(s string) int { return utf8.RuneCountInString(s) }

// widest is how many places the widest of some texts takes.
func widest(b *words.Book, all ...words.Text) (n int) {
	for _, t := range all {
		n = max(n, places(say(b, t)))
	}
	return n
}

// left puts a text at the left of so many places, and shortens one that is longer.
func left(s string, n int) string {
	if over := places(s) - n; over > 0 {
		return string([]rune(s)[:n])
	}
	return s + strings.Repeat(" ", n-places(s))
}

// right puts a text at the right of at least so many places.
func right(s string, n int) string { return strings.Repeat(" ", max(n-places(s), 0)) + s }

// centre puts a text in the middle of at least so many places.
func centre(s string, n int) string {
	free := max(n-places(s), 0)
	return strings.Repeat(" ", free/2) + s + strings.Repeat(" ", free-free/2)
}

// wrap breaks a text at spaces into lines of at most columns; 0 or less: no breaking.
func wrap(text string, columns int) []string {
	if columns <= 0 {
		return []string{text}
	}
	var out []string
	line := ""
	for _, w := range strings.Fields(text) {
		if line != "" && places(line)+1+places(w) > columns {
			out, line = append(out, line), ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	return append(out, line)
}

// cut shows what steers in a line and shortens it to columns.
func cut(line string, columns int) string {
	line = mouth.Printable(line)
	if columns <= 0 || places(line) <= columns {
		return line
	}
	return string([]rune(line)[:columns])
}

// fit leaves out from the bottom what is more than rows, and shortens what is wider than columns; 0 for no limit.
func fit(out []string, columns, rows int) []string {
	if rows > 0 && len(out) > rows {
		out = out[:rows]
	}
	for i := range out {
		out[i] = cut(out[i], columns)
	}
	return out
}
