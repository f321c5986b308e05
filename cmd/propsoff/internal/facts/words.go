package facts

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/link"
)

// The words of sim in which facts are told. Who shows facts takes them from here and has no business with the rules of link and arming: a
// test at the module's root holds that.
type (
	// Refusal is one reason why arming is refused.
	Refusal = arming.Refusal
	// Group is who cures a refusal.
	Group = arming.Group
	// Set is a set of refusals, a bit each.
	Set = arming.Set
	// Phase is how the craft judges the link.
	Phase = link.Phase
	// OnLoss is what a receiver does when the radio goes silent.
	OnLoss = link.OnLoss
	// Origin is where a frame comes from.
	Origin = link.Origin
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

	// WasOnCable and WasMenuOpen are of earlier models; takes and logbooks still tell them.
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

	FromRepeat = link.FromRepeat
	FromStore  = link.FromStore
)

// Shown gives every refusal in the order in which a person is shown them.
func Shown() [arming.RefusalsToday]Refusal { return arming.Shown() }

// BySticks reports whether a craft is armed by sticks.
func BySticks(craft *sim.Config) bool { return craft.Arming.By == arming.BySticks }
