package uitest

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// keyNamed are the ways in which a sentence names a key: "press K", "or K for", "(K)", "K: the radio goes off", "K sets it back"; "drücke K", "mit K", "K
// schaltet ihn ein".
var keyNamed = func() (all []*regexp.Regexp) {
	const key = `(F\d\d?|Tab|Enter|Esc|Space|Page(?:Up|Down)|Delete|Backspace|End|Leertaste|Eingabe|Bild[↑↓]|Entf|Rück|Ende|[“„].[”“]|[A-ZÀ-Ú←↑↓→])`
	for _, way := range []string{`(?:[Pp]ress|[Hh]old|[Ll]et go of|such as|[;,] or) KEY(?:[^\pL\pN]|$)`, `\(KEY[):]`,
		`(?:^|[.;] |, |then )KEY(?:: [a-z]| (?:brings|sets|switches|begins|tries|leads|keeps|goes|for|stops)\b)`,
		`(?:[Dd]rücke|[Hh]alte|[Hh]alte erst|[Ll]ass|\b[Mm]it|\bwie|etwa|[;,] oder) KEY(?:[^\pL\pN]|$)`,
		`(?:^|[.;:] |, |dann |oder )KEY(?:: (?:[a-zäöü]|Der (?:Sender|Demopilot)|Die Tastatur)| (?:bringt|setzt|schaltet|beginnt|führt|hält|lässt|geht|macht|sucht|trägt|wirkt|zeichnet|für|und)\b)`} {
		all = append(all, regexp.MustCompile(strings.Replace(way, "KEY", key, 1)))
	}
	return all
}()

// KeysNamed are the keys that a text names.
func KeysNamed(text string) (all []string) {
	for _, way := range keyNamed {
		for _, m := range way.FindAllStringSubmatch(text, -1) {
			if !slices.Contains(all, m[1]) {
				all = append(all, m[1])
			}
		}
	}
	return all
}

// stickKeyNamed is a text on whatever key moves a stick, and gap one in which a key's word is missing.
var stickKeyNamed, gap = regexp.MustCompile(`any stick key|Knüppeltaste`), regexp.MustCompile(`[\pL.,;:]  \pL|\b(?:[Pp]ress|[Dd]rücke|[Hh]old|[Hh]alte|by|mit) [.,;:]|\( ?[):]|[“„][”“]|^: `)

// SaysStickKey tells whether a text says that whatever stick key takes over.
func SaysStickKey(text string) bool { return stickKeyNamed.MatchString(text) }

// ForFingers fails where a page that a finger uses names a key, or leaves a gap where its word would be.
func ForFingers(t *testing.T, what string, p *ink.Page) {
	t.Helper()
	for _, it := range ink.Describe(p).Items {
		if keys := KeysNamed(it.Text); len(keys) > 0 || SaysStickKey(it.Text) {
			t.Errorf("%s: %s names keys to a finger: %q %v", what, it.Name, it.Text, keys)
		}
		if gap.MatchString(it.Text) {
			t.Errorf("%s: %s has a gap: %q", what, it.Name, it.Text)
		}
	}
}
