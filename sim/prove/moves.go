package prove

import (
	"slices"

	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// mostTogether is how many gestures one walk follows at a time: one, or two that might be made at once.
const mostTogether = 2

// mostStandings bounds one walk over gestures (ours): a walk over the shipped ones finds some ten thousand.
const mostStandings = 4 << 20

// standing is one situation of a craft with a good link whose sticks make gestures.
type standing struct {
	slot sim.SlotState
	set  [mostTogether]gestures.State
	// menu is a value of a Menu reading, as the bench sees it in the next slot; by is one more than the gesture that opened it.
	menu, by uint8
	// at is where each stick direction stands, by job: an index into moveSpace.levels.
	at [gestures.Directions]uint8
	// since has the bit of a gesture set whose first part the sticks last came into while the craft was armed.
	since uint8
}

// moveSpace is the search over gestures: hands take one stick at a time to its ends or its middle, both directions at once.
// Widths between these places make no gesture that these do not: every zone at an end of the stick's way is a stretch that reaches to
// that end.
type moveSpace struct {
	cfg    *sim.Config
	mode   uint8
	base   pulse.Frame
	levels [gestures.Directions][]pulse.Width
	sticks [2][2]gestures.Direction // left and right: across, up
	set    gestures.Config          // those that are followed
	which  []int                    // their numbers among the craft's
	ids    map[standing]uint64
	all    []standing
	found  [RuleCount]*clash
	made   [mostTogether]bool
	steps  uint64
	full   bool
	log    happening.Log
	stop   func()
}

// clash is a step that breaks a rule.
type clash struct {
	cost  explore.Cost
	place uint32
	to    standing
	of    int // which gesture, by its number among the craft's
	part  int // the part of it in which the sticks stand
	cause Cause
}

// stickChannels are the channels of the stick directions, in the order of gestures.Direction.
func stickChannels(cfg *sim.Config) [gestures.Directions]int8 {
	l := &cfg.Layout
	return [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw}
}

// newMoves begins a search with some of the craft's gestures.
func newMoves(s *search, which ...int) *moveSpace {
	c := &s.l.Config
	x := &moveSpace{
		cfg: c, mode: uint8(s.l.Radio.StickMode), base: s.h.frames[s.h.start&s.h.sentBits()], which: which,
		ids: map[standing]uint64{}, set: *c.Gestures,
	}
	for i, job := range gestures.OnSticks(x.mode) {
		x.sticks[i/2][i%2] = job
	}
	x.set.Patterns = nil
	for _, n := range which {
		p := c.Gestures.Patterns[n]
		with := p.With
		p.With = 0
		for i, other := range which {
			p.With |= with >> other & 1 << i
		}
		x.set.Patterns = append(x.set.Patterns, p)
	}
	for d, channel := range stickChannels(c) {
		x.levels[d] = levels(s.l.Radio.On(channel), x.base[channel])
	}
	return x
}

// levels are the places to which a stick is taken: its ends, the middle, and where it stands at the beginning.
func levels(c *handset.Control, begin pulse.Width) []pulse.Width {
	out := []pulse.Width{begin}
	if c == nil {
		return out
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	middle := c.Rest
	if c.Stays || !middle.Valid() {
		middle = pulse.Centre
	}
	for _, w := range []pulse.Width{low, min(max(middle, low), high), high} {
		if w.Valid() && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

func (x *moveSpace) frame(at *[gestures.Directions]uint8) pulse.Frame {
	f := x.base
	for d, channel := range stickChannels(x.cfg) {
		f[channel] = x.levels[d][at[d]]
	}
	return f
}

// step runs one slot with the sticks where at says, as sim/practice does: link and arming first, then gestures; the bench sees in
// the next slot that a menu is open.
func (x *moveSpace) step(s standing, at [gestures.Directions]uint8, tick int64) (standing, int) {
	x.log.N = 0
	f := x.frame(&at)
	in := sim.SlotInput{Transmitting: true, Sent: f}
	in.Craft.Menu = s.menu
	var facts sim.SlotFacts
	s.slot, facts = sim.StepSlot(x.cfg, s.slot, &in, tick, &x.log)
	before := s.at
	s.at = at
	was, armed := x.frame(&before), s.slot.Arming.Armed
	gi := gestures.Input{Sticks: sticksOf(x.cfg, &facts.Link.Frame), StickMode: x.mode, Valid: facts.Link.Valid, Live: counts(&s.slot) && s.menu == pulse.MenuClosed}
	fired := gestures.Step(&x.set, s.set[:len(x.which)], &gi, tick, &x.log)
	if fired >= 0 && s.menu == pulse.MenuClosed {
		if s.menu = opens(x.cfg, x.which[fired]); s.menu != pulse.MenuClosed {
			s.by = uint8(fired + 1)
		}
	}
	for i := range x.which {
		bit := uint8(1) << i
		if p := &x.set.Patterns[i]; !x.inside(p, 0, &f) {
			continue
		} else if armed { // gestures already count in the slot that disarms
			s.since |= bit
		} else if !x.inside(p, 0, &was) {
			s.since &^= bit
		}
	}
	x.steps++
	return s, fired
}

// inside reports whether the sticks stand in a part of a gesture.
func (x *moveSpace) inside(p *gestures.Pattern, part int, f *pulse.Frame) bool {
	return inside(x.cfg, p, part, x.mode, f)
}

// inside reports whether a frame's sticks stand fully in a part of a gesture.
func inside(cfg *sim.Config, p *gestures.Pattern, part int, mode uint8, f *pulse.Frame) bool {
	g, at := cfg.Gestures, sticksOf(cfg, f)
	for d, zone := range p.JobZones(part, mode) {
		switch w := at[d]; {
		case zone == gestures.Low && w > g.LowIn, zone == gestures.High && w < g.HighIn, zone == gestures.Middle && abs(w-pulse.Centre) > g.MiddleIn:
			return false
		}
	}
	return true
}

// Expand goes on from one standing: nothing moves, or one stick is taken to another place.
func (x *moveSpace) Expand(key uint64, place uint32, at explore.Cost, out []explore.Edge) []explore.Edge {
	from := x.all[key]
	x.go1(from, from.at, place, at, false, &out)
	for _, stick := range x.sticks {
		across, up := stick[0], stick[1]
		for i := range x.levels[across] {
			for j := range x.levels[up] {
				to := from.at
				if to[across], to[up] = uint8(i), uint8(j); to != from.at {
					x.go1(from, to, place, at, true, &out)
				}
			}
		}
	}
	return out
}

func (x *moveSpace) go1(from standing, at [gestures.Directions]uint8, place uint32, cost explore.Cost, moves bool, out *[]explore.Edge) {
	to, fired := x.step(from, at, 0)
	cost.Time++
	if moves {
		cost.Moves++
	}
	x.judge(&from, &to, fired, place, cost)
	id, known := x.ids[to]
	if !known {
		if len(x.all) >= mostStandings {
			x.full = true
			x.stop()
			return
		}
		id = uint64(len(x.all))
		x.all = append(x.all, to)
		x.ids[to] = id
	}
	*out = append(*out, explore.Edge{To: id, Costs: moves})
}

// judge holds one step against the rules about gestures.
func (x *moveSpace) judge(from, to *standing, fired int, place uint32, cost explore.Cost) {
	says := func(r Rule, c Cause, of, part int) {
		if b := x.found[r]; b == nil || cost.Less(b.cost) {
			x.found[r] = &clash{cost, place, *to, of, part, c}
		}
	}
	f := x.frame(&to.at)
	was, is := from.slot.Arming.Armed, to.slot.Arming.Armed
	for i, n := range x.which {
		p := &x.set.Patterns[i]
		for part := range int(p.Count) {
			if was == is || !x.inside(p, part, &f) {
				continue
			}
			if is {
				says(GestureNeverArms, GestureInArmCorner, n, part)
			} else {
				says(GestureAlsoDisarms, GestureInDisarmCorner, n, part)
			}
		}
	}
	if !was && is && from.menu != pulse.MenuClosed {
		cause := MenuUnknown
		if from.menu == pulse.MenuCraft || x.cfg.Arming.CameraMenuCounts {
			cause = KnownMenuArms
		}
		says(MenuSticksNeverArm, cause, x.which[from.by-1], 0)
	}
	made := 0
	for _, h := range x.log.All() {
		if h.Code == happening.Gesture {
			made++
		}
	}
	if fired < 0 {
		return
	}
	x.made[fired] = true
	if was || is || from.since>>fired&1 == 1 {
		says(ArmedOpensNoMenu, MadeWhileArmed, x.which[fired], 0)
	}
	if made > 1 {
		for i := range x.which {
			if i != fired && x.set.Patterns[fired].With>>i&1 == 0 {
				says(OneGestureAtATime, TwoAtOnce, x.which[fired], 0)
			}
		}
	}
}
