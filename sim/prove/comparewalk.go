package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove/explore"
)

// side is one of two crafts at one moment.
type side struct {
	slot   sim.SlotState
	motors motors
	// moved: it was moved since its last slot.
	moved bool
}

// pair is both crafts at once, each by its number among all that were met, and which of the due moments comes next.
type pair struct {
	of  [2]uint32
	due uint8
}

// due is a moment at which a slot of either craft falls, or of both: so many ms after the power-up that both had.
type due struct {
	ms    int64
	steps [2]bool
}

// dues are the moments of one round of both frame periods, after which it begins again.
func dues(cfg [2]*sim.Config) (all []due) {
	a, b := int64(cfg[0].SlotTicks), int64(cfg[1].SlotTicks)
	for ms := int64(0); ms == 0 || ms%a != 0 || ms%b != 0; ms++ {
		if d := (due{ms, [2]bool{ms%a == 0, ms%b == 0}}); d.steps[0] || d.steps[1] {
			all = append(all, d)
		}
	}
	return all
}

// wait is for how many ms nothing is due after a moment.
func wait(all []due, n int, cfg [2]*sim.Config) int64 {
	if n+1 < len(all) {
		return all[n+1].ms - all[n].ms
	}
	return min(int64(cfg[0].SlotTicks), int64(cfg[1].SlotTicks)) // both periods end here
}

// pairSpace is two layouts as one problem to explore. A situation is what the hands hold and a pair. What is in a pair is exact, and it is kept
// which pair each leads to, so most steps are looked up.
type pairSpace struct {
	h     *pairHands
	dues  []due
	sides [2][]side
	ids   [2]map[side]uint32
	pairs []pair // the first is a pair without power
	known map[pair]uint32
	// rows has for each pair where it leads, by what the hands do: a number of a pair and 1 more, toDifference, or 0 where nobody has asked.
	rows [][]uint32
	// kept is how many of these numbers there are.
	kept int64
	// found is the first step on the shortest way to a difference; none is looked for that is not shorter than limit.
	found     *broken
	limit     *explore.Cost
	mostBytes int64
	used      func() int64
	full      bool
	steps     uint64
	expanded  uint64

	place uint32
	at    explore.Cost
	key   uint64
	out   []explore.Edge
	moves []move
	tell  bool
	stop  func()
	log   happening.Log
}

const (
	toDifference = ^uint32(0)
	// mostKeptSteps bounds the steps that are kept, at 4 bytes each (ours): beyond that they are made again.
	mostKeptSteps = 128 << 20
)

func newPairSpace(h *pairHands) *pairSpace {
	x := &pairSpace{h: h, known: map[pair]uint32{}, pairs: make([]pair, 1), rows: make([][]uint32, 1)}
	x.dues = dues(h.cfg)
	for i, cfg := range h.cfg {
		s := side{slot: cfg.PowerUp()}
		h.fold(i, &s)
		x.sides[i], x.ids[i] = []side{s}, map[side]uint32{s: 0}
	}
	return x
}

// fold makes equal what this walk takes for one.
func (h *pairHands) fold(i int, s *side) {
	s.slot.Layout.Mode = h.means[i].foldMode(s.slot.Layout.Mode)
	if !h.lens.arming {
		s.slot.Arming = arming.State{} // link and layout read nothing of it
	}
}

// bytes is about what the pairs take.
func (x *pairSpace) bytes() int64 {
	const aSide, aPair = 250, 60 // with their place in a map
	return aSide*int64(len(x.sides[0])+len(x.sides[1])) + aPair*int64(len(x.pairs)) + 4*x.kept
}

// step runs one slot of one craft and says what a pilot can tell of it then.
func (x *pairSpace) step(i int, s *side, in *sim.SlotInput) Answer {
	x.log.N = 0
	in.Craft.Moved, s.moved = s.moved, false
	before := s.slot.Arming
	var facts sim.SlotFacts
	s.slot, facts = sim.StepSlot(x.h.cfg[i], s.slot, in, 0, &x.log)
	x.steps++
	if x.h.lens.motors {
		s.motors = s.motors.step(x.h.cfg[i], &before, &s.slot, &facts)
	}
	a := s.answer(&x.log)
	x.h.fold(i, s)
	return x.h.lens.of(a)
}

// answer is what a pilot can tell of a craft with power; the log is that of this very moment.
func (s *side) answer(log *happening.Log) Answer {
	a := Answer{Armed: s.slot.Arming.Armed, Sinking: s.slot.Arming.Sink > 0, Mode: s.slot.Layout.Mode, Motors: s.motors.turning}
	for _, h := range log.All() {
		if h.Code == happening.Refused {
			a.Refused = arming.Set(h.A)
		}
	}
	return a
}

// of leaves of an answer what the lens shows.
func (n lens) of(a Answer) Answer {
	if !n.modes {
		a.Mode = 0
	}
	if !n.arming {
		a.Armed, a.Sinking = false, false
	}
	if !n.refusals {
		a.Refused = 0
	}
	if !n.motors {
		a.Motors = false
	}
	return a
}

// next is where a pair leads when the hands do something, or toDifference. first: it gets power.
func (x *pairSpace) next(n uint32, hands uint32, nudged, first bool) uint32 {
	sent, on, cond := x.h.unpack(hands)
	total := uint32(len(x.h.frames[0]))
	if !on {
		sent = total // a silent radio's hands are not read
	}
	at := (sent*uint32(len(x.h.conditions))+cond)*2 + bit(nudged)
	row := x.rows[n]
	if row == nil && x.kept < mostKeptSteps {
		row = make([]uint32, (total+1)*uint32(len(x.h.conditions))*2)
		x.rows[n] = row
		x.kept += int64(len(row))
	}
	if row != nil && row[at] != 0 {
		return row[at]
	}
	to := x.run(n, hands, nudged, first)
	if row != nil {
		row[at] = to
	}
	return to
}

// run steps both crafts to the moment that is due.
func (x *pairSpace) run(n uint32, hands uint32, nudged, first bool) uint32 {
	sent, on, cond := x.h.unpack(hands)
	p := x.pairs[n]
	d := &x.dues[p.due]
	var answers [2]Answer
	for i := range p.of {
		s := x.sides[i][p.of[i]]
		s.moved = s.moved || nudged
		if d.steps[i] {
			in := sim.SlotInput{Transmitting: on, Craft: x.h.conditions[cond].craft, First: first}
			if on {
				in.Sent = x.h.frames[i][sent]
			}
			answers[i] = x.step(i, &s, &in)
		} else { // it does what it did
			x.log.N = 0
			answers[i] = x.h.lens.of(s.answer(&x.log))
		}
		id, known := x.ids[i][s]
		if !known {
			id = uint32(len(x.sides[i]))
			x.sides[i] = append(x.sides[i], s)
			x.ids[i][s] = id
		}
		p.of[i] = id
	}
	if answers[0] != answers[1] {
		return toDifference
	}
	p.due = uint8((int(p.due) + 1) % len(x.dues))
	to, known := x.known[p]
	if !known {
		to = uint32(len(x.pairs))
		x.pairs, x.rows = append(x.pairs, p), append(x.rows, nil)
		x.known[p] = to
	}
	return to + 1
}

// Expand makes every step that leads on from a situation.
func (x *pairSpace) Expand(key uint64, place uint32, at explore.Cost, out []explore.Edge) []explore.Edge {
	x.out, x.moves, x.place, x.at, x.key = out, x.moves[:0], place, at, key
	if !x.tell && x.enough() {
		x.stop()
		return out
	}
	hands, n := uint32(key&(1<<x.h.bits()-1)), uint32(key>>x.h.bits())
	sent, on, cond := x.h.unpack(hands)
	if n > 0 {
		x.lead(move{Wait, -1}, hands, false, false)
	} else {
		x.lead(move{PowerOn, -1}, hands, false, true)
	}
	for i := range x.h.controls {
		c := &x.h.controls[i]
		was := c.of(sent)
		goes := c.places[was].letGo
		if goes >= 0 {
			x.lead(move{LetGo, i}, x.h.pack(c.with(sent, goes), on, cond), false, false)
		}
		for p := range c.places {
			if p != was && p != goes && c.places[p].held {
				x.lead(move{Move, i}, x.h.pack(c.with(sent, p), on, cond), false, true)
			}
		}
	}
	x.lead(move{flip(on, RadioOn), -1}, x.h.pack(sent, !on, cond), false, true)
	for k := range x.h.conditions {
		if c := &x.h.conditions[k]; k > 0 && cond == 0 {
			x.lead(move{c.on, -1}, x.h.pack(sent, on, uint32(k)), c.moves, true)
		} else if k > 0 && uint32(k) == cond {
			x.lead(move{c.off, -1}, x.h.pack(sent, on, 0), c.moves, true)
		}
	}
	if n > 0 {
		if x.h.lens.arming {
			x.lead(move{Nudge, -1}, hands, true, true)
		}
		x.put(0, hands, move{PowerOff, -1}, true)
	}
	return x.out
}

// lead makes one step: a movement, and then the slots of the moment that is due. Without power a movement is all, but for getting it.
func (x *pairSpace) lead(m move, hands uint32, nudged, costs bool) {
	n := uint32(x.key >> x.h.bits())
	if n == 0 && m.kind != PowerOn {
		x.put(0, hands, m, costs)
		return
	}
	to := x.next(n, hands, nudged, m.kind == PowerOn)
	if to != toDifference {
		x.put(to-1, hands, m, costs)
		return
	}
	b := &broken{place: x.place, cost: explore.Cost{Moves: x.at.Moves, Time: x.at.Time + 1}, move: m, to: uint64(hands)}
	if costs {
		b.cost.Moves++
	}
	if x.found == nil && (x.limit == nil || b.cost.Less(*x.limit)) || x.found != nil && b.cost.Less(x.found.cost) {
		x.found = b
	}
}

// put adds a step.
func (x *pairSpace) put(n, hands uint32, m move, costs bool) {
	x.out = append(x.out, explore.Edge{To: uint64(n)<<x.h.bits() | uint64(hands), Costs: costs})
	if x.tell {
		x.moves = append(x.moves, m)
	}
}

// enough reports whether no shorter way can be left to find, or no memory.
func (x *pairSpace) enough() bool {
	if x.expanded++; x.expanded%1024 == 0 && x.used()+x.bytes() > x.mostBytes {
		x.full = true
		return true
	}
	best := x.limit
	if x.found != nil {
		best = &x.found.cost
	}
	return best != nil && !(explore.Cost{Moves: x.at.Moves, Time: x.at.Time + 1}).Less(*best)
}
