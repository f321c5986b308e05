// Package lossmap works out what comes of a craft whose radio falls silent, over height, climb, throttle and wind.
//
// A craft that stands level stays so in a steady wind with its sticks centred: its motors turn alike, and nothing turns it. So the equations
// of sim/body come down to height, climb, drift, one motor's speed and the charge used, which Fall steps. What the motors are told when is
// asked of the bench's own link and arming, once for each throttle. Tests hold both against the whole bench.
package lossmap

import (
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
)

// Never is the time of what does not happen.
const Never = -1

// order is what the motors are told from a tick on: speed in 1/10000 of full speed; a craft that sinks turns them as fast as carries its
// share of the weight, and no faster than that.
type order struct {
	from  int64
	speed uint16
	sinks bool
}

// Reaction is what a craft does once its radio falls silent, by receiver and craft file. Times are ms from the radio's last frame, or Never.
type Reaction struct {
	// Lost is when the craft takes the link for lost, Sinks when it begins to sink, Cut when it is disarmed.
	Lost, Sinks, Cut int64
	// Level: nothing that its receiver sends meanwhile banks it or turns it. If not, no map tells what comes of it.
	Level bool

	start  uint16 // what the motors were told by the last frame
	orders []order
}

// centred is how far from their middle sticks still hold a craft level, for the map (ours: what a radio's noise comes to).
const centred = 4 * pulse.Eighths

// React asks the bench what a craft does when its radio falls silent with the throttle at a width, flying level with its sticks centred.
func React(craft *sim.Config, throttle pulse.Width) Reaction {
	cfg := *craft
	cfg.Transit, cfg.Gestures, cfg.Menus = transit.Config{}, nil, nil // times go from the last frame that came
	p := hover.At(cfg, hover.High, true)
	s := p.Bench().State()
	s.In.Air, s.In.Sent = false, Held(&cfg, throttle) // motor orders alone, no flight
	b := p.Bench()
	b.Restore(s)
	r := Reaction{Lost: Never, Sinks: Never, Cut: Never, Level: true}
	slot := int64(cfg.SlotTicks)
	most := 4 * (int64(cfg.Link.SilenceSlots) + int64(cfg.Arming.SinkSlots) + int64(cfg.Arming.DisarmDwell) + 4)
	for tick := int64(0); tick < most*slot; tick += slot {
		was := b.State()
		b.Step(nil, nil)
		s = b.State()
		r.note(&cfg, tick, &s)
		if tick == 0 {
			s.In.Transmitter = false
		} else if !s.Slot.Arming.Armed || tick > slot && s.Slot == was.Slot {
			break
		}
		s.Tick, s.SincePower = s.Tick+slot-1, s.SincePower+slot-1 // between slots no order changes
		b.Restore(s)
	}
	return r
}

// Held is a frame of hands that fly level: sticks centred, the throttle at a width, armed, in angle where there is a way to it.
func Held(cfg *sim.Config, throttle pulse.Width) (f pulse.Frame) {
	for c := range f {
		f[c] = pulse.Centre
	}
	l := &cfg.Layout
	if l.Mode != layout.NoChannel && l.SpanCount > 0 {
		spans := l.Spans[:l.SpanCount]
		at := max(slices.IndexFunc(spans, func(m layout.ModeSpan) bool { return m.Mode == layout.Angle }), 0)
		f[l.Mode] = spans[at].Span.Low
	}
	if l.Second != layout.NoChannel {
		f[l.Second] = l.SecondSpan.Low
	}
	if l.Arm != layout.NoChannel {
		f[l.Arm] = l.ArmSpan.Low
	}
	f[l.Throttle] = throttle
	return f
}

// note takes in what a slot brought.
func (r *Reaction) note(cfg *sim.Config, tick int64, s *sim.State) {
	a, l := &s.Slot.Arming, &cfg.Layout
	o := order{from: tick, speed: s.Motor[0], sinks: a.Sink > 0}
	if o.sinks { // how fast the throttle that was captured lets them turn
		_, most := flight.Step(&cfg.Flight, s.Flight, flight.Input{Armed: true, Sinking: true, Throttle: s.SinkFrom, SinkSpeed: flight.FullSpeed})
		o.speed = most[0]
	}
	if tick == 0 {
		r.start = o.speed
	}
	first := func(at *int64, so bool) {
		if so && *at == Never {
			*at = tick
		}
	}
	first(&r.Lost, !s.Slot.Link.Phase.Up())
	first(&r.Sinks, o.sinks)
	first(&r.Cut, !a.Armed)
	if a.Armed && !o.sinks && o.speed > 0 {
		for _, c := range [...]int8{l.Roll, l.Pitch, l.Yaw} {
			off := s.LastValid[c] - pulse.Centre
			r.Level = r.Level && off <= centred && off >= -centred
		}
	}
	if n := len(r.orders); n > 0 && r.orders[n-1].speed == o.speed && r.orders[n-1].sinks == o.sinks {
		return
	}
	r.orders = append(r.orders, o)
}

// turnsUntil is when motors that are told so stop, Never for not at all.
func (r *Reaction) turnsUntil() int64 {
	last := r.orders[len(r.orders)-1]
	if last.speed > 0 {
		return Never
	}
	return last.from
}
