// Package happening holds one line of the record: tick, code, numbers.
//
// The sentence a person reads is made where it is shown; here there are only numbers, so a log line costs nothing and
// has the same bytes everywhere.
package happening

// Code says what happened.
type Code uint8

// The codes, each with the meaning of its numbers A and B.
const (
	_            Code = iota
	Armed             // the craft became armed; A: the link.Origin of the frame that armed it
	Disarmed          // the craft became disarmed; A: a Cause
	Refused           // arming was asked for and refused; A: the set of refusals, one bit each; B: what it is being set up by, a SetUp
	LinkLost          // no valid frame for the silence limit; A: ms since the last valid frame
	LinkBack          // the first valid frame after a loss or since power-up
	LinkClean         // the clean time has passed: the link counts as good
	Sinking           // a lost link while armed: the craft sinks; A: ms the sinking will take, B: where it then is, a Place
	SinkEnded         // the link was clean again in time: the pilot has control; A: ms the sinking took, B: where it then is, a Place
	Mode              // the flight mode changed; A: new mode, B: old mode
	AirMode           // air mode woke
	Settled           // the craft has stood still long enough since power-up
	Power             // the craft's pack; A: 1 on, 0 off
	Cable             // the craft's set-up cable; A: 1 in, 0 out
	Transmitter       // the radio's transmitter; A: 1 on, 0 off
	Plug              // the radio's USB plug; A: 1 in, 0 out
	Tilted            // the craft was tilted; A: tenths of a degree
	Nudged            // the craft was moved
	Menu              // A: 0 closed, 1 craft's own, 2 a camera's
	Pack              // pack voltage set; A: millivolts
	TravelShort       // sticks stand in an arming corner as far as they go, and one does not reach; A: channel index, B: its extreme in eighths
	ReadingsLost      // the source lost readings and was read afresh; A: ms, 0 unknown
	Slept             // the program itself did not run (sleep, clock jump); A: ms
	Moved             // the craft was carried to another bench; A: which, the value of pulse.Air
	Fitted            // propellers were fitted or taken off; A: as pulse.PropellersValue
	TookOff           // the craft left the ground
	TouchedDown       // it came down; A: speed downwards in mm/s, B: greatest height since it left the ground in mm
	TippedOver        // it lies on its side or top
	StickMode         // which physical stick carries what; A: the stick mode, 1 to 4
	Gesture           // a two-stick gesture was made; A: which pattern of the set, counted from 0, B: ms it was held
	GestureNear       // one was nearly made; A: which pattern, B: a Near, and in the next 8 bits the stick direction that it is about
	MenuMark          // the mark of the open menu moved; A: the item it stands on now
	MenuValue         // a value of the open menu changed; A: the item, B: the new value
	MenuLeft          // the menu was left; A: 1 what was changed is kept, 0 it was put back
	Instructed        // something the instructor did; A: a pulse.Deed, B: its number
	Broke             // the craft broke on the ground, and its motors stop; A: what broke it, a Breakage, B: its speed in mm/s when it touched
	CodeCount         // one more than the last code
)

// Near says how a gesture was missed.
type Near uint8

const (
	_            Near = iota
	NearEarly         // let go before the dwell was over
	NearCorner        // all sticks but one were where they should be
	NearOvershot      // a stick went further than the pattern asks, into a corner
	NearLate          // the next part of a sequence came too late
	NearCount         // one more than the last
)

// SetUp says what a craft is being set up by: bits that add up, 0 where it is not being set up.
type SetUp uint8

const (
	ByCable      SetUp = 1 << iota // the set-up cable
	ByCraftMenu                    // the craft's own menu
	ByCameraMenu                   // a camera's menu that the craft knows of
)

// Breakage says what broke a craft: bits that add up.
type Breakage uint8

const (
	ByBlade   Breakage = 1 << iota // a propeller that turned met the ground
	OnTop                          // it came down on its top
	TooFast                        // it touched the ground too fast
	MotorsOff                      // nothing more to blame: by then its motors were off
)

// Place says where a craft is, as far as it matters to what it can do.
type Place uint8

const (
	Free     Place = iota // it flies; or it is on the desk bench, where nothing holds what its motors are told
	OnStand               // it hangs on the stand
	OnGround              // on the air bench, and it touches the ground
	Broken                // it has broken, and its motors stand still
)

// Cause says why the craft became disarmed.
type Cause uint8

const (
	_           Cause = iota
	BySwitch          // the arm channel left its span
	BySticks          // the disarm corner was held for its dwell
	ByLinkLoss        // the link was lost and the craft cuts
	BySinkEnd         // the link was lost, the craft sank to the end and cut
	ByPowerLoss       // the pack was unplugged
	ByStored          // the receiver's stored values, of the arm channel or in the disarm corner: no hand moved
	ByRepeated        // the radio's last frame, repeated by the receiver until the disarm corner had been held
	CauseCount        // one more than the last
)

// Happening is one line of the record. What A and B mean stands beside each Code.
type Happening struct {
	Tick int64 // ms since the practice began
	Code Code
	A, B int32
}

// LogSize is the most happenings that a Log holds; more are counted in Log.Lost. One step applies a handful of
// readings and makes about ten happenings of its own at most.
const LogSize = 64

// Log is a fixed-size list that the caller owns: a step appends to it, the caller empties it. The first N items count; Lost is how many
// found no room.
type Log struct {
	N    int
	Lost int
	Item [LogSize]Happening
}

// Add appends one happening. Where the log is full, it is counted in Lost instead.
func (l *Log) Add(tick int64, code Code, a, b int32) {
	if l == nil {
		return
	}
	if l.N == LogSize {
		l.Lost++
		return
	}
	l.Item[l.N] = Happening{Tick: tick, Code: code, A: a, B: b}
	l.N++
}

// Reset empties the log.
func (l *Log) Reset() { l.N, l.Lost = 0, 0 }

// All is the happenings in order; the slice is valid until the next Add or Reset.
func (l *Log) All() []Happening { return l.Item[:l.N] }
