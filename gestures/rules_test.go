package gestures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// corner is throttle low and yaw left, where sticks disarm (common practice, no source); own is that and pitch forward.
func corner(dwell uint16) gestures.Pattern { return pattern("corner", dwell, low, free, free, low) }
func own(dwell uint16) gestures.Pattern    { return pattern("own", dwell, low, free, high, low) }

// inOwn and inCorner stand in them.
func inOwn() sticks    { return sticks{pulse.Low, pulse.Centre, pulse.High, pulse.Low} }
func inCorner() sticks { return sticks{pulse.Low, pulse.Centre, pulse.Centre, pulse.Low} }

func nears(h *hand) (out []happening.Near) {
	for _, n := range h.near {
		out = append(out, happening.Near(n.B&0xff))
	}
	return out
}

func TestWhatIsMadeWhenOneContainsTheOther(t *testing.T) {
	t.Run("the more specific goes first, in whatever order they are written", func(t *testing.T) {
		for _, cfg := range []*gestures.Config{set(corner(30), own(30)), set(own(30), corner(30))} {
			h := newHand(cfg, 2).at(inCorner(), 10).at(inOwn(), 100)
			require.Len(t, h.made, 1)
			assert.Equal(t, "own", cfg.Patterns[h.made[0]].Code)
			assert.Equal(t, 1, h.most)
		}
	})
	t.Run("also where its dwell is longer", func(t *testing.T) {
		h := newHand(set(corner(30), own(90)), 2).at(inOwn(), 200)
		assert.Equal(t, []int{1}, h.made)
	})
	t.Run("the one that waits is made when the other is left", func(t *testing.T) {
		h := newHand(set(corner(30), own(90)), 2).at(inOwn(), 60)
		assert.Empty(t, h.made)
		h.at(inCorner(), 1)
		assert.Equal(t, []int{0}, h.made)
		assert.Empty(t, h.near, "no near miss is told where a gesture is made")
	})
	t.Run("the smaller alone", func(t *testing.T) {
		h := newHand(set(corner(30), own(30)), 2).at(inCorner(), 31)
		assert.Equal(t, []int{0}, h.made)
		h.at(inOwn(), 31)
		assert.Equal(t, []int{0, 1}, h.made, "the other was not yet stood in when the first was made")
	})
	t.Run("declared to go together, neither waits for the other", func(t *testing.T) {
		cfg := set(corner(30), own(90))
		cfg.Patterns[0].With, cfg.Patterns[1].With = 2, 1
		h := newHand(cfg, 2).at(inOwn(), 31)
		assert.Equal(t, []int{0}, h.made)
		h.at(inOwn(), 60)
		assert.Equal(t, []int{0, 1}, h.made)
	})
	t.Run("one that waits is not made with another that it goes with", func(t *testing.T) {
		cfg := set(corner(30), own(90), pattern("forward", 30, low, mid, high, free))
		cfg.Patterns[0].With, cfg.Patterns[2].With = 4, 1
		h := newHand(cfg, 2).at(inOwn(), 31)
		assert.Equal(t, []int{2}, h.made)
		h.slot()
		assert.Equal(t, []int{2, 0}, h.made, "the one it waited for was spent")
		assert.Equal(t, 1, h.most)
	})
	t.Run("declared to go together, both are", func(t *testing.T) {
		cfg := set(corner(30), own(30))
		cfg.Patterns[0].With, cfg.Patterns[1].With = 2, 1
		h := newHand(cfg, 2).at(inOwn(), 30)
		assert.Empty(t, h.made)
		assert.Equal(t, 1, h.slot(), "the first is the more specific")
		assert.Equal(t, []int{1, 0}, h.made)
		assert.Equal(t, 2, h.most)
	})
}

func TestTwoThatOverlap(t *testing.T) {
	forward := pattern("forward", 30, low, free, high, free)
	both := inOwn()
	t.Run("at once: more directions, then the one written first", func(t *testing.T) {
		h := newHand(set(corner(30), forward), 2).at(both, 100)
		assert.Equal(t, []int{0}, h.made)
		h = newHand(set(forward, corner(30)), 2).at(both, 100)
		assert.Equal(t, []int{0}, h.made)
		h = newHand(set(corner(30), pattern("more", 30, low, mid, high, free)), 2).at(both, 100)
		assert.Equal(t, []int{1}, h.made)
	})
	t.Run("the one that is complete first is made, and the other spent", func(t *testing.T) {
		h := newHand(set(corner(30), forward), 2).at(sticks{pulse.Low, pulse.Centre, pulse.High, pulse.Centre}, 5).at(both, 100)
		assert.Equal(t, []int{1}, h.made)
		h.at(rest(), 3).at(inCorner(), 31)
		assert.Equal(t, []int{1, 0}, h.made)
	})
	t.Run("a chain that ends as another does goes first", func(t *testing.T) {
		chain := pattern("chain", 10, low, free, high, free)
		chain.Parts[1] = corner(30).Parts[0]
		chain.Parts[1].Within, chain.Count = 50, 2
		h := newHand(set(corner(30), chain), 2).at(sticks{pulse.Low, pulse.Centre, pulse.High, pulse.Centre}, 11).at(inCorner(), 40)
		assert.Equal(t, []int{1}, h.made)
		h = newHand(set(corner(30), chain), 2).at(inCorner(), 40)
		assert.Equal(t, []int{0}, h.made)
	})
	t.Run("more than 64 patterns: those behind never go together", func(t *testing.T) {
		cfg := gestures.Default(slotTicks)
		for range 70 {
			cfg.Patterns = append(cfg.Patterns, corner(30))
		}
		for i := range cfg.Patterns {
			cfg.Patterns[i].With = ^uint64(0)
		}
		h := newHand(&cfg, 2).at(inCorner(), 100)
		assert.Len(t, h.made, 64)
		assert.Equal(t, 63, h.made[63])
	})
}

func TestBegunWhileGesturesDoNotCount(t *testing.T) {
	cfg := set(own(30))
	spent := func(h *hand, why string) {
		h.at(inOwn(), 200)
		assert.Empty(t, h.made, why)
		assert.True(t, gestures.Look(cfg, 0, h.set[0], &h.in).Release, why)
		h.at(rest(), 1).at(inOwn(), 31)
		assert.Equal(t, []int{0}, h.made, "%s: left and come back", why)
	}
	h := fresh(cfg, 2)
	spent(h, "there at power-up")

	h = newHand(cfg, 2)
	h.in.Live = false
	h.at(inOwn(), 10)
	h.in.Live = true
	spent(h, "there while armed")

	h = newHand(cfg, 2).at(inOwn(), 20)
	h.in.Live = false
	h.slot()
	h.in.Live = true
	spent(h, "armed in the middle of it")

	h = newHand(cfg, 2)
	h.in.Live, h.in.Valid = false, false
	h.wait(20)
	h.in.Live, h.in.Valid = true, true
	spent(h, "moved there while the link was lost")

	h = newHand(cfg, 2).at(inOwn(), 20)
	h.in.Live, h.in.Valid = false, false
	h.wait(20)
	h.in.Live, h.in.Valid = true, true
	spent(h, "begun before the link was lost")

	// Begun before, and only come back to between the two edges: it was never left.
	between := inOwn()
	between[gestures.Pitch] = cfg.HighOut
	h = newHand(cfg, 2).at(inOwn(), 20)
	h.in.Live, h.in.Valid = false, false
	h.at(between, 20)
	h.in.Live, h.in.Valid = true, true
	spent(h.wait(2), "begun before the link was lost, and held half")

	h = newHand(cfg, 2).at(inOwn(), 20)
	h.in.Live = false
	h.at(between, 2)
	h.in.Live = true
	spent(h, "begun before the craft was armed, and held half")

	// Away at the first frame: nothing is spent.
	h = fresh(cfg, 2).at(rest(), 1).at(inOwn(), 31)
	assert.Equal(t, []int{0}, h.made)
}

func TestSlotsWithoutAValidFrame(t *testing.T) {
	cfg := set(own(30))
	h := newHand(cfg, 2).at(inOwn(), 10)
	h.in.Valid = false
	h.at(rest(), 40) // nobody can know what the hand does in the meantime
	assert.Empty(t, h.made, "no frame, nothing made")
	h.in.Valid = true
	h.at(inOwn(), 1)
	assert.Equal(t, []int{0}, h.made, "time went on")
	assert.Empty(t, h.near)

	h = newHand(cfg, 2)
	h.in.Valid = false
	h.at(inOwn(), 40)
	h.in.Valid = true
	h.at(inOwn(), 30)
	assert.Empty(t, h.made, "it began with the first valid frame")
	h.slot()
	assert.Equal(t, []int{0}, h.made)

	h = newHand(cfg, 2)
	h.in.Sticks[gestures.Roll] = pulse.Missing
	h.slot()
	assert.Equal(t, gestures.Away, h.set[0].Phase, "a frame without a pulse on a stick counts as none")
}

func TestWhatIsTold(t *testing.T) {
	h := newHand(set(corner(30), own(30)), 2).at(inOwn(), 30)
	h.slot()
	assert.Equal(t, []happening.Happening{{Tick: h.tick - slotTicks, Code: happening.Gesture, A: 1, B: 600}}, h.log.All())
}

func TestNearMisses(t *testing.T) {
	cfg := set(own(30), pattern("side", 30, mid, low, mid, high))
	type told struct {
		near happening.Near
		of   int32
		d    gestures.Direction
	}
	is := func(h *hand, want ...told) {
		t.Helper()
		var have []told
		for _, n := range h.near {
			have = append(have, told{happening.Near(n.B & 0xff), n.A, gestures.Direction(n.B >> 8)})
		}
		assert.Equal(t, want, have)
		assert.Empty(t, h.made)
	}
	almost := func(d gestures.Direction, w pulse.Width) sticks {
		s := inOwn()
		s[d] = w
		return s
	}
	half := pulse.Percent(500)
	is(newHand(cfg, 2).at(inOwn(), 25).at(rest(), 50), told{happening.NearEarly, 0, gestures.Pitch})
	is(newHand(cfg, 2).at(inOwn(), 15).at(almost(gestures.Yaw, pulse.Percent(-590)), 50), told{happening.NearEarly, 0, gestures.Yaw})
	is(newHand(cfg, 2).at(inOwn(), 14).at(rest(), 50)) // only passing: less than half the dwell
	is(newHand(cfg, 2).at(almost(gestures.Pitch, half), 31).at(rest(), 9), told{happening.NearCorner, 0, gestures.Pitch})
	is(newHand(cfg, 2).at(almost(gestures.Pitch, half), 30).at(rest(), 9))                                      // not a whole dwell
	is(newHand(cfg, 2).at(almost(gestures.Pitch, pulse.Percent(340)), 300).at(rest(), 9))                       // not near: a pilot who disarms
	is(newHand(cfg, 2).at(almost(gestures.Pitch, half), 20).at(almost(gestures.Pitch, pulse.Percent(100)), 60)) // near, and then not
	is(newHand(cfg, 2).at(almost(gestures.Pitch, half), 15).at(almost(gestures.Pitch, pulse.Percent(330)), 16), told{happening.NearCorner, 0, gestures.Pitch})
	two := almost(gestures.Pitch, half)
	two[gestures.Yaw] = -half + 2*pulse.Centre
	is(newHand(cfg, 2).at(almost(gestures.Pitch, half), 31).at(two, 10).at(almost(gestures.Pitch, half), 60), // all near: the same visit
		told{happening.NearCorner, 0, gestures.Pitch})
	is(newHand(cfg, 2).at(almost(gestures.Pitch, half), 300).at(rest(), 9).at(almost(gestures.Pitch, half), 300), // once a visit
		told{happening.NearCorner, 0, gestures.Pitch}, told{happening.NearCorner, 0, gestures.Pitch})

	// A stick that is to stay in the middle and goes into the corner.
	is(newHand(cfg, 2).at(sticks{pulse.Low, pulse.Low, pulse.Centre, pulse.High}, 31), told{happening.NearOvershot, 1, gestures.Throttle})
	is(newHand(cfg, 2).at(sticks{pulse.Centre, pulse.Low, pulse.Centre, pulse.High}, 20).at(sticks{pulse.Centre, pulse.Low, pulse.High, pulse.High}, 1), told{happening.NearOvershot, 1, gestures.Pitch})
	is(newHand(cfg, 2).at(sticks{pulse.Centre, pulse.Low, pulse.Percent(300), pulse.High}, 31), told{happening.NearCorner, 1, gestures.Pitch})
}

// One stand that is near to two is told of the one that asks for more, and of none while it makes another.
func TestOneNearMissAtATime(t *testing.T) {
	cfg := set(own(30), pattern("more", 30, low, mid, high, low))
	h := newHand(cfg, 2).at(inOwn(), 20).at(rest(), 50)
	require.Len(t, h.near, 1)
	assert.EqualValues(t, 1, h.near[0].A)

	cfg = set(corner(30), own(30))
	s := inOwn()
	s[gestures.Pitch] = pulse.Percent(500)
	h = newHand(cfg, 2).at(s, 100)
	assert.Equal(t, []int{0}, h.made)
	assert.Empty(t, h.near)

	h = newHand(set(corner(90), own(30)), 2).at(s, 100)
	assert.Equal(t, []int{0}, h.made)
	assert.Empty(t, h.near, "the sticks were making another all the time")

	// The rest of a visit in which another was made is not a try either.
	s[gestures.Roll] = pulse.Low
	h = newHand(set(pattern("roll", 10, low, low, free, free), own(30)), 2).at(s, 11)
	s[gestures.Roll] = pulse.Centre
	h.at(s, 100)
	assert.Equal(t, []int{0}, h.made)
	assert.Empty(t, h.near)
}
