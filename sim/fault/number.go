package fault

import (
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// What says what one of the two numbers of a fault stands for, and so its unit.
type What uint8

const (
	Nothing    What = iota // no number
	Channel                // counted from 1
	EndsAt                 // µs
	Within                 // ± µs
	Off                    // µs, either way
	Millis                 // ms
	Every                  // ms from one beginning to the next, in whole hundredths of a second; 0 once
	MilliVolts             // mV
	Motor                  // 1 front left, 2 front right, 3 rear left, 4 rear right
	Receives               // a link.OnLoss
	Wind                   // tenths of a metre a second
	From                   // where it comes from, in degrees from north over east
	Bank                   // tenths of a degree to the right
	Nose                   // tenths of a degree up
)

// Quantity is one number of a fault: what it stands for, and its lowest and highest value, both included.
type Quantity struct {
	Is        What
	Low, High int32
}

// Meaning is what the two numbers of a fault stand for; Is is Nothing for one that the fault does not have.
type Meaning struct{ A, B Quantity }

const (
	centre     = int32(pulse.Centre / pulse.Eighths) // µs
	shortest   = 20                                  // ms: a slot
	longest    = 4095
	everyUnit  = 10 // ms
	seldomest  = 4095 * everyUnit
	fewestSpan = 10 // µs
	mostSpan   = 400
	mostWind   = 120 // tenths of a metre a second: in more no pupil flies
	mostOff    = 50  // tenths of a degree
)

// Of gives the meaning of a fault's numbers. Beyond the limits given there: ShortTravel ends anywhere but in the middle, Swapped needs
// two channels, OffCentre is not 0, LevelOff not 0 both ways, and Dropouts that come again leave at least 10 ms between them.
func Of(d pulse.Deed) Meaning {
	channel := Quantity{Channel, 1, pulse.Channels}
	switch d {
	case Dropouts:
		return Meaning{Quantity{Millis, shortest, longest}, Quantity{Every, 0, seldomest}}
	case Receiver:
		return Meaning{A: Quantity{Receives, int32(link.FallsSilent), int32(link.SendsStored)}}
	case Reversed, Stuck, ChannelOut:
		return Meaning{A: channel}
	case Swapped:
		return Meaning{channel, channel}
	case ShortTravel:
		return Meaning{channel, Quantity{EndsAt, 989, 2011}}
	case Noisy:
		return Meaning{channel, Quantity{Within, 1, mostSpan}}
	case OffCentre:
		return Meaning{channel, Quantity{Off, -mostSpan, mostSpan}}
	case ModeGap:
		return Meaning{A: Quantity{Within, fewestSpan, mostSpan}}
	case LowPack:
		return Meaning{A: Quantity{MilliVolts, 1, 65000}}
	case WrongPropeller:
		return Meaning{A: Quantity{Motor, 1, 4}}
	case Breeze, Gusts:
		return Meaning{Quantity{Wind, 1, mostWind}, Quantity{From, 0, 359}}
	case LevelOff:
		return Meaning{Quantity{Bank, -mostOff, mostOff}, Quantity{Nose, -mostOff, mostOff}}
	}
	return Meaning{}
}

// Number packs the two numbers of a fault as an Instructor reading carries them. ok is false where there is no such fault or a
// number is out of its range.
func Number(d pulse.Deed, a, b int32) (number int32, ok bool) {
	if d == 0 || d >= Count {
		return 0, false
	}
	m := Of(d)
	if !m.A.takes(a) || !m.B.takes(b) {
		return 0, false
	}
	switch d {
	case Dropouts:
		if b != 0 && b < a+everyUnit || b%everyUnit != 0 {
			return 0, false
		}
		return a | b/everyUnit<<12, true
	case Swapped:
		return a | b<<8, a != b
	case ShortTravel:
		return a | b<<8, b != centre
	case OffCentre:
		return a | int32(uint16(b))<<8, b != 0
	case Noisy, Breeze, Gusts:
		return a | b<<8, true
	case LevelOff:
		return int32(uint8(a)) | int32(uint8(b))<<8, a != 0 || b != 0
	}
	return a, true
}

func (q Quantity) takes(v int32) bool { return v >= q.Low && v <= q.High } // Nothing takes 0 alone

// Numbers takes apart a number that Number has packed.
func Numbers(d pulse.Deed, number int32) (a, b int32) {
	switch d {
	case Dropouts:
		return number & 0xfff, number >> 12 * everyUnit
	case Swapped, ShortTravel, Noisy, Breeze, Gusts:
		return number & 0xff, number >> 8
	case OffCentre:
		return number & 0xff, int32(int16(number >> 8))
	case LevelOff:
		return int32(int8(number)), int32(int8(number >> 8))
	}
	return number, 0
}

// Right reports whether d can have this number.
func Right(d pulse.Deed, number int32) bool {
	a, b := Numbers(d, number)
	again, ok := Number(d, a, b)
	return ok && again == number
}

// Plant is the value of the Instructor reading that plants a fault; ok as for Number.
func Plant(d pulse.Deed, a, b int32) (value int32, ok bool) {
	number, ok := Number(d, a, b)
	if !ok {
		return 0, false
	}
	return pulse.InstructorValue(d, number), true
}

// Lift is the value of the Instructor reading that lifts a fault.
func Lift(d pulse.Deed) int32 { return pulse.InstructorValue(d+pulse.DeedLift, 0) }

// LiftAll is the value of the Instructor reading that lifts every fault.
func LiftAll() int32 { return pulse.InstructorValue(pulse.DeedLiftAll, 0) }

// Code is a fault's word in files and reports; empty for what is no fault.
func Code(d pulse.Deed) string {
	switch d {
	case RadioOff:
		return "radio-off"
	case Dropouts:
		return "dropouts"
	case Receiver:
		return "receiver"
	case Reversed:
		return "reversed"
	case Swapped:
		return "swapped"
	case ShortTravel:
		return "short-travel"
	case Stuck:
		return "stuck"
	case Noisy:
		return "noisy"
	case OffCentre:
		return "off-centre"
	case ChannelOut:
		return "channel-out"
	case ModeGap:
		return "mode-gap"
	case LowPack:
		return "low-pack"
	case WrongPropeller:
		return "wrong-propeller"
	case CableIn:
		return "cable-in"
	case Breeze:
		return "breeze"
	case Gusts:
		return "gusts"
	case LevelOff:
		return "off-level"
	}
	return ""
}

// Find gives the fault of a word, the inverse of Code; ok is false where there is none.
func Find(code string) (d pulse.Deed, ok bool) {
	for d = 1; d < Count; d++ {
		if Code(d) == code {
			return d, true
		}
	}
	return 0, false
}

// Usual gives numbers to begin with on a craft with this layout, such that the pupil can notice the fault (all ours): roll
// reversed, roll and pitch swapped, a throttle that ends at 1012 µs. ok is false where the craft lacks what the fault would act on,
// such as a mode channel.
func Usual(d pulse.Deed, l *layout.Config) (a, b int32, ok bool) {
	from1 := func(c int8) int32 { return int32(c) + 1 }
	switch d {
	case RadioOff, CableIn:
		return 0, 0, true
	case Dropouts:
		return 400, 3000, true // longer than the silence limit, and a clean time between
	case Receiver:
		return int32(link.RepeatsLast), 0, true
	case Reversed:
		return from1(l.Roll), 0, true
	case Swapped:
		return from1(l.Roll), from1(l.Pitch), true
	case ShortTravel:
		return from1(l.Throttle), 1012, true
	case Stuck:
		if l.Mode == layout.NoChannel {
			return from1(l.Yaw), 0, true
		}
		return from1(l.Mode), 0, true
	case Noisy:
		if l.Mode == layout.NoChannel {
			return from1(l.Yaw), 60, true
		}
		return from1(l.Mode), 300, true
	case OffCentre:
		return from1(l.Pitch), 60, true
	case ChannelOut:
		if l.Mode == layout.NoChannel {
			return from1(l.Yaw), 0, true
		}
		return from1(l.Mode), 0, true
	case ModeGap:
		return 120, 0, l.Mode != layout.NoChannel
	case LowPack:
		return 13200, 0, true // four cells of 3.3 V: as good as empty (common practice, no source)
	case WrongPropeller:
		return 1, 0, true
	case Breeze:
		return 20, 270, true
	case Gusts:
		return 40, 270, true
	case LevelOff:
		return 10, 0, true
	}
	return 0, 0, false
}
