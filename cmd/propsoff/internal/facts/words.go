package facts

import (
	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/link"
)

// The words of sim in which facts are told. Who shows facts takes them from here and has no business with the rules of link and arming: a
// test at the module's root holds that.
type (
	Refusal = arming.Refusal
	Group   = arming.Group
	Set     = arming.Set
	Phase   = link.Phase
	OnLoss  = link.OnLoss
	Origin  = link.Origin
)

// The refusals, by who cures them.
const (
	ThrottleUp          = arming.ThrottleUp
	OffFirst            = arming.OffFirst
	SecondSwitchOff     = arming.SecondSwitchOff
	NotSelfLevelling    = arming.NotSelfLevelling
	NoLink              = arming.NoLink
	LinkTooFresh        = arming.LinkTooFresh
	ChannelMissing      = arming.ChannelMissing
	NotYetStill         = arming.NotYetStill
	IsTilted            = arming.IsTilted
	BeingSetUp          = arming.BeingSetUp
	PackLow             = arming.PackLow
	PropellersUnchecked = arming.PropellersUnchecked
	RefusalCount        = arming.RefusalCount

	// Those of earlier models, which takes and logbooks still tell.
	WasOnCable  = arming.WasOnCable
	WasMenuOpen = arming.WasMenuOpen

	InHand  = arming.Hand
	OnLink  = arming.Link
	AtCraft = arming.Craft
	Groups  = arming.Groups
)

// How the craft judges the link, what its receiver does on a silent radio, and where a frame comes from.
const (
	NeverHeard = link.Never
	Lost       = link.Lost
	Fresh      = link.Fresh
	Good       = link.Good

	ArmsBySwitch = arming.BySwitch
	ArmsBySticks = arming.BySticks

	FallsSilent = link.FallsSilent
	RepeatsLast = link.RepeatsLast
	SendsStored = link.SendsStored

	FromRadio  = link.FromRadio
	FromRepeat = link.FromRepeat
	FromStore  = link.FromStore
)

// Shown gives every refusal in the order in which a person is shown them.
func Shown() []Refusal { return arming.Shown() }

// BySticks reports whether a craft is armed by sticks.
func BySticks(craft *sim.Config) bool { return craft.Arming.By == arming.BySticks }
