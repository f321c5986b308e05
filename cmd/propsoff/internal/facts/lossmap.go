package facts

import (
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/link"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/pulse"
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

// LossMap begins the map of a craft with a receiver over the usual axes, and gives the craft with that receiver; what it has stored counts where it
// sends stored values.
func LossMap(craft *sim.Config, way link.OnLoss, stored lossrun.Stored) (*lossmap.Map, sim.Config) {
	axes := lossmap.Usual(craft)
	hovers := lossmap.Held(craft, axes.Throttles[lossmap.Hover])
	cfg := lossrun.WithReceiver(*craft, way, stored.Frame(craft, &hovers))
	var stores func(last *pulse.Frame) pulse.Frame
	if way == link.SendsStored {
		stores = func(last *pulse.Frame) pulse.Frame { return stored.Frame(craft, last) }
	}
	return lossmap.New(&cfg, axes, stores), cfg
}

// HardLanding is the speed, m/s, from which a touch of the ground that breaks nothing is a hard landing.
const HardLanding = 3
