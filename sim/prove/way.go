package prove

import (
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// way is the shortest way to the situation from which a step breaks a rule, and that step after it. It is real if the whole bench, with the
// craft's gestures and menus, comes through the very situations that the search went through.
func (x *space) way(w *explore.Walk, b *broken) (way *Way, real bool) {
	t := newTeller(x.h)
	real = true
	goes := func(m move, to uint64) {
		t.do(m, uint32(x.plainKey(to)&x.c.handMask))
		real = real && x.stands(t, to)
	}
	x.along(w, b.place, goes)
	goes(b.move, b.to)
	return t.end(), real
}

// along gives every step on the shortest way to the situation at a place.
func (x *space) along(w *explore.Walk, place uint32, goes func(m move, to uint64)) {
	path := w.Path(place)
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

// teller makes a way from movements of hands as a search knows them.
type teller struct {
	tale
	h     *hands
	hands uint32
}

func newTeller(h *hands) *teller {
	t := &teller{h: h, hands: h.start, tale: newTale(h.cfg, h.radio.StickMode, h.start&h.radioOn != 0, h.frames[h.start&h.sentBits()])}
	return t
}

// do makes one movement, after which the hands hold what is given, and runs the slot that it falls into.
func (t *teller) do(m move, hands uint32) {
	st, sent := Step{Kind: m.kind, Control: -1}, t.sent
	if m.kind == Move || m.kind == LetGo || m.kind == Tremble {
		d := &t.h.digits[m.digit]
		c := &t.h.radio.Controls[d.control]
		from, to := &d.classes[d.of(t.hands)], &d.classes[d.of(hands)]
		st.Control, st.From, st.To = d.control, from.width, to.width
		st.FromPosition, st.ToPosition = place(c, from), place(c, to)
		sent = t.h.frames[hands&t.h.sentBits()]
	}
	t.hands = hands
	t.step(st, sent)
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

// PlaceOf is the position of a switch that sends a width, or the Zone of a stick or knob: what a Step says of where a control stands.
func PlaceOf(c *handset.Control, w pulse.Width) int {
	return place(c, &class{width: w, position: c.Nearest(w)})
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
