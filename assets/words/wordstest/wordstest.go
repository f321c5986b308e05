// Package wordstest asks of errors and texts, in tests, that every language says them, and that no message of a room is left untried.
package wordstest

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"propsoff.example/assets/words"
)

// Owed is how a text begins that stands in a language's folder and is still to be translated.
const Owed = "?? "

// Books are the languages of the program, English first.
func Books() (all []*words.Book) {
	for _, tag := range words.Languages() {
		all = append(all, words.In(tag.String()))
	}
	return all
}

// Other are the languages besides English.
func Other() []*words.Book { return Books()[1:] }

// English finds a word in a text of another language that only English has, by the list that stands in that language's folder; empty
// where there is none, and for English itself.
func English(t testing.TB, book *words.Book, text string) string {
	t.Helper()
	if book == nil || book == words.English() {
		return ""
	}
	list, read := lists[book.Code()]
	if !read {
		var err error
		if list, err = englishOnly(book.Code()); err != nil {
			t.Fatalf("the words that only English has, for texts in %s (scripts/newlanguage writes them): %v", book.Code(), err)
		}
		lists[book.Code()] = list
	}
	if list == nil {
		return ""
	}
	return list.FindString(text)
}

// lists are those of englishOnly that were read, by the code of the language: the tests that ask run one after the other.
var lists = map[string]*regexp.Regexp{}

// englishOnly reads a language's list, nil for one without a word. A test runs somewhere below the module's root.
func englishOnly(code string) (*regexp.Regexp, error) {
	root, err := filepath.Abs(".")
	if err != nil {
		return nil, err
	}
	for ; root != filepath.Dir(root); root = filepath.Dir(root) {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			break
		}
	}
	text, err := os.ReadFile(filepath.Join(root, "assets/words", code, "testdata/english.txt"))
	if err != nil {
		return nil, err
	}
	var all []string
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "#") {
			all = append(all, strings.Fields(line)...)
		}
	}
	if len(all) == 0 {
		return nil, nil
	}
	return regexp.Compile(`\b(` + strings.Join(all, "|") + `)\b`)
}

// Room is the messages of one room and which of them were said.
type Room struct {
	name string
	said map[words.ID]bool
}

// Of is a room of which nothing was said yet.
func Of(name string) *Room { return &Room{name: name, said: map[words.ID]bool{}} }

// Error says an error in every language. It fails where one has no word for it, and where a sentence stands the same in two languages.
func (r *Room) Error(t testing.TB, err error) {
	t.Helper()
	r.say(t, words.MessagesOf(err), func(b *words.Book) string { return b.Error(err) })
}

// Text is Error for a text.
func (r *Room) Text(t testing.TB, text words.Text) {
	t.Helper()
	r.say(t, text.Messages(), func(b *words.Book) string { return b.Say(text) })
}

func (r *Room) say(t testing.TB, ids []words.ID, in func(*words.Book) string) {
	t.Helper()
	for _, id := range ids {
		r.said[id] = true
	}
	english := in(words.English())
	for _, book := range Books() {
		said, tag := in(book), book.Tag()
		if strings.Contains(said, "⟦") {
			t.Errorf("%s cannot be said in %s: %s", ids, tag, said)
		}
		if book != words.English() && len(ids) > 0 && said == english && strings.Count(said, " ") > 2 {
			t.Errorf("%s is the same in %s: %s", ids, tag, said)
		}
	}
	if len(ids) == 0 {
		t.Errorf("this is no message, so it is said in one language only: %s", english)
	}
}

// Whole fails for each message of the room that was not said, but for those that no test can bring about.
func (r *Room) Whole(t testing.TB, except ...words.ID) {
	t.Helper()
	all := 0
	for _, m := range words.Messages(words.English().Tag()) {
		room, _, _ := strings.Cut(m.ID, ".")
		if room != r.name {
			continue
		}
		all++
		if left := slices.Contains(except, words.ID(m.ID)); left == r.said[words.ID(m.ID)] {
			t.Errorf("%s: said %v, left out %v", m.ID, r.said[words.ID(m.ID)], left)
		}
	}
	if all == 0 {
		t.Errorf("there is no room %s", r.name)
	}
}
