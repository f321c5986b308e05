package craftfile

import (
	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/vec"
)

// defaults are what stands for what a craft file of a model leaves out. An older model's stay what they were, whatever becomes of
// today's: its takes were recorded with them.
func defaults(model int) sim.Config {
	cfg := sim.Default()
	if model >= 3 {
		return cfg
	}
	second(&cfg)
	if model == 1 {
		first(&cfg)
	}
	cfg.FitControl()
	return cfg
}

// second is what model 2 had: thrust whatever the air does, motors that weigh nothing, a pack that ends only with its charge.
func second(cfg *sim.Config) {
	b := &cfg.Body
	full := vec.Mul(24800, body.RPM)
	*b = body.Config{
		Mass: 0.45, Inertia: vec.V{X: vec.Mul(2.1, 1e-3), Y: vec.Mul(2.3, 1e-3), Z: vec.Mul(3.8, 1e-3)},
		ArmForward: 0.08, ArmRight: 0.08, HalfHeight: 0.025, FullSpeed: full, Lag: 0.03,
		Thrust: body.PerSquare(6.55, full), Torque: body.PerSquare(0.055, full), Reversed: 0.5, Diameter: 0.127,
		Turns: body.Directions(true), Hand: body.Directions(true),
		Drag1: 0.05, Drag2: 0.012, Spin1: 2e-4, Spin2: 1e-5,
		Stiffness: 2000, Damping: 3, Friction: 0.6,
		Pack: body.Pack{Full: 16.8, Empty: 13, Nominal: 14.8, Charge: vec.Mul(1300, 3.6), Resistance: 0.04, Current: 12.9},
	}
	cfg.Control.Gains = [3]flight.Gains{
		{Proportional: 24, Integral: 10, Derivative: 0.6}, {Proportional: 24, Integral: 10, Derivative: 0.6}, {Proportional: 12, Integral: 20},
	}
}

// first is what model 1 had besides.
func first(cfg *sim.Config) {
	cfg.Flight.IdleSpeed = flight.FullSpeed * 6 / 100
	full := [3]float64{420, 420, 260}
	exponential := [3]float64{0.3, 0.3, 0.2}
	for i := range cfg.Control.Curve {
		cfg.Control.Curve[i] = flight.Curve{Full: vec.Mul(full[i], flight.Degree), Exponential: exponential[i]}
	}
}
