package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// throttleZone is a stretch of the throttle in which nothing changes about whether motors turn.
type throttleZone struct {
	low   bool // below the craft's low mark
	power bool // it asks for power
	wakes bool // it wakes air mode
}

// throttleIn is where the throttle stands in a frame; false, and the zero value, for a frame that is not valid: it changes nothing.
func throttleIn(cfg *sim.Config, f *pulse.Frame) (throttleZone, bool) {
	if !link.ValidFrame(cfg.Link.Needed, f) {
		return throttleZone{}, false
	}
	return zoneOf(cfg, f[cfg.Layout.Throttle]), true
}

func zoneOf(cfg *sim.Config, w pulse.Width) throttleZone {
	return throttleZone{w < cfg.Arming.LowThrottle, asksPower(w), w.ThrottleFraction() > cfg.Flight.AirWake}
}

// fraction is a throttle fraction of this stretch.
func (z throttleZone) fraction(cfg *sim.Config) int {
	switch {
	case z.wakes:
		return cfg.Flight.AirWake + 1
	case z.power:
		return 1
	}
	return 0
}

// motors is what decides, besides arming and mode, whether motors turn: flight's own state, the throttle of the last valid frame, and that
// of the frame with which sinking began; turning is what flight said last. Its zero value is a disarmed craft.
type motors struct {
	flight   flight.State
	throttle throttleZone
	sinkFrom throttleZone
	turning  bool
}

// sinkSpeed is the motor speed of a craft that sinks on the desk bench.
func sinkSpeed(cfg *sim.Config) uint16 {
	return uint16(cfg.Body.Carries(float64(cfg.Flight.SinkCarries)/1000, 0) * flight.FullSpeed)
}

// step asks flight whether the motors turn, once for the slot: nothing that it reads changes within one.
func (m motors) step(cfg *sim.Config, before *arming.State, s *sim.SlotState, facts *sim.SlotFacts) motors {
	a := &s.Arming
	if !a.Armed {
		return motors{}
	}
	if facts.Link.Valid {
		m.throttle = zoneOf(cfg, facts.Link.Frame[cfg.Layout.Throttle])
	}
	in := flight.Input{Armed: true, Throttle: m.throttle.fraction(cfg), Low: m.throttle.low, Mode: s.Layout.Mode}
	if a.Sink == 0 {
		m.sinkFrom = throttleZone{}
	} else {
		if before.Sink == 0 {
			m.sinkFrom = m.throttle
		}
		in.Sinking, in.Throttle, in.SinkSpeed = true, m.sinkFrom.fraction(cfg), sinkSpeed(cfg)
	}
	var speed [flight.Motors]uint16
	m.flight, speed = flight.Step(&cfg.Flight, m.flight, in)
	m.turning = speed[0] > 0
	return m
}
