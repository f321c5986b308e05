package mend

import (
	"math/bits"

	"propsoff.example/sim/prove"
)

// mostWitnesses is how many whole searches are spent at most on showing that no fewer rules exclude each other (ours).
const mostWitnesses = 24

// exclude finds as few rules as it can of which every set of changes that was tried leaves one broken. Of each of them it then looks for a
// set of changes that breaks none of the others: where there is one for each, no fewer of these rules exclude each other.
func (f *finder) exclude() {
	spent := 0
	for {
		s := f.covering()
		f.r.Exclude, f.r.Fewest = rulesOf(s), bits.OnesCount64(uint64(s)) == 1
		if f.r.Fewest {
			return
		}
		needed := 0
		for _, r := range f.r.Exclude {
			switch f.witness(s&^of(r), &spent) {
			case stoppedShort:
				return
			case oneIs:
				needed++
			}
		}
		if needed == len(f.r.Exclude) {
			f.r.Fewest = true
			return
		}
	}
}

// covering is the smallest set of rules of which every set of changes breaks one, as far as is known.
func (f *finder) covering() ruleSet {
	var masks []ruleSet
	known := map[ruleSet]bool{}
	for i := range f.sets {
		if m := f.sets[i].broken; !known[m] {
			known[m] = true
			masks = append(masks, m)
		}
	}
	for size := 1; ; size++ {
		if s, ok := cover(masks, 0, size); ok {
			return s
		}
	}
}

// cover adds up to so many rules to s until it meets each mask.
func cover(masks []ruleSet, s ruleSet, left int) (ruleSet, bool) {
	for _, m := range masks {
		if m&s != 0 {
			continue
		}
		if left == 0 {
			return 0, false
		}
		for _, r := range rulesOf(m) {
			if out, ok := cover(masks, s|of(r), left-1); ok {
				return out, true
			}
		}
		return 0, false
	}
	return s, true
}

func rulesOf(s ruleSet) (out []prove.Rule) {
	for r := range prove.RuleCount {
		if s&of(r) != 0 {
			out = append(out, r)
		}
	}
	return out
}

// found is whether there is a set of changes that breaks none of some rules.
type found uint8

const (
	noneIs found = iota
	oneIs
	stoppedShort
)

// witness looks for a set of changes that breaks none of some rules. What it learns of others on the way is kept.
func (f *finder) witness(of ruleSet, spent *int) found {
	for i := range f.sets {
		t := &f.sets[i]
		if t.broken&of != 0 {
			continue
		}
		l, ok := Apply(f.l, f.changes(t.of))
		if !ok {
			continue
		}
		if more := f.breaksOf(&l, of); more != 0 {
			t.broken |= more
			continue
		}
		if *spent++; *spent > mostWitnesses {
			return stoppedShort
		}
		f.r.Proofs++
		report, err := prove.Search(l, f.options(nil))
		if f.stopped {
			return stoppedShort
		}
		if err == nil {
			f.learn(&report)
			if t.broken |= brokenIn(&report); t.broken&of == 0 {
				return oneIs
			}
		} else {
			t.broken = ^ruleSet(0)
		}
	}
	return noneIs
}

// breaksOf are those of some rules that a layout is quickly found to break.
func (f *finder) breaksOf(l *prove.Layout, some ruleSet) (broken ruleSet) {
	t, err := prove.NewTrial(l)
	if err != nil {
		return some
	}
	for i := len(f.ways) - 1; i >= 0; i-- {
		if k := &f.ways[i]; some&of(k.rule) != 0 && t.Breaks(k.rule, k.way) {
			return of(k.rule)
		}
	}
	return (f.statics(l) | f.byGestures(l)) & some
}
