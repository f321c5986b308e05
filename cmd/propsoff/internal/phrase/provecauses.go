package phrase

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/flight"
	"propsoff/sim/handset"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// causeSentenceOf says in a sentence or two why a rule is broken, with the numbers that matter and what to do about it.
func causeSentenceOf(l *prove.Layout, r *prove.Result) string {
	if s := receiverCause(l, r); s != "" {
		return s
	}
	if s := radioCause(l, r); s != "" {
		return s
	}
	if s := spanCause(l, r); s != "" {
		return s
	}
	if s := gestureCause(l, r); s != "" {
		return s
	}
	if r.Cause == prove.StopsLate {
		return "The bench itself is at fault: the motors stop later than the promised " + Seconds(r.Value) + "."
	}
	if s := benchCauses[r.Cause]; s != "" {
		return s
	}
	return "Nothing in craft file or radio file says why; replay the way and look."
}

// noPulses is what to set against a receiver that makes up frames.
const noPulses = " Set the receiver to fall silent (no pulses)."

// receiverCause is what the receiver does while the radio is silent.
func receiverCause(l *prove.Layout, r *prove.Result) string {
	back := r.Rule == prove.LinkBackNeverArms
	switch r.Cause {
	case prove.HeldSwitch:
		if back {
			return "The receiver repeats the last values, arm switch off, so the craft takes the link for good; when the radio comes back with the switch on, it arms." + noPulses
		}
		return "The receiver repeats the last values, arm switch on, so the craft cannot know that the radio is silent, and its motors go on." + noPulses
	case prove.HeldSticks:
		switch {
		case back:
			return "The receiver repeats the last stick values, so the craft takes the link for good; when the radio comes back with the sticks in the arm corner, it arms." + noPulses
		case r.Rule == prove.HeldNeverArms:
			return "The receiver repeats sticks that stand in the arm corner, and the dwell ends without the radio: the craft arms by itself." + noPulses
		}
		return "The receiver repeats the last stick values, so the craft cannot know that the radio is silent, and its motors go on." + noPulses
	case prove.StoredSwitchOn:
		stored := "The receiver's stored value of the arm channel (" + valueMicros(r) + ") lies in the arm span"
		if r.Rule == prove.StoredNeverArms {
			return stored + ": a craft that was disarmed arms when the radio falls silent. Store a value outside the span, or set the receiver to fall silent."
		}
		return stored + ", so a silent radio leaves the craft armed. Store a value outside the span, or set the receiver to fall silent."
	case prove.StoredSwitchOff:
		return "The receiver's stored values look like a good link with the arm switch off; when the radio comes back with the switch on, the craft arms." + noPulses
	case prove.StoredSticks:
		if back {
			return "The receiver's stored values look like a good link; when the radio comes back with the sticks in the arm corner, the craft arms." + noPulses
		}
		if q := facts.Silence(&l.Config); q.Ends != facts.Never {
			return "The receiver's stored values stand at the edge of the disarm corner and begin no dwell there, so a silent radio leaves a flying craft armed." + noPulses
		}
		return "The receiver's stored values keep the sticks out of the disarm corner, so a silent radio leaves the craft armed." + noPulses
	case prove.StoredLate:
		return "The receiver's stored values stand in the disarm corner, but disarm only when the dwell is over: " + Seconds(r.Value) + " after the radio's last frame, later than promised." + noPulses
	case prove.StoredCorner:
		return "The receiver's stored values put throttle and yaw into the arm corner: a silent radio arms the craft." + noPulses
	}
	return ""
}

// radioCause is what the radio can and cannot send.
func radioCause(l *prove.Layout, r *prove.Result) string {
	a := &l.Config.Arming
	name, place := controlOf(l, r)
	pulses := " (a pulse is " + Micros(pulse.Lowest) + " to " + Micros(pulse.Highest) + " µs)"
	switch r.Cause {
	case prove.NoControl:
		c := int(r.Value) - 1
		s := "The radio sends nothing on " + Channel(&l.Config.Layout, c)
		switch r.Rule {
		case prove.EveryModeReached:
			return s + ", so no switch chooses between the modes, and the craft stays in angle. Give the channel a switch in the radio."
		case prove.PowerUpLevels:
			return s + ". Give the channel a switch in the radio."
		}
		return s + ", which arming needs. Give the channel a control in the radio."
	case prove.NeverPulse:
		return capital(name) + " never sends a pulse that counts" + pulses + ", so no frame is valid. Set its travel in the radio."
	case prove.ControlNoPulse:
		s := capital(name) + place + " reads " + valueMicros(r) + ", which is no pulse" + pulses
		if r.Rule == prove.OnlyArmControlArms {
			return s + ": an arm switch moved on meanwhile takes effect when this control is moved back. Set its travel in the radio."
		}
		return s + ": held there it breaks the link. Set its travel in the radio."
	case prove.ArmNoPulse:
		return capital(name) + place + " reads " + valueMicros(r) + ", which is no pulse" + pulses + ": the craft does not see it leave the span. Set its travel in the radio."
	case prove.ArmNeverOn:
		return "No position of " + name + " lies in the arm span " + SpanWords(l.Config.Layout.ArmSpan) + " µs; the nearest reads " + valueMicros(r) + ". Move the span, or set the travel in the radio."
	case prove.ArmNeverOff:
		return "Every position of " + name + " lies in the arm span " + SpanWords(l.Config.Layout.ArmSpan) + " µs, so it is never seen off. Move the span's edge between two positions."
	case prove.ThrottleNeverLow:
		return "The throttle goes no lower than " + valueMicros(r) + ", and must come below " + Exact(a.LowThrottle) + ". Set its travel in the radio."
	case prove.YawNeverRight:
		return "Yaw goes no further right than " + valueMicros(r) + ", and arming asks for " + Exact(a.YawRight) + ". Set its travel in the radio."
	case prove.YawNeverLeft:
		return "Yaw goes no further left than " + valueMicros(r) + ", and disarming asks for " + Exact(a.YawLeft) + ": an armed craft could not be disarmed. Set its travel in the radio."
	case prove.SecondNeverOn:
		return "No position of " + name + " lies in the second switch's span " + SpanWords(l.Config.Layout.SecondSpan) + " µs; the nearest reads " + valueMicros(r) + ". Move the span, or set the travel in the radio."
	case prove.NeverSelfLevelling:
		return "This craft arms in self-levelling modes only, and no position gives one. Give angle or horizon a span that a position reaches."
	case prove.CornerHeld:
		return "Throttle low and yaw fully left, held for the dwell, disarm a flying craft."
	case prove.SpringsBack:
		return capital(name) + " springs back when it is let go, so the craft is armed only while it is held. Take a switch that stays."
	}
	return ""
}

// controlOf names the control of a result with its article, and its position in words that begin with a space, if any.
func controlOf(l *prove.Layout, r *prove.Result) (name, place string) {
	if r.Control < 0 || r.Control >= len(l.Radio.Controls) {
		return "a control", ""
	}
	c := &l.Radio.Controls[r.Control]
	name = ControlName(c)
	if c.Kind != handset.Stick {
		name = "the " + name
	}
	switch n := len(c.Positions); {
	case r.Position < 0 || n == 0:
	case n <= 3:
		place = " in its " + PositionWord(r.Position, n) + " position"
	default:
		place = " in " + PositionWord(r.Position, n)
	}
	return name, place
}

// spanCause is what the craft's spans leave out.
func spanCause(l *prove.Layout, r *prove.Result) string {
	name, place := controlOf(l, r)
	there := capital(name) + place + ", at " + valueMicros(r) + ","
	const gap = ": there the craft flies in rate, and does not level itself. "
	const reach, travel = "Let a span reach that far", ", or change the travel in the radio."
	switch r.Cause {
	case prove.ModeNoPosition:
		return "No position of " + name + " lies in the span of mode " + Mode(r.Mode) + ". Move the span, or take a switch with more positions."
	case prove.ModeNoTravel:
		return capital(name) + " does not go as far as the span of mode " + Mode(r.Mode) + ". Move the span, or set the travel in the radio."
	case prove.GapBetween:
		return there + " falls between two spans" + gap + "Let the spans touch."
	case prove.GapBelow:
		return there + " falls below every span" + gap + reach + travel
	case prove.GapAbove:
		return there + " falls above every span" + gap + reach + travel
	case prove.RateAtRest:
		return there + " stands in the span of rate, and so it stands at power-up. Turn the order of the modes round."
	case prove.GapAtRest:
		return there + " stands outside every span, and so it stands at power-up" + gap + reach + "."
	case prove.AlwaysRate:
		return "This craft always flies in rate: it never levels itself. Give a beginner a mode switch, or `always: angle`."
	case prove.LowMarkHigh:
		says := ", but from 1000 µs on the motors are asked for more than idle."
		if l.Config.Flight.AtLowThrottle == flight.StandStill {
			says = ": below that the motors stand still, and there they start at " + percent(int64(facts.StartsAt(&l.Config)), flight.FullSpeed) + " of full speed at once."
		}
		return "The throttle counts as low below " + valueMicros(r) + says + " Bring low-throttle to 1000 or below."
	}
	return ""
}

// valueMicros is a result's value as a width.
func valueMicros(r *prove.Result) string {
	return Exact(pulse.Width(r.Value)) + " µs"
}

// benchCauses are what only a bench does that is broken itself.
var benchCauses = map[prove.Cause]string{
	prove.ByOtherControl:   "The bench itself is at fault: another control did it.",
	prove.ByTimeAlone:      "The bench itself is at fault: it happened by waiting alone.",
	prove.AtOnce:           "The bench itself is at fault: it happened in that very slot.",
	prove.StaysArmed:       "The bench itself is at fault: it stays armed.",
	prove.AgainstThrottle:  "The bench itself is at fault: it armed with the throttle up.",
	prove.AgainstSecond:    "The bench itself is at fault: it armed with the second switch off.",
	prove.AgainstMode:      "The bench itself is at fault: it armed in a mode that does not level itself.",
	prove.AgainstLink:      "The bench itself is at fault: it armed without a good link.",
	prove.AgainstMissing:   "The bench itself is at fault: it armed with a channel missing.",
	prove.AgainstCraft:     "The bench itself is at fault: it armed against a condition of the craft.",
	prove.AgainstOwnList:   "The bench itself is at fault: it armed while its own list of refusals was not empty.",
	prove.RefusalTable:     "The bench itself is at fault: a single reason does not give its own refusal, or gives another.",
	prove.SpanEdges:        "The bench itself is at fault: a span does not hold its low end, or holds its high end.",
	prove.RefusedTwice:     "The bench itself is at fault: one visit was refused twice.",
	prove.ClearedArms:      "The bench itself is at fault: clearing the reason armed it.",
	prove.StillTimeShort:   "The bench itself is at fault: it armed before the still time had passed.",
	prove.CleanTimeShort:   "The bench itself is at fault: the clean time was cut short.",
	prove.ArmDwellShort:    "The bench itself is at fault: it armed before the dwell was complete.",
	prove.DisarmDwellShort: "The bench itself is at fault: it disarmed before the dwell was complete.",
	prove.KnownMenuArms:    "The bench itself is at fault: it armed though it knows that the menu is open.",
	prove.MadeWhileArmed:   "The bench itself is at fault: a gesture counted while it was armed.",
	prove.TwoAtOnce:        "The bench itself is at fault: two gestures were made in one moment.",
	prove.MakesUpFrames:    "The bench itself is at fault: the receiver makes up frames that it must not.",
	prove.Unexplained:      "Nothing in craft file or radio file says why; replay the way and look.",
}

// StepCode is the code word of a kind of step.
func StepCode(k prove.Kind) string {
	words := [prove.KindCount]string{
		prove.Start: "start", prove.Move: "move", prove.LetGo: "let-go", prove.RadioOff: "radio-off", prove.RadioOn: "radio-on",
		prove.PowerOn: "pack-in", prove.PowerOff: "pack-out", prove.CableIn: "cable-in", prove.CableOut: "cable-out",
		prove.Nudge: "nudge", prove.Wait: "wait",
	}
	if k < prove.KindCount {
		return words[k]
	}
	return "step-" + strconv.Itoa(int(k))
}

// EventCodes are the code words of what happened in a step, those of the record where it has them.
func EventCodes(e prove.Event) []string {
	var out []string
	for i, w := range [...]string{"armed", "disarmed", "link-lost", "link-back", "link-clean", "sinking", "control-back", "refused", "mode", "settled", "gesture", "menu"} {
		if e>>i&1 == 1 {
			out = append(out, w)
		}
	}
	return out
}
