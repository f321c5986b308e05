// Package facts says what may be said of the present situation: does the craft hear the radio, what refuses and what cures it, what
// arms it now, what disarms it now and what does not.
//
// Everything here follows from the craft as it now is, with its receiver, its menu and what an instructor planted, and never from
// the craft file. What would happen is not worked out but tried: a Teller copies the practice, lets a made hand do a thing, and looks.
// So a fact holds in the very state of which it is told, and what cannot be kept is not promised. Facts are codes with typed arguments;
// sentences are made where they are shown.
package facts

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
)

// Facts is what may be said of one moment of one craft. It is a plain value. Those of a Teller hold what would be; those of Seen hold
// only what is.
type Facts struct {
	Snap sim.Snapshot
	// Craft is the craft as it now is: its receiver and mode spans may be planted ones.
	Craft sim.Config
	// Hearing is what reaches the craft.
	Hearing Hearing
	// Silent says why nothing of the radio does; NotSilent where the radio's frames come.
	Silent Silent
	// BySticks: this craft is armed by sticks, and has no arm switch.
	BySticks bool
	// Refusing are the reasons why arming is refused now, in the order of arming.Shown, N of them.
	Refusing [arming.RefusalsToday]Refusing
	N        int
	// Nobody: nothing acts as a radio yet.
	Nobody bool
	// Watched: nobody who could be told what to do drives; a script plays, or the demo pilot flies.
	Watched bool
	// Tried: what follows was tried, by the hand that drives. Without it nothing is promised.
	Tried bool
	// Arm is how that hand arms the craft from here, not OK while it is armed or where nothing that a hand can do arms it.
	Arm Plan
	// Disarm holds for each Way whether it ends the armed state, and after how long. All are not OK while the craft is not armed.
	Disarm [Ways]Outcome
	// IfSilent is what comes if the radio goes silent now; Unchanged where it is silent already.
	IfSilent IfSilent
	// RadioBack: the silent radio, switched on or plugged in again, is heard. It and ArmsItself are known only where Back was asked.
	RadioBack bool
	// ArmsItself: with the radio silent and nobody doing anything, a craft that is not armed arms.
	ArmsItself Outcome
	// Sink is what comes of a craft that sinks in the air now, told from here on; only where SinkKnown.
	Sink      Sink
	SinkKnown bool
	// Unsure: something planted bends what the hand sends or how long the link lasts, so that a sentence on what the hand should do
	// says what the craft must read.
	Unsure bool
	// SticksTaken: an instructor's radio has the sticks; ArmHeld: it holds the arm channel off. The hand moves neither then.
	SticksTaken, ArmHeld bool
	// HoldsOn and HoldsUp: while the craft has no power, the hand holds the arm control at on, or the throttle up, and can do otherwise.
	HoldsOn, HoldsUp bool
	// ByKeys: the hand has a keyboard.
	ByKeys bool
	// ReceiverHidden: an instructor planted another receiver. What it does on a silent radio is for the pupil to find out.
	ReceiverHidden bool
	// CableHeld: the set-up cable is in whatever the hand does.
	CableHeld bool
	// Plain: what is, is told, and not what to do, for somebody else asks for something now, as a drill does. Who shows facts sets it.
	Plain bool
}

// Refusing is one reason why arming is refused now.
type Refusing struct {
	Refusal Refusal
	// Cure is what ends it. Where it is not OK nothing that the hand can do does.
	Cure Plan
}

// Seen are the facts of a moment that is only looked at, as one of the past: nothing is tried and nothing promised.
func Seen(s *sim.Snapshot, craft *sim.Config) Facts {
	f := Facts{Snap: *s, Craft: *craft, Hearing: HearingOf(s), Silent: silent(s), BySticks: craft.Arming.By == arming.BySticks}
	for _, r := range arming.Shown() {
		if s.Refusals.Has(r) {
			f.Refusing[f.N] = Refusing{Refusal: r}
			f.N++
		}
	}
	return f
}

// Refusals are the reasons that stand now.
func (f *Facts) Refusals() []Refusing { return f.Refusing[:f.N] }

// Of is the reason r as it stands now; false where it does not.
func (f *Facts) Of(r Refusal) (Refusing, bool) {
	for _, x := range f.Refusals() {
		if x.Refusal == r {
			return x, true
		}
	}
	return Refusing{}, false
}

// ArmOn: the craft reads its arm switch as on.
func (f *Facts) ArmOn() bool { return f.Snap.Jobs.Arm == layout.Inside }

// SetUpBy says what the craft is being set up by.
func (f *Facts) SetUpBy() happening.SetUp { return f.Craft.Arming.SetUpBy(&f.Snap.Senses) }

// ThrottleUp: the throttle is among what refuses.
func (f *Facts) ThrottleUp() bool { _, up := f.Of(ThrottleUp); return up }

// Hearing is what reaches a craft.
type Hearing uint8

const (
	NoPower     Hearing = iota // nothing can: it has none
	TheRadio                   // whole frames of the radio's
	Damaged                    // frames of the radio's, but a channel that is needed carries no pulse
	ItsReceiver                // frames that its receiver makes up, while the radio is silent
	Nothing                    // no frames
)

// HearingOf is what reaches the craft of a snapshot.
func HearingOf(s *sim.Snapshot) Hearing {
	switch {
	case !s.In.Powered:
		return NoPower
	case !s.Receiving:
		return Nothing
	case s.Origin != link.FromRadio:
		return ItsReceiver
	case !s.Valid:
		return Damaged
	}
	return TheRadio
}

// Believes: the craft takes the link for there, whatever it hears.
func (f *Facts) Believes() bool { return f.Snap.In.Powered && f.Snap.Link.Up() }

// Silent is why nothing of the radio reaches the craft's receiver.
type Silent uint8

const (
	NotSilent   Silent = iota // the radio's frames come
	Unplugged                 // the radio, or what acts as one, is not there
	SwitchedOff               // its transmitter is off
	Unread                    // nothing has been read from it yet
	Unexplained               // it is on, and still nothing comes
)

func silent(s *sim.Snapshot) Silent {
	in := &s.In
	switch {
	case !in.Plugged:
		return Unplugged
	case !in.Transmitter:
		return SwitchedOff
	case !in.HasSent:
		return Unread
	case in.Powered && (!s.Receiving || s.Origin != link.FromRadio):
		return Unexplained
	}
	return NotSilent
}

// Hand is what moves the controls now.
type Hand uint8

const (
	Nobody   Hand = iota // nothing acts as a radio yet
	Played               // a script or take: radio, pack, cable and menu are its own too
	NoHand               // the demo pilot; a person still has the keys of the bench
	Radio                // a person with a radio
	Keyboard             // a person at the keyboard
	Hands                // how many there are
)

// bends are the faults that bend what the hand sends, or what becomes of it.
const bends fault.Set = 1<<fault.RadioOff | 1<<fault.Dropouts | 1<<fault.Reversed | 1<<fault.Swapped | 1<<fault.ShortTravel | 1<<fault.Stuck |
	1<<fault.Noisy | 1<<fault.OffCentre | 1<<fault.ChannelOut

func (f *Facts) planted(p *practice.Practice) {
	all := p.Faults().All()
	f.Unsure = all&bends != 0
	f.ReceiverHidden = all.Has(fault.Receiver)
	f.CableHeld = all.Has(fault.CableIn)
}
