package yamldoc

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
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

// Error is one thing wrong at one place. Msg says what, and what to do.
type Error struct {
	File      string
	Line, Col int // from 1; Line 0 means the file as a whole
	Msg       string
}

// Error gives `file:line:col: what, and what to do`.
func (e Error) Error() string { return Pos{e.File, e.Line, e.Col}.String() + ": " + e.Msg }

// Errors is everything that was found wrong, sorted by place.
type Errors []Error

// shownErrors is how many errors are printed; a file that is wholly wrong
// should not push its first line off the screen.
const shownErrors = 20

// Error gives one line for each error, at most 20, then "and N more".
func (es Errors) Error() string {
	var b strings.Builder
	for i, e := range es {
		if i == shownErrors {
			fmt.Fprintf(&b, "\nand %d more", len(es)-shownErrors)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(e.Error())
	}
	return b.String()
}

// Unwrap lets errors.As find the first [Error].
func (es Errors) Unwrap() []error {
	out := make([]error, len(es))
	for i, e := range es {
		out[i] = e
	}
	return out
}

// sorted gives a copy in the order of the file, the same error once, without
// those that were taken back (no Msg).
func (es Errors) sorted() Errors {
	out := slices.DeleteFunc(slices.Clone(es), func(e Error) bool { return e.Msg == "" })
	slices.SortStableFunc(out, func(a, b Error) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Col - b.Col
	})
	return slices.Compact(out)
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

// either joins words as a person would: "a, b or c".
func either(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
}
