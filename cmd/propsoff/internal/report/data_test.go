package report

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/drill"
)

func english(all []words.Text) (out []string) {
	for _, t := range all {
		out = append(out, words.English().Say(t))
	}
	return out
}

// A week worked by hand.
func TestCountsByHand(t *testing.T) {
	cfg := &drill.Config{Cases: []drill.Case{{WaitLow: 2000, WaitHigh: 8000, Within: 1000}}}
	day := func(n int) time.Time { return began.AddDate(0, 0, n) }
	run := func(at time.Time, code string, learned, broken bool, tries ...drill.Try) logbook.Entry {
		return logbook.OfRun(at, &drill.Run{Drill: code, Learned: learned, BrokenOff: broken, Tries: tries}, cfg, "The "+code)
	}
	right := func(ms int32) drill.Try { return drill.Try{Verdict: drill.Right, Reaction: ms} }
	late := drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 1900}
	never := drill.Try{Verdict: drill.TooLate, Why: drill.StillMissing, Reaction: -1}
	early := drill.Try{Verdict: drill.FalseStart, Why: drill.ActedBefore, Reaction: -1}
	guessed := drill.Try{Verdict: drill.Anticipated, Why: drill.UnderHundred, Reaction: 50}
	void := drill.Try{Verdict: drill.Void, Why: drill.NotShown, Reaction: -1}
	wrong := drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Reaction: 400}
	e := []logbook.Entry{
		logbook.Began(day(0), logbook.Practice{}),
		run(day(0), "alarm", true, false, right(700), right(900), late, never, early, guessed, void, wrong),
		run(day(0), "alarm", false, true, right(100)), // broken off: counts neither way
		{At: day(0), Day: logbook.Day(day(0)), Kind: logbook.KindRefusals, Counts: map[string]int64{"throttle-up": 2, "tilted": 0, "of-later": 2}},
		logbook.Ended(day(0), 20*time.Minute),
		logbook.Began(day(2), logbook.Practice{}), // killed: it never ended
		run(day(2), "other", false, false, wrong),
		run(day(2), "alarm", true, false, right(600)),
		logbook.Began(day(6), logbook.Practice{}),
		{At: day(6), Day: logbook.Day(day(6)), Kind: logbook.KindRefusals, Counts: map[string]int64{"throttle-up": 1, "off-first": 5}},
		run(day(6), "alarm", true, false, right(500), right(501)),
		run(day(6), "other", true, false, right(800)),
		logbook.Ended(day(6), 100*time.Minute),
	}
	d := of(t, kept(t, "Ann", e...), Options{Course: []Drill{{"new", "A new one", false}, {"other", "Other, by the course", false}, {"alarm", "", true}}})
	assert.Equal(t, tell.ReportSums{Practices: 3, Days: 3, Unended: 1, Lasted: 2 * time.Hour, Runs: 5, Drills: 2, Tries: 12, Right: 6, FalseStarts: 2, Broken: 1}, d.Sums)
	assert.Equal(t, "3 practices on 3 days, at least 2 h 0 min in all. 5 runs of 2 drills, 12 tries: 6 right, 2 begun too early; 1 run broken off, which does not count. "+
		"The alarm: median 0.50\u00a0s last, faster than at first (0.90\u00a0s). Other, by the course: median 0.80\u00a0s.", words.English().Say(d.sentences()))
	first := logbook.Day(began)
	assert.Equal(t, []Panel{
		{Code: "alarm", Name: "The alarm", Allowed: []int32{1000}, Days: 1, Marks: []Mark{
			{first, 900_000, 200_000, 3}, // 700, 900 and the late 1900: distances 200, 0, 1000
			{first + 2, 600_000, 0, 1}, {first + 6, 500_500, 500, 2}}},
		{Code: "other", Name: "Other, by the course", Allowed: []int32{1000}, Days: 1, Marks: []Mark{{first + 6, 800_000, 0, 1}}},
	}, d.Panels)
	// Boxes: learned on days 0 (box 1, due 1), 2 (box 2, due 4), 6 (box 3: mastered).
	assert.Equal(t, []Stand{{first, 1, 0}, {first + 2, 1, 0}, {first + 6, 2, 1}}, d.Stands)
	assert.Equal(t, 3, d.Total)
	assert.Equal(t, []Count{{"off-first", 5}, {"throttle-up", 3}, {"of-later", 2}}, d.Refusals)
	assert.Equal(t, Row{Code: "alarm", Name: "The alarm", Card: drill.Card{Box: 3, Due: first + 10, Last: first + 6, Runs: 3, Learned: 3},
		Runs: 3, Tries: 10, Right: 5, FalseStarts: 2, Times: 6, Median: 650_000, Spread: 149_500}, d.Rows[2])
	assert.Equal(t, []string{"The alarm", "3", "5/10", "2", "0.65", "mastered"}, english(d.Rows[2].line()))
	assert.Equal(t, []string{"A new one", "", "", "", "", "new"}, english(d.Rows[0].line()))
	// The same figures as the drills' own scheme gives.
	c := kept(t, "B", e...)
	var runs []drill.Run
	require.NoError(t, c.Each(func(_ *logbook.Contents, e *logbook.Entry) error {
		if e.Kind == logbook.KindDrill {
			runs = append(runs, e.Run())
		}
		return nil
	}))
	cards := drill.Cards([]string{"new", "other", "alarm"}, runs)
	for i, w := range d.Rows {
		assert.Equal(t, cards[i], w.Card)
	}
}

// Many days come together into marks of several days, few days in a long time do not.
func TestMarksOfManyDays(t *testing.T) {
	cfg := &drill.Config{Cases: []drill.Case{{WaitHigh: 8000, Within: 1000}}}
	make := func(n, step int) Panel {
		var e []logbook.Entry
		for i := range n {
			e = append(e, logbook.OfRun(began.AddDate(0, 0, i*step), &drill.Run{Drill: "a", Tries: []drill.Try{{Verdict: drill.Right, Reaction: 500}}}, cfg, ""))
		}
		d := of(t, kept(t, "Ann", e...), Options{})
		return d.Panels[0]
	}
	for _, c := range []struct {
		n, step, marks int
		days           int32
	}{{1, 1, 1, 1}, {60, 1, 60, 1}, {61, 1, 9, 7}, {420, 1, 60, 7}, {421, 1, 16, 28}, {61, 300, 50, 364}, {60, 300, 60, 1}} {
		p := make(c.n, c.step)
		assert.Len(t, p.Marks, c.marks, "%v", c)
		assert.Equal(t, c.days, p.Days, "%v", c)
		sum := 0
		for _, m := range p.Marks {
			sum += m.Times
		}
		assert.Equal(t, c.n, sum, "%v", c)
	}
}

func BenchmarkReport400(b *testing.B) {
	course, _ := shipped(b)
	c := kept(b, "Ann", practised(b, 400, 60, 13)...)
	for b.Loop() {
		of(b, c, Options{Course: course})
	}
}

// Of very many days every other one is left out, never the last; a run of an earlier day counts for the last one that is known.
func TestStandsOfVeryManyDays(t *testing.T) {
	var d Data
	const days = 2*mostStands + 3
	for day := range int32(days) {
		d.learned = int(day)
		d.stood(day)
		d.stood(day - 1)
	}
	require.Len(t, d.Stands, mostStands+3)
	for i, s := range d.Stands {
		want := int32(2*i + 1)
		if i >= mostStands {
			want = int32(mostStands + i)
		}
		assert.Equal(t, Stand{Day: want, Learned: int(want)}, s)
	}
}
