package menu_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/gestures/menu"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// told are the happenings of the last slots, without those of moving the mark.
func (d *desk) told() (out []happening.Happening) {
	for _, h := range d.log.All() {
		if h.Code != happening.MenuMark {
			out = append(out, h)
		}
	}
	return out
}

// A push that goes into a page ends there, however long it is held: the value under the mark on that page waits for a new one. It is so
// in every stick mode, by one stick and by two.
func TestAHeldPushThatGoesInChangesNothing(t *testing.T) {
	for _, cfg := range []*menu.Config{shipped(t), byTwo(t)} {
		light := cfg.Menus[1].First
		require.Equal(t, menu.Value, cfg.Items[cfg.Items[light].First].Kind)
		for mode := uint8(1); mode <= 4; mode++ {
			d := newDesk(cfg, 1, mode)
			d.step(1)
			across := jobs[mode][1]
			if cfg.Menus[1].Way == menu.TwoSticks {
				across = jobs[mode][0]
			}
			d.in.Sticks[across] = pulse.High
			d.step(400)
			require.EqualValues(t, 1, d.s.Depth)
			require.Equal(t, cfg.Items[light].First, cfg.Marked(&d.s))
			require.False(t, d.s.Inside)
			require.Zero(t, cfg.Changed(&d.s), "stick mode %d", mode)
		}
	}
}

// A value goes on while the push is held, by the hand-worked times of the mark, in both directions and to its limit; the happening names
// the item by its number over all menus. With two sticks the left one moves it at once, with one it is gone into first.
func TestAHeldPushGoesOnChangingAValue(t *testing.T) {
	for _, cfg := range []*menu.Config{shipped(t), byTwo(t)} {
		item := cfg.Items[cfg.Menus[1].First].First // brightness, −6 to 6
		for _, to := range []pulse.Width{pulse.High, pulse.Low} {
			d := newDesk(cfg, 1, 2)
			d.step(1)
			d.push(menu.In, 2)
			channel := jobs[2][0]
			if cfg.Menus[1].Way == menu.OneStick {
				d.push(menu.In, 2)
				channel = jobs[2][2]
			}
			d.log.Reset()
			d.in.Sticks[channel] = to
			begin := d.tick
			d.step(200)
			var want []happening.Happening
			for i, ms := range []int64{0, 520, 760, 1000, 1240, 1480} {
				v := int32(i + 1)
				if to == pulse.Low {
					v = -v
				}
				want = append(want, happening.Happening{Tick: begin + ms, Code: happening.MenuValue, A: int32(item), B: v})
			}
			require.Equal(t, want, d.told())
		}
	}
}

// Happenings name items by their number over all menus, not by the place of their value, and say how many changes were kept.
func TestWhatIsTold(t *testing.T) {
	cfg := shipped(t)
	d := newDesk(cfg, 2, 2)
	d.step(1)
	d.push(menu.Down, 2)
	d.push(menu.In, 2)
	d.push(menu.Up, 2)
	d.push(menu.Back, 2)
	d.push(menu.Up, 2)
	d.push(menu.In, 2)
	d.push(menu.Up, 2)
	d.push(menu.Back, 2)
	first := cfg.Menus[2].First
	var got [][3]int32
	for _, h := range d.told() {
		got = append(got, [3]int32{int32(h.Code), h.A, h.B})
	}
	value := int32(happening.MenuValue)
	require.Equal(t, [][3]int32{{value, int32(first + 1), 2}, {value, int32(first), 1}}, got)
	d.push(menu.Back, 2)
	require.Equal(t, menu.Stay, d.s.Asked)
	d.push(menu.Up, 2)
	d.push(menu.Up, 2)
	d.log.Reset()
	d.push(menu.In, 2)
	require.Equal(t, []happening.Happening{{Tick: d.log.Item[0].Tick, Code: happening.MenuLeft, A: 1, B: 2}}, d.log.All())
}

// Both directions that a way uses must have come to rest, each by itself.
func TestEachDirectionMustRest(t *testing.T) {
	cfg := byTwo(t)
	for which := range cfg.Menus {
		across := jobs[2][1]
		if cfg.Menus[which].Way == menu.TwoSticks {
			across = jobs[2][0]
		}
		for _, held := range []int{jobs[2][2], across} {
			d := newDesk(cfg, which, 2)
			d.in.Sticks[held] = pulse.High
			d.step(50)
			require.False(t, d.s.Rested, "menu %d, channel %d", which, held)
			d.rest()
			d.step(1)
			require.True(t, d.s.Rested)
		}
	}
}

// A stick mode that is not known counts as 2.
func TestNoStickModeCountsAsTwo(t *testing.T) {
	cfg := shipped(t)
	d, plain := newDesk(cfg, 0, 2), newDesk(cfg, 0, 2)
	d.in.StickMode = 0
	d.step(1)
	plain.step(1)
	for _, p := range []menu.Push{menu.Down, menu.In, menu.Up, menu.Back, menu.Back} {
		d.push(p, 2)
		plain.push(p, 2)
		require.Equal(t, plain.s, d.s)
	}
}

// Going in and out again is the same situation as never having gone in: nothing dead is left in the State.
func TestInAndOutLeavesNothingBehind(t *testing.T) {
	cfg := shipped(t)
	d := newDesk(cfg, 0, 2)
	d.step(2)
	d.push(menu.Down, 2)
	was := d.s
	d.push(menu.In, 2)
	d.push(menu.Down, 2)
	d.push(menu.Back, 2)
	require.Equal(t, was, d.s)
}

// With one stick a push out of a value ends the change and no more, and one on the top page asks and no more, however long it is held.
func TestAHeldPushOutGoesOneWay(t *testing.T) {
	cfg := shipped(t)
	d := newDesk(cfg, 0, 2)
	d.step(1)
	d.push(menu.In, 2)
	d.push(menu.In, 2)
	d.push(menu.Up, 2)
	require.True(t, d.s.Inside)
	d.push(menu.Back, 400)
	require.False(t, d.s.Inside)
	require.EqualValues(t, 1, d.s.Depth)
	d.push(menu.Back, 400)
	require.Zero(t, d.s.Depth)
	require.Equal(t, menu.NoQuestion, d.s.Asked)
	d.push(menu.Back, 400)
	require.Equal(t, menu.Stay, d.s.Asked)
	d.push(menu.Up, 2)
	d.push(menu.Back, 400) // back out of the question: stay
	require.Equal(t, menu.NoQuestion, d.s.Asked)
	require.NotZero(t, d.s.Open)
}
