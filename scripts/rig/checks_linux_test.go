package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/rig/fakeradio"
)

// state is the raw state that a right program shows for a count of the flood.
func state(n uint32) rawLine {
	r := counted(fakeradio.Main().Layout, n)
	s := rawLine{Axes: append(append([]int32{}, r.Axes...), 0, 0)}
	for b, on := range r.Pressed {
		if on {
			s.Buttons = append(s.Buttons, b+1)
		}
	}
	return s
}

func states(from, to uint32) (out []rawLine) {
	for n := from; n <= to; n++ {
		out = append(out, state(n))
	}
	return out
}

func marked(s rawLine) rawLine {
	s.Resync = true
	return s
}

func TestCount_ReadsBackWhatWasSent(t *testing.T) {
	last := state(0)
	for n := range uint32(1 << countButtons) {
		if n%977 != 0 && n > 4096 {
			continue
		}
		s := state(n)
		got, whole := s.count(7)
		require.True(t, whole)
		require.Equal(t, n, got)
		if n > 0 && n <= 4096 {
			assert.InDelta(t, len(last.Buttons), len(s.Buttons), 1, "one button changes with each count")
			for i := range 7 {
				step := s.Axes[i] - last.Axes[i]
				require.GreaterOrEqual(t, max(step, -step), int32(30), "twice the fuzz of 15")
			}
		}
		last = s
	}
}

// The checks of the flood must be able to fail.
func TestCheckCounts(t *testing.T) {
	mixed := state(501)
	mixed.Axes = state(500).Axes
	for _, c := range []struct {
		name  string
		seen  []rawLine
		wrong string
	}{
		{"every state", states(0, 300), ""},
		{"a gap under a mark", append(append(states(0, 200), marked(state(240))), states(241, 400)...), ""},
		{"a gap without a mark", append(states(0, 200), states(202, 400)...), "without a mark"},
		{"a gap long after a mark", append(append(states(0, 100), marked(state(120))), append(states(121, 300), states(302, 310)...)...), "without a mark"},
		{"going back", append(states(0, 200), state(150)), "goes back"},
		{"a mixed state", append(append(states(0, 500), mixed), states(502, 600)...), "of another"},
		{"a mixed state after a mark", append(append(states(0, 400), marked(state(499)), state(500), mixed), states(502, 600)...), ""},
	} {
		_, _, _, err := checkCounts(c.seen, 7)
		if c.wrong == "" {
			assert.NoError(t, err, c.name)
		} else {
			assert.ErrorContains(t, err, c.wrong, c.name)
		}
	}
}

func TestSameStates(t *testing.T) {
	kernel := [][]int32{{0}, {1}, {1}, {2}, {3}, {4}}
	raw := func(vs ...int32) (out []rawLine) {
		for _, v := range vs {
			out = append(out, rawLine{Axes: []int32{v}})
		}
		return out
	}
	var f figures
	assert.NoError(t, sameStates(raw(0, 1, 2, 3, 4), kernel, &f))
	assert.Error(t, sameStates(raw(0, 1, 3, 4), kernel, &f), "one is missing")
	assert.Error(t, sameStates(raw(0, 1, 2, 3), kernel, &f), "the last is missing")
	assert.Error(t, sameStates(raw(0, 1, 2, 7, 3, 4), kernel, &f), "one that never was")
	held := raw(0, 1, 3, 4)
	held[2].Resync = true
	assert.NoError(t, sameStates(held, kernel, &f), "missing under a mark")
}

func TestSweepValues(t *testing.T) {
	r := fakeradio.Small()
	var kernel [][]int32
	show := func(change func(k int, us float64) float64, skip int) (out []line) {
		for k, v := range kernel {
			if skip > 0 && k%skip == skip-1 {
				continue
			}
			l := line{Code: codeValues, Channels: make([]*float64, 4)}
			for i := range 4 {
				us := change(k, math.Round(micros(v[i], 0, 255)*8)/8)
				l.Channels[i] = &us
			}
			out = append(out, l)
		}
		return out
	}
	for k := range 256 {
		kernel = append(kernel, sweepAt(r, k, 1).Axes)
	}
	same := func(_ int, us float64) float64 { return us }
	var f figures
	assert.NoError(t, sweepValues(show(same, 0), r, 4, kernel, kernel, &f))
	assert.ErrorContains(t, sweepValues(show(same, 4), r, 4, kernel, kernel, &f), "of the 256 values")
	assert.ErrorContains(t, sweepValues(show(func(k int, us float64) float64 { return us + 0.25*float64(k%2) }, 0), r, 4, kernel, kernel, &f), "none that the kernel had")
	assert.ErrorContains(t, sweepValues(show(func(k int, us float64) float64 {
		if k == 100 {
			return 1500
		}
		return us
	}, 0), r, 4, kernel, kernel, &f), "against the sweep")
	late := append([][]int32{}, kernel[2:]...)
	late = append(late, kernel[255], kernel[255])
	assert.ErrorContains(t, sweepValues(show(same, 0), r, 4, kernel, late, &f), "4.1 µs", "two steps of 4 µs behind the device")
}
