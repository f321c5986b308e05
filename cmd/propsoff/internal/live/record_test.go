package live

import (
	"errors"
	"math/rand/v2"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// tape is a recorder whose parts say by their note which of the crafts of this test stands on the bench.
type tape struct{ *take.Tape }

func (r tape) Part(s *Start) error {
	return r.Tape.Part(take.Settings{Model: sim.Model, From: s.Tick, Stands: s.Stands, Note: s.Note})
}

// craftOf is a craft by its note.
func craftOf(note string) sim.Config {
	cfg := sim.Default()
	if note == "sinks" {
		cfg.Arming.SinkSlots, cfg.Arming.StillSlots = 30, 10
	}
	return cfg
}

// replay runs a take as a replay does and gives its happenings and last digest.
func replay(t *testing.T, path string) (all []happening.Happening, digest uint64, parts int, d *take.Difference) {
	t.Helper()
	src, err := take.Play(path)
	require.NoError(t, err)
	defer src.Close()
	r, err := take.Open(path)
	require.NoError(t, err)
	cmp := take.NewComparer(r, nil)
	defer cmp.Close()
	begin := func(s take.Settings) *practice.Practice {
		parts++
		return practice.Begin(craftOf(s.Note), s.From, s.Stands)
	}
	p := begin(src.Settings())
	for end := error(nil); end == nil; {
		var rs []pulse.Reading
		rs, end = src.Poll(nil, p.Tick()*1000)
		if s, ok := src.Part(p.Tick() * 1000); ok {
			require.Empty(t, rs, "they belong to the part before")
			require.Equal(t, p.Tick(), s.From)
			p, end = begin(s), nil
			continue
		}
		p.Step(rs)
		for _, h := range p.Happenings() {
			all = append(all, h)
			cmp.Happening(h.Tick, uint8(h.Code), h.A, h.B)
		}
		cmp.Digest(p.Tick()-1, p.Digest())
		if end != nil {
			require.ErrorIs(t, end, input.ErrEnd)
		}
	}
	d, err = cmp.Finish(p.Tick() - 1)
	require.NoError(t, err)
	require.Greater(t, cmp.Compared(), 3)
	return all, p.Digest(), parts, d
}

func TestLiveAndReplayAreTheSameRun(t *testing.T) { liveAndReplay(t, false, false, false) }

// The gap's own readings are in the take, so it replays to the same lost link.
func TestGapsAreRecordedAndReplayed(t *testing.T) { liveAndReplay(t, true, false, false) }

// A take notes ticks: pauses, steps and slow motion leave no trace in it, and it replays to the same end.
func TestPacesLeaveATakeCorrect(t *testing.T) { liveAndReplay(t, false, true, false) }

// A take goes on over changes of craft, while faults are planted and the craft stands outside too; each part replays to its own end.
func TestPartsAreRecordedAndReplayed(t *testing.T) { liveAndReplay(t, true, true, true) }

func liveAndReplay(t *testing.T, gaps, paces, crafts bool) {
	for seed := range uint64(20) {
		rng := rand.New(rand.NewPCG(seed, 1))
		path := filepath.Join(t.TempDir(), "a.take")
		w := tape{take.NewTape()}
		b := newBench(t, func(o *Options) { o.Take = w })
		b.StartRecording(path)
		b.Turn()
		changed := 1
		for range 400 {
			// Readings at odd times, turns at odd paces, bench inputs between, and now and then a gap.
			b.clock.run(rng.Int64N(30_000))
			switch rng.IntN(12) {
			case 0:
				b.Desk().Put(pulse.Link, int32(rng.IntN(2)))
			case 1:
				b.Desk().Put(pulse.Power, int32(rng.IntN(3)))
			case 2, 3, 4:
				b.hands.put(controls(b.at()-rng.Int64N(900), frame(980+rng.IntN(60), rng.IntN(2) == 0)))
			}
			if paces && rng.IntN(20) == 0 {
				b.SetPace(Pace(rng.IntN(4)))
				b.StepOn()
			}
			if crafts && rng.IntN(15) == 0 {
				note := []string{"", "sinks"}[rng.IntN(2)]
				b.UseCraft(craftOf(note), note)
				changed++
			}
			if crafts && rng.IntN(10) == 0 {
				d := pulse.Deed(1 + rng.IntN(int(fault.Count)-1))
				from, to, _ := fault.Usual(d, &b.Craft().Layout)
				v, _ := fault.Plant(d, from, to)
				if rng.IntN(2) == 0 {
					v = fault.Lift(d)
				}
				b.Desk().Put(pulse.Instructor, v)
				b.Desk().Put(pulse.Air, int32(rng.IntN(4)))
			}
			if gaps && rng.IntN(100) == 0 {
				b.clock.run(2_500_000)
			}
			b.Turn()
		}
		b.SetPace(Running)
		b.pass(3000, 5000)
		b.hands.put(controls(b.at(), frame(980, false)))
		b.pass(50, 777)
		live, _ := b.Happenings(nil, 0)
		tick, digest := b.Digest()
		require.NoError(t, b.Loop.Close())
		again, digest2, parts, d := replay(t, path)
		require.Nil(t, d, "%v", d)
		assert.Equal(t, changed, parts)
		if crafts {
			playedLive(t, path, live)
		}
		assert.Equal(t, live, again)
		assert.Equal(t, digest, digest2, "seed %d, tick %d", seed, tick)
		assert.Greater(t, len(live), 20)
	}
}

// parted is a take that plays on a loop.
type parted struct{ *take.Source }

func (p parted) Part(until int64) (*Start, bool) {
	s, ok := p.Source.Part(until)
	return &Start{Craft: craftOf(s.Note), Tick: s.From, Stands: s.Stands, Note: s.Note}, ok
}

// playedLive plays a take in the loop's own time, some of it late, as a window does: it goes tick for tick as it was recorded, and what is
// recorded of that is the same take.
func playedLive(t *testing.T, path string, all []happening.Happening) {
	t.Helper()
	src, err := take.Play(path)
	require.NoError(t, err)
	s, again := src.Settings(), filepath.Join(t.TempDir(), "again.take")
	ended := false
	b := newBench(t, func(o *Options) {
		o.Craft, o.Tick, o.Stands, o.Note, o.Begin = craftOf(s.Note), s.From, s.Stands, s.Note, nil
		o.Take, o.Ended = tape{take.NewTape()}, func(input.Source, error) { ended = true }
	})
	require.NoError(t, b.Use(Player{Source: parted{src}}))
	b.StartRecording(again)
	var last int64
	for !ended {
		b.clock.run(7_300)
		b.Turn()
		if last, _ = b.Digest(); !ended {
			require.Less(t, last, int64(300_000))
		}
	}
	got, _ := b.Happenings(nil, 0)
	require.GreaterOrEqual(t, len(got), len(all))
	assert.Equal(t, all, got[:len(all)])
	require.NoError(t, b.Loop.Close())
	copied, _, _, d := replay(t, again)
	assert.Nil(t, d)
	assert.Equal(t, all, copied[:len(all)])
}

// A recording may begin at any time: the take holds the part under way from its beginning, and replays to where it was ended. The next one
// is another file.
func TestARecordingBeginsAtAnyTime(t *testing.T) {
	dir := t.TempDir()
	w := tape{take.NewTape()}
	b := newBench(t, func(o *Options) { o.Take = w })
	arm := func(on bool) {
		b.hands.put(controls(b.at(), frame(980, on)))
		b.pass(200, 5000)
	}
	arm(false)
	b.pass(3000, 5000)
	arm(true)
	require.True(t, b.snap().Armed)
	first := filepath.Join(dir, "first.take")
	b.StartRecording(first)
	b.pass(20, 5000)
	assert.Eventually(t, func() bool { return b.Recording().To == first }, time.Second, time.Millisecond)
	arm(false)
	b.StopRecording()
	b.pass(20, 5000)
	assert.Eventually(t, func() bool { r := b.Recording(); return r.To == "" && r.Kept == first && r.Err == nil }, time.Second, time.Millisecond)
	told, _ := b.Happenings(nil, 0)
	all, _, parts, d := replay(t, first)
	assert.Nil(t, d, "%v", d)
	assert.Equal(t, told, all)
	assert.Equal(t, 1, parts)

	b.StartRecording(first)
	b.pass(20, 5000)
	assert.Eventually(t, func() bool { r := b.Recording(); return r.To == "" && r.Err != nil }, time.Second, time.Millisecond)
	assert.ErrorContains(t, b.Recording().Err, "never overwritten")

	b.UseCraft(craftOf("sinks"), "sinks")
	b.pass(2000, 5000)
	second := filepath.Join(dir, "second.take")
	b.StartRecording(second)
	arm(true)
	require.NoError(t, b.Loop.Close(), "what could not be begun was told then")
	again, _, parts, d := replay(t, second)
	assert.Nil(t, d, "%v", d)
	assert.Equal(t, 1, parts)
	assert.Greater(t, again[0].Tick, int64(3000), "the craft before is not in it")
	b.StopRecording() // nobody is there any more
}

// Another craft may be put on the bench before the first tick.
func TestACraftBeforeTheFirstTick(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.take")
	b := newBench(t, func(o *Options) { o.Take = tape{take.NewTape()} })
	b.UseCraft(craftOf("sinks"), "sinks")
	assert.EqualValues(t, 30, b.Craft().Arming.SinkSlots)
	b.StartRecording(path)
	b.pass(500, 5000)
	require.NoError(t, b.Loop.Close())
	all, _, _, d := replay(t, path)
	assert.Nil(t, d)
	assert.Equal(t, happening.Settled, all[len(all)-1].Code, "it stands still for 200 ms only")
}

func TestSlowDiskStopsTheRecordingAndNothingElse(t *testing.T) {
	slow := &slowDisk{hold: make(chan struct{}), path: "slow.take"}
	b := newBench(t, func(o *Options) { o.Take = slow })
	b.Turn()
	for i := range recordRoom + 100 {
		b.hands.put(controls(0, frame(988+i%7, false)))
		b.clock.run(1000)
		b.Turn()
	}
	assert.ErrorIs(t, b.Recording().Err, errTooSlow)
	assert.Empty(t, b.Recording().To)
	assert.EqualValues(t, recordRoom+100, b.snap().Tick)
	b.UseCraft(sim.Default(), "")
	b.Turn()
	b.clock.run(1000)
	close(slow.hold)
	assert.ErrorIs(t, b.Loop.Close(), errTooSlow)
	assert.True(t, slow.closed)
	assert.Empty(t, slow.path, "a file with a hole in it is ended")
}

type slowDisk struct {
	hold   chan struct{}
	path   string
	closed bool
}

func (s *slowDisk) Part(*Start) error                          { return nil }
func (s *slowDisk) Reading(int64, pulse.Reading) error         { <-s.hold; return nil }
func (s *slowDisk) Happening(int64, uint8, int32, int32) error { return nil }
func (s *slowDisk) Digest(int64, uint64) error                 { return nil }
func (s *slowDisk) Flush() error                               { return nil }
func (s *slowDisk) Close() error                               { s.closed = true; return nil }
func (s *slowDisk) Record(path string) error                   { s.path = path; return nil }
func (s *slowDisk) Stop() error                                { s.path = ""; return nil }
func (s *slowDisk) Recording() (string, error)                 { return s.path, nil }

// A file that ends by itself, as on a full disk, is told of, and the practice and what is kept of it go on: the next file may begin.
func TestAFileThatEndsByItselfEndsNothingElse(t *testing.T) {
	full := &fullDisk{slowDisk: slowDisk{hold: make(chan struct{})}}
	close(full.hold)
	b := newBench(t, func(o *Options) { o.Take = full })
	b.Turn()
	b.StartRecording("first.take")
	b.pass(5, 5000)
	require.Eventually(t, func() bool { return b.Recording().To == "first.take" }, time.Second, time.Millisecond)
	full.end.Store(true)
	tick := b.snap().Tick
	b.pass(300, 5000)
	require.Eventually(t, func() bool { return b.Recording().To == "" }, time.Second, time.Millisecond)
	assert.ErrorIs(t, b.Recording().Err, errFull)
	assert.False(t, b.Recording().NotBegun)
	assert.Equal(t, tick+300, b.snap().Tick, "the practice goes on")
	full.end.Store(false)
	b.StartRecording("second.take")
	b.pass(100, 5000)
	require.Eventually(t, func() bool { return b.Recording().To == "second.take" }, time.Second, time.Millisecond)
	assert.NoError(t, b.Recording().Err, "that was of the file before")
	assert.NoError(t, b.Loop.Close())
}

var errFull = errors.New("no space left")

// fullDisk ends its file by itself, as a Tape does.
type fullDisk struct {
	slowDisk
	end atomic.Bool
	why error
}

func (d *fullDisk) Flush() error {
	if d.end.Load() && d.path != "" {
		d.path, d.why = "", errFull
	}
	return nil
}

func (d *fullDisk) Record(path string) error {
	d.path, d.why = path, nil
	return nil
}

func (d *fullDisk) Recording() (string, error) { return d.path, d.why }
