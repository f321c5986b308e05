package prove

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Counts of searches of layouts by sticks, recorded with all times shortened to a quarter and to a third, and whole.
func TestDrawnOn(t *testing.T) {
	for _, c := range []struct {
		name              string
		few, more, really uint64
	}{
		{"sticks", 65_322, 154_697, 4_406_832},
		{"sticks, sinking for 4 s", 110_916, 264_999, 7_084_736},
		{"sticks, sinking for 30 s", 457_366, 1_093_761, 27_073_536},
	} {
		off := float64(drawnOn(c.few, c.more))/float64(c.really) - 1
		t.Logf("%s: off by %+.1f %%", c.name, 100*off)
		assert.Less(t, math.Abs(off), 0.125, c.name)
	}
}

// What is expected is told only once it is worth something, and then it is near the truth, all the way.
func TestExpected(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("five million situations")
	}
	for name, l := range map[string]*made{"second switch, a receiver that repeats": bySwitch().hold().second(), "sticks": bySticks()} {
		var told []Progress
		rep, err := Search(l.Layout, Options{Progress: func(p Progress) bool {
			told = append(told, p)
			return false
		}})
		require.NoError(t, err)
		all, part := float64(rep.Situations), 1
		for float64(part)/4*all < 1.2*patience {
			part++ // too early for it to be worth anything
		}
		for _, p := range told {
			switch {
			case p.Situations < patience || p.Situations > rep.Situations:
				assert.Zero(t, p.Expected, name)
			case part < 4 && float64(p.Situations) >= float64(part)/4*all:
				require.NotZero(t, p.Expected, "%s: %d of 4", name, part)
				off := float64(p.Expected)/all - 1
				left := (float64(p.Expected)-float64(p.Situations))/(all-float64(p.Situations)) - 1
				t.Logf("%s, %d quarters: in all %+.1f %%, of what is left %+.1f %%", name, part, 100*off, 100*left)
				assert.Less(t, math.Abs(off), 0.125, name)
				part++
			}
		}
		assert.Equal(t, 4, part, name)
	}
}

// A search is stopped in the small searches as well.
func TestStoppedWhileItIsEstimated(t *testing.T) {
	again, last := 0, Progress{}
	rep, err := Search(bySwitch().hold().second().Layout, Options{Progress: func(p Progress) bool {
		if p == last { // so it is in a small one
			again++
		}
		last = p
		return again > 0
	}})
	require.NoError(t, err)
	require.Equal(t, 1, again, "it stopped at once")
	assert.True(t, rep.Partial)
	assert.GreaterOrEqual(t, rep.Situations, uint64(patience))
	assert.Equal(t, Undecided, rep.Results[OnlyArmControlArms].Outcome)
}

// To be told how far it is changes nothing of what is found.
func TestProgressChangesNothing(t *testing.T) {
	l := bySwitch().hold().second().Layout
	plain, err := Search(l, Options{})
	require.NoError(t, err)
	told, err := Search(l, Options{Progress: func(Progress) bool { return false }})
	require.NoError(t, err)
	assert.Equal(t, plain, told)
}
