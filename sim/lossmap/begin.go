package lossmap

import (
	"math"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
	"propsoff.example/sim/vec"
)

// Begin is a whole bench at a point: its first step brings the radio's last frame, after which the radio is to be switched off.
func Begin(craft *sim.Config, p *Point) *practice.Practice {
	cfg := *craft
	cfg.Transit = transit.Config{}
	b := hover.At(cfg, p.Height, true)
	s := b.Bench().State()
	s.In.Sent = Held(&cfg, p.Throttle)
	s.LastValid = s.In.Sent
	s.In.Wind = pulse.WindValue(int32(math.Round(vec.Mul(p.Wind, 10))), 0, false, 0)
	r, c := React(&cfg, p.Throttle), Of(&cfg)
	level := state{}
	c.settle(&level, &order{speed: r.start}, settles)
	s.Air.Body = body.State{Pos: vec.V{Z: -p.Height}, Vel: vec.V{Z: -p.Climb}, Att: vec.Q{W: 1}}
	for i := range flight.Motors {
		s.Air.Body.Speed[i] = level.speed
	}
	s.Air.Top = p.Height
	b.Bench().Restore(s)
	b.Bench().Apply([]pulse.Reading{{Kind: pulse.Wind, Value: s.In.Wind}}, nil)
	return b
}
