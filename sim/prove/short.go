package prove

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
)

// reads is all that a step in the short form asks of a half.
type reads struct {
	input                 arming.Input // Craft and First left out
	calm, sure, off, seen bool
	corner                corner
}

// ahead is where arming goes from each of its states with each of what it can read, asked of it once: in a whole search both are few,
// and every situation is a combination of a few of them.
type ahead struct {
	c      *codec
	number map[reads]uint32
	reads  []reads // by number; nobody has number 0
	// wide is how many numbers the ways from a state have room for.
	wide  uint32
	pages []*page // by state packed
	room  int     // how many more ways may be kept
	once  []goes  // room for ways that are not kept
}

const (
	pageBits = 10
	// goesBits is how many bits of a way the packed state may take. The longest times that a craft file may have need as many.
	goesBits = 28
	mostGoes = 1 << 25 // 128 MB
)

type page [1 << pageBits][]goes

// goes is the way from one state: the packed state after it, and the bits below. 0 stands for what was not asked yet. The ways from a state
// stand together by cable and nudge, then by number of what is read: so what hands come to lies close together.
type goes uint32

const (
	asked   goes = 1 << (goesBits + iota)
	plainly      // the step plainly contradicts no guess and breaks no rule
	silence      // if the count of slots without a radio grows as it should, too
)

func (g goes) state() uint32 { return uint32(g & (1<<goesBits - 1)) }

func newAhead(c *codec) ahead {
	a := ahead{c: c, number: map[reads]uint32{}, reads: make([]reads, 1), wide: 16, room: mostGoes}
	if n := c.poweredAt - c.flagAt; n <= goesBits {
		a.pages = make([]*page, 1<<max(n, pageBits)>>pageBits)
	}
	return a
}

// from gives the ways from the state of a key, nil where nothing is kept.
func (a *ahead) from(key uint64) []goes {
	state := key & (1<<a.c.poweredAt - 1) >> a.c.flagAt
	if a.pages == nil {
		return nil
	}
	p := &a.pages[state>>pageBits]
	if *p == nil {
		*p = new(page)
	}
	all := &(*p)[state&(1<<pageBits-1)]
	if n := int(4 * a.wide); len(*all) != n { // new, or too small by now
		if a.room -= n; a.room < 0 {
			a.pages = nil
			return nil
		}
		*all = make([]goes, n)
	}
	return *all
}

// passing makes room for ways from one state that nobody needs to keep.
func (x *space) passing() {
	a := &x.ahead
	a.widen()
	a.once = slices.Grow(a.once[:0], int(4*a.wide))[:4*a.wide]
	clear(a.once)
	x.goes = a.once
}

// widen makes room for all numbers that were given so far.
func (a *ahead) widen() {
	for a.wide < uint32(len(a.reads)) {
		a.wide *= 2
	}
}

// of is the number of what is read.
func (a *ahead) of(r *reads) uint32 {
	n, known := a.number[*r]
	if !known {
		n = uint32(len(a.reads))
		a.reads = append(a.reads, *r)
		a.number[*r] = n
	}
	return n
}

// checked is how many of the highest bits of a key, stirred, are 0 in a situation in which the bench itself is asked for whole slots: so
// the same situations are checked however the search goes about.
const checked = 9

// stand gets ready to go on from a situation, whose key is kept until someone asks for all of it. What link and layout make of the hands is
// kept for one with power.
func (x *space) stand(key uint64, powered bool) {
	x.key, x.loaded, x.goes = key, false, nil
	x.check = key*0x9e3779b97f4a7c15>>(64-checked) == 0
	if powered && x.short && key>>x.c.laneAt == x.glances.base { // but for the hands it stands as the last one did
		return
	}
	x.glances.base = noBase
	x.halves.turn(key, powered)
	if x.kept = false; !x.short {
		x.load()
		return
	}
	if x.halves.row != nil {
		x.kept = x.ahead.pages != nil
		l := &x.c.lanes[key>>x.c.laneAt&x.c.laneMask]
		x.missed = uint32(l.Gap)
		if !l.Phase.Up() {
			x.missed = x.silentFor(uint32(key >> x.c.flagAt))
		}
	}
}

// silentFor is lossCount for an armed craft whose link is lost, from the packed state of arming.
func (x *space) silentFor(state uint32) uint32 {
	return uint32(x.c.silence) - 1 + state>>(x.c.twoAt-x.c.flagAt)&uint32(x.c.twoMask)
}

// load unpacks the situation that is gone on from.
func (x *space) load() {
	if !x.loaded {
		x.c.unpack(x.key, &x.from)
		x.loaded = true
	}
}

// slot goes through one slot: in the short form where that is known to do, else it is left to judge.
func (x *space) slot(hands uint32, nudged, first bool) {
	x.to.hands, x.nudged, x.first, x.plain = hands, nudged, first, false
	x.steps++
	if x.kept && !first {
		b := &x.halves.row.brief[x.halves.sends(hands)]
		e := x.leads(b, hands, nudged)
		x.plain = e&plainly != 0 && (e&silence == 0 || x.soundly(b, e))
		x.reached = uint64(hands) | b.key | uint64(e.state())<<x.c.flagAt | 1<<x.c.poweredAt
	}
	if x.check {
		x.whole()
	}
}

// leads gives where arming goes from here with what the hands send, whose half is given in brief; 0 where that is not kept.
func (x *space) leads(b *brief, hands uint32, nudged bool) goes {
	if b.input == 0 {
		x.brief(b, hands)
	}
	if b.input >= x.ahead.wide {
		x.ahead.widen()
		x.goes = nil
	}
	if x.goes == nil && x.check {
		x.passing()
	} else if x.goes == nil {
		if x.goes = x.ahead.from(x.key); x.goes == nil {
			x.kept = false
			return 0
		}
	}
	e := &x.goes[(hands>>x.h.bits&2|bit(nudged))*x.ahead.wide+b.input]
	if *e == 0 {
		*e = x.ask(&x.ahead.reads[b.input], hands&x.h.cable != 0, nudged)
	}
	return *e
}

// soundly reports whether the count of slots without a radio grows as it should on this way of an armed craft, and is not yet too high.
func (x *space) soundly(b *brief, e goes) bool {
	now := b.gap
	if now == silent {
		now = x.silentFor(e.state())
	}
	return x.missed+1 < x.most[watchLoss] && now > x.missed
}

// brief fills in the brief form of a half.
func (x *space) brief(b *brief, hands uint32) {
	x.load()
	f := x.halves.of(hands, &x.from, x)
	b.key, b.gap = f.key, uint32(f.link.Gap)
	if !f.link.Phase.Up() {
		b.gap = silent
	}
	b.input = x.ahead.of(&reads{f.input, f.calm, f.sure, f.off, f.seen, f.corner})
}

// ask asks arming itself where it goes from here.
func (x *space) ask(r *reads, cable, nudged bool) goes {
	in := r.input
	in.Craft.Cable, in.Craft.Moved = cable, nudged
	var a arming.State
	x.c.unpackArming(x.key, &a)
	x.log.N = 0
	b := arming.Step(&x.cfg.Arming, a, &in, 0, &x.log)
	e := asked
	if state, fits := x.c.packArming(&b); fits && r.calm && x.quiet(&a, &b, r, nudged) {
		e |= plainly | goes(state>>x.c.flagAt)
		if b.Armed && !r.sure {
			e |= silence
		}
	}
	return e
}

// quiet reports whether a step plainly contradicts no guess and breaks no rule, but for the count of slots without a radio. It is the
// short form of what judge asks at length: where it says yes, judging at length would find nothing.
func (x *space) quiet(a, b *arming.State, r *reads, nudged bool) bool {
	refused := false
	for i := range x.log.N {
		switch x.log.Item[i].Code {
		case happening.Refused:
			refused = true
		case happening.Settled: // no rule asks for it
		default:
			return false
		}
	}
	switch {
	case a.Armed != b.Armed:
		return false
	case b.Still == 0:
	case nudged && a.Still < x.cfg.Arming.StillSlots:
		return false
	case a.Still != b.Still && b.Still != a.Still+1:
		return false
	case a.OffFirst && !b.OffFirst && !r.seen:
		return false
	}
	if x.cfg.Arming.By == arming.BySwitch {
		return x.visited(a.Inside, b.Inside, refused, r.seen) && (!b.Armed || !r.off)
	}
	if spent := x.cfg.Arming.ArmDwell + 2; !b.Armed {
		return (b.OffFirst || b.ArmDwell == 0) && x.visited(a.ArmDwell == spent, b.ArmDwell == spent, refused, r.seen || !r.input.Phase.Up())
	}
	switch r.corner {
	case inCorner: // every slot counts
		return b.DisarmDwell == a.DisarmDwell+1
	case nearCorner:
		return b.DisarmDwell == 0 || a.DisarmDwell > 0 && b.DisarmDwell <= a.DisarmDwell+1
	}
	return b.DisarmDwell == 0
}

// visited reports whether a visit of the arm control, had and spent before the step and after it, goes as it should: it begins with its one
// refusal, if the craft is not armed, and ends where the control is plainly seen off.
func (x *space) visited(before, after, refused, off bool) bool {
	switch {
	case before == after:
		return !refused
	case after:
		return refused
	}
	return off && !refused
}

// judge holds the step just made against every rule, and adds it.
func (x *space) judge(m move, costs bool) {
	if x.plain && !x.long {
		x.add(x.reached, costs)
		return
	}
	x.judgeAtLength(m, costs)
}

// make has arming make the step just gone through, from what was kept of link and layout.
func (x *space) make() {
	x.load()
	x.half = x.halves.of(x.to.hands, &x.from, x)
	in := x.half.input
	in.Craft.Cable, in.Craft.Moved, in.First = x.to.hands&x.h.cable != 0 || x.fine.refusing(), x.nudged, x.first
	x.log.N = 0
	x.to.slot.Arming = arming.Step(&x.cfg.Arming, x.from.slot.Arming, &in, 0, &x.log)
	x.to.slot.Link, x.to.slot.Layout = x.half.link, x.half.layout
}

// whole asks the bench for the whole slot, to compare.
func (x *space) whole() {
	x.make()
	hands := x.to.hands
	in := sim.SlotInput{Transmitting: hands&x.h.radioOn != 0, First: x.first}
	in.Craft.Cable, in.Craft.Moved = hands&x.h.cable != 0 || x.fine.refusing(), x.nudged
	if in.Transmitting {
		in.Sent = x.h.frames[hands&x.h.sentBits()]
	}
	s, facts := sim.StepSlot(x.cfg, x.from.slot, &in, 0, nil)
	s.Layout.Mode = x.h.foldMode(s.Layout.Mode)
	to := situation{slot: s, hands: hands, powered: true}
	if s != x.to.slot || facts != x.half.facts || x.plain && x.c.pack(&to) != x.reached {
		x.wrong = true
	}
}
