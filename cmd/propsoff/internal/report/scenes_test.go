package report

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
)

var began = time.Date(2031, 4, 5, 17, 20, 0, 0, time.UTC)

// kept writes entries into a logbook and reads it back.
func kept(t testing.TB, pupil string, entries ...logbook.Entry) *book {
	t.Helper()
	s := logbook.Store{Dir: t.TempDir()}
	b, err := s.Open(pupil, began)
	require.NoError(t, err)
	require.NoError(t, b.Append(entries...))
	back := new(book)
	back.c, err = s.Read(pupil, back.Take)
	require.NoError(t, err)
	require.Empty(t, back.c.Notices)
	return back
}

// book is a logbook that was read.
type book struct {
	logbook.Index
	c *logbook.Contents
}

func of(t testing.TB, b *book, o Options) Data {
	t.Helper()
	d, err := Of(b.c, b.Each, o)
	require.NoError(t, err)
	return d
}

func shipped(t testing.TB) (course []Drill, drills []*drillfile.Drill) {
	for _, code := range []string{"find-throttle", "find-yaw", "alarm-by-switch", "alarm-by-sticks", "refused-by-hand", "loss-what", "pre-flight-list"} {
		name := map[string]string{"find-throttle": "Find the throttle", "find-yaw": "Find yaw", "alarm-by-switch": "Stop at the alarm, by switch",
			"alarm-by-sticks": "Stop at the alarm, by sticks", "refused-by-hand": "Refused: read why and cure it (by your hand)", "loss-what": "The link is lost: what happens?", "pre-flight-list": "The list before the flight"}[code]
		course = append(course, Drill{code, name, code[:5] == "alarm"})
		d := &drillfile.Drill{Name: name, Config: drill.Config{Code: code, Cases: []drill.Case{{WaitLow: 1000, WaitHigh: 4000, Within: 2500}}}}
		switch code {
		case "alarm-by-switch":
			d.Config.Cases[0].Within = 1000
		case "alarm-by-sticks":
			d.Config.Cases[0].Within = 1500
		case "pre-flight-list":
			d.Config.Cases[0].WaitHigh = 1000
		}
		drills = append(drills, d)
	}
	return course, drills
}

// many adds drills to a course until it has n.
func many(course []Drill, n int) []Drill {
	for i := len(course); i < n; i++ {
		course = append(course, Drill{fmt.Sprintf("own-%d", i), fmt.Sprintf("A drill of one's own, number %d", i), false})
	}
	return course
}

// practised makes so many entries over so many days: a pupil who gets faster, with refusals of the first kinds.
func practised(t testing.TB, n, days, kinds int) (out []logbook.Entry) {
	_, drills := shipped(t)
	random := rand.New(rand.NewPCG(1, 2))
	var tally logbook.Tally
	for i := range n {
		at := began.AddDate(0, 0, i*days/n).Add(time.Duration(i%7) * time.Minute)
		switch {
		case i%10 == 0:
			out = append(out, logbook.Began(at, logbook.Practice{Program: "0.5", Craft: logbook.Craft{Name: "Teasel"}}))
		case i%10 == 9:
			out = append(out, logbook.Ended(at, time.Duration(10+random.IntN(20))*time.Minute))
		case i%10 == 8 && kinds > 0:
			for j := range kinds {
				for range 1 + (kinds-j)*random.IntN(4) {
					tally.Add(arming.Set(0).With(arming.Refusal(j), true))
				}
			}
			e, _ := tally.Entry(at)
			out = append(out, e)
		default:
			d := drills[random.IntN(len(drills))]
			run := drill.Run{Drill: d.Config.Code, Day: logbook.Day(at), Learned: random.Float64() < 0.4+float64(i)/float64(n)/2, BrokenOff: random.IntN(20) == 0}
			for k := range 5 + random.IntN(8) {
				ms := int32(250 + float64(d.Config.Cases[0].Within)*(0.3+random.ExpFloat64()*0.25)*(1.5-float64(i)/float64(n)))
				try := drill.Try{Tick: int64(k) * 9000, Verdict: drill.Right, Reaction: ms, Uncertain: 17}
				switch {
				case random.IntN(12) == 0:
					try.Verdict, try.Why, try.Reaction = drill.FalseStart, drill.ActedBefore, -1
				case random.IntN(15) == 0:
					try.Verdict, try.Why, try.Reaction = drill.Wrong, drill.NeverSeen, -1
				case ms > d.Config.Cases[0].Within:
					try.Verdict, try.Why = drill.TooLate, drill.CameLate
				}
				run.Tries = append(run.Tries, try)
			}
			out = append(out, logbook.OfRun(at, &run, &d.Config, d.Name))
		}
	}
	return out
}

// each runs so many drills once.
func each(n int) (out []logbook.Entry) {
	for i, d := range many(nil, n) {
		run := drill.Run{Drill: d.Code, Learned: true, Tries: []drill.Try{{Verdict: drill.Right, Reaction: int32(1000 + 10*i)}}}
		out = append(out, logbook.OfRun(began.Add(time.Duration(i)*7*time.Hour), &run, &drill.Config{Cases: []drill.Case{{WaitHigh: 2000, Within: 5000}}}, d.Name))
	}
	return out
}

type scene struct {
	name string
	make func(t testing.TB) Data
	says []string
}

var scenes = []scene{
	{"nothing at all", func(t testing.TB) Data { return of(t, kept(t, "Ann"), Options{}) },
		[]string{"Ann", "Nothing is in the logbook yet.", words.English().Say(words.T("report.no-times")), words.English().Say(words.T("report.no-drills")), words.English().Say(words.T("report.no-refusals"))}},
	{"nothing yet of a course", func(t testing.TB) Data {
		course, _ := shipped(t)
		return of(t, kept(t, "Ann"), Options{Course: many(course, 34), Date: began, Program: "0.5"})
	}, []string{"5 April 2031", "A drill of one's own, number 33", "Not run to the end yet (34)"}},
	{"one practice", func(t testing.TB) Data {
		course, _ := shipped(t)
		return of(t, kept(t, "Zoë Łódź", practised(t, 1, 1, 0)...), Options{Course: course, Date: began, Program: "0.5"})
	}, []string{"1 practice on 1 day. No drill was run to its end yet."}},
	{"one drill", func(t testing.TB) Data {
		course, drills := shipped(t)
		run := drill.Run{Drill: "alarm-by-switch", Learned: true, Tries: []drill.Try{{Verdict: drill.Right, Reaction: 620, Uncertain: 17}}}
		return of(t, kept(t, "Ann", logbook.OfRun(began, &run, &drills[2].Config, drills[2].Name)), Options{Course: course, Date: began, Program: "0.5"})
	}, []string{"1 run of 1 drill, 1 try: 1 right.", "by switch: median 0.62 s.", "pass 1.0 s", "1 learned", "0 mastered"}},
	{"forty entries in a week", func(t testing.TB) Data {
		course, _ := shipped(t)
		return of(t, kept(t, "Ann", practised(t, 40, 7, 4)...), Options{Course: many(course, 34), Date: began, Program: "0.5"})
	}, []string{"5 April to 11 April 2031", "pass 1.5 s", "The throttle was up"}},
	{"four hundred in two months", func(t testing.TB) Data {
		course, _ := shipped(t)
		return of(t, kept(t, "Ann of the long name that never seems to come to an end, but it does", practised(t, 400, 60, 13)...), Options{Course: many(course, 34), Date: began, Program: "0.5"})
	}, []string{"mastered", "The propellers had not been checked"}},
	{"four hundred in three years", func(t testing.TB) Data {
		course, _ := shipped(t)
		return of(t, kept(t, "Ann", practised(t, 400, 1100, 13)...), Options{Course: many(course, 120), Date: began, Program: "0.5"})
	}, []string{"Not run to the end yet (113)", "2033"}},
	{"forty drills run", func(t testing.TB) Data {
		return of(t, kept(t, "Ann", each(40)...), Options{Date: began, Program: "0.5"})
	},
		[]string{"number 39", "1.39"}},
	{"more drills than fit", func(t testing.TB) Data {
		return of(t, kept(t, "Ann", each(160)...), Options{Date: began, Program: "0.5"})
	},
		[]string{"drills more, which the HTML report has"}},
	{"marks followed", func(t testing.TB) Data {
		course, _ := shipped(t)
		return of(t, kept(t, "Ann", append(practised(t, 60, 9, 3), followed(9)...)...), Options{Course: many(course, 34), Date: began, Program: "0.5"})
	}, []string{"how long your hand takes", "Roll in rate: delay 271"}},
	{"a name beyond the face", func(t testing.TB) Data {
		d := of(t, kept(t, "小林 さくら 👩\u200d🚀", practised(t, 100, 20, 2)...), Options{Date: began, Program: "0.5"})
		d.Damaged = 2
		return d
	}, []string{"·· ··· ··", "are drawn as a dot", "2 lines of the logbook could not be read"}},
}
