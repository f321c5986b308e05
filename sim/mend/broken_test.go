package mend

import (
	"flag"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

var breaks = flag.Int("breaks", 20, "how many layouts are broken at random")

// quick makes the times a few slots of 20 ms, so that a layout by sticks is searched in a moment.
func (m *made) quick() *made {
	c := &m.Config
	c.Link.SilenceSlots, c.Link.CleanSlots = 6, 8
	c.Arming.StillSlots, c.Arming.ArmDwell, c.Arming.DisarmDwell = 7, 12, 10
	return m
}

// good are layouts in which every rule holds.
var good = map[string]func() *made{
	"by switch":          bySwitch,
	"no switch to spare": func() *made { return bySwitch().bare() },
	"second switch":      func() *made { return bySwitch().second() },
	"six positions":      func() *made { return bySwitch().six() },
	"it sinks":           func() *made { return bySwitch().with(func(m *made) { m.Config.Arming.SinkSlots = 100 }) },
	"only self-levelling": func() *made {
		return bySwitch().with(func(m *made) { m.Config.Arming.OnlySelfLevelling = true })
	},
	"on at the low end": func() *made { return bySwitch().with(func(m *made) { m.Config.Layout.ArmSpan = us(860, 1400) }) },
	"three positions":   func() *made { return bySwitch().positions("arm", 988, 1500, 2012) },
	"by sticks":         func() *made { return bySticks().quick() },
	"sticks, it sinks": func() *made {
		return bySticks().quick().with(func(m *made) { m.Config.Arming.SinkSlots = 10 })
	},
}

// breaking is one way to break a layout, by a change that one change can undo. Two about the same thing are never made together.
type breaking struct {
	name, about string
	fits        func(m *made) bool
	do          func(m *made)
}

func switched(m *made) bool { return m.Config.Arming.By == arming.BySwitch }
func anyLayout(*made) bool  { return true }

// breakings are all of them.
var breakings = []breaking{
	{"it repeats the last", "receiver", anyLayout, func(m *made) { m.Config.Link.OnLoss = link.RepeatsLast }},
	{"it stores armed", "receiver", switched, func(m *made) { m.stored(988, 1500, 1500).Config.Link.Stored[m.Config.Layout.Arm] = onWidth(m) }},
	{"it stores the arm corner", "receiver", func(m *made) bool { return !switched(m) }, func(m *made) { m.stored(988, 2012, 0) }},
	{"the low mark is high", "low", anyLayout, func(m *made) {
		m.Config.Arming.LowThrottle, m.Config.Arming.LeaveThrottle = pulse.Micros(1100), pulse.Micros(1120)
	}},
	{"the arm span lies beyond", "arm", switched, func(m *made) { m.Config.Layout.ArmSpan = us(2100, 2150) }},
	{"the arm span holds everything", "arm", switched, func(m *made) { m.Config.Layout.ArmSpan = us(900, 2100) }},
	{"the arm switch springs back", "arm", func(m *made) bool { return switched(m) && len(m.Radio.Controls) > 6 }, func(m *made) { m.control("arm").Momentary = true }},
	{"the throttle ends short", "throttle", anyLayout, func(m *made) { m.travel("throttle", 1012, 2012) }},
	{"the roll sends no pulse at its end", "roll", anyLayout, func(m *made) { m.travel("roll", 988, 2300) }},
	{"the arm switch sends no pulse where it is off", "arm", func(m *made) bool { return switched(m) && m.control("arm").Positions[0].Width == pulse.Low }, func(m *made) { m.control("arm").Positions[0].Width = pulse.Micros(700) }},
	{"the yaw ends short", "yaw", func(m *made) bool { return !switched(m) }, func(m *made) { m.travel("yaw", 1200, 1800) }},
	{"a gap between modes", "mode", anyLayout, func(m *made) { m.modes(in(layout.Angle, 860, 1050), in(layout.Rate, 1850, 2180)) }},
	{"rate first", "mode", anyLayout, func(m *made) { m.modes(in(layout.Rate, 860, 1100), in(layout.Horizon, 1100, 2180)) }},
	{"a mode without a position", "mode", anyLayout, func(m *made) {
		m.modes(in(layout.Angle, 860, 1100), in(layout.Horizon, 1100, 2100), in(layout.Rate, 2100, 2180))
	}},
	{"a second switch that is never on", "second", func(m *made) bool { return m.Config.Layout.Second != layout.NoChannel }, func(m *made) { m.Config.Layout.SecondSpan = us(2100, 2180) }},
}

// onWidth is where the arm switch is on.
func onWidth(m *made) pulse.Width {
	for _, p := range m.control("arm").Positions {
		if m.Config.Layout.ArmSpan.Contains(p.Width) {
			return p.Width
		}
	}
	return pulse.High
}

func TestGoodLayoutsAreGood(t *testing.T) {
	for name, m := range good {
		r, err := prove.Search(m().Layout, prove.Options{})
		require.NoError(t, err)
		assert.True(t, sound(&r), name)
	}
}

// Each way to break a layout breaks each that it fits, and one change mends it.
func TestOneBreakIsMendedByOneChange(t *testing.T) {
	for _, b := range breakings {
		if m := bySwitch().second(); b.fits(m) {
			b.do(m)
			mended(t, b.name, m, 1)
		}
	}
}

// Good layouts that are broken at random in one to three ways are mended by changes no more than the ways.
func TestBrokenLayoutsAreMended(t *testing.T) {
	var names []string
	for name := range good {
		names = append(names, name)
	}
	slices.Sort(names)
	n := *breaks
	if raceDetector {
		n = min(n, 4) // it slows a search down ten times, and there is one goroutine
	}
	for seed := range n {
		random := rand.New(rand.NewPCG(uint64(seed), 16))
		name := names[random.IntN(len(names))]
		m := good[name]()
		says, about := []string{name}, map[string]bool{}
		for n := 1 + random.IntN(3); len(about) < n; {
			b := breakings[random.IntN(len(breakings))]
			if about[b.about] || !b.fits(m) {
				continue
			}
			about[b.about] = true
			b.do(m)
			says = append(says, b.name)
		}
		mended(t, strings.Join(says, ", "), m, len(about))
	}
}

// mended holds that a layout is broken, and mended by so many changes at the most.
func mended(t *testing.T, name string, m *made, most int) {
	t.Helper()
	r := find(t, m, Options{Mends: 1})
	require.Equal(t, Mended, r.Verdict(), name)
	least := most + 1
	for i := range r.Mends {
		least = min(least, len(r.Mends[i].Changes))
	}
	assert.LessOrEqual(t, least, most, name)
	t.Logf("%s: %s", name, kinds(&r.Mends[0]))
}
