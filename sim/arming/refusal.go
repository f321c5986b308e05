package arming

import (
	"strconv"

	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
)

// Refusal is one reason why arming is refused now. Each has a number of its own that never changes and is never given again:
// takes, digests and logbooks hold it. Shown gives the order in which a person meets them.
type Refusal uint8

// The refusals: what each says stands beside it.
const (
	ThrottleUp          Refusal = 0  // the throttle is not below the low mark
	OffFirst            Refusal = 1  // the arm control must be seen off first
	SecondSwitchOff     Refusal = 2  // a second switch is asked for and is off
	NotSelfLevelling    Refusal = 3  // this craft arms only in angle or horizon
	NoLink              Refusal = 4  // no valid frame since power-up, or the link is lost
	LinkTooFresh        Refusal = 5  // the link is back, the clean time not yet over
	ChannelMissing      Refusal = 6  // a channel with a job carries no valid pulse
	NotYetStill         Refusal = 7  // the craft has not yet stood still long enough since power-up
	IsTilted            Refusal = 8  // tilted beyond the limit
	PackLow             Refusal = 11 // the pack's voltage is below the limit
	PropellersUnchecked Refusal = 12 // on the air bench: nobody has said that the propellers are right
	BeingSetUp          Refusal = 13 // on its set-up cable, or in its menu

	// WasOnCable and WasMenuOpen are numbers of model 1: the craft on its set-up cable, and a menu open. Only takes of that model have
	// them.
	WasOnCable  Refusal = 9
	WasMenuOpen Refusal = 10

	// RefusalCount is one more than the highest number given, RefusalsToday how many there are without those of model 1.
	RefusalCount  Refusal = 14
	RefusalsToday         = RefusalCount - 2
)

// Group is who cures a refusal.
type Group uint8

const (
	Hand   Group = iota // the pilot's hand on a control
	Link                // whoever brings the link back
	Craft               // whoever handles the craft
	Groups              // how many there are
)

// row is what there is to know of a refusal besides when it stands.
type row struct {
	refusal Refusal
	code    string
	group   Group
	// today is the refusal itself, and for one that is no more the one that came in its place.
	today Refusal
}

// table is every refusal that there ever was, as a person is shown them: by who cures them, first the hand, then the link, then the craft.
// Files have the code words, so one that was ever used is never changed.
func table() [RefusalCount]row {
	return [...]row{
		{ThrottleUp, "throttle-up", Hand, ThrottleUp},
		{OffFirst, "off-first", Hand, OffFirst},
		{SecondSwitchOff, "second-switch-off", Hand, SecondSwitchOff},
		{NotSelfLevelling, "not-self-levelling", Hand, NotSelfLevelling},
		{NoLink, "no-link", Link, NoLink},
		{LinkTooFresh, "link-too-fresh", Link, LinkTooFresh},
		{ChannelMissing, "channel-missing", Link, ChannelMissing},
		{NotYetStill, "not-yet-still", Craft, NotYetStill},
		{IsTilted, "tilted", Craft, IsTilted},
		{BeingSetUp, "being-set-up", Craft, BeingSetUp},
		{WasOnCable, "on-cable", Craft, BeingSetUp},
		{WasMenuOpen, "menu-open", Craft, BeingSetUp},
		{PackLow, "pack-low", Craft, PackLow},
		{PropellersUnchecked, "propellers-unchecked", Craft, PropellersUnchecked},
	}
}

// Ever gives every refusal that there ever was, those that are no more beside the one that came in their place, in the order in which a
// person is shown them.
func Ever() (all [RefusalCount]Refusal) {
	for i, r := range table() {
		all[i] = r.refusal
	}
	return all
}

// Shown gives every refusal but those of model 1, in the order in which a person is shown them.
func Shown() (all [RefusalsToday]Refusal) {
	n := 0
	for _, r := range table() {
		if r.today == r.refusal {
			all[n] = r.refusal
			n++
		}
	}
	return all
}

// row is the refusal's row of the table; ok is false for a number that none has.
func (r Refusal) row() (found row, ok bool) {
	for _, x := range table() {
		if x.refusal == r {
			return x, true
		}
	}
	return row{refusal: r, group: Craft, today: r}, false
}

// Code is the refusal's code word; "refusal" and its number for one that there is not.
func (r Refusal) Code() string {
	if x, ok := r.row(); ok {
		return x.code
	}
	return "refusal " + strconv.Itoa(int(r))
}

// RefusalOf is the refusal of a code word, of one that is no more too; ok is false where there is none.
func RefusalOf(code string) (r Refusal, ok bool) {
	for _, x := range table() {
		if x.code == code {
			return x.refusal, true
		}
	}
	return 0, false
}

// Group says who cures the refusal.
func (r Refusal) Group() Group {
	x, _ := r.row()
	return x.group
}

// Today is the refusal itself, and for one that is no more the one that came in its place.
func (r Refusal) Today() Refusal {
	x, _ := r.row()
	return x.today
}

// Set is a set of refusals, bit r for the refusal with the number r.
type Set uint32

// Has reports whether r is in the set.
func (s Set) Has(r Refusal) bool { return s>>r&1 == 1 }

// With is the set, and r too where on is true.
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
	// Cable is true while the craft is plugged into a computer for set-up.
	Cable bool
	// Menu is one of pulse.MenuClosed, MenuCraft, MenuCamera.
	Menu uint8
	// PackMilliVolts is the pack's voltage, 0 where unknown (then it refuses nothing).
	PackMilliVolts uint16
	// PropellersUnchecked is true on the air bench while nobody has said that the propellers are right.
	PropellersUnchecked bool
}

// SetUpBy says what a craft is being set up by; 0 where nothing is.
func (cfg *Config) SetUpBy(c *Conditions) happening.SetUp {
	var by happening.SetUp
	if c.Cable {
		by |= happening.ByCable
	}
	switch {
	case c.Menu == menuCraft:
		by |= happening.ByCraftMenu
	case c.Menu == menuCamera && cfg.CameraMenuCounts:
		by |= happening.ByCameraMenu
	}
	return by
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
	r = r.With(BeingSetUp, cfg.SetUpBy(c) != 0)
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
