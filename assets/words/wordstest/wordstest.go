// Package wordstest asks of errors and texts, in tests, that every language says them, and that no message of a room is left untried.
package wordstest

import (
	"slices"
	"strings"
	"testing"

	"propsoff/assets/words"
)

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
	for _, tag := range words.Languages() {
		said := in(words.In(tag.String()))
		if strings.Contains(said, "⟦") {
			t.Errorf("%s cannot be said in %s: %s", ids, tag, said)
		}
		if tag != words.Languages()[0] && len(ids) > 0 && said == english && strings.Count(said, " ") > 2 {
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
