package gestures_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// bySticks is a craft that is armed by its sticks, with gestures and their menus.
func bySticks(t *testing.T, gestureFile string) sim.Config {
	name, text, ok := assets.Craft("teasel-by-sticks")
	require.True(t, ok)
	craft, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	cfg := craft.Config()
	require.Equal(t, arming.BySticks, cfg.Arming.By)
	f, err := patternfile.Parse("gestures", []byte(gestureFile), cfg.SlotTicks)
	require.NoError(t, err)
	cfg.Gestures, cfg.Menus = &f.Gestures, &f.Menus
	return cfg
}

// walk is a person before the whole bench of a craft that is armed by its sticks.
type walk struct {
	*person
	cfg   sim.Config
	p     *practice.Practice
	frame pulse.Frame
	snap  sim.Snapshot
	seen  map[happening.Code]int
	made  []int
	// nearest is how near the sticks ever came to the arm corner: the highest yaw while the throttle was below its low mark.
	nearest pulse.Width
	dwelt   bool // an arming dwell ever ran
}

func newWalk(cfg sim.Config, mode uint8, takes float64, full bool, seed uint64) *walk {
	w := &walk{cfg: cfg, p: practice.New(cfg), seen: map[happening.Code]int{}}
	w.person = meets(cfg.Gestures, mode, takes, rand.New(rand.NewPCG(uint64(mode), seed)))
	w.full, w.each = full, w.slot
	for c := range w.frame {
		w.frame[c] = pulse.Low
	}
	w.p.Step([]pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}, {Kind: pulse.StickMode, Value: int32(mode)}})
	w.goes(atRest(), 3.5)
	return w
}

// slot gives the bench a slot's time with the sticks as they are.
func (w *walk) slot() {
	l, s := &w.cfg.Layout, &w.h.in.Sticks
	w.frame[l.Throttle], w.frame[l.Roll], w.frame[l.Pitch], w.frame[l.Yaw] = s[gestures.Throttle], s[gestures.Roll], s[gestures.Pitch], s[gestures.Yaw]
	read := []pulse.Reading{{Kind: pulse.Controls, Frame: w.frame}}
	for range slotTicks {
		w.p.Step(read)
		read = nil
		for _, h := range w.p.Happenings() {
			w.seen[h.Code]++
			if h.Code == happening.Gesture {
				w.made = append(w.made, int(h.A))
			}
		}
	}
	w.p.Snapshot(&w.snap)
	w.dwelt = w.dwelt || w.snap.DwellIs == sim.DwellingToArm || w.snap.DwellIs == sim.DwellingSpent
	if s[gestures.Throttle] < w.cfg.Arming.LowThrottle {
		w.nearest = max(w.nearest, s[gestures.Yaw])
	}
}

// yaw holds the throttle low and yaw at a side for some seconds.
func (w *walk) yaw(side, seconds float64) {
	w.goes([gestures.Directions]float64{gestures.Throttle: -1, gestures.Yaw: side}, seconds)
}

// eachWalk walks every shipped gesture in every stick mode with hands of every speed, that go nearly or fully to the ends.
func eachWalk(t *testing.T, cfg sim.Config, each func(t *testing.T, w *walk, n int)) {
	tries := uint64(5)
	if testing.Short() {
		tries = 1
	}
	for n := range cfg.Gestures.Patterns {
		for mode := uint8(1); mode <= 4; mode++ {
			t.Run(fmt.Sprintf("%s in mode %d", cfg.Gestures.Patterns[n].Code, mode), func(t *testing.T) {
				for _, takes := range speeds[:3] { // a whole second from end to end may be too slow between two parts
					for seed := range tries {
						for _, full := range []bool{false, true} {
							each(t, newWalk(cfg, mode, takes, full, seed), n)
						}
					}
				}
			})
		}
	}
}

// No shipped gesture passes through the corner in which sticks arm: not on the way there, not in it, not between its parts, not on the
// way back. It is so in every stick mode, on the whole bench.
func TestNoShippedGesturePassesTheArmCorner(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	cfg := bySticks(t, string(text))
	eachWalk(t, cfg, func(t *testing.T, w *walk, n int) {
		w.makes(n)
		assert.Equal(t, []int{n}, w.made)
		assert.Equal(t, 1, w.seen[happening.Menu], "and the menu is open")
		assert.Zero(t, w.seen[happening.Armed])
		assert.False(t, w.dwelt, "no arming dwell ever ran")
		assert.Less(t, w.nearest, pulse.Centre+cfg.Gestures.MiddleOut, "yaw never even left the middle to the right")
	})
}

// The menu that a gesture opens is moved and left by the right stick alone, in every stick mode, and the craft never arms meanwhile. Where
// the right stick carries the throttle, that comes to the middle first.
func TestEachMenuIsMovedByTheRightStick(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	cfg := bySticks(t, string(text))
	eachWalk(t, cfg, func(t *testing.T, w *walk, n int) {
		w.makes(n)
		require.EqualValues(t, cfg.Gestures.Patterns[n].Opens, w.p.Menu().Open)
		on := gestures.OnSticks(w.h.in.StickMode)
		up, across := on[gestures.RightUp], on[gestures.RightAcross]
		middle := atRest()
		middle[up], middle[across] = 0, 0
		push := func(d gestures.Direction, to float64) {
			at := middle
			at[d] = to
			w.goes(at, 0.1)
			w.goes(middle, 0.1)
		}
		w.takes = 0.2 // one push is one step: held for half a second it would be more
		w.goes(middle, 0.2)
		push(up, -1)
		assert.EqualValues(t, 1, w.p.Menu().Marks[0], "the mark went down by one")
		push(up, 1)
		assert.EqualValues(t, 0, w.p.Menu().Marks[0])
		push(across, -1)
		assert.Zero(t, w.p.Menu().Open, "and out")
		assert.Equal(t, 2, w.seen[happening.Menu])
		assert.Zero(t, w.seen[happening.Armed])
	})
}

// The same walk does arm where a gesture lies in that corner, or it would prove nothing.
func TestTheWalkWouldArm(t *testing.T) {
	cfg := bySticks(t, "propsoff: gestures 1\ngestures:\n  wrong:\n    name: wrong\n    parts:\n"+
		"      - {stand: {throttle: low, yaw: right, roll: middle, pitch: forward}, for: 600 ms}\n"+
		"      - {stand: {throttle: low, yaw: right, roll: left, pitch: middle}, for: 600 ms, within: 500 ms}\n")
	armed := 0
	eachWalk(t, cfg, func(_ *testing.T, w *walk, n int) {
		w.makes(n)
		armed += w.seen[happening.Armed]
		if w.full {
			assert.True(t, w.dwelt)
			assert.Greater(t, w.nearest, cfg.Arming.YawRight)
		}
	})
	assert.NotZero(t, armed)
}

// arms arms the craft by its sticks and lets yaw go.
func (w *walk) arms(t *testing.T) {
	w.yaw(1, 1)
	w.yaw(0, 0.3)
	require.True(t, w.snap.Armed)
}

// Made while the craft is armed, no shipped gesture counts. All but the craft's own menu leave it armed. That one begins in the corner
// that disarms: sticks that stay there until they have disarmed it, and go straight on to its end, make nothing either, for they have
// stood in its first part since before gestures counted. Made again, it counts.
func TestShippedGesturesOfAnArmedCraft(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	cfg := bySticks(t, string(text))
	eachWalk(t, cfg, func(t *testing.T, w *walk, n int) {
		if !w.full {
			return // the throttle would not come low enough to arm or to disarm
		}
		g := &cfg.Gestures.Patterns[n]
		w.arms(t)
		w.makes(n)
		assert.Empty(t, w.made, "made while armed, it is spent")
		assert.Zero(t, w.seen[happening.Menu])
		if g.Code != "craft-menu" {
			assert.True(t, w.snap.Armed)
			assert.Zero(t, w.seen[happening.Disarmed])
			return
		}
		if !w.snap.Armed { // where it stood there for the whole dwell of the corner
			w.arms(t)
		}
		for _, seconds := range []float64{0.5, 2} {
			w.goes(w.aims(g, 0), seconds)
			require.False(t, w.snap.Armed)
			w.goes(w.aims(g, 1), 1)
			w.goes(atRest(), 0.8)
			assert.Empty(t, w.made, "begun while armed")
			assert.Zero(t, w.seen[happening.Menu])
			w.arms(t)
		}
		w.goes(w.aims(g, 0), 1)
		require.False(t, w.snap.Armed)
		w.goes(atRest(), 0.1)
		w.makes(n)
		assert.Equal(t, []int{n}, w.made, "made anew, it counts")
		assert.Equal(t, 1, w.seen[happening.Menu])
	})
}

// A gesture of which one part was made without a link is spent; made again on a good link it counts. It is so in every stick mode.
func TestShippedGesturesWithoutALink(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	cfg := bySticks(t, string(text))
	eachWalk(t, cfg, func(t *testing.T, w *walk, n int) {
		g := &cfg.Gestures.Patterns[n]
		radio := func(on int32) { w.p.Step([]pulse.Reading{{Kind: pulse.Link, Value: on}}) }
		radio(0)
		w.makes(n)
		w.goes(w.aims(g, 0), 1)
		radio(1)
		w.goes(w.aims(g, 0), 2.5) // the link is good again, and the sticks have stood in the first part since before
		w.goes(w.aims(g, 1), 1)
		w.goes(atRest(), 0.5)
		assert.Empty(t, w.made)
		assert.Zero(t, w.seen[happening.Menu])
		w.makes(n)
		assert.Equal(t, []int{n}, w.made)
	})
}

// The camera's set-up ends where what the camera shows begins. A hand that goes straight on from the one to the end of the other has
// made only the first: its menu is open by then.
func TestOneGestureGoesOnInAnother(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	cfg := bySticks(t, string(text))
	codes := cfg.Gestures.Codes()
	setUp, display := slices.Index(codes, "camera-set-up"), slices.Index(codes, "camera-display")
	require.Equal(t, cfg.Gestures.Patterns[setUp].Parts[1].Zones, cfg.Gestures.Patterns[display].Parts[0].Zones)
	for mode := uint8(1); mode <= 4; mode++ {
		for _, seconds := range []float64{0.36, 0.5, 2} {
			w := newWalk(cfg, mode, speeds[0], true, 1)
			w.goes(w.aims(&cfg.Gestures.Patterns[setUp], 0), 0.4)
			w.goes(w.aims(&cfg.Gestures.Patterns[setUp], 1), seconds)
			w.goes(w.aims(&cfg.Gestures.Patterns[display], 1), 0.6)
			w.goes(atRest(), 1)
			assert.Equal(t, []int{setUp}, w.made, "mode %d, %v s", mode, seconds)
			assert.Equal(t, 1, w.seen[happening.Menu])
		}
	}
}
