package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/sim/drill"
)

// The alarm in the air, by keys: the craft is flown up, the hand answers, and at the end the sheet tells what its own time means, with each of its tries.
func TestTheAlarmInTheAirByKeys(t *testing.T) {
	p, book := atDrill(t, "zoe", "Stop at the alarm, in the air")
	run := func() *drills.Run { return &drills.Of(p.s.View()).Run }
	for n := 0; run().On; n++ {
		require.Less(t, n, 3000, "phase %d, case %d, step %d, tries %v", run().State.Phase, run().State.Case, run().State.At, run().Tries)
		c := &run().One.Config.Cases[run().State.Case]
		switch before := c.Before; run().State.Phase {
		case drill.Preparing:
			if at := int(run().State.At); at < len(before) {
				p.satisfies(before[at].Until, run().Missing)
			}
			p.wait(60)
		case drill.Waiting, drill.Settling:
			p.satisfies(before[len(before)-1].Until, ^uint32(0)) // flies on
			p.wait(16)
		case drill.Running:
			p.wait(250)
			p.taps("Space X")
			p.wait(300)
		case drill.Looking:
			require.Fail(t, "a wrong try", "%+v", run().Tries)
		default:
			p.wait(100)
		}
	}
	require.True(t, p.reads("Learned. It is due again in 1 day."))
	require.Len(t, book.runs, 1)
	assert.Equal(t, "alarm-in-air", book.runs[0].Drill)
	p.until("what the reaction meant is worked out bit by bit", func() bool { return p.reads("right tries (the dot) you disarmed") })
	assert.Len(t, ink.Describe(p.page).Named("alarm-try"), 4)
	m := run().Means
	assert.Less(t, m.Stands-m.After, int64(25))
	assert.Greater(t, m.Goes, m.Half)
	p.tap("Enter")
	require.False(t, p.reads("(the dot) you disarmed"))
}

// Whoever arms in a flown drill and leaves it finds the desk bench as it was: without propellers.
func TestAFlownDrillLeavesNoPropellersOnTheDesk(t *testing.T) {
	p, _ := atDrills(t)
	p.goTo("Hold a height")
	p.tap("Enter")
	p.wait(4000)
	p.tap("Space")
	require.True(t, p.snap().Armed)
	require.NotZero(t, p.snap().In.Hands)
	for n := 0; p.s.Place() != ui.OnBench && n < 8; n++ {
		p.tap("Esc")
		p.wait(200)
		if p.s.Place() == ui.OnAsk { // what would be lost is asked, with the safe answer first
			p.tap("PageDown")
			p.tap("Enter")
		}
	}
	p.wait(500)
	require.Equal(t, ui.OnBench, p.s.Place())
	in := p.snap().In
	assert.True(t, !in.Air && in.Powered && !p.snap().Armed)
	assert.Zero(t, in.Hands)
	assert.False(t, in.Checked)
}
