package spoken_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/spoken"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// listener hears a bench as somebody with a radio moves it.
type listener struct {
	p      *practice.Practice
	b      *spoken.Bench
	frame  pulse.Frame
	teller facts.Teller
	facts  facts.Facts
	lines  []string
	urgent []bool
}

func listen(t testing.TB, cfg sim.Config, each func(words.Text)) *listener {
	l := &listener{p: practice.New(cfg)}
	l.b = spoken.NewBench(func(s words.Text, urgent bool) {
		if each != nil {
			each(s)
		}
		l.lines, l.urgent = append(l.lines, words.English().Say(s)), append(l.urgent, urgent)
	})
	for c := range l.frame {
		l.frame[c] = pulse.Low
	}
	for _, c := range []int8{cfg.Layout.Roll, cfg.Layout.Pitch, cfg.Layout.Yaw} {
		l.frame[c] = pulse.Centre
	}
	l.run(1, pulse.Reading{Kind: pulse.Plug, Value: 1}, pulse.Reading{Kind: pulse.Link, Value: 1}, pulse.Reading{Kind: pulse.Power, Value: 1})
	return l
}

// run lets so many ms pass, with readings at the first of them.
func (l *listener) run(ms int, readings ...pulse.Reading) {
	readings = append(readings, pulse.Reading{Kind: pulse.Controls, Frame: l.frame})
	for range ms {
		l.p.Step(readings)
		readings = nil
		for _, h := range l.p.Happenings() {
			l.b.Happened(h, l.p.Bench().Config())
		}
		if (l.p.Tick()-1)%spoken.LookEvery == 0 {
			l.facts = l.teller.Of(l.p, facts.Whose{Hand: facts.Radio})
			l.b.Look(&l.facts)
		}
	}
}

func (l *listener) news() []string {
	all := l.lines
	l.lines, l.urgent = nil, nil
	return all
}

func TestNothingIsSaidWhileNothingChanges(t *testing.T) {
	l := listen(t, teasel(t), nil)
	l.run(4000)
	said := strings.Join(l.news(), "\n")
	assert.Contains(t, said, "The link is good.")
	assert.Contains(t, said, "Nothing refuses arming.")
	l.run(60_000)
	assert.Empty(t, l.news())
}

func TestEachChangeIsOneSentence(t *testing.T) {
	cfg := teasel(t)
	lay := &cfg.Layout
	l := listen(t, cfg, nil)
	l.run(4000)
	l.news()
	for _, step := range []struct {
		do   func()
		says []string
	}{
		{func() { l.frame[lay.Throttle] = pulse.Centre }, []string{"Throttle reads 1500 µs; bring it below 1000."}},
		{func() { l.frame[lay.Arm] = pulse.High }, []string{"Arming refused: the throttle was up.", "The arm switch is already on: channel 5 reads 2012 µs; move it off first, then on again."}},
		{func() { l.frame[lay.Throttle], l.frame[lay.Arm] = pulse.Low, pulse.Low }, []string{"Cleared: the throttle was up and the arm control had not been seen off first.", "Nothing refuses arming."}},
		{func() { l.frame[lay.Arm] = pulse.High }, []string{"Armed."}},
		{func() { l.frame[lay.Throttle] = pulse.Centre }, []string{"The motors are turning."}},
		{func() { l.frame[lay.Mode] = pulse.Centre }, []string{"Mode horizon, from angle.", "Air mode woke: the motors keep turning at low throttle until disarmed."}},
		{func() { l.frame[lay.Arm] = pulse.Low }, []string{"Disarmed: the arm switch was put off.", "The motors stand still.", "Throttle reads 1500 µs; bring it below 1000."}},
	} {
		step.do()
		l.run(2000)
		for i, s := range l.lines {
			assert.Equal(t, strings.HasPrefix(s, "Armed") || strings.HasPrefix(s, "Disarmed") || strings.HasPrefix(s, "Arming refused"), l.urgent[i], s)
		}
		got := l.news()
		for i, s := range got {
			if strings.HasPrefix(s, "Disarmed: ") {
				got[i] = "Disarmed: the arm switch was put off."
			}
		}
		assert.ElementsMatch(t, step.says, got)
	}
}

// A switch that flaps ten times a second for a minute is told a few times, then that it flaps, and at the end what it came to.
func TestFlappingSaysLittle(t *testing.T) {
	cfg := teasel(t)
	lay := &cfg.Layout
	for name, channel := range map[string]int8{"arm": lay.Arm, "mode": lay.Mode, "throttle": lay.Throttle} {
		l := listen(t, cfg, nil)
		l.run(4000)
		l.news()
		for i := range 600 {
			l.frame[channel] = []pulse.Width{pulse.Low, pulse.High}[i%2]
			l.run(100)
		}
		said := l.news()
		assert.Less(t, len(said), 12, "%s: %s", name, said)
		l.frame[channel] = pulse.High
		l.run(3000)
		assert.NotEmpty(t, l.news(), "%s: what it came to", name)
	}
}

// Random hands: whoever has only heard the sentences knows, whenever nothing has changed for a while, whether the craft is armed, whether its motors turn, in
// which mode it is, and what refuses.
func TestWhoeverListensKnows(t *testing.T) {
	room := wordstest.Of("happening")
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 4))
		cfg := teasel(t)
		lay := &cfg.Layout
		l := listen(t, cfg, func(s words.Text) { room.Text(t, s) })
		k := &knows{}
		for range 150 {
			switch r.IntN(9) {
			case 0, 1, 2:
				l.frame[lay.Arm] = []pulse.Width{pulse.Low, pulse.High}[r.IntN(2)]
			case 3, 4:
				l.frame[lay.Throttle] = []pulse.Width{pulse.Low, pulse.Low, pulse.Centre, pulse.High}[r.IntN(4)]
			case 5:
				l.frame[lay.Mode] = []pulse.Width{pulse.Low, pulse.Centre, pulse.High}[r.IntN(3)]
			case 6:
				l.run(1, pulse.Reading{Kind: pulse.Link, Value: int32(r.IntN(2))})
			case 7:
				l.run(1, pulse.Reading{Kind: pulse.Power, Value: int32(min(r.IntN(4), 1))})
			case 8:
				l.run(1, pulse.Reading{Kind: pulse.Tilt, Value: int32(r.IntN(2) * 600)}, pulse.Reading{Kind: pulse.Cable, Value: int32(r.IntN(2))})
			}
			if r.IntN(3) > 0 { // hands in a hurry
				l.run(20 + r.IntN(400))
				continue
			}
			l.run(9000)
			for _, s := range l.news() {
				k.hear(s)
			}
			s := &l.facts.Snap
			require.Equal(t, s.Armed, k.armed, "seed %d, tick %d", seed, s.Tick)
			require.Equal(t, s.Motor[0] > 0, k.turns, "seed %d, tick %d", seed, s.Tick)
			if s.In.Powered {
				require.Equal(t, words.English().Say(tell.Mode(s.Mode)), k.mode, "seed %d, tick %d", seed, s.Tick)
			}
			if !s.Armed && s.In.Powered {
				require.Equal(t, l.facts.N == 0, len(k.refuses) == 0, "seed %d, tick %d: %v", seed, s.Tick, k.refuses)
			}
		}
	}
}

// knows is what somebody knows who has heard some sentences.
type knows struct {
	armed, turns bool
	mode         string
	refuses      []string
}

func (k *knows) hear(s string) {
	switch {
	case strings.HasPrefix(s, "DISARMED"), strings.HasPrefix(s, "Disarmed"):
		k.armed = false
		if _, rest, ok := strings.Cut(s, "mode "); ok {
			k.mode, _, _ = strings.Cut(rest, ";")
		}
	case strings.HasPrefix(s, "ARMED"), strings.HasPrefix(s, "Armed"):
		k.armed, k.refuses = true, nil
	case s == "The motors are turning.":
		k.turns = true
	case s == "The motors stand still.":
		k.turns = false
	case strings.HasPrefix(s, "Mode "):
		k.mode, _, _ = strings.Cut(strings.Trim(strings.TrimPrefix(s, "Mode "), "."), ",")
	case strings.HasPrefix(s, "Pack disconnected"), strings.HasPrefix(s, "Pack connected"):
		k.refuses = nil
	case s == "Nothing refuses arming.", s == "Nothing else refuses arming.":
		k.refuses = nil
	case strings.HasPrefix(s, "Throttle reads"), strings.HasPrefix(s, "Throttle has gone"), strings.HasPrefix(s, "The arm switch"), strings.HasPrefix(s, "No link"), strings.HasPrefix(s, "The link is only just"),
		strings.HasPrefix(s, "The craft must stand"), strings.HasPrefix(s, "The craft is tilted"), strings.HasPrefix(s, "The craft is plugged"), strings.HasPrefix(s, "The mode is"), strings.Contains(s, "carries no pulse"):
		k.refuses = append(k.refuses, s)
	}
}
