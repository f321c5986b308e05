package prove

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// longestLast is for how long two crafts that differ are watched, in ms (ours): longer than any of their limits.
const longestLast = 120_000

// duet runs both crafts by themselves, nothing folded, with what their gestures and menus do, and writes down what happens to each.
type duet struct {
	h       *pairHands
	dues    []due
	due     int // which moment comes next, with power
	hands   uint32
	powered bool
	tick    int64 // of the last step
	first   int64 // of the first one
	steps   int
	sides   [2]side
	tell    [2]*teller
	answers [2]Answer
}

// difference is the way to the step that was found, as both crafts come through it, with all that their gestures and menus do. sound is false where
// the two do not differ at its end and, seen through the lens, nowhere before, gestures left out: then the walk was wrong. Where gestures on the way
// keep them from differing there, the difference is the first that they come to on that way, and nil where that is none.
func (x *pairSpace) difference(w *explore.Walk) (d *Difference, sound bool) {
	path := w.Path(x.found.place)
	x.tell = true
	var moves []move
	var hands []uint32
	for i := 1; i < len(path); i++ {
		from, to := path[i-1], w.Key(path[i])
		costs := w.Cost(path[i]).Moves > w.Cost(from).Moves
		for n, e := range x.Expand(w.Key(from), from, w.Cost(from), nil) {
			if e.To == to && e.Costs == costs {
				moves, hands = append(moves, x.moves[n]), append(hands, uint32(to&(1<<x.h.bits()-1)))
				break
			}
		}
	}
	moves, hands = append(moves, x.found.move), append(hands, uint32(x.found.to))
	plain := newDuet(x.h, x.dues, false)
	if !plain.through(moves, hands) || plain.steps != len(moves) {
		return nil, false
	}
	d = plain.difference()
	if x.h.gestures() {
		if with := newDuet(x.h, x.dues, true); !with.through(moves, hands) {
			d = nil
		} else {
			d = with.difference()
		}
	}
	return d, true
}

// gestures reports whether either craft has any.
func (h *pairHands) gestures() bool {
	return slices.ContainsFunc(h.cfg[:], func(c *sim.Config) bool { return c.Gestures != nil && len(c.Gestures.Patterns) > 0 })
}

// through makes movements up to the first after which the two differ, seen through the lens; false where they never do.
func (d *duet) through(moves []move, hands []uint32) bool {
	for i, m := range moves {
		d.do(m, hands[i])
		if d.steps++; d.h.lens.of(d.answers[0]) != d.h.lens.of(d.answers[1]) {
			return true
		}
	}
	return false
}

// difference is the one that the duet has come to.
func (d *duet) difference() *Difference {
	out := &Difference{Parts: unlike(d.answers[0], d.answers[1]), Answers: d.answers}
	for i := range out.Ways {
		w := *d.tell[i].end()
		w.Ms, w.Steps = d.tick-d.first, slices.Clone(w.Steps) // the duet goes on
		out.Ways[i] = &w
	}
	out.Lasts = d.lasts()
	return out
}

func newDuet(h *pairHands, dues []due, gestures bool) *duet {
	d := &duet{h: h, dues: dues, hands: h.start}
	d.first = int64(max(h.cfg[0].SlotTicks, h.cfg[1].SlotTicks))
	sent, on, _ := h.unpack(h.start)
	for i := range d.tell {
		t := &teller{h: h.means[i], tale: tale{cfg: h.cfg[i], zero: -1}}
		if t.moving = newMoving(h.cfg[i], h.l[i].Radio.StickMode); !gestures {
			t.moving.set = nil
		}
		t.way.begin(on, &h.sent[i][sent], &t.moving)
		d.tell[i] = t
	}
	return d
}

// do makes one movement, after which the hands hold what is given, and runs the slots of the moment that it falls on.
func (d *duet) do(m move, hands uint32) {
	switch {
	case d.tick == 0:
		d.tick = d.first
	case d.powered:
		d.tick += d.sinceLast()
	default:
		d.tick += d.first
	}
	was := d.hands
	d.hands = hands
	switch m.kind {
	case PowerOn:
		d.powered, d.due = true, 0
		for i, cfg := range d.h.cfg {
			d.sides[i] = side{slot: cfg.PowerUp()}
		}
	case PowerOff:
		d.powered = false
	}
	for i := range d.tell {
		d.one(i, m, was)
	}
	d.due = (d.due + 1) % len(d.dues)
}

// sinceLast is how long before the present moment the one before it was.
func (d *duet) sinceLast() int64 { return wait(d.dues, (d.due+len(d.dues)-1)%len(d.dues), d.h.cfg) }

// one makes the movement on one of the two, and its slot where that is due.
func (d *duet) one(i int, m move, was uint32) {
	h, t := d.h, d.tell[i]
	sent, on, cond := h.unpack(d.hands)
	before, _, had := h.unpack(was)
	st := Step{Kind: m.kind, At: d.tick, Control: -1}
	moved := m.kind == Nudge
	tell := func(r pulse.Reading) {
		r.At = d.tick * 1000
		t.way.Readings = append(t.way.Readings, r)
	}
	switch m.kind {
	case Wait:
	case Move, LetGo:
		c := &h.controls[m.digit]
		if st.Control = c.control[i]; st.Control >= 0 {
			k := &h.l[i].Radio.Controls[st.Control]
			from, to := &c.places[c.of(before)], &c.places[c.of(sent)]
			st.From, st.To = from.width[i], to.width[i]
			st.FromPosition = place(k, &class{width: st.From, position: from.position[i]})
			st.ToPosition = place(k, &class{width: st.To, position: to.position[i]})
			tell(pulse.Reading{Kind: pulse.Controls, Frame: h.sent[i][sent]})
		}
	case RadioOn, RadioOff:
		tell(pulse.Reading{Kind: pulse.Link, Value: int32(bit(on))})
	case Nudge:
		tell(pulse.Reading{Kind: pulse.Nudge})
	case PowerOn, PowerOff:
		tell(pulse.Reading{Kind: pulse.Power, Value: int32(bit(m.kind == PowerOn))})
	default:
		c, r := &h.conditions[max(cond, had)], pulse.Reading{}
		if r = c.isNot; cond != 0 {
			r = c.is
		}
		switch moved = c.moves; m.kind {
		case Tilt:
			st.Value = int32(c.craft.TiltTenths)
		case PackSags:
			st.Value = int32(c.craft.PackMilliVolts)
		}
		tell(r)
	}
	if t.tick, t.powered = d.tick, d.powered; m.kind == PowerOff {
		t.moving.off()
	}
	if d.powered && t.zero < 0 {
		t.zero = d.tick
	}
	st.Then = d.slot(i, on, sent, cond, moved, m.kind == PowerOn)
	if m.kind == Wait {
		st.Ms = d.sinceLast()
	}
	t.way.add(st)
}

// slot runs the slot of one craft, if it is due, and notes its answer.
func (d *duet) slot(i int, on bool, sent, cond uint32, moved, first bool) (then Event) {
	h, t, s := d.h, d.tell[i], &d.sides[i]
	t.log.N = 0
	s.moved = s.moved || moved
	switch {
	case !d.powered:
		d.answers[i], s.moved = Answer{}, false
		return 0
	case d.dues[d.due].steps[i]:
		in := sim.SlotInput{Transmitting: on, Sent: h.sent[i][sent], Craft: h.conditions[cond].craft, First: first}
		if in.Craft.Moved, s.moved = s.moved, false; t.moving.seen != pulse.MenuClosed {
			in.Craft.Menu = t.moving.seen
		}
		before := s.slot.Arming
		var facts sim.SlotFacts
		s.slot, facts = sim.StepSlot(h.cfg[i], s.slot, &in, d.tick, &t.log)
		s.motors = s.motors.step(h.cfg[i], &before, &s.slot, &facts)
		if t.slot = s.slot; t.moving.step(&s.slot, &facts, d.tick, &t.log) {
			then = MenuOpens
		}
	}
	d.answers[i] = s.answer(&t.log)
	return then | eventsOf(t.log.All())
}

// lasts is after how many ms the two agree again while nothing moves, −1 where they do not; a refusal lasts no time.
func (d *duet) lasts() int64 {
	from := d.tick
	for d.tick-from < longestLast {
		a, b := d.answers[0], d.answers[1]
		if a.Refused, b.Refused = 0, 0; a == b {
			return d.tick - from
		}
		d.do(move{Wait, -1}, d.hands)
	}
	return -1
}
