package examine

import (
	"cmp"
	"slices"
)

// Belief is what a pupil takes to be so of one thing, by what was foreseen in all questions about it.
type Belief struct {
	Ask   Ask
	About About
	// Came is how often it came up, Wrong how often it was taken wrongly, in all and by how.
	Came, Wrong int
	By          [VerdictCount]int
}

// Beliefs are all that came up, the one that was taken wrongly most often first, those never taken wrongly last.
func Beliefs(asked []Asked) (all []Belief) {
	for i := range asked {
		a := &asked[i]
		n := slices.IndexFunc(all, func(b Belief) bool { return b.Ask == a.Ask && b.About == a.About })
		if n < 0 {
			n, all = len(all), append(all, Belief{Ask: a.Ask, About: a.About})
		}
		b := &all[n]
		b.Came++
		b.By[a.Verdict]++
		b.Wrong = b.Came - b.By[Foreseen]
	}
	slices.SortStableFunc(all, func(a, b Belief) int { return cmp.Compare(b.Wrong, a.Wrong) })
	return all
}

// Right is how many of some questions were foreseen.
func Right(asked []Asked) (n int) {
	for i := range asked {
		n += bit(asked[i].Verdict == Foreseen)
	}
	return n
}
