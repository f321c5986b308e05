// Package hover puts a craft into a hover high up, by its model, and lets its radio fall silent.
package hover

import (
	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/vec"
)

// High is a height, in m, from which nothing that is looked at comes to the ground.
const High = 1e4

// At is a craft that hovers so many metres up, its pack full; heard tells whether its radio is.
func At(cfg sim.Config, height float64, heard bool) *practice.Practice {
	p := practice.New(cfg)
	l, b := &cfg.Layout, &cfg.Body
	state := p.Bench().State()
	state.In = sim.Inputs{HasSent: true, Plugged: true, Transmitter: heard, Powered: true, Air: true, Hands: b.Turns, Checked: true}
	state.Slot.Link.Phase = link.Good
	state.Slot.Layout.Mode = layout.Angle
	state.Slot.Arming.Armed, state.Slot.Arming.Inside, state.Slot.Arming.OffFirst, state.Slot.Arming.Still = true, true, true, cfg.Arming.StillSlots
	air := &state.Air
	air.Flying, air.Body = true, body.State{Pos: vec.V{Z: -height}, Att: vec.Q{W: 1}}
	var throttle pulse.Width
	air.Body.Speed, throttle = sim.Hover(&cfg)
	for c := range state.LastValid {
		state.LastValid[c] = pulse.Centre
	}
	state.LastValid[l.Throttle] = throttle
	p.Bench().Restore(state)
	return p
}

// Throttle is the throttle at which a craft hovers, its pack full.
func Throttle(craft *sim.Config) pulse.Width {
	_, throttle := sim.Hover(craft)
	return throttle
}
