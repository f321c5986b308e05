package facts

import (
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// WakeAir are the modes in which air mode wakes and that some width of the mode channel gives, in their order.
func WakeAir(cfg *sim.Config) (modes []layout.Mode) {
	for m := range layout.Mode(layout.Modes) {
		if cfg.Flight.AirModes>>m&1 == 1 && gives(&cfg.Layout, m) {
			modes = append(modes, m)
		}
	}
	return modes
}

// gives reports whether a craft is ever told to fly in a mode. What a width gives changes at the ends of spans alone.
func gives(l *layout.Config, m layout.Mode) bool {
	if l.Mode == layout.NoChannel {
		return l.FixedMode == m
	}
	if l.ModeAt(pulse.Lowest) == m {
		return true
	}
	for _, s := range l.Spans[:l.SpanCount] {
		for _, w := range [...]pulse.Width{s.Span.Low, s.Span.High} {
			if w.Valid() && l.ModeAt(w) == m {
				return true
			}
		}
	}
	return false
}

// StartsAt is the speed at which motors that stand still below the low mark start at it, in 1/10000 of full speed.
func StartsAt(cfg *sim.Config) uint16 {
	_, speed := flight.Step(&cfg.Flight, flight.State{}, flight.Input{Armed: true, Throttle: cfg.Arming.LowThrottle.ThrottleFraction()})
	return speed[0]
}
