// Package input says what a device is and what a source is.
//
// A Device is the raw thing on the USB port: numbered axes and buttons with the device's own numbers. A Source is
// everything that acts as a radio: it hands out time-stamped readings in microseconds of pulse. The keyboard, a pilot
// script, a take and a radio that has been learned are all sources, and one test (input/inputtest) holds for all.
package input

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// MaxAxes and MaxButtons are how many of each a raw state holds: more are not read.
const (
	MaxAxes    = 32
	MaxButtons = 128
)

// Axis is one raw axis of a device.
type Axis struct {
	// Code is the operating system's own number (Linux: ABS_X = 0 …). Hats are two axes each.
	Code int
	// Min and Max are the device's logical range.
	Min, Max int32
	// Hat is true for a hat's half.
	Hat bool
}

// Info is what a device says of itself. A missing text is empty.
type Info struct {
	// Path is where the device was found (a device node, or "joystick 0").
	Path string
	// Name is what the device calls itself, without padding.
	Name string
	// Vendor and Product are the USB numbers, 0 where unknown.
	Vendor, Product uint16
	// Serial is the serial number, Port the physical place where it is plugged in; both tell twins apart.
	Serial, Port string
	// Axes are in raw order; Buttons is how many there are.
	Axes    []Axis
	Buttons int
	// Blunted is true where the way of reading hides part of an axis (a dead zone at the centre).
	Blunted bool
	// Way is the code word of how the device is read, as package usb has it.
	Way string
}

// Raw is the whole state of a device at one time: not a change but everything, so a lost one costs nothing.
type Raw struct {
	// At is µs on the clock the device was opened with; the device's own stamp where it gives one.
	At int64
	// Axes are values in the device's own numbers, in the order of Info.Axes.
	Axes [MaxAxes]int32
	// Buttons are bits, 1 for pressed: button n (from 0) is bit n%64 of word n/64.
	Buttons [MaxButtons / 64]uint64
	// Resync is true when readings were lost before this one and the device was asked afresh.
	Resync bool
}

// Button reports whether button n (from 0) is pressed.
func (r *Raw) Button(n int) bool {
	return n >= 0 && n < MaxButtons && r.Buttons[n/64]>>(n%64)&1 == 1
}

// ErrGone is returned (wrapped) by a device that was pulled out.
var ErrGone error = words.Wrong("source.gone")

// ErrEnd is returned by a source that has played to its end.
var ErrEnd error = words.Wrong("source.ended")

// Device is one radio on the USB port, read apart from drawing: its states are kept until they are asked for.
type Device interface {
	// Info does not change while the device is open.
	Info() Info
	// Poll appends every state since the last call, in order, and never blocks. The first state is there as soon as
	// the device is open. After the device has vanished it gives what is left and then an error that wraps ErrGone.
	Poll(dst []Raw) ([]Raw, error)
	// Wake carries a value when Poll may have something new.
	Wake() <-chan struct{}
	// Close lets go of the device; a second call does no harm. Poll gives an error afterwards.
	Close() error
}

// Source is everything that acts as a radio.
type Source interface {
	// Name is what a person calls it.
	Name() string
	// Poll appends every reading with a time of at most until (µs since the source was opened) that was not handed
	// out before, in order of time, and never blocks. After the last reading it returns ErrEnd (sources that end) or
	// another error that ended it; readings appended before the error still count.
	Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error)
	// Wake carries a value when Poll may have something new before its time; nil for sources that play by time alone.
	Wake() <-chan struct{}
	// Close ends the source and lets go of what it reads; a second call does no harm. Poll gives no readings and an error
	// afterwards.
	Close() error
}

// By says whose hands a source is.
type By uint8

// Whose hands they may be; Nobody's while nothing plays.
const (
	Nobody By = iota
	ByRadio
	ByKeyboard
	ByDemo   // the demo pilot
	ByScript // something written down or recorded
)

// Pupil reports whether these are a person's own hands.
func (b By) Pupil() bool { return b == ByRadio || b == ByKeyboard }
