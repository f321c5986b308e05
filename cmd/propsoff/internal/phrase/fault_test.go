package phrase

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/sim"
	"propsoff/sim/fault"
	"propsoff/sim/pulse"
)

// Every fault has words of its own for its name, what it does, what is seen of it, its answer, its deeds and its numbers.
func TestEveryFaultHasWords(t *testing.T) {
	l := sim.Default().Layout
	for what, words := range map[string]func(d pulse.Deed, number int32) string{
		"name":   func(d pulse.Deed, _ int32) string { return FaultName(d) },
		"does":   func(d pulse.Deed, n int32) string { return FaultDoes(d, n, &l) },
		"seen":   func(d pulse.Deed, _ int32) string { return FaultSeen(d) },
		"answer": func(d pulse.Deed, n int32) string { return FaultAnswer(d, n, &l) },
		"deed":   func(d pulse.Deed, _ int32) string { return FaultDeed(d) },
		"lift":   func(d pulse.Deed, _ int32) string { return FaultDeed(d + pulse.DeedLift) },
	} {
		seen := map[string]pulse.Deed{}
		for d := pulse.Deed(1); d < fault.Count; d++ {
			a, b, ok := fault.Usual(d, &l)
			require.True(t, ok)
			n, ok := fault.Number(d, a, b)
			require.True(t, ok)
			s := words(d, n)
			require.NotEmpty(t, s)
			other, twice := seen[s]
			assert.False(t, twice, "%s: %q is said of %d and %d", what, s, d, other)
			seen[s] = d
			if what == "does" || what == "seen" {
				assert.Regexp(t, `^[A-Z].*\.$`, s)
			}
			m := fault.Of(d)
			for i, q := range []fault.Quantity{m.A, m.B} {
				v := []int32{a, b}[i]
				assert.Equal(t, q.Is == fault.Nothing, FaultQuantity(q.Is) == "")
				assert.Equal(t, q.Is == fault.Nothing, FaultValue(q.Is, v, &l) == "")
			}
		}
	}
	assert.Empty(t, FaultDeed(pulse.DeedHands))
	assert.Empty(t, FaultDeed(pulse.DeedLift))
	assert.Empty(t, FaultDeed(fault.Count))
}

func TestFaultSentences(t *testing.T) {
	l := sim.Default().Layout
	say := func(d pulse.Deed, a, b int32) string {
		n, ok := fault.Number(d, a, b)
		require.True(t, ok)
		s, ok := FaultSentence(d, n, &l)
		require.True(t, ok)
		return s
	}
	assert.Equal(t, "Fault planted: channel reversed. Channel 2 (roll) runs the other way round.", say(fault.Reversed, 2, 0))
	assert.Equal(t, "Fault planted: two channels swapped. Channel 5 (arm) and channel 9 stand in each other's place.", say(fault.Swapped, 5, 9))
	assert.Equal(t, "Fault planted: travel too short. Channel 1 (throttle) goes no lower than 1012 µs.", say(fault.ShortTravel, 1, 1012))
	assert.Equal(t, "Fault planted: travel too short. Channel 4 (yaw) goes no higher than 1900 µs.", say(fault.ShortTravel, 4, 1900))
	assert.Equal(t, "Fault planted: link drops out. The radio sends nothing for 0.4 s, again every 3 s.", say(fault.Dropouts, 400, 3000))
	assert.Equal(t, "Fault planted: link drops out. The radio sends nothing for 0.4 s, once.", say(fault.Dropouts, 400, 0))
	assert.Equal(t, "Fault planted: another receiver. On a silent radio the receiver repeats the last (hold).", say(fault.Receiver, 1, 0))
	assert.Equal(t, "Fault planted: stick off centre. Channel 3 (pitch) reads 20 µs too low.", say(fault.OffCentre, 3, -20))
	assert.Equal(t, "Fault planted: wrong propeller. The rear left propeller is made to turn the other way.", say(fault.WrongPropeller, 3, 0))
	assert.Equal(t, "Fault planted: pack low. The pack has 13.2 V.", say(fault.LowPack, 13200, 0))
	for _, c := range []struct {
		d      pulse.Deed
		number int32
		want   string
	}{
		{fault.Stuck + pulse.DeedLift, 0, "Fault lifted: control stuck."}, {pulse.DeedLiftAll, 0, "Every fault lifted."}, {pulse.DeedHands, 1, ""},
		{pulse.DeedMark, 4, ""}, {fault.Count, 0, ""}, {0, 0, ""},
		{fault.WrongPropeller, 9, "A fault that does not exist was asked for: wrong propeller, number 9; nothing was planted."},
	} {
		s, ok := FaultSentence(c.d, c.number, &l)
		assert.Equal(t, c.want, s)
		assert.Equal(t, c.want != "", ok)
	}
	for d := range fault.Count + 3 { // whatever stands in a take is said without harm
		for _, n := range []int32{0, 1, 17, 0xffffff} {
			FaultDoes(d, n, &l)
			FaultAnswer(d, n, &l)
		}
	}
}
