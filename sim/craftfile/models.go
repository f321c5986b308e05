package craftfile

import (
	"propsoff/sim"
	"propsoff/sim/flight"
	"propsoff/sim/vec"
)

// defaults are what stands for what a craft file of a model leaves out. An older model's stay what they were, whatever becomes of
// today's: its takes were recorded with them.
func defaults(model int) sim.Config {
	cfg := sim.Default()
	if model >= 2 {
		return cfg
	}
	cfg.Flight.IdleSpeed = flight.FullSpeed * 6 / 100
	full := [3]float64{420, 420, 260}
	exponential := [3]float64{0.3, 0.3, 0.2}
	for i := range cfg.Control.Curve {
		cfg.Control.Curve[i] = flight.Curve{Full: vec.Mul(full[i], flight.Degree), Exponential: exponential[i]}
	}
	cfg.FitControl()
	return cfg
}
