package gestures_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/gestures"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

func TestWhatIsMissing(t *testing.T) {
	cfg := set(own(30))
	h := newHand(cfg, 2)
	look := func() gestures.Glance { return gestures.Look(cfg, 0, h.set[0], &h.in) }

	g := look()
	assert.EqualValues(t, 2, g.Missing)
	assert.Equal(t, gestures.Place{Zone: low, In: true}, g.At[gestures.Throttle])
	assert.Equal(t, gestures.Place{Zone: free, In: true}, g.At[gestures.Roll])
	assert.Equal(t, gestures.Place{Zone: high, Off: cfg.HighIn - pulse.Centre}, g.At[gestures.Pitch], "forward, 70 % of travel to go")
	assert.Equal(t, gestures.Place{Zone: low, Off: cfg.LowIn - pulse.Centre}, g.At[gestures.Yaw], "to the left")
	assert.EqualValues(t, -1, g.Left)
	assert.False(t, g.Release)

	s := inOwn()
	s[gestures.Pitch] = pulse.Percent(500)
	h.at(s, 1)
	g = look()
	assert.EqualValues(t, 1, g.Missing)
	assert.Equal(t, gestures.Pitch, g.Worst)
	assert.Equal(t, gestures.Close, g.Phase)
	assert.EqualValues(t, 820, g.At[gestures.Pitch].Off, "20 % of 512 µs in eighths, outwards: 819.2")

	h.at(inOwn(), 16)
	g = look()
	assert.Equal(t, gestures.Standing, g.Phase)
	assert.EqualValues(t, 15, g.Slots)
	assert.EqualValues(t, 500, g.Share)
	s[gestures.Pitch] = cfg.HighOut
	h.at(s, 1)
	assert.Zero(t, look().Missing, "while it stands a stick may come back to the further edge")

	h.at(inOwn(), 20)
	assert.Equal(t, []int{0}, h.made)
	assert.True(t, look().Release)
	assert.Zero(t, look().Share)

	side := set(pattern("side", 30, mid, low, mid, high))
	for off, in := range map[pulse.Width]bool{side.MiddleOut - 1: true, side.MiddleOut: false, 1 - side.MiddleOut: true, -side.MiddleOut: false} {
		at := gestures.Input{Sticks: sticks{pulse.Centre + off, pulse.Low, pulse.Centre, pulse.High}}
		assert.Equal(t, in, gestures.Look(side, 0, gestures.State{Phase: gestures.Standing}, &at).At[gestures.Throttle].In, "%d", off)
	}

	chained := set(chain())
	c := newHand(chained, 2)
	left := rest()
	left[gestures.Roll] = pulse.Low
	c.at(left, 11)
	g = gestures.Look(chained, 0, c.set[0], &c.in)
	assert.Equal(t, gestures.Held, g.Phase)
	assert.EqualValues(t, 1, g.Part, "the next part is asked for")
	assert.EqualValues(t, 2, g.Parts)
	assert.EqualValues(t, -1, g.Left, "its limit does not run yet")
	assert.Equal(t, gestures.Roll, g.Worst)
	c.at(rest(), 5)
	g = gestures.Look(chained, 0, c.set[0], &c.in)
	assert.EqualValues(t, 21, g.Left)
}

// What is shown as missing is what is missing: a stick that goes as far as it says is in place, and one eighth less is not enough. And
// a pattern that counts as standing lacks nothing.
func TestGoingAsFarAsItSays(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPattern(rt, 0)
		p.Count = 1
		cfg := set(p)
		mode := uint8(rapid.IntRange(1, 4).Draw(rt, "mode"))
		h := newHand(cfg, mode)
		for d := range h.in.Sticks {
			h.in.Sticks[d] = pulse.Width(rapid.IntRange(int(pulse.Lowest), int(pulse.Highest)).Draw(rt, "stick"))
		}
		g := gestures.Look(cfg, 0, gestures.State{Phase: gestures.Away}, &h.in)
		job := [gestures.Directions]gestures.Direction{gestures.Throttle, gestures.Roll, gestures.Pitch, gestures.Yaw}
		if p.Physical {
			job = gestures.OnSticks(mode)
		}
		missing := 0
		for d, at := range g.At {
			if at.In != (at.Off == 0) {
				rt.Fatalf("direction %d: %+v", d, at)
			}
			if at.Off == 0 {
				continue
			}
			missing++
			if a, b := max(at.Off, -at.Off), max(g.At[g.Worst].Off, -g.At[g.Worst].Off); a > b {
				rt.Fatalf("direction %d misses more than the worst", d)
			}
			near := h.in
			near.Sticks[job[d]] += at.Off
			if !gestures.Look(cfg, 0, gestures.State{Phase: gestures.Away}, &near).At[d].In {
				rt.Fatalf("direction %d: %+v is not enough", d, at)
			}
			near.Sticks[job[d]] -= at.Off / max(at.Off, -at.Off)
			if gestures.Look(cfg, 0, gestures.State{Phase: gestures.Away}, &near).At[d].In {
				rt.Fatalf("direction %d: %+v is more than enough", d, at)
			}
		}
		if missing != int(g.Missing) {
			rt.Fatalf("%d missing, told %d", missing, g.Missing)
		}
		h.slot()
		if in := h.set[0].Phase == gestures.Standing; in != (missing == 0) && h.set[0].Phase != gestures.Spent {
			rt.Fatalf("%d missing, and it stands as %d", missing, h.set[0].Phase)
		}
	})
}

// The corners of arming and disarming by sticks, worked out by hand for each stick mode.
func TestWhatTouchesTheArmingCorners(t *testing.T) {
	const (
		apart, way, may, inside = gestures.Apart, gestures.OnTheWay, gestures.May, gestures.Inside
	)
	at := func(cfg *gestures.Config, code string, mode uint8) gestures.CornerTouch {
		n := slices.Index(cfg.Codes(), code)
		require.GreaterOrEqual(t, n, 0, code)
		return gestures.Corners(cfg, n, mode)
	}
	for mode := uint8(1); mode <= 4; mode++ {
		// By job, so alike whatever stick carries what: the first begins with throttle low and yaw left; yaw is in the middle in all else.
		assert.Equal(t, gestures.CornerTouch{Arm: apart, Disarm: inside}, at(shipped(t), "craft-menu", mode), "mode %d", mode)
		for part, want := range [...]gestures.CornerTouch{{Disarm: inside}, {}} {
			p := &shipped(t).Patterns[slices.Index(shipped(t).Codes(), "craft-menu")]
			assert.Equal(t, want, p.StandCorners(part, mode), "mode %d, part %d", mode, part)
		}
		assert.Equal(t, gestures.CornerTouch{}, at(shipped(t), "camera-set-up", mode), "mode %d", mode)
		assert.Equal(t, gestures.CornerTouch{}, at(shipped(t), "camera-display", mode), "mode %d", mode)
	}
	// Left stick to the left, right stick to the right, both at mid height. In modes 1 and 2 the left one carries yaw: yaw left while the
	// throttle is still low is the disarm corner. In modes 3 and 4 yaw is on the right one and goes right: the arm corner.
	for mode, want := range [...]gestures.CornerTouch{{Disarm: way}, {Disarm: way}, {Arm: way}, {Arm: way}} {
		assert.Equal(t, want, at(others(t), "outwards", uint8(mode+1)), "mode %d", mode+1)
	}
	free1 := set(pattern("wide", 30, low, high, free, free), pattern("side", 30, free, free, free, high))
	assert.Equal(t, gestures.CornerTouch{Arm: may, Disarm: may}, gestures.Corners(free1, 0, 2))
	assert.Equal(t, gestures.CornerTouch{Arm: may}, gestures.Corners(free1, 1, 2))
	two := pattern("two", 30, low, free, free, low) // from the disarm corner to throttle up and yaw right
	two.Parts[1], two.Count = gestures.Part{Zones: [4]gestures.Zone{high, free, free, high}, Dwell: 30, Within: 50}, 2
	assert.Equal(t, gestures.CornerTouch{Arm: way, Disarm: inside}, gestures.Corners(set(two), 0, 2))
	// From part to part: each of these passes the arm corner on one way only.
	parts := func(zones ...[2]gestures.Zone) *gestures.Config {
		p := gestures.Pattern{Count: uint8(len(zones))}
		for i, z := range zones {
			p.Parts[i] = gestures.Part{Zones: [4]gestures.Zone{z[0], low, free, z[1]}, Dwell: 30, Within: 50}
		}
		return set(p)
	}
	for _, cfg := range []*gestures.Config{
		parts([2]gestures.Zone{low, mid}, [2]gestures.Zone{high, high}, [2]gestures.Zone{high, mid}),
		parts([2]gestures.Zone{high, mid}, [2]gestures.Zone{high, high}, [2]gestures.Zone{low, mid}),
		parts([2]gestures.Zone{high, mid}, [2]gestures.Zone{high, high}),
	} {
		assert.Equal(t, gestures.CornerTouch{Arm: way}, gestures.Corners(cfg, 0, 2))
	}
	assert.Equal(t, gestures.CornerTouch{}, gestures.Corners(parts([2]gestures.Zone{high, mid}, [2]gestures.Zone{high, high}, [2]gestures.Zone{high, mid}), 0, 2))
}

func TestContains(t *testing.T) {
	cfg := set(corner(30), own(30))
	left := pattern("left", 30, low, low, free, free) // by physical stick: left across, left up
	left.Physical = true
	cfg.Patterns = append(cfg.Patterns, left)
	assert.True(t, gestures.Contains(cfg, 1, 0, 2))
	assert.False(t, gestures.Contains(cfg, 0, 1, 2))
	assert.True(t, gestures.Contains(cfg, 0, 0, 2))
	assert.True(t, gestures.Contains(cfg, 0, 2, 2), "in mode 2 the left stick carries yaw and throttle")
	assert.True(t, gestures.Contains(cfg, 1, 2, 2))
	assert.False(t, gestures.Contains(cfg, 0, 2, 1), "in mode 1 yaw and pitch")
}

// Neither a step nor a look takes memory.
func TestNoAllocation(t *testing.T) {
	cfg := shipped(t)
	h := newHand(cfg, 2)
	var log happening.Log
	places := []sticks{rest(), target(&cfg.Patterns[0], 0, 2), target(&cfg.Patterns[1], 0, 2), inCorner()}
	n, g := 0, gestures.Glance{}
	assert.Zero(t, testing.AllocsPerRun(2000, func() {
		h.in.Sticks = places[n/40%len(places)]
		n++
		log.Reset()
		gestures.Step(cfg, h.set, &h.in, 0, &log)
		g = gestures.Look(cfg, n%len(cfg.Patterns), h.set[n%len(cfg.Patterns)], &h.in)
		gestures.Corners(cfg, n%len(cfg.Patterns), 2)
	}))
	assert.NotZero(t, g.Parts)
}

func benchmarkStep(b *testing.B, patterns int) {
	cfg := gestures.Default(slotTicks)
	for n := range patterns {
		p := pattern("p", 30, gestures.Zone(1+n%3), gestures.Zone(n/3%4), gestures.Zone(n/12%4), gestures.Zone(n/48%4))
		p.Physical = n%2 == 1
		cfg.Patterns = append(cfg.Patterns, p)
	}
	h := newHand(&cfg, 2)
	places := []sticks{rest(), inOwn(), {pulse.Centre, pulse.Low, pulse.Centre, pulse.High}, inCorner()}
	var log happening.Log
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		h.in.Sticks = places[n/50%len(places)]
		n++
		log.Reset()
		gestures.Step(&cfg, h.set, &h.in, 0, &log)
	}
}

func BenchmarkStep10(b *testing.B)   { benchmarkStep(b, 10) }
func BenchmarkStep1000(b *testing.B) { benchmarkStep(b, 1000) }
