package prove

import (
	"propsoff/sim"
	"propsoff/sim/handset"
	"propsoff/sim/happening"
	"propsoff/sim/prove/explore"
	"propsoff/sim/pulse"
	"slices"
)

// way is the shortest way to the situation from which a step breaks a rule, and that step after it. It is real if the whole bench, with the
// craft's gestures and menus, comes through the very situations that the search went through.
func (x *space) way(w *explore.Walk, b *broken) (way *Way, real bool) {
	path := w.Path(b.place)
	t := newTeller(x.h)
	real = true
	goes := func(m move, to uint64) {
		t.do(m, uint32(x.plainKey(to)&x.c.handMask))
		real = real && x.stands(t, to)
	}
	short, stop := x.tell, x.stop
	x.tell, x.stop = true, func() {}
	for i := 1; i < len(path); i++ {
		from, to := path[i-1], w.Key(path[i])
		costs := w.Cost(path[i]).Moves > w.Cost(from).Moves
		out := x.Expand(w.Key(from), from, w.Cost(from), nil)
		for n, e := range out {
			if e.To == to && e.Costs == costs {
				goes(x.moves[n], to)
				break
			}
		}
	}
	x.tell, x.stop = short, stop
	goes(b.move, b.to)
	return t.end(), real
}

// stands reports whether what a teller came to is a situation of the search.
func (x *space) stands(t *teller, key uint64) bool {
	var s situation
	x.c.unpack(x.plainKey(key), &s)
	if s.powered != t.powered {
		return false
	}
	is := t.slot
	is.Layout.Mode = x.h.foldMode(is.Layout.Mode)
	return !s.powered || is == s.slot
}

// teller makes a way from movements: it runs them through the bench's step once more and writes down everything that happens.
type teller struct {
	h       *hands
	way     Way
	hands   uint32
	sent    pulse.Frame
	powered bool
	slot    sim.SlotState
	moving  moving
	tick    int64 // of the last step
	zero    int64 // of the first power-up
	log     happening.Log
}

func newTeller(h *hands) *teller {
	t := &teller{h: h, hands: h.start, sent: h.frames[h.start&h.sentBits()], zero: -1, moving: newMoving(h.cfg, h.radio.StickMode)}
	t.way.begin(h.start&h.radioOn != 0, &t.sent, &t.moving)
	return t
}

// begin is how everything stands at the beginning. The stick mode is told where gestures ask for it.
func (w *Way) begin(on bool, sent *pulse.Frame, m *moving) {
	w.Steps = []Step{{Kind: Start, Control: -1}}
	w.Readings = []pulse.Reading{
		{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: int32(bit(on))}, {Kind: pulse.Power}, {Kind: pulse.Cable}, {Kind: pulse.Controls, Frame: *sent},
	}
	if m.mode != 0 && m.mode != 2 && len(m.set) > 0 {
		w.Readings = append(w.Readings, pulse.Reading{Kind: pulse.StickMode, Value: int32(m.mode)})
	}
}

// add writes a step down; a wait behind another makes that longer.
func (w *Way) add(st Step) {
	if st.Kind.Counts() {
		w.Movements++
	}
	if last := &w.Steps[len(w.Steps)-1]; st.Kind == Wait && last.Kind == Wait {
		last.Ms += st.Ms
		last.Then |= st.Then
		return
	}
	w.Steps = append(w.Steps, st)
}

// times has the steps counted from the first power-up, at zero, or else from the beginning; the whole took until tick, slots being so long.
func (w *Way) times(zero, tick int64, slot uint16) {
	zero = max(zero, 0)
	w.Steps[0].At = 0
	for i := range w.Steps {
		w.Steps[i].At -= zero
	}
	if tick > 0 {
		w.Ms = tick - int64(slot)
	}
	w.Final = tick
}

// do makes one movement, after which the hands hold what is given, and runs the slot that it falls into.
func (t *teller) do(m move, hands uint32) {
	t.tick += int64(t.h.cfg.SlotTicks)
	st := Step{Kind: m.kind, At: t.tick, Control: -1}
	tell := func(k pulse.Kind, v int32) {
		t.way.Readings = append(t.way.Readings, pulse.Reading{At: t.tick * 1000, Kind: k, Value: v})
	}
	nudged, first := false, false
	switch m.kind {
	case Move, LetGo, Tremble:
		d := &t.h.digits[m.digit]
		c := &t.h.radio.Controls[d.control]
		from, to := &d.classes[d.of(t.hands)], &d.classes[d.of(hands)]
		st.Control, st.From, st.To = d.control, from.width, to.width
		st.FromPosition, st.ToPosition = place(c, from), place(c, to)
		t.sent = t.h.frames[hands&t.h.sentBits()]
		t.way.Readings = append(t.way.Readings, pulse.Reading{At: t.tick * 1000, Kind: pulse.Controls, Frame: t.sent})
	case RadioOn, RadioOff:
		tell(pulse.Link, int32(bit(m.kind == RadioOn)))
	case CableIn, CableOut:
		tell(pulse.Cable, int32(bit(m.kind == CableIn)))
	case Nudge:
		nudged = true
		tell(pulse.Nudge, 0)
	case PowerOn:
		t.powered, first, t.slot = true, true, t.h.cfg.PowerUp()
		if t.zero < 0 {
			t.zero = t.tick
		}
		tell(pulse.Power, 1)
	case PowerOff:
		t.powered = false
		t.moving.off()
		tell(pulse.Power, 0)
	}
	t.hands = hands
	st.Then = t.run(nudged, first)
	if m.kind == Wait {
		st.Ms = int64(t.h.cfg.SlotTicks)
	}
	t.way.add(st)
}

// wait lets so many slots pass.
func (t *teller) wait(slots int) {
	for range slots {
		t.do(move{Wait, -1}, t.hands)
	}
}

// set moves a control to one of its places, if it is not there.
func (t *teller) set(digit, class int) {
	d := &t.h.digits[digit]
	if d.of(t.hands) == class {
		return
	}
	k, _ := d.how(d.of(t.hands), class)
	t.do(move{k, digit}, d.with(t.hands, class))
}

var events = [...]struct {
	code happening.Code
	is   Event
}{
	{happening.Armed, Armed}, {happening.Disarmed, Disarmed}, {happening.LinkLost, LinkLost}, {happening.LinkBack, LinkBack},
	{happening.LinkClean, LinkClean}, {happening.Sinking, Sinking}, {happening.SinkEnded, SinkEnded}, {happening.Refused, Refused},
	{happening.Mode, ModeChanged}, {happening.Settled, Settled}, {happening.Gesture, GestureMade},
}

// eventsOf is what a way tells of what happened.
func eventsOf(all []happening.Happening) (is Event) {
	for _, h := range all {
		for _, e := range events {
			if h.Code == e.code {
				is |= e.is
			}
		}
	}
	return is
}

// claimOf is what a way claims of a craft with power, and of what happened in that very tick.
func claimOf(s *sim.SlotState, all []happening.Happening) Claim {
	c := Claim{Armed: s.Arming.Armed, Mode: uint8(s.Layout.Mode), Phase: uint8(s.Link.Phase), Sinking: s.Arming.Sink > 0}
	for _, code := range [...]happening.Code{happening.Armed, happening.Disarmed, happening.Refused, happening.SinkEnded, happening.Mode, happening.Gesture} {
		if slices.ContainsFunc(all, func(h happening.Happening) bool { return h.Code == code }) {
			c.Happens = uint8(code)
			break
		}
	}
	return c
}

// run steps the bench's slot, if the craft has power.
func (t *teller) run(nudged, first bool) Event {
	t.log.N = 0
	if !t.powered {
		return 0
	}
	in := sim.SlotInput{Transmitting: t.hands&t.h.radioOn != 0, Sent: t.sent, First: first}
	in.Craft.Cable, in.Craft.Moved, in.Craft.Menu = t.hands&t.h.cable != 0, nudged, t.moving.seen
	var facts sim.SlotFacts
	t.slot, facts = sim.StepSlot(t.h.cfg, t.slot, &in, t.tick, &t.log)
	opened := t.moving.step(&t.slot, &facts, t.tick, &t.log)
	all := eventsOf(t.log.All())
	if opened {
		all |= MenuOpens
	}
	return all
}

// end finishes the way: what it claims is what the bench came to.
func (t *teller) end() *Way {
	w := &t.way
	w.times(t.zero, t.tick, t.h.cfg.SlotTicks)
	switch {
	case t.powered:
		w.Claim = claimOf(&t.slot, t.log.All())
	case t.zero >= 0: // it had power before
		w.Claim.Mode = uint8(t.h.cfg.PowerUp().Layout.Mode)
	}
	return w
}

// place is the position of a switch, or the zone of a stick or knob.
func place(c *handset.Control, k *class) int {
	if c.Kind == handset.Switch {
		return k.position
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	switch w := k.width; {
	case w <= low:
		return int(AtLow)
	case w >= high:
		return int(AtHigh)
	case w == c.Rest:
		return int(AtRest)
	case w < low+(high-low)/2:
		return int(NearLow)
	}
	return int(NearHigh)
}
