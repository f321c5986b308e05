package prove

import "propsoff/sim/prove/explore"

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
	// bunches are: how many there are; then for each a way (goes), with transmits beside it, and the bits of all hands that go it.
	bunches []uint64
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
	if x.marks == nil || x.goes == nil || x.long || x.check || g.words == 0 {
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

// bunch puts together all hands that go the same way from here, and gives where that is kept; 0 where there is no room.
func (x *space) bunch() uint32 {
	g := &x.glances
	at, wide := len(g.bunches), 1+g.words
	g.bunches = append(g.bunches, 0)
	for _, combo := range x.h.combos {
		for _, on := range [...]uint32{0, x.h.radioOn} {
			for _, cable := range [...]uint32{0, x.h.cable} {
				hands := combo | on | cable
				e := x.leads(&x.halves.row.brief[x.halves.sends(hands)], hands, false)
				if e == 0 {
					g.bunches = g.bunches[:at]
					return 0
				}
				way := uint64(e)
				if on != 0 {
					way |= transmits
				}
				i := at + 1
				for ; i < len(g.bunches) && g.bunches[i] != way; i += wide {
				}
				if i == len(g.bunches) {
					g.bunches[at]++
					g.bunches = append(append(g.bunches, way), make([]uint64, g.words)...)
				}
				g.bunches[i+1+int(hands>>6)] |= 1 << (hands & 63)
			}
		}
	}
	return uint32(at)
}

// fresh gives the bits of what hands can hold next, as far as that must be gone through one by one.
func (x *space) fresh(at uint32, a *around) []uint64 {
	g, r := &x.glances, x.halves.row
	fresh := g.fresh[:g.words]
	clear(fresh)
	wide := 1 + g.words
	all := g.bunches[at+1:][:int(g.bunches[at])*wide]
	for ; len(all) > 0; all = all[wide:] {
		way, hands := all[0], all[1:wide]
		any := uint64(0)
		for i, h := range hands {
			any |= h & (a.free[i] | a.costs[i])
		}
		if any == 0 {
			continue
		}
		b := &r.silent
		if way&transmits != 0 {
			b = &r.heard
		}
		var marks []uint64
		e := goes(way)
		to := b.key | uint64(e.state())<<x.c.flagAt | 1<<x.c.poweredAt
		if e&plainly != 0 && (e&silence == 0 || x.soundly(b, e)) {
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

// handsNext goes through all that hands can do next, at a glance, and reports whether that does.
func (x *space) handsNext(hands uint32) bool {
	at := x.glance()
	if at == 0 {
		return false
	}
	a := x.aroundOf(hands)
	fresh := x.fresh(at, a)
	is := func(hands uint32) bool { return fresh[hands>>6]>>(hands&63)&1 == 1 }
	steps, before := x.steps, len(x.out)
	if is(hands) {
		x.slot(hands, false, false)
		x.judge(move{Wait, -1}, false)
	}
	for i := range a.turns {
		if t := &a.turns[i]; is(t.to) {
			x.slot(t.to, false, false)
			x.judge(t.move, t.costs)
		}
	}
	x.steps = steps + uint64(a.slots)
	x.marks.LeftOut(1 + len(a.turns) - (len(x.out) - before))
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
