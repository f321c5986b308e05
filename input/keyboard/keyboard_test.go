package keyboard_test

import (
	"math"
	"sync"
	"testing"

	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/pulse"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func names() input.Names {
	return input.Names{
		Channel: map[string]int{"roll": 0, "pitch": 1, "throttle": 2, "yaw": 3, "arm": 4, "second": 5, "mode": 6},
		Position: map[string]map[string]pulse.Width{
			"arm": {"off": pulse.Micros(1000), "on": pulse.Micros(1500)},
		},
	}
}

const (
	roll, pitch, throttle, yaw, arm, second, mode, extra = 0, 1, 2, 3, 4, 5, 6, 7
	ms                                                   = 1000
)

// at plays everything until at and gives the frame that stands then.
func at(s *keyboard.Source, until int64) pulse.Frame {
	got, _ := s.Poll(nil, until)
	for i := len(got) - 1; i >= 0; i-- {
		if got[i].Kind == pulse.Controls {
			last[s] = got[i].Frame
			break
		}
	}
	return last[s]
}

var last = map[*keyboard.Source]pulse.Frame{}

func TestConformance(t *testing.T) {
	inputtest.TestSource(t, func() input.Source {
		s := keyboard.New(names())
		s.Press(keyboard.ThrottleUp, 100*ms)
		s.Press(keyboard.RollLeft, 101_234)
		s.Press(keyboard.Arm, 2_000*ms)
		s.Release(keyboard.RollLeft, 2_100*ms)
		s.Press(keyboard.YawRight, 2_100*ms)
		s.Press(keyboard.Gentle, 3_333*ms)
		s.Press(keyboard.ModeHigh, 3_334*ms)
		s.ReleaseAll(6_000 * ms)
		s.Hold(keyboard.Pitch, pulse.High, 7_000_003)
		s.LetGo(keyboard.Pitch, 7_500*ms)
		s.Press(keyboard.ThrottleZero, 8_000_001)
		return s
	}, inputtest.Want{NoAlloc: true})
}

func TestRestingPlace(t *testing.T) {
	s := keyboard.New(names())
	got, err := s.Poll(nil, 0)
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, pulse.Reading{Kind: pulse.Plug, Value: 1}, got[0])
	f := got[1].Frame
	require.Equal(t, pulse.Low, f[throttle])
	require.Equal(t, []pulse.Width{pulse.Centre, pulse.Centre, pulse.Centre}, []pulse.Width{f[roll], f[pitch], f[yaw]})
	require.Equal(t, pulse.Micros(1000), f[arm], "off where the craft has it")
	require.Equal(t, pulse.Low, f[second])
	require.Equal(t, pulse.Low, f[mode])
	require.Equal(t, pulse.Low, f[extra], "the first channel without a job")
	for ch := 8; ch < pulse.Channels; ch++ {
		require.Equal(t, pulse.Missing, f[ch])
	}
}

func TestSticks(t *testing.T) {
	for _, c := range []struct {
		low, high keyboard.Key
		ch        int
	}{
		{keyboard.YawLeft, keyboard.YawRight, yaw},
		{keyboard.RollLeft, keyboard.RollRight, roll},
		{keyboard.PitchBack, keyboard.PitchForward, pitch},
	} {
		s := keyboard.New(names())
		s.Press(c.high, 0)
		require.Equal(t, pulse.Low+pulse.Travel*3/2, at(s, 120*ms)[c.ch], "half way: 25 of 50 steps")
		require.Less(t, at(s, 240*ms)[c.ch], pulse.High)
		require.Equal(t, pulse.High, at(s, 250*ms)[c.ch], "full deflection in 250 ms")
		require.Equal(t, pulse.High, at(s, 900*ms)[c.ch])
		s.Release(c.high, 900*ms)
		require.Greater(t, at(s, 1005*ms)[c.ch], pulse.Centre)
		require.Equal(t, pulse.Centre, at(s, 1020*ms)[c.ch], "back in 120 ms")
		s.Press(c.low, 1100*ms)
		require.Equal(t, pulse.Low, at(s, 1350*ms)[c.ch])
		s.Press(c.high, 1400*ms)
		require.Equal(t, pulse.Centre, at(s, 1600*ms)[c.ch], "opposite keys hold each other")
		s.ReleaseAll(1600 * ms)
		require.Equal(t, pulse.Centre, at(s, 2000*ms)[c.ch])
	}
}

func TestThrottleStays(t *testing.T) {
	s := keyboard.New(names())
	s.Press(keyboard.ThrottleUp, 5*ms)
	require.Less(t, at(s, 1150*ms)[throttle], pulse.High)
	require.Equal(t, pulse.High, at(s, 1200*ms)[throttle], "end to end in 1.2 s")
	s.Release(keyboard.ThrottleUp, 1201*ms)
	s.Press(keyboard.ThrottleDown, 2000*ms)
	s.Release(keyboard.ThrottleDown, 2600*ms)
	w := at(s, 2700*ms)[throttle]
	require.InDelta(t, int(pulse.High-pulse.Micros(393)), int(w), float64(pulse.Micros(15)), "600 ms are some two fifths of the way")
	require.Equal(t, w, at(s, 9000*ms)[throttle], "stays where it was left")
	s.Press(keyboard.ThrottleZero, 9001*ms)
	require.Equal(t, pulse.Low, at(s, 9005*ms)[throttle], "to zero at once")
}

func TestGentle(t *testing.T) {
	s := keyboard.New(names())
	s.Press(keyboard.Gentle, 0)
	s.Press(keyboard.RollRight, 0)
	s.Press(keyboard.ThrottleUp, 0)
	require.Equal(t, pulse.Centre+pulse.Travel/2, at(s, 500*ms)[roll], "half as far")
	require.InDelta(t, int(pulse.Low+2*pulse.Travel/4), int(at(s, 1195*ms)[throttle]), float64(pulse.Micros(10)), "a quarter as fast")
	s.Release(keyboard.Gentle, 1196*ms)
	require.Equal(t, pulse.High, at(s, 1400*ms)[roll])
}

// A tap of a throttle key moves it by a few µs, with Gentle by one or two: so a hand holds a height. The longer the key is held, the faster it goes; the other
// key begins anew.
func TestATapMovesTheThrottleALittle(t *testing.T) {
	tap := func(gentle bool, held int64) float64 {
		s := keyboard.New(names())
		s.Hold(keyboard.Throttle, pulse.Micros(1310), 0)
		s.LetGo(keyboard.Throttle, 200*ms)
		from := at(s, 400*ms)[throttle]
		if gentle {
			s.Press(keyboard.Gentle, 450*ms)
		}
		s.Press(keyboard.ThrottleUp, 500*ms)
		s.Release(keyboard.ThrottleUp, 500*ms+held)
		return float64(at(s, 3000*ms)[throttle]-from) / pulse.Eighths
	}
	require.InDelta(t, 0.3, tap(false, 1), 0.1, "shorter than a step")
	require.InDelta(t, 4.8, tap(false, 80*ms), 0.4)
	require.InDelta(t, 1.2, tap(true, 80*ms), 0.3)
	require.InDelta(t, 6, tap(false, 100*ms), 0.4)
	require.Greater(t, tap(false, 400*ms), 20*tap(false, 100*ms))

	s := keyboard.New(names())
	s.Press(keyboard.ThrottleUp, 0)
	up := at(s, 1000*ms)[throttle]
	s.Release(keyboard.ThrottleUp, 1000*ms)
	s.Press(keyboard.ThrottleDown, 1000*ms)
	require.InDelta(t, 6, float64(up-at(s, 1100*ms)[throttle])/pulse.Eighths, 0.7, "the other way it begins anew")
}

func TestSwitches(t *testing.T) {
	s := keyboard.New(names())
	s.Press(keyboard.Arm, 10*ms)
	require.Equal(t, pulse.Micros(1500), at(s, 20*ms)[arm], "on where the craft has it")
	s.Press(keyboard.Arm, 30*ms) // a repeat of the operating system
	require.Equal(t, pulse.Micros(1500), at(s, 40*ms)[arm])
	s.Release(keyboard.Arm, 50*ms)
	s.Press(keyboard.Arm, 60*ms)
	require.Equal(t, pulse.Micros(1000), at(s, 70*ms)[arm])
	s.Press(keyboard.Second, 80*ms)
	s.Press(keyboard.Extra, 80*ms)
	f := at(s, 90*ms)
	require.Equal(t, pulse.High, f[second])
	require.Equal(t, pulse.High, f[extra])
	for i, k := range []keyboard.Key{keyboard.ModeMiddle, keyboard.ModeHigh, keyboard.ModeLow} {
		s.Press(k, int64(100+10*i)*ms)
		require.Equal(t, []pulse.Width{pulse.Centre, pulse.High, pulse.Low}[i], at(s, int64(105+10*i)*ms)[mode])
	}
	s.ReleaseAll(200 * ms)
	require.Equal(t, f[second], at(s, 300*ms)[second], "switches stay when the focus is lost")
}

// A tap that begins and ends between two steps still counts.
func TestShortTap(t *testing.T) {
	s := keyboard.New(names())
	at(s, 0)
	s.Press(keyboard.Arm, 1001)
	s.Release(keyboard.Arm, 1002)
	s.Press(keyboard.RollRight, 1003)
	s.Release(keyboard.RollRight, 1004)
	f := at(s, 5*ms)
	require.Equal(t, pulse.Micros(1500), f[arm])
	require.Greater(t, f[roll], pulse.Centre)
	require.Equal(t, pulse.Centre, at(s, 10*ms)[roll])
}

// Strokes that come in late, unknown keys and far times do no harm.
func TestOddInput(t *testing.T) {
	s := keyboard.New(input.Names{})
	at(s, 1000*ms)
	s.Press(keyboard.Extra, 3)
	s.Press(0, 3)
	s.Press(200, 3)
	require.Equal(t, pulse.High, at(s, 1005*ms)[0], "counts at the next step; without jobs the extra switch is channel 1")
	s.Press(keyboard.ThrottleUp, 2000*ms)
	got, err := s.Poll(nil, math.MaxInt64)
	require.NoError(t, err)
	require.Empty(t, got, "no channel, no reading")
	_, err = s.Poll(nil, math.MaxInt64)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	_, err = s.Poll(nil, 0)
	require.ErrorIs(t, err, input.ErrEnd)
}

// Whatever is pressed, every value is a pulse within full travel, and letting go brings the sticks home.
func TestAlwaysWithinTravel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := keyboard.New(names())
		now := int64(0)
		var got []pulse.Reading
		for range rapid.IntRange(1, 40).Draw(t, "strokes") {
			now += rapid.Int64Range(0, 400_000).Draw(t, "wait")
			k := keyboard.Key(rapid.IntRange(1, int(keyboard.ModeHigh)).Draw(t, "key"))
			if rapid.Bool().Draw(t, "press") {
				s.Press(k, now)
			} else {
				s.Release(k, now)
			}
		}
		s.ReleaseAll(now)
		got, _ = s.Poll(got, now+130*ms)
		var f pulse.Frame
		for _, r := range got {
			if r.Kind != pulse.Controls {
				continue
			}
			f = r.Frame
			for ch := range 8 {
				if f[ch] < pulse.Low || f[ch] > pulse.High {
					t.Fatalf("channel %d is %d eighths", ch+1, f[ch])
				}
			}
			if r.At%keyboard.Grid != 0 {
				t.Fatalf("a reading at %d µs", r.At)
			}
		}
		if f[roll] != pulse.Centre || f[pitch] != pulse.Centre || f[yaw] != pulse.Centre {
			t.Fatalf("sticks are not home: %v", f)
		}
	})
}

func TestStrokesFromOtherGoroutines(t *testing.T) {
	s := keyboard.New(names())
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for i := range int64(200) {
				s.Press(keyboard.Extra, i*ms)
				s.Release(keyboard.Extra, i*ms)
			}
		})
	}
	var got []pulse.Reading
	for i := range int64(100) {
		var err error
		got, err = s.Poll(got, i*2*ms)
		require.NoError(t, err)
	}
	wg.Wait()
	<-s.Wake()
	// Four hands on one key count as one, but after all of them it stands where an even number of presses leaves it or
	// where an odd one does, and nothing else has moved.
	got, err := s.Poll(got, 10_000*ms)
	require.NoError(t, err)
	f := got[len(got)-1].Frame
	require.Contains(t, []pulse.Width{pulse.Low, pulse.High}, f[extra])
	require.Equal(t, pulse.Centre, f[roll])
	require.Equal(t, pulse.Low, f[throttle])
	require.NoError(t, s.Close())
}

// The layout gives each key once, and no physical key twice.
func TestLayout(t *testing.T) {
	keys, physical, codes := map[keyboard.Key]bool{}, map[string]bool{}, map[string]bool{}
	for _, b := range keyboard.Layout() {
		require.False(t, keys[b.Key] || physical[b.Physical] || codes[b.Code], "%+v is there twice", b)
		keys[b.Key], physical[b.Physical], codes[b.Code] = true, true, true
	}
	for k := keyboard.ThrottleUp; k <= keyboard.ModeHigh; k++ {
		require.True(t, keys[k], "key %d is not in the layout", k)
	}
}

func TestAPointerHasTheStick(t *testing.T) {
	s := keyboard.New(names())
	s.Hold(keyboard.Yaw, pulse.High, 100*ms)
	s.Hold(keyboard.Throttle, pulse.Centre, 100*ms)
	require.Equal(t, pulse.High, at(s, 180*ms)[yaw], "there within 80 ms")
	require.Equal(t, pulse.Centre, at(s, 180*ms)[throttle])
	s.Press(keyboard.YawLeft, 200*ms)
	require.Equal(t, pulse.High, at(s, 500*ms)[yaw], "keys do not move what a pointer has")
	s.Release(keyboard.YawLeft, 500*ms)
	s.LetGo(keyboard.Yaw, 600*ms)
	s.LetGo(keyboard.Throttle, 600*ms)
	f := at(s, 1000*ms)
	require.Equal(t, pulse.Centre, f[yaw], "it springs back")
	require.Equal(t, pulse.Centre, f[throttle], "it stays")

	s.Hold(keyboard.Throttle, pulse.High, 1100*ms)
	s.LetGo(keyboard.Throttle, 1101*ms)
	require.Equal(t, pulse.High, at(s, 1300*ms)[throttle], "a short tap sends the throttle there")
	s.Press(keyboard.ThrottleDown, 1400*ms)
	s.Release(keyboard.ThrottleDown, 1500*ms)
	require.Less(t, at(s, 1600*ms)[throttle], pulse.High, "keys have it again")

	s.Hold(keyboard.Throttle, pulse.High, 1700*ms)
	s.Press(keyboard.ThrottleZero, 1800*ms)
	require.Equal(t, pulse.Low, at(s, 2000*ms)[throttle], "down at once, whoever has the stick")

	s.Hold(keyboard.Roll, pulse.Width(-30_000), 2100*ms)
	require.Equal(t, pulse.Low, at(s, 2300*ms)[roll], "never past its end")
	s.ReleaseAll(2400 * ms)
	require.Equal(t, pulse.Centre, at(s, 2600*ms)[roll])
}
