package prove

import (
	"slices"

	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// fine is what a search tells apart besides, where gestures and menus decide: how every gesture stands and which menu is open. The plain
// search needs none of it, for to it an open menu is a condition of the craft that may come and go. A way that the whole bench does not
// follow, because the sticks open a menu on it, is looked for once more with this.
//
// Near misses and values in menus count for nothing. How a menu is left is not followed either: once open it may close in any slot. So what
// is found not to be cannot be; and what is found is a way only if the whole bench follows it.
type fine struct {
	h    *hands
	mode uint8
	all  []finely
	ids  map[finely]uint64
	sets map[string]uint32
	set  [][]gestures.State
	next map[sticksIn]sticksOut
	// at is what is gone on from. stays: menus do not close.
	at    finely
	stays bool
	full  func() // called where there is no more room
	key   []byte
	work  []gestures.State
}

// finely is a situation told apart finely: the plain key, the number of the gestures' states, and the menu that is open, as a value of a Menu
// reading.
type finely struct {
	key  uint64
	set  uint32
	menu uint8
}

// sticksIn is what the gestures' next states depend on.
type sticksIn struct {
	set, hands  uint32
	made, valid bool // made: the frame is the receiver's own
	counts      bool
}

type sticksOut struct {
	set  uint32
	menu uint8
}

// mostFine bounds one search with gestures told apart (ours); each such situation takes some 100 bytes.
const mostFine = 4 << 20

func newFine(h *hands) *fine {
	f := &fine{h: h, mode: uint8(h.radio.StickMode), ids: map[finely]uint64{}, sets: map[string]uint32{}, next: map[sticksIn]sticksOut{}}
	f.work = make([]gestures.State, len(h.cfg.Gestures.Patterns))
	f.number(f.work)
	return f
}

// number gives the number of gestures' states; those of a craft that has just got power have number 0.
func (f *fine) number(set []gestures.State) uint32 {
	f.key = f.key[:0]
	for i := range set {
		s := &set[i]
		f.key = append(f.key, byte(s.Phase), s.Part, byte(bit(s.Free)), byte(s.Time), byte(s.Time>>8), byte(s.Wait), byte(s.Wait>>8), byte(s.Again), byte(s.Again>>8))
	}
	n, known := f.sets[string(f.key)]
	if !known {
		n = uint32(len(f.set))
		f.set = append(f.set, append([]gestures.State(nil), set...))
		f.sets[string(f.key)] = n
	}
	return n
}

// id is the key of a situation told apart finely.
func (f *fine) id(s finely) uint64 {
	n, known := f.ids[s]
	if !known {
		if n = uint64(len(f.all)); n >= mostFine {
			f.full()
			return n - 1
		}
		f.all = append(f.all, s)
		f.ids[s] = n
	}
	return n
}

// refusing reports whether a menu refuses in the step that is made next.
func (f *fine) refusing() bool { return f != nil && refuses(f.h.cfg, f.at.menu) }

// goes gives the situations that a slot with power led to: after it a menu may be open, and one that was open may be closed besides.
func (f *fine) goes(key uint64, to *situation, facts *sim.SlotFacts) (ids [2]uint64, n int) {
	t := sticksIn{set: f.at.set, valid: facts.Link.Valid, counts: counts(&to.slot) && f.at.menu == pulse.MenuClosed}
	if t.valid {
		t.hands = to.hands & f.h.sentBits()
		t.made = to.hands&f.h.radioOn == 0
	}
	next, known := f.next[t]
	if !known || t.made { // a receiver's own frame is not told by the hands
		next = f.turn(&t, facts)
		f.next[t] = next
	}
	after := finely{key, next.set, f.at.menu}
	if f.at.menu == pulse.MenuClosed {
		after.menu = next.menu
	}
	ids[0], n = f.id(after), 1
	if f.at.menu != pulse.MenuClosed && !f.stays {
		after.menu = pulse.MenuClosed
		ids[1], n = f.id(after), 2
	}
	return ids, n
}

// turn steps the gestures.
func (f *fine) turn(t *sticksIn, facts *sim.SlotFacts) sticksOut {
	copy(f.work, f.set[t.set])
	var log happening.Log
	in := gestures.Input{Sticks: sticksOf(f.h.cfg, &facts.Link.Frame), StickMode: f.mode, Valid: t.valid, Live: t.counts}
	fired := gestures.Step(f.h.cfg.Gestures, f.work, &in, 0, &log)
	for i := range f.work {
		s := &f.work[i]
		s.Told = false
		if s.Phase == gestures.Close { // only near misses ask for it
			s.Phase, s.Time = gestures.Away, 0
		}
	}
	out := sticksOut{set: f.number(f.work)}
	if fired >= 0 {
		out.menu = opens(f.h.cfg, fired)
	}
	return out
}

// plainKey is the plain search's key of a situation.
func (x *space) plainKey(key uint64) uint64 {
	if x.fine == nil {
		return key
	}
	return x.fine.all[key].key
}

// goneOn gets ready to go on from a situation, and gives its plain key.
func (x *space) goneOn(key uint64) uint64 {
	if x.fine != nil {
		x.fine.at = x.fine.all[key]
	}
	return x.plainKey(key)
}

// finer walks a layout once more with gestures told apart, for one thing: a rule that is broken, or where set says so the first step for which a
// goal is true.
func (s *search) finer(d watch, few only, stays bool, set func(x *space)) (*space, *explore.Walk, explore.End) {
	h, err := newHands(s.l, question{gestures: true})
	if err != nil || h.cfg.Gestures == nil { // none: there is nothing to tell apart
		return nil, nil, explore.Full
	}
	x, fits := newSpace(h, d)
	if !fits {
		return nil, nil, explore.Full
	}
	x.few, x.fine = few, newFine(h)
	x.fine.stays = stays
	set(x)
	w, end := s.walk(x)
	if x.wrong || x.c.full {
		end = explore.Full
	}
	return x, w, end
}

// opensWhatRefuses reports whether a gesture opens a menu that keeps the craft from arming.
func opensWhatRefuses(cfg *sim.Config) bool {
	return cfg.Gestures != nil && slices.ContainsFunc(cfg.Gestures.Patterns, func(p gestures.Pattern) bool { return refuses(cfg, opensBy(cfg, &p)) })
}

// anyMenu searches everything once more with menus that open and close at any moment, whatever else moves: so it covers whatever gestures
// there are. A rule that only then is broken is looked for with gestures told apart.
func (s *search) anyMenu(broken *[RuleCount]*broken, doubtful []watch) {
	x, fits := newSpace(s.h, noWatch)
	if !fits {
		return
	}
	x.guesses = slices.DeleteFunc(guessed(x.cfg), func(w watch) bool { return slices.Contains(doubtful, w) })
	x.toggles = true
	_, end := s.walk(x)
	if s.complete = end == explore.Complete && !x.wrong && !x.c.full; !s.complete {
		s.r.Partial = true
		return
	}
	for r := range RuleCount {
		if x.found[r] != nil && broken[r] == nil {
			s.unreal = append(s.unreal, unreal{r, noWatch, only{}})
		}
	}
	for _, d := range x.doubtful {
		s.unreal = append(s.unreal, unreal{d.rule(), d, only{}})
	}
}

// unreal is a rule whose way the whole bench does not follow.
type unreal struct {
	rule Rule
	d    watch
	few  only
}

// finest looks for a step with gestures told apart and gives the first way to it that the whole bench follows, nil for none. none: there is
// none; else it was not decided. sought is the step in a space that was searched, nil where it was not found there.
func (s *search) finest(d watch, few only, set func(*space), sought func(*space) *broken) (x *space, w *explore.Walk, way *Way, none bool) {
	for _, stays := range [...]bool{false, true} {
		var end explore.End
		if x, w, end = s.finer(d, few, stays, set); x == nil {
			break
		}
		b := sought(x)
		if b == nil {
			return x, w, nil, end == explore.Complete && !stays
		}
		if way, real := x.way(w, b); real {
			return x, w, way, false
		}
	}
	return nil, nil, nil, false
}

// follow looks for the ways of rules that the whole bench does not follow once more, with gestures told apart. Where there is none the rule
// holds after all: the sticks that break it open a menu first.
func (s *search) follow() {
	for _, u := range s.unreal {
		o := &s.r.Results[u.rule]
		if o.Way != nil { // another pass found a way that is real
			continue
		}
		x, w, way, none := s.finest(u.d, u.few, func(x *space) { x.wanted, x.wants = u.rule, true }, func(x *space) *broken { return x.found[u.rule] })
		switch {
		case way != nil:
			s.found(x, w, u.rule, way)
		case none:
			s.holds(u.rule, w.Found())
		}
		s.r.Partial = s.r.Partial || o.Outcome == Undecided
	}
}

// canArm looks for a way to being armed that the whole bench follows, where the first one found is none.
func (s *search) canArm(first *Way, real bool) {
	if s.armed = first; real {
		return
	}
	few := only{some: true, channels: 1<<pulse.Channels - 1}
	_, _, s.armed, s.blocked = s.finest(noWatch, few, func(x *space) { x.goal = (*step).becameArmed }, func(x *space) *broken { return x.target })
	s.unsure = s.armed == nil && !s.blocked
}
