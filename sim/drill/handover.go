package drill

import (
	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// hoverBand is how far off its hover the throttle may stand when a craft that was flown there is handed over (ours): until the hand has seen where the craft
// goes, in some 0.3 s, it is gone a few centimetres.
const hoverBand = 20 * pulse.Eighths

// HoverSpan is where the throttle of a craft must stand before it is handed over in a hover, both ends included.
func HoverSpan(cfg *sim.Config) (from, to pulse.Width) {
	_, at := sim.Hover(cfg)
	return at - hoverBand, at + hoverBand
}

// FlownTo is the height in mm to which the craft of a case is flown for the pupil before its cue; ok is false where he takes off himself.
func (c *Case) FlownTo() (mm int32, ok bool) {
	if n := len(c.Before); n > 0 {
		return c.Before[n-1].flownTo()
	}
	return 0, false
}

func (p *Preparation) flownTo() (mm int32, ok bool) {
	for i := range p.Puts {
		if p.Puts[i].Kind == pulse.Air && !ok {
			mm, ok = pulse.HoverOf(p.Puts[i].Value)
		}
	}
	return mm, ok
}

// anew has what comes before a case begin afresh where its craft was flown there for the pupil and does not fly any more: he came down, or moved a hand just as it was
// handed over.
func (s *State) anew(cfg *Config, in *Input, out *Events) bool {
	c := &cfg.Cases[s.Case]
	_, there := c.FlownTo()
	if !there || in.Facts.Flying || int(s.At) != len(c.Before)-1 || in.Tick < s.Since+settle {
		return false
	}
	s.At = 0
	s.ask(cfg, in, out)
	return true
}
