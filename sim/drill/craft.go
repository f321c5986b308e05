package drill

import (
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Craft is how a case changes the craft that stands on the bench; the zero value leaves it as its file has it. So a drill runs with
// the pupil's own radio and channels.
type Craft struct {
	// Arming is 0 to leave it as it is, 1 by switch, 2 by sticks.
	Arming uint8
	// Second is the channel of a second switch that is asked for, counted from 1; 0 asks for none.
	Second uint8
	// SelfLevelling: the craft arms only in angle or horizon.
	SelfLevelling bool
	// PackLimit is the voltage in mV below which a pack refuses; with 0 none does.
	PackLimit uint16
	// FixedMode is one more than the mode that the craft always flies in, whatever the mode switch says; 0 leaves it as it is.
	FixedMode uint8
	// OnLoss is one more than what the receiver does when the radio falls silent (a link.OnLoss); 0 leaves it as it is. With stored
	// values it sends throttle low, sticks in the middle, arm off.
	OnLoss uint8
	// Lost is what a lost link does: 0 as it is, 1 cut, 2 sink for 4 s.
	Lost uint8
	// AtLow is what the motors do at low throttle: 0 as it is, 1 they stand still, 2 they idle.
	AtLow uint8
	// OnAir: the case is flown. The motors turn as the shipped craft's do, so that the drill knows which propeller belongs where.
	OnAir bool
	// NoGestures: the craft has none, so that nothing opens however the sticks are moved.
	NoGestures bool
	// Gestures and Menus are those the drill was read with; nil leaves the craft's.
	Gestures *gestures.Config
	Menus    *menu.Config
}

var _ = map[Craft]struct{}{}

// sinkMillis is how long a craft sinks when a drill makes it sink (the default of the craft file).
const sinkMillis = 4000

// On gives the craft that a case asks for, made from the one on the bench.
func (c *Craft) On(base sim.Config) sim.Config {
	l, a := &base.Layout, &base.Arming
	switch {
	case c.Arming == 2:
		a.By, l.Arm, l.ArmSpan = arming.BySticks, layout.NoChannel, layout.Span{}
	case c.Arming == 1 && l.Arm == layout.NoChannel:
		a.By, l.Arm = arming.BySwitch, free(l, 4)
		l.ArmSpan = layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	}
	l.Second = layout.NoChannel
	if c.Second > 0 {
		l.Second = int8(c.Second - 1)
		l.SecondSpan = layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	}
	a.OnlySelfLevelling, a.PackLimitMilliVolts = c.SelfLevelling, c.PackLimit
	if c.FixedMode > 0 {
		l.Mode, l.FixedMode, l.SpanCount = layout.NoChannel, layout.Mode(c.FixedMode-1), 0
	}
	if c.OnLoss > 0 {
		base.Link.OnLoss = link.OnLoss(c.OnLoss - 1)
		if base.Link.OnLoss == link.SendsStored {
			base.Link.Stored = stored(l)
		}
	}
	switch c.Lost {
	case 1:
		a.SinkSlots = 0
	case 2:
		a.SinkSlots = sim.Slots(sinkMillis, base.SlotTicks)
	}
	switch c.AtLow {
	case 1:
		base.Flight.AtLowThrottle = flight.StandStill
	case 2:
		base.Flight.AtLowThrottle = flight.Idle
	}
	if c.OnAir {
		base.Body.Turns = body.Directions(true)
		base.FitControl()
	}
	if c.Gestures != nil {
		base.Gestures, base.Menus = c.Gestures, c.Menus
	}
	if c.NoGestures {
		base.Gestures, base.Menus = nil, nil
	}
	base.Link.Needed = l.Needed()
	return base
}

// free is a channel without a job: the one asked for where it has none.
func free(l *layout.Config, asked int8) int8 {
	used := func(c int8) bool {
		return c == l.Throttle || c == l.Roll || c == l.Pitch || c == l.Yaw || c == l.Mode || c == l.Second
	}
	if !used(asked) {
		return asked
	}
	for c := range int8(pulse.Channels) {
		if !used(c) {
			return c
		}
	}
	return asked
}

// stored is what a receiver sends when a drill makes it send stored values.
func stored(l *layout.Config) pulse.Frame {
	var f pulse.Frame
	for c := range f {
		f[c] = pulse.Low
	}
	f[l.Roll], f[l.Pitch], f[l.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	if l.Arm != layout.NoChannel && l.ArmSpan.Contains(pulse.Low) {
		f[l.Arm] = pulse.High
	}
	return f
}
