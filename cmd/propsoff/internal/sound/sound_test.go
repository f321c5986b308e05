package sound

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
)

// Every tone has its word, its place in the order and its steps; no two have the same word or place.
func TestEveryToneIsWhole(t *testing.T) {
	seen := map[string]bool{}
	ranks := map[int]bool{}
	for _, c := range All() {
		assert.NotEmpty(t, c.Word())
		assert.False(t, seen[c.Word()], c.Word())
		assert.False(t, ranks[c.rank()], c.Word())
		assert.Less(t, c.rank(), None.rank(), c.Word())
		assert.NotEmpty(t, c.Tone().Steps, c.Word())
		seen[c.Word()], ranks[c.rank()] = true, true
	}
	assert.Len(t, urgency, int(CodeCount)-1-layout.Modes)
	assert.Empty(t, None.Word())
	assert.Empty(t, CodeCount.Word())
}

// silent are the codes that have no tone on purpose.
var silent = []happening.Code{
	happening.Sinking,   // the lost link sounds
	happening.SinkEnded, // the good link sounds
	happening.AirMode,
	happening.Settled,
	happening.Power,
	happening.Cable,
	happening.Transmitter,
	happening.Plug,
	happening.Tilted,
	happening.Nudged,
	happening.Menu,
	happening.Pack,
	happening.TravelShort,
	happening.ReadingsLost,
	happening.Slept,
	happening.Moved,
	happening.Fitted,
	happening.TookOff,
	happening.TouchedDown,
	happening.TippedOver, happening.Broke,
	happening.StickMode,
	happening.Gesture,
	happening.GestureNear,
	happening.MenuMark,
	happening.MenuValue,
	happening.MenuLeft,
	happening.Instructed, // nobody is to hear what the instructor does
}

// Every code of the record either has a tone or is silent on purpose: a new one must be decided on.
func TestEveryHappeningIsDecidedOn(t *testing.T) {
	for code := happening.Code(1); code < happening.CodeCount; code++ {
		tone := Of(happening.Happening{Code: code})
		assert.NotEqual(t, tone == None, !slices.Contains(silent, code), "code %d: a tone, or silent, and not both", code)
		if code != happening.Mode {
			assert.Equal(t, happened[code], tone, "code %d", code)
		}
	}
	assert.Zero(t, happened[0])
	assert.Equal(t, None, Of(happening.Happening{Code: happening.CodeCount}))
}

func TestEachModeHasItsOwnTone(t *testing.T) {
	of := func(m int32) Code { return Of(happening.Happening{Code: happening.Mode, A: m}) }
	heard := map[[2]float64]string{}
	for m := range layout.Mode(layout.Modes) {
		c := of(int32(m))
		assert.Equal(t, "mode-"+m.Code(), c.Word())
		back, ok := c.Mode()
		assert.True(t, ok && back == m, m.Code())
		steps := c.Tone().Steps
		require.NotEmpty(t, steps, "the mode %s has no notes: give it a row in modeTones in sound/tones.go", m.Code())
		notes := [2]float64{steps[0].From, steps[len(steps)-1].To}
		assert.Empty(t, heard[notes], "%s sounds as that", m.Code())
		heard[notes] = m.Code()
	}
	for _, c := range []Code{None, Refused, LinkLost, CodeCount} {
		_, ok := c.Mode()
		assert.False(t, ok, c.Word())
	}
	assert.Equal(t, []Code{None, None}, []Code{of(-1), of(layout.Modes)})
}

func TestTheMostUrgentComesFirst(t *testing.T) {
	assert.Equal(t, []Code{DrillAlarm, LinkLost, Disarmed, OfMode(layout.Angle)}, Order([]Code{Disarmed, OfMode(layout.Angle), LinkLost, Disarmed, DrillAlarm, OfMode(layout.Angle)}))
	assert.Empty(t, Order(nil))
	assert.True(t, LinkLost.Before(Disarmed))
	assert.False(t, Disarmed.Before(Disarmed))
	assert.True(t, OfMode(layout.Angle).Before(None))
	for _, c := range All() {
		assert.False(t, c.Before(DrillAlarm), "nothing goes before an alarm")
	}
}

func TestOfTheSameThing(t *testing.T) {
	for _, pair := range [][2]Code{{Armed, Disarmed}, {OfMode(layout.Angle), OfMode(layout.Rate)}, {LinkLost, LinkClean}, {DrillRight, DrillWrong}, {Armed, Armed}} {
		assert.True(t, pair[0].SameThing(pair[1]), "%v", pair)
	}
	for _, pair := range [][2]Code{{LinkLost, Disarmed}, {DrillAlarm, DrillRight}, {OfMode(layout.Angle), Armed}, {Armed, CodeCount}} {
		assert.False(t, pair[0].SameThing(pair[1]), "%v", pair)
	}
	for _, c := range All() {
		assert.NotZero(t, c.thing(), c.Word())
	}
}
