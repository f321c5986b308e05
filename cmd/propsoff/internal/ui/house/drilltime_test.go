package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/live"
)

// A drill has its own time: what was paused, slow or a look back runs on once it begins, and once its sheet is come back to.
func TestADrillBeginsInTimeThatRuns(t *testing.T) {
	p, _ := atDrills(t)
	ready := func(what string) {
		t.Helper()
		require.Equal(t, live.Running, p.loop.Pace(), what)
		for n := 0; !p.reads("Ready") && !p.reads("Now"); n++ {
			require.Less(t, n, 400, what)
			p.wait(16)
		}
	}
	for _, keys := range []string{"G", "H", "G H H", "R"} {
		p.taps("C I")
		p.wait(500)
		p.taps(keys)
		require.NotEqual(t, live.Running, p.loop.Pace(), keys)
		p.taps("I C")
		p.goTo("Find the throttle")
		p.tap("Enter")
		ready(keys)
		p.taps("Backspace PageDown Enter Enter") // left, once that is asked; and its end is read
	}
	p.tap("Enter")
	p.taps("C I G") // before anything can be measured
	require.Equal(t, live.Paused, p.loop.Pace())
	p.taps("I C")
	ready("come back to")
}

// Time that runs slower measures nothing: the drill ends and says so.
func TestADrillEndsWhenTimeStandsStill(t *testing.T) {
	p, _ := atDrills(t)
	p.goTo("Find the throttle")
	p.tap("Enter")
	for n := 0; !p.reads("Ready") && !p.reads("Now"); n++ {
		require.Less(t, n, 400)
		p.wait(16)
	}
	p.tap("C") // to the bench, and time is stopped from the desk
	p.tap("I")
	p.tap("G")
	p.wait(100)
	p.tap("I")
	p.tap("C")
	require.True(t, p.reads("nothing could be measured"), "%q", texts(p))
}
