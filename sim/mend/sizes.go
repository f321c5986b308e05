package mend

import (
	"slices"

	"propsoff.example/sim/prove"
)

// sizes tries sets of one change, then of two, and so on. Of the least size that mends, those come first for which the least must be
// relearnt. Where that is a habit of the hands all the same, a mend of one change more that asks for less is looked for too.
func (f *finder) sizes() {
	for size := 1; size <= f.o.Changes && !f.stopped; size++ {
		before := len(f.r.Mends)
		bound := -1
		if before > 0 {
			if bound = f.least(); bound < habit {
				return
			}
		}
		f.size(size, bound)
		if before > 0 {
			return
		}
	}
}

// least is what must be relearnt for the mend found that asks for the least.
func (f *finder) least() int {
	least := f.r.Mends[0].Relearn
	for i := range f.r.Mends {
		least = min(least, f.r.Mends[i].Relearn)
	}
	return least
}

// size tries all sets of so many changes: first those each of whose changes has a part in it by itself. below, where not negative, leaves
// out those for which no less must be relearnt, and what is not likely.
func (f *finder) size(n, below int) {
	all := f.combine(n, below)
	f.r.Changes = n
	f.now.Changes, f.now.Tried, f.now.Of = n, 0, len(all)
	var rest []set
	for i := 0; i < len(all) && !f.enough(all[i]); i++ {
		if !f.likely(all[i]) {
			rest = append(rest, all[i])
			continue
		}
		f.try(all[i])
	}
	if below >= 0 || len(f.r.Mends) > 0 {
		return
	}
	for i := 0; i < len(rest) && !f.enough(rest[i]); i++ {
		f.try(rest[i])
	}
}

// enough reports whether a set need not be tried: there are mends enough, or one that no hand feels while hands must learn for this one.
func (f *finder) enough(s set) bool {
	if f.ask() || len(f.r.Mends) >= f.o.Mends {
		return true
	}
	return len(f.r.Mends) > 0 && f.least() < habit && f.relearn(s) >= habit
}

// combine are all sets of n changes that may be made together and contain no mend; those for which the least must be relearnt come first.
func (f *finder) combine(n, below int) (all []set) {
	var s set
	var go1 func(from int)
	go1 = func(from int) {
		if len(s) == n {
			if below < 0 || f.relearn(s) < below {
				all = append(all, slices.Clone(s))
			}
			return
		}
		for i := from; i < len(f.singles); i++ {
			if !slices.ContainsFunc(s, func(o int16) bool { return !together(&f.singles[o], &f.singles[i]) }) {
				s = append(s, int16(i))
				go1(i + 1)
				s = s[:len(s)-1]
			}
		}
	}
	go1(0)
	slices.SortStableFunc(all, func(a, b set) int { return f.relearn(a) - f.relearn(b) })
	return all
}

func (f *finder) relearn(s set) (n int) {
	for _, i := range s {
		n += f.singles[i].Relearn
	}
	return n
}

// try tries one set of changes: known ways are run through it, then what needs no search is asked, then a coarse copy of it is searched,
// and what is left is searched whole.
func (f *finder) try(s set) {
	f.r.Tried++
	f.now.Tried++
	changes := f.changes(s)
	l, ok := Apply(f.l, changes)
	if !ok {
		return
	}
	broken := f.quickly(&l)
	if broken == 0 {
		broken = f.byGestures(&l)
	}
	if broken == 0 {
		broken = f.coarsely(&l)
	}
	if broken != 0 {
		f.note(s, broken)
		return
	}
	report, broken := f.whole(&l)
	switch {
	case broken != 0:
		f.note(s, broken)
	case report != nil:
		f.r.Mends = append(f.r.Mends, Mend{Changes: changes, Relearn: f.relearn(s), After: l, Proof: *report})
	}
}

// quickly are rules that a layout is found to break without a search of its own; not all of them.
func (f *finder) quickly(l *prove.Layout) ruleSet {
	t, err := prove.NewTrial(l)
	if err != nil {
		return ^ruleSet(0)
	}
	for i := len(f.ways) - 1; i >= 0; i-- {
		if k := &f.ways[i]; t.Breaks(k.rule, k.way) {
			return of(k.rule)
		}
	}
	return f.statics(l)
}

// coarseSlot is the slot of a coarse copy, in ms (ours): the shortest time that usually counts, the silence limit, has three of them.
const coarseSlot = 80

// coarsely searches a copy of a layout whose slots are longer, without its gestures, until it finds a rule broken. A way from there
// counts only where it breaks the layout itself.
func (f *finder) coarsely(l *prove.Layout) ruleSet {
	c := *l
	cfg := &c.Config
	if cfg.SlotTicks >= coarseSlot {
		return 0
	}
	cfg.Gestures, cfg.Menus = nil, nil
	for _, slots := range [...]*uint16{&cfg.Link.SilenceSlots, &cfg.Link.CleanSlots, &cfg.Arming.StillSlots, &cfg.Arming.ArmDwell, &cfg.Arming.DisarmDwell, &cfg.Arming.SinkSlots} {
		*slots = uint16((int(*slots)*int(cfg.SlotTicks) + coarseSlot - 1) / coarseSlot)
	}
	cfg.SlotTicks = coarseSlot
	found, err := prove.Search(c, f.options(func(p prove.Progress) bool { return p.Broken > 0 }))
	if err != nil || f.stopped {
		return 0
	}
	return f.confirmed(l, &found)
}

// confirmed are the rules that the ways of a report break in a layout; such a way is known from then on.
func (f *finder) confirmed(l *prove.Layout, found *prove.Report) (broken ruleSet) {
	t, err := prove.NewTrial(l)
	if err != nil {
		return 0
	}
	for i := range found.Results {
		r := &found.Results[i]
		if r.Outcome != prove.Broken || r.Way == nil {
			continue
		}
		if w := slowly(r.Way); t.Breaks(r.Rule, w) {
			f.ways = append(f.ways, known{r.Rule, w})
			broken |= of(r.Rule)
		}
	}
	return broken
}

// slowly is a way in coarse slots with each of its movements lasting as long as there.
func slowly(w *prove.Way) *prove.Way {
	out := *w
	out.Steps = nil
	for _, st := range w.Steps {
		out.Steps = append(out.Steps, st)
		if st.Kind != prove.Start && st.Kind != prove.Wait {
			out.Steps = append(out.Steps, prove.Step{Kind: prove.Wait, Ms: coarseSlot, Control: -1})
		}
	}
	return &out
}

// whole searches a layout whole, until it is done or finds a rule broken. report is nil where it was stopped by whoever asked.
func (f *finder) whole(l *prove.Layout) (report *prove.Report, broken ruleSet) {
	f.r.Proofs++
	defer func() { f.now.Search = prove.Progress{} }()
	found, err := prove.Search(*l, f.options(func(p prove.Progress) bool { return p.Broken > 0 }))
	if err != nil {
		return nil, ^ruleSet(0)
	}
	f.learn(&found)
	switch {
	case sound(&found):
		return &found, 0
	case f.stopped:
		return nil, 0
	}
	for i := range found.Results {
		if r := &found.Results[i]; r.Outcome == prove.Broken {
			broken |= of(r.Rule)
		}
	}
	if broken == 0 { // open: it ran out of memory
		broken = brokenIn(&found)
	}
	return nil, broken
}
