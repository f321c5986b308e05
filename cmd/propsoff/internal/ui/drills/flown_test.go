package drills_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	drillssheet "propsoff/cmd/propsoff/internal/ui/drills"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/sim/drill"
)

// middle is the height of something thin on the sheet, px.
func middle(it ink.Described) float64 { return it.Box[1] + it.Box[3]/2 }

// The band of a height stands where the scale beside it has these metres; the square is as wide as the bar of
// the view from above says, and lies ahead of the start.
func TestTargetsStandWhereTheScalesHaveThem(t *testing.T) {
	s := running(t, uitest.Airborne(t, 3), "hold-height", drill.Running, drill.Try{})
	seen := sheet(s)
	edges, levels := seen.Named("stand target"), seen.Named("stand level")
	require.Len(t, edges, 2)
	metre := map[string]float64{}
	for _, it := range seen.Named("stand metres") {
		metre[it.Text] = middle(it)
	}
	require.NotEmpty(t, levels)
	assert.InDelta(t, metre["4 m"], middle(edges[0]), 4)
	assert.InDelta(t, metre["2 m"], middle(edges[1]), 4)

	s = running(t, uitest.Airborne(t, 3), "hover-square", drill.Running, drill.Try{})
	seen = sheet(s)
	square, bar := seen.Named("above-target"), seen.Named("above-bar")
	require.Len(t, square, 1)
	require.Len(t, bar, 1)
	perMetre := bar[0].Box[2] / 5 // the bar is of 5 m
	said, _ := seen.Text("above-scale")
	assert.Contains(t, said, "5")
	assert.InDelta(t, 3*perMetre, square[0].Box[2], 4)
	assert.InDelta(t, 3*perMetre, square[0].Box[3], 4)
	start := seen.Named("above start")
	require.Len(t, start, 1)
	assert.InDelta(t, 2.5*perMetre, start[0].Box[1]+start[0].Box[3]/2-(square[0].Box[1]+square[0].Box[3]), 6, "from 2.5 m ahead on")
}

// Of a task in parts the one whose turn it is is shown, in a try that is looked at what was not kept to, and where the craft was then.
func TestTheTargetIsThatOfTheTurn(t *testing.T) {
	s := running(t, uitest.Airborne(t, 3), "hover-nose", drill.Running, drill.Try{})
	wedge := func() ink.Described {
		all := sheet(s).Named("above-nose")
		require.NotEmpty(t, all)
		return all[len(all)-1]
	}
	away := wedge()
	drillssheet.Of(s.V).Run.State.Done = 1
	right := wedge()
	assert.Greater(t, right.Box[0], away.Box[0], "to the right")
	drillssheet.Of(s.V).Run.State.Done = 3
	towards := wedge()
	assert.Greater(t, towards.Box[1], right.Box[1], "towards the pilot, who stands below")

	early, late := flewOff(t, 0), flewOff(t, 30_000)
	at := func(s *uitest.Stage) []ink.Described { return sheet(s).Named("stand pointer") }
	require.Len(t, at(early), 1)
	assert.Equal(t, at(early)[0].Box[1], at(late)[0].Box[1], "it flew level")
	assert.NotEqual(t, sheet(early).Named("above-target"), sheet(late).Named("above-target"), "and the square stayed behind")
}
