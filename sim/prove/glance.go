package prove

import (
	"slices"

	"propsoff.example/sim/prove/explore"
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
	pages  [][]*glancePage // by kind and state packed: the number of the glance's bunches, 0 where it is not known yet
	// bunches are: how many there are, and how many more where the craft is nudged; then for each a way (goes), with transmits beside it,
	// and the bits of all hands that go it.
	bunches shelves
	made    []uint64 // the bunches that are being put together
	fresh   [1 << (explore.LineBits - 6)]uint64
	// base is what all situations have in common that look out on the same, in which nothing differs but what the hands hold; noBase
	// where the last one did not look out. still and nudged are its bunches, and heads where they lead, as far as somebody asked.
	base          uint64
	still, nudged []uint64
	heads         []heading
}

// newGlances makes room for it, where what hands can hold fits what a walk can look at at once.
func newGlances(h *hands) glances {
	g := glances{kinds: map[string]int32{}, base: noBase}
	if h.bits+2 <= explore.LineBits {
		g.words = max(1, 1<<(h.bits+2)>>6)
		g.around = make([]around, 1<<(h.bits+2))
	}
	return g
}

type glancePage [1 << glanceBits]uint32

const (
	glanceBits  = 6
	transmits   = uint64(1) << 32
	mostBunches = 1 << 24 // 128 MB
	noBase      = ^uint64(0)
)

// heading is where a bunch leads.
type heading struct {
	asked, sound bool
	to           uint64
	line         uint32 // as explore.Marks has it, 0 where nothing is known yet
}

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
		g.pages = append(g.pages, make([]*glancePage, len(x.ahead.pages)<<(pageBits-glanceBits)))
	}
	r.kind = n
	return n
}

// lookOut gets ready to look up where all hands lead from the present situation, and reports whether that does.
func (x *space) lookOut() bool {
	g := &x.glances
	base := x.key >> x.c.laneAt
	if base == g.base && !x.check {
		return true
	}
	if g.base = noBase; x.marks == nil || !x.kept || x.long || x.check || g.words == 0 {
		return false
	} else if kind := x.kindOf(x.halves.row); kind < 0 {
		return false
	} else if at := x.glance(kind); at == 0 {
		return false
	} else {
		g.lookOn(base, g.bunches.from(at))
	}
	return true
}

// lookOn has all situations with this base look out on these bunches.
func (g *glances) lookOn(base uint64, all []uint64) {
	g.base = base
	n, more, wide := uint32(all[0]), uint32(all[0]>>32), uint32(1+g.words)
	g.still = all[1:][:n*wide]
	if g.nudged = g.still; more != 0 {
		g.nudged = all[1+n*wide:][:more*wide]
	}
	g.heads = slices.Grow(g.heads[:0], int(n+more))[:n+more]
	for i := range g.heads {
		g.heads[i].asked = false
	}
}

// glance gives the number of the bunches of the present situation, whose link and layout are of this kind; 0 where there is no room.
func (x *space) glance(kind int32) uint32 {
	g := &x.glances
	state := x.key & (1<<x.c.poweredAt - 1) >> x.c.flagAt
	p := &g.pages[kind-1][state>>glanceBits]
	if *p == nil {
		*p = new(glancePage)
	}
	at := &(*p)[state&(1<<glanceBits-1)]
	if *at == 0 {
		*at = x.bunch()
	}
	return *at
}

// bunch puts together all hands that go the same way from here, and gives the number under which that is kept; 0 where there is no room. First
// come those of hands that leave the craft alone, then those of hands that nudge it, if it makes any difference.
func (x *space) bunch() uint32 {
	g := &x.glances
	g.made = append(g.made[:0], 0)
	// Arming is asked once for each of what it reads here, and then no more: nobody else needs to keep that.
	x.passing()
	defer func() { x.goes = nil }()
	if !x.gatherWays(false) {
		return 0
	}
	still := len(g.made)
	if !x.gatherWays(true) {
		return 0
	}
	wide := 1 + g.words
	n, more := (still-1)/wide, (len(g.made)-still)/wide
	if slices.Equal(g.made[1:still], g.made[still:]) {
		g.made, more = g.made[:still], 0
	}
	g.made[0] = uint64(n) | uint64(more)<<32
	return g.bunches.keep(g.made)
}

// gatherWays adds the bunches of all hands that nudge the craft or do not, and reports whether it could.
func (x *space) gatherWays(nudged bool) bool {
	g := &x.glances
	at, wide := len(g.made), 1+g.words
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
				for ; i < len(g.made) && g.made[i] != way; i += wide {
				}
				if i == len(g.made) {
					g.made = append(g.made, way)
					for range g.words {
						g.made = append(g.made, 0)
					}
				}
				g.made[i+1+int(hands>>6)] |= 1 << (hands & 63)
			}
		}
	}
	return true
}

// heading is where a way leads, but for the bits of the hands; it is sound where it plainly breaks no rule.
func (x *space) heading(h *heading, way uint64) *heading {
	if !h.asked {
		r, e := x.halves.row, goes(way)
		b := &r.silent
		if way&transmits != 0 {
			b = &r.heard
		}
		*h = heading{asked: true, to: b.key | uint64(e.state())<<x.c.flagAt | 1<<x.c.poweredAt, sound: e&plainly != 0 && (e&silence == 0 || x.soundly(b, e))}
	}
	if h.sound && h.line == 0 {
		h.line = x.marks.Line(h.to)
	}
	return h
}

// unknown gives the bits of what hands can hold next, as far as that must be gone through one by one, and whether there are any.
func (x *space) unknown(a *around) (fresh []uint64, some bool) {
	g := &x.glances
	fresh = g.fresh[:g.words]
	clear(fresh)
	left := uint64(0)
	all, wide := g.still, 1+g.words
	for n := 0; len(all) >= wide; n++ {
		hands := all[1:wide]
		any := uint64(0)
		for i, h := range hands {
			any |= h & (a.free[i] | a.costs[i])
		}
		if any != 0 {
			to := x.heading(&g.heads[n], all[0])
			marks := x.marks.In(to.line, to.to&^63)
			for i, h := range hands {
				settled, known := uint64(0), uint64(0)
				if marks != nil {
					settled = marks[2*i] >> (to.to & 63)
					known = settled | marks[2*i+1]>>(to.to&63)
				}
				h &= a.free[i]&^settled | a.costs[i]&^known
				fresh[i] |= h
				left |= h
			}
		}
		all = all[wide:]
	}
	return fresh, left != 0
}

// way finds the bunch of these hands among all: its number, and all from it on.
func (g *glances) way(all []uint64, hands uint32) (int, []uint64) {
	at, n := 1+int(hands>>6), 0
	for ; all[at]>>(hands&63)&1 == 0; n++ {
		at += 1 + g.words
	}
	return n, all[n*(1+g.words):]
}

// nudgeAtAGlance nudges the craft. Where that makes no difference it leads where waiting has led already.
func (x *space) nudgeAtAGlance(hands uint32) {
	g := &x.glances
	same := len(g.nudged) == len(g.still) && &g.nudged[0] == &g.still[0]
	heads := g.heads[len(g.heads)-len(g.nudged)/(1+g.words):]
	n, all := g.way(g.nudged, hands)
	x.steps++
	if to := x.heading(&heads[n], all[0]); !to.sound || !same && !x.leadsNowhere(to.to|uint64(hands), to.line) {
		x.one(all, heads[n:], hands, move{Nudge, -1}, true)
	}
}

// leadsNowhere reports whether a step that costs a move leads to nothing new.
func (x *space) leadsNowhere(key uint64, line uint32) bool {
	m := x.marks.In(line, key)
	return m != nil && (m[0]|m[1])>>(key&63)&1 == 1
}

// one goes through one slot after which the hands hold this, by the way that stands in one of all bunches, which lead where heads say.
func (x *space) one(all []uint64, heads []heading, hands uint32, m move, costs bool) {
	n, all := x.glances.way(all, hands)
	to := x.heading(&heads[n], all[0])
	if to.sound {
		x.out = append(x.out, explore.Edge{To: to.to | uint64(hands), Costs: costs, Line: to.line})
		return
	}
	x.to.hands, x.nudged, x.first, x.plain = hands, m.kind == Nudge, false, false
	x.judgeAtLength(m, costs)
}

// atAGlance goes through all that hands can do next, and last nudges the craft, if asked to; it reports whether a glance does.
func (x *space) atAGlance(hands uint32, nudge bool) bool {
	if !x.lookOut() {
		return false
	}
	g, a := &x.glances, x.aroundOf(hands)
	fresh, any := x.unknown(a)
	before, edges := len(x.out), 1+len(a.turns)
	is := func(hands uint32) bool { return fresh[hands>>6]>>(hands&63)&1 == 1 }
	if is(hands) {
		x.one(g.still, g.heads, hands, move{Wait, -1}, false)
	}
	if any {
		for i := range a.turns {
			if t := &a.turns[i]; is(t.to) {
				x.one(g.still, g.heads, t.to, t.move, t.costs)
			}
		}
	}
	x.steps += uint64(a.slots)
	if nudge {
		x.nudgeAtAGlance(hands)
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
