package facts

import (
	"propsoff/sim"
	"propsoff/sim/lossmap"
)

// LossFrom is what comes of a craft that hovers so many metres up in still air, its pack full, when its radio falls silent; ok is false
// where its receiver's stored values do not leave it level.
func LossFrom(craft *sim.Config, height float64) (o lossmap.Outcome, ok bool) {
	throttle := HoverThrottle(craft)
	r, c := lossmap.React(craft, throttle), lossmap.Of(craft)
	if !r.Level {
		return o, false
	}
	return lossmap.Fall(&c, &r, &lossmap.Point{Height: height, Throttle: throttle}), true
}

// LossMap begins the map of a craft over the usual axes.
func LossMap(craft *sim.Config) *lossmap.Map { return lossmap.New(craft, lossmap.Usual(craft)) }

// HardLanding is the speed, m/s, from which a touch of the ground that breaks nothing is a hard landing.
const HardLanding = 3
