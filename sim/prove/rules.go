package prove

// Rule is one thing that a layout must hold to. The order is the one in which they are reported.
type Rule uint8

const (
	// PowerUpNeverArms: power-up does not arm, and neither does time alone after it.
	PowerUpNeverArms Rule = iota
	// OnlyArmControlArms: no movement of another control arms the craft, and neither does time alone; by sticks it never arms outside
	// the arm corner.
	OnlyArmControlArms
	// ArmControlDisarms: while the radio is heard, a switch that leaves its span disarms in that slot, and by sticks one dwell
	// in the disarm corner does.
	ArmControlDisarms
	// NothingElseDisarms: while the radio is on, no other control and no refusal ends being armed.
	NothingElseDisarms
	// ThrottleUpNeverArms: the craft never arms with the throttle up.
	ThrottleUpNeverArms
	// RefusalNeverArms: the craft never arms against any other refusal.
	RefusalNeverArms
	// ClearingNeverArms: one visit of the arm control gets one refusal, and clearing the reason alone never arms.
	ClearingNeverArms
	// TimesAreKept: the craft never arms before the still time, the clean time and the arm dwell have passed, control is not given back
	// before the clean time, and sticks do not disarm before their dwell.
	TimesAreKept
	// LossStopsMotors: after the radio falls silent the motors are stopped and the craft disarmed within silence limit + sinking
	// time. The way is one with turning motors, where there is one.
	LossStopsMotors
	// LinkBackNeverArms: a radio that comes back after a loss never arms, and neither does time alone after that.
	LinkBackNeverArms
	// StoredNeverArms: stored values never arm (receivers that send them).
	StoredNeverArms
	// HeldNeverArms: repeated values never arm (receivers that repeat the last).
	HeldNeverArms
	// UnheardIsSilent: a receiver that makes up frames sends none before the radio was first heard.
	UnheardIsSilent
	// EveryModeReached: every mode that has a span is reached by some position of the mode control.
	EveryModeReached
	// NoModeGap: no position of the mode control falls outside every span, where the craft would fly in rate.
	NoModeGap
	// PowerUpLevels: where the mode control stands at power-up, the craft levels itself.
	PowerUpLevels
	// CanArm: this radio can arm this craft.
	CanArm
	// CanDisarm: this radio can disarm this craft by its arm control.
	CanDisarm
	// ArmControlStays: the arm switch stays where it is put.
	ArmControlStays
	// CornerDisarmsInFlight: by sticks, low throttle and yaw fully left disarms in flight too. It comes with the method.
	CornerDisarmsInFlight
	// GestureNeverArms: sticks that stand in a gesture never arm, however long they stay.
	GestureNeverArms
	// MenuSticksNeverArm: while a menu that a gesture opened is open, no movement of the sticks arms.
	MenuSticksNeverArm
	// ArmedOpensNoMenu: a gesture made, or begun, while armed opens no menu.
	ArmedOpensNoMenu
	// OneGestureAtATime: no two gestures are made in one slot, unless they are declared to go together.
	OneGestureAtATime
	// GestureCanBeMade: with this radio every gesture can be made.
	GestureCanBeMade
	// GestureAlsoDisarms: a gesture made where sticks disarm also disarms. It comes with having both.
	GestureAlsoDisarms
	// ModeStays: no mode changes while nothing moves.
	ModeStays
	// OffBeforeArming: a craft that got power with its arm control on, wherever all else stands, never arms before that was seen off.
	OffBeforeArming
	// ArmingOpensNoMenu: sticks taken straight into the arm corner arm before a gesture opens a menu that refuses.
	ArmingOpensNoMenu

	// What practitioners fear of a layout that breaks no promise of the bench (fears.go).

	// SecondGoesOff: the second switch can be off.
	SecondGoesOff
	// SweepNeverArms: the arm switch is on nowhere between two places where it is off, so no sweep from end to end arms on the way.
	SweepNeverArms
	// ArmRestsOff: where the arm switch stands by itself, it is off: where it springs back to, or where it was found at rest.
	ArmRestsOff
	// ArmHasPositions: the arm channel is carried by a switch, not by a knob or stick.
	ArmHasPositions
	// ArmControlIsAlone: the arm switch is neither the mode switch nor the second switch.
	ArmControlIsAlone
	// NoRateOnTheWay: no way of the mode control from one self-levelling position to another passes rate.
	NoRateOnTheWay
	// SilenceStopsSoon: after the radio falls silent the motors stand within MostTurning.
	SilenceStopsSoon
	// SilenceSinks: a craft that is set to sink on a lost link does when the radio falls silent.
	SilenceSinks
	// SinkComesDown: a craft that sinks carries less than its weight, and some of it.
	SinkComesDown
	// StoredOffCorners: by sticks, stored values stand in neither corner.
	StoredOffCorners
	// OneFrameIsNoLoss: a single lost frame does not lose the link.
	OneFrameIsNoLoss
	// SilenceIsSeenSoon: the craft takes a silent radio for lost within MostBlind.
	SilenceIsSeenSoon
	// CleanTimeIsSet and StillTimeIsSet: there is such a time at all.
	CleanTimeIsSet
	StillTimeIsSet
	// TiltRefuses: a craft that lies on its side refuses.
	TiltRefuses
	// CornersTakeTime: by sticks, no corner has its effect in less than LeastDwell.
	CornersTakeTime
	// CornersBelowPower: by sticks, no corner reaches up to where the throttle asks for power.
	CornersBelowPower
	// ArmingStartsNoMotor: no motor turns at the moment of arming.
	ArmingStartsNoMotor
	// ThrottleLowIsClear: the throttle's low end lies clear of the low mark.
	ThrottleLowIsClear
	// ThrottleStays: the throttle stays where it is let go.
	ThrottleStays
	// ThrottleStaysUp: a throttle that is let go in flight does not fall to where the motors are asked for nothing.
	ThrottleStaysUp
	// NoStickMovesMode: no stick that flies the craft chooses the flight mode.
	NoStickMovesMode

	// What an instructor's radio beside the pupil's can do (sim/prove finds nothing of these: asked only where there is one).

	// TutorCanTake: the instructor's switch can take the sticks, and give them back.
	TutorCanTake
	// TutorLetsArm: with the instructor's radio on, the craft can be armed.
	TutorLetsArm
	// TutorCanDisarm: whoever flies, the instructor can disarm by his own radio.
	TutorCanDisarm
	// PupilStillDisarms: while the instructor has the sticks, the pupil's arm control disarms as ever.
	PupilStillDisarms
	// TutorHoldsNothing: no switch of the instructor's holds a craft armed whose pupil has his own off.
	TutorHoldsNothing
	// TakingArmsNothing: taking the sticks, or giving them back, never arms.
	TakingArmsNothing
	// TakingDisarmsNothing: taking the sticks, or giving them back, never disarms.
	TakingDisarmsNothing
	// RuleCount is one more than the last rule.
	RuleCount
)

var ruleCodes = [RuleCount]string{
	"power-up-never-arms", "only-arm-control-arms", "arm-control-disarms", "nothing-else-disarms", "throttle-up-never-arms",
	"refusal-never-arms", "clearing-never-arms", "times-are-kept", "loss-stops-motors", "link-back-never-arms",
	"stored-never-arms", "held-never-arms", "unheard-is-silent", "every-mode-reached", "no-mode-gap", "power-up-levels",
	"can-arm", "can-disarm", "arm-control-stays", "corner-disarms-in-flight",
	"gesture-never-arms", "menu-sticks-never-arm", "armed-opens-no-menu", "one-gesture-at-a-time", "gesture-can-be-made", "gesture-also-disarms",
	"mode-stays", "off-before-arming", "arming-opens-no-menu",
	"second-switch-goes-off", "sweep-never-arms", "arm-rests-off", "arm-has-positions", "arm-control-is-alone",
	"no-rate-on-the-way", "silence-stops-soon", "silence-sinks", "sink-comes-down", "stored-off-corners", "one-frame-is-no-loss", "silence-is-seen-soon",
	"clean-time-is-set", "still-time-is-set", "tilt-refuses", "corners-take-time", "corners-below-power", "arming-starts-no-motor",
	"throttle-low-is-clear", "throttle-stays", "throttle-stays-up", "no-stick-moves-mode",
	"instructor-can-take", "instructor-lets-arm", "instructor-can-disarm", "pupil-still-disarms", "instructor-holds-nothing", "taking-arms-nothing", "taking-disarms-nothing",
}

// OfTwoRadios reports whether a rule is about an instructor's radio beside the pupil's.
func (r Rule) OfTwoRadios() bool { return r >= TutorCanTake && r < RuleCount }

// Code is the rule's name in reports and files.
func (r Rule) Code() string { return code(ruleCodes[:], int(r)) }

// ofSteps reports whether every step that can be made is held against the rule.
func (r Rule) ofSteps() bool { return r < EveryModeReached || r == OffBeforeArming }

// Outcome is what came of a rule.
type Outcome uint8

const (
	NotAsked     Outcome = iota // the rule does not apply to this arming method or receiver
	Holds                       // the rule holds in every situation searched
	Broken                      // Result.Way is the shortest way to it
	WithIt                      // it comes with how this craft arms: Result.Way shows how
	Undecided                   // the search was stopped before the end
	OutcomeCount                // one more than the last
)

// Code is the outcome's name in reports and files.
func (o Outcome) Code() string {
	return code([]string{"not-asked", "holds", "broken", "with-it", "undecided"}, int(o))
}

// Cause says in a code why a rule is broken. The remarks name the rules that each comes with, and what a Result's Control, Position and
// Value hold then.
type Cause uint8

// The causes, by whose doing it is.
const (
	NoCause Cause = iota

	// The receiver's doing: LossStopsMotors, LinkBackNeverArms, HeldNeverArms, StoredNeverArms.

	HeldSwitch      // it repeats the last frame, arm switch and all
	HeldSticks      // it repeats the last frame, sticks and all
	StoredSwitchOn  // its stored values keep the arm channel in its span; Value: stored width
	StoredSwitchOff // its stored values keep the arm channel out of its span, so the switch may be on when the radio comes back
	StoredSticks    // its stored values keep the sticks out of the disarm corner
	StoredLate      // its stored values stand in the disarm corner, and the dwell ends after the promised time; Value: ms from the radio's last frame to disarmed
	StoredCorner    // its stored values put the sticks into the arm corner

	// What the radio can send. Control and, for a switch, Position say where; Value is a width, or the channel's number from 1
	// where the radio has no such control.

	NoControl          // CanArm, CanDisarm, EveryModeReached, PowerUpLevels: the radio sends nothing on this channel
	NeverPulse         // CanArm: a control never sends a pulse that counts
	ControlNoPulse     // OnlyArmControlArms, NothingElseDisarms: where this control can stand, no pulse is sent that counts
	ArmNoPulse         // ArmControlDisarms, CanDisarm: the same of the arm switch
	ArmNeverOn         // CanArm: no position lies in the arm span; Value: the nearest
	ArmNeverOff        // CanArm, CanDisarm: every position lies in the arm span
	ThrottleNeverLow   // CanArm, CanDisarm; Value: the lowest width
	YawNeverRight      // CanArm; Value: the highest width
	YawNeverLeft       // CanDisarm; Value: the lowest width
	SecondNeverOn      // CanArm; Value: the nearest width
	NeverSelfLevelling // CanArm: asked for self-levelling, and no position gives it
	SpringsBack        // ArmControlStays

	// The craft's spans: EveryModeReached (Mode), NoModeGap, PowerUpLevels; Value: the width there.

	ModeNoPosition // no position of the switch lies in the mode's spans
	ModeNoTravel   // the knob or stick does not go as far as the mode's spans
	GapBetween     // between two spans
	GapBelow       // below every span
	GapAbove       // above every span
	RateAtRest     // the span there says rate
	GapAtRest      // no span there, so it is rate
	AlwaysRate     // the craft always flies in rate
	LowMarkHigh    // ThrottleUpNeverArms: the low mark lies above 1000 µs; Value: the mark
	CornerHeld     // CornerDisarmsInFlight
	NoiseNoPulse   // OnlyArmControlArms, NothingElseDisarms, ArmControlDisarms: noise takes Control, at Position, to where it sends no pulse that counts; Value: what it sends without noise
	NoiseCrosses   // OnlyArmControlArms, NothingElseDisarms, PowerUpNeverArms, LinkBackNeverArms, ModeStays: noise takes Control, at Position, over an edge; Value: what it sends without noise

	// Gestures; Gesture says which.

	GestureInArmCorner    // GestureNeverArms: the arm corner and the gesture can be held at once
	MenuUnknown           // MenuSticksNeverArm: the craft does not know that this menu is open
	GestureTravel         // GestureCanBeMade: a stick does not go far enough; Value: how far it goes
	GestureInDisarmCorner // GestureAlsoDisarms
	MenuFirst             // ArmingOpensNoMenu, CanArm: where sticks arm, a gesture opens a menu that refuses before they do

	// What practitioners fear, each of the rule that bears its name.

	SecondNeverOff   // SecondGoesOff
	OnBetween        // SweepNeverArms
	ArmRestsOn       // ArmRestsOff: where it was found at rest
	ArmSpringsOn     // ArmRestsOff: where it springs back to
	ArmOnKnob        // ArmHasPositions
	ArmIsSecond      // ArmControlIsAlone; Value: the other channel's number from 1
	ArmIsMode        // ArmControlIsAlone; Value: the other channel's number from 1
	RateBetween      // NoRateOnTheWay
	SinksLong        // SilenceStopsSoon; Value: ms from the radio's last frame to the end of sinking
	HeldNoSink       // SilenceSinks
	StoredNoSink     // SilenceSinks
	SinkHovers       // SinkComesDown; Value: sinking time in ms
	SinkFalls        // SinkComesDown; Value: sinking time in ms
	StoredDisarms    // StoredOffCorners; Value: disarm dwell in ms
	SilenceOneFrame  // OneFrameIsNoLoss; Value: silence limit in ms
	SilenceLate      // SilenceIsSeenSoon; Value: silence limit in ms
	CleanNothing     // CleanTimeIsSet
	StillNothing     // StillTimeIsSet
	TiltPastUpright  // TiltRefuses; Value: the limit in tenths of a degree
	ArmDwellBrief    // CornersTakeTime; Value: ms
	DisarmDwellBrief // CornersTakeTime; Value: ms
	CornerInFlight   // CornersBelowPower; Value: the low mark
	IdlesArmed       // ArmingStartsNoMotor: set so
	AirWakesLow      // ArmingStartsNoMotor; Value: the width above which air mode wakes; Mode: that in which it is on
	LowEndNear       // ThrottleLowIsClear; Value: the low end
	ThrottleSprings  // ThrottleStays; Value: where it springs to
	ThrottleFalls    // ThrottleStaysUp; Value: where it springs to
	ModeOnStick      // NoStickMovesMode; Control: the stick
	ArmsTurned       // CanArm: the arm switch is on another channel too, turned, so that never both are as arming asks; Value: the other channel's number from 1

	// An instructor's radio, and what it does to the pupil's. Control is an index into both radios' controls together, the pupil's first.

	TutorNoSwitch    // TutorCanTake: his radio has no switch for it
	TutorNeverTakes  // TutorCanTake: no position of his switch lies in its span
	TutorNeverGives  // TutorCanTake: every position does, so it is never seen off
	TutorNeverOn     // TutorLetsArm: no position of his arm switch lies in the arm span; Value: the nearest
	TutorUnsent      // TutorCanDisarm: his radio sends nothing on the channel, so it takes no part in arming; Value: the channel's number from 1
	TutorNeverOff    // TutorCanDisarm: every position of his arm switch lies in the arm span
	TutorOffCorner   // TutorCanDisarm, PupilStillDisarms: his sticks never come into the disarm corner; Value: how far the one goes that does not
	PupilOffSticks   // PupilStillDisarms: by sticks, the pupil's corner does nothing then
	TutorFliesOn     // TutorHoldsNothing: the pupil's radio is gone, and the instructor's is heard
	TutorFliesAlone  // TutorHoldsNothing: the same, and the instructor cannot disarm either
	TakingShowsOn    // TakingArmsNothing: the pupil's switch went on unseen, and with the sticks the craft hears of it
	TakingInCorner   // TakingArmsNothing, TakingDisarmsNothing: by sticks, those that count from then on stand in the corner
	TakingIsArm      // TakingDisarmsNothing: the switch that takes the sticks is his arm switch too
	TakingBreaksLink // TakingDisarmsNothing: his radio sends no pulse that counts on a channel that is needed; Value: the channel's number from 1

	// What only a broken bench does; kept apart so that the report says what is broken.

	ByOtherControl   // OnlyArmControlArms, NothingElseDisarms
	ByTimeAlone      // OnlyArmControlArms, PowerUpNeverArms, LinkBackNeverArms
	AtOnce           // PowerUpNeverArms, LinkBackNeverArms: in that very slot
	StaysArmed       // ArmControlDisarms
	StopsLate        // LossStopsMotors; Value: promised ms
	ArmedUnseenOff   // OffBeforeArming
	AgainstThrottle  // ThrottleUpNeverArms
	AgainstSecond    // RefusalNeverArms, and so on
	AgainstMode      //
	AgainstLink      //
	AgainstMissing   //
	AgainstCraft     //
	AgainstOwnList   // the bench's own list of refusals is not empty
	RefusalTable     // a single condition does not give its own refusal, or gives another; Value: which of the table
	SpanEdges        // a span does not hold its low end, or holds its high end; Value: the width
	RefusedTwice     // ClearingNeverArms
	ClearedArms      // ClearingNeverArms
	StillTimeShort   // TimesAreKept; Value: promised ms, and so on
	CleanTimeShort   //
	ArmDwellShort    //
	DisarmDwellShort //
	KnownMenuArms    // MenuSticksNeverArm: though the craft knows it
	MadeWhileArmed   // ArmedOpensNoMenu
	TwoAtOnce        // OneGestureAtATime
	NeverMade        // GestureCanBeMade: though every stick goes far enough
	MakesUpFrames    // UnheardIsSilent, StoredNeverArms, HeldNeverArms
	Unexplained      // CanArm, CanDisarm: nothing in layout or radio says why
	CauseCount
)

var causeCodes = [CauseCount]string{
	"", "held-switch", "held-sticks", "stored-switch-on", "stored-switch-off", "stored-sticks", "stored-late", "stored-arm-corner",
	"no-control", "never-a-pulse", "control-without-pulse", "arm-without-pulse", "arm-never-on", "arm-never-off",
	"throttle-never-low", "yaw-never-right", "yaw-never-left", "second-never-on", "never-self-levelling", "springs-back",
	"mode-without-position", "mode-beyond-travel", "gap-between-spans", "gap-below-spans", "gap-above-spans", "rate-at-rest", "gap-at-rest",
	"always-rate", "low-mark-high", "corner-held", "noise-no-pulse", "noise-crosses", "gesture-in-arm-corner", "menu-unknown", "gesture-travel", "gesture-in-disarm-corner", "menu-first",
	"second-never-off", "on-between", "arm-rests-on", "arm-springs-on", "arm-on-knob", "arm-is-second-switch", "arm-is-mode-switch",
	"rate-between", "sinks-long", "held-no-sinking", "stored-no-sinking", "sink-hovers", "sink-falls", "stored-disarms", "silence-one-frame", "silence-late", "clean-time-nothing",
	"still-time-nothing", "tilt-past-upright", "arm-dwell-brief", "disarm-dwell-brief", "corner-in-flight", "idles-armed", "air-wakes-low", "low-end-near",
	"throttle-springs", "throttle-falls", "mode-on-stick", "arm-turned",
	"instructor-no-switch", "instructor-never-takes", "instructor-never-gives", "instructor-never-on", "instructor-unsent", "instructor-never-off", "instructor-off-corner", "pupil-off-sticks",
	"instructor-flies-on", "instructor-flies-alone", "taking-shows-on", "taking-in-corner", "taking-is-arm", "taking-breaks-link",
	"by-other-control", "by-time-alone", "at-once", "stays-armed", "stops-late", "armed-unseen-off", "against-throttle", "against-second-switch", "against-mode",
	"against-link", "against-missing", "against-craft", "against-own-list", "refusal-table", "span-edges", "refused-twice", "cleared-arms", "still-time-short",
	"clean-time-short", "arm-dwell-short", "disarm-dwell-short", "known-menu-arms", "made-while-armed", "two-at-once", "never-made", "makes-up-frames", "unexplained",
}

// Code is the cause's name in reports and files; empty for NoCause.
func (c Cause) Code() string { return code(causeCodes[:], int(c)) }

func code(of []string, i int) string {
	if i < len(of) {
		return of[i]
	}
	return "unknown"
}
