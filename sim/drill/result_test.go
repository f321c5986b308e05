package drill

import (
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// SplitMix64 from 1234567: the numbers that are published as its check values (from memory: Rosetta Code, "Pseudo-random
// numbers/Splitmix64").
func TestRandomIsSplitMix64(t *testing.T) {
	s := stream{seed: 1234567}
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		assert.Equal(t, want, s.next())
	}
}

func right(ms ...int32) (out []Try) {
	for _, v := range ms {
		out = append(out, Try{Verdict: Right, Reaction: v, Uncertain: 17})
	}
	return out
}

// Worked by hand.
func TestSummary(t *testing.T) {
	tries := right(240, 300, 260)
	tries = append(tries, Try{Verdict: FalseStart, Reaction: -1}, Try{Verdict: Void, Reaction: -1}, Try{Verdict: Anticipated, Reaction: 80},
		Try{Verdict: Wrong, Reaction: -1}, Try{Verdict: TooLate, Reaction: 1200}, Try{Verdict: Right, Reaction: 220, Uncertain: 34})
	s := Summarise(tries)
	// The times are 240, 300, 260, 220: median (240+260)/2 = 250; distances 10, 50, 10, 30: median (10+30)/2 = 20. At 0, 1, 2 and 7 (the void one is
	// not counted) the slopes are 60, −40, 10, (220−240)/7 = −2.857, (220−300)/6 = −13.333, (220−260)/5 = −8: in order −40, −13.333, −8, −2.857,
	// 10, 60, the middle of −8 and −2.857 is −5.428 ms.
	assert.Equal(t, Summary{
		Counted: 8, Right: 4, Wrong: 1, TooLate: 1, FalseStarts: 1, Anticipated: 1, Void: 1,
		Timed: 4, Median: 250_000, Spread: 20_000, Fastest: 220_000, Slowest: 300_000, Uncertain: 34_000, Trend: -5429,
	}, s)
	assert.Equal(t, Summary{}, Summarise(nil))
	assert.Equal(t, Summary{Counted: 1, Right: 1, Timed: 1, Median: 240_000, Fastest: 240_000, Slowest: 240_000, Uncertain: 17_000}, Summarise(right(240)))
}

// The ordinary example of a median absolute deviation: 1, 1, 2, 2, 4, 6, 9 has median 2 and deviation 1 (from memory, as in the
// encyclopaedias). One wild value moves neither.
func TestMedianAndSpread(t *testing.T) {
	v := []int64{1, 1, 2, 2, 4, 6, 9}
	assert.EqualValues(t, 2, Median(v))
	assert.EqualValues(t, 1, Spread(v))
	v[6] = 1000
	assert.EqualValues(t, 2, Median(v))
	assert.EqualValues(t, 1, Spread(v))
	assert.EqualValues(t, -2, Median([]int64{-2, -1, -3, 5, -2}))
}

func TestSlopeOfAStraightLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64Range(-1000, 1000).Draw(t, "a"), rapid.Int64Range(-1000, 1000).Draw(t, "b")
		n := rapid.IntRange(2, 30).Draw(t, "n")
		var x, y []int64
		for i := range n {
			x, y = append(x, int64(i)), append(y, a+b*int64(i))
		}
		if got := Slope(x, y); got != b {
			t.Fatalf("slope %d, want %d", got, b)
		}
		// One point of at least seven may be wild: 6 of 21 slopes at most are its own.
		if n >= 7 {
			y[rapid.IntRange(0, n-1).Draw(t, "wild")] = 1 << 40
			if got := Slope(x, y); got != b {
				t.Fatalf("with a wild point %d, want %d", got, b)
			}
		}
	})
}

// The example of Settles & Meeder 2016, § 2.3: all cards begin in the one-day box; remembered after a day, a card goes to the two-day
// box; two days later to the four-day box, and so on. Leitner 1972: what is not remembered goes back to the first box.
func TestBoxes(t *testing.T) {
	for _, c := range []struct {
		day     int32
		learned bool
		box     uint8
		due     int32
	}{
		{10, true, 1, 11}, {11, true, 2, 13}, {13, true, 3, 17}, {17, true, 4, 25}, {25, true, 5, 41}, {41, true, 5, 57},
	} {
		t.Run(fmt.Sprint(c.day), func(t *testing.T) {
			var card Card
			for _, day := range []int32{10, 11, 13, 17, 25, 41} {
				if day > c.day {
					break
				}
				card = card.After(day, true)
			}
			assert.Equal(t, c.box, card.Box)
			assert.Equal(t, c.due, card.Due)
			assert.Equal(t, c.box >= 3, card.Mastered())
		})
	}
	card := Card{}.After(1, true).After(2, true).After(4, true)
	assert.True(t, card.Mastered())
	assert.Equal(t, Card{Box: 1, Due: 9, Last: 8, Failed: true, Runs: 4, Learned: 3}, card.After(8, false))
	assert.Equal(t, uint8(3), card.After(5, true).Box, "before it is due it stays where it is")
	assert.EqualValues(t, 8, card.After(5, true).Due)
	assert.Equal(t, uint8(4), card.After(20, true).Box, "late is not too late")
	again := Card{}.After(1, false).After(1, true).After(1, true)
	assert.Equal(t, uint8(1), again.Box, "many runs on one day are one")
	assert.False(t, again.Failed)
}

func course(n int) (out []string) {
	for i := range n {
		out = append(out, fmt.Sprintf("d%02d", i))
	}
	return out
}

func TestNext(t *testing.T) {
	drills := course(12)
	next := func(day int32, runs ...Run) (int, Reason) { return Next(drills, runs, day, 3) }
	run := func(n int, day int32, learned bool) Run { return Run{Drill: drills[n], Day: day, Learned: learned} }

	i, why := next(1)
	assert.Equal(t, 0, i)
	assert.Equal(t, IsNew, why)
	i, _ = next(1, run(0, 1, true))
	assert.Equal(t, 1, i)
	i, why = next(1, run(0, 1, false))
	assert.Equal(t, 1, i, "others come between before a failed one comes back")
	assert.Equal(t, IsNew, why)
	i, why = next(2, run(0, 1, false), run(1, 1, true))
	assert.Equal(t, ComesBack, why)
	assert.Contains(t, []int{0, 1}, i)
	i, why = next(5, run(2, 1, true), run(3, 3, false))
	assert.Equal(t, 2, i, "longest overdue first")
	assert.Equal(t, ComesBack, why)
	broken := run(0, 1, true)
	broken.BrokenOff = true
	i, _ = next(1, broken)
	assert.Equal(t, 0, i, "what was broken off does not count")
	i, _ = next(1, Run{Drill: "of another course", Day: 1})
	assert.Equal(t, 0, i)

	var day []Run
	for n := range newADay {
		day = append(day, run(n, 1, n != 2 && n != 5))
	}
	i, why = next(1, day...)
	assert.Equal(t, 2, i, "enough that is new: the one failed longest ago")
	assert.Equal(t, FailedToday, why)
	day = append(day, run(2, 1, false))
	i, _ = next(1, day...)
	assert.Equal(t, 5, i)
	i, why = next(1, append(day, run(2, 1, true), run(5, 1, true))...)
	assert.Equal(t, -1, i)
	assert.Equal(t, NoneLeft, why)
}

// A pupil who learns everything at the first time meets the whole course, and every drill comes back on its days.
func TestAWholeCourseOverDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drills := course(rapid.IntRange(1, 30).Draw(t, "drills"))
		seed := rapid.Uint64().Draw(t, "seed")
		failed := rapid.IntRange(-1, len(drills)-1).Draw(t, "failed")
		var runs []Run
		days := map[string][]int32{}
		for day := int32(1); day <= 20; day++ {
			for {
				i, why := Next(drills, runs, day, seed)
				j, again := Next(drills, runs, day, seed)
				if i != j || why != again {
					t.Fatalf("day %d: %d for %v, then %d for %v", day, i, why, j, again)
				}
				if i < 0 {
					break
				}
				ok := i != failed || len(days[drills[i]]) > 0 // one drill fails once
				runs = append(runs, Run{Drill: drills[i], Day: day, Learned: ok})
				days[drills[i]] = append(days[drills[i]], day)
				if len(runs) > 1000 {
					t.Fatalf("it never ends")
				}
			}
		}
		for k, code := range drills {
			d := days[code]
			if len(d) < 4 {
				t.Fatalf("%s was run on days %v only", code, d)
			}
			if k == failed {
				if d[1] != d[0] {
					t.Fatalf("failed on day %d, it came back on day %d", d[0], d[1])
				}
				d = d[1:]
			}
			for i := 1; i < len(d); i++ {
				if want := Gap(uint8(i)); d[i]-d[i-1] != want {
					t.Fatalf("%s: days %v, gap %d after box %d", code, d, want, i)
				}
			}
		}
	})
}

// The work for a summary does not grow with the square of the tries: a logbook may bring any number.
func TestTheTrendOfManyTriesIsThatOfTheLatest(t *testing.T) {
	tries := make([]Try, 3000)
	for i := range tries {
		tries[i] = Try{Verdict: Right, Reaction: int32(5000 - i)}
		if i < 2000 {
			tries[i].Reaction = int32(1000 + i)
		}
	}
	if s := Summarise(tries); s.Trend != -1000 || s.Timed != 3000 {
		t.Errorf("trend %d µs a try of %d times", s.Trend, s.Timed)
	}
	asked := func(n int) uint64 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		Summarise(tries[:n])
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	if few, many := asked(1000), asked(3000); many > 2*few {
		t.Errorf("%d bytes asked for by 1,000 tries, %d by 3,000", few, many)
	}
}
