package prove

import (
	"container/heap"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// twin is a plain, slow explorer beside prove. It knows no classes, no packing, no folding and no guesses: it steps the whole
// bench (sim.Bench) by single milliseconds, tells every position of every switch and every mark of every stick apart, and
// keeps what it has seen in a map. Each rule is written down a second time, as what a person would watch for.
type twin struct {
	cfg   *sim.Config
	radio *handset.Radio
	// places of each control, and the normal one.
	places [][]pulse.Width
	normal []int
	// trembles is the same number for all places of a control among which its noise takes it, 0 for none.
	trembles [][]int
}

// held is what the hands hold.
type held struct {
	at                 [8]uint8
	on, cable, powered bool
}

// watched is what a rule remembers.
type watched struct {
	n    int
	flag bool
}

// scene is a situation of the twin: the bench's slot state stands for all of the bench that link and arming depend on.
type scene struct {
	slot sim.SlotState
	held
}

// happenings of one slot, a bit each, and why it disarmed.
type happenings struct {
	codes uint32
	cause happening.Cause
}

func (h happenings) has(c happening.Code) bool { return h.codes>>c&1 == 1 }

// node is one scene, and how it goes on.
type node struct {
	scene
	state sim.State // of whoever came here first
	ways  []onward
}

// onward is one slot that leads on.
type onward struct {
	to      int32
	kind    Kind
	moved   uint16 // channels that a hand moved, a bit each
	costs   int8
	frame   pulse.Frame
	got     bool
	valid   bool
	invalid bool
	happenings
}

// stand is a node together with what a rule remembers there.
type stand struct {
	at int32
	watched
}

type queued struct {
	stand
	moves, time int32
	bad         bool
}

type queue []queued

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return q[i].moves < q[j].moves || q[i].moves == q[j].moves && q[i].time < q[j].time
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(queued)) }
func (q *queue) Pop() any {
	n := len(*q) - 1
	x := (*q)[n]
	*q = (*q)[:n]
	return x
}

func newTwin(l *Layout) *twin {
	w := &twin{cfg: &l.Config, radio: &l.Radio}
	c := w.cfg
	marks := map[int8][]pulse.Width{c.Layout.Throttle: {c.Arming.LowThrottle}}
	if c.Arming.By == arming.BySwitch || c.Arming.LowThrottle > pulse.Micros(1000) { // by sticks LeaveThrottle asks for power anyway
		marks[c.Layout.Throttle] = append(marks[c.Layout.Throttle], pulse.Micros(1000)+1)
	}
	if c.Arming.By == arming.BySticks {
		marks[c.Layout.Throttle] = append(marks[c.Layout.Throttle], c.Arming.LeaveThrottle)
		marks[c.Layout.Yaw] = []pulse.Width{c.Arming.YawLeft + 1, c.Arming.LeaveLeft + 1, c.Arming.LeaveRight, c.Arming.YawRight}
	}
	for i := range l.Radio.Controls {
		k := &l.Radio.Controls[i]
		var at []pulse.Width
		normal := 0
		if k.Kind == handset.Switch {
			for _, pos := range k.Positions {
				at = append(at, pos.Width)
			}
			if off := slices.IndexFunc(at, func(v pulse.Width) bool { return v.Valid() && !c.Layout.ArmSpan.Contains(v) }); k.Channel == c.Layout.Arm && !k.Momentary && off > 0 {
				normal = off
			}
			for p, v := range at {
				if k.Momentary && k.Rest != 0 && abs(v-k.Rest) < abs(at[normal]-k.Rest) {
					normal = p
				}
			}
		} else {
			at = []pulse.Width{k.Rest}
			if k.Stays {
				at = []pulse.Width{k.Low}
			}
			ends := []pulse.Width{}
			if k.High > pulse.Highest {
				ends = append(ends, k.High)
			}
			for _, m := range marks[k.Channel] { // both sides of every mark
				ends = append(ends, m-1, m)
			}
			for _, v := range ends {
				if v >= k.Low && v <= k.High && !slices.Contains(at, v) {
					at = append(at, v)
				}
			}
		}
		trembles := make([]int, len(at))
		if k.Kind == handset.Switch {
			for p := range k.Positions {
				w.shake(&at, &trembles, p, p+1, noiseTimes*k.Positions[p].Spread)
			}
		} else if k.Noise > 0 {
			for n, rest := range []pulse.Width{k.Low, k.Rest, k.High} {
				if n == 1 && k.Stays {
					continue
				}
				i := slices.Index(at, rest)
				if i < 0 {
					i, at, trembles = len(at), append(at, rest), append(trembles, 0)
				}
				w.shake(&at, &trembles, i, n+1, noiseTimes*k.Noise)
			}
		}
		w.places, w.normal, w.trembles = append(w.places, at), append(w.normal, normal), append(w.trembles, trembles)
	}
	return w
}

// shake adds the farthest values that noise can bring at a place.
func (w *twin) shake(at *[]pulse.Width, trembles *[]int, place, number int, by pulse.Width) {
	if by == 0 {
		return
	}
	(*trembles)[place] = number
	for _, v := range []pulse.Width{(*at)[place] - by, (*at)[place] + by} {
		*at, *trembles = append(*at, v), append(*trembles, number)
	}
}

// with are the controls that move when one is moved, itself first.
func (w *twin) with(control int) []int { return append([]int{control}, w.radio.With(control)...) }

func (w *twin) frame(h *held) pulse.Frame {
	var f pulse.Frame
	for i := range w.radio.Controls {
		f[w.radio.Controls[i].Channel] = w.places[i][h.at[i]]
	}
	return f
}

// explore steps the whole bench from every scene by every movement, until there are no new scenes.
func (w *twin) explore(t testing.TB) []*node {
	b := sim.New(*w.cfg)
	start := &node{scene: scene{held: held{on: true}}}
	for i, n := range w.normal {
		start.at[i] = uint8(n)
	}
	b.Step([]pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Controls, Frame: w.frame(&start.held)}}, nil)
	start.state, start.slot = b.State(), b.State().Slot
	nodes := []*node{start}
	known := map[scene]int32{start.scene: 0}
	for i := 0; i < len(nodes); i++ {
		n := nodes[i]
		goes := func(kind Kind, control int, to held, costs int8, r ...pulse.Reading) {
			o, state := w.step(&b, n, kind, control, to, r)
			o.costs = costs
			next := scene{state.Slot, to}
			at, seen := known[next]
			if !seen {
				at = int32(len(nodes))
				known[next] = at
				nodes = append(nodes, &node{scene: next, state: state})
			}
			o.to = at
			n.ways = append(n.ways, o)
		}
		h := n.held
		goes(Wait, -1, h, 0)
		for i := range w.radio.Controls {
			for p := range w.places[i] {
				if p == int(h.at[i]) || w.radio.Controls[i].Same != 0 {
					continue
				}
				to, kind, costs := h, Move, int8(1)
				for _, k := range w.with(i) {
					if to.at[k] = uint8(p); k != i && w.radio.Controls[k].Turned {
						to.at[k] = uint8(len(w.places[k]) - 1 - p)
					}
				}
				if n := w.trembles[i][p]; n != 0 && n == w.trembles[i][h.at[i]] {
					kind, costs = Tremble, 0
				} else if w.radio.Controls[i].Momentary && p == w.normal[i] {
					kind, costs = LetGo, 0
				}
				goes(kind, i, to, costs, pulse.Reading{Kind: pulse.Controls, Frame: w.frame(&to)})
			}
		}
		for _, f := range []struct {
			to      held
			on, off Kind
			kind    pulse.Kind
			value   bool
		}{
			{held{h.at, !h.on, h.cable, h.powered}, RadioOn, RadioOff, pulse.Link, !h.on},
			{held{h.at, h.on, !h.cable, h.powered}, CableIn, CableOut, pulse.Cable, !h.cable},
			{held{h.at, h.on, h.cable, !h.powered}, PowerOn, PowerOff, pulse.Power, !h.powered},
		} {
			k, v := f.off, int32(0)
			if f.value {
				k, v = f.on, 1
			}
			goes(k, -1, f.to, 1, pulse.Reading{Kind: f.kind, Value: v})
		}
		if h.powered {
			goes(Nudge, -1, h, 1, pulse.Reading{Kind: pulse.Nudge, Value: 1})
		}
		require.Less(t, len(nodes), 200_000)
	}
	return nodes
}

// step runs one slot of the whole bench, millisecond by millisecond.
func (w *twin) step(b *sim.Bench, n *node, kind Kind, control int, to held, r []pulse.Reading) (onward, sim.State) {
	b.Restore(n.state)
	var log happening.Log
	o := onward{kind: kind}
	if control >= 0 {
		for _, k := range w.with(control) {
			o.moved |= 1 << w.radio.Controls[k].Channel
		}
	}
	for i := range w.radio.Controls {
		ch := w.radio.Controls[i].Channel
		o.invalid = o.invalid || !w.places[i][to.at[i]].Valid() && (ch == w.cfg.Layout.Throttle || ch == w.cfg.Layout.Roll || ch == w.cfg.Layout.Pitch || ch == w.cfg.Layout.Yaw)
	}
	for ms := range int(w.cfg.SlotTicks) {
		log.Reset()
		b.Step(r, &log)
		r = nil
		if ms == 0 && to.powered {
			f := b.State().Facts
			o.frame, o.got, o.valid = f.Link.Frame, f.Link.Received, f.Link.Valid
		}
		for _, h := range log.All() {
			o.codes |= 1 << h.Code
			if h.Code == happening.Disarmed {
				o.cause = happening.Cause(h.A)
			}
		}
	}
	return o, b.State()
}

// shortest is the cost of the shortest way to breaking a rule, false where no way breaks it.
func (w *twin) shortest(nodes []*node, rule plain) (moves, time int32, broken bool) {
	q := &queue{queued{}}
	known := map[stand]bool{}
	var s slotSeen
	for q.Len() > 0 {
		n := heap.Pop(q).(queued)
		if n.bad {
			return n.moves, n.time, true
		}
		if known[n.stand] {
			continue
		}
		known[n.stand] = true
		from := nodes[n.at]
		for i := range from.ways {
			o := &from.ways[i]
			to := nodes[o.to]
			s = slotSeen{cfg: w.cfg, was: from.slot, is: to.slot, wasOn: from.powered, before: from.held, after: to.held, kind: o.kind, moved: o.moved,
				frame: o.frame, got: o.got, valid: o.valid, happened: o.happenings, invalid: o.invalid,
				heardBefore: from.powered && from.slot.Link.Heard,
				armed:       !(from.powered && from.slot.Arming.Armed) && to.slot.Arming.Armed && to.powered,
				ended:       from.powered && to.powered && from.slot.Arming.Armed && !to.slot.Arming.Armed}
			memory, bad := rule(n.watched, &s)
			next := queued{stand{o.to, memory}, n.moves + int32(o.costs), n.time + 1, bad}
			if bad || !known[next.stand] {
				heap.Push(q, next)
			}
		}
	}
	return 0, 0, false
}

// compare holds prove's verdicts and lengths against the twin's.
func compare(t *testing.T, name string, m *made) (broken int) {
	rep, err := Search(m.Layout, Options{})
	require.NoError(t, err, name)
	w := newTwin(&m.Layout)
	nodes := w.explore(t)
	slot := int64(m.Config.SlotTicks)
	for rule, all := range rulesOf(&m.Config) {
		r := &rep.Results[rule]
		if r.Outcome == NotAsked {
			continue
		}
		w, nodes := w, nodes
		if rule == CanArm { // not by noise
			quiet := m.Layout.quiet()
			w = newTwin(&quiet)
			nodes = w.explore(t)
		}
		found, best, bestTime := false, int32(0), int32(0)
		for _, p := range all {
			moves, time, bad := w.shortest(nodes, p)
			if bad && (!found || moves < best || moves == best && time < bestTime) {
				found, best, bestTime = true, moves, time
			}
			if found && rule == LossStopsMotors {
				break // the second is for where no way breaks the first
			}
		}
		if rule == CanArm {
			assert.Equal(t, found, r.Outcome == Holds, "%s: can-arm", name)
			continue
		}
		is := r.Outcome == Broken || r.Outcome == WithIt
		if !assert.Equal(t, found, is, "%s: %s: twin %v (%d movements, %d slots), prove %s %s", name, rule.Code(), found, best, bestTime, r.Outcome.Code(), r.Cause.Code()) || !is {
			continue
		}
		broken++
		assert.EqualValues(t, best, r.Way.Movements, "%s: %s: movements", name, rule.Code())
		assert.EqualValues(t, bestTime, r.Way.Ms/slot+1, "%s: %s: slots", name, rule.Code())
	}
	return broken
}

// The limits are 3 or 4 slots: sticks have so many places that a second allows no more.
func TestTwin(t *testing.T) {
	tinySwitch := func() *made { return bySwitch().short(4, 4, 5, 3, 3, 0) }
	tinySticks := func() *made { return bySticks().short(3, 3, 3, 3, 3, 0) }
	broken := 0
	for _, c := range []struct {
		name string
		l    *made
		long bool
	}{
		{"switch", tinySwitch(), false},
		{"switch, sinking", tinySwitch().short(3, 4, 3, 3, 3, 5), false},
		{"switch, second switch", tinySwitch().second().positions("second", 988, 2012).positions("arm", 988, 2012), false},
		{"switch, only self-levelling", tinySwitch().short(3, 3, 3, 3, 3, 0).levelOnly(), false},
		{"switch, no waiting", tinySwitch().short(3, 0, 0, 3, 3, 3), false},
		{"hold by switch", tinySwitch().hold(), false},
		{"preset on", tinySwitch().stored(988, 1500, 2012), false},
		{"preset off", tinySwitch().stored(988, 1500, 988), false},
		{"preset without a pulse", tinySwitch().stored(988, 1500, 0), false},
		{"roll beyond pulses", tinySwitch().short(4, 3, 3, 3, 3, 0).travel("roll", 988, 2190), false},
		{"arm beyond pulses", tinySwitch().short(3, 3, 3, 3, 3, 0).positions("arm", 988, 2012, 2190), false},
		{"springs back", tinySwitch().with(func(m *made) { m.positions("arm", 988, 2012); m.control("arm").Momentary = true }), false},
		{"low mark high", tinySwitch().with(func(m *made) { m.Config.Arming.LowThrottle = pulse.Micros(1100) }), false},
		{"sticks", tinySticks().without("mode").with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), false},
		{"sticks, sinking", tinySticks().short(3, 3, 3, 3, 3, 3).without("mode").with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), true},
		{"sticks, preset corner", tinySticks().stored(988, 2012, 0).with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel; m.without("mode") }), true},
		{"sticks, hold, short yaw", tinySticks().hold().travel("yaw", 1200, 2012).with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel; m.without("mode") }), true},
		{"noise over the arm edge", tinySwitch().positions("arm", 988, 1595, 2012).spread("arm", 10).without("mode").with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), false},
		{"noise under the arm edge", tinySwitch().positions("arm", 988, 1540, 2012).spread("arm", 10).without("mode").with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), false},
		{"a switch that springs back and trembles", tinySwitch().positions("arm", 1597, 2012).spread("arm", 1).with(func(m *made) { m.control("arm").Momentary = true }), false},
		{"a throttle that trembles at its low end", tinySwitch().short(3, 3, 3, 3, 3, 0).travel("throttle", 998, 2012).noise("throttle", 1).without("mode").with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), false},
		{"arm and mode on one switch", tinySwitch().levelOnly().same("mode", "arm", false), false},
		{"arm and mode on one switch, turned", tinySwitch().levelOnly().same("mode", "arm", true), false},
		{"repeated while it trembles", tinySwitch().hold().positions("arm", 988, 1599).spread("arm", 1).without("mode").with(func(m *made) { m.Config.Layout.Mode = layout.NoChannel }), false},
	} {
		if c.long && (testing.Short() || raceDetector) {
			continue
		}
		broken += compare(t, c.name, c.l)
	}
	assert.Greater(t, broken, 10, "the twin must have something broken to agree about")
}

// Radios and crafts at random, each with limits of 3 to 6 slots.
func TestTwinAtRandom(t *testing.T) {
	n := 24
	if testing.Short() || raceDetector {
		n = 4
	}
	r := rand.New(rand.NewPCG(7, 42))
	pick := func(us ...int) int { return us[r.IntN(len(us))] }
	limit := func() uint16 { return uint16(3 + r.IntN(4)) }
	for i := range n {
		m := bySwitch().short(limit(), limit(), limit(), 3, 3, uint16(pick(0, 0, 3, 5)))
		m.Config.SlotTicks = uint16(pick(4, 5, 7))
		m.positions("arm", pick(840, 988, 1400), pick(1500, 1600, 1700), pick(2012, 2190, 1650))
		m.positions("mode", pick(988, 1250), pick(1500, 2190))
		m.Config.Layout.ArmSpan = layout.Span{Low: pulse.Micros(pick(1300, 1600)), High: pulse.Micros(pick(1800, 2180))}
		m.control("arm").Momentary = r.IntN(4) == 0
		switch r.IntN(4) {
		case 0:
			m.hold()
		case 1:
			m.stored(pick(988, 1500), 1500, pick(988, 1700, 0))
		}
		if r.IntN(3) == 0 {
			m.levelOnly()
		}
		m.travel("throttle", pick(988, 988, 999, 1012), pick(2012, 2190))
		compare(t, "random "+string(rune('a'+i)), m)
	}
}
