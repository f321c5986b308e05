package yamldoc

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"propsoff.example/assets/words"
)

// Pos is a place in a file: line and column count from 1, the column in
// characters (not bytes). Line 0 means the file as a whole.
type Pos struct {
	File      string
	Line, Col int
}

// String gives `file:line:col`, or the file name alone for line 0.
func (p Pos) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// show gives s for a message: in backticks, cut to 40 characters, with
// everything that could disturb a terminal escaped.
func show(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most-1]) + "…"
	}
	q := strconv.Quote(s)
	return "`" + strings.ReplaceAll(q[1:len(q)-1], `\"`, `"`) + "`"
}

// shown is [show] as a value of a message.
func shown(s string) words.Quote { return words.Quote(show(s)) }

// either are words of which one may be chosen: "a, b or c".
func either(all []string) words.Text { return words.Or(words.AsAre(all...)...) }
