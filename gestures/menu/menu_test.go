package menu_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// shipped are the menus that go with every craft.
func shipped(t testing.TB) *menu.Config {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	require.Len(t, f.Menus.Menus, 3)
	for _, m := range f.Menus.Menus {
		require.Equal(t, menu.OneStick, m.Way, "%s: whatever ships is moved by one stick", m.Code)
	}
	return &f.Menus
}

// byTwo are the same menus, the second of them moved by two sticks.
func byTwo(t testing.TB) *menu.Config {
	cfg := shipped(t)
	cfg.Menus[1].Way = menu.TwoSticks
	return cfg
}

// Which job each physical stick carries, left across, right across, right up (common practice, no source).
var jobs = map[uint8][3]int{1: {3, 1, 0}, 2: {3, 1, 2}, 3: {1, 3, 0}, 4: {1, 3, 2}}

// desk moves a menu by physical sticks, slot by slot.
type desk struct {
	cfg  *menu.Config
	s    menu.State
	mode uint8
	in   menu.Input
	log  happening.Log
	tick int64
}

func newDesk(cfg *menu.Config, which int, mode uint8) *desk {
	d := &desk{cfg: cfg, mode: mode, s: menu.Open(cfg, menu.State{}, which)}
	d.in = menu.Input{StickMode: mode, Valid: true, Live: true}
	d.rest()
	return d
}

func (d *desk) rest() {
	for i := range d.in.Sticks {
		d.in.Sticks[i] = pulse.Centre
	}
}

func (d *desk) step(n int) {
	for range n {
		d.s = menu.Step(d.cfg, d.s, &d.in, d.tick, &d.log)
		d.tick += 20
	}
}

// push holds a direction for some slots and lets it go.
func (d *desk) push(p menu.Push, slots int) {
	tree := d.cfg.Tree(&d.s)
	if tree == nil {
		return
	}
	j := jobs[d.mode]
	channel, to := j[2], pulse.High
	switch p {
	case menu.Down:
		to = pulse.Low
	case menu.In, menu.Back:
		channel = j[1]
		if tree.Way == menu.TwoSticks {
			channel = j[0]
		}
		if p == menu.Back {
			to = pulse.Low
		}
	}
	d.in.Sticks[channel] = to
	d.step(slots)
	d.in.Sticks[channel] = pulse.Centre
	d.step(2)
}

// walker is a plain tree walk: pages as a recursion of lists, values in a map.
type walker struct {
	cfg      *menu.Config
	tree     *menu.Tree
	pages    [][2]int
	marks    []int
	inside   bool
	asked    int // 0 no, 1 keep, 2 put back, 3 stay
	now, was map[int]int32
	left     bool
	kept     bool
}

func newWalker(cfg *menu.Config, which int) *walker {
	w := &walker{cfg: cfg, tree: &cfg.Menus[which], now: map[int]int32{}, was: map[int]int32{}}
	w.pages, w.marks = [][2]int{{w.tree.First, w.tree.Count}}, []int{0}
	for i, it := range cfg.Items {
		if it.Kind == menu.Value || it.Kind == menu.Choice {
			w.now[i], w.was[i] = it.Start, it.Start
		}
	}
	return w
}

func (w *walker) item() (int, *menu.Item) {
	n := w.pages[len(w.pages)-1][0] + w.marks[len(w.marks)-1]
	return n, &w.cfg.Items[n]
}

func (w *walker) changed() bool {
	for i := range w.now {
		if w.now[i] != w.was[i] {
			return true
		}
	}
	return false
}

func (w *walker) add(by int32) {
	n, it := w.item()
	if v := w.now[n] + by*it.By; v > it.High {
		w.now[n] = it.High
	} else if v < it.Low {
		w.now[n] = it.Low
	} else {
		w.now[n] = v
	}
}

func (w *walker) out() {
	if len(w.pages) > 1 {
		w.pages, w.marks = w.pages[:len(w.pages)-1], w.marks[:len(w.marks)-1]
		return
	}
	if w.changed() {
		w.asked = 3
		return
	}
	w.left = true
}

func (w *walker) push(p menu.Push) {
	last := len(w.marks) - 1
	_, it := w.item()
	value := it.Kind == menu.Value || it.Kind == menu.Choice
	switch {
	case w.left:
	case w.asked > 0:
		switch p {
		case menu.Up:
			w.asked = max(w.asked-1, 1)
		case menu.Down:
			w.asked = min(w.asked+1, 3)
		case menu.Back:
			w.asked = 0
		case menu.In:
			w.left, w.kept = w.asked < 3, w.asked == 1
			w.asked = 0
		}
	case w.inside:
		switch p {
		case menu.Up:
			w.add(1)
		case menu.Down:
			w.add(-1)
		case menu.Back:
			w.inside = false
		}
	case p == menu.Up:
		w.marks[last] = max(w.marks[last]-1, 0)
	case p == menu.Down:
		w.marks[last] = min(w.marks[last]+1, w.pages[last][1]-1)
	case value && w.tree.Way == menu.TwoSticks:
		w.add(map[menu.Push]int32{menu.In: 1, menu.Back: -1}[p])
	case p == menu.Back || it.Kind == menu.Out:
		w.out()
	case value:
		w.inside = true
	default:
		w.pages, w.marks = append(w.pages, [2]int{it.First, it.Count}), append(w.marks, 0)
	}
}

// The menus by sticks against the plain tree walk, push by push, in every stick mode: the same item marked, the same values, left at
// the same push; every value within its limits; and nothing kept but by "keep".
func TestMenusAgainstAPlainTreeWalk(t *testing.T) {
	t.Run("shipped", func(t *testing.T) { againstAPlainTreeWalk(t, shipped(t)) })
	t.Run("by two sticks", func(t *testing.T) { againstAPlainTreeWalk(t, byTwo(t)) })
}

func againstAPlainTreeWalk(t *testing.T, cfg *menu.Config) {
	rapid.Check(t, func(t *rapid.T) {
		which := rapid.IntRange(0, len(cfg.Menus)-1).Draw(t, "menu")
		mode := uint8(rapid.IntRange(1, 4).Draw(t, "stick mode"))
		d, w := newDesk(cfg, which, mode), newWalker(cfg, which)
		d.step(2)
		for range rapid.IntRange(1, 60).Draw(t, "pushes") {
			p := menu.Push(rapid.IntRange(int(menu.Up), int(menu.Back)).Draw(t, "push"))
			d.push(p, rapid.IntRange(1, int(cfg.Delay)-1).Draw(t, "slots"))
			w.push(p)
			if w.left {
				require.Zero(t, d.s.Open)
				break
			}
			n, _ := w.item()
			require.Equal(t, n, cfg.Marked(&d.s))
			require.Equal(t, w.inside, d.s.Inside)
			require.Equal(t, w.asked, int(d.s.Asked))
			for i, v := range w.now {
				it := &cfg.Items[i]
				require.Equal(t, v, d.s.Now[it.Index], it.Name)
				require.Equal(t, it.Start, d.s.Kept[it.Index], "%s: nothing is kept before it was said", it.Name)
				require.True(t, v >= it.Low && v <= it.High)
			}
		}
		for i := range w.now {
			it := &cfg.Items[i]
			want := it.Start
			if w.kept {
				want = w.now[i]
			}
			require.Equal(t, want, d.s.Kept[it.Index], it.Name)
		}
	})
}

// Random sticks, held and trembling, valid or not: no value ever leaves its limits, and what is kept changes only with a happening
// that says so.
func TestRandomSticksNeverLeaveTheLimits(t *testing.T) {
	cfg := byTwo(t)
	rapid.Check(t, func(t *rapid.T) {
		d := newDesk(cfg, rapid.IntRange(0, 2).Draw(t, "menu"), uint8(rapid.IntRange(0, 4).Draw(t, "mode")))
		for range rapid.IntRange(1, 80).Draw(t, "stands") {
			for i := range d.in.Sticks {
				d.in.Sticks[i] = pulse.Width(rapid.IntRange(int(pulse.Lowest), int(pulse.Highest)).Draw(t, "stick"))
			}
			d.in.Valid, d.in.Live = rapid.IntRange(0, 9).Draw(t, "valid") > 0, rapid.IntRange(0, 9).Draw(t, "live") > 0
			kept := d.s.Kept
			d.log.Reset()
			d.step(rapid.IntRange(1, 40).Draw(t, "slots"))
			said := false
			for _, h := range d.log.All() {
				said = said || h.Code == happening.MenuLeft && h.A == 1
			}
			if !said {
				require.Equal(t, kept, d.s.Kept)
			}
			for i := range cfg.Items {
				if it := &cfg.Items[i]; d.s.Known && (it.Kind == menu.Value || it.Kind == menu.Choice) {
					require.True(t, d.s.Now[it.Index] >= it.Low && d.s.Now[it.Index] <= it.High, it.Name)
				}
			}
		}
	})
}

// A stick that is held acts again: hand-worked for slots of 20 ms, 520 ms until the second time, 240 ms from then on.
func TestAHeldStickActsAgain(t *testing.T) {
	cfg := shipped(t)
	require.EqualValues(t, 26, cfg.Delay)
	require.EqualValues(t, 12, cfg.Every)
	d := newDesk(cfg, 2, 2) // five items and the way out
	d.step(1)
	d.in.Sticks[2] = pulse.Low
	var marks []int64
	for range 100 {
		d.log.Reset()
		d.step(1)
		for _, h := range d.log.All() {
			require.Equal(t, happening.MenuMark, h.Code)
			marks = append(marks, h.Tick-20)
		}
	}
	require.Equal(t, []int64{0, 520, 760, 1000, 1240}, marks, "and at the last item it stops")
	// Going in never repeats.
	d = newDesk(cfg, 0, 2)
	d.step(1)
	d.in.Sticks[1] = pulse.High
	d.step(300)
	require.EqualValues(t, 1, d.s.Depth)
	require.False(t, d.s.Inside)
}

// The stick that made the gesture must come to rest before anything moves; so after being armed, or without a link; two directions at
// once do nothing; a stick that trembles at the edge acts once; slots without a valid frame change nothing.
func TestWhatDoesNotMoveAMenu(t *testing.T) {
	cfg := shipped(t)
	d := newDesk(cfg, 0, 2)
	d.in.Sticks[2] = pulse.High // pitch forward, as the gesture has it
	d.step(200)
	require.False(t, d.s.Rested)
	require.Zero(t, d.log.N)
	d.in.Sticks[2] = pulse.Centre
	d.in.Sticks[0] = pulse.Low // the throttle may stay low: this way does not use it
	d.step(1)
	require.True(t, d.s.Rested)
	d.push(menu.Down, 3)
	require.EqualValues(t, 1, d.s.Marks[0])

	d.in.Live = false
	d.push(menu.Down, 10)
	d.in.Live = true
	d.in.Sticks[2] = pulse.Low
	d.step(100)
	require.EqualValues(t, 1, d.s.Marks[0])
	d.in.Sticks[2] = pulse.Centre
	d.step(1)
	d.in.Sticks[2], d.in.Sticks[1] = pulse.Low, pulse.High
	d.step(100)
	require.EqualValues(t, 1, d.s.Marks[0], "a diagonal does nothing")
	d.rest()
	d.step(1)
	for i := range 20 { // 5 µs of noise at the edge where a push begins
		d.in.Sticks[2] = pulse.Percent(-700) + pulse.Width(40*(i%2*2-1))
		d.step(1)
	}
	require.EqualValues(t, 2, d.s.Marks[0])
	d.rest()
	d.step(1)
	d.in.Valid = false
	was := d.s
	d.in.Sticks[2] = pulse.Low
	d.step(200)
	require.Equal(t, was, d.s)
}
