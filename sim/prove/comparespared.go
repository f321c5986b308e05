package prove

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"

	"propsoff.example/sim/pulse"
)

// LeftOut is a stretch of a control that was not compared: the two radios do not reach equally far, and it is less than a hand can hold.
type LeftOut struct {
	// Controls are its indices in the two radios. It reaches from From to To as each of them sends it.
	Controls [2]int
	From, To [2]pulse.Width
}

// Shaken is a place of a control from which noise takes it to where a craft takes it otherwise.
type Shaken struct {
	// Layout is 0 or 1, Control an index in its radio; Position is that of a switch, −1 for others.
	Layout, Control, Position int
	// At is what the control sends there without noise, To the nearest that noise makes of it and that the craft takes otherwise.
	At, To pulse.Width
}

// shaken finds every such place of both radios, and reports whether noise changes the same of the one as of the other.
func (h *pairHands) shaken() (all []Shaken, same bool) {
	var kinds [2][]string
	for n, pair := range h.pairs {
		for i, at := range pair {
			if at < 0 {
				continue
			}
			classes := h.means[i].classes(at)
			for k := range classes {
				calm := &classes[k]
				if !calm.calm {
					continue
				}
				with := func(o *class) bool { return o != calm && o.trembles == calm.trembles }
				one := Shaken{Layout: i, Control: at, Position: calm.position, At: calm.width}
				best := pulse.Width(-1)
				for m := range classes {
					if o := &classes[m]; with(o) {
						kinds[i] = append(kinds[i], fmt.Sprint(n, calm.sign, calm.also, o.sign, o.also))
						if d := abs(o.width - calm.width); best < 0 || d < best {
							best, one.To = d, o.width
						}
					}
				}
				all = append(all, one)
			}
		}
	}
	for i := range kinds {
		slices.Sort(kinds[i])
		kinds[i] = slices.Compact(kinds[i])
	}
	slices.SortStableFunc(all, func(a, b Shaken) int { return cmp.Compare(a.Layout, b.Layout) })
	return all, reflect.DeepEqual(kinds[0], kinds[1])
}
