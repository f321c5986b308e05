package practice

import (
	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// Begin makes a practice that begins at a tick, with what already stands outside the craft (see Stands); none of that is recorded as
// happening. The craft has no power yet, and on the air bench it stands on its feet.
func Begin(cfg sim.Config, tick int64, stands []pulse.Reading) *Practice {
	p := New(cfg)
	s := p.bench.State()
	s.Tick = tick
	p.bench.Restore(s)
	for i := range stands {
		r := &stands[i]
		changed := p.faults.state.Take(r, r.At/1000)
		if r.Kind != pulse.Instructor {
			p.bench.Apply(stands[i:i+1], nil)
		}
		p.turn(changed)
	}
	s = p.bench.State()
	s.In.Craft.Moved = false // it was tilted long ago
	p.bench.Restore(s)
	p.log.Reset()
	return p
}

// Stands appends what stands outside the craft before the next Step, as readings for Begin, each stamped with the time from which it
// counts: radio, bench and faults. What belongs to the craft is left out: its pack, and a menu that a gesture opened.
func (p *Practice) Stands(dst []pulse.Reading) []pulse.Reading {
	in, tick := p.bench.State().In, p.Tick()
	say := func(k pulse.Kind, v int32) {
		if v != 0 {
			dst = append(dst, pulse.Reading{At: tick * 1000, Kind: k, Value: v})
		}
	}
	bit := func(on bool) int32 {
		if on {
			return 1
		}
		return 0
	}
	say(pulse.Plug, bit(in.Plugged))
	say(pulse.Link, bit(in.Transmitter))
	say(pulse.StickMode, int32(in.StickMode))
	say(pulse.Tilt, int32(in.Craft.TiltTenths))
	say(pulse.Air, in.Bench())
	if p.moves.menu.Open == 0 {
		say(pulse.Menu, int32(in.Craft.Menu))
	}
	return p.faults.state.Stands(dst, tick)
}

// Change puts another craft in this one's place before the next Step: the practice begins anew where this one stands, and so does its
// digest. A craft that had power must be given it again, and had best lose it first.
func (p *Practice) Change(cfg sim.Config) { *p = *Begin(cfg, p.Tick(), p.Stands(nil)) }
