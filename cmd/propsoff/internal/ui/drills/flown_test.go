package drills_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/ink"
	drillssheet "propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
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

// inWind is a drill that has begun in a wind as the bench was told of it.
func inWind(t testing.TB, code string, tenths, from int32, gusts bool) *uitest.Stage {
	s := uitest.Airborne(t, 3)
	s.V.Snap.In.Wind = pulse.WindValue(tenths, from, gusts, 0)
	return running(t, s, code, drill.Running, drill.Try{})
}

// The wind that a drill tells of is drawn as it blows, from above and across the pilot's view, with its speed in words; one that a drill says nothing of stays hidden.
func TestTheWindIsShownAsItBlows(t *testing.T) {
	for _, c := range []struct {
		from        int32
		right, down float64 // which way the head lies from the tail, from above
		across      bool
		says        string
	}{{270, 1, 0, true, "from the left"}, {90, -1, 0, true, "from the right"}, {0, 0, 1, false, "from ahead"}, {180, 0, -1, false, "from behind you"}, {300, 1, 1, true, ""}} {
		seen := sheet(inWind(t, "hover-breeze", 30, c.from, false))
		shaft, head := seen.Named("above wind"), seen.Named("above wind-head")
		require.Len(t, shaft, 1)
		require.Len(t, head, 1)
		dx, dy := head[0].Box[0]+head[0].Box[2]/2-shaft[0].Box[0]-shaft[0].Box[2]/2, middle(head[0])-middle(shaft[0])
		sign := func(x float64) float64 {
			if math.Abs(x) < 2 {
				return 0
			}
			return math.Copysign(1, x)
		}
		assert.Equal(t, [2]float64{c.right, c.down}, [2]float64{sign(dx), sign(dy)}, "from %d", c.from)
		assert.Equal(t, c.across, len(seen.Named("stand wind")) == 1, "from %d", c.from)
		title, _ := seen.Text("view-from stand")
		assert.Contains(t, title, c.says)
		assert.Contains(t, strings.ReplaceAll(title, "\u00a0", " "), "wind 3.0 m/s")
	}
	gusty, _ := sheet(inWind(t, "hover-gusts", 40, 0, true)).Text("view-from stand")
	assert.Contains(t, gusty, "gusty")
	for _, code := range []string{"hover-square", "hover-off-level"} {
		seen := sheet(inWind(t, code, 30, 270, false))
		assert.Empty(t, seen.Named("above wind"), code)
		title, _ := seen.Text("view-from stand")
		assert.NotContains(t, title, "wind", code)
	}
}

// A drill that was left counts neither way: what its tries came to does not stand below that.
func TestADrillThatWasLeftShowsNoCount(t *testing.T) {
	for _, left := range []bool{true, false} {
		s := course(t)
		over := &drillrun.Result{Run: drill.Run{BrokenOff: left, Tries: []drill.Try{{Verdict: drill.Wrong, Reaction: -1}}}}
		drillssheet.Of(s.V).Run = drillssheet.Run{Over: over, One: drillssheet.Of(s.V).Drills[1]}
		sum, _ := sheet(s).Text("sum")
		assert.Equal(t, !left, strings.Contains(sum, "0 of 1 right"), sum)
	}
}

// The figures beside the picture are those that the drill asks for, and as the craft has them.
func TestTheFiguresAreWhatIsAskedFor(t *testing.T) {
	for code, want := range map[string][]string{"hold-height": {"high"}, "land-softly": {"high", "ing "}, "stop-on-mark": {"high", "speed "}} {
		s := running(t, uitest.Airborne(t, 3), code, drill.Running, drill.Try{})
		s.V.Snap.Air.Body.Vel.Z = 0.71
		var got []string
		for _, it := range sheet(s).Named("flown-figure") {
			got = append(got, it.Text)
		}
		require.Len(t, got, len(want), "%s: %q", code, got)
		for i := range want {
			assert.Contains(t, got[i], want[i], code)
		}
		if code == "land-softly" {
			assert.Equal(t, "sinking 0.7 m/s", strings.ReplaceAll(got[1], "\u00a0", " "))
			s.V.Snap.Air.Body.Vel.Z = 0.04
			assert.Equal(t, "climbing 0.0 m/s", strings.ReplaceAll(sheet(s).Named("flown-figure")[1].Text, "\u00a0", " "), "it sinks by nothing that can be read")
		}
	}
}
