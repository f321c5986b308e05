package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ui/drills"
	"propsoff/sim/drill"
)

// Taps of keys alone hold a height: a made hand looks four times a second at what it saw a fifth of a second ago, and taps the key of the throttle that
// brings the climb to what it wants, for 50 to 250 ms and never longer.
func TestTapsOfKeysHoldAHeight(t *testing.T) {
	p, book := atDrills(t)
	p.named("zoe")
	p.goTo("Hold a height")
	p.tap("Enter")
	run := func() *drills.Run { return &drills.Of(p.s.View()).Run }
	require.True(t, run().On)
	hover, tapped := false, 0
	for n := 0; run().On; n++ {
		require.Less(t, n, 1500, "phase %d, tries %+v", run().State.Phase, run().Tries)
		if at := run().State.At; run().State.Phase == drill.Preparing && at == 0 {
			p.satisfies(run().One.Config.Cases[0].Before[0].Until, run().Missing)
			p.wait(60)
			continue
		}
		if n == 0 || !hover && !p.snap().Armed {
			require.True(t, p.reads("A tap of W or S moves the throttle a little, with Shift held less still"))
			p.tap("Space")
			p.wait(100)
			continue
		}
		if run().State.Phase == drill.Looking {
			require.Fail(t, "a wrong try", "%+v", run().Tries)
		}
		body := p.snap().Air.Body
		height, climb := -body.Pos.Z, -body.Vel.Z
		p.wait(200)
		want := min(max(0.5*(3-height), -0.7), 0.7)
		if !hover { // off the ground first: up to where it begins to climb
			hover = climb > 0.3
			want = 9
		}
		if off := want - climb; off > 0.12 || off < -0.12 {
			key := map[bool]string{true: "W", false: "S"}[off > 0]
			p.s.Key(key, true)
			p.wait(int(min(max(70*max(off, -off), 50), 250)))
			p.s.Key(key, false)
			tapped++
		}
	}
	require.Len(t, book.runs, 1)
	assert.True(t, book.runs[0].Learned, "%+v", book.runs[0].Tries)
	assert.Len(t, book.runs[0].Tries, 2, "both right at once")
	assert.Greater(t, tapped, 10)
}
