package prove

import (
	"cmp"
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/prove/explore"
)

// gathered is what comes of the steps of a search besides where they lead.
type gathered struct {
	// guesses are the watches whose guess is held against every step; a watch that was contradicted leaves the list.
	guesses []watch
	// doubtful are those that left it, in the order of the steps that contradicted them, and doubtAt the places where these begin.
	doubtful []watch
	doubtAt  []uint32
	// found is the first step on the shortest way to a broken rule.
	found [RuleCount]*broken
	// firstArmed is the first step that armed; cornered: sticks disarmed in some step.
	firstArmed *broken
	cornered   bool
	// wrong: the bench itself, asked for a whole slot, did not do what its parts did.
	wrong bool
	steps uint64
}

// crew is what a space that is shared between workers knows of that.
type crew struct {
	copies []*space
	// root is whose copy this is, nil for the first.
	root *space
	// kept is what had been gathered when they began to expand situations together.
	kept gathered
}

// Copy gives a space for another worker, who asks the bench for himself.
func (x *space) Copy(marks *explore.Marks, stop func()) explore.Shared {
	c := *x.c
	c.odd, c.oddAs = nil, map[sim.SlotState]uint64{}
	y := spaceOf(&c, x.watched)
	y.few, y.long, y.toggles, y.marks, y.stop = x.few, x.long, x.toggles, marks, stop
	y.shared = &crew{root: x}
	if x.shared == nil {
		x.shared = &crew{}
	}
	x.shared.copies = append(x.shared.copies, y)
	return y
}

// Alone: a state has come up that must be numbered, and only the first space gives numbers; or what is looked for has been found, and others
// may be further on already.
func (x *space) Alone() bool { return len(x.c.odd) > 0 || x.enough() }

// Share has everybody begin with what was gathered so far.
func (x *space) Share() {
	x.shared.kept = x.gathered
	for _, y := range x.shared.copies {
		y.gathered = x.gathered
		y.steps = 0
	}
}

// Kept takes over what a round gathered, or forgets it. The first space is told last.
func (x *space) Kept(counts bool) {
	switch {
	case x.shared.root != nil:
	case counts:
		x.gather()
	default:
		x.gathered, x.shared = x.shared.kept, nil
		x.c.odd, x.c.full = nil, false
		clear(x.c.oddAs)
	}
}

// gather puts together what the workers gathered, as if one had gone through all steps in order.
func (x *space) gather() {
	type doubt struct {
		watch
		at uint32
	}
	var doubts []doubt
	known := len(x.shared.kept.doubtful)
	for _, y := range append([]*space{x}, x.shared.copies...) {
		for i := known; i < len(y.doubtful); i++ {
			doubts = append(doubts, doubt{y.doubtful[i], y.doubtAt[i]})
		}
		if y == x {
			continue
		}
		for r, b := range y.found {
			x.found[r] = b.first(x.found[r])
		}
		x.firstArmed = y.firstArmed.first(x.firstArmed)
		x.cornered, x.wrong = x.cornered || y.cornered, x.wrong || y.wrong
		x.steps += y.steps
	}
	if len(doubts) > 0 {
		slices.SortStableFunc(doubts, func(a, b doubt) int { return cmp.Compare(a.at, b.at) })
		x.guesses, x.doubtful, x.doubtAt = x.shared.kept.guesses, slices.Clone(x.doubtful[:known]), slices.Clone(x.doubtAt[:known])
		for _, d := range doubts {
			x.doubt(d.watch, d.at)
		}
	}
}

// doubt takes a watch off the list of those whose guess is good, if it still stands there.
func (x *gathered) doubt(w watch, at uint32) {
	if i := slices.Index(x.guesses, w); i >= 0 {
		x.guesses = slices.Delete(slices.Clone(x.guesses), i, i+1)
		x.doubtful, x.doubtAt = append(slices.Clip(x.doubtful), w), append(slices.Clip(x.doubtAt), at)
	}
}

// first is the one of two steps that breaks the rule at less cost, or sooner in the search.
func (b *broken) first(c *broken) *broken {
	if c == nil || b != nil && (b.cost.Less(c.cost) || b.cost == c.cost && b.place < c.place) {
		return b
	}
	return c
}
