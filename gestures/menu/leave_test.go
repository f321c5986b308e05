package menu_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures/menu"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// Every item of every shipped menu is reached by the sticks alone, and each menu can be left from anywhere.
func TestEveryItemIsReached(t *testing.T) {
	for _, cfg := range []*menu.Config{shipped(t), byTwo(t)} {
		for mode := uint8(1); mode <= 4; mode++ {
			everyItemIsReached(t, cfg, mode)
		}
	}
}

func everyItemIsReached(t *testing.T, cfg *menu.Config, mode uint8) {
	for which := range cfg.Menus {
		seen := map[int]bool{}
		var visit func(d desk, depth int)
		visit = func(d desk, depth int) {
			first, count := cfg.Page(&d.s)
			for i := range count {
				require.Equal(t, first+i, cfg.Marked(&d.s))
				seen[first+i] = true
				if it := &cfg.Items[first+i]; it.Kind == menu.Page {
					inner := d
					inner.push(menu.In, 2)
					require.Equal(t, it.First, cfg.Marked(&inner.s))
					visit(inner, depth+1)
				}
				if i < count-1 {
					d.push(menu.Down, 2)
				}
			}
			d.push(menu.In, 2) // the way out
			if depth == 0 {
				require.Zero(t, d.s.Open)
			} else {
				require.EqualValues(t, depth-1, d.s.Depth)
			}
		}
		d := newDesk(cfg, which, mode)
		d.step(1)
		visit(*d, 0)
		for n := range cfg.Items {
			assert.Equal(t, cfg.MenuOf(n) == which, seen[n], "%s: %s", cfg.Menus[which].Name, cfg.Items[n].Name)
		}
	}
}

// A value changed, left with "keep": it stands when the menu is opened again. With "put back", or closed from elsewhere, it does not.
func TestKeepPutBackStay(t *testing.T) {
	for _, cfg := range []*menu.Config{shipped(t), byTwo(t)} {
		for mode := uint8(1); mode <= 4; mode++ {
			keepPutBackStay(t, cfg, mode)
		}
	}
}

func keepPutBackStay(t *testing.T, cfg *menu.Config, mode uint8) {
	change := func() *desk {
		d := newDesk(cfg, 1, mode)
		d.step(1)
		d.push(menu.Down, 2)
		d.push(menu.Down, 2)
		d.push(menu.In, 2)                     // the shape of the picture
		if cfg.Menus[1].Way == menu.OneStick { // gone into, then changed
			require.Zero(t, cfg.Changed(&d.s))
			d.push(menu.Up, 2)
			d.push(menu.Back, 2)
		}
		require.EqualValues(t, 1, cfg.Changed(&d.s))
		d.push(menu.Down, 2)
		d.push(menu.Down, 2)
		d.push(menu.In, 2)
		require.Equal(t, menu.Stay, d.s.Asked)
		return d
	}
	shape := func(s menu.State) int32 { return s.Now[cfg.Items[cfg.Menus[1].First+2].Index] }
	d := change()
	d.push(menu.In, 2) // stay
	require.NotZero(t, d.s.Open)
	require.Equal(t, menu.NoQuestion, d.s.Asked)

	d = change()
	d.push(menu.Up, 2)
	d.log.Reset()
	d.push(menu.In, 2) // put back
	require.Zero(t, d.s.Open)
	require.EqualValues(t, 0, shape(menu.Open(cfg, d.s, 1)))
	require.Equal(t, []happening.Happening{{Tick: d.log.Item[0].Tick, Code: happening.MenuLeft, A: 0, B: 1}}, d.log.All())

	d = change()
	d.push(menu.Up, 2)
	d.push(menu.Up, 2)
	d.push(menu.In, 2) // keep
	require.EqualValues(t, 1, shape(menu.Open(cfg, d.s, 1)))

	d = change()
	require.EqualValues(t, 0, shape(menu.Open(cfg, menu.Close(cfg, d.s), 1)))
}

func TestStepTakesNoMemory(t *testing.T) {
	d := newDesk(shipped(t), 0, 2)
	d.step(1)
	require.Zero(t, testing.AllocsPerRun(1000, func() {
		d.log.Reset()
		d.in.Sticks[2] = pulse.Low + pulse.High - d.in.Sticks[2]
		d.step(1)
	}))
}

func BenchmarkStep(b *testing.B) {
	d := newDesk(shipped(b), 0, 2)
	d.step(1)
	for b.Loop() {
		d.log.Reset()
		d.in.Sticks[2] = pulse.Low + pulse.High - d.in.Sticks[2]
		d.step(1)
	}
}

// In stick modes 1 and 3 the right stick's height is the throttle, which was low when the gesture was made and stays where it is put. The
// menu waits until a hand has brought it to the middle; then each step is a push from there and back, and a menu can be gone through,
// changed, left and kept.
func TestAMenuWhereTheRightStickCarriesTheThrottle(t *testing.T) {
	cfg := shipped(t)
	for mode := uint8(1); mode <= 4; mode++ {
		d := newDesk(cfg, 0, mode)
		const throttle = 0
		d.in.Sticks[throttle] = pulse.Low
		d.step(100)
		carries := jobs[mode][2] == throttle
		require.Equal(t, mode == 1 || mode == 3, carries)
		require.Equal(t, !carries, d.s.Rested, "stick mode %d", mode)
		if carries {
			d.in.Sticks[jobs[mode][1]] = pulse.Low // not even out, by the right stick to the left
			d.step(20)
			d.in.Sticks[jobs[mode][1]] = pulse.Centre
			d.step(2)
			require.NotZero(t, d.s.Open)
			require.Zero(t, d.log.N)
			for w := pulse.Low; w < pulse.Centre; w += 100 { // a slow way to the middle is not a push down
				d.in.Sticks[throttle] = w
				d.step(1)
			}
			require.True(t, d.s.Rested)
			require.Zero(t, d.s.Marks[0])
			d.in.Sticks[throttle] = pulse.Centre
		}
		for range 3 {
			d.push(menu.Down, 4)
		}
		d.push(menu.In, 4)
		d.push(menu.Up, 4)
		d.push(menu.Back, 4)
		d.push(menu.Back, 4)
		require.Equal(t, menu.Stay, d.s.Asked)
		d.push(menu.Up, 4)
		d.push(menu.Up, 4)
		d.push(menu.In, 4)
		require.Zero(t, d.s.Open, "stick mode %d", mode)
		require.EqualValues(t, 360, d.s.Kept[cfg.Items[cfg.Menus[0].First+3].Index])
	}
}
