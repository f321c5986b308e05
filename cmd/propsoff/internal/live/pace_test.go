package live

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// consumed is what one tick was given.
type consumed struct {
	tick int64
	pulse.Reading
}

// ear keeps every reading that a tick was given, as a take does.
type ear struct{ heard []consumed }

func (e *ear) Reading(tick int64, r pulse.Reading) error {
	e.heard = append(e.heard, consumed{tick, r})
	return nil
}
func (e *ear) Part(*Start) error                          { return nil }
func (e *ear) Record(string) error                        { return nil }
func (e *ear) Stop() error                                { return nil }
func (e *ear) Recording() (string, error)                 { return "", nil }
func (e *ear) Happening(int64, uint8, int32, int32) error { return nil }
func (e *ear) Digest(int64, uint64) error                 { return nil }
func (e *ear) Flush() error                               { return nil }
func (e *ear) Close() error                               { return nil }

func TestPaceOfTheClock(t *testing.T) {
	b := newBench(t, nil)
	b.armIt(t)
	b.told = nil
	pass := func(p Pace, ms, us int64) int64 {
		b.SetPace(p)
		b.Turn()
		before := b.snap().Tick
		b.pass(ms, us)
		return b.snap().Tick - before
	}
	assert.EqualValues(t, 250, pass(Quarter, 1000, 4000))
	assert.EqualValues(t, 100, pass(Tenth, 1000, 4000))
	assert.EqualValues(t, 250, pass(Quarter, 1000, 777))
	assert.EqualValues(t, 0, pass(Paused, 60_000, 4000))
	assert.InDelta(t, 1000, pass(Running, 1000, 4000), 1)
	assert.InDelta(t, 100, pass(Tenth, 1000, 400_000), 1, "a slow computer loses nothing of it")
	assert.EqualValues(t, 0, pass(Paused, 1, 1))
	assert.Equal(t, Paused, b.Pace())
	assert.Empty(t, b.told, "nothing happens by it")
	assert.Equal(t, link.Good, b.snap().Link)
	assert.True(t, b.snap().Armed)
}

// A pause is no gap: the person asked for it, and no time passed for the craft, however long the machine slept meanwhile.
func TestSleepDuringAPauseIsNone(t *testing.T) {
	b := newBench(t, nil)
	b.armIt(t)
	b.SetPace(Paused)
	b.Turn()
	before := b.snap().Tick
	b.told = nil
	b.clock.passed += 8 * 3600 * 1_000_000
	b.clock.run(10_000_000)
	b.pass(100, 4000)
	b.SetPace(Running)
	b.pass(1000, 4000)
	assert.InDelta(t, before+1000, b.snap().Tick, 1)
	assert.Empty(t, b.told)
	assert.True(t, b.snap().Armed)

	// So it is while nobody can see the practice, whatever pace was asked for.
	b.Hold(true)
	b.pass(4, 4000)
	before = b.snap().Tick
	b.told = nil
	for range 5 { // as a browser lets a hidden page run: once a minute
		b.clock.run(60_000_000)
		b.pass(4, 4000)
	}
	assert.Equal(t, before, b.snap().Tick)
	assert.Equal(t, Running, b.Pace(), "what the person asked for stands")
	b.Hold(false)
	b.pass(1000, 4000)
	assert.InDelta(t, before+1000, b.snap().Tick, 1)
	assert.Empty(t, b.told)
	assert.True(t, b.snap().Armed)

	// In slow motion a gap is one as ever: the whole of it passes, with a silent radio.
	b.SetPace(Tenth)
	b.pass(100, 4000)
	before = b.snap().Tick
	b.clock.run(5_000_000)
	b.pass(4, 4000)
	assert.InDelta(t, before+5000, b.snap().Tick, 2)
	assert.Equal(t, happening.Slept, b.told[0].Code)
	assert.False(t, b.snap().Armed)
	before = b.snap().Tick
	b.pass(1000, 4000)
	assert.InDelta(t, before+100, b.snap().Tick, 1, "and the pace is what it was")
}

func TestStepsOfAPausedPractice(t *testing.T) {
	b := newBench(t, nil)
	b.pass(100, 777)
	b.StepOn()
	b.pass(10, 1000)
	assert.EqualValues(t, 110, b.snap().Tick, "a running practice needs no steps")
	b.clock.run(400)
	b.hands.put(controls(b.at(), frame(1100, false)))
	b.Turn() // tick 111 has run early
	b.SetPace(Paused)
	b.StepOn() // asked for before the pause has begun
	b.Turn()
	b.Turn()
	assert.EqualValues(t, 121, b.snap().Tick)
	for n := range int64(5) {
		b.pass(500, 4000)
		assert.EqualValues(t, 121+n*StepTicks, b.snap().Tick)
		b.StepOn()
		b.Turn()
	}
	b.StepOn()
	b.StepOn()
	b.StepOn()
	b.Turn()
	assert.EqualValues(t, 121+8*StepTicks, b.snap().Tick)
	b.StepOn()
	b.SetPace(Running)
	b.pass(20, 1000)
	assert.EqualValues(t, 121+8*StepTicks+20, b.snap().Tick, "a step that was asked for is not made up for")
}

func TestHandsOfAPauseActAtItsEnd(t *testing.T) {
	ears := &ear{}
	b := newBench(t, func(o *Options) { o.Take = ears })
	b.pass(100, 1000)
	b.SetPace(Paused)
	b.Turn()
	for i := range 100_000 { // 1000 packets a second for more than a minute and a half
		b.clock.run(1000)
		b.hands.put(controls(b.at(), frame(1000+i%900, false)))
		if i == 50_000 {
			b.Desk().Put(pulse.Cable, 1)
		}
		b.Turn()
	}
	assert.Less(t, len(b.pending), 10, "only what still counts is kept")
	assert.EqualValues(t, 100, b.snap().Tick)
	assert.Equal(t, pulse.Micros(988), b.snap().In.Sent[0])
	b.StepOn()
	b.pass(10, 1000)
	assert.EqualValues(t, 110, b.snap().Tick)
	assert.Equal(t, pulse.Micros(1000+99_999%900), b.snap().In.Sent[0], "the newest hand acts")
	assert.True(t, b.snap().In.Craft.Cable)
	require.NoError(t, b.Loop.Close())
	for _, h := range ears.heard {
		if h.tick > 0 {
			assert.EqualValues(t, 101, h.tick, "at the very next tick")
		}
	}
}

// In slow motion every packet is consumed, in order, at the first tick that is not before it.
func TestSlowMotionLosesNoReading(t *testing.T) {
	for _, pace := range []Pace{Quarter, Tenth} {
		ears := &ear{}
		b := newBench(t, func(o *Options) { o.Take = ears })
		b.pass(100, 1000)
		b.SetPace(pace)
		b.Turn()
		n := int(pace.slower())
		for i := range 1000 {
			b.clock.run(997)
			b.hands.put(controls(b.at()-150, frame(1000+i%700, false))) // said a little late
			b.Turn()
			s := b.snap()
			assert.InDelta(t, 100+float64(i+1)*0.997/float64(n), float64(s.Tick), 1.01)
		}
		b.pass(50, 1000)
		require.NoError(t, b.Loop.Close())
		i := 0
		for _, h := range ears.heard {
			if h.Kind != pulse.Controls || h.tick == 0 {
				continue
			}
			require.Equal(t, pulse.Micros(1000+i%700), h.Frame[0], "packet %d", i)
			ideal := 100 + (float64(i+1)*0.997-0.15)/float64(n)
			assert.InDelta(t, ideal+0.5, float64(h.tick), 1.51, "packet %d", i)
			i++
		}
		assert.Equal(t, 1000, i)
	}
}

// What plays by time alone plays in the practice's time.
func TestScriptsSlowDownToo(t *testing.T) {
	played := newHands()
	played.timed = true
	for i := range 100 {
		played.put(controls(int64(i)*10_000, frame(1000+i, false)))
	}
	ears := &ear{}
	b := newBench(t, func(o *Options) { o.Take = ears })
	require.NoError(t, b.Use(Player{Source: played}))
	b.pass(200, 4000)
	b.SetPace(Tenth)
	b.pass(1000, 4000)
	b.SetPace(Paused)
	b.pass(1000, 4000)
	b.SetPace(Quarter)
	b.pass(800, 4000)
	b.SetPace(Running)
	b.pass(1000, 4000)
	require.NoError(t, b.Loop.Close())
	require.Len(t, ears.heard, 102)
	for i, h := range ears.heard[2:] {
		assert.EqualValues(t, i*10, h.tick)
		assert.Equal(t, pulse.Micros(1000+i), h.Frame[0])
	}
}

// One that is taken over in the middle begins at its beginning, whatever the pace was.
func TestAScriptThatIsTakenOverInSlowMotion(t *testing.T) {
	ears := &ear{}
	b := newBench(t, func(o *Options) { o.Take = ears })
	b.pass(500, 4000)
	b.SetPace(Tenth)
	b.pass(1000, 4000)
	require.EqualValues(t, 600, b.snap().Tick)
	played := newHands()
	played.timed = true
	for i := range 10 {
		played.put(controls(int64(i)*10_000, frame(1000+i, false)))
	}
	require.NoError(t, b.Use(Player{Source: played}))
	b.pass(1000, 4000)
	require.NoError(t, b.Loop.Close())
	n := 0
	for _, h := range ears.heard {
		if h.Kind == pulse.Controls && h.tick > 0 {
			assert.InDelta(t, 600+10*n, h.tick, 1)
			assert.Equal(t, pulse.Micros(1000+n), h.Frame[0])
			n++
		}
	}
	assert.Equal(t, 10, n)
}

// A bench input that was put in just before the pace changed and is seen just after it comes after those of before.
func TestDeskKeepsItsOrderThroughAPace(t *testing.T) {
	b := newBench(t, nil)
	b.pass(100, 1000)
	b.SetPace(Tenth)
	b.pass(1, 100)
	b.Desk().Put(pulse.Tilt, 100)
	b.clock.run(100)
	b.Turn()
	b.Desk().Put(pulse.Tilt, 200)
	b.clock.run(100)
	b.SetPace(Running)
	b.Turn()
	require.Len(t, b.pending, 1, "its tick has run")
	b.desk.queue = append(b.desk.queue, pulse.Reading{At: b.clock.now - 50_000, Kind: pulse.Tilt, Value: 300})
	b.pass(5, 1000)
	assert.EqualValues(t, 300, b.snap().In.Craft.TiltTenths)
}

// Whatever the pace does, the packets of a source are consumed in the order in which it said them, and none but those of a
// pause is left out.
func TestOrderIsKeptThroughEveryPace(t *testing.T) {
	for seed := range uint64(30) {
		rng := rand.New(rand.NewPCG(seed, 5))
		ears := &ear{}
		b := newBench(t, func(o *Options) { o.Take = ears })
		b.pass(10, 1000)
		pace, said := Running, 0
		var stamp int64
		ever := map[int]bool{}
		for range 1500 {
			b.clock.run(rng.Int64N(6000))
			for range rng.IntN(4) {
				f := frame(1000, false)
				f[7], f[8] = pulse.Width(said%4000)+pulse.Low, pulse.Width(said/4000)+pulse.Low
				stamp = max(stamp, b.at()-rng.Int64N(9000)*int64(rng.IntN(2)))
				b.hands.put(controls(stamp, f))
				if pace == Paused {
					ever[said] = true
				}
				said++
			}
			if rng.IntN(40) == 0 {
				pace = Pace(rng.IntN(4))
				b.SetPace(pace)
			}
			if rng.IntN(40) == 0 {
				b.StepOn()
			}
			b.Turn()
		}
		b.SetPace(Running)
		b.pass(50, 1000)
		require.NoError(t, b.Loop.Close())
		next, left := 0, 0
		for _, h := range ears.heard {
			if h.Kind != pulse.Controls || h.Frame[7] == 0 {
				continue
			}
			n := int(h.Frame[7]-pulse.Low) + 4000*int(h.Frame[8]-pulse.Low)
			require.GreaterOrEqual(t, n, next, "seed %d", seed)
			for ; next < n; next++ {
				require.True(t, ever[next], "seed %d: packet %d is gone", seed, next)
				left++
			}
			next++
		}
		assert.Equal(t, said, next, "seed %d: the newest is there", seed)
		assert.Greater(t, left, 0)
	}
}

func TestPacedTurnDoesNotAllocate(t *testing.T) {
	b := newBench(t, nil)
	b.armIt(t)
	n := 0
	assert.Zero(t, testing.AllocsPerRun(2000, func() {
		n++
		b.SetPace(Pace(n / 20 % 4))
		b.StepOn()
		b.clock.run(700)
		b.Turn()
	}))
}
