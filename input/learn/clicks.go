package learn

import (
	"slices"

	"propsoff.example/input/radio"
)

// A slow hand leads a switch as it turns a knob, and a quick one turns a knob in leaps: no reading tells, the pilot does.

// canClick tells whether what was found last could be a switch or a knob: an axis that stood in two places or more, well apart.
func (l *Learner) canClick() bool {
	if l.last < 0 || l.found[l.last].control.Form != radio.Axis {
		return false
	}
	a := &l.found[l.last]
	levels, apart := l.levelsAmong(a.control.Axis, slices.Concat(a.stands, a.passed))
	return apart && len(levels) > 1
}

// SetClicks corrects whether what was found last is a switch, which a slow hand led through its positions as a knob is turned, or a knob,
// which was turned in leaps. It does nothing where View.CanClick is false.
func (l *Learner) SetClicks(is bool) {
	if !l.canClick() || l.found[l.last].knob != is {
		return
	}
	a := &l.found[l.last]
	if !is {
		l.turns(a)
		return
	}
	a.stands = a.passed
	levels, _ := l.levelsAmong(a.control.Axis, a.stands)
	a.clicks(levels)
}

// turns makes an answer on an axis a knob; the stands are kept, for it may be a switch all the same (SetClicks).
func (l *Learner) turns(a *answer) {
	t := &l.axes[a.control.Axis]
	a.knob, a.stands, a.passed = true, nil, a.stands
	p := t.place(a.home)
	a.control.Momentary, a.control.Stays = false, !(p >= lowerEnd && p <= upperEnd && t.away(a.home) <= stepped)
}

// clicks makes an answer on an axis a switch with these levels among its stands.
func (a *answer) clicks(levels []level) {
	path := make([]int, 0, len(a.stands))
	for k := range a.stands {
		if at := levelIndex(levels, a.stands[k].dwell.mean); len(path) == 0 || at != path[len(path)-1] {
			path = append(path, at)
		}
	}
	row := make([]int, len(levels))
	for k := range row {
		row[k] = k
	}
	a.knob, a.passed = false, nil
	a.control.Stays, a.control.Momentary = false, springsBack(path, row)
}
