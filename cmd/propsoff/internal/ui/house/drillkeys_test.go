package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/sim/drill"
)

// Taps of keys alone hold a height: a made hand looks four times a second at what it saw a fifth of a second ago, and taps the key of the throttle that
// brings the climb to what it wants, for 60 to 160 ms and never longer.
func TestTapsOfKeysHoldAHeight(t *testing.T) {
	p, book := atDrill(t, "zoe", "Hold a height")
	run := func() *drills.Run { return &drills.Of(p.s.View()).Run }
	require.True(t, run().On)
	hover, tapped, climb := false, 0, 0.0
	for n := 0; run().On; n++ {
		require.Less(t, n, 1500, "phase %d, tries %+v", run().State.Phase, run().Tries)
		if at := run().State.At; run().State.Phase == drill.Preparing && at == 0 {
			p.satisfies(run().One.Config.Cases[0].Before[0].Until, run().Missing)
			p.wait(60)
			hover, climb = false, 0
			continue
		}
		if n == 0 || !hover && !p.snap().Armed {
			require.True(t, p.reads("A tap of W or S moves the throttle a little, with Shift held less still"))
			p.tap("Space")
			p.wait(100)
			continue
		}
		if run().State.Phase == drill.Looking {
			require.Fail(t, "a wrong try", "%+v, %+v", run().Tries, run().Did)
		}
		was, body := climb, p.snap().Air.Body
		climb = -body.Vel.Z
		if !hover { // off the ground first: up to where it begins to climb
			hover = climb > 0.1
			p.hold("W", 200)
			p.wait(150)
			continue
		}
		p.wait(200)
		want := min(max(0.4*(3+body.Pos.Z), -0.6), 0.6)
		if off := want - climb - 1.5*(climb-was); off > 0.1 || off < -0.1 {
			p.hold(map[bool]string{true: "W", false: "S"}[off > 0], int(min(60+40*max(off, -off), 160)))
			tapped++
		}
	}
	require.Len(t, book.runs, 1)
	assert.True(t, book.runs[0].Learned, "%+v", book.runs[0].Tries)
	assert.Len(t, book.runs[0].Tries, 2, "both right at once")
	assert.Greater(t, tapped, 10)
}
