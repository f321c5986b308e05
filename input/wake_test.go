package input

import "testing"

func TestWoke(t *testing.T) {
	info := Info{Axes: []Axis{{Max: 2047}, {Max: 2047}, {Max: 2047}, {Max: 2047}, {Min: 5, Max: 5}}}
	state := func(v ...int32) *Raw {
		r := new(Raw)
		copy(r.Axes[:], v)
		return r
	}
	for _, c := range []struct {
		before, now *Raw
		woke        bool
	}{
		{state(0, 0, 0, 0), state(0, 1024, 1023, 1025), true},
		{state(0, 0, 0, 0), state(0, 1024, 1023, 0), false},                // two at once may be a hand
		{state(10, 1024, 1024, 1024), state(90, 1100, 950, 1000), false},   // three, but no leap
		{state(0, 1024, 1024, 1024), state(2047, 2047, 1024, 1024), false}, // two ends
		{state(0, 0, 0, 0), state(0, 0, 0, 0), false},
	} {
		if got := Woke(&info, c.before, c.now); got != c.woke {
			t.Errorf("%v → %v: %v", c.before.Axes[:4], c.now.Axes[:4], got)
		}
	}
}
