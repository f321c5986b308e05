package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// What was measured is said in both languages, and each sentence of the room is said.
func TestWhatTheHandIs(t *testing.T) {
	room := wordstest.Of("hand-measured")
	h := mark.Hand{Axis: mark.Roll, Mode: layout.Rate, Measured: true, DelayMS: 284, DelayWithin: 12, Crossover: 3105, CrossoverWithin: 160, Noise: 123}
	was := h
	was.DelayMS = 310
	say := func(text words.Text) string {
		room.Text(t, text)
		return strings.ReplaceAll(words.English().Say(text), "\u00a0", " ")
	}
	assert.Equal(t, "Your delay: 284 ms", say(HandDelay(&h)))
	assert.Equal(t, "It lies between 272 and 296 ms with 95 % confidence; the time that the picture takes is in it. Last time it was 310 ms.", say(HandWithin(&h, &was)))
	assert.NotContains(t, say(HandWithin(&h, nil)), "Last time")
	assert.Equal(t, "You keep up with up to 0.5 swings a second (crossover 3.11 ± 0.16 rad/s). 12 % of the stick's movement had nothing to do with the line.", say(HandKeepsUp(&h)))
	assert.Equal(t, "Roll in rate: delay 284 ms (272 to 296 ms), crossover 3.11 rad/s, noise 12 %.", say(HandSentence(&h)))
	assert.Equal(t, "42 s left", say(HandLeft(41_001)))
	assert.Equal(t, "0 s left", say(HandLeft(0)))

	none := mark.Hand{Axis: mark.Yaw, Mode: layout.Rate}
	assert.Equal(t, "Yaw: not measured.", say(HandSentence(&none)))
	assert.True(t, HandDelay(&none).Empty())
	assert.True(t, HandSentence(&mark.Hand{}).Empty())

	for last, says := range map[int32]string{
		270: "Roll in angle: delay 270 ms (±9 ms), shorter than at first (340 ms).", 400: "Roll in angle: delay 400 ms (±9 ms), longer than at first (340 ms).",
		340: "Roll in angle: delay 340 ms (±9 ms), as at first.",
	} {
		o := HandOver{Axis: mark.Roll, Mode: layout.Angle, First: 340, Last: last, Within: 9, Days: 2}
		assert.Equal(t, says, say(o.Sentence()))
	}
	one := HandOver{Axis: mark.Roll, Mode: layout.Angle, First: 340, Last: 340, Within: 9, Days: 1}
	assert.Equal(t, "Roll in angle: delay 340 ms (±9 ms).", say(one.Sentence()))
	c := drill.Case{Mark: mark.Config{Axis: mark.Roll, RunIn: 5000, Seconds: 60}}
	assert.Equal(t, "It takes 65 s; the last 60 s count.", say(DrillLimit(&c)))
	room.Whole(t)
}
