// Package pulse holds the words shared by input and bench: pulse width, frame of 16 channels, one time-stamped reading.
//
// It is the one part of sim that input may import, so that whatever acts as a radio and whatever acts as a craft agree
// on units, and on the names of jobs and positions, without knowing each other.
package pulse

// Width is a pulse width in eighths of a microsecond. One step of the published 11-bit scale is 5/8 µs, so in eighths
// its 2048 values stay apart and whole microseconds are exact.
type Width int16

// Eighths is the number of Width units in one microsecond.
const Eighths = 8

// Missing is the width of a channel that carries no pulse.
const Missing Width = 0

// The lowest and highest width that still count as a pulse (ours: the ends of the published 11-bit scale, 880 and
// 2159.375 µs, and about 20 µs more on either side). Both ends are included.
const (
	Lowest  Width = 860 * Eighths
	Highest Width = 2180 * Eighths
)

// Centre and full travel: plus and minus 100 % are Centre ± Travel, that is 988, 1500 and 2012 µs.
const (
	Centre Width = 1500 * Eighths
	Travel Width = 512 * Eighths
	Low          = Centre - Travel
	High         = Centre + Travel
)

// FullyLow and FullyHigh are the widths at or beyond which a control counts as taken fully to that end: 85 % of travel,
// 1064.8 and 1935.2 µs (ours). Neither is a whole eighth, so they are rounded outwards: the first eighth beyond.
const (
	FullyLow  Width = 8518  // 1064.75 µs, the highest eighth not above 1064.8
	FullyHigh Width = 15482 // 1935.25 µs, the lowest eighth not below 1935.2
)

// Micros makes a Width from whole microseconds, us within -4095..4095.
func Micros(us int) Width { return Width(us * Eighths) }

// Valid reports whether w is a pulse at all: within Lowest and Highest, both included.
func (w Width) Valid() bool { return w >= Lowest && w <= Highest }

// Whole is w in whole microseconds, rounded down, as it is shown to a person: a shown 999 is always below 1000.
func (w Width) Whole() int {
	return int(w) >> 3 // a shift rounds down, below zero too
}

// FromTicks converts a value of a published 11-bit serial scale (0..2047, 992 at the centre) to a Width, exactly:
// (ticks − 992) · 5/8 µs + 1500 µs, where its document rounds towards zero.
func FromTicks(ticks int) Width { return Width((ticks-992)*5) + Centre }

// Ticks converts w to the nearest value of the published 11-bit scale, halves rounded up. The inverse of FromTicks for
// every value from 0 to 2047.
func (w Width) Ticks() int {
	n := (int(w)-int(Centre))*2 + 992*10 + 5 // in tenths of a tick, half a tick added for rounding
	if n < 0 {
		return -((-n + 9) / 10)
	}
	return n / 10
}

// Percent makes a Width from tenths of a percent of travel: −1000, 0 and +1000 are 988, 1500 and 2012 µs. The result is
// rounded towards the centre to a whole eighth.
func Percent(tenths int) Width { return Centre + Width(tenths*int(Travel)/1000) }

// ThrottleFraction is the throttle's share of full power in 1/8000: (µs − 1000)/1000 kept within 0 and 1.
func (w Width) ThrottleFraction() int {
	return min(max(int(w)-1000*Eighths, 0), 1000*Eighths)
}

// ThrottleFull is the value of ThrottleFraction at full power.
const ThrottleFull = 1000 * Eighths

// Channels is the number of channels in a frame.
const Channels = 16

// Frame is one value for each channel; index 0 is channel 1.
type Frame [Channels]Width

// Kind tells what a Reading is about.
type Kind uint8

const (
	// Controls: the whole frame as the hands hold it now. All channels of one device packet stand in one reading, so
	// two sticks moved in one packet move at one instant.
	Controls Kind = iota + 1
	// Link: the transmitter's own switch. Value 1 transmitting, 0 silent (its sticks are still shown).
	Link
	// Plug: the USB plug of the radio. Value 1 plugged in, 0 pulled out.
	Plug
	// Power: the craft's pack. Value 1 on, 0 off.
	Power
	// Cable: the craft's set-up cable. Value 1 in, 0 out.
	Cable
	// Tilt: the craft is tilted to Value tenths of a degree from level, 0..1800.
	Tilt
	// Nudge: the craft is moved once. Value unused.
	Nudge
	// Menu: Value 0 closed, 1 the craft's own menu is open, 2 a camera's menu is open.
	Menu
	// Pack: pack voltage in millivolts, 0..65000.
	Pack
	// Gap: the source lost readings and was read afresh; Value is the length in milliseconds, 0 where unknown.
	Gap
	// Sleep: the program itself did not run for Value milliseconds (the machine slept, or its clock jumped).
	Sleep
	// Air: Value says on which bench the craft is put: OnDesk, InAir, OnStand, HeightHeld, or flown there for the pilot, as HoverAt says. Its pack
	// was out for a moment, but where the whole craft is on the air bench already, whole, and its height is held from now on: in flight, or disarmed.
	Air
	// Propellers: which propeller sits on which motor, and whether the pilot has checked them. See PropellersValue.
	Propellers
	// StickMode: which physical stick carries what; Value is the stick mode, 1 to 4.
	StickMode
	// Instructor: something that the instructor did; see InstructorValue.
	Instructor
	// KindCount is one more than the last kind that a source may send. A take keeps a kind in four bits, so there is room for no more.
	KindCount
)

// What the bench is told of what an instructor has planted. It follows from Instructor readings, so no source sends it and no take holds it.
const (
	// Wind: how the air moves; see WindValue.
	Wind = KindCount + iota
	// LevelOff: how far the craft is from level when it takes itself for level; see LevelOffValue.
	LevelOff
)

// The values of an Air reading.
const (
	// OnDesk: it cannot move.
	OnDesk = 0
	// InAir: the whole craft flies.
	InAir = 1
	// OnStand: it hangs on a ball joint in its middle, and can turn but not go.
	OnStand = 2
	// HeightHeld: a hand that nobody sees holds its height, and has the throttle for that.
	HeightHeld = 3
	// hovering and more: it is on the air bench and hovers, so many mm up.
	hovering = 1000
)

// HighestHover is how high a craft can be flown for its pilot, in mm (ours).
const HighestHover = 100_000

// HoverAt is the value of an Air reading by which the craft is flown for its pilot to so many mm above the start of the air bench: it hovers there, armed, and
// is his from then on. Where his hands do not let it be armed there (the arm switch is off, the radio is silent), it stands on the ground of the air bench.
func HoverAt(mm int32) int32 { return hovering + min(max(mm, 0), HighestHover) }

// HoverOf is the height that HoverAt has put into the value of an Air reading; ok is false where the value says something else.
func HoverOf(value int32) (mm int32, ok bool) {
	if value < hovering {
		return 0, false
	}
	return min(value-hovering, HighestHover), true
}

// The values of a Menu reading.
const (
	MenuClosed = 0
	MenuCraft  = 1
	MenuCamera = 2
)

// Deed is what an Instructor reading tells.
type Deed uint8

// The deeds of an instructor. Numbers not named here are faults (sim/fault): planted where they are below DeedLift, and lifted
// again by the same number plus DeedLift.
const (
	// DeedHands: the sticks change hands; number 1 the instructor's radio flies, 0 the pupil's again.
	DeedHands Deed = 250
	// DeedArmOff: the instructor's radio holds the arm channel off though the pupil's arm switch is on; number 1 it does, 0 no longer.
	DeedArmOff Deed = 248
	// DeedMark: a commentary mark; number is the mark's own, counted from 1.
	DeedMark Deed = 251
	// DeedLift is added to a fault to lift it. DeedLiftAll lifts every fault.
	DeedLift    Deed = 100
	DeedLiftAll Deed = 249
)

// InstructorValue packs what an instructor did with a number of 0..0xffffff, whose meaning the deed tells.
func InstructorValue(d Deed, number int32) int32 { return int32(d) | number<<8 }

// InstructorOf is the inverse of InstructorValue.
func InstructorOf(v int32) (d Deed, number int32) { return Deed(v), int32(uint32(v) >> 8) }

// PropellersValue packs the propellers for a reading: for each motor (front left, front right, rear left, rear right) +1 one
// that lifts when turned clockwise as seen from above, −1 one that lifts counter-clockwise, 0 none; and whether the pilot says
// that they are checked.
func PropellersValue(hands [4]int8, checked bool) int32 {
	v := int32(0)
	for i, h := range hands {
		v |= int32(h+1) & 3 << (2 * i)
	}
	if checked {
		v |= 1 << 8
	}
	return v
}

// PropellersOf is the inverse of PropellersValue; what no value means counts as no propeller.
func PropellersOf(v int32) (hands [4]int8, checked bool) {
	for i := range hands {
		if h := int8(v >> (2 * i) & 3); h <= 2 {
			hands[i] = h - 1
		}
	}
	return hands, v>>8&1 == 1
}

// WindValue packs a wind for a reading: its mean speed 20 ft up in tenths of a metre a second, 0..511, where it comes from in degrees
// from north over east, 0..359, whether it gusts, and by which chance, 0..4095. 0 is still air.
func WindValue(tenths, from int32, gusts bool, chance int32) int32 {
	v := tenths&0x1ff | from%360<<9 | chance&0xfff<<19
	if gusts {
		v |= 1 << 18
	}
	return v
}

// WindOf is the inverse of WindValue.
func WindOf(v int32) (tenths, from int32, gusts bool, chance int32) {
	return v & 0x1ff, v >> 9 & 0x1ff, v>>18&1 == 1, int32(uint32(v) >> 19)
}

// LevelOffValue packs an error of level: how far it is banked to the right and has its nose up, in tenths of a degree, when it takes itself
// for level. 0 is none.
func LevelOffValue(bank, nose int32) int32 { return int32(uint16(bank)) | nose<<16 }

// LevelOffOf is the inverse of LevelOffValue.
func LevelOffOf(v int32) (bank, nose int32) { return int32(int16(v)), v >> 16 }

// Reading is one time-stamped change: either the controls or one bench input. One door for both, so that a take holds
// both.
type Reading struct {
	// At is the time in microseconds since the source was opened, by the device's own stamp where it gives one.
	At int64
	// Kind tells which of the fields below is used.
	Kind Kind
	// Frame is the value of every channel (Controls only).
	Frame Frame
	// Value is the bench input's new value (all other kinds).
	Value int32
}
