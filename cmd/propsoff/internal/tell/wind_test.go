package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/pulse"
)

// The wind is said in each language, from all eight sides, each from half way to the side before it on.
func TestWind(t *testing.T) {
	room := wordstest.Of("flight")
	say := func(text words.Text) string {
		room.Text(t, text)
		return strings.ReplaceAll(words.English().Say(text), "\u00a0", " ")
	}
	for i, side := range []string{
		"from ahead", "from ahead on the right", "from the right", "from behind on the right", "from behind you", "from behind on the left", "from the left", "from ahead on the left",
	} {
		for _, off := range []int{-22, 0, 22} {
			from := int32(i*45+off+360) % 360
			assert.Equal(t, "wind 3.0 m/s, "+side, say(Wind(pulse.WindValue(30, from, false, 7), true)), from)
		}
	}
	assert.Equal(t, "wind 4.5 m/s, gusty", say(Wind(pulse.WindValue(45, 90, true, 7), false)))
	assert.True(t, Wind(0, true).Empty())
	assert.True(t, Wind(pulse.WindValue(0, 90, true, 7), true).Empty())
}
