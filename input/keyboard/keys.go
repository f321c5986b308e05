// Package keyboard: keys as two sticks and switches.
//
// It knows keys by what they do (Key) and never by what is printed on them: the window maps real keys to these by the
// Layout. Anyone can try the bench with it; nobody should judge a radio by it.
package keyboard

// Key is a key by what it does.
type Key uint8

// The keys. Sticks move while their key is held: yaw, roll and pitch spring back, the throttle stays. Switches change at
// the press.
const (
	ThrottleUp Key = iota + 1
	ThrottleDown
	YawLeft
	YawRight
	PitchForward
	PitchBack
	RollLeft
	RollRight
	// ThrottleZero puts the throttle to 988 µs at once.
	ThrottleZero
	// Gentle, while held, lets the sticks go half as far and the throttle move a quarter as fast.
	Gentle
	// Arm, Second and Extra change between off and on.
	Arm
	Second
	Extra
	// ModeLow, ModeMiddle and ModeHigh put the mode switch to that position.
	ModeLow
	ModeMiddle
	ModeHigh

	keys = int(ModeHigh) + 1
)

// Stick reports whether k moves a stick (or helps one); the others are switches.
func (k Key) Stick() bool { return k >= ThrottleUp && k <= Gentle }

// Axis is one direction of a stick that a pointer moves.
type Axis uint8

// The axes.
const (
	Throttle Axis = iota
	Yaw
	Roll
	Pitch

	axes = int(Pitch) + 1
)

// Binding ties a key to the physical key that stands for it.
type Binding struct {
	Key Key
	// Physical is the key by its place, named by the letter that the US layout has there: "W", "Up", "Shift" (either one).
	Physical string
	// Code is the code word of the key's job, in files and in the catalogues: "throttle-up".
	Code string
}

// Layout is the default layout, in the order of a help sheet. The window must not give these keys another job.
func Layout() []Binding {
	return []Binding{
		{ThrottleUp, "W", "throttle-up"},
		{ThrottleDown, "S", "throttle-down"},
		{YawLeft, "A", "yaw-left"},
		{YawRight, "D", "yaw-right"},
		{PitchForward, "Up", "pitch-forward"},
		{PitchBack, "Down", "pitch-back"},
		{RollLeft, "Left", "roll-left"},
		{RollRight, "Right", "roll-right"},
		{ThrottleZero, "X", "throttle-zero"},
		{Gentle, "Shift", "gentle"},
		{Arm, "Space", "arm-switch"},
		{ModeLow, "1", "mode-low"},
		{ModeMiddle, "2", "mode-middle"},
		{ModeHigh, "3", "mode-high"},
		{Second, "E", "second-switch"},
		{Extra, "Q", "extra-switch"},
	}
}
