package facts

import (
	"propsoff/cmd/propsoff/internal/radioreach"
	"propsoff/input/radio"
	"propsoff/sim/craftfile"
	"propsoff/sim/prove"
)

// LayoutsOf puts two crafts and their radios together, to be held against each other. Where neither has a file, one ideal radio serves both: its
// controls stay on their channels, whichever craft listens.
func LayoutsOf(crafts [2]*craftfile.File, files [2]*radio.File) [2]prove.Layout {
	var l [2]prove.Layout
	for i := range l {
		l[i] = LayoutOf(crafts[i], files[i], nil)
	}
	if files[0] == nil && files[1] == nil {
		both := radioreach.IdealForBoth(crafts[0], crafts[1])
		l[0].Radio, l[1].Radio = both, both
	}
	return l
}

// Compare holds two layouts against each other. progress, where given, is told how far it is and may stop it.
func Compare(l [2]prove.Layout, progress func(prove.Progress) (stop bool)) (prove.Comparison, error) {
	return prove.Compare(l[0], l[1], prove.Options{Progress: progress})
}
