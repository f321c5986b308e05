package prove

import (
	"slices"

	"propsoff/sim/prove/explore"
)

// Most steps lead to situations that are known already, and the hands are the lowest bits of a key: so what many movements of hands come
// to is looked up at a glance, and only those that lead to something new, or that must be judged at length, are gone through one by one.

// glances is what a search knows of where all hands lead, from each state of arming, by kind of link and layout.
type glances struct {
	// words is how many words of 64 bits hold a bit for each of what hands can hold; 0 where they are too many.
	words int
	// around is what hands can do next, by what they hold.
	around []around
	kinds  map[string]int32
	pages  [][]*glancePage // by kind and state packed: where in bunches a glance begins, 0 where it is not known yet
	// bunches are: how many there are, and how many more where the craft is nudged; then for each a way (goes), with transmits beside it,
	// and the bits of all hands that go it.
	bunches []uint64
	goes    []goes // room for the ways from one state
	fresh   [1 << (explore.LineBits - 6)]uint64
}

// newGlances makes room for it, where what hands can hold fits what a walk can look at at once.
func newGlances(h *hands) glances {
	g := glances{kinds: map[string]int32{}, bunches: make([]uint64, 1)}
	if h.bits+2 <= explore.LineBits {
		g.words = max(1, 1<<(h.bits+2)>>6)
		g.around = make([]around, 1<<(h.bits+2))
	}
	return g
}

type glancePage [1 << pageBits]uint32

const (
	transmits   = uint64(1) << 32
	mostBunches = 1 << 24 // 128 MB
)

// around is what hands can do next with the craft's power on: nothing, or a turn.
type around struct {
	turns []turn
	// slots is how many slots of the bench are gone through for all.
	slots int
	// free and costs have a bit for all that hands can hold next.
	free, costs []uint64
}

// turn is one movement of hands.
type turn struct {
	to    uint32
	move  move
	costs bool
}

// kindOf says which kind of link and layout a row is of, by what arming reads for each of what hands can send; below 0 where a glance does
// not do.
func (x *space) kindOf(r *row) int32 {
	if r.kind != 0 {
		return r.kind
	}
	name := make([]byte, 0, 4*len(r.brief))
	add := func(hands uint32) *brief {
		b := &r.brief[x.halves.sends(hands)]
		if b.input == 0 {
			x.brief(b, hands)
		}
		name = append(name, byte(b.input), byte(b.input>>8), byte(b.input>>16))
		return b
	}
	r.silent = *add(0)
	for i, combo := range x.h.combos {
		b := add(combo | x.h.radioOn)
		if i == 0 {
			r.heard = *b
		} else if b.key != r.heard.key {
			r.kind = -1
			return r.kind
		}
	}
	g := &x.glances
	n, known := g.kinds[string(name)]
	if !known {
		n = int32(len(g.kinds)) + 1
		g.kinds[string(name)] = n
		g.pages = append(g.pages, make([]*glancePage, len(x.ahead.pages)))
	}
	r.kind = n
	return n
}

// glance gives where the bunches of the present situation begin; 0 where a glance does not do.
func (x *space) glance() uint32 {
	g := &x.glances
	if x.marks == nil || !x.kept || x.long || x.check || g.words == 0 {
		return 0
	}
	kind := x.kindOf(x.halves.row)
	if kind < 0 {
		return 0
	}
	state := x.key & (1<<x.c.poweredAt - 1) >> x.c.flagAt
	p := &g.pages[kind-1][state>>pageBits]
	if *p == nil {
		*p = new(glancePage)
	}
	at := &(*p)[state&(1<<pageBits-1)]
	if *at == 0 && len(g.bunches) < mostBunches {
		*at = x.bunch()
	}
	return *at
}

// bunch puts together all hands that go the same way from here, and gives where that is kept; 0 where there is no room. First come those of
// hands that leave the craft alone, then those of hands that nudge it, if it makes any difference.
func (x *space) bunch() uint32 {
	g := &x.glances
	at := len(g.bunches)
	g.bunches = append(g.bunches, 0)
	// Arming is asked once for each of what it reads here, and then no more: nobody else needs to keep that.
	x.ahead.widen()
	g.goes = slices.Grow(g.goes[:0], int(4*x.ahead.wide))[:4*x.ahead.wide]
	clear(g.goes)
	x.goes = g.goes
	defer func() { x.goes = nil }()
	if !x.gatherWays(false) {
		g.bunches = g.bunches[:at]
		return 0
	}
	still := len(g.bunches)
	if !x.gatherWays(true) {
		g.bunches = g.bunches[:at]
		return 0
	}
	wide := 1 + g.words
	n, more := (still-at-1)/wide, (len(g.bunches)-still)/wide
	if slices.Equal(g.bunches[at+1:still], g.bunches[still:]) {
		g.bunches, more = g.bunches[:still], 0
	}
	g.bunches[at] = uint64(n) | uint64(more)<<32
	return uint32(at)
}

// gatherWays adds the bunches of all hands that nudge the craft or do not, and reports whether it could.
func (x *space) gatherWays(nudged bool) bool {
	g := &x.glances
	at, wide := len(g.bunches), 1+g.words
	for _, combo := range x.h.combos {
		for _, on := range [...]uint32{0, x.h.radioOn} {
			for _, cable := range [...]uint32{0, x.h.cable} {
				hands := combo | on | cable
				e := x.leads(&x.halves.row.brief[x.halves.sends(hands)], hands, nudged)
				if e == 0 {
					return false
				}
				way := uint64(e)
				if on != 0 {
					way |= transmits
				}
				i := at
				for ; i < len(g.bunches) && g.bunches[i] != way; i += wide {
				}
				if i == len(g.bunches) {
					g.bunches = append(append(g.bunches, way), make([]uint64, g.words)...)
				}
				g.bunches[i+1+int(hands>>6)] |= 1 << (hands & 63)
			}
		}
	}
	return true
}

// heading is where a way leads: to this, and the bits of the hands; sound reports whether it is one that plainly breaks no rule.
func (x *space) heading(way uint64) (to uint64, sound bool) {
	r, e := x.halves.row, goes(way)
	b := &r.silent
	if way&transmits != 0 {
		b = &r.heard
	}
	to = b.key | uint64(e.state())<<x.c.flagAt | 1<<x.c.poweredAt
	return to, e&plainly != 0 && (e&silence == 0 || x.soundly(b, e))
}

// fresh gives the bits of what hands can hold next, as far as that must be gone through one by one.
func (x *space) fresh(all []uint64, a *around) []uint64 {
	g := &x.glances
	fresh := g.fresh[:g.words]
	clear(fresh)
	wide := 1 + g.words
	for ; len(all) > 0; all = all[wide:] {
		hands := all[1:wide]
		any := uint64(0)
		for i, h := range hands {
			any |= h & (a.free[i] | a.costs[i])
		}
		if any == 0 {
			continue
		}
		var marks []uint64
		to, sound := x.heading(all[0])
		if sound {
			marks = x.marks.At(to &^ 63)
		}
		for i, h := range hands {
			settled, known := uint64(0), uint64(0)
			if marks != nil {
				settled = marks[2*i] >> (to & 63)
				known = settled | marks[2*i+1]>>(to&63)
			}
			fresh[i] |= h & (a.free[i]&^settled | a.costs[i]&^known)
		}
	}
	return fresh
}

// one goes through one slot after which the hands hold this, by the way that stands in one of all bunches.
func (x *space) one(all []uint64, hands uint32, nudged bool, m move, costs bool) {
	wide := 1 + x.glances.words
	for at := 1 + int(hands>>6); all[at]>>(hands&63)&1 == 0; {
		all = all[wide:]
	}
	to, sound := x.heading(all[0])
	if sound {
		x.add(to|uint64(hands), costs)
		return
	}
	x.to.hands, x.nudged, x.first, x.plain = hands, nudged, false, false
	x.judgeAtLength(m, costs)
}

// atAGlance goes through all that hands can do next, and last nudges the craft, if asked to; it reports whether a glance does.
func (x *space) atAGlance(hands uint32, nudge bool) bool {
	at := x.glance()
	if at == 0 {
		return false
	}
	g, a := &x.glances, x.aroundOf(hands)
	n := g.bunches[at]
	still := g.bunches[at+1:][:int(uint32(n))*(1+g.words)]
	fresh, before, edges := x.fresh(still, a), len(x.out), 1+len(a.turns)
	is := func(hands uint32) bool { return fresh[hands>>6]>>(hands&63)&1 == 1 }
	if is(hands) {
		x.one(still, hands, false, move{Wait, -1}, false)
	}
	for i := range a.turns {
		if t := &a.turns[i]; is(t.to) {
			x.one(still, t.to, false, t.move, t.costs)
		}
	}
	x.steps += uint64(a.slots)
	if nudge {
		nudged := still
		if n>>32 != 0 {
			nudged = g.bunches[int(at)+1+len(still):][:int(n>>32)*(1+g.words)]
		}
		x.one(nudged, hands, true, move{Nudge, -1}, true)
		x.steps++
		edges++
	}
	x.marks.LeftOut(edges - (len(x.out) - before))
	return true
}

// aroundOf is what hands can do next that hold this.
func (x *space) aroundOf(hands uint32) *around {
	g := &x.glances
	a := &g.around[hands]
	if a.free != nil {
		return a
	}
	add := func(to uint32, m move, costs bool) { a.turns = append(a.turns, turn{to, m, costs}) }
	x.controls(hands, add)
	controls := len(a.turns)
	x.switches(hands, add)
	if a.slots = 1 + len(a.turns); hands&x.h.radioOn == 0 {
		a.slots -= controls // what the bench does when nothing moves serves for them all
	}
	a.free, a.costs = make([]uint64, g.words), make([]uint64, g.words)
	a.free[hands>>6] |= 1 << (hands & 63)
	for _, t := range a.turns {
		if t.costs {
			a.costs[t.to>>6] |= 1 << (t.to & 63)
		} else {
			a.free[t.to>>6] |= 1 << (t.to & 63)
		}
	}
	return a
}
