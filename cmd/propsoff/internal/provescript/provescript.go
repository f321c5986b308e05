// Package provescript writes the way to a broken rule as a pilot script.
package provescript

import (
	"fmt"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input"
	"propsoff.example/input/script"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove"
)

// Script is the way of a result as a pilot script, which expects at its end the very state that the search claims. Its name and the comment
// at its head are in the language of a book. path is what the script calls the craft's file, gestures what it calls the gesture file, empty
// for the shipped one. A result without readings has none.
func Script(book *words.Book, l *prove.Layout, r *prove.Result, path, gestures string, names input.Names) ([]byte, error) {
	if r.Way == nil || len(r.Way.Readings) == 0 {
		return nil, words.Wrong("prove.no-way")
	}
	return script.Write(script.Draft{
		Comment:  comment(book, l, r),
		Name:     book.Say(tell.WayName(r)),
		Craft:    path,
		Gestures: gestures,
		Readings: r.Way.Readings,
		Expects:  Expects(r.Way),
	}, names)
}

// Expects is the claim of a way as expectations of a script.
func Expects(w *prove.Way) []script.Expect {
	at, state := w.Final*1000, [2]script.Kind{script.Disarmed, script.Armed}
	is, was := 0, 1
	if w.Claim.Armed {
		is, was = 1, 0
	}
	now := script.Expect{At: at, Kind: state[is]}
	switch h := happening.Code(w.Claim.Happens); h {
	case 0:
		return []script.Expect{now}
	case happening.Armed, happening.Disarmed: // words of states in a script: that it happens now, the millisecond before tells
		if w.Final == 0 {
			return []script.Expect{now}
		}
		return []script.Expect{{At: at - 1000, Kind: state[was]}, now}
	default:
		return []script.Expect{now, {At: at, Kind: script.Happens, Codes: []string{codes.Code(h)}}}
	}
}

// comment tells rule, finding and steps at the head of the script. Its first words are those by which a script is known as one of these.
func comment(book *words.Book, l *prove.Layout, r *prove.Result) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s.\n%s\n\n", codes.WayMark, book.Say(tell.WayName(r)), book.Say(tell.WayRule(l, r)))
	for _, s := range tell.ProvedSteps(l, r.Way) {
		stepLine(&b, book, s.Number, s.At, s.Text, s.Then)
	}
	return strings.TrimRight(b.String(), "\n")
}

// stepLine is a step of a way as a line of a comment.
func stepLine(b *strings.Builder, book *words.Book, number string, at, text, then words.Text) {
	fmt.Fprintf(b, "%3s  %9s  %s", number, book.Say(at), book.Say(text))
	if !then.Empty() {
		fmt.Fprintf(b, " → %s", book.Say(then))
	}
	b.WriteByte('\n')
}
