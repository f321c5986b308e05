package learn

import (
	"slices"

	"propsoff.example/input/radio"
)

// orderOf finds the order of positions from the path through them, which begins at path[0] and has no position twice in
// a row. Begun at the first position, it is the order of the first visits. Begun in the middle of three, the first one
// is passed again on the way from the second to the third. Keys that spring back (one a position, each followed by
// none) have no resting place of their own: then none is no position. ok is false where the path allows no answer.
func orderOf(path []int) (row []int, ok bool) {
	for _, p := range path {
		if !slices.Contains(row, p) {
			row = append(row, p)
		}
	}
	last := slices.Index(path, row[len(row)-1])
	if len(row) < 3 || !slices.Contains(path[1:last], path[0]) {
		return row, true
	}
	if len(row) == 3 {
		return []int{row[1], row[0], row[2]}, true
	}
	if path[0] != radio.None {
		return nil, false
	}
	for i, p := range path {
		if i%2 == 0 != (p == radio.None) {
			return nil, false
		}
	}
	return row[1:], true
}

// springsBack tells whether a control that was led along path springs back: it ended where it began, without a stay in
// any other position on the way back (of two positions), or in the middle one of three, where it began too.
func springsBack(path []int, row []int) bool {
	if len(path) < 3 || path[0] != path[len(path)-1] || !slices.Contains(row, path[0]) {
		return false
	}
	switch len(row) {
	case 2:
		return true
	case 3:
		for i, p := range path {
			if (i%2 == 0) != (p == row[1]) {
				return false
			}
		}
		return true
	}
	return false
}
