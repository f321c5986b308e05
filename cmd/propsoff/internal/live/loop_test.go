package live

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// fakeClock is set by hand.
type fakeClock struct {
	mu          sync.Mutex
	now, passed int64
}

func (c *fakeClock) Now() int64    { c.mu.Lock(); defer c.mu.Unlock(); return c.now }
func (c *fakeClock) Passed() int64 { c.mu.Lock(); defer c.mu.Unlock(); return c.passed }

// run lets us µs pass, awake.
func (c *fakeClock) run(us int64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now, c.passed = c.now+us, c.passed+us
}

// hands is a source fed by the test: At counts from its opening.
type hands struct {
	mu     sync.Mutex
	queue  []pulse.Reading
	wake   chan struct{}
	timed  bool
	end    error
	closed int
}

func newHands() *hands { return &hands{wake: make(chan struct{}, 1)} }

func (h *hands) Name() string { return "hands" }
func (h *hands) Wake() <-chan struct{} {
	if h.timed {
		return nil
	}
	return h.wake
}
func (h *hands) Close() error { h.mu.Lock(); defer h.mu.Unlock(); h.closed++; return nil }
func (h *hands) put(r ...pulse.Reading) {
	h.mu.Lock()
	h.queue = append(h.queue, r...)
	h.mu.Unlock()
	ring(h.wake)
}
func (h *hands) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for len(h.queue) > 0 && h.queue[0].At <= until {
		dst = append(dst, h.queue[0])
		h.queue = h.queue[1:]
	}
	if len(h.queue) == 0 {
		return dst, h.end
	}
	return dst, nil
}

// frame is low throttle, centred sticks, and the arm switch on channel 5 as told.
func frame(throttle int, armed bool) pulse.Frame {
	f := pulse.Frame{pulse.Micros(throttle), pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
	if armed {
		f[4] = pulse.High
	}
	return f
}

func controls(at int64, f pulse.Frame) pulse.Reading {
	return pulse.Reading{At: at, Kind: pulse.Controls, Frame: f}
}

// begin is a bench with power and a radio that is on.
func begin() []pulse.Reading {
	return []pulse.Reading{{Kind: pulse.Power, Value: 1}, {Kind: pulse.Link, Value: 1}}
}

// started is the clock at which a newBench begins.
const started = 5_000_123

type bench struct {
	*Loop
	clock *fakeClock
	hands *hands
	told  []happening.Happening
	next  uint64
}

func newBench(t *testing.T, more func(*Options)) *bench {
	t.Helper()
	b := &bench{clock: &fakeClock{now: started, passed: 77}, hands: newHands()}
	o := Options{Craft: sim.Default(), Clock: b.clock, Begin: begin()}
	if more != nil {
		more(&o)
	}
	b.Loop = New(o)
	t.Cleanup(func() { b.Loop.Close() })
	b.hands.put(pulse.Reading{Kind: pulse.Plug, Value: 1}, controls(0, frame(988, false)))
	require.NoError(t, b.Use(Player{Source: b.hands}))
	return b
}

// pass goes round every us µs until ms have passed.
func (b *bench) pass(ms, us int64) {
	b.Turn()
	for left := ms * 1000; left > 0; left -= us {
		b.clock.run(min(us, left))
		b.Turn()
	}
	b.told, b.next = b.Happenings(b.told, b.next)
}

func (b *bench) codes() (all []happening.Code) {
	for _, h := range b.told {
		all = append(all, h.Code)
	}
	return all
}

func (b *bench) snap() (s sim.Snapshot) { b.Snapshot(&s); return s }

func TestPracticeKeepsAbreastOfTheClock(t *testing.T) {
	b := newBench(t, nil)
	s := b.snap()
	assert.EqualValues(t, -1, s.Tick, "nothing has run yet")
	b.Turn()
	assert.EqualValues(t, 0, b.snap().Tick)
	b.pass(1000, 4000)
	assert.EqualValues(t, 1000, b.snap().Tick)
	b.clock.run(999)
	b.Turn()
	assert.EqualValues(t, 1000, b.snap().Tick, "with nothing coming in no tick runs before its time")
	assert.Equal(t, link.Fresh, b.snap().Link)
	b.pass(3000, 4000)
	assert.Equal(t, link.Good, b.snap().Link)
	assert.Zero(t, b.snap().Refusals)
}

func TestReadingIsConsumedAtItsTick(t *testing.T) {
	b := newBench(t, nil)
	b.pass(10, 1000)
	tick := func() int64 { return b.snap().Tick }
	sent := func() pulse.Width { return b.snap().In.Sent[0] }

	// At 10.350 ms a reading of 10.300 ms: tick 11 runs at once.
	b.clock.run(350)
	b.hands.put(controls(10_300, frame(1100, false)))
	b.Turn()
	assert.EqualValues(t, 11, tick())
	assert.Equal(t, pulse.Micros(1100), sent())

	// Another in the same millisecond: tick 11 has run, so it waits for tick 12, which may run once 11 ms have passed.
	b.clock.run(400)
	b.hands.put(controls(10_700, frame(1200, false)))
	wait := b.Turn()
	assert.EqualValues(t, 11, tick())
	assert.Equal(t, 251*time.Microsecond, wait)
	b.clock.run(wait.Microseconds())
	b.Turn()
	assert.EqualValues(t, 12, tick())
	assert.Equal(t, pulse.Micros(1200), sent())

	// Late turns: each reading still falls on its own tick.
	var ticks []int64
	b.opt.Listen = func(p *practice.Practice) {
		if f := p.Bench().State().In.Sent[0]; len(ticks) == 0 || f != pulse.Micros(1200) {
			ticks = append(ticks, int64(f.Whole()), p.Tick()-1)
		}
	}
	b.hands.put(controls(20_001, frame(1300, false)), controls(21_000, frame(1301, false)), controls(21_001, frame(1302, false)))
	b.clock.run(12_999) // 24.000 ms
	b.Turn()
	assert.Equal(t, []int64{1200, 13, 1301, 21, 1302, 22, 1302, 23, 1302, 24}, ticks, "20.001 and 21.000 fall on tick 21, where the later one stays")
}

func TestReadingsOfSeveralSourcesAreMergedByTime(t *testing.T) {
	b := newBench(t, nil)
	other := newHands()
	require.NoError(t, b.Use(Player{Source: b.hands}, Player{Source: other, Opened: b.clock.now - 1000}))
	b.hands.put(controls(2500, frame(1200, false)), controls(7500, frame(1400, false)))
	other.put(controls(6400, frame(1300, false))) // 5.400 ms of the practice
	var order []int
	b.opt.Listen = func(p *practice.Practice) {
		if w := p.Bench().State().In.Sent[0].Whole(); len(order) == 0 || order[len(order)-1] != w {
			order = append(order, w)
		}
	}
	b.pass(20, 20_000)
	assert.Equal(t, []int{988, 1200, 1300, 1400}, order)
}

func TestTooManySources(t *testing.T) {
	b := newBench(t, nil)
	assert.Error(t, b.Use(make([]Player, mostSources+1)...))
}

func (b *bench) armIt(t *testing.T) {
	t.Helper()
	b.pass(3000, 4000)
	b.hands.put(controls(b.at(), frame(988, true)))
	b.pass(40, 4000)
	b.hands.put(controls(b.at(), frame(1500, true)))
	b.pass(40, 4000)
	require.True(t, b.snap().Armed, "%v", b.codes())
}

// at is the clock as hands see it.
func (b *bench) at() int64 { return b.clock.now - started }

func TestGapOfOverTwoSecondsIsALostLink(t *testing.T) {
	for _, c := range []struct {
		name  string
		gap   func(*fakeClock, int64)
		ms    int64
		armed bool
		ticks int64
	}{
		{"the program stood still", func(c *fakeClock, us int64) { c.run(us) }, 5000, false, 5000},
		{"the machine slept and its clock stood still", func(c *fakeClock, us int64) { c.passed += us }, 5000, false, 5000},
		{"a night", func(c *fakeClock, us int64) { c.passed += us }, 8 * 3600 * 1000, false, 60_280},
		{"two seconds are no sleep", func(c *fakeClock, us int64) { c.run(us) }, 2000, true, 2000},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, nil)
			b.armIt(t)
			before := b.snap().Tick
			b.told = nil
			c.gap(b.clock, c.ms*1000)
			b.Turn()
			b.told, b.next = b.Happenings(b.told, b.next)
			s := b.snap()
			assert.Equal(t, c.armed, s.Armed)
			assert.InDelta(t, before+c.ticks, s.Tick, 2)
			if c.armed {
				assert.Empty(t, b.told)
				return
			}
			assert.Equal(t, []happening.Code{happening.Slept, happening.Transmitter, happening.LinkLost, happening.Disarmed, happening.Transmitter}, b.codes()[:5])
			assert.EqualValues(t, c.ms, b.told[0].A)
			assert.Equal(t, int32(happening.ByLinkLoss), b.told[3].A)
			lost := b.told[2].Tick - before
			assert.True(t, lost >= 220 && lost <= 262, "lost %d ms after the loop stopped: the silence limit is 240 ms and a slot 20", lost)

			// Time goes on from there, and nothing arms by itself.
			b.pass(3000, 4000)
			assert.InDelta(t, s.Tick+3000, b.snap().Tick, 1)
			assert.False(t, b.snap().Armed)
			assert.Equal(t, link.Good, b.snap().Link)
			b.hands.put(controls(b.at(), frame(988, false)))
			b.pass(40, 4000)
			assert.Equal(t, pulse.Micros(988), b.snap().In.Sent[0], "hands are followed again after the gap")
		})
	}
}

func TestGapKeepsARadioThatIsOffOff(t *testing.T) {
	b := newBench(t, nil)
	b.pass(3000, 4000)
	b.Desk().Put(pulse.Link, 0)
	b.pass(100, 4000)
	b.clock.run(10_000_000)
	b.pass(100, 4000)
	assert.False(t, b.snap().In.Transmitter)
}

func TestDesk(t *testing.T) {
	b := newBench(t, nil)
	b.Desk().Put(pulse.Tilt, 450)
	b.Desk().Put(pulse.Controls, 1)
	b.pass(10, 1000)
	assert.EqualValues(t, 450, b.snap().In.Craft.TiltTenths)
	b.clock.run(500)
	b.Desk().Put(pulse.Cable, 1)
	b.Turn()
	assert.True(t, b.snap().In.Craft.Cable, "seen at once")
	b.told, _ = b.Happenings(nil, 0)
	assert.EqualValues(t, 11, b.told[len(b.told)-1].Tick)
}

func TestSourcesAreSwapped(t *testing.T) {
	b := newBench(t, nil)
	b.armIt(t)
	next := newHands()
	next.put(pulse.Reading{Kind: pulse.Plug, Value: 1}, controls(0, frame(1700, true)))
	never := newHands()
	require.NoError(t, b.Use(Player{Source: never}))
	require.NoError(t, b.Use(Player{Source: next, Opened: b.clock.now - 900_000})) // open for a while already
	assert.Equal(t, 1, never.closed, "handed in and replaced before it played")
	b.told = nil
	b.pass(100, 4000)
	b.closing.Wait()
	assert.Equal(t, 1, b.hands.closed)
	assert.Equal(t, pulse.Micros(1700), b.snap().In.Sent[0])
	assert.Equal(t, []happening.Code{happening.Plug, happening.Plug}, b.codes()[:2])
	assert.Equal(t, []int32{0, 1}, []int32{b.told[0].A, b.told[1].A}, "out and in again")
	assert.Equal(t, 1, b.Playing())
	require.NoError(t, b.Use())
	b.pass(400, 4000)
	assert.Equal(t, 0, b.Playing())
	assert.False(t, b.snap().In.Plugged)
	assert.Equal(t, link.Lost, b.snap().Link)
	assert.False(t, b.snap().Armed)
}

func TestSourceThatEnds(t *testing.T) {
	var ended []error
	b := newBench(t, func(o *Options) { o.Ended = func(_ input.Source, err error) { ended = append(ended, err) } })
	b.hands.end = input.ErrEnd
	b.pass(10, 1000)
	assert.Equal(t, []error{input.ErrEnd}, ended)
	assert.NoError(t, b.Trouble())
	bad := newHands()
	bad.end = input.ErrGone
	require.NoError(t, b.Use(Player{Source: bad}))
	b.pass(10, 1000)
	assert.ErrorIs(t, b.Trouble(), input.ErrGone)
	b.closing.Wait()
	assert.Equal(t, 1, bad.closed)
}

func TestHistoryIsBounded(t *testing.T) {
	b := newBench(t, nil)
	b.Turn()
	_, first := b.Happenings(nil, 0)
	for i := range 2 * historyRoom {
		b.Desk().Put(pulse.Cable, int32(i+1)%2)
		b.clock.run(1000)
		b.Turn()
	}
	all, next := b.Happenings(nil, 0)
	assert.Len(t, all, historyRoom)
	assert.GreaterOrEqual(t, next, first+2*historyRoom)
	assert.True(t, slices.IsSortedFunc(all, func(a, b happening.Happening) int { return int(a.Tick - b.Tick) }))
	none, same := b.Happenings(nil, next)
	assert.Empty(t, none)
	assert.Equal(t, next, same)
}

func TestChartGoesBackTenSeconds(t *testing.T) {
	b := newBench(t, nil)
	b.armIt(t)
	b.pass(12_000, 4000)
	c := b.Chart(nil)
	require.Len(t, c, chartRoom)
	for i := range c[1:] {
		require.Equal(t, c[i].Tick+PointTicks, c[i+1].Tick)
	}
	last := c[len(c)-1]
	assert.EqualValues(t, b.snap().Tick/10*10, last.Tick)
	assert.True(t, last.Armed && last.Transmitting && last.HasSent && last.Powered)
	assert.Equal(t, link.Good, last.Link)
	assert.Equal(t, pulse.Micros(1500), last.Sent[0])
	assert.NotZero(t, last.Motor[0])
}

func TestTurnDoesNotAllocate(t *testing.T) {
	b := newBench(t, nil)
	b.armIt(t)
	n := 0
	assert.Zero(t, testing.AllocsPerRun(500, func() {
		n++
		b.clock.run(700)
		b.Turn()
	}))
}

func TestRunInRealTime(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a second")
	}
	start := time.Now()
	clock := RealClock(func() int64 { return time.Since(start).Microseconds() })
	path := filepath.Join(t.TempDir(), "real.take")
	l := New(Options{Craft: sim.Default(), Clock: clock, Begin: begin(), Take: tape{take.NewTape()}})
	l.StartRecording(path)
	h := newHands()
	h.put(pulse.Reading{Kind: pulse.Plug, Value: 1})
	require.NoError(t, l.Use(Player{Source: h, Opened: 1}))
	ctx, cancel := context.WithCancel(context.Background())
	ran := make(chan error)
	go func() { ran <- l.Run(ctx) }()
	var s sim.Snapshot
	for i := range 300 {
		h.put(controls(clock.Now()-1, frame(1000+i, i%20 < 10)))
		l.Desk().Put(pulse.Tilt, int32(i))
		time.Sleep(2 * time.Millisecond)
		l.Snapshot(&s)
		l.Chart(nil)
	}
	// Abreast of real time, however seldom a busy machine lets the loop run: it comes to where the clock stood, and never past it.
	stood := time.Since(start).Milliseconds()
	require.Eventually(t, func() bool {
		var s sim.Snapshot
		l.Snapshot(&s)
		return s.Tick >= stood
	}, 2*time.Minute, time.Millisecond)
	cancel()
	require.NoError(t, <-ran)
	l.Snapshot(&s)
	assert.LessOrEqual(t, s.Tick, time.Since(start).Milliseconds()+1)
	assert.Equal(t, pulse.Micros(1299), s.In.Sent[0])
	assert.Equal(t, 1, h.closed)
	_, digest := l.Digest()
	_, again, _, d := replay(t, path)
	assert.Nil(t, d)
	assert.Equal(t, digest, again)
	late := newHands()
	require.NoError(t, l.Use(Player{Source: late}))
	assert.Equal(t, 1, late.closed, "after the end nothing is kept open")
	_, err := os.Stat(path)
	assert.NoError(t, err)
}

func TestRealClockRuns(t *testing.T) {
	c := RealClock(func() int64 { return 5 })
	a := c.Passed()
	time.Sleep(3 * time.Millisecond)
	assert.GreaterOrEqual(t, c.Passed()-a, int64(2000))
	assert.EqualValues(t, 5, c.Now())
}
