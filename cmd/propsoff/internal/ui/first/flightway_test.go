package first_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/first"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim"
	"propsoff.example/sim/body"
)

func TestWrongPropellersAreNamed(t *testing.T) {
	turns := body.Default().Turns
	tried := turns
	tried[3] = -tried[3]
	assert.Equal(t, "The last flight tipped over. The rear right propeller was the wrong one: its motor turns clockwise, so it pushed down instead of lifting.",
		uitest.Say(tell.WrongPropellers(turns, tried, true)))
	tried = turns
	tried[0] = 0
	assert.Equal(t, "The last flight tipped over. There was no propeller at the front left.", uitest.Say(tell.WrongPropellers(turns, tried, true)))
	assert.Equal(t, "The last flight tipped over. The propellers were right; it was flown over.", uitest.Say(tell.WrongPropellers(turns, turns, true)))
	assert.Equal(t, "The last flight never left the ground. The propellers were right; it needs more throttle.", uitest.Say(tell.WrongPropellers(turns, turns, false)))
}

// The three kinds of a propeller come round, and the motors' hit areas are found again.
func TestPuzzleKeysAndClicks(t *testing.T) {
	hand, seen := int8(0), []int8{}
	for range 3 {
		hand = first.NextHand(hand)
		seen = append(seen, hand)
	}
	assert.Equal(t, []int8{1, -1, 0}, seen)
	p := ink.NewPage(960, 600, 0, nil)
	first.Draw(p, puzzled(t).V)
	found := 0
	for _, h := range p.Hits() {
		if i, ok := figure.MotorOf(h.Name); ok {
			assert.Equal(t, found, i)
			found++
		}
	}
	assert.Equal(t, 4, found)
	_, ok := figure.MotorOf("motor-5")
	assert.False(t, ok)
	assert.Equal(t, []int{4, 10, 1, 4}, []int{ui.NextSlow(1), ui.NextSlow(4), ui.NextSlow(10), ui.NextSlow(0)})
}

// The puzzle draws motors and propellers as they turn: the arrow's tip of a clockwise one is at the right of its top.
func TestArrowsTurnTheirWay(t *testing.T) {
	for _, hand := range []int8{1, -1} {
		p := ink.NewPage(960, 600, 0, nil)
		b := figure.NewBoard(p, &ui.View{House: uitest.AllSheets(), Snap: sim.Snapshot{}})
		b.TurnArrow("a", ink.Point{X: 300, Y: 300}, 100, hand, 1, ink.Paint{Line: ink.Ink, Width: 2})
		tips := ink.Describe(p).Named("a tip")
		require.Len(t, tips, 2)
		top, bottom := tips[0], tips[1]
		assert.Equal(t, hand > 0, top.Box[0] > 300)
		assert.Equal(t, hand > 0, bottom.Box[0] < 300)
		assert.Less(t, top.Box[1], 300.0)
	}
}
