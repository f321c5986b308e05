package arming

import (
	"propsoff/sim/layout"
	"propsoff/sim/link"
)

// Refusal is one reason why arming is refused now. The order is the order in which a person is shown them, by who
// cures them: first the hand, then the link, then the craft.
type Refusal uint8

const (
	ThrottleUp Refusal = iota
	OffFirst
	SecondSwitchOff
	NotSelfLevelling
	NoLink
	LinkTooFresh
	ChannelMissing
	NotYetStill
	IsTilted
	OnCable
	MenuOpen
	PackLow
	PropellersUnchecked
	RefusalCount
)

// Group is who cures a refusal.
type Group uint8

const (
	Hand Group = iota
	Link
	Craft
	Groups
)

// Group of a refusal.
func (r Refusal) Group() Group {
	switch {
	case r <= NotSelfLevelling:
		return Hand
	case r <= ChannelMissing:
		return Link
	}
	return Craft
}

// Set is a set of refusals, one bit each.
type Set uint16

// Has reports whether r is in the set.
func (s Set) Has(r Refusal) bool { return s>>r&1 == 1 }

// With is the set with r when on is true.
func (s Set) With(r Refusal, on bool) Set {
	if on {
		return s | 1<<r
	}
	return s
}

// Conditions are what the craft knows about itself, current at every tick.
type Conditions struct {
	// Moved is true when the craft was moved since the last slot.
	Moved bool
	// TiltTenths is the tilt from level in tenths of a degree.
	TiltTenths int16
	// Cable is true while the craft hangs on a computer for set-up.
	Cable bool
	// Menu is one of pulse.MenuClosed, MenuCraft, MenuCamera.
	Menu uint8
	// PackMilliVolts is the pack's voltage, 0 where unknown (then it refuses nothing).
	PackMilliVolts uint16
	// PropellersUnchecked is true on the air bench while its propeller puzzle is not solved.
	PropellersUnchecked bool
}

// Refusals is every reason why arming is refused now, from the state, the latest frame and the craft's conditions. The
// hand's reasons need a link: nobody knows what a silent radio's sticks do.
func Refusals(cfg *Config, s *State, in *Input) Set {
	var r Set
	if in.Phase.Up() {
		r = r.With(ThrottleUp, in.Throttle.Valid() && in.Throttle >= cfg.LowThrottle)
		r = r.With(OffFirst, s.OffFirst && !s.Armed && s.controlOn(cfg, in))
		r = r.With(SecondSwitchOff, in.Second == layout.Outside)
		r = r.With(NotSelfLevelling, cfg.OnlySelfLevelling && !in.Mode.SelfLevelling())
	}
	r = r.With(NoLink, !in.Phase.Up())
	r = r.With(LinkTooFresh, in.Phase == link.Fresh)
	r = r.With(ChannelMissing, in.Missing != 0)
	c := &in.Craft
	r = r.With(NotYetStill, s.Still < cfg.StillSlots)
	r = r.With(IsTilted, c.TiltTenths > cfg.TiltLimitTenths)
	r = r.With(OnCable, c.Cable)
	r = r.With(MenuOpen, c.Menu == menuCraft || c.Menu == menuCamera && cfg.CameraMenuCounts)
	r = r.With(PackLow, c.PackMilliVolts != 0 && c.PackMilliVolts < cfg.PackLimitMilliVolts)
	r = r.With(PropellersUnchecked, c.PropellersUnchecked)
	return r
}

// controlOn reports whether the arm control stands at "on" now: the switch in its span, or the sticks in the arm corner.
func (s *State) controlOn(cfg *Config, in *Input) bool {
	if cfg.By == BySticks {
		return s.ArmDwell > 0
	}
	return in.Arm == layout.Inside
}
