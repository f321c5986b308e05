package report

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// followed are minutes in which marks were followed, one a day: of each stick in each mode so many, a little faster each day.
func followed(days int) (out []logbook.Entry) {
	for day := range days {
		for i, h := range []mark.Hand{{Axis: mark.Roll, Mode: layout.Angle}, {Axis: mark.Roll, Mode: layout.Rate}, {Axis: mark.Pitch, Mode: layout.Rate}, {Axis: mark.Yaw, Mode: layout.Rate}} {
			at := began.AddDate(0, 0, day)
			h.Measured, h.DelayMS, h.DelayWithin, h.Crossover, h.Noise = true, int32(max(350-10*day, 200)+i), 12, 2500, 80
			run := drill.Run{Drill: "follow", Day: logbook.Day(at), Learned: true, Tries: []drill.Try{
				{Verdict: drill.Wrong, Why: drill.NotMeasured, Reaction: -1, Hand: mark.Hand{Axis: h.Axis, Mode: h.Mode}},
				{Verdict: drill.Right, Reaction: -1, Hand: h},
			}}
			out = append(out, logbook.OfRun(at, &run, nil, "Follow a mark"))
		}
	}
	return out
}

// Each stick in each mode has its line: how long it takes now, and how long at first. What could not be measured is not counted.
func TestTheDelayOverDays(t *testing.T) {
	d := of(t, kept(t, "Ann", followed(4)...), Options{Date: began})
	lines, about := d.handLines()
	assert.Equal(t, []string{
		"Roll in angle: delay 320\u00a0ms (±12\u00a0ms), shorter than at first (350\u00a0ms).", "Roll in rate: delay 321\u00a0ms (±12\u00a0ms), shorter than at first (351\u00a0ms).",
		"Pitch in rate: delay 322\u00a0ms (±12\u00a0ms), shorter than at first (352\u00a0ms).", "Yaw: delay 323\u00a0ms (±12\u00a0ms), shorter than at first (353\u00a0ms).",
	}, english(lines))
	assert.Equal(t, "Measured 16 times, by following a mark.", words.English().Say(about))

	var page bytes.Buffer
	require.NoError(t, HTML(&page, words.English(), &d))
	assert.Contains(t, page.String(), "how long your hand takes")
	assert.Equal(t, 16, bytes.Count(page.Bytes(), []byte("<td>2.50</td>")), "a row for each minute")

	many := of(t, kept(t, "Ben", followed(mostHands+3)...), Options{Date: began})
	assert.Len(t, many.Hands[0].all, mostHands)
	assert.EqualValues(t, 350, many.Hands[0].first)
}
