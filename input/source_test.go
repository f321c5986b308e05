package input_test

import (
	"testing"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/input"
)

// Every language says what ends a source.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("source")
	room.Error(t, input.ErrGone)
	room.Error(t, input.ErrEnd)
	room.Whole(t)
}
