package radioreach

import (
	"propsoff.example/input/pair"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Pairing says what on an instructor's radio does what to a craft: a switch without a job takes the sticks, one that springs back before any
// other; where there is none the mode switch does, fully high. takes is the index of that control, −1 where the mode switch is to take them and
// his radio has none.
func Pairing(l *layout.Config, his *handset.Radio) (cfg pair.Config, takes int) {
	cfg = pair.Config{Switch: l.Mode, SwitchSpan: pair.Span{Low: pulse.Micros(1800), High: pulse.Highest}, Arm: l.Arm, ArmSpan: pair.Span{Low: l.ArmSpan.Low, High: l.ArmSpan.High}}
	for _, c := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw} {
		cfg.Sticks |= 1 << c
	}
	takes = -1
	best := 0
	for i := range his.Controls {
		c := &his.Controls[i]
		if best == 0 && c.Channel == l.Mode {
			takes = i
		}
		if c.Kind != handset.Switch || c.Channel == l.Arm || c.Channel == l.Second || c.Channel == l.Mode {
			continue
		}
		worth := 1
		if c.Momentary {
			worth = 2
		}
		if worth <= best {
			continue
		}
		top := c.Positions[len(c.Positions)-1].Width
		below := c.Positions[len(c.Positions)-2].Width
		if top < below {
			top, below = below, top
		}
		best, cfg.Switch, takes = worth, c.Channel, i
		cfg.SwitchSpan = pair.Span{Low: below + (top-below)/2, High: pulse.Highest}
	}
	if cfg.Switch != l.Mode && l.Mode != layout.NoChannel {
		cfg.Sticks |= 1 << l.Mode
	}
	return cfg, takes
}
