package mend

import (
	"cmp"
	"slices"

	"propsoff.example/sim/prove"
)

// most and mostMends are how many changes a mend has at most, and how many mends are given, where Options do not say.
const most, mostMends = 3, 3

// Find searches a layout, and where a rule is broken or open, the smallest changes after which all hold. taken has the bits of the channels
// on which jobs of the pilot's own stand: no switch there gets another job.
func Find(l prove.Layout, taken uint16, o Options) (Report, error) {
	f := finder{l: &l, o: o, gestures: map[standing]ruleSet{}}
	if f.o.Changes == 0 {
		f.o.Changes = most
	}
	if f.o.Mends == 0 {
		f.o.Mends = mostMends
	}
	f.r.Proofs = 1
	before, err := prove.Search(l, f.options(nil))
	if err != nil {
		return Report{}, err
	}
	f.r.Before = before
	if f.stopped || sound(&before) {
		f.r.Partial = f.stopped
		return f.r, nil
	}
	f.singles = singles(&l, taken)
	f.r.Singles = len(f.singles)
	f.learn(&before)
	f.note(nil, brokenIn(&before)) // that changing nothing does not mend it is known
	for _, c := range f.singles {
		f.effect(c)
	}
	f.sizes()
	if len(f.r.Mends) == 0 && !f.stopped {
		f.exclude()
	}
	f.r.Partial = f.stopped
	slices.SortStableFunc(f.r.Mends, func(a, b Mend) int { return cmp.Compare(a.Relearn, b.Relearn) })
	return f.r, nil
}

// finder is one Find under way.
type finder struct {
	l       *prove.Layout
	o       Options
	r       Report
	singles []Change
	// ways are the known ways to broken rules.
	ways []known
	// single is what each single change does by itself.
	single []effect
	// sets are all sets of changes tried, with rules that each is known to leave broken; not all need be known.
	sets []tried
	// gestures has the rules that gestures break, by what these depend on.
	gestures map[standing]ruleSet
	stopped  bool
	now      Progress
}

// known is a way to a broken rule.
type known struct {
	rule prove.Rule
	way  *prove.Way
}

// effect is what one change does by itself.
type effect struct {
	trial *prove.Trial
	// broken are the rules that are broken by what the layout is with it; cures says of each known way whether it breaks its rule no more.
	broken ruleSet
	cures  []bool
	// can is false where it cannot be made by itself; nothing is known of it then.
	can bool
}

// set is a set of single changes, as indices, in order.
type set []int16

type tried struct {
	of     set
	broken ruleSet
}

// ruleSet is a set of rules.
type ruleSet uint64

const _ = uint(64 - prove.RuleCount) // each has its bit

func of(r prove.Rule) ruleSet { return 1 << r }

// brokenIn are the rules of a report that do not hold.
func brokenIn(r *prove.Report) ruleSet { return whose(r, prove.Broken) | whose(r, prove.Undecided) }

// whose are the rules of a report that came to an outcome.
func whose(r *prove.Report, is prove.Outcome) (out ruleSet) {
	for i := range r.Results {
		if r.Results[i].Outcome == is {
			out |= of(r.Results[i].Rule)
		}
	}
	return out
}

// options are those of one search under way; enough, where given, says when it has shown enough.
func (f *finder) options(enough func(prove.Progress) bool) prove.Options {
	return prove.Options{MostBytes: f.o.MostBytes, Progress: func(p prove.Progress) bool {
		f.now.Search = p
		return f.ask() || enough != nil && enough(p)
	}}
}

// ask tells how far it is, and reports whether it is to stop.
func (f *finder) ask() bool {
	if f.o.Progress != nil && !f.stopped {
		p := f.now
		p.Tried, p.Proofs, p.Mends = f.now.Tried, f.r.Proofs, len(f.r.Mends)
		f.stopped = f.o.Progress(p)
	}
	return f.stopped
}

// learn keeps the ways of a report to try others with; of each rule the ways found last come first.
func (f *finder) learn(r *prove.Report) {
	for i := range r.Results {
		if o := &r.Results[i]; o.Outcome == prove.Broken && o.Way != nil && len(o.Way.Steps) > 0 {
			f.ways = append(f.ways, known{o.Rule, o.Way})
		}
	}
}

// effect works out what one change does by itself.
func (f *finder) effect(c Change) {
	e := effect{}
	if l, ok := Apply(f.l, []Change{c}); ok {
		if t, err := prove.NewTrial(&l); err == nil {
			e.trial, e.can, e.broken = t, true, f.statics(&l)
		}
	}
	f.single = append(f.single, e)
}

// cures reports whether a known way breaks its rule no more with a single change.
func (f *finder) cures(single int16, way int) bool {
	e := &f.single[single]
	for len(e.cures) <= way {
		k := &f.ways[len(e.cures)]
		e.cures = append(e.cures, !e.can || !e.trial.Breaks(k.rule, k.way))
	}
	return e.cures[way]
}

// likely reports whether each known way, and each rule that the layout breaks by what it is, is cured by one of a set by itself. What
// is not likely may mend it all the same, by what its changes do together; it is tried later.
func (f *finder) likely(s set) bool {
	for i := range f.ways {
		if !slices.ContainsFunc(s, func(n int16) bool { return f.cures(n, i) }) {
			return false
		}
	}
	left := ^ruleSet(0)
	for _, n := range s {
		if f.single[n].can {
			left &= f.single[n].broken
		} else {
			left = 0
		}
	}
	return left == 0
}

// statics are the rules that are broken by what a layout is, whatever anybody does: a search that is stopped at once finds them.
func (f *finder) statics(l *prove.Layout) ruleSet {
	r, err := prove.Search(*l, prove.Options{MostBytes: 1, Progress: func(prove.Progress) bool { return true }})
	if err != nil {
		return ^ruleSet(0)
	}
	broken := whose(&r, prove.Broken)
	if _, never := prove.NeverArms(l); never {
		broken |= of(prove.CanArm)
	}
	return broken
}

// changes are those of a set, in the order in which they are made.
func (f *finder) changes(s set) []Change {
	out := make([]Change, len(s))
	for i, n := range s {
		out[i] = f.singles[n]
	}
	slices.SortStableFunc(out, order)
	return out
}

// note keeps that a set of changes leaves rules broken.
func (f *finder) note(s set, broken ruleSet) {
	f.sets = append(f.sets, tried{slices.Clone(s), broken})
}
