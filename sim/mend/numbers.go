package mend

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// number is one number or choice of a craft that may be changed: which it is, how much must be relearnt for it, and what it may become.
type number struct {
	kind    Kind
	field   craftfile.Field
	relearn int
	get     func(c *sim.Config) int64
	set     func(c *sim.Config, v int64)
	// more are values to try besides the default; nil for none. asked, where given, tells whether this craft has it at all.
	more  func(c *sim.Config) []int64
	asked func(c *sim.Config) bool
}

// numbers are those of a craft.
func numbers() []number {
	return []number{
		slots(SilenceLimit, craftfile.SilenceLimit, func(c *sim.Config) *uint16 { return &c.Link.SilenceSlots }).try(pastDwell),
		slots(CleanTime, craftfile.CleanTime, func(c *sim.Config) *uint16 { return &c.Link.CleanSlots }),
		slots(SinkTime, craftfile.SinkTime, func(c *sim.Config) *uint16 { return &c.Arming.SinkSlots }).where(sinking),
		{SinkCarries, craftfile.SinkCarries, atLoss, func(c *sim.Config) int64 { return int64(c.Flight.SinkCarries) }, func(c *sim.Config, v int64) { c.Flight.SinkCarries = uint16(v) }, nil, sinking},
		{LowThrottle, craftfile.LowThrottle, unfelt, func(c *sim.Config) int64 { return int64(c.Arming.LowThrottle) }, func(c *sim.Config, v int64) {
			c.Arming.LowThrottle, c.Arming.LeaveThrottle = pulse.Width(v), pulse.Width(v)+pulse.Micros(20)
		}, nil, nil},
		slots(ArmDwell, craftfile.ArmDwell, func(c *sim.Config) *uint16 { return &c.Arming.ArmDwell }).where(armsBySticks),
		slots(DisarmDwell, craftfile.DisarmDwell, func(c *sim.Config) *uint16 { return &c.Arming.DisarmDwell }).where(armsBySticks).try(withinSilence),
		slots(StillTime, craftfile.StillTime, func(c *sim.Config) *uint16 { return &c.Arming.StillSlots }),
		{TiltLimit, craftfile.TiltLimit, unfelt, func(c *sim.Config) int64 { return int64(c.Arming.TiltLimitTenths) }, func(c *sim.Config, v int64) { c.Arming.TiltLimitTenths = int16(v) }, nil, nil},
		{OnlyLevelling, craftfile.OnlyLevelling, felt, func(c *sim.Config) int64 { return oneIf(c.Arming.OnlySelfLevelling) }, func(c *sim.Config, v int64) { c.Arming.OnlySelfLevelling = v == 1 }, either, nil},
		{AtLowThrottle, craftfile.AtLowThrottle, felt, func(c *sim.Config) int64 { return int64(c.Flight.AtLowThrottle) }, func(c *sim.Config, v int64) { c.Flight.AtLowThrottle = flight.AtLowThrottle(v) }, nil, nil},
		{IdleSpeed, craftfile.IdleSpeed, felt, func(c *sim.Config) int64 { return int64(c.Flight.IdleSpeed) }, func(c *sim.Config, v int64) {
			c.Flight.IdleSpeed = uint16(v)
			c.FitControl()
		}, nil, nil},
		{AirModes, craftfile.AirModes, felt, func(c *sim.Config) int64 { return int64(c.Flight.AirModes) }, func(c *sim.Config, v int64) { c.Flight.AirModes = uint8(v) }, noAir, nil},
		{AirWakes, craftfile.AirWakes, felt, func(c *sim.Config) int64 { return int64(c.Flight.AirWake) * 1000 / pulse.ThrottleFull }, func(c *sim.Config, v int64) { c.Flight.AirWake = int(v) * pulse.ThrottleFull / 1000 }, nil, nil},
	}
}

// slots is a time that the craft counts in slots and a file says in ms.
func slots(k Kind, f craftfile.Field, at func(*sim.Config) *uint16) number {
	return number{kind: k, field: f, relearn: unfelt,
		get: func(c *sim.Config) int64 { return int64(*at(c)) * int64(c.SlotTicks) },
		set: func(c *sim.Config, v int64) { *at(c) = sim.Slots(int(v), c.SlotTicks) },
	}
}

func (n number) where(asked func(*sim.Config) bool) number {
	n.asked = asked
	return n
}

func (n number) try(more func(*sim.Config) []int64) number {
	n.more = more
	return n
}

func sinking(c *sim.Config) bool      { return c.Arming.SinkSlots > 0 }
func armsBySticks(c *sim.Config) bool { return c.Arming.By == arming.BySticks }
func either(*sim.Config) []int64      { return []int64{0, 1} }
func noAir(*sim.Config) []int64       { return []int64{0} }

// pastDwell is a silence limit within which stored sticks that stand in the disarm corner have disarmed.
func pastDwell(c *sim.Config) []int64 {
	if !armsBySticks(c) || c.Link.OnLoss != link.SendsStored {
		return nil
	}
	return []int64{(int64(c.Arming.DisarmDwell) + 2) * int64(c.SlotTicks)}
}

// withinSilence is a disarm dwell that is over before the silence limit.
func withinSilence(c *sim.Config) []int64 {
	ms := (int64(c.Link.SilenceSlots) + int64(c.Arming.SinkSlots) - 2) * int64(c.SlotTicks)
	if c.Link.OnLoss != link.SendsStored || ms < 100 || ms > 400 { // no file has less (craftfile), and more than the default is slow
		return nil
	}
	return []int64{ms}
}

func oneIf(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// ofNumbers are the single changes of numbers: each to its default, and to what else is worth a try.
func ofNumbers(c *sim.Config) (out []Change) {
	usual := sim.Default()
	if c.Arming.SinkSlots > 0 {
		usual.Arming.SinkSlots = sim.Slots(usualSink, usual.SlotTicks)
	}
	for _, n := range numbers() {
		if n.asked != nil && !n.asked(c) {
			continue
		}
		values := []int64{n.get(&usual)}
		if n.more != nil {
			values = append(values, n.more(c)...)
		}
		was := n.get(c)
		for i, v := range values {
			tried := *c
			if n.set(&tried, v); v == was || tried == *c || i > 0 && v == values[0] {
				continue
			}
			out = append(out, Change{Kind: n.kind, Relearn: n.relearn, Control: -1, Channel: -1, Was: was, Is: v})
		}
	}
	return out
}

// usualSink is how long a craft sinks by default, in ms (craftfile).
const usualSink = 4000

// setNumber makes a change of a number; false where it is none.
func setNumber(c *sim.Config, ch *Change) bool {
	for _, n := range numbers() {
		if n.kind == ch.Kind {
			n.set(c, ch.Is)
			return true
		}
	}
	return false
}
