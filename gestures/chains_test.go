package gestures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/gestures"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// chain is a stand to the left for 10 slots, then within 25 one to the right for 10.
func chain() gestures.Pattern {
	p := pattern("chain", 10, low, low, mid, mid)
	p.Parts[1] = gestures.Part{Zones: [gestures.Directions]gestures.Zone{low, high, mid, mid}, Dwell: 10, Within: 25}
	p.Count = 2
	return p
}

func TestChains(t *testing.T) {
	cfg := set(chain())
	left, right := rest(), rest()
	left[gestures.Roll], right[gestures.Roll] = pulse.Low, pulse.High
	for _, row := range []struct {
		name  string
		do    func(h *hand)
		made  []int
		nears []happening.Near
	}{
		{"in time", func(h *hand) { h.at(left, 11).at(rest(), 25).at(right, 11) }, []int{0}, nil},
		{"at once", func(h *hand) { h.at(left, 11).at(right, 11) }, []int{0}, nil},
		{"standing longer in the first part takes nothing from the limit", func(h *hand) { h.at(left, 400).at(rest(), 25).at(right, 11) }, []int{0}, nil},
		{"one slot too late", func(h *hand) { h.at(left, 11).at(rest(), 26).at(right, 40) }, nil, []happening.Near{happening.NearLate}},
		{"much too late is no try", func(h *hand) { h.at(left, 11).at(rest(), 51).at(right, 40) }, nil, nil},
		{"never", func(h *hand) { h.at(left, 11).at(rest(), 400) }, nil, nil},
		{"the first part too short", func(h *hand) { h.at(left, 3).at(rest(), 5).at(right, 40) }, nil, nil},
		{"the first part nearly long enough", func(h *hand) { h.at(left, 10).at(rest(), 5).at(right, 40) }, nil, []happening.Near{happening.NearEarly}},
		{"the second part too short, then again within the limit", func(h *hand) { h.at(left, 11).at(rest(), 3).at(right, 8).at(rest(), 3).at(right, 11) }, []int{0}, []happening.Near{happening.NearEarly}},
		{"the second part too short, then again too late", func(h *hand) { h.at(left, 11).at(rest(), 3).at(right, 8).at(rest(), 20).at(right, 11) }, nil, []happening.Near{happening.NearEarly, happening.NearLate}},
		{"too late, then from the beginning", func(h *hand) {
			h.at(left, 11).at(rest(), 30).at(left, 11).at(rest(), 3).at(right, 11)
		}, []int{0}, nil},
		{"the first part made again: the limit begins anew", func(h *hand) {
			h.at(left, 11).at(rest(), 10).at(left, 11).at(rest(), 20).at(right, 11)
		}, []int{0}, nil},
		{"the first part made again, its dwell over only behind the limit", func(h *hand) {
			h.at(left, 11).at(rest(), 20).at(left, 11).at(rest(), 20).at(right, 11)
		}, []int{0}, nil},
		{"the first part made again and again", func(h *hand) {
			for range 5 {
				h.at(left, 11).at(rest(), 20)
			}
			h.at(right, 11)
		}, []int{0}, nil},
		{"made again, then too late", func(h *hand) {
			h.at(left, 11).at(rest(), 10).at(left, 11).at(rest(), 26).at(right, 40)
		}, nil, []happening.Near{happening.NearLate}},
		{"begun again but not made, the first limit still runs", func(h *hand) {
			h.at(left, 11).at(rest(), 5).at(left, 10).at(rest(), 5).at(right, 11)
		}, []int{0}, nil},
		{"begun again but not made, and the first limit is over", func(h *hand) {
			h.at(left, 11).at(rest(), 5).at(left, 10).at(rest(), 11).at(right, 40)
		}, nil, []happening.Near{happening.NearLate}},
		{"made again without a frame in between", func(h *hand) {
			h.at(left, 11).at(rest(), 10).at(left, 1)
			h.in.Valid = false
			h.wait(9)
			h.in.Valid = true
			h.at(left, 1).at(rest(), 20).at(right, 11)
		}, []int{0}, nil},
		{"twice", func(h *hand) { h.at(left, 11).at(right, 11).at(left, 11).at(right, 11) }, []int{0, 0}, nil},
		{"the wrong way round", func(h *hand) { h.at(right, 60).at(left, 60) }, nil, nil},
		{"armed between", func(h *hand) {
			h.at(left, 11)
			h.in.Live = false
			h.at(rest(), 1)
			h.in.Live = true
			h.at(right, 40)
		}, nil, nil},
		{"the time goes on without frames", func(h *hand) {
			h.at(left, 11).at(rest(), 1)
			h.in.Valid = false
			h.wait(25)
			h.in.Valid = true
			h.at(right, 40)
		}, nil, []happening.Near{happening.NearLate}},
	} {
		t.Run(row.name, func(t *testing.T) {
			h := newHand(cfg, 2)
			row.do(h)
			h.at(rest(), 2)
			assert.Equal(t, row.made, h.made)
			assert.Equal(t, row.nears, nears(h))
		})
	}
}

// A part in which the sticks already stand when it is asked for must be left first; one that only asks for more need not be.
func TestPartsThatLieInOneAnother(t *testing.T) {
	twice := pattern("twice", 10, low, low, mid, mid)
	twice.Parts[1], twice.Count = twice.Parts[0], 2
	twice.Parts[1].Within = 25
	left := rest()
	left[gestures.Roll] = pulse.Low
	h := newHand(set(twice), 2).at(left, 300)
	assert.Empty(t, h.made)
	h.at(rest(), 3).at(left, 11)
	assert.Equal(t, []int{0}, h.made)

	inner := pattern("inner", 10, low, free, free, low)
	inner.Parts[1], inner.Count = own(10).Parts[0], 2
	inner.Parts[1].Within = 25
	h = newHand(set(inner), 2).at(inCorner(), 11).at(inOwn(), 11)
	assert.Equal(t, []int{0}, h.made, "it never left the first part")
	h.at(inCorner(), 11).at(inOwn(), 11)
	assert.Equal(t, []int{0}, h.made, "nor since")
	h.at(rest(), 1).at(inCorner(), 11).at(inOwn(), 11)
	assert.Equal(t, []int{0, 0}, h.made)
	h = newHand(set(inner), 2).at(inCorner(), 11).at(inOwn(), 3).at(inCorner(), 30).at(inOwn(), 3)
	assert.Equal(t, []happening.Near{happening.NearLate}, nears(h), "too late, in the first part all the time")

	// Two parts in which the sticks can stand at once: the first, come into while gestures do not count, must be left.
	beside := pattern("beside", 10, low, free, high, free)
	beside.Parts[1], beside.Count = corner(10).Parts[0], 2
	beside.Parts[1].Within = 25
	forward := sticks{pulse.Low, pulse.Centre, pulse.High, pulse.Centre}
	for _, lost := range []bool{false, true} {
		h = newHand(set(beside), 2).at(forward, 11).at(rest(), 3).at(inCorner(), 11)
		assert.Equal(t, []int{0}, h.made)
		h.in.Live, h.in.Valid = false, !lost
		h.at(inOwn(), 5)
		h.in.Live, h.in.Valid = true, true
		h.at(inOwn(), 5).at(forward, 30).at(inCorner(), 30)
		assert.Equal(t, []int{0}, h.made, "lost %v", lost)
		h.at(forward, 11).at(inCorner(), 11)
		assert.Equal(t, []int{0, 0}, h.made, "lost %v", lost)
	}

	outer := pattern("outer", 10, low, free, high, low)
	outer.Parts[1], outer.Count = corner(10).Parts[0], 2
	outer.Parts[1].Within = 25
	h = newHand(set(outer), 2).at(inOwn(), 11).at(inCorner(), 20)
	assert.Empty(t, h.made, "it stood in the second part all the time")
	h.at(rest(), 3).at(inCorner(), 11)
	assert.Equal(t, []int{0}, h.made)
}
