package prove

import (
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// Trial runs ways that were found in one layout through another, to see quickly whether they break it too. What it says to be broken is
// broken: the movements are made in the other layout, from where that one begins, and held against its own rules. What it does not say
// to be broken may be so all the same, by another way.
type Trial struct {
	l *Layout
	h *hands
	// by are the spaces by watch, made when they are first needed; the last is that of noWatch.
	by [noWatch + 1]*space
}

// NewTrial begins a trial; it fails where the layout cannot be searched.
func NewTrial(l *Layout) (*Trial, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	h, err := newHands(l, question{})
	if err != nil {
		return nil, err
	}
	return &Trial{l: l, h: h}, nil
}

// Breaks reports whether the movements of a way, made in this layout, break a rule. Rules that are not about steps are never broken so.
func (t *Trial) Breaks(r Rule, w *Way) bool {
	if t.breaks(noWatch, r, w) {
		return true
	}
	for d := range watchCount {
		if d.rule() == r && (!watches[d].sticks || d.askedOf(&t.l.Config)) && t.breaks(d, r, w) {
			return true
		}
	}
	return false
}

// space is the one in which a watch counts, empty of everything found so far.
func (t *Trial) space(d watch) *space {
	x := t.by[d]
	if x == nil {
		x = &space{h: t.h, cfg: t.h.cfg, watched: d, long: true, stop: func() {}}
		most := uint32(0)
		for i := range x.most {
			x.most[i] = watch(i).most(x.cfg)
		}
		if d != noWatch {
			most = x.most[d]
		}
		var fits bool
		if x.c, fits = newCodec(t.h, most); !fits {
			return nil
		}
		x.e = step{cfg: x.cfg, from: &x.from, to: &x.to, log: &x.log}
		x.halves = halves{c: x.c, more: map[uint64]*row{}} // a way comes by each situation once: nothing is worth keeping
		t.by[d] = x
	}
	x.found = [RuleCount]*broken{}
	begin := situation{hands: t.h.start}
	x.key = x.c.pack(&begin)
	x.c.unpack(x.key, &x.from)
	return x
}

func (t *Trial) breaks(d watch, r Rule, w *Way) bool {
	x := t.space(d)
	if x == nil {
		return false
	}
	follow := newTeller(t.h)
	for i := range w.Steps {
		st := &w.Steps[i]
		m, hands := t.movement(st, x.from.hands)
		times := 1
		if m.kind == Wait {
			times = max(1, int(st.Ms)/int(t.h.cfg.SlotTicks))
		}
		for range times {
			if st.Kind == Start || !x.goOn(m, hands) {
				continue
			}
			follow.do(m, hands)
			if x.found[r] != nil {
				return x.stands(follow, x.key) // a gesture may open a menu that refuses, on the whole bench
			}
		}
	}
	return false
}

// brokenYet is how many rules a pass has found broken so far. One that comes with the arming method is not among them.
func (x *space) brokenYet() (n int) {
	for r, b := range x.found {
		if b != nil && Rule(r) != CornerDisarmsInFlight {
			n++
		}
	}
	return n
}

// goOn makes one movement, after which the hands hold what is given; false where nothing came of it.
func (x *space) goOn(m move, hands uint32) bool {
	x.out, x.to.age, x.to.powered = x.out[:0], 0, x.from.powered
	switch {
	case m.kind == PowerOff:
		if !x.from.powered {
			return false
		}
		x.put(situation{hands: hands}, m, true)
	case !x.from.powered && m.kind != PowerOn:
		if hands == x.from.hands {
			return false
		}
		x.put(situation{hands: hands}, m, m.kind.Counts())
	case x.from.powered && m.kind == PowerOn, hands == x.from.hands && m.kind >= RadioOff && m.kind != PowerOn && m.kind != Nudge && m.kind != Wait:
		return false
	default:
		x.stand(x.key, false) // nothing is kept
		x.slot(hands, m.kind == Nudge, m.kind == PowerOn)
		x.to.powered = true
		x.judgeAtLength(m, m.kind.Counts())
	}
	x.key = x.out[len(x.out)-1].To
	x.c.unpack(x.key, &x.from)
	return true
}

// movement is a step of a way as hands make it here. A control that has but one meaning in this layout may as well stay where it is.
func (t *Trial) movement(st *Step, hands uint32) (move, uint32) {
	h, still := t.h, move{Wait, -1}
	switch st.Kind {
	case RadioOn:
		return move{RadioOn, -1}, hands | h.radioOn
	case RadioOff:
		return move{RadioOff, -1}, hands &^ h.radioOn
	case CableIn:
		return move{CableIn, -1}, hands | h.cable
	case CableOut:
		return move{CableOut, -1}, hands &^ h.cable
	case PowerOn, PowerOff, Nudge:
		return move{st.Kind, -1}, hands
	case Move, LetGo, Tremble:
		for i := range h.digits {
			d := &h.digits[i]
			if d.control != st.Control {
				continue
			}
			n := t.class(d, st)
			if n < 0 || n == d.of(hands) {
				return still, hands
			}
			k, _ := d.how(d.of(hands), n)
			return move{k, i}, d.with(hands, n)
		}
	}
	return still, hands
}

// class is that in which a control of this layout stands after a step, −1 for none: a switch by its position, what has no positions by
// the same share of its way.
func (t *Trial) class(d *digit, st *Step) int {
	c := &t.l.Radio.Controls[d.control]
	var w pulse.Width
	switch {
	case c.Kind == handset.Switch && (st.ToPosition < 0 || st.ToPosition >= len(c.Positions)):
		return -1
	case st.Kind == Tremble:
		w = st.To
	case c.Kind == handset.Switch:
		w = c.Positions[st.ToPosition].Width
	default:
		w = t.reached(c, st)
	}
	s, calm := t.h.sign(d.channel, w), -1
	for n := range d.classes {
		k := &d.classes[n]
		switch {
		case k.sign != s || k.position >= 0 && k.trembles != 0 && k.position != st.ToPosition:
		case k.width == w: // of what noise splits, the very place
			return n
		case k.trembles == 0 && calm < 0:
			calm = n
		}
	}
	return calm
}

// reached is where a stick stands: at the end to which it was taken, however far that is here.
func (t *Trial) reached(c *handset.Control, st *Step) pulse.Width {
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	switch Zone(st.ToPosition) {
	case AtLow:
		return low
	case AtHigh:
		return high
	}
	return min(max(st.To, low), high)
}
