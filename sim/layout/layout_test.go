package layout_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

func TestTouchingSpansNeverOverlapAndNeverLeaveAGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Int16Range(int16(pulse.Lowest), int16(pulse.Highest))
		cut := pulse.Width(rapid.Int16Range(int16(pulse.Lowest)+1, int16(pulse.Highest)-1).Draw(t, "cut"))
		at := pulse.Width(w.Draw(t, "at"))
		low, high := layout.Span{Low: pulse.Lowest, High: cut}, layout.Span{Low: cut, High: pulse.Highest}
		if low.Contains(at) == high.Contains(at) {
			t.Fatalf("%d eighths stands in both or none of two spans that touch at %d", at, cut)
		}
	})
}

func TestMarginSaysHowFarToTheNearestEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Int16Range(int16(pulse.Lowest), int16(pulse.Highest))
		a, b := pulse.Width(w.Draw(t, "a")), pulse.Width(w.Draw(t, "b"))
		s := layout.Span{Low: min(a, b), High: max(a, b) + 1}
		at := pulse.Width(w.Draw(t, "at"))
		m := s.Margin(at)
		if s.Contains(at) != (m > 0) {
			t.Fatalf("margin %d of %d in %+v", m, at, s)
		}
		// The margin is the fewest eighths by which the value must move to change sides.
		step := m
		if step < 0 {
			step = -step
		}
		changes := func(d pulse.Width) bool {
			return at+d >= pulse.Lowest && at+d <= pulse.Highest && s.Contains(at+d) != s.Contains(at)
		}
		if step > 1 && (changes(step-1) || changes(-(step - 1))) {
			t.Fatalf("a smaller move than %d changes sides of %+v at %d", step, s, at)
		}
		reachable := s.Low > pulse.Lowest || s.High <= pulse.Highest
		if reachable && m < pulse.Highest-pulse.Lowest && !changes(step) && !changes(-step) && !(s.High == pulse.Highest) {
			t.Fatalf("moving by %d changes nothing in %+v at %d", step, s, at)
		}
	})
}

func TestHighestIsIncludedOnlyWhereTheSpanEndsThere(t *testing.T) {
	assert.True(t, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}.Contains(pulse.Highest))
	assert.False(t, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest - 1}.Contains(pulse.Highest))
	assert.False(t, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}.Contains(pulse.Highest+1), "not a pulse")
	assert.False(t, layout.Span{Low: pulse.Lowest, High: pulse.Highest}.Contains(pulse.Missing))
}

// The list of modes stands once: each has its code word, and every code word its mode.
func TestEveryModeHasItsCodeWord(t *testing.T) {
	assert.Len(t, pulse.ModeCodes(), layout.Modes)
	for m := range layout.Mode(layout.Modes) {
		back, ok := layout.ModeOf(m.Code())
		assert.True(t, ok)
		assert.Equal(t, m, back)
	}
	_, ok := layout.ModeOf("sideways")
	assert.False(t, ok)
	assert.Equal(t, "mode 99", layout.Mode(99).Code())
}
