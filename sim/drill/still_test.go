package drill

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// settling is a desk on which all that was asked for holds since this tick.
func settling(t *testing.T) *desk {
	d := armedDesk(alarm(), 3)
	for j := Throttle; j <= Yaw; j++ {
		d.in.Facts.Held[j] = pulse.Centre
	}
	d.until(t, RestBegins)
	assert.Equal(t, Settling, d.s.Phase)
	return d
}

// Nobody is told to be ready before the hands lie still: half a second, and any unrest begins it again.
func TestReadyComesAfterRest(t *testing.T) {
	rest := int(UsualTimes().Rest)
	d := settling(t).run(rest - 1)
	assert.Equal(t, Settling, d.s.Phase)
	d.run(1)
	assert.Equal(t, Waiting, d.s.Phase)

	for name, unrest := range map[string]func(*Facts){
		"a stick":           func(f *Facts) { f.Held[Roll] += pulse.Micros(41) },
		"a stick, no pulse": func(f *Facts) { f.Held[Roll] = pulse.Missing },
		"the mode switch":   func(f *Facts) { f.HandMode = 2 },
		"a second switch":   func(f *Facts) { f.Second = layout.Outside },
	} {
		d := settling(t).run(rest - 1)
		unrest(&d.in.Facts)
		d.run(rest)
		assert.Equal(t, Settling, d.s.Phase, name)
		d.run(1)
		assert.Equal(t, Waiting, d.s.Phase, name)
	}

	// A hand that trembles is still, one that drifts is not.
	d = settling(t)
	for i := range rest {
		d.in.Facts.Held[Pitch] = pulse.Centre + pulse.Width(i%3)*pulse.Micros(20)
		d.run(1)
	}
	assert.Equal(t, Waiting, d.s.Phase)
	d = settling(t)
	for range 5 * rest {
		d.in.Facts.Held[Pitch]++
		d.run(1)
		assert.Equal(t, Settling, d.s.Phase)
	}
}

// Noise that a case has planted itself is no unrest.
func TestPlantedNoiseIsNoUnrest(t *testing.T) {
	d := armedDesk(alarm(), 3)
	d.cfg.Cases[0].Set = []Put{{Kind: pulse.Instructor, Fault: Fault{Deed: fault.Noisy, Job: Roll, B: 100}}}
	d.until(t, RestBegins)
	for i := range int(UsualTimes().Rest) + 1 {
		d.in.Facts.Held[Roll] = pulse.Centre + pulse.Width(i%2)*pulse.Micros(200)
		d.run(1)
	}
	assert.Equal(t, Waiting, d.s.Phase)
}

// What no longer holds while the hands come to rest is asked for again: it is no false start, and nothing is put twice.
func TestWhatIsGivenUpBeforeReadyIsAskedForAgain(t *testing.T) {
	cfg := alarm()
	cfg.Cases[0].Before[0].Puts = []Put{{Kind: pulse.Power, Value: 1}}
	d := armedDesk(cfg, 3).until(t, RestBegins).run(100)
	n := len(d.events)
	d.in.Facts.Armed = false
	d.run(400)
	assert.Equal(t, Preparing, d.s.Phase)
	assert.Equal(t, []EventKind{BeforeStep}, kinds(d.events[n:]))
	assert.Empty(t, d.tries())
	d.in.Facts.Armed = true
	d.until(t, WaitBegins)
}

// goTo is a case that asks one hand to go somewhere.
func goTo(wants ...Want) *Config {
	return &Config{Code: "g", Tries: 9, InARow: 9, Cases: []Case{{Wants: wants, InOrder: true, Within: 2000}}}
}

// A sweep through is not going there: neither a stick through its middle nor a switch past its middle position. The time is that at which
// the hand came to where it stayed.
func TestASweepIsNotGoingThere(t *testing.T) {
	for _, c := range []struct {
		name string
		want Want
		put  func(*Facts, int) // 0 elsewhere, 1 there
	}{
		{"throttle", Want{Kind: Stick, A: 0, B: 1 << Middle}, func(f *Facts, n int) { f.Sticks[0] = []Zone{Down, Middle}[n] }},
		{"throttle to its end", Want{Kind: Stick, A: 0, B: 1 << High}, func(f *Facts, n int) { f.Sticks[0] = []Zone{Down, High}[n] }},
		{"mode switch", Want{Kind: ModeSwitch, A: 1}, func(f *Facts, n int) { f.HandMode = []uint8{1, 2}[n] }},
		{"mode", Want{Kind: Mode, A: int32(layout.Horizon)}, func(f *Facts, n int) {
			f.Mode, f.HandMode = []layout.Mode{layout.Angle, layout.Horizon}[n], []uint8{1, 1 + uint8(layout.Horizon)}[n]
		}},
	} {
		d := newDesk(goTo(c.want), 1).until(t, CueNow).run(199)
		for range 3 { // through, and through again
			c.put(&d.in.Facts, 1)
			d.run(int(UsualTimes().Dwell))
			c.put(&d.in.Facts, 0)
			d.run(50)
		}
		assert.Empty(t, d.tries(), c.name)
		c.put(&d.in.Facts, 1)
		d.run(int(UsualTimes().Dwell) + 1)
		assert.Equal(t, Right, d.last(t).Verdict, c.name)
		assert.EqualValues(t, 199+3*200+1, d.last(t).Reaction, c.name)
	}
}

// Who goes on with what comes next has been where he was asked to go, however short; and the last tick in time is in time.
func TestGoingOnCountsAsHavingBeenThere(t *testing.T) {
	cfg := goTo(Want{Kind: Stick, A: 0, B: 1 << Down}, Want{Kind: ArmSwitch, A: 1}, Want{Kind: Answer, A: 1})
	cfg.Cases[0].Choices = 2
	d := newDesk(cfg, 1)
	d.in.Facts.Sticks[0] = Middle
	d.until(t, CueNow).run(200)
	d.in.Facts.Sticks[0] = Down
	d.run(30)
	d.in.Facts.Arm = layout.Inside
	d.run(30)
	assert.EqualValues(t, 3, d.s.Done)
	d.in.Answer = 2
	d.run(1)
	assert.Equal(t, Right, d.last(t).Verdict)

	d = newDesk(cfg, 1)
	d.in.Facts.Sticks[0] = Middle
	d.until(t, CueNow).run(200)
	d.in.Facts.Arm = layout.Inside
	d.run(1)
	assert.Equal(t, OutOfOrder, d.last(t).Why)

	d = newDesk(goTo(Want{Kind: Stick, A: 3, B: 1 << High}), 1).until(t, CueNow).run(1999)
	d.in.Facts.Sticks[3] = High
	d.until(t, TryEnds)
	assert.Equal(t, Right, d.last(t).Verdict)
	assert.EqualValues(t, 2000, d.last(t).Reaction)
}

// What must not happen on the way through counts only where a hand can be without sweeping through: at an end at once.
func TestPassingThroughWhatMustNotBe(t *testing.T) {
	cfg := goTo(Want{Kind: ModeSwitch, A: 2})
	cfg.Cases[0].Nevers = []Want{{Kind: ModeSwitch, A: 1}, {Kind: Stick, A: 0, B: 1 << High}}
	d := newDesk(cfg, 1).until(t, CueNow).run(200)
	d.in.Facts.HandMode = 2
	d.run(100)
	assert.Empty(t, d.tries())
	d.run(51)
	assert.Equal(t, NeverSeen, d.last(t).Why)
	d = newDesk(cfg, 1).until(t, CueNow).run(200)
	d.in.Facts.Sticks[0] = High
	d.run(1)
	assert.Equal(t, NeverSeen, d.last(t).Why)
}
