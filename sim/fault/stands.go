package fault

import "propsoff.example/sim/pulse"

// Stands appends what stands at a tick, the pupil's own and what is planted, as readings: given to Take, each on the tick of its stamp,
// they bring the same about again.
func (s *State) Stands(dst []pulse.Reading, tick int64) []pulse.Reading {
	say := func(at int64, k pulse.Kind, v int32) {
		dst = append(dst, pulse.Reading{At: at * 1000, Kind: k, Value: v})
	}
	o := &s.own
	if o.cable {
		say(tick, pulse.Cable, 1)
	}
	if o.pack != 0 {
		say(tick, pulse.Pack, o.pack)
	}
	if o.checked || o.hands != [4]int8{} {
		say(tick, pulse.Propellers, pulse.PropellersValue(o.hands, o.checked))
	}
	if s.caught {
		f := o.frame
		f[s.channel(Stuck)] = s.stuck
		dst = append(dst, pulse.Reading{At: tick * 1000, Kind: pulse.Controls, Frame: f})
	}
	for d := range Count {
		at := tick
		switch d {
		case Dropouts:
			at = s.since
		case Gusts:
			at = s.blows
		}
		if s.has(d) {
			say(at, pulse.Instructor, pulse.InstructorValue(d, s.number[d]))
		}
	}
	if o.hasFrame {
		dst = append(dst, pulse.Reading{At: tick * 1000, Kind: pulse.Controls, Frame: o.frame})
	}
	return dst
}
