package lossrun

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/vec"
)

// told feeds a Run with made-up ticks.
type told struct {
	r Run
	s sim.Snapshot
}

func newTold() *told {
	cfg := sim.Default() // slots of 20 ms, silence limit 240 ms
	t := &told{r: NewRun(&cfg)}
	t.s.In.HasSent, t.s.In.Transmitter, t.s.In.Plugged, t.s.In.Powered = true, true, true, true
	t.s.Link, t.s.Tick = link.Good, -1
	return t
}

// to runs ticks up to and including one, slots on multiples of 20, the happenings on the last.
func (t *told) to(tick int64, happened ...happening.Happening) *told {
	for t.s.Tick < tick {
		t.s.Tick++
		var hs []happening.Happening
		if t.s.Tick == tick {
			for _, h := range happened {
				h.Tick = tick
				hs = append(hs, h)
			}
		}
		t.r.Step(&t.s, t.s.Tick%20 == 0, hs)
	}
	return t
}

func (t *told) motors(speed uint16) *told {
	t.s.Motor = [4]uint16{speed, speed, speed, speed}
	return t
}

func TestTimesAreThoseOfTheTicks(t *testing.T) {
	x := newTold()
	x.s.Armed, x.s.In.Air, x.s.Air.Flying = true, true, true
	x.s.Air.Body.Pos = vec.V{X: 3, Y: 4, Z: -9}
	x.motors(4000).to(1047)
	assert.Equal(t, Waiting, x.r.Phase)
	x.s.In.Transmitter = false
	x.to(1259)
	assert.Equal(t, []int64{1040, 1048, 1280}, []int64{x.r.Last, x.r.Off, x.r.Limit}, "the slot at 1040 was the last; 240 ms later is 1280")
	assert.Equal(t, Stand{Armed: true, Turning: true, Link: true, Air: true, Flying: true, Height: 9, Place: vec.V{X: 3, Y: 4, Z: -9}}, x.r.Before)
	assert.False(t, x.r.Touched())

	x.to(1279)
	x.s.Armed = false
	x.motors(0).to(1280, happening.Happening{Code: happening.LinkLost, A: 240}, happening.Happening{Code: happening.Disarmed, A: int32(happening.ByLinkLoss)})
	assert.Equal(t, []int64{1280, 1280, 1280}, []int64{x.r.Lost, x.r.Disarmed, x.r.Stopped})
	assert.Equal(t, happening.ByLinkLoss, x.r.Cause)
	assert.Equal(t, 9.0, x.r.Falls.Height)

	x.s.Air.Body.Vel = vec.V{X: 3, Z: 4}
	x.to(2000)
	x.s.Air.Body.Vel, x.s.Air.Body.Pos, x.s.Air.Flying = vec.V{X: 1}, vec.V{X: 6, Y: 8}, false
	x.to(2001, happening.Happening{Code: happening.TouchedDown, A: 4000, B: 9100})
	assert.Equal(t, int64(2001), x.r.Down)
	assert.Equal(t, []float64{5, 4, 9.1, 5}, []float64{x.r.Speed, x.r.Downward, x.r.Top, x.r.Away}, "3, 4, 5: the speed before it touched; and over the ground")
	x.to(2300, happening.Happening{Code: happening.TouchedDown, A: 900, B: 100})
	assert.Equal(t, int64(2001), x.r.Down, "a bounce is no second landing")
	ms, ok := x.r.Since(x.r.Down)
	assert.Equal(t, []any{int64(953), true}, []any{ms, ok})
	_, ok = x.r.Since(x.r.Again)
	assert.False(t, ok)

	x.s.In.Transmitter = true
	x.s.Refusals = 1
	x.to(3001)
	assert.Equal(t, []any{Back, int64(2301)}, []any{x.r.Phase, x.r.Back})
	x.to(3010, happening.Happening{Code: happening.LinkBack})
	x.to(4210, happening.Happening{Code: happening.LinkClean})
	assert.Equal(t, int64(NotYet), x.r.Free)
	x.s.Refusals = 0
	x.to(4300)
	x.s.Refusals = 2
	x.to(4400)
	assert.Equal(t, int64(NotYet), x.r.Free, "it refuses again")
	x.s.Refusals = 0
	x.to(4599)
	x.s.Armed = true
	x.motors(600).to(4600, happening.Happening{Code: happening.Armed})
	assert.Equal(t, []int64{3010, 4210, 4401, 4600}, []int64{x.r.Heard, x.r.Clean, x.r.Free, x.r.Again})
	assert.Equal(t, int64(1280), x.r.Stopped, "that they turn again does not undo when they stopped")
	assert.Equal(t, Band{First: true, N: 2, At: [24]int64{1280, 4600}}, x.r.Arms)
	assert.Equal(t, Band{First: true, N: 2, At: [24]int64{1280, 3010}}, x.r.Link)

	// Off once more: all from the beginning.
	x.s.In.Transmitter = false
	x.to(4601)
	assert.Equal(t, []int64{4600, 4601, NotYet, NotYet, NotYet}, []int64{x.r.Last, x.r.Off, x.r.Lost, x.r.Back, x.r.Again})
}

// The first touch is the impact, also of a craft whose motors turn on and throw it up again.
func TestABounceWithTurningMotorsIsNoNewFlight(t *testing.T) {
	x := newTold()
	x.s.Armed, x.s.In.Air, x.s.Air.Flying = true, true, true
	x.s.Air.Body.Pos = vec.V{Z: -9}
	x.motors(4000).to(1047)
	x.s.In.Transmitter = false
	x.s.Air.Body.Vel = vec.V{Z: 9.69}
	x.to(2000)
	x.s.Air.Flying, x.s.Air.Body.Vel = false, vec.V{}
	x.to(2001, happening.Happening{Code: happening.TouchedDown, A: 9690, B: 9000})
	x.s.Air.Flying = true
	x.to(2400, happening.Happening{Code: happening.TookOff})
	x.s.Air.Flying = false
	x.to(2900, happening.Happening{Code: happening.TouchedDown, A: 3300, B: 600})
	assert.Equal(t, int64(2001), x.r.Down)
	assert.Equal(t, 9.69, x.r.Downward)
	assert.Equal(t, 9.69, x.r.Speed)
}

func TestASlotOnTheVeryTickBringsNoFrame(t *testing.T) {
	x := newTold().to(99)
	x.s.In.Transmitter = false
	x.to(100)
	assert.Equal(t, []int64{80, 100, 320}, []int64{x.r.Last, x.r.Off, x.r.Limit})
}

func TestARadioThatWasNeverHeardDoesNotGoOff(t *testing.T) {
	x := newTold()
	x.s.In.Plugged = false
	x.to(500)
	assert.Equal(t, Waiting, x.r.Phase)
	assert.Equal(t, int64(NotYet), x.r.Last)
}

// Motors that turn again while the radio is silent, as stored values may have it, have not stopped.
func TestMotorsThatTurnAgainHaveNotStopped(t *testing.T) {
	x := newTold().motors(5000).to(100)
	x.s.In.Transmitter = false
	x.to(200)
	x.motors(0).to(300)
	assert.Equal(t, int64(201), x.r.Stopped)
	x.motors(700).to(400)
	assert.Equal(t, int64(NotYet), x.r.Stopped)
	x.motors(0).to(500)
	assert.Equal(t, int64(401), x.r.Stopped)
	// One that stood still already has nothing to stop.
	y := newTold().to(100)
	y.s.In.Transmitter = false
	y.to(500)
	assert.Equal(t, int64(NotYet), y.r.Stopped)
	assert.False(t, y.r.Touched())
}

func TestABandHoldsWhatItCan(t *testing.T) {
	var b Band
	for i := range int64(41) {
		b.note(i%2 == 0, i)
		assert.Equal(t, i%2 == 0, b.Now(), "after change %d", i)
	}
	assert.LessOrEqual(t, b.N, len(b.At))
	assert.Equal(t, int64(11), b.At[11])
	b = Band{First: true}
	b.note(true, 5)
	assert.Zero(t, b.N, "no change is none")
	assert.True(t, b.Now())
}
