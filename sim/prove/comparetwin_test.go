package prove

import (
	"container/heap"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// twins is a plain, slow comparer beside Compare: it knows no classes, lenses, numbers for situations or tables. It steps two whole benches by
// single milliseconds, holds what each does in every one against the other, and keeps what it has seen in a map. Every position of every switch
// and both sides of every mark of a stick are places of their own; the radios reach equally far.
type twins struct {
	l      [2]*Layout
	places [][2][]pulse.Width // of each control, on both
	normal []int
	rest   [][]int // where a control goes from each place when it is let go, −1 where nothing springs back
	held   []int   // how many of its places a hand can put it to: the rest it comes to only by being let go
	bench  [2]sim.Bench
	known  map[twoScenes]twoCost // the lowest cost at which each was met
	open   twoQueue
}

// craftScene is all of a bench that what it does later depends on.
type craftScene struct {
	slot     sim.SlotState
	flight   flight.State
	throttle pulse.Width // of the last valid frame: while armed it drives the motors
	sinkFrom int
	moved    bool
	toSlot   int64
}

type twoHeld struct {
	at          [6]uint8
	on, powered bool
	// cond is none, the cable, tilted or a weak pack.
	cond uint8
}

type twoScenes struct {
	craft [2]craftScene
	twoHeld
}

type twoCost struct{ moves, time int32 }

func (c twoCost) less(d twoCost) bool {
	return c.moves < d.moves || c.moves == d.moves && c.time < d.time
}

type twoNode struct {
	twoScenes
	twoCost
	state [2]sim.State
	parts Part
}

type twoQueue []*twoNode

func (q twoQueue) Len() int           { return len(q) }
func (q twoQueue) Less(i, j int) bool { return q[i].less(q[j].twoCost) }
func (q twoQueue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *twoQueue) Push(x any)        { *q = append(*q, x.(*twoNode)) }
func (q *twoQueue) Pop() any {
	n := len(*q) - 1
	x := (*q)[n]
	*q = (*q)[:n]
	return x
}

// marksOf are the widths from which on a stick means something else to a craft.
func marksOf(c *sim.Config, channel int8) []pulse.Width {
	a := &c.Arming
	switch {
	case channel == c.Layout.Throttle && a.By == arming.BySwitch:
		return []pulse.Width{a.LowThrottle, pulse.Micros(1000) + 1, pulse.Micros(1000) + pulse.Width(c.Flight.AirWake) + 1}
	case channel == c.Layout.Throttle:
		return []pulse.Width{a.LowThrottle, a.LeaveThrottle, pulse.Micros(1000) + 1, pulse.Micros(1000) + pulse.Width(c.Flight.AirWake) + 1}
	case channel == c.Layout.Yaw && a.By == arming.BySticks:
		return []pulse.Width{a.YawLeft + 1, a.LeaveLeft + 1, a.LeaveRight, a.YawRight}
	}
	return nil
}

func newTwins(a, b *Layout) *twins {
	w := &twins{l: [2]*Layout{a, b}, known: map[twoScenes]twoCost{}}
	for i := range w.l {
		w.bench[i] = sim.New(w.l[i].Config)
	}
	for i := range a.Radio.Controls {
		k := [2]*handset.Control{&a.Radio.Controls[i], &b.Radio.Controls[i]}
		var at [2][]pulse.Width
		normal, rests := 0, [2]pulse.Width{-1, -1} // −1: it stays
		if k[0].Kind == handset.Switch {
			for p := range max(len(k[0].Positions), len(k[1].Positions)) {
				for i, c := range k {
					q := p
					if len(c.Positions) == 2 && len(k[1-i].Positions) == 3 { // the middle counts as low
						q = p / 2
					}
					at[i] = append(at[i], c.Positions[q].Width)
				}
			}
			most := -1
			for p := range at[0] { // off in both if it can be, else in one
				off := 0
				for i, c := range k {
					l := &w.l[i].Config.Layout
					if v := at[i][p]; c.Channel == l.Arm && v.Valid() && !l.ArmSpan.Contains(v) {
						off++
					}
				}
				if off > most {
					normal, most = p, off
				}
			}
			if k[0].Momentary { // both or neither here
				for p := range at[0] {
					if p == 0 || abs(at[0][p]-k[0].Rest) < abs(at[0][normal]-k[0].Rest) {
						normal = p
					}
				}
				rests = [2]pulse.Width{at[0][normal], at[1][normal]}
			}
		} else {
			ends := []pulse.Width{k[0].Rest}
			if k[0].High > pulse.Highest {
				ends = append(ends, k[0].High)
			}
			for i, c := range k {
				for _, m := range marksOf(&w.l[i].Config, c.Channel) {
					ends = append(ends, m-1, m)
				}
			}
			for _, v := range ends {
				if v >= k[0].Low && v <= k[0].High && !slices.Contains(at[0], v) {
					at[0], at[1] = append(at[0], v), append(at[1], v)
				}
			}
			for i, c := range k {
				if !c.Stays {
					rests[i] = c.Rest
				}
			}
		}
		w.letGo(at, normal, rests)
	}
	return w
}

// letGo adds a control, and where it goes from each place when it is let go; one that only one radio springs back comes to places of its own.
func (w *twins) letGo(at [2][]pulse.Width, normal int, rests [2]pulse.Width) {
	held, goes := len(at[0]), []int(nil)
	for p := 0; p < len(at[0]); p++ {
		to := [2]pulse.Width{at[0][p], at[1][p]}
		for i, r := range rests {
			if r >= 0 {
				to[i] = r
			}
		}
		n := 0
		for n < len(at[0]) && (at[0][n] != to[0] || at[1][n] != to[1]) {
			n++
		}
		if n == len(at[0]) {
			at[0], at[1] = append(at[0], to[0]), append(at[1], to[1])
		}
		if rests[0] < 0 && rests[1] < 0 {
			n = -1
		}
		goes = append(goes, n)
	}
	if goes[normal] >= 0 {
		normal = goes[normal]
	}
	w.places, w.normal, w.rest, w.held = append(w.places, at), append(w.normal, normal), append(w.rest, goes), append(w.held, held)
}

func (w *twins) frame(i int, h *twoHeld) (f pulse.Frame) {
	for k := range w.places {
		f[w.l[i].Radio.Controls[k].Channel] = w.places[k][i][h.at[k]]
	}
	return f
}

// goes makes one movement, steps both until the next slot of either, and adds where that leads.
func (w *twins) goes(n *twoNode, to twoHeld, moves int32, r func(i int) []pulse.Reading) {
	next := &twoNode{twoCost: twoCost{n.moves + moves, n.time + 1}}
	var log [2]happening.Log
	for i := range w.bench {
		w.bench[i].Restore(n.state[i])
	}
	for ms := 0; ms == 0 || to.powered && w.bench[0].ToSlot() != 0 && w.bench[1].ToSlot() != 0; ms++ {
		var does [2]Answer
		for i := range w.bench {
			b := &w.bench[i]
			var in []pulse.Reading
			if ms == 0 {
				in = r(i)
			}
			log[i].Reset()
			b.Step(in, &log[i])
			s := b.State()
			if !s.In.Powered {
				continue
			}
			does[i] = Answer{Armed: b.Armed(), Mode: s.Slot.Layout.Mode, Motors: s.Motor[0] > 0, Sinking: b.Sinking()}
			for _, h := range log[i].All() {
				if h.Code == happening.Refused {
					does[i].Refused = arming.Set(h.A)
				}
			}
		}
		next.parts |= unlike(does[0], does[1])
	}
	next.twoHeld = to
	for i := range w.bench {
		s := w.bench[i].State()
		next.state[i] = s
		c := &next.craft[i]
		if !to.powered {
			continue
		}
		*c = craftScene{slot: s.Slot, moved: s.In.Craft.Moved, toSlot: w.bench[i].ToSlot()}
		if s.Slot.Arming.Armed {
			c.flight, c.throttle = s.Flight, s.LastValid[w.l[i].Config.Layout.Throttle]
			if s.Slot.Arming.Sink > 0 {
				c.sinkFrom = s.SinkFrom
			}
		}
	}
	if met, known := w.known[next.twoScenes]; next.parts != 0 || !known || next.less(met) {
		if next.parts == 0 {
			w.known[next.twoScenes] = next.twoCost
		}
		heap.Push(&w.open, next)
	}
}

// shortest is the cost of the shortest way to any difference; false where there is none.
func (w *twins) shortest(t require.TestingT) (moves, time int32, parts Part, found bool) {
	start := &twoNode{twoScenes: twoScenes{twoHeld: twoHeld{on: true}}}
	for k, p := range w.normal {
		start.at[k] = uint8(p)
	}
	for i := range w.bench {
		w.bench[i].Step([]pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Controls, Frame: w.frame(i, &start.twoHeld)}}, nil)
		start.state[i] = w.bench[i].State()
	}
	w.open = twoQueue{start}
	limit := w.limits()
	for w.open.Len() > 0 {
		n := heap.Pop(&w.open).(*twoNode)
		if n.parts != 0 {
			return n.moves, n.time, n.parts, true
		}
		if w.known[n.twoScenes].less(n.twoCost) {
			continue
		}
		require.Less(t, len(w.known), 400_000)
		w.from(n, limit)
	}
	return 0, 0, 0, false
}

// limits are the values between limits that differ: a tilt, a pack, both 0 where the two crafts have the same.
func (w *twins) limits() (between [4]int32) {
	a, b := &w.l[0].Config.Arming, &w.l[1].Config.Arming
	if a.TiltLimitTenths != b.TiltLimitTenths {
		between[2] = int32(max(a.TiltLimitTenths, b.TiltLimitTenths))
	}
	if a.PackLimitMilliVolts != b.PackLimitMilliVolts {
		between[3] = int32(min(a.PackLimitMilliVolts, b.PackLimitMilliVolts))
	}
	between[1] = 1
	return between
}

func (w *twins) from(n *twoNode, limit [4]int32) {
	h := n.twoHeld
	same := func(r ...pulse.Reading) func(int) []pulse.Reading { return func(int) []pulse.Reading { return r } }
	if h.powered {
		w.goes(n, h, 0, same())
		w.goes(n, h, 1, same(pulse.Reading{Kind: pulse.Nudge, Value: 1}))
	}
	for k := range w.places {
		for p := range w.places[k][0] {
			rests := p == w.rest[k][h.at[k]]
			if p == int(h.at[k]) || !rests && p >= w.held[k] {
				continue
			}
			to, costs := h, int32(1)
			if to.at[k] = uint8(p); rests {
				costs = 0
			}
			w.goes(n, to, costs, func(i int) []pulse.Reading { return []pulse.Reading{{Kind: pulse.Controls, Frame: w.frame(i, &to)}} })
		}
	}
	turned := func(on bool) int32 { return int32(bit(!on)) }
	to := h
	to.on = !h.on
	w.goes(n, to, 1, same(pulse.Reading{Kind: pulse.Link, Value: turned(h.on)}))
	to = h
	to.powered = !h.powered
	w.goes(n, to, 1, same(pulse.Reading{Kind: pulse.Power, Value: turned(h.powered)}))
	kinds := [4]pulse.Kind{0, pulse.Cable, pulse.Tilt, pulse.Pack}
	for c := uint8(1); c < 4; c++ {
		switch to = h; {
		case h.cond == 0 && limit[c] != 0:
			to.cond = c
			w.goes(n, to, 1, same(pulse.Reading{Kind: kinds[c], Value: limit[c]}))
		case h.cond == c:
			to.cond = 0
			w.goes(n, to, 1, same(pulse.Reading{Kind: kinds[c]}))
		}
	}
}

// drawnLayout is a craft at random with limits of a few slots, on a radio that reaches everywhere.
func drawnLayout(t *rapid.T) *made {
	if rapid.IntRange(0, 4).Draw(t, "by sticks") == 4 {
		dwell := func(name string) uint16 { return uint16(rapid.IntRange(1, 2).Draw(t, name)) }
		m := bySticks().short(1, 1, 1, dwell("arm dwell"), dwell("disarm dwell"), uint16(rapid.IntRange(0, 1).Draw(t, "sink"))).without("mode")
		m.Config.Layout.Mode, m.Config.SlotTicks = layout.NoChannel, 1
		return m
	}
	limit := func(name string) uint16 { return uint16(rapid.IntRange(1, 4).Draw(t, name)) }
	us := func(name string, of ...int) int { return rapid.SampledFrom(of).Draw(t, name) }
	m := bySwitch().short(limit("silence"), limit("clean"), limit("still"), 3, 3, uint16(us("sink", 0, 0, 2, 3)))
	m.Config.SlotTicks = 1
	m.positions("arm", us("low", 840, 988, 1400), us("middle", 1500, 1600), 2012)
	m.positions("mode", 988, us("mode", 1500, 2190))
	m.travel("roll", 988, us("roll", 2012, 2012, 2190))
	arm := m.control("arm")
	arm.Momentary, arm.Rest = us("springs", 0, 0, 1) == 1, pulse.Micros(us("rests", 988, 1500))
	switch us("loss", 0, 0, 1, 2) {
	case 1:
		m.hold()
	case 2:
		m.stored(us("stored throttle", 988, 1500), 1500, us("stored arm", 988, 1700, 0))
	}
	m.Config.Arming.OnlySelfLevelling = us("levelling", 0, 0, 1) == 1
	return m
}

// bend changes something of a craft or its radio, a little: some of it changes nothing that a pilot could tell.
func bend(t *rapid.T, m *made) *made {
	b := &made{m.Layout}
	b.Radio.Controls = slices.Clone(m.Radio.Controls)
	c := &b.Config
	for range rapid.IntRange(1, 2).Draw(t, "changes") {
		up := func(w *uint16) { *w += uint16(rapid.IntRange(0, 2).Draw(t, "slots")) }
		if c.Arming.By == arming.BySticks {
			bendSticks(t, &c.Arming)
			continue
		}
		switch rapid.IntRange(0, 17).Draw(t, "change") {
		case 0:
			up(&c.Link.SilenceSlots)
		case 1:
			up(&c.Link.CleanSlots)
		case 2:
			up(&c.Arming.StillSlots)
		case 3:
			up(&c.Arming.SinkSlots)
		case 4:
			c.Layout.ArmSpan.Low = pulse.Micros(rapid.SampledFrom([]int{1450, 1550, 1650, 1900}).Draw(t, "arm span"))
		case 5:
			c.Layout.Spans[0].Span.High = pulse.Micros(rapid.SampledFrom([]int{980, 1100, 1240}).Draw(t, "mode span"))
		case 6:
			c.Layout.Spans[1].Mode = layout.Mode(rapid.IntRange(0, 2).Draw(t, "mode"))
		case 7:
			c.Arming.LowThrottle = pulse.Micros(rapid.SampledFrom([]int{1000, 1001, 1100}).Draw(t, "low mark"))
		case 8:
			c.Link.OnLoss = 0
		case 9:
			if !b.control("arm").Momentary {
				b.positions("arm", 988, 2012)
			}
		case 10:
			c.Flight.AtLowThrottle = flight.Idle
		case 11:
			c.Flight.AirWake = rapid.SampledFrom([]int{pulse.ThrottleFull * 18 / 100, 3000}).Draw(t, "wake")
		case 12:
			c.Flight.AirModes = uint8(rapid.IntRange(0, 7).Draw(t, "air modes"))
		case 13:
			c.Arming.TiltLimitTenths = 200
		case 14:
			c.SlotTicks = uint16(rapid.IntRange(1, 3).Draw(t, "frame period"))
		case 15:
			c.Arming.OnlySelfLevelling = false
		case 16, 17:
			k := b.control("throttle")
			k.Stays, k.Rest = false, pulse.Micros(rapid.SampledFrom([]int{988, 1500}).Draw(t, "throttle rests"))
		}
	}
	return b
}

func bendSticks(t *rapid.T, a *arming.Config) {
	by := pulse.Width(rapid.IntRange(-1, 1).Draw(t, "by"))
	switch rapid.IntRange(0, 7).Draw(t, "change") {
	case 0:
		a.ArmDwell = uint16(rapid.IntRange(1, 2).Draw(t, "dwell"))
	case 1:
		a.DisarmDwell = uint16(rapid.IntRange(1, 2).Draw(t, "dwell"))
	case 2:
		a.YawRight += by
	case 3:
		a.YawLeft += by
	case 4:
		a.LeaveRight += by
	case 5:
		a.LeaveLeft += by
	case 6:
		a.LeaveThrottle += by
	case 7:
		a.LowThrottle += by
	}
}

// Two made layouts at random: the twin finds a difference where Compare does, of as many movements and slots, and none where it proves that there
// is none.
func TestComparedAsItsTwinDoes(t *testing.T) {
	alike, differ := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		a := drawnLayout(rt)
		b := bend(rt, a)
		c, err := Compare(a.Layout, b.Layout, Options{})
		require.NoError(rt, err)
		require.False(rt, c.Partial)
		moves, time, parts, found := newTwins(&a.Layout, &b.Layout).shortest(rt)
		if !found {
			alike++
			require.Equal(rt, Alike, c.Likeness())
			return
		}
		differ++
		require.Equal(rt, Different, c.Likeness(), "%b after %d movements", parts, moves)
		w := c.Difference.Ways[0]
		require.EqualValues(rt, moves, w.Movements, "%b, %b", parts, c.Difference.Parts)
		if a.Config.SlotTicks == b.Config.SlotTicks {
			require.EqualValues(rt, time, w.Ms/int64(a.Config.SlotTicks)+1, "%b, %b", parts, c.Difference.Parts)
		}
	})
	assert.Greater(t, alike, 3)
	assert.Greater(t, differ, 3)
}
