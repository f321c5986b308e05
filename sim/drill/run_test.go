package drill

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// play plays tries that a word gives: r right, w wrong, l late, f false start.
func play(t *testing.T, cfg *Config, word string) *desk {
	d := armedDesk(cfg, 5)
	for _, c := range word {
		if d.s.Phase == Over {
			break
		}
		d.in.Facts.Arm, d.in.Facts.Armed, d.in.Facts.Sticks[0] = layout.Inside, true, Down
		switch c {
		case 'f':
			d.until(t, WaitBegins).run(100).off(1)
		case 'r':
			d.until(t, CueNow).run(250).off(3)
		case 'w':
			d.until(t, CueNow).run(250)
			d.in.Facts.Sticks[0] = High
			d.run(1)
		case 'l':
			d.until(t, CueNow).until(t, TryEnds)
		}
		d.in.On = d.s.Phase == Looking
		d.run(rest)
	}
	return d
}

func TestLearnedAndEnd(t *testing.T) {
	row := func() *Config { c := alarm(); c.Tries = 6; return c }
	some := func() *Config {
		c := alarm()
		c.Tries, c.InARow, c.Right, c.Of = 6, 0, 3, 4
		return c
	}
	for _, c := range []struct {
		cfg     *Config
		word    string
		learned bool
		counted uint16
	}{
		{row(), "rrrrrr", true, 3}, // ends as soon as it is learned
		{row(), "rrwrrr", true, 6},
		{row(), "rrfrrl", false, 6},
		{row(), "wwwwww", false, 6},
		{some(), "rrrrrr", true, 4}, // the last four must be there
		{some(), "wrrrrr", true, 4},
		{some(), "wwrrrr", true, 5},
		{some(), "wrwrwr", false, 6},
	} {
		d := play(t, c.cfg, c.word)
		assert.Equal(t, Over, d.s.Phase, c.word)
		assert.Equal(t, c.learned, d.s.Learned, c.word)
		assert.Equal(t, c.counted, d.s.Counted, c.word)
		end := d.events[len(d.events)-1]
		assert.Equal(t, RunEnds, end.Kind)
		assert.Equal(t, c.learned, end.Number == 1)
		lifted := false
		for _, e := range d.events[len(d.events)-8:] {
			lifted = lifted || e.Kind == Tell && e.Put.Kind == pulse.Instructor && e.Put.Value == pulse.InstructorValue(pulse.DeedLiftAll, 0)
		}
		assert.True(t, lifted, "nothing planted stays")
	}
}

// ordered: throttle up, down, then an answer, in this order.
func ordered(inOrder bool) *Config {
	return &Config{Code: "o", Tries: 1, InARow: 1, Cases: []Case{{
		Wants:   []Want{{Kind: Stick, A: 0, B: 1 << High}, {Kind: Stick, A: 0, B: 1 << Down}, {Kind: Answer, A: 2}, {Kind: Answer, A: 0}},
		InOrder: inOrder, Within: 5000, Choices: 3,
	}}}
}

func TestOrder(t *testing.T) {
	stick := func(z Zone) func(*desk) { return func(d *desk) { d.in.Facts.Sticks[0] = z; d.run(200) } }
	choose := func(n int) func(*desk) { return func(d *desk) { d.in.Answer = n + 1; d.run(50) } }
	for _, c := range []struct {
		name    string
		inOrder bool
		acts    []func(*desk)
		verdict Verdict
		why     Why
		number  uint8
	}{
		{"in order", true, []func(*desk){stick(High), stick(Down), choose(2), choose(0)}, Right, 0, 0},
		{"answer first", true, []func(*desk){choose(2)}, Wrong, OutOfOrder, 2},
		{"answers swapped", true, []func(*desk){stick(High), stick(Down), choose(0)}, Wrong, OutOfOrder, 3},
		{"a wrong answer", true, []func(*desk){stick(High), stick(Down), choose(1)}, Wrong, WrongAnswer, 1},
		{"twice the same answer is one", true, []func(*desk){stick(High), stick(Down), choose(2), choose(2), choose(0)}, Right, 0, 0},
		{"left out", true, []func(*desk){stick(High), choose(2)}, Wrong, OutOfOrder, 2},
		{"any order", false, []func(*desk){choose(0), stick(High), choose(2), stick(Down)}, Right, 0, 0},
		{"any order, a wrong answer", false, []func(*desk){choose(0), choose(1)}, Wrong, WrongAnswer, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDesk(ordered(c.inOrder), 1)
			d.in.Facts.Sticks[0] = Middle
			d.until(t, CueNow).run(150)
			for _, a := range c.acts {
				a(d)
			}
			x := d.last(t)
			assert.Equal(t, c.verdict, x.Verdict)
			assert.Equal(t, c.why, x.Why)
			assert.Equal(t, c.number, x.Number)
		})
	}
	t.Run("up, down, up, down is four wants", func(t *testing.T) {
		cfg := ordered(true)
		up, down := cfg.Cases[0].Wants[0], cfg.Cases[0].Wants[1]
		cfg.Cases[0].Wants, cfg.Cases[0].Choices = []Want{up, down, up, down}, 0
		d := newDesk(cfg, 1).until(t, CueNow).run(100)
		for i, z := range []Zone{High, Down, High} {
			stick(z)(d)
			assert.EqualValues(t, 1<<(i+1)-1, d.s.Done)
		}
		stick(Down)(d)
		assert.Equal(t, Right, d.last(t).Verdict)
	})
	t.Run("what was so before is no response", func(t *testing.T) {
		cfg := ordered(true)
		cfg.Cases[0].Wants = cfg.Cases[0].Wants[1:2]
		d := newDesk(cfg, 1).until(t, CueNow).until(t, TryEnds)
		assert.Equal(t, FalseStart, d.last(t).Verdict)
	})
}

// What held at the cue, ceased and came again is a response; and what the bench does by itself is not a hand that was too early.
func TestWhatCeasedMustComeAnew(t *testing.T) {
	for _, inOrder := range []bool{true, false} {
		cfg := ordered(inOrder)
		cfg.Cases[0].Wants = []Want{{Kind: Stick, A: 0, B: 1 << Down, For: 300}}
		d := newDesk(cfg, 1).until(t, CueNow).run(99)
		d.in.Facts.Sticks[0] = High
		d.run(200)
		d.in.Facts.Sticks[0] = Down
		d.run(301)
		assert.Equal(t, Right, d.last(t).Verdict)
		assert.EqualValues(t, 99+200+1+300, d.last(t).Reaction)
	}
	cfg := ordered(true)
	cfg.Cases[0].WaitHigh = 1000
	cfg.Cases[0].Wants = []Want{{Kind: DisarmedBy, A: 1 << happening.ByLinkLoss}, {Kind: Answer, A: 1}}
	d := newDesk(cfg, 1).until(t, CueNow).run(20)
	d.run(1, happening.Happening{Code: happening.Disarmed, A: int32(happening.ByLinkLoss)}).run(399)
	d.in.Answer = 2
	d.run(1)
	assert.Equal(t, Right, d.last(t).Verdict)
	assert.EqualValues(t, 421, d.last(t).Reaction)
}

func TestAWantMayHaveToHold(t *testing.T) {
	cfg := ordered(true)
	cfg.Cases[0].Wants = []Want{{Kind: Stick, A: 3, B: 1 << High, For: 400}}
	d := newDesk(cfg, 1).until(t, CueNow).run(99)
	d.in.Facts.Sticks[3] = High
	d.run(399)
	d.in.Facts.Sticks[3] = Above // let go too early
	d.run(100)
	assert.Empty(t, d.tries())
	d.in.Facts.Sticks[3] = High
	d.run(401)
	x := d.last(t)
	assert.Equal(t, Right, x.Verdict)
	assert.EqualValues(t, 99+399+100+401, x.Reaction)
}

func TestPreparationGoesStepByStep(t *testing.T) {
	cfg := alarm()
	c := &cfg.Cases[0]
	c.Set = []Put{{Kind: pulse.Power, Value: 0}}
	c.Before = []Preparation{
		{Puts: []Put{{Kind: pulse.Cable, Value: 1}}, Until: []Want{{Kind: ArmSwitch, A: 1}}},
		{Puts: []Put{{Kind: pulse.Power, Value: 1}}, Until: []Want{{Kind: OnlyThose, A: 1 << arming.OffFirst}}},
	}
	c.With = []Timed{{After: 0, Put: Put{Kind: pulse.Link, Value: 0}}, {After: 300, Put: Put{Kind: pulse.Link, Value: 1}}}
	d := newDesk(cfg, 1).run(2000)
	assert.Equal(t, Preparing, d.s.Phase)
	assert.EqualValues(t, 1, Missing(cfg, &d.s, &d.in))
	assert.Equal(t, []EventKind{TryBegins, UseCraft, Tell, BeforeStep, Tell}, kinds(d.events))
	d.in.Facts.Arm = layout.Inside
	d.run(1)
	assert.EqualValues(t, 1, d.s.At)
	d.in.Facts.Refusals = 1<<arming.OffFirst | 1<<arming.NotYetStill
	d.run(500)
	assert.Equal(t, Preparing, d.s.Phase)
	d.in.Facts.Refusals = 1 << arming.OffFirst
	d.run(1)
	assert.Equal(t, Settling, d.s.Phase)
	d.until(t, CueNow)
	n := len(d.events)
	assert.Equal(t, Put{Kind: pulse.Link, Value: 0}, d.events[n-1].Put)
	d.run(299)
	assert.Len(t, d.events, n)
	d.run(1)
	assert.Equal(t, Put{Kind: pulse.Link, Value: 1}, d.events[n].Put)
}

func kinds(events []Event) (out []EventKind) {
	for _, e := range events {
		out = append(out, e.Kind)
	}
	return out
}

func TestCasesComeOnceARound(t *testing.T) {
	cfg := &Config{Code: "c", Shuffled: true, Tries: 12, InARow: 12}
	for i := range 4 {
		cfg.Cases = append(cfg.Cases, Case{Wants: []Want{{Kind: Stick, A: int32(i), B: 1 << High}}, Within: 500})
	}
	orders := map[[4]uint8]bool{}
	for seed := range uint64(40) {
		d := newDesk(cfg, seed)
		for len(d.tries()) < 12 {
			d.until(t, TryEnds)
		}
		for r := range 3 {
			var order, count [4]uint8
			for i, x := range d.tries()[4*r : 4*r+4] {
				order[i] = x.Case
				count[x.Case]++
			}
			orders[order] = true
			assert.Equal(t, [4]uint8{1, 1, 1, 1}, count)
		}
	}
	assert.Greater(t, len(orders), 15, "of 24 orders")
}

func TestChoicesAreAllThere(t *testing.T) {
	cfg := ordered(true)
	first := map[int]bool{}
	for seed := range uint64(30) {
		d := newDesk(cfg, seed).until(t, CueNow)
		got := Choices(cfg, &d.s, nil)
		assert.ElementsMatch(t, []int{0, 1, 2}, got)
		assert.Equal(t, got, Choices(cfg, &d.s, nil))
		first[got[0]] = true
	}
	assert.Len(t, first, 3, "each comes first at times")
	cfg.Cases[0].KeepOrder = true
	assert.Equal(t, []int{0, 1, 2}, Choices(cfg, &State{}, nil))
}

func TestAFreshPack(t *testing.T) {
	cfg := alarm()
	cfg.Cases[0].NextPack = 16400
	d := armedDesk(cfg, 1).until(t, CueNow).run(10)
	n := len(d.events)
	d.in.Facts.Powered = false
	d.run(5)
	require.Len(t, d.events, n+1)
	assert.Equal(t, Put{Kind: pulse.Pack, Value: 16400}, d.events[n].Put)
}

func TestAbandonLiftsEverything(t *testing.T) {
	d := armedDesk(alarm(), 1).until(t, CueNow)
	d.s = Abandon(d.cfg, d.s, &d.out)
	assert.Equal(t, Over, d.s.Phase)
	assert.Equal(t, RunEnds, d.out.All()[len(d.out.All())-1].Kind)
	assert.Len(t, d.out.All(), 8)
}

// A try that was not right is shown once more, for as long as the pupil wants: nothing goes on by itself.
func TestAWrongTryWaitsForThePupil(t *testing.T) {
	d := armedDesk(alarm(), 1).until(t, CueNow).until(t, TryEnds)
	assert.Equal(t, TooLate, d.last(t).Verdict)
	assert.Equal(t, LookBegins, d.events[len(d.events)-1].Kind)
	n := len(d.events)
	d.run(600_000)
	assert.Equal(t, Looking, d.s.Phase)
	assert.Len(t, d.events, n)
	d.in.On = true
	d.run(1)
	assert.Equal(t, TryBegins, d.events[n].Kind)
	d.in.On = true // of no meaning elsewhere
	d.run(1)
	assert.Equal(t, Preparing, d.s.Phase)

	d = armedDesk(alarm(), 1).until(t, CueNow).run(300).off(3)
	assert.Equal(t, Right, d.last(t).Verdict)
	assert.Equal(t, Resting, d.s.Phase, "a right one goes on by itself")
}
