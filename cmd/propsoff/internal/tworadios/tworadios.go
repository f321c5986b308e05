// Package tworadios searches what the hands on a pupil's and on an instructor's radio can bring about together.
//
// It walks the pair's own rule of who has the sticks (pair.Config.Settle) and the bench's own slot (sim.StepSlot), and no second model of either. Each
// movement of either hand, each press of the pupil's plug and transmitter, is made from every situation in which nothing changes any more: so what
// comes of positions is searched whole, and what comes only of two movements in quick succession is not. Every way is then made on the whole bench.
package tworadios

import (
	"slices"

	"propsoff.example/input/pair"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// Layout is what is searched: a craft and the pupil's radio, the instructor's, and what on his does what.
type Layout struct {
	prove.Layout
	His  handset.Radio
	Pair pair.Config
	// Takes is the control of his radio that takes the sticks, −1 where it has none.
	Takes int
}

// Found is what a search found.
type Found struct {
	// Results has one for each rule about two radios; their controls are indices into Both.
	Results []prove.Result
	// Both is the layout with the controls of both radios, the pupil's first.
	Both prove.Layout
	// His is the instructor's radio, Takes the control of it that takes the sticks, −1 for none, and From the least width at which it does.
	His   handset.Radio
	Takes int
	From  pulse.Width
	// Situations is how many were searched.
	Situations int
	// Partial: it was stopped, or there are too many.
	Partial bool
}

// mostSituations bounds the search (ours).
const mostSituations = 400_000

// Search searches it. canArm tells whether the pupil's radio by itself can arm the craft; stop, where given, is asked now and then.
func Search(l Layout, canArm bool, stop func() bool) Found {
	if l.Pair.Switch < 0 { // no switch takes the sticks, and none that there is may pass for it
		l.Pair.Switch, l.Takes = l.free(), -1
	}
	w := newWalk(&l)
	j := &judge{w: w, l: &l, canArm: canArm}
	w.seen = j.see
	w.run(stop)
	return Found{Results: j.results(), Both: *w.both, His: l.His, Takes: l.Takes, From: l.Pair.SwitchSpan.Low, Situations: len(w.all), Partial: w.partial}
}

// free is a channel to which neither craft nor instructor's radio gives a meaning.
func (l *Layout) free() int8 {
	y := &l.Config.Layout
	for ch := int8(pulse.Channels - 1); ch > 0; ch-- {
		if l.His.On(ch) == nil && !slices.Contains([]int8{y.Throttle, y.Roll, y.Pitch, y.Yaw, y.Arm, y.Second, y.Mode}, ch) {
			return ch
		}
	}
	return 0
}

// bothOf is a layout with the controls of both radios.
func bothOf(l *Layout) *prove.Layout {
	both := l.Layout
	n := len(l.Radio.Controls)
	both.Radio.Controls = append(make([]handset.Control, 0, n+len(l.His.Controls)), l.Radio.Controls...)
	for _, c := range l.His.Controls {
		if c.Tutors = true; c.Same != 0 {
			c.Same += n
		}
		both.Radio.Controls = append(both.Radio.Controls, c)
	}
	return &both
}
