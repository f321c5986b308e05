package screen

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
)

// What is typed is any letters; a letter goes with its marks, and no more are taken than there is room for, which is said.
func TestAnyLettersAreTyped(t *testing.T) {
	s := &Screen{}
	s.Type("nobody asks for it")
	var taken string
	s.Write(Writing{Most: 8, Take: func(text string) words.Text {
		taken = text
		return words.Text{}
	}})
	w := s.Written()
	s.Type("Zoé-")
	s.Type("\x1b\n\x00e\u0301ßW\u0308")
	assert.Equal(t, "Zoé-e\u0301ßW\u0308", w.Typed, "what steers is left out")
	assert.Equal(t, 7, Letters(w.Typed))
	assert.False(t, w.Full)
	s.Type("ab")
	assert.True(t, w.Full)
	assert.Equal(t, "Zoé-e\u0301ßW\u0308a", w.Typed)
	w.Back()
	assert.False(t, w.Full)
	w.Back()
	assert.Equal(t, "Zoé-e\u0301ß", w.Typed, "a letter goes with the mark on it")
	for range 300 {
		s.Type("\u0301")
	}
	assert.LessOrEqual(t, len(w.Typed), 8*mostBytes)
	for range 20 {
		w.Back()
	}
	assert.Empty(t, w.Typed)
	s.Type("Mara")
	s.EndWriting(true)
	assert.Equal(t, "Mara", taken)
	assert.Nil(t, s.Written())
	s.Write(Writing{Most: 9, Numbers: true, Take: func(string) words.Text { return words.AsIs("no") }})
	s.Type("a1 2e.5")
	assert.Equal(t, "1 2.5", s.Written().Typed)
	s.EndWriting(true)
	assert.NotNil(t, s.Written(), "what will not do is typed on")
	s.EndWriting(false)
	assert.Nil(t, s.Written())
}
