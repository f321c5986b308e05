package sheet

import "propsoff/sim/flight"

// What must have been seen before the first flight, in the order in which it is shown.
const (
	NeedCheck      = iota // every control of the radio was checked
	NeedArmed             // the craft armed on the desk bench
	NeedDisarmed          // … and disarmed
	NeedLinkLost          // it was seen what it does when the radio goes silent
	NeedPropellers        // the propellers are checked; FirstView.Checked says so
	NeedCount
)

// FirstView is what the sheet before the first flight may know.
type FirstView struct {
	// Needs are the things that must have been seen on the desk bench; that of NeedPropellers is not used, Checked is.
	Needs [NeedCount]Need
	// Turns is each motor's direction as seen from above and Hands the propeller on it, +1 clockwise, −1 counter-clockwise, 0
	// none (as body.Config); motors in the order front left, front right, rear left, rear right.
	Turns, Hands [flight.Motors]int8
	// Selected is the motor whose propeller the key changes, 0…3.
	Selected int
	// Checked: the pilot says that the propellers are right. Changing one takes it back.
	Checked bool
	// Came is what the last flight came to, Tried the propellers with which it was flown. Planted: an instructor put another one on.
	Came    Outing
	Tried   [flight.Motors]int8
	Planted bool
}

// Need is one thing that must have been seen.
type Need struct {
	Done bool
	// Tick is when it was seen, in ms of the practice; negative where that is not known.
	Tick int64
	// How says how it was seen, as a sentence (phrase.Happening's, say); empty where there is nothing to add.
	How string
}

// Outing is what a flight with the propellers as they were came to.
type Outing uint8

const (
	NoOuting Outing = iota
	Flipped         // it tipped over
	NoLift          // it never left the ground, with the throttle up
)

// done tells whether a need is met.
func (v *FirstView) done(need int) bool {
	if need == NeedPropellers {
		return v.Checked
	}
	return v.Needs[need].Done
}

// Ready tells whether everything is done that is asked for before the craft may be carried out.
func (v *FirstView) Ready() bool {
	for i := range NeedCount {
		if !v.done(i) {
			return false
		}
	}
	return true
}

// motorPrefix and a number from 1 name the hit areas of the motors.
const motorPrefix = "motor-"

// MotorOf finds the motor, 0…3, of a hit area on the sheet before the first flight: it selects that motor, and where it is
// selected already, turns to the next propeller.
func MotorOf(code string) (int, bool) { return digitOf(code, motorPrefix, flight.Motors) }

// NextHand is the propeller after one: clockwise, counter-clockwise, none.
func NextHand(hand int8) int8 {
	switch hand {
	case 1:
		return -1
	case -1:
		return 0
	}
	return 1
}

// hand is the propeller on the motor selected.
func (v *FirstView) hand() int8 {
	if v.Selected < 0 || v.Selected >= len(v.Hands) {
		return 0
	}
	return v.Hands[v.Selected]
}
