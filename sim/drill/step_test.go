package drill

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
)

// desk runs a drill by hand, without a bench: facts are set as a bench would show them.
type desk struct {
	cfg    *Config
	s      State
	in     Input
	events []Event
	// shownAfter is how long after CueNow the cue is seen, and toldAfter how long after that the engine is told so; below 0 never.
	shownAfter, toldAfter int64
	cued                  int64
	out                   Events
}

func newDesk(cfg *Config, seed uint64) *desk {
	d := &desk{cfg: cfg, s: Begin(seed), shownAfter: 0, cued: -1}
	d.in.Facts = Facts{Arm: layout.Outside, HandMode: 1, Powered: true, Transmitter: true, Link: link.Good, Sticks: [4]Zone{Down, Middle, Middle, Middle}}
	return d
}

// run lets ms pass; what happened comes with the first of them.
func (d *desk) run(ms int, happened ...happening.Happening) *desk {
	for range ms {
		d.in.Tick++
		d.in.Happened = happened
		d.in.Cued = false
		if d.cued >= 0 && d.shownAfter >= 0 && d.in.Tick >= d.cued+d.shownAfter+d.toldAfter {
			d.in.Cued, d.in.CueAt, d.in.Uncertain = true, d.cued+d.shownAfter, 17
			d.cued = -1
		}
		d.s = Step(d.cfg, d.s, &d.in, &d.out)
		for _, e := range d.out.All() {
			if e.Kind == CueNow {
				d.cued = d.in.Tick
			}
			d.events = append(d.events, e)
		}
		happened, d.in.Answer, d.in.On = nil, 0, false
	}
	return d
}

// until runs till an event of a kind comes.
func (d *desk) until(t *testing.T, k EventKind) *desk {
	t.Helper()
	for range 200_000 {
		n := len(d.events)
		d.in.On = d.s.Phase == Looking // the pupil has seen it and goes on
		d.run(1)
		for _, e := range d.events[n:] {
			if e.Kind == k {
				return d
			}
		}
	}
	require.Fail(t, "it never came", "event %d", k)
	return d
}

func (d *desk) tries() (out []Try) {
	for _, e := range d.events {
		if e.Kind == TryEnds {
			out = append(out, e.Try)
		}
	}
	return out
}

func (d *desk) last(t *testing.T) Try {
	t.Helper()
	all := d.tries()
	require.NotEmpty(t, all, "no try has ended")
	return all[len(all)-1]
}

// alarm is the drill of disarming by switch at an alarm that comes after 2 to 5 s.
func alarm() *Config {
	return &Config{Code: "alarm", Tries: 5, InARow: 3, Cases: []Case{{
		Before:  []Preparation{{Until: []Want{{Kind: Armed, A: 1}}}},
		WaitLow: 2000, WaitHigh: 5000,
		Wants: []Want{{Kind: DisarmedBy, A: 1<<happening.BySwitch | 1<<happening.BySticks}}, Within: 1000,
		Nevers: []Want{{Kind: Stick, A: 0, B: 1 << High}},
	}}}
}

// off moves the arm switch off now, and has the bench notice it after so many ms.
func (d *desk) off(later int) *desk {
	d.in.Facts.Arm = layout.Outside
	d.run(later)
	d.in.Facts.Armed = false
	return d.run(1, happening.Happening{Code: happening.Disarmed, A: int32(happening.BySwitch)})
}

func armedDesk(cfg *Config, seed uint64) *desk {
	d := newDesk(cfg, seed)
	d.in.Facts.Arm, d.in.Facts.Armed = layout.Inside, true
	return d
}

// Reaction times by hand: the cue is seen at c, the switch leaves its span at c + r, the bench notices in its next slot.
func TestReactionIsFromTheCueToTheReading(t *testing.T) {
	for _, c := range []struct {
		name        string
		shown, told int64
		react       int
		slot        int
		verdict     Verdict
		why         Why
		want        int32
	}{
		{"median of the model of eye, thought and hand, 240 ms (Card, Moran & Newell 1983)", 0, 0, 240, 13, Right, 0, 240},
		{"their fastest, 105 ms", 0, 0, 105, 19, Right, 0, 105},
		{"their slowest, 470 ms", 0, 0, 470, 0, Right, 0, 470},
		{"99 ms is no reaction", 0, 0, 99, 19, Anticipated, UnderHundred, 99},
		{"100 ms is one", 0, 0, 100, 19, Right, 0, 100},
		{"at the limit", 0, 0, 1000, 19, Right, 0, 1000},
		{"one past it", 0, 0, 1001, 5, TooLate, CameLate, 1001},
		{"shown one picture later", 17, 0, 317, 3, Right, 0, 300},
		{"shown later and told later still", 17, 40, 317, 3, Right, 0, 300},
		{"told after the hand had acted", 16, 400, 216, 3, Right, 0, 200},
		{"before it was shown", 40, 0, 30, 3, FalseStart, ActedBefore, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := armedDesk(alarm(), 7)
			d.shownAfter, d.toldAfter = c.shown, c.told
			d.until(t, CueNow)
			given := d.in.Tick
			d.run(c.react - 1)
			d.off(c.slot)
			for len(d.tries()) == 0 {
				d.run(1)
			}
			x := d.last(t)
			assert.Equal(t, c.verdict, x.Verdict)
			assert.Equal(t, c.why, x.Why)
			assert.Equal(t, c.want, x.Reaction)
			assert.Equal(t, c.want, x.First, "there is but one thing to do")
			assert.Greater(t, x.Tick, given)
			if c.verdict == Right {
				assert.EqualValues(t, 17, x.Uncertain)
			}
		})
	}
}

// Where the throttle is to follow, the reaction ends with it, and the first thing that the hand did was to disarm.
func TestWhatTheHandDidFirst(t *testing.T) {
	cfg := alarm()
	c := &cfg.Cases[0]
	c.Wants, c.InOrder, c.Within = append(c.Wants, Want{Kind: Stick, A: 0, B: 1 << Low}), true, 2000
	d := armedDesk(cfg, 7)
	d.in.Facts.Sticks[0] = Middle
	d.until(t, CueNow)
	d.run(399).off(13)
	d.run(286)
	d.in.Facts.Sticks[0] = Low
	for len(d.tries()) == 0 {
		d.run(1)
	}
	x := d.last(t)
	assert.Equal(t, Right, x.Verdict)
	assert.EqualValues(t, 400, x.First)
	assert.EqualValues(t, 700, x.Reaction)
}

func TestTheCueComesAtARandomTimeWithinItsLimits(t *testing.T) {
	least, most := int64(1<<40), int64(0)
	seen := map[int64]bool{}
	for seed := range uint64(300) {
		d := armedDesk(alarm(), seed).until(t, WaitBegins)
		from := d.in.Tick
		d.until(t, CueNow)
		wait := d.in.Tick - from
		least, most = min(least, wait), max(most, wait)
		seen[wait] = true
		again := armedDesk(alarm(), seed).until(t, CueNow)
		assert.Equal(t, d.in.Tick, again.in.Tick, "the same seed gives the same time")
	}
	assert.GreaterOrEqual(t, least, int64(2000))
	assert.LessOrEqual(t, most, int64(5000))
	assert.Less(t, least, int64(2100), "the whole span is used")
	assert.Greater(t, most, int64(4900))
	assert.Greater(t, len(seen), 250)
}

func TestVerdicts(t *testing.T) {
	t.Run("false start while waiting", func(t *testing.T) {
		d := armedDesk(alarm(), 1).until(t, WaitBegins).run(500)
		d.off(7)
		assert.Equal(t, Try{Tick: d.in.Tick, Verdict: FalseStart, Why: BrokeBefore, Reaction: -1, First: -1}, d.last(t))
	})
	t.Run("the switch left before the cue, seen after it", func(t *testing.T) {
		d := armedDesk(alarm(), 1)
		for d.s.Phase != Waiting || d.s.Due > d.in.Tick+5 {
			d.run(1)
		}
		d.off(19)
		d.run(1)
		x := d.last(t)
		assert.Equal(t, FalseStart, x.Verdict)
		assert.Equal(t, ActedBefore, x.Why)
	})
	t.Run("nothing came", func(t *testing.T) {
		d := armedDesk(alarm(), 1).until(t, CueNow)
		at := d.in.Tick
		d.until(t, TryEnds)
		assert.Equal(t, Try{Tick: at + 1000 + grace + 1, Verdict: TooLate, Why: StillMissing, Reaction: -1, First: -1, Uncertain: 17}, d.last(t))
	})
	t.Run("what must not", func(t *testing.T) {
		d := armedDesk(alarm(), 1).until(t, CueNow).run(200)
		d.in.Facts.Sticks[0] = High
		d.run(1)
		x := d.last(t)
		assert.Equal(t, Wrong, x.Verdict)
		assert.Equal(t, NeverSeen, x.Why)
	})
	t.Run("what must not, but was so before the cue", func(t *testing.T) {
		d := armedDesk(alarm(), 1)
		d.in.Facts.Sticks[0] = High
		d.until(t, CueNow).run(200).off(3)
		assert.Equal(t, Right, d.last(t).Verdict)
	})
	t.Run("nobody said that it was shown", func(t *testing.T) {
		d := armedDesk(alarm(), 1)
		d.shownAfter = -1
		d.until(t, CueNow).run(300).off(3).until(t, TryEnds)
		x := d.last(t)
		assert.Equal(t, Void, x.Verdict)
		assert.Equal(t, NotShown, x.Why)
		assert.Zero(t, d.s.Counted, "it does not count")
	})
	t.Run("the machine slept", func(t *testing.T) {
		d := armedDesk(alarm(), 1).until(t, CueNow).run(100)
		d.run(1, happening.Happening{Code: happening.Slept, A: 5000})
		assert.Equal(t, Void, d.last(t).Verdict)
	})
	t.Run("disarmed by the link, not by the hand", func(t *testing.T) {
		d := armedDesk(alarm(), 1).until(t, CueNow).run(300)
		d.in.Facts.Armed = false
		d.run(1, happening.Happening{Code: happening.Disarmed, A: int32(happening.ByLinkLoss)}).until(t, TryEnds)
		assert.Equal(t, TooLate, d.last(t).Verdict)
	})
}

// By sticks the dwell ends in a slot: that is the time.
func TestADwellEndsInItsSlot(t *testing.T) {
	d := newDesk(alarm(), 3)
	d.in.Facts.Arm, d.in.Facts.Armed = layout.NoJob, true
	d.until(t, CueNow).run(299)
	d.in.Facts.Sticks[3] = Low
	d.run(411)
	d.in.Facts.Armed = false
	d.run(1, happening.Happening{Code: happening.Disarmed, A: int32(happening.BySticks)})
	assert.EqualValues(t, 711, d.last(t).Reaction)
}

func TestStepAllocatesNothing(t *testing.T) {
	d := armedDesk(alarm(), 1)
	assert.Zero(t, testing.AllocsPerRun(5000, func() {
		d.in.Tick++
		d.s = Step(d.cfg, d.s, &d.in, &d.out)
	}))
}

func BenchmarkStep(b *testing.B) {
	d := armedDesk(alarm(), 1)
	for d.s.Phase != Running {
		d.run(1)
	}
	d.cfg.Cases[0].Within = 1 << 30
	b.ReportAllocs()
	for b.Loop() {
		d.in.Tick++
		d.s = Step(d.cfg, d.s, &d.in, &d.out)
	}
}
