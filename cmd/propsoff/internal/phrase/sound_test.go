package phrase_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sound"
)

// Hearing is never needed: every tone has words, and no two have the same.
func TestEveryToneHasACaptionOfItsOwn(t *testing.T) {
	seen := map[string]sound.Code{}
	for _, c := range sound.All() {
		words := phrase.SoundCaption(c)
		assert.NotEmpty(t, words, c.Word())
		assert.LessOrEqual(t, len(words), 20, "%q is read in two seconds", words)
		_, there := seen[words]
		assert.False(t, there, words)
		seen[words] = c
	}
	assert.Empty(t, phrase.SoundCaption(sound.None))
	assert.Empty(t, phrase.SoundCaption(sound.CodeCount))
}

func TestCaptionsOfOneMoment(t *testing.T) {
	assert.Equal(t, "♪ link lost, disarmed", phrase.SoundCaptions([]sound.Code{sound.LinkLost, sound.Disarmed}, false))
	assert.Equal(t, "♪ armed (no sound)", phrase.SoundCaptions([]sound.Code{sound.Armed}, true))
	assert.Empty(t, phrase.SoundCaptions(nil, true))
}
