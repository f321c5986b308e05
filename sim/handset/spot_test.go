package handset

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/pulse"
)

func lever(job string, side Side) Control {
	return Control{Job: job, Kind: Switch, Side: side, Positions: []Position{{Width: pulse.Low}, {Width: pulse.High}}}
}

// sound tells whether a spot lies on the radio.
func sound(s Spot) bool {
	return s.View > NoView && s.View < ViewCount && s.X >= 0 && s.X <= 1000 && s.Y >= 0 && s.Y <= 1000 && s.Way < WayCount
}

// What nobody has placed gets a place of its own where it is likely to be, and says that it is guessed; what was placed stays.
func TestControlsThatNobodyPlacedAreGuessed(t *testing.T) {
	said := Spot{View: OnBack, X: 3, Y: 4, Way: GoesLeft}
	knob := Control{Job: "channel 9", Kind: Knob}
	button := lever("channel 8", NoSide)
	button.Momentary = true
	six := lever("channel 10", NoSide)
	six.Positions = make([]Position, 6)
	placed := lever("lights", Left)
	placed.Spot = said
	r := Radio{Controls: []Control{{Job: "throttle"}, lever("arm", NoSide), lever("mode", NoSide), lever("channel 7", Left), lever("channel 11", Right), lever("channel 12", Top), knob, button, six, placed}}
	r.Settle()
	assert.Equal(t, Spot{}, r.Controls[0].Spot, "a stick has its well")
	assert.Equal(t, said, r.Controls[9].Spot)
	for i := 1; i < 9; i++ {
		s := r.Controls[i].Spot
		assert.True(t, s.Guessed && sound(s) && s.Way != NoWay, r.Controls[i].Job)
	}
	is := func(i int, v View, left bool) {
		assert.Equal(t, v, r.Controls[i].Spot.View, r.Controls[i].Job)
		assert.Equal(t, left, r.Controls[i].Spot.X < 500, r.Controls[i].Job)
	}
	is(1, OnShoulders, true)
	is(2, OnShoulders, false)
	is(3, OnShoulders, true)
	is(4, OnShoulders, false)
	assert.Equal(t, OnFace, r.Controls[5].Spot.View)
	assert.Equal(t, []Way{TurnsClockwise, Pressed, TurnsClockwise}, []Way{r.Controls[6].Spot.Way, r.Controls[7].Spot.Way, r.Controls[8].Spot.Way})
	again := r
	again.Settle()
	assert.Equal(t, r, again, "what is guessed stays")
}

// As long as there are places, no two controls are guessed to sit in one; with more there is still a place for each.
func TestGuessedPlacesDiffer(t *testing.T) {
	for n := range 40 {
		r := Radio{}
		for i := range n {
			r.Controls = append(r.Controls, lever("channel "+strconv.Itoa(i), Side(i%4)))
		}
		r.Settle()
		seen := map[Spot]bool{}
		for _, c := range r.Controls {
			require.True(t, sound(c.Spot))
			assert.False(t, n <= 16 && seen[c.Spot], "%d: %v", n, c.Spot)
			seen[c.Spot] = true
		}
	}
}

func TestShare(t *testing.T) {
	three := Control{Kind: Switch, Positions: []Position{{Width: pulse.Low}, {Width: pulse.Centre}, {Width: pulse.High}}}
	assert.Equal(t, []float64{0, 0.5, 0.5, 1}, []float64{three.Share(pulse.Low), three.Share(pulse.Centre), three.Share(pulse.Centre + 40), three.Share(pulse.Highest)})
	knob := Control{Kind: Knob, Low: pulse.Low, High: pulse.High}
	assert.Equal(t, []float64{0, 0.5, 1}, []float64{knob.Share(pulse.Lowest), knob.Share(pulse.Centre), knob.Share(pulse.Highest)})
	assert.Zero(t, (&Control{Kind: Knob}).Share(pulse.Centre))
}

func TestTurnedTwiceIsAsItWas(t *testing.T) {
	for w := NoWay; w < WayCount; w++ {
		assert.Equal(t, w, w.Turned(true).Turned(true))
		assert.Equal(t, w, w.Turned(false))
		assert.Equal(t, w == NoWay || w == Pressed, w == w.Turned(true))
	}
}
