package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove/explore"
)

// space is a layout as a problem to explore: from each situation one human movement or none, then one slot of the bench.
type space struct {
	h   *hands
	c   *codec
	cfg *sim.Config
	// few says which movements are made, where not all are.
	few  only
	most [watchCount]uint32
	// watched is the watch by whose count situations are told apart, or noWatch.
	watched watch
	gathered
	// shared is nil as long as one worker does it all.
	shared *crew
	// goal, where set, ends the search: the first step for which it is true.
	goal   func(e *step) bool
	target *broken

	// fine, where set, tells gestures and menus apart too; wanted is the one rule that is looked for where wants is set. toggles: the
	// craft's condition comes and goes by itself.
	fine    *fine
	wanted  Rule
	wants   bool
	toggles bool

	place uint32
	at    explore.Cost
	// from and to are the ends of the step being made, from.slot and to.slot only once it is judged at length.
	from, to situation
	halves   halves
	half     *half // of the step being made, once it is judged at length
	ahead    ahead
	glances  glances
	// marks are what the walk knows; nil where nobody said.
	marks *explore.Marks
	log   happening.Log
	e     step
	// classes of each control, where asked for.
	classes [][]class
	// refusing and free are conditions of the craft, where asked for.
	refusing, free []arming.Conditions
	// key is that of from; loaded: from is unpacked. check: the bench itself is asked for each step from here.
	key           uint64
	loaded, check bool
	// kept: where arming goes from here is kept; goes has it, once somebody asked; missed is how many slots an armed craft has had no radio for.
	kept   bool
	goes   []goes
	missed uint32
	// nudged and first say what else there was in the step being made.
	nudged, first bool
	// short: steps may be judged in the short form. plain: the last one was, and came to reached.
	short, plain bool
	reached      uint64
	// long: no step is judged in the short form, and wrong is set where that would have hidden something. said: judging the last step
	// at length found something.
	long, said bool
	out        []explore.Edge
	moves      []move // what each of out is, where asked for
	tell       bool
	stop       func()
}

// only says which movements a search makes.
type only struct {
	// some: nothing moves but the pack going in and the controls of channels, and the radio's own switch where radio is set.
	some     bool
	channels uint16
	radio    bool
}

// move is what was done in one step.
type move struct {
	kind  Kind
	digit int
}

// broken is a step that breaks a rule.
type broken struct {
	cause Cause
	place uint32
	cost  explore.Cost // after the step
	move  move
	to    uint64
	// happens is what the claim names.
	happens happening.Code
	// digit is that of the control at fault, −1 for none.
	digit int
}

func newSpace(h *hands, w watch) (*space, bool) {
	most := uint32(0)
	if w != noWatch {
		most = w.most(h.cfg)
	}
	c, fits := newCodec(h, most)
	return spaceOf(c, w), fits
}

// spaceOf is a space whose keys a codec makes.
func spaceOf(c *codec, w watch) *space {
	x := &space{h: c.h, cfg: c.h.cfg, c: c, watched: w, halves: newHalves(c), ahead: newAhead(c), glances: newGlances(c.h)}
	for i := range x.most {
		x.most[i] = watch(i).most(x.cfg)
	}
	x.e = step{cfg: x.cfg, from: &x.from, to: &x.to, log: &x.log}
	return x
}

// Expand makes every step that leads on from a situation.
func (x *space) Expand(key uint64, place uint32, at explore.Cost, out []explore.Edge) []explore.Edge {
	x.out, x.moves, x.place, x.at = out, x.moves[:0], place, at
	x.short = x.watched == noWatch && x.goal == nil && x.fine == nil && !x.tell
	key = x.goneOn(key)
	hands, powered := uint32(key&x.c.handMask), key>>x.c.poweredAt&1 == 1
	x.from.hands, x.from.powered, x.to.powered, x.to.age = hands, powered, powered, 0
	if !x.tell && x.enough() {
		x.stop()
		return out
	}
	x.stand(key, powered)
	if powered {
		x.powered(hands)
	} else {
		x.unpowered(hands)
	}
	return x.out
}

// powered lets a slot go by, in which nothing moves or one thing does.
func (x *space) powered(hands uint32) {
	x.nextOf(hands, !x.few.some && !x.toggles)
	if x.toggles { // all once more, with a condition of the craft that came or went in the same slot: a menu that opens or closes
		x.nextOf(hands^x.h.cable, true)
		if !x.few.some {
			x.nudge(hands)
		}
	}
	if x.few.some {
	} else if off := uint64(hands); x.short && x.marks != nil && x.leadsNowhere(off, x.marks.Line(off)) {
		x.marks.LeftOut(1)
	} else {
		x.put(situation{hands: hands}, move{PowerOff, -1}, true)
	}
}

// nextOf goes through all that hands can do next that hold this, and last nudges the craft, if asked to.
func (x *space) nextOf(hands uint32, nudge bool) {
	if !x.atAGlance(hands, nudge) {
		x.oneByOne(hands)
		if nudge {
			x.nudge(hands)
		}
	}
}

func (x *space) nudge(hands uint32) {
	x.slot(hands, true, false)
	x.judge(move{Nudge, -1}, true)
}

// oneByOne goes through all that hands can do next. A silent radio's hands are not read: what the bench did when nothing moved serves
// for them all.
func (x *space) oneByOne(hands uint32) {
	still, on := len(x.out), hands&x.h.radioOn != 0
	x.slot(hands, false, false)
	x.judge(move{Wait, -1}, false)
	x.controls(hands, func(to uint32, m move, costs bool) {
		if on {
			x.slot(to, false, false)
		} else if x.to.hands = to; x.plain && !x.long {
			x.add(x.out[still].To&^x.c.handMask|uint64(to), costs)
			return
		}
		x.judge(m, costs)
	})
	x.switches(hands, func(to uint32, m move, costs bool) {
		x.slot(to, false, false)
		x.judge(m, costs)
	})
}

// flip is the movement that turns on what was off, or its opposite where it was on.
func flip(was bool, on Kind) Kind {
	switch {
	case !was:
		return on
	case on == RadioOn:
		return RadioOff
	case on == CableIn:
		return CableOut
	}
	return PowerOff
}

// controls moves each control from where it stands to every other place. A hand flicks a switch past its middle within a slot, so every
// place is one movement away from every other; resting on the way is two movements. What springs back costs no movement.
func (x *space) controls(hands uint32, each func(to uint32, m move, costs bool)) {
	for i := range x.h.digits {
		d := &x.h.digits[i]
		if x.few.some && x.few.channels&d.carried == 0 {
			continue
		}
		was := d.of(hands)
		for n := range d.classes {
			if n != was {
				k, costs := d.how(was, n)
				each(d.with(hands, n), move{k, i}, costs)
			}
		}
	}
}

// switches moves the radio's own switch and the craft's cable.
func (x *space) switches(hands uint32, each func(to uint32, m move, costs bool)) {
	if !x.few.some || x.few.radio {
		each(hands^x.h.radioOn, move{flip(hands&x.h.radioOn != 0, RadioOn), -1}, true)
	}
	if !x.few.some {
		each(hands^x.h.cable, move{flip(hands&x.h.cable != 0, CableIn), -1}, true)
	}
}

// unpowered moves whatever can be moved while the craft has no power; time then changes nothing.
func (x *space) unpowered(hands uint32) {
	x.controls(hands, func(to uint32, m move, costs bool) { x.put(situation{hands: to}, m, costs) })
	if !x.few.some {
		x.put(situation{hands: hands ^ x.h.cable}, move{flip(hands&x.h.cable != 0, CableIn), -1}, true)
		x.put(situation{hands: hands ^ x.h.radioOn}, move{flip(hands&x.h.radioOn != 0, RadioOn), -1}, true)
	}
	x.slot(hands, false, true)
	x.to.powered = true
	x.judge(move{PowerOn, -1}, true)
}

func (x *space) add(key uint64, costs bool) {
	x.out = append(x.out, explore.Edge{To: key, Costs: costs})
}

// put adds a step in which the bench has no part; a craft without power has no menu open, and its gestures stand still.
func (x *space) put(to situation, m move, costs bool) {
	key := x.c.pack(&to)
	if f := x.fine; f != nil {
		key = f.id(finely{key: key, set: f.at.set})
	}
	x.add(key, costs)
	if x.tell {
		x.moves = append(x.moves, m)
	}
}

// judgeAtLength has the bench make the step once more, holds it against every rule, and adds it.
func (x *space) judgeAtLength(m move, costs bool) {
	x.said = false
	x.make()
	e := &x.e
	e.kind, e.digit, e.facts = m.kind, m.digit, &x.half.facts
	e.on, e.craft = x.to.hands&x.h.radioOn != 0, x.to.hands&x.h.cable != 0 || x.fine.refusing()
	cause := NoCause
	x.to.age = 0
	if x.watched != noWatch {
		x.to.age, cause = x.watched.next(x.from.age, e, x.most[x.watched])
	}
	key := x.c.pack(&x.to)
	if x.plain && (key^x.reached)&^x.c.handMask != 0 {
		x.wrong = true
	}
	ids, n := [2]uint64{key}, 1
	if x.fine != nil {
		ids, n = x.fine.goes(key, &x.to, e.facts)
		key = ids[0]
	}
	for _, to := range ids[:n] {
		x.add(to, costs)
		if x.tell {
			x.moves = append(x.moves, m)
		}
	}
	if x.tell {
		return
	}
	switch {
	case cause != NoCause:
		digit := -1
		if cause == NoiseCrosses {
			digit = m.digit
		}
		x.breaks(x.watched.rule(), cause, m, costs, key, digit)
	case x.watched != noWatch:
	case x.goal != nil:
		if x.goal(e) && x.target == nil {
			x.target = x.broken(NoCause, m, costs, key, -1)
		}
	default:
		for i := 0; i < len(x.guesses); i++ {
			w := x.guesses[i]
			if w.contradicts(w.guess(&x.from, x.cfg), e, x.most[w]) {
				x.said = true
				x.doubt(w, x.place)
				i--
			}
		}
		x.rules(m, costs, key)
		x.wrong = x.wrong || x.plain && x.said
	}
}

// breaks keeps the shortest way to a broken rule.
func (x *space) breaks(r Rule, cause Cause, m move, costs bool, key uint64, digit int) {
	x.said = true
	b := x.broken(cause, m, costs, key, digit)
	if old := x.found[r]; old == nil || b.cost.Less(old.cost) {
		x.found[r] = b
	}
}

func (x *space) broken(cause Cause, m move, costs bool, key uint64, digit int) *broken {
	b := &broken{cause: cause, place: x.place, cost: explore.Cost{Moves: x.at.Moves, Time: x.at.Time + 1}, move: m, to: key, digit: digit}
	if costs {
		b.cost.Moves++
	}
	for _, code := range [...]happening.Code{happening.Armed, happening.Disarmed, happening.Refused, happening.SinkEnded} {
		if happened(&x.log, code) {
			b.happens = code
			break
		}
	}
	return b
}

// enough reports whether a search for one thing has found it, and no shorter way can be left to find.
func (x *space) enough() bool {
	b := x.target
	if x.watched != noWatch {
		b = x.found[x.watched.rule()]
	} else if x.wants {
		b = x.found[x.wanted]
	}
	return b != nil && !(explore.Cost{Moves: x.at.Moves, Time: x.at.Time + 1}).Less(b.cost)
}
