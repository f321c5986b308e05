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
	// Gentle, while held, lets the sticks go half as far and the throttle move half as fast.
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

// Sort groups keys as a help sheet shows them.
type Sort uint8

const (
	LeftStick Sort = iota + 1
	RightStick
	Aid
	Switch
)

// Binding ties a key to the physical key that stands for it.
type Binding struct {
	Key Key
	// Physical is the key's place on a keyboard with the letters of the US layout: "W", "Up", "Shift" (either one).
	Physical string
	// Code is the name of the key's job for files and for the table of sentences: "throttle-up".
	Code string
	Sort Sort
}

// Layout is the default layout, in the order of a help sheet. The window must not give these keys another job.
func Layout() []Binding {
	return []Binding{
		{ThrottleUp, "W", "throttle-up", LeftStick},
		{ThrottleDown, "S", "throttle-down", LeftStick},
		{YawLeft, "A", "yaw-left", LeftStick},
		{YawRight, "D", "yaw-right", LeftStick},
		{PitchForward, "Up", "pitch-forward", RightStick},
		{PitchBack, "Down", "pitch-back", RightStick},
		{RollLeft, "Left", "roll-left", RightStick},
		{RollRight, "Right", "roll-right", RightStick},
		{ThrottleZero, "X", "throttle-zero", Aid},
		{Gentle, "Shift", "gentle", Aid},
		{Arm, "Space", "arm-switch", Switch},
		{ModeLow, "1", "mode-low", Switch},
		{ModeMiddle, "2", "mode-middle", Switch},
		{ModeHigh, "3", "mode-high", Switch},
		{Second, "E", "second-switch", Switch},
		{Extra, "Q", "extra-switch", Switch},
	}
}
