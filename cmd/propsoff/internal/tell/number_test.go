package tell

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
)

func TestMeasuredNumbers(t *testing.T) {
	german := words.In("de")
	assert.Equal(t, "12.3 m", spoken(Metres(12.34)))
	assert.Equal(t, "−0.6 m/s", spoken(Speed(-0.55)), "the minus sign is a long one")
	assert.Equal(t, "0.0 m/s", spoken(Speed(-0.04)), "nothing has no sign")
	assert.Equal(t, "−0,6 m/s", german.Say(Speed(-0.55)))
	assert.Equal(t, "0.0 V", spoken(PackVolts(math.NaN())), "what is no number is harmless")
	assert.Equal(t, "12° left", spoken(Bank(-12.4)))
	assert.Equal(t, "level", spoken(Bank(-0.4)))
	assert.Equal(t, "3° hoch", german.Say(Pitch(2.6)))
	assert.Equal(t, "350°", spoken(Heading(-10)))
	assert.Equal(t, "0.2 m", spoken(Length(0.2)))
	assert.Equal(t, "250 m", spoken(Length(250)))
}
