package learn_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/input/learn"
)

// The drawn craft leans as its axis moves: forward and back about where the stick rests, a throttle up from the ground.
func TestTheDrawnCraftMovesWithItsAxis(t *testing.T) {
	for _, turned := range []bool{false, true} {
		d := newDesk(t)
		to := func(axis int, share int64) learn.View {
			if turned {
				share = 1000 - share
			}
			d.to(axis, share, 100*ms)
			d.wait(50 * ms)
			return d.play()
		}
		v := d.play()
		require.Equal(t, [2]int{learn.Zone, 1000}, v.Zone)
		require.Zero(t, v.Lean)
		require.False(t, v.InZone)
		v = to(1, 675)
		require.Equal(t, 350, v.Lean, "half the way to where it is taken")
		require.False(t, v.InZone)
		v = to(1, 1000)
		require.Equal(t, 1000, v.Lean)
		require.True(t, v.InZone)
		d.wait(400 * ms)
		v = d.play()
		require.Equal(t, learn.LowEnd, v.Step)
		require.Equal(t, 1000, v.Lean, "it still stands there")
		require.Equal(t, [2]int{-1000, -learn.Zone}, v.Zone)
		require.False(t, v.InZone)
		require.Equal(t, 500, to(1, 750).Lean)
		require.Zero(t, to(1, 500).Lean)
		require.Equal(t, -350, to(1, 325).Lean)
		v = to(1, 0)
		require.Equal(t, -1000, v.Lean)
		require.True(t, v.InZone)
		d.wait(400 * ms)
		v = d.play()
		require.Equal(t, learn.LetGo, v.Step)
		require.Equal(t, -1000, v.Lean)
		require.False(t, v.InZone)
		v = to(1, 500)
		require.Zero(t, v.Lean)
		require.True(t, v.InZone)
		d.wait(1000 * ms)
		for _, axis := range []int{3, 0} {
			d.sprung(axis)
		}
		v = d.play()
		require.Equal(t, learn.Throttle, v.Question)
		if turned {
			d.to(2, 1000, 100*ms)
			d.wait(500 * ms)
			d.back()
			d.wait(500 * ms)
		}
		v = d.play()
		require.Equal(t, learn.HighEnd, v.Step)
		require.Zero(t, v.Lean)
		require.Equal(t, 350, to(2, 325).Lean)
		require.True(t, to(2, 1000).InZone)
		d.wait(400 * ms)
		v = d.play()
		require.Equal(t, learn.LowEnd, v.Step)
		require.Equal(t, 1000, v.Lean)
		require.Equal(t, [2]int{0, 1000 - learn.Zone}, v.Zone)
		require.InDelta(t, 462, to(2, 500).Lean, 1, "350 of 650 on the way to where it is taken, which is 700 of Lean")
		v = to(2, 0)
		require.Zero(t, v.Lean)
		require.True(t, v.InZone)
		d.wait(400 * ms)
		require.Equal(t, learn.LetGo, d.play().Step)
		require.True(t, d.l.View().InZone)
		require.Equal(t, [2]int{0, 128}, d.l.View().Zone, "150 of the 350 of its way that 300 of Lean stand for")
		d.wait(1000 * ms)
		v = d.play()
		require.Equal(t, learn.Arm, v.Question)
		require.Equal(t, [2]int{}, v.Zone)
		require.Zero(t, v.Lean)
		require.False(t, v.InZone)
	}
}

// Whatever an axis rests at and goes to: it is drawn in the zone exactly where it is taken once it rests there.
func TestInTheZoneIsWhatIsTaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := newDesk(nil)
		rest, high, low := draw(t, "rest", 300, 700), draw(t, "high", 0, 1000), draw(t, "low", 0, 1000)
		d.Rest(1, int32(rest))
		d.to(1, high, 100*ms)
		d.wait(250 * ms)
		v := d.play()
		check := func(v learn.View) {
			if v.Lean < -1000 || v.Lean > 1000 {
				t.Fatalf("leans by %d", v.Lean)
			}
		}
		check(v)
		in := v.InZone
		d.wait(200 * ms)
		if took := d.play().Step == learn.LowEnd; took != in {
			t.Fatalf("rest %d, to %d: in the zone %v, lean %d, taken %v", rest, high, in, v.Lean, took)
		}
		if !in {
			return
		}
		d.to(1, low, 100*ms)
		d.wait(250 * ms)
		v = d.play()
		check(v)
		in = v.InZone
		d.wait(200 * ms)
		if took := d.play().Step == learn.LetGo; took != in {
			t.Fatalf("rest %d, high %d, to %d: in the zone %v, lean %d, taken %v", rest, high, low, in, v.Lean, took)
		}
		check(d.l.View())
	})
}
