package learn

import "propsoff.example/input/radio"

// Question is what is asked for now.
type Question uint8

// The questions, in order.
const (
	// Pitch, Yaw and Roll: to the high end (pitch forward, yaw right, roll right), to the low end, let go.
	Pitch Question = iota
	Yaw
	Roll
	// Throttle is the one that may stay where it is left: to its upper end, to its lower end, let go.
	Throttle
	// Arm: the control that arms, from off through all its positions to the last; it is left there.
	Arm
	// Mode: the control that chooses the flight mode, from its first position through all to the last; it is left there.
	Mode
	// Also: a control for one more job that the craft has (Options.Also, once for each), asked for like Mode.
	Also
	// More: any other switch or knob, again and again until Enough. Each that is found takes a free channel.
	More
	// StickMode: which hand carries what. No reading tells; SetStickMode answers it.
	StickMode
	// TopRight: both sticks in their top right corners, so that all four directions are at their high ends.
	TopRight
	// Replay: every control is moved once more, in any order.
	Replay
	// Once: of a radio file that is tried, one control, moved once.
	Once
	// Done: nothing is left to ask.
	Done
)

// Job is the job that q is about, as the radio file names it; empty for a question that is about none, and for Also
// (View.Job tells).
func (q Question) Job() string {
	switch q {
	case Pitch:
		return "pitch"
	case Yaw:
		return "yaw"
	case Roll:
		return "roll"
	case Throttle:
		return "throttle"
	case Arm:
		return "arm"
	case Mode:
		return "mode"
	}
	return ""
}

// stick reports whether q asks for a direction of a stick.
func (q Question) stick() bool { return q >= Pitch && q <= Throttle }

// through reports whether q asks for a control with positions.
func (q Question) through() bool { return q >= Arm && q <= More }

// Step is which part of a question is asked for now.
type Step uint8

const (
	HighEnd Step = iota // a stick: to its high end
	LowEnd              // a stick: to its low end
	LetGo               // a stick: let go
	Through             // a switch or knob: through all its positions
	Choose              // StickMode: one of four
	Corners             // TopRight: both sticks to the corner
	Each                // Replay: each control once
	ItsWay              // Once: to its high end, through its positions, or from end to end
	AndBack             // Once: let go, or set down again
	Over                // Done
)

// Phase is how far a step has got.
type Phase uint8

const (
	// Settling: waiting for every control to be still, so that it is known where they rest.
	Settling Phase = iota
	// Moving: waiting for the movement.
	Moving
	// Holding: a movement is seen and must stay where it is for a moment.
	Holding
	// Returning: the movement cannot be used (Notice says why); everything must go back first.
	Returning
	// Deciding: something is wrong (Notice says what). Enough accepts it, Back asks again.
	Deciding
	// Finished: no question is left.
	Finished
)

// Means is what Enough would do now.
type Means uint8

const (
	NoUse    Means = iota // nothing
	TakeIt                // takes what was seen so far: a stick that goes no farther, the positions up to now
	AcceptIt              // accepts what is wrong and goes on (Phase Deciding)
	NoMore                // ends the question More, or leaves the replay or the corner check
	Untried               // ends the try: the file is used though not all of it was tried
)

// Code says what a Notice is about.
type Code uint8

const (
	// Nothing: there is nothing to say.
	Nothing Code = iota
	// StillMoving: Axis has moved over Share of its range and keeps everything waiting.
	StillMoving
	// Restless: Axis never comes quite to rest; it trembles over Share of its range, and that is now allowed for.
	Restless
	// TooLittle: Axis moved, but only over Share of its range. Enough takes it all the same.
	TooLittle
	// NotAtEnd: Axis moved far enough and stands still short of an end, at Share of its range. Enough takes it.
	NotAtEnd
	// Two: two controls moved at once: Axis or Button, and OtherAxis or OtherButton (Job and OtherJob where they have one).
	// All must go back first.
	Two
	// Taken: the control that moved (Axis or Button) is Job already.
	Taken
	// WantStick: Button moved where a stick is asked for.
	WantStick
	// StartFirst: the control did not start in its first position; Axis or Button tells which one.
	StartFirst
	// TooQuick: Button was pressed and let go too quickly to count; or Axis went away and back.
	TooQuick
	// Mixed: one movement moves Axis (taken) and OtherAxis; Share is how far OtherAxis goes for each 1000 of Axis, in parts
	// of their own ranges, below 0 when it goes the other way round. Job is Axis' job, OtherJob that of OtherAxis if any.
	Mixed
	// Springs: the throttle (Axis) springs back, to Share of its range. A throttle should stay. Phase is Deciding.
	Springs
	// NoSpring: Job's stick (Axis) stays at Share of its range when it is let go. Phase is Deciding.
	NoSpring
	// TurnedRound: in the corner check Job's Axis is at its low end instead of its high one. Back asks for it again.
	TurnedRound
	// NotThere: in the corner check Job's Axis gets only to Share of its way. Back asks for it again.
	NotThere
	// NoChannel: the control (Axis or Button) was found, but no channel is free for it; it is left out of the file.
	NoChannel
	// MorePositions: Job's control stands in a place that was not known; it has Count positions now.
	MorePositions
	// Lost: readings were lost; the question starts again.
	Lost
	// CannotSkip: this question has to be answered.
	CannotSkip
	// Another: of a radio file that is tried, as all below, OtherAxis or OtherButton moved (OtherJob in the file, if any) where Job was asked
	// for, which the file has on Axis or Button. All must go back first.
	Another
	// NothingMoves: nothing has answered for a while; Job's control is on Axis or Button in the file.
	NothingMoves
	// Missing: Job's control is on Axis or Button in the file, and this radio has no such one.
	Missing
	// WrongEnd: Job's stick is at its low end instead of its high one.
	WrongEnd
	// TooShort: Job's stick or knob gets only to Share of its way; NotDown: the throttle stands there when it is set down.
	TooShort
	NotDown
	// AtFirst: Job's switch came to its first position, when its last was asked for.
	AtFirst
	// FewPlaces: of Job's switch Count positions were seen, of the Of that the file has.
	FewPlaces
	// NoPlace: Job's switch stands at Share of its axis' range, where the file has no position.
	NoPlace
	// WentBack: Job's switch left its last position by itself, or by a hand; the file has it as one that stays.
	WentBack
	// Stayed: Job's control does not go back, and the file has it as one that springs back.
	Stayed
)

// Notice is what was noticed last: a code and its numbers. The sentence is made where it is shown.
type Notice struct {
	Code Code
	// Job is the one that a control has already, OtherJob that of the other one; empty for none.
	Job, OtherJob string
	// Axis, Button, OtherAxis and OtherButton count from 0; −1 where there is none.
	Axis, Button, OtherAxis, OtherButton int
	// Share is a part of the axis' own range (NotThere: of its way), in tenths of a percent.
	Share int
	// Count is how many positions there are, Of how many there are to be.
	Count, Of int
}

// Item is one question of the plan.
type Item struct {
	Question Question
	// Job is what the radio file calls it; empty for StickMode, More, TopRight and Replay.
	Job string
	// Answered and Skipped are both false while it is open.
	Answered, Skipped bool
}

// Corner is one direction in the corner check.
type Corner struct {
	Job string
	// Share is where it stands between its low end (0) and its high end (1000).
	Share int
	// There: it is at its high end. Turned: it moved to its low end instead.
	There, Turned bool
}

// Replayed is one control in the replay.
type Replayed struct {
	Job  string
	Seen bool
}

// Options say what a Learner asks for.
type Options struct {
	// StickMode is the one that is marked first, 1 to 4; 0 means 2. ModeGiven: it is known, and not asked for.
	StickMode int
	ModeGiven bool
	// Also are further jobs that the craft has, as a radio file names them ("second", "channel 9"). Each is asked for by
	// itself and may be skipped.
	Also []string
	// Free are channels, counted from 0, that the craft gives no job. What More finds takes them in order.
	Free []int
}

func note(code Code) Notice {
	return Notice{Code: code, Axis: -1, Button: -1, OtherAxis: -1, OtherButton: -1}
}

func (n Notice) axis(i int) Notice     { n.Axis = i; return n }
func (n Notice) button(b int) Notice   { n.Button = b; return n }
func (n Notice) share(s int) Notice    { n.Share = s; return n }
func (n Notice) job(job string) Notice { n.Job = job; return n }

// MostPositions bounds how many positions of a control are told apart.
const MostPositions = radio.MostPositions
