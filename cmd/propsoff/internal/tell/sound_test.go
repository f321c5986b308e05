package tell

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/sound"
)

// Hearing is never needed: every tone has words, and no two have the same.
func TestEveryToneHasACaptionOfItsOwn(t *testing.T) {
	seen := map[string]sound.Code{}
	for _, c := range sound.All() {
		for _, book := range wordstest.Books() {
			caption := book.Say(SoundCaption(c))
			assert.NotEmpty(t, caption, c.Word())
			assert.LessOrEqual(t, utf8.RuneCountInString(caption), 20, "%q is read in two seconds", caption)
			_, there := seen[book.Code()+caption]
			assert.False(t, there, caption)
			seen[book.Code()+caption] = c
		}
	}
	assert.Empty(t, spoken(SoundCaption(sound.None)))
	assert.Empty(t, spoken(SoundCaption(sound.CodeCount)))
}

func TestCaptionsOfOneMoment(t *testing.T) {
	assert.Equal(t, "♪ link lost, disarmed", spoken(SoundCaptions([]sound.Code{sound.LinkLost, sound.Disarmed}, false)))
	assert.Equal(t, "♪ armed (no sound)", spoken(SoundCaptions([]sound.Code{sound.Armed}, true)))
	assert.Empty(t, spoken(SoundCaptions(nil, true)))
}
