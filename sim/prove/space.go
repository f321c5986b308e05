package prove

import (
	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/happening"
	"propsoff/sim/prove/explore"
)

// space is a layout as a problem to explore: from each situation one human movement or none, then one slot of the bench.
type space struct {
	h   *hands
	c   *codec
	cfg *sim.Config
	// few says which movements are made, where not all are.
	few only
	// guesses are the watches whose guess is held against every step; a watch that was contradicted leaves the list.
	guesses  []watch
	most     [watchCount]uint32
	doubtful []watch
	// watched is the watch by whose count situations are told apart, or noWatch.
	watched watch
	// found is the first step on the shortest way to a broken rule.
	found [RuleCount]*broken
	// firstArmed is the first step that armed; cornered: sticks disarmed in some step.
	firstArmed *broken
	cornered   bool
	// goal, where set, ends the search: the first step for which it is true.
	goal   func(e *step) bool
	target *broken

	steps    uint64
	place    uint32
	at       explore.Cost
	from, to situation
	halves   halves
	half     *half // of the step being made
	log      happening.Log
	e        step
	// classes of each control, where asked for.
	classes [][]class
	// short: steps may be judged in the short form. plain: the last one was.
	short, plain bool
	// long: no step is judged in the short form, and wrong is set where that would have hidden something. said: judging the last step
	// at length found something.
	long, said bool
	// wrong: the bench itself, asked for a whole slot, did not do what its parts did.
	wrong bool
	out   []explore.Edge
	moves []move // what each of out is, where asked for
	tell  bool
	stop  func()
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
	x := &space{h: h, cfg: h.cfg, watched: w}
	for i := range x.most {
		x.most[i] = watch(i).most(x.cfg)
	}
	most := uint32(0)
	if w != noWatch {
		most = x.most[w]
	}
	var fits bool
	x.c, fits = newCodec(h, most)
	x.e = step{cfg: x.cfg, from: &x.from, to: &x.to, log: &x.log}
	x.halves = newHalves(x.c)
	return x, fits
}

// Expand makes every step that leads on from a situation.
func (x *space) Expand(key uint64, place uint32, at explore.Cost, out []explore.Edge) []explore.Edge {
	x.out, x.moves, x.place, x.at = out, x.moves[:0], place, at
	x.short = x.watched == noWatch && x.goal == nil && !x.tell
	x.c.unpack(key, &x.from)
	x.to.powered, x.to.age = x.from.powered, 0
	hands := x.from.hands
	if !x.tell && x.enough() {
		x.stop()
		return out
	}
	if !x.from.powered {
		x.unpowered(hands)
		return x.out
	}
	x.halves.turn(key, &x.from)
	x.slot(hands, false, false)
	x.judge(move{Wait, -1}, false)
	on := hands&x.h.radioOn != 0
	x.controls(hands, on)
	if !x.few.some || x.few.radio {
		x.slot(hands^x.h.radioOn, false, false)
		x.judge(move{flip(on, RadioOn), -1}, true)
	}
	if x.few.some {
		return x.out
	}
	x.slot(hands^x.h.cable, false, false)
	x.judge(move{flip(hands&x.h.cable != 0, CableIn), -1}, true)
	x.slot(hands, true, false)
	x.judge(move{Nudge, -1}, true)
	x.put(situation{hands: hands}, move{PowerOff, -1}, true)
	return x.out
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

// controls moves each control from where it stands to every other place. It must follow the step in which nothing moved. A hand flicks
// a switch past its middle within a slot, so every place is one movement away from every other; resting on the way is two movements.
// What springs back costs no movement. A silent radio's hands are not read: what the bench did when nothing moved serves for them all.
func (x *space) controls(hands uint32, on bool) {
	still := len(x.out) - 1 // the step just made, in which nothing moved
	for i := range x.h.digits {
		d := &x.h.digits[i]
		if x.few.some && x.few.channels&d.carried == 0 {
			continue
		}
		was := d.of(hands)
		for n := range d.classes {
			if n == was {
				continue
			}
			k, costs := d.how(was, n)
			m := move{k, i}
			if on {
				x.slot(d.with(hands, n), false, false)
			} else if x.to.hands = d.with(hands, n); x.plain && !x.long {
				k := x.out[still].To&^x.c.handMask | uint64(x.to.hands)
				x.out = append(x.out, explore.Edge{To: k, Costs: costs})
				continue
			}
			x.judge(m, costs)
		}
	}
}

// unpowered moves whatever can be moved while the craft has no power; time then changes nothing.
func (x *space) unpowered(hands uint32) {
	for i := range x.h.digits {
		d := &x.h.digits[i]
		if x.few.some && x.few.channels&d.carried == 0 {
			continue
		}
		for n := range d.classes {
			if n != d.of(hands) {
				k, costs := d.how(d.of(hands), n)
				x.put(situation{hands: d.with(hands, n)}, move{k, i}, costs)
			}
		}
	}
	if !x.few.some {
		x.put(situation{hands: hands ^ x.h.cable}, move{flip(hands&x.h.cable != 0, CableIn), -1}, true)
		x.put(situation{hands: hands ^ x.h.radioOn}, move{flip(hands&x.h.radioOn != 0, RadioOn), -1}, true)
	}
	x.halves.turn(0, &x.from)
	x.slot(hands, false, true)
	x.to.powered = true
	x.judge(move{PowerOn, -1}, true)
}

// slot runs one slot of the bench from x.from to x.to: link and layout from what was kept of them, then arming.
func (x *space) slot(hands uint32, nudged, first bool) {
	x.half = x.halves.of(hands, &x.from, x)
	in := x.half.input
	in.Craft.Cable, in.Craft.Moved, in.First = hands&x.h.cable != 0, nudged, first
	x.log.N = 0
	x.to.slot.Arming = arming.Step(&x.cfg.Arming, x.from.slot.Arming, &in, 0, &x.log)
	x.to.hands = hands
	if x.steps++; x.steps%8192 == 0 {
		x.whole(hands, nudged, first)
	}
}

// whole asks the bench for the whole slot, to compare.
func (x *space) whole(hands uint32, nudged, first bool) {
	in := sim.SlotInput{Transmitting: hands&x.h.radioOn != 0, First: first}
	in.Craft.Cable, in.Craft.Moved = hands&x.h.cable != 0, nudged
	if in.Transmitting {
		in.Sent = x.h.frames[hands&x.h.sentBits()]
	}
	s, facts := sim.StepSlot(x.cfg, x.from.slot, &in, 0, nil)
	s.Layout.Mode = x.h.foldMode(s.Layout.Mode)
	if s.Arming != x.to.slot.Arming || s.Link != x.half.link || s.Layout != x.half.layout || facts != x.half.facts {
		x.wrong = true
	}
}

// put adds a step in which the bench has no part.
func (x *space) put(to situation, m move, costs bool) {
	x.out = append(x.out, explore.Edge{To: x.c.pack(&to), Costs: costs})
	if x.tell {
		x.moves = append(x.moves, m)
	}
}

// judge holds the step just made against every rule, and adds it.
func (x *space) judge(m move, costs bool) {
	key, quiet := x.key(m.kind)
	if x.plain = quiet; quiet && !x.long {
		x.out = append(x.out, explore.Edge{To: key, Costs: costs})
		return
	}
	x.judgeAtLength(m, costs)
}

func (x *space) judgeAtLength(m move, costs bool) {
	x.said = false
	x.to.slot.Link, x.to.slot.Layout = x.half.link, x.half.layout
	e := &x.e
	e.kind, e.digit, e.facts = m.kind, m.digit, &x.half.facts
	e.on, e.craft = x.to.hands&x.h.radioOn != 0, x.to.hands&x.h.cable != 0
	cause := NoCause
	x.to.age = 0
	if x.watched != noWatch {
		x.to.age, cause = x.watched.next(x.from.age, e, x.most[x.watched])
	}
	key := x.c.pack(&x.to)
	x.out = append(x.out, explore.Edge{To: key, Costs: costs})
	if x.tell {
		x.moves = append(x.moves, m)
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
				x.doubtful = append(x.doubtful, w)
				x.guesses = append(x.guesses[:i], x.guesses[i+1:]...)
				i--
			}
		}
		x.rules(m, costs, key)
		x.wrong = x.wrong || x.plain && x.said
	}
}

// key is the key of x.to where it fits the plain form, and whether the step is one that plainly breaks no rule.
func (x *space) key(k Kind) (uint64, bool) {
	back, fits := x.c.packArming(&x.to.slot.Arming)
	if !fits || !x.half.calm || x.log.N > 0 || !x.short {
		return 0, false
	}
	return uint64(x.to.hands) | x.half.key | back | 1<<x.c.poweredAt, x.quiet(k)
}

// quiet reports whether a step without any happening plainly contradicts no guess and breaks no rule. It is the short form
// of what judge asks at length: where it says yes, judging at length would find nothing.
func (x *space) quiet(k Kind) bool {
	a, b, f := &x.from.slot.Arming, &x.to.slot.Arming, x.half
	switch {
	case a.Armed != b.Armed || !x.from.powered:
		return false
	case b.Still == 0:
	case k == Nudge && a.Still < x.cfg.Arming.StillSlots:
		return false
	case a.Still != b.Still && b.Still != a.Still+1:
		return false
	case a.OffFirst && !b.OffFirst && !f.seen:
		return false
	}
	if b.Armed && !f.sure {
		before := watchLoss.guess(&x.from, x.cfg)
		if before+1 >= x.most[watchLoss] || lossCount(&f.link, b, x.cfg) <= before {
			return false
		}
	}
	if x.cfg.Arming.By == arming.BySwitch {
		return a.Inside == b.Inside && (!b.Armed || !f.off)
	}
	spent := x.cfg.Arming.ArmDwell + 2
	if !b.Armed {
		return (b.OffFirst || b.ArmDwell == 0) && (a.ArmDwell != spent || b.ArmDwell == spent)
	}
	switch f.corner {
	case inCorner: // every slot counts
		return b.DisarmDwell == a.DisarmDwell+1
	case nearCorner:
		return b.DisarmDwell == 0 || a.DisarmDwell > 0 && b.DisarmDwell <= a.DisarmDwell+1
	}
	return b.DisarmDwell == 0
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
	}
	return b != nil && !(explore.Cost{Moves: x.at.Moves, Time: x.at.Time + 1}).Less(b.cost)
}
