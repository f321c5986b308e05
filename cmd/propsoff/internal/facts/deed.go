package facts

import (
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Do is a kind of deed.
type Do uint8

const (
	_           Do = iota
	Move           // bring Channel to where the craft reads it in Span, or out of it
	ToArm          // hold the arm corner for Ms: throttle low, yaw fully right
	ToDisarm       // hold the disarm corner for Ms: throttle low, yaw fully left
	LeaveCorner    // let yaw go back to the middle
	StickMoves     // move any stick, so that something is read
	Wait           // touch nothing for Ms
	RadioOn        // switch the radio on
	RadioOff       // switch it off
	PlugIn         // plug its cable in
	PackIn         // connect the craft's pack
	PackOut        // pull it
	AnotherPack    // connect one with at least Ms millivolts in the place of this one
	CableOut       // pull the craft's set-up cable
	MenuClosed     // leave the open menu
	SetLevel       // set the craft down level
	LookedOver     // look the propellers over
)

// Deed is one thing that a hand does. It holds no sentence and no key: how it is done depends on what the hand has.
type Deed struct {
	Do      Do
	Channel int8 // of Move
	// Span is where the craft must read the channel then; Out: it must read it anywhere else.
	Span layout.Span
	Out  bool
	// Ms is how long, for those that take time.
	Ms int32
}

// Done reports whether a width that the craft reads is where a Move should bring it.
func (d *Deed) Done(w pulse.Width) bool { return w.Valid() && d.Span.Contains(w) != d.Out }

// mostDeeds is the most that a plan holds: every refusal has at most two, and arming three more.
const mostDeeds = 28

// Plan is what a hand does one after the other, and what comes of it.
type Plan struct {
	Deed [mostDeeds]Deed
	N    int
	// OK: done from this very moment on, it comes to what was promised, Within ms of the last deed.
	OK     bool
	Within int32
	// Sudden: the last deed is none that is meant to arm, and yet it does.
	Sudden bool
}

// Deeds are those of a plan.
func (p *Plan) Deeds() []Deed { return p.Deed[:p.N] }

func (p *Plan) add(d ...Deed) {
	for _, one := range d {
		if p.N < len(p.Deed) {
			p.Deed[p.N] = one
			p.N++
		}
	}
}

// Outcome is whether a thing comes, and in how many ms.
type Outcome struct {
	OK bool
	Ms int32
}

// Way is a way to end the armed state.
type Way uint8

const (
	ByHand      Way = iota // the arm switch off; or the disarm corner, held
	ByItself               // nothing need be done: it sinks to its end, or is about to take the link for lost
	ByRadioBack            // the radio, now silent, switched on or plugged in again with the arm switch off, or the disarm corner held
	BySilence              // the radio switched off
	ByPack                 // the pack pulled
	Ways                   // how many there are
)

// deedsOf are the deeds of a way.
func (t *Teller) deedsOf(w Way, dst []Deed) []Deed {
	switch w {
	case ByHand:
		return t.armOff(dst)
	case ByRadioBack:
		if t.bySticks() { // the corner counts from the first frame on
			return t.armOff(t.radioBack(dst))
		}
		return t.radioBack(t.armOff(dst))
	case BySilence:
		return append(dst, Deed{Do: RadioOff})
	case ByPack:
		return append(dst, Deed{Do: PackOut})
	}
	return dst
}

// armOff is the hand's own way to disarm.
func (t *Teller) armOff(dst []Deed) []Deed {
	cfg := t.cfg()
	l := &cfg.Layout
	if t.bySticks() {
		return append(dst, Deed{Do: ToDisarm, Ms: t.slots(cfg.Arming.DisarmDwell)})
	}
	return append(dst, Deed{Do: Move, Channel: l.Arm, Span: l.ArmSpan, Out: true})
}

// slots is a time in slots, in ms.
func (t *Teller) slots(n uint16) int32 { return int32(n) * int32(t.cfg().SlotTicks) }
