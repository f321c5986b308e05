package facts

import (
	"reflect"

	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
)

// LayoutsOf puts two crafts and their radios together, to be held against each other. Where both have one and the same radio, or neither has a file
// and one ideal radio serves both, its controls stay on their channels, whichever craft listens: OneRadio.
func LayoutsOf(crafts [2]*craftfile.File, files [2]*radio.File, infos [2]*input.Info) [2]prove.Layout {
	var l [2]prove.Layout
	for i := range l {
		l[i] = LayoutOf(crafts[i], files[i], infos[i])
	}
	var both handset.Radio
	switch {
	case files[0] == nil && files[1] == nil:
		both = radioreach.IdealForBoth(crafts[0], crafts[1])
	case files[0] != nil && files[1] != nil && (files[0] == files[1] || reflect.DeepEqual(files[0], files[1])):
		both = radioreach.HandsetForBoth(files[0], infos[0], crafts[0].Names(), crafts[1].Names())
	default:
		return l
	}
	l[0].Radio, l[1].Radio = both, both
	return l
}

// OneRadio tells whether one radio serves both crafts.
func OneRadio(l *[2]prove.Layout) bool { return reflect.DeepEqual(l[0].Radio, l[1].Radio) }

// Compare holds two layouts against each other. progress, where given, is told how far it is and may stop it.
func Compare(l [2]prove.Layout, progress func(prove.Progress) (stop bool)) (prove.Comparison, error) {
	return prove.Compare(l[0], l[1], prove.Options{Progress: progress})
}
