package loop

import (
	"math/rand/v2"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/input"
	"propsoff/input/take"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// replay runs a take as a replay does and gives its happenings and last digest.
func replay(t *testing.T, path string) ([]happening.Happening, uint64, *take.Difference) {
	t.Helper()
	src, err := take.Play(path)
	require.NoError(t, err)
	defer src.Close()
	r, err := take.Open(path)
	require.NoError(t, err)
	cmp := take.NewComparer(r, nil)
	defer cmp.Close()
	p := practice.New(sim.Default())
	var all []happening.Happening
	for {
		rs, err := src.Poll(nil, p.Tick()*1000)
		p.Step(rs)
		for _, h := range p.Happenings() {
			all = append(all, h)
			cmp.Happening(h.Tick, uint8(h.Code), h.A, h.B)
		}
		cmp.Digest(p.Tick()-1, p.Digest())
		if err != nil {
			require.ErrorIs(t, err, input.ErrEnd)
			break
		}
	}
	d, err := cmp.Finish(p.Tick() - 1)
	require.NoError(t, err)
	return all, p.Digest(), d
}

func TestLiveAndReplayAreTheSameRun(t *testing.T) { liveAndReplay(t, false, false) }

// The gap's own readings are in the take, so it replays to the same lost link.
func TestGapsAreRecordedAndReplayed(t *testing.T) { liveAndReplay(t, true, false) }

// A take notes ticks: pauses, steps and slow motion leave no trace in it, and it replays to the same end.
func TestPacesLeaveATakeCorrect(t *testing.T) { liveAndReplay(t, false, true) }

func liveAndReplay(t *testing.T, gaps, paces bool) {
	for seed := range uint64(20) {
		rng := rand.New(rand.NewPCG(seed, 1))
		path := filepath.Join(t.TempDir(), "a.take")
		w, err := take.Create(path, take.Settings{})
		require.NoError(t, err)
		b := newBench(t, func(o *Options) { o.Take = w })
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
		again, digest2, d := replay(t, path)
		require.Nil(t, d, "%v", d)
		assert.Equal(t, live, again)
		assert.Equal(t, digest, digest2, "seed %d, tick %d", seed, tick)
		assert.Greater(t, len(live), 20)
	}
}

func TestSlowDiskStopsTheRecordingAndNothingElse(t *testing.T) {
	slow := &slowDisk{hold: make(chan struct{})}
	b := newBench(t, func(o *Options) { o.Take = slow })
	b.Turn()
	for i := range recordRoom + 100 {
		b.hands.put(controls(0, frame(988+i%7, false)))
		b.clock.run(1000)
		b.Turn()
	}
	assert.ErrorIs(t, b.Recording(), errTooSlow)
	assert.EqualValues(t, recordRoom+100, b.snap().Tick)
	close(slow.hold)
	assert.ErrorIs(t, b.Loop.Close(), errTooSlow)
	assert.True(t, slow.closed)
}

type slowDisk struct {
	hold   chan struct{}
	closed bool
}

func (s *slowDisk) Reading(int64, pulse.Reading) error         { <-s.hold; return nil }
func (s *slowDisk) Happening(int64, uint8, int32, int32) error { return nil }
func (s *slowDisk) Digest(int64, uint64) error                 { return nil }
func (s *slowDisk) Flush() error                               { return nil }
func (s *slowDisk) Close() error                               { s.closed = true; return nil }
