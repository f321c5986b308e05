package house_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/three"
	"propsoff.example/sim/body"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// crashed is somebody who flew by keyboard, on the sheet that some keys lead to, disarmed high up, and waits until it is found out when that craft could
// still have been saved.
func crashed(p *person, keys ...string) *person {
	flown(p, keys...)
	p.tap("Space")
	return broken(p)
}

// flown is somebody who flies by keyboard, some metres up, on the sheet that some keys lead to.
func flown(p *person, keys ...string) *person {
	p.tap("Enter")
	p.tap("S")
	p.loop.Desk().Put(pulse.Air, 1)
	p.loop.Desk().Put(pulse.Propellers, pulse.PropellersValue(body.Default().Hand, true))
	p.wait(300)
	for _, k := range keys {
		p.tap(k)
		p.wait(300)
	}
	p.wait(4000)
	p.tap("Space")
	p.wait(300)
	require.True(p.t, p.snap().Armed)
	p.hold("W", 1026)
	for range 200 {
		if p.wait(16); -p.snap().Air.Body.Pos.Z > 5 {
			break
		}
	}
	return p
}

// broken waits for the wreck, and until it is found out when that craft could still have been saved.
func broken(p *person) *person {
	for range 1000 {
		if p.wait(16); p.loop.Wreck() != nil {
			break
		}
	}
	p.wait(2000)
	require.NotNil(p.t, p.loop.Wreck(), "it does not break")
	for end := time.Now().Add(5 * time.Minute); p.s.View().Flight.Wreck.Found == nil; p.wait(16) {
		require.True(p.t, time.Now().Before(end))
		time.Sleep(10 * time.Millisecond)
	}
	return p
}

// After a wreck the sheet says until when it could have been saved; the look back has the last seconds with that moment on its bar; and one key goes on from
// before it, once the hands are there. Meanwhile it is said that nothing is recorded; and the take replays.
func TestAWreckBecomesALesson(t *testing.T) {
	folder := t.TempDir()
	p := crashed(atRecording(t, folder))
	f := &p.s.View().Flight
	require.True(t, f.Wreck.Found.Last.Any)
	assert.True(t, p.reads("before it broke it could be saved: by"))
	p.tap("F12")
	p.wait(100)
	p.tap("R")
	require.True(t, f.Replay.On)
	assert.LessOrEqual(t, f.Replay.Length, int64(6000))
	assert.True(t, f.Replay.Marked)
	assert.True(t, p.reads("It could still be saved, until"))
	p.s.Key("Right", true)
	assert.InDelta(t, float64(f.Wreck.Broke-f.Wreck.Found.Last.At), float64(5000-f.Replay.Mark), 20, "the mark is where it says")

	p.tap("Backspace")
	p.wait(100)
	assert.False(t, f.Replay.On)
	assert.True(t, f.Again.Waits && f.Again.Apart && f.Pace.Paused)
	assert.True(t, p.reads("Time stands 3 s before the wreck"))
	assert.True(t, p.reads("Nothing has been recorded since you went back"))
	s := p.snap()
	assert.True(t, s.Air.Wreck == 0 && s.Armed)
	p.wait(500)
	assert.Equal(t, s.Tick, p.snap().Tick, "time stands")
	assert.True(t, f.Again.Hands.Elsewhere.Arm && f.Again.Hands.Arm)
	p.tap("G")
	p.wait(100)
	assert.False(t, f.Again.Waits || f.Pace.Paused)
	assert.False(t, p.snap().Armed, "the hands of now count")
	p.tap("K")
	p.wait(500)
	assert.False(t, f.Again.Apart)
	assert.False(t, p.reads("Nothing has been recorded since"))
	p.tap("F12")
	p.wait(200)
	takes, err := filepath.Glob(filepath.Join(folder, "*.take"))
	require.NoError(t, err)
	require.Len(t, takes, 1)
	assert.Len(t, replayed(t, takes[0]), 3, "parts")
}

// Hands that come to where they were let it go on by themselves.
func TestHandsLetItGoOn(t *testing.T) {
	p := crashed(sitDown(t, ""))
	f := &p.s.View().Flight
	p.tap("Backspace")
	p.wait(100)
	require.True(t, f.Again.Waits)
	p.tap("Space")
	for range 300 {
		h := f.Again.Hands
		if !f.Again.Waits {
			break
		}
		if !h.Elsewhere.Throttle {
			p.wait(16)
			continue
		}
		key := "W"
		if h.Now > h.Then {
			key = "S"
		}
		p.hold(key, 32)
	}
	assert.False(t, f.Again.Waits)
	assert.Equal(t, live.Running, p.loop.Pace())
	p.wait(300)
	assert.True(t, p.snap().Armed, "they have taken it over")
	assert.False(t, p.s.View().Shows(ui.FlyAgain, ui.OnBench), "there is no wreck any more")
}

// On the sheet of three crafts the wreck of the pilot's own is told, and one key goes on from before it: then all three fly as his own did there.
func TestAWreckAmongThree(t *testing.T) {
	p := crashed(sitDown(t, ""), "End", "BracketLeft")
	v := p.s.View()
	assert.True(t, p.reads("Your own craft, in angle, has broken."))
	assert.True(t, p.reads("before it broke it could be saved: by"))
	p.tap("Backspace")
	p.wait(200)
	require.True(t, v.Flight.Again.Waits)
	assert.True(t, p.reads("Time stands 3 s before the wreck"))
	own := p.snap()
	require.True(t, own.Armed && own.Air.Wreck == 0)
	for _, c := range three.Of(v).Crafts {
		assert.True(t, c.Snap.Armed && c.Snap.Air.Wreck == 0)
		assert.InDelta(t, own.Air.Body.Pos.Z, c.Snap.Air.Body.Pos.Z, 1e-9, c.Mode)
	}
}

// Hands that stand already as they stood then need no movement: they are given a moment to see it, and it goes on by itself.
func TestHandsThatStandSoNeedNotMove(t *testing.T) {
	p := flown(sitDown(t, ""))
	for range 400 {
		if p.wait(16); -p.snap().Air.Body.Pos.Z > 20 {
			break
		}
	}
	p.tap("3")
	p.s.Key("Right", true) // rolls over in rate, the throttle where it is
	for range 200 {
		if p.wait(16); ui.TiltOf(p.snap().Air.Body.Att) > 150 {
			break
		}
	}
	p.s.Key("Right", false)
	p = broken(p)
	f := &p.s.View().Flight
	p.tap("Backspace")
	p.wait(16)
	require.True(t, f.Again.Waits)
	if f.Again.Hands.Elsewhere.Mode { // it was in angle then
		p.tap("1")
	}
	require.False(t, f.Again.Hands.Elsewhere.Any())
	assert.True(t, p.reads("Your hands are where they were then: it goes on in a moment."))
	p.wait(700)
	assert.True(t, f.Again.Waits, "a moment to see it")
	p.wait(500)
	assert.False(t, f.Again.Waits)
	assert.Equal(t, live.Running, p.loop.Pace())
}

// A mode switch that stands elsewhere is waited for, and named.
func TestTheModeSwitchIsWaitedFor(t *testing.T) {
	p := crashed(sitDown(t, ""))
	f := &p.s.View().Flight
	p.tap("Space") // on again, and in another mode
	p.tap("3")
	p.tap("Backspace")
	p.wait(100)
	require.True(t, f.Again.Waits)
	e := f.Again.Hands.Elsewhere
	assert.True(t, e.Mode && !e.Arm)
	assert.True(t, p.reads("mode switch (then angle, now rate)"))
	p.wait(3000)
	assert.True(t, f.Again.Waits)
	p.tap("1")
	assert.False(t, p.reads("mode switch (then"))
	for range 300 {
		if h := f.Again.Hands; !f.Again.Waits {
			break
		} else if !h.Elsewhere.Throttle {
			p.wait(16)
		} else if h.Now > h.Then {
			p.hold("S", 32)
		} else {
			p.hold("W", 32)
		}
	}
	assert.False(t, f.Again.Waits)
	p.wait(300)
	assert.Equal(t, layout.Angle, p.snap().Mode)
}

// A craft that sank on a lost link, because the radio was switched off by its key, is tried again from before that, with a radio that sends. While time stands
// that key says what it will come to.
func TestAgainAfterALostLink(t *testing.T) {
	p := flown(sitDown(t, ""))
	for range 600 {
		if p.wait(16); -p.snap().Air.Body.Pos.Z > 14 {
			break
		}
	}
	p.tap("L")
	p = broken(p)
	f := &p.s.View().Flight
	require.False(t, p.snap().In.Transmitter)
	require.Greater(t, f.Wreck.Back, int64(5000))
	require.Zero(t, f.Wreck.Back%100, "one decimal says it")
	p.tap("Backspace")
	p.wait(100)
	require.True(t, f.Again.Waits)
	s := p.snap()
	assert.True(t, s.In.Transmitter && s.Armed && !s.Sinking)
	assert.False(t, p.reads("Your radio is off"))

	p.tap("L")
	assert.True(t, p.reads("Once time goes on: radio off."))
	assert.True(t, p.reads("Your radio is off: L switches it on."))
	p.tap("L")
	assert.False(t, p.reads("Once time goes on"))
	for range 300 {
		if h := f.Again.Hands; !f.Again.Waits || !h.Elsewhere.Any() {
			break
		} else if h.Now > h.Then {
			p.hold("S", 32)
		} else {
			p.hold("W", 32)
		}
	}
	p.wait(3000)
	assert.False(t, f.Again.Waits)
	s = p.snap()
	assert.True(t, s.Armed && s.In.Transmitter && !s.Sinking && s.Air.Wreck == 0, "it flies on")
}
