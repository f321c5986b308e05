// Package fault bends readings and bench inputs as an instructor asks.
//
// A fault is something wrong put in on purpose. It is planted and lifted by readings of the kind Instructor, so a take holds it and a
// replay bends again. State keeps what the pupil's hands really send beside what is planted, and tells what the bench is to be given in
// its place; it is a comparable value, everything in it follows from the readings and their ticks, and nothing here allocates.
package fault

import (
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// The faults, as deeds of an instructor. The numbers stand in takes: new ones go to the end.
const (
	_              pulse.Deed = iota
	RadioOff                  // the transmitter sends nothing, though its switch is on
	Dropouts                  // it sends nothing for a while, once or again and again
	Receiver                  // the receiver does something else on a silent radio than the craft's own
	Reversed                  // one channel runs the other way round
	Swapped                   // two channels stand in each other's place
	ShortTravel               // a channel ends before full travel, at one end
	Stuck                     // a channel stays where it was when this was planted
	Noisy                     // a channel trembles
	OffCentre                 // a channel is off by a fixed amount, as a stick is that does not rest in its middle
	ChannelOut                // a channel carries no pulse
	ModeGap                   // round the middle of the mode channel there is no span: rate
	LowPack                   // the pack's voltage
	WrongPropeller            // one motor has a propeller of the other hand (air bench)
	CableIn                   // the set-up cable is plugged in
	Breeze                    // a steady wind
	Gusts                     // a wind that gusts
	LevelOff                  // the craft is off level when it takes itself for level
	Count                     // one more than the last fault
)

// own is what the pupil has, unbent.
type own struct {
	frame    pulse.Frame
	hasFrame bool
	cable    bool
	pack     int32
	hands    [4]int8
	checked  bool
}

// State is what is planted, and what the pupil has meanwhile. Its zero value has nothing planted. Each fault is there once at
// most; planting it again replaces its number.
type State struct {
	planted uint32 // bit d: fault d
	number  [Count]int32
	since   int64 // tick at which Dropouts was planted
	blows   int64 // tick at which Gusts was planted: it decides which ones come
	caught  bool  // stuck is where the channel of Stuck stays
	stuck   pulse.Width
	own     own
}

var _ = map[State]struct{}{}

// Set is a set of faults, bit d for fault d.
type Set uint32

// Has reports whether d is in the set.
func (s Set) Has(d pulse.Deed) bool { return d < Count && s>>d&1 == 1 }

// Planted gives the number with which d is planted (Numbers takes it apart); on is false where d is not planted.
func (s *State) Planted(d pulse.Deed) (number int32, on bool) {
	if !s.has(d) {
		return 0, false
	}
	return s.number[d], true
}

// All is the set of the faults that are planted.
func (s *State) All() Set { return Set(s.planted) }

// Any reports whether a fault is planted.
func (s *State) Any() bool { return s.planted != 0 }

// Hands is what the pupil's hands really send; nil before the first reading of controls.
func (s *State) Hands() *pulse.Frame {
	if !s.own.hasFrame {
		return nil
	}
	return &s.own.frame
}

func (s *State) has(d pulse.Deed) bool { return d < Count && s.planted>>d&1 == 1 }

// Take takes one reading, of whatever kind, on its tick, and gives the faults that it has planted, replaced or lifted. A reading
// that plants what is not a fault, or a fault with a number that it cannot have, changes nothing.
func (s *State) Take(r *pulse.Reading, tick int64) Set {
	switch r.Kind {
	case pulse.Controls:
		s.own.frame, s.own.hasFrame = r.Frame, true
		s.catch()
	case pulse.Cable:
		s.own.cable = r.Value != 0
	case pulse.Pack:
		s.own.pack = r.Value
	case pulse.Propellers:
		s.fit(r.Value)
	case pulse.Instructor:
		return s.obey(r.Value, tick)
	}
	return 0
}

// fit notes the propellers that the pupil fits. A pupil who sees a planted wrong propeller and changes another one sends the wrong one
// along with it: that one is not the pupil's.
func (s *State) fit(value int32) {
	hands, checked := pulse.PropellersOf(value)
	if s.has(WrongPropeller) {
		m := s.motor()
		if was := s.own.hands[m]; was != 0 && hands[m] == -was {
			hands[m] = was
		}
	}
	s.own.hands, s.own.checked = hands, checked
}

func (s *State) motor() int { return int(s.number[WrongPropeller]) - 1 }

// obey plants and lifts.
func (s *State) obey(value int32, tick int64) Set {
	d, number := pulse.InstructorOf(value)
	switch {
	case d == pulse.DeedLiftAll:
		all := s.All()
		*s = State{own: s.own}
		return all
	case d > pulse.DeedLift && s.has(d-pulse.DeedLift):
		d -= pulse.DeedLift
		s.planted &^= 1 << d
		s.number[d] = 0
		s.forget(d)
	case d < Count && Right(d, number):
		s.planted |= 1 << d
		s.number[d] = number
		s.forget(d)
		switch d {
		case Dropouts:
			s.since = tick
		case Gusts:
			s.blows = tick
		}
		s.catch()
	default:
		return 0
	}
	return 1 << d
}

// forget drops what was kept for d.
func (s *State) forget(d pulse.Deed) {
	switch d {
	case Dropouts:
		s.since = 0
	case Gusts:
		s.blows = 0
	case Stuck:
		s.caught, s.stuck = false, 0
	}
}

// catch notes where a stuck channel stays, as soon as that is known.
func (s *State) catch() {
	if s.has(Stuck) && !s.caught && s.own.hasFrame {
		s.caught, s.stuck = true, s.own.frame[s.channel(Stuck)]
	}
}

// channel is the index from 0 of the channel that a fault is about.
func (s *State) channel(d pulse.Deed) int { return int(s.number[d]&0xff) - 1 }

// receiver is what the planted Receiver does when the radio goes silent.
func (s *State) receiver() link.OnLoss { return link.OnLoss(s.number[Receiver]) }

// Later moves what counts from a tick by so many. Which gusts come stays as it is.
func (s *State) Later(by int64) {
	if s.has(Dropouts) {
		s.since += by
	}
}
