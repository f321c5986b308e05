package live

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// wrecked is a bench whose craft flew some metres up, was disarmed there and broke.
func wrecked(t *testing.T, set func(*Options)) *bench {
	b := newBench(t, set)
	b.Desk().Put(pulse.Air, 1)
	b.Desk().Put(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true))
	b.hands.put(controls(b.at(), frame(980, false)))
	b.pass(4000, 10_000)
	fly := func(throttle int, ms int64) {
		b.hands.put(controls(b.at(), frame(throttle, true)))
		b.pass(ms, 10_000)
	}
	fly(980, 200)
	fly(1440, 900)
	fly(1370, 2500)
	b.hands.put(controls(b.at(), frame(980, false)))
	b.pass(4000, 10_000)
	require.NotNil(t, b.Wreck(), "it does not break")
	return b
}

// found waits for what is being found out beside the loop.
func found(t *testing.T, w *Wreck) *lesson.Found {
	require.Eventually(t, func() bool { return w.Found() != nil }, 5*time.Minute, time.Millisecond)
	assert.Same(t, w.Found(), w.Wait(t.Context()), "who waits is told the same")
	return w.Found()
}

// A wreck is looked into beside the loop, and forgotten when the craft is carried.
func TestAWreckIsLookedInto(t *testing.T) {
	b := wrecked(t, nil)
	w := b.Wreck()
	f := found(t, w)
	assert.Equal(t, w.Broke(), f.Broke)
	require.True(t, f.Last.Any)
	assert.False(t, f.Of[lesson.Disarm].Any && f.Broke-f.Of[lesson.Disarm].At < 1000)
	b.Desk().Put(pulse.Air, 0)
	b.pass(20, 10_000)
	assert.Nil(t, b.Wreck())
}

// What is being found out of a wreck outlasts the loop; nobody waits for it once he is not to.
func TestAWreckOutlastsItsLoop(t *testing.T) {
	b := wrecked(t, nil)
	w := b.Wreck()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	assert.Nil(t, w.Wait(ctx))
	require.NoError(t, b.Close())
	assert.NotNil(t, w.Wait(t.Context()))
	assert.Same(t, w, b.Wreck())
}

// The practice is put back to three seconds before its wreck and stands still there; what hands hold now counts from the first step on. A take
// that is written meanwhile keeps all of what was before and all from where the craft is put back, and replays to the same bytes.
func TestGoingBackLeavesATakeTrue(t *testing.T) {
	for _, more := range []func(b *bench){
		func(*bench) {},
		func(b *bench) { b.UseCraft(sim.Default(), "") },
		func(b *bench) { b.Desk().Put(pulse.Air, 0); b.Desk().Put(pulse.Air, 1) },
		func(b *bench) { b.Desk().Put(pulse.Power, 0); b.pass(30, 10_000); b.Desk().Put(pulse.Air, 0) },
	} {
		path := filepath.Join(t.TempDir(), "a.take")
		b := wrecked(t, func(o *Options) { o.Take = tape{take.NewTape()} })
		b.StartRecording(path)
		b.pass(30, 10_000)
		broke := b.Wreck().Broke()
		var then, s sim.Snapshot
		require.True(t, b.Moment(&then, broke-lesson.Again))
		before, _ := b.Happenings(nil, 0)
		tick, _ := b.Digest()

		b.GoBack()
		b.Turn()
		assert.Equal(t, Paused, b.Pace())
		b.pass(500, 10_000)
		b.Snapshot(&s)
		assert.Equal(t, tick, s.Tick, "time stands, and has not gone back")
		assert.InDelta(t, then.Air.Body.Pos.Z, s.Air.Body.Pos.Z, 0.05)
		assert.True(t, s.Armed)
		assert.Zero(t, s.Air.Wreck)
		assert.Nil(t, b.Wreck())
		a := b.Again()
		assert.True(t, a.Apart)
		assert.EqualValues(t, 3000, a.Before)
		assert.Equal(t, frame(1370, true), a.Then)
		assert.Equal(t, frame(980, false), a.Now)

		b.hands.put(controls(b.at(), frame(1370, true)))
		b.pass(50, 10_000)
		a = b.Again()
		assert.Equal(t, a.Then, a.Now)
		b.SetPace(Running)
		b.pass(3000, 10_000)
		b.Snapshot(&s)
		assert.True(t, s.Armed)
		assert.Zero(t, s.Air.Wreck, "this time it flies on")
		assert.Greater(t, -s.Air.Body.Pos.Z, 1.0)
		assert.Equal(t, tick+3000, s.Tick)

		more(b)
		b.hands.put(controls(b.at(), frame(980, false)))
		b.pass(3000, 10_000)
		b.Desk().Put(pulse.Tilt, 50)
		b.pass(200, 10_000)
		after, _ := b.Happenings(nil, 0)
		end, digest := b.Digest()
		apart := b.Again().Apart
		require.NoError(t, b.Loop.Close())

		again, digest2, parts, d := replay(t, path)
		require.Nil(t, d, "%v", d)
		require.Equal(t, before, again[:len(before)])
		if apart {
			assert.Equal(t, 2, parts)
			assert.Len(t, again, len(before), "nothing happens while nothing is recorded")
			continue
		}
		assert.Equal(t, 3, parts)
		rest := again[len(before):]
		require.NotEmpty(t, rest)
		assert.Equal(t, after[len(after)-len(rest):], rest)
		assert.Equal(t, happening.Tilted, rest[len(rest)-1].Code)
		assert.Equal(t, digest, digest2, "tick %d", end)
	}
}

// Who was not wrecked cannot go back.
func TestNoWreckNoWayBack(t *testing.T) {
	b := newBench(t, nil)
	b.pass(1000, 10_000)
	b.GoBack()
	b.pass(20, 10_000)
	assert.Equal(t, Running, b.Pace())
	assert.False(t, b.Again().Apart)
}
