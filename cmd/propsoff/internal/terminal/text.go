package terminal

import (
	"strings"
	"unicode/utf8"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
)

// say writes a text out in a language, nil for English; what steers in it is made visible.
func say(b *words.Book, t words.Text) string { return mouth.Printable(b.OrEnglish().Say(t)) }

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
	s = shorten(s, n)
	return s + strings.Repeat(" ", n-places(s))
}

// shorten shortens a text to so many places, and shows that it did.
func shorten(s string, n int) string {
	if places(s) <= n {
		return s
	}
	return string([]rune(s)[:max(n-1, 0)]) + "…"
}

// right puts a text at the right of at least so many places.
func right(s string, n int) string { return strings.Repeat(" ", max(n-places(s), 0)) + s }

// centre puts a text in the middle of at least so many places.
func centre(s string, n int) string {
	free := max(n-places(s), 0)
	return strings.Repeat(" ", free/2) + s + strings.Repeat(" ", free-free/2)
}

// wrap breaks a text that is wider than columns at spaces; 0 or less: no breaking.
func wrap(text string, columns int) []string {
	if columns <= 0 || places(text) <= columns {
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

// sentenceLeast is how many places a sentence has at least, before it is written below what stands before it instead of beside that (ours).
const sentenceLeast = 24

// hang puts a text behind what stands before it, broken into lines that begin below one another.
func hang(before, text string, columns int) []string {
	room := columns - places(before)
	if columns <= 0 {
		room = 0
	} else if room < sentenceLeast {
		return wrap(before+text, columns)
	}
	lines := wrap(text, room)
	for i := range lines {
		lines[i] = before + lines[i]
		before = strings.Repeat(" ", places(before))
	}
	return lines
}

// cut shows what steers in a line and shortens it to columns.
func cut(line string, columns int) string {
	line = mouth.Printable(line)
	if columns <= 0 {
		return line
	}
	return shorten(line, columns)
}

// fit leaves out from the bottom what is more than rows, and shortens what is wider than columns, and shows that it did; 0 for no limit.
func fit(out []string, columns, rows int) []string {
	if rows > 0 && len(out) > rows {
		out = out[:rows]
		out[rows-1] += " …"
	}
	for i := range out {
		out[i] = cut(out[i], columns)
	}
	return out
}
