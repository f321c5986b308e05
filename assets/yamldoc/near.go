package yamldoc

import (
	"strings"
	"unicode/utf8"

	"propsoff.example/assets/words"
)

// Near gives the word in all that was most likely meant by word: the one
// with the fewest letters changed, added, left out or swapped with the next
// (restricted Damerau-Levenshtein distance), where capitals and the difference
// between `-`, `_` and a space count nothing. Of equals the one that begins with
// more of the same letters is given, then the first. It gives false when nothing
// is near: more than a third of the letters differ (at least one may).
func Near(word string, all []string) (string, bool) { return near(word, foldAll(all)) }

// longestNear is the longest word, in letters, that is near to anything.
const longestNear = 64

// folded is a word as it stands, and as it is compared.
type folded struct {
	word  string
	runes []rune
}

func foldAll(all []string) []folded {
	out := make([]folded, len(all))
	for i, word := range all {
		out[i] = folded{word, fold(word)}
	}
	return out
}

func near(word string, all []folded) (string, bool) {
	if meant, is := yesNo(word); is { // letters count nothing here: "on" is nearer to yes than to no
		for _, c := range all {
			if other, is := yesNo(c.word); is && other == meant {
				return c.word, true
			}
		}
		return "", false
	}
	if len(word) > longestNear*utf8.UTFMax {
		return "", false
	}
	w := fold(word)
	if len(w) == 0 || len(w) > longestNear {
		return "", false
	}
	best, found, same := "", -1, 0
	for _, c := range all {
		f := c.runes
		if len(f) == 0 || len(f) > longestNear {
			continue
		}
		longest := max(len(w), len(f))
		if longest-min(len(w), len(f)) > max(1, longest/3) {
			continue // so many letters at least differ
		}
		d := distance(w, f)
		// A word of one or two letters is near to everything: nearly all of
		// it would be new.
		if d > max(1, longest/3) || d >= longest {
			continue
		}
		if p := prefix(w, f); found < 0 || d < found || d == found && p > same {
			best, found, same = c.word, d, p
		}
	}
	return best, found >= 0
}

// yesNo tells what a word of agreement or refusal means; is is false for every other word.
func yesNo(word string) (yes, is bool) {
	switch strings.ToLower(word) {
	case "yes", "y", "on", "true":
		return true, true
	case "no", "n", "off", "false":
		return false, true
	}
	return false, false
}

var hyphens = strings.NewReplacer("_", "-", " ", "-")

func fold(s string) []rune {
	return []rune(hyphens.Replace(strings.ToLower(s)))
}

func prefix(a, b []rune) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return n
}

func distance(a, b []rune) int {
	var rows [3][longestNear + 1]int
	before, last, row := rows[0][:len(b)+1], rows[1][:len(b)+1], rows[2][:len(b)+1]
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// meant is the word that was most likely meant, as a value of a message; empty for none.
func meant(word string, all []string) words.Quote {
	if w, ok := Near(word, all); ok {
		return shown(w)
	}
	return ""
}
