package prove

import (
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// firstGestureRule and lastGestureRule bound the rules that moves decides.
const firstGestureRule, lastGestureRule = GestureNeverArms, GestureAlsoDisarms

// moves searches the craft's gestures in searches of their own, with the link good: each by itself, then every two that could be made
// at once. To the main search, "a menu is open" is one of the craft's conditions that refuse.
func (s *search) moves() {
	c := &s.l.Config
	if c.Gestures == nil || len(c.Gestures.Patterns) == 0 || s.stopped {
		return
	}
	t := newTeller(s.h)
	t.power()
	t.ready()
	if t.slot.Link.Phase != link.Good {
		return // no valid frames ever: no gesture counts, and other rules say why
	}
	searched := [RuleCount]uint64{}
	whole := true
	pass := func(which ...int) *moveSpace {
		x := newMoves(s, which...)
		n, ok := s.walkMoves(x, t.slot)
		whole = whole && ok
		for r := firstGestureRule; r <= lastGestureRule; r++ {
			if len(which) == 1 && r != OneGestureAtATime {
				searched[r] += n
			}
		}
		return x
	}
	for n := range c.Gestures.Patterns {
		x := pass(n)
		if !x.made[0] && whole {
			s.r.Results[GestureCanBeMade] = s.notMade(x, n, searched[GestureCanBeMade])
		}
	}
	for a := range c.Gestures.Patterns {
		for b := range a {
			searched[OneGestureAtATime]++ // counted in pairs, most of which cannot stand together at all
			if x := newMoves(s, b, a); x.together() && !s.stopped {
				pass(b, a)
			}
		}
	}
	for r := firstGestureRule; r <= lastGestureRule; r++ {
		if whole {
			s.holds(r, searched[r])
		}
	}
	s.r.Partial = s.r.Partial || !whole
}

// together reports whether two gestures can stand at once at all: no direction is asked to be in two places at once.
func (x *moveSpace) together() bool {
	if len(x.which) < mostTogether {
		return false
	}
	var zones [mostTogether][gestures.Directions]gestures.Zone
	for i := range zones {
		p := &x.set.Patterns[i]
		zones[i] = p.JobZones(int(p.Count-1), x.mode)
	}
	for d := range zones[0] {
		if a, b := zones[0][d], zones[1][d]; a != gestures.Any && b != gestures.Any && a != b {
			return false
		}
	}
	return true
}

// walkMoves runs one pass from a craft that is ready, and keeps what it found. It reports how many situations there were, and
// whether it came to the end.
func (s *search) walkMoves(x *moveSpace, ready sim.SlotState) (uint64, bool) {
	o := explore.Options{Every: 1 << 8}
	if ask := s.o.Progress; ask != nil {
		o.Progress = func(w *explore.Walk, at explore.Cost) bool {
			s.stopped = ask(Progress{Situations: s.before + w.Found(), Open: w.Open(), Movements: int(at.Moves), Slots: int(at.Time), Again: true})
			return s.stopped
		}
	}
	w := explore.New(o)
	x.stop = w.Stop
	begin := standing{slot: ready}
	for i := range x.which {
		begin.set[i].Phase = gestures.Away // as in a bench that has stood ready
	}
	x.all, x.ids[begin] = append(x.all, begin), 0
	w.Begin(0)
	end := w.Run(x)
	s.before += w.Found()
	s.r.Steps += x.steps
	for r := firstGestureRule; r <= lastGestureRule; r++ {
		b, o := x.found[r], &s.r.Results[r]
		if b == nil || o.Way != nil && !b.cost.Less(s.best[r]) {
			continue
		}
		way, real := s.moveWay(x, w, r, b)
		if !real {
			if way = s.followMoves(r, b); way == nil {
				continue
			}
		}
		s.best[r] = b.cost
		*o = Result{Rule: r, Outcome: Broken, Searched: w.Found(), Way: way, Cause: b.cause, Control: -1, Position: -1, Gesture: b.of, Part: b.part}
		if r == GestureAlsoDisarms || b.cause == MenuUnknown { // it comes with arming by sticks
			o.Outcome = WithIt
		}
	}
	return w.Found(), end == explore.Complete && !x.full && !s.undecided
}

// notMade says why a gesture cannot be made: a stick that does not go far enough, where one does not.
func (s *search) notMade(x *moveSpace, n int, searched uint64) Result {
	r := Result{Rule: GestureCanBeMade, Outcome: Broken, Searched: searched, Cause: NeverMade, Control: -1, Position: -1, Gesture: n}
	p := &x.set.Patterns[0]
	var try [gestures.Directions]uint8
	for part := range int(p.Count) {
		for i, zone := range p.JobZones(part, x.mode) {
			d := gestures.Direction(i)
			best, reached := x.nearest(d, zone)
			if try[d] = best; !reached && r.Control < 0 {
				_, r.Control = s.h.find(stickChannels(x.cfg)[d])
				r.Cause, r.Value = GestureTravel, int64(x.levels[d][best])
			}
		}
	}
	t := s.readyMoves()
	t.hold(s, x, [gestures.Directions]uint8{}, try)
	t.wait(int(p.Parts[p.Count-1].Dwell) + 1)
	r.Way = t.end()
	return r
}

// nearest is the level of a direction that comes nearest to a zone, and whether it lies in it.
func (x *moveSpace) nearest(d gestures.Direction, zone gestures.Zone) (best uint8, reached bool) {
	off := func(w pulse.Width) pulse.Width {
		switch zone {
		case gestures.Low:
			return max(w-x.set.LowIn, 0)
		case gestures.High:
			return max(x.set.HighIn-w, 0)
		case gestures.Middle:
			return max(max(w, pulse.Centre)-min(w, pulse.Centre)-x.set.MiddleIn, 0)
		}
		return 0
	}
	for i, w := range x.levels[d] {
		if off(w) < off(x.levels[d][best]) {
			best = uint8(i)
		}
	}
	return best, off(x.levels[d][best]) == 0
}

// moveTeller makes a way from movements of the sticks: the craft gets its pack and becomes ready, then the sticks move.
type moveTeller struct {
	*teller
	at [gestures.Directions]uint8 // as in moveSpace.levels
}

func (s *search) readyMoves() *moveTeller {
	t := newTeller(s.h)
	t.power()
	t.ready()
	return &moveTeller{teller: t}
}

// followMoves looks for the way to a clash that the whole bench does not follow, because the sticks make another gesture on it, once more with
// all gestures told apart. It gives nil where there is none, or where that was not decided: then whole is taken back.
func (s *search) followMoves(r Rule, b *clash) *Way {
	few := only{some: true}
	for _, channel := range stickChannels(&s.l.Config) {
		few.channels |= 1 << channel
	}
	goal := func(x *space) {
		mode := uint8(s.l.Radio.StickMode)
		x.goal = func(e *step) bool {
			if r == MenuSticksNeverArm {
				return e.becameArmed() && x.fine.at.menu != pulse.MenuClosed
			}
			is := e.ended()
			if r == GestureNeverArms {
				is = e.becameArmed()
			}
			return is && inside(x.cfg, &x.cfg.Gestures.Patterns[b.of], b.part, mode, &e.facts.Link.Frame)
		}
	}
	_, _, way, none := s.finest(noWatch, few, goal, func(x *space) *broken { return x.target })
	s.undecided = s.undecided || way == nil && !none
	return way
}

// moveWay is the shortest way to a clash. It is real if the whole bench comes to the clash on it.
func (s *search) moveWay(x *moveSpace, w *explore.Walk, r Rule, b *clash) (way *Way, real bool) {
	t := s.readyMoves()
	path := w.Path(b.place)
	for _, place := range path[1:] {
		t.to(s, x, x.all[w.Key(place)].at)
	}
	t.to(s, x, b.to.at)
	real = true
	switch armed := happened(&t.log, happening.Armed); r {
	case GestureNeverArms:
		real = armed
	case MenuSticksNeverArm:
		real = armed && t.moving.menu.Open != 0
	case GestureAlsoDisarms:
		real = happened(&t.log, happening.Disarmed)
	}
	return t.end(), real
}

// to runs one slot with the sticks at their next places.
func (t *moveTeller) to(s *search, x *moveSpace, at [gestures.Directions]uint8) {
	if at == t.at {
		t.wait(1)
		return
	}
	t.hold(s, x, t.at, at)
}

// hold takes sticks to other places, all in one slot.
func (t *moveTeller) hold(s *search, x *moveSpace, from, to [gestures.Directions]uint8) {
	t.tick += int64(x.cfg.SlotTicks)
	first := len(t.way.Steps)
	for d, channel := range stickChannels(x.cfg) {
		if from[d] == to[d] {
			continue
		}
		_, at := s.h.find(channel)
		st := Step{Kind: Move, At: t.tick, Control: at, From: x.levels[d][from[d]], To: x.levels[d][to[d]]}
		if at >= 0 {
			c := &s.l.Radio.Controls[at]
			st.FromPosition, st.ToPosition = PlaceOf(c, st.From), PlaceOf(c, st.To)
		}
		t.way.Steps = append(t.way.Steps, st)
	}
	t.way.Movements += len(t.way.Steps) - first
	t.at, t.sent = to, x.frame(&to)
	t.way.Readings = append(t.way.Readings, pulse.Reading{At: t.tick * 1000, Kind: pulse.Controls, Frame: t.sent})
	then := t.run(false, false)
	if last := len(t.way.Steps) - 1; last >= first {
		t.way.Steps[last].Then = then
	}
}
