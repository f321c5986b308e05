// Package threemodes flies three crafts beside the pilot's own, each in a flight mode of its own, so that the modes can be compared.
package threemodes

import (
	"propsoff.example/sim"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Number is how many there are.
const Number = 3

// Modes are the modes that are compared, in the order in which the crafts stand.
func Modes() [Number]layout.Mode { return [...]layout.Mode{layout.Angle, layout.Horizon, layout.Rate} }

// Crafts are the three: a companion of a practice. They fly on the air bench only, and begin where the pilot's
// own is when it comes there.
type Crafts struct {
	at    [Number]*practice.Practice
	flies bool
}

// InMode is the craft as it would be without a mode channel, always in one mode. It arms in that mode whatever the craft itself
// refuses, because the three are there to be flown.
func InMode(cfg sim.Config, m layout.Mode) sim.Config {
	cfg.Layout.Mode, cfg.Layout.FixedMode = layout.NoChannel, m
	cfg.Arming.OnlySelfLevelling = false
	return cfg
}

// Turn begins the three where the pilot's own is: on the ground or in the air, armed or not, with its propellers.
func (c *Crafts) Turn(own *practice.Practice, changed bool) []*practice.Practice {
	s := own.Bench().State()
	if !s.In.Air {
		c.flies = false
		return nil
	}
	for i, m := range Modes() {
		if c.flies && !changed {
			break
		}
		c.at[i] = practice.New(InMode(own.Craft(), m))
		s.Slot.Layout.Mode = m
		c.at[i].Bench().Restore(s)
		c.at[i].LikeFaults(own)
	}
	c.flies = true
	return c.at[:]
}

// Step runs the next millisecond of all three with the readings that fall on it.
func (c *Crafts) Step(readings []pulse.Reading) {
	for _, p := range c.at {
		p.Step(readings)
	}
}

// Publish has nothing to add to the crafts themselves.
func (c *Crafts) Publish() {}
