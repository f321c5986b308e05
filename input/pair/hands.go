package pair

import "propsoff.example/sim/pulse"

// Known is what a source said of an input that is on or off: 0 nothing yet (which counts as on), 1 off, 2 on.
type Known uint8

// What is known of an input that was told.
const (
	Off Known = 1 + iota
	On
)

func (k Known) on() bool { return k != 1 }

func knownOf(value int32) Known {
	if value != 0 {
		return 2
	}
	return 1
}

// Side is what one of the two radios has told of itself.
type Side struct {
	Frame      pulse.Frame
	Has        bool // Frame was told
	Plug, Link Known
}

// Note takes what is about the radio itself, and reports false for any other reading.
func (s *Side) Note(r *pulse.Reading) bool {
	switch r.Kind {
	case pulse.Controls:
		s.Frame, s.Has = r.Frame, true
	case pulse.Plug:
		s.Plug = knownOf(r.Value)
	case pulse.Link:
		s.Link = knownOf(r.Value)
	default:
		return false
	}
	return true
}

// There reports whether the radio is plugged in and sends.
func (s *Side) There() bool { return s.Has && s.Plug.on() && s.Link.on() }

// Held is all that a pair remembers of the two radios: who has the sticks, and what is held off. Two that are equal go on alike.
type Held struct {
	Hands   bool // the instructor has the sticks
	ready   bool // his switch has been seen off since his radio came
	heldOff bool // the pupil's arm switch must be seen off
	armOff  bool // the arm channel is held off
	against bool // … though the pupil's switch is on
}

// Settle decides anew who has the sticks and whether the arm channel is held off, from what the two radios now tell.
func (c *Config) Settle(s Held, pupil, his *Side) Held {
	there := his.There()
	on := there && c.SwitchSpan.holds(his.Frame[c.Switch])
	s.ready = there && (s.ready || !on)
	hands := on && s.ready
	off := false // the instructor's arm switch stands off
	if c.Arm >= 0 {
		if s.Hands && !there {
			s.heldOff = true
		}
		a := his.Frame[c.Arm]
		off = there && a.Valid() && !c.ArmSpan.holds(a)
		s.heldOff = s.heldOff || off
		if a := pupil.Frame[c.Arm]; pupil.Has && a.Valid() && !c.ArmSpan.holds(a) {
			s.heldOff = false
		}
	}
	s.Hands, s.armOff = hands, off || s.heldOff
	s.against = s.armOff && pupil.Has && c.ArmSpan.holds(pupil.Frame[c.Arm])
	return s
}

// Sends is the frame that the two radios then make together.
func (c *Config) Sends(s Held, pupil, his *Side) pulse.Frame {
	f := pupil.Frame
	if s.Hands {
		for ch := range f {
			if c.Sticks>>ch&1 == 1 && int8(ch) != c.Arm {
				f[ch] = his.Frame[ch]
			}
		}
	}
	if s.armOff {
		f[c.Arm], _ = c.ArmSpan.outside()
	}
	return f
}
