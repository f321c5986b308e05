package phrase

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/fault"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// faultNames are the short names of the faults, for the desk.
var faultNames = [fault.Count]string{
	fault.RadioOff:       "radio silent",
	fault.Dropouts:       "link drops out",
	fault.Receiver:       "another receiver",
	fault.Reversed:       "channel reversed",
	fault.Swapped:        "two channels swapped",
	fault.ShortTravel:    "travel too short",
	fault.Stuck:          "control stuck",
	fault.Noisy:          "control trembles",
	fault.OffCentre:      "stick off centre",
	fault.ChannelOut:     "channel without pulse",
	fault.ModeGap:        "gap between the modes",
	fault.LowPack:        "pack low",
	fault.WrongPropeller: "wrong propeller",
	fault.CableIn:        "set-up cable in",
}

// FaultName is the short name of a fault.
func FaultName(d pulse.Deed) string { return word(faultNames[:], int(d), "fault") }

// FaultDoes says what a planted fault does, with its numbers.
func FaultDoes(d pulse.Deed, number int32, l *layout.Config) string {
	a, b := fault.Numbers(d, number)
	channel := Channel(l, int(a)-1)
	switch d {
	case fault.RadioOff:
		return "The radio sends nothing, though its switch is on."
	case fault.Dropouts:
		gap := "The radio sends nothing for " + Seconds(int64(a))
		if b == 0 {
			return gap + ", once."
		}
		return gap + ", again every " + Seconds(int64(b)) + "."
	case fault.Receiver:
		ours, trade := OnLoss(facts.OnLoss(a))
		return "On a silent radio the receiver " + ours + " (" + trade + ")."
	case fault.Reversed:
		return capital(channel) + " runs the other way round."
	case fault.Swapped:
		return capital(channel) + " and " + Channel(l, int(b)-1) + " stand in each other's place."
	case fault.ShortTravel:
		if b < int32(pulse.Centre/pulse.Eighths) {
			return capital(channel) + " goes no lower than " + strconv.Itoa(int(b)) + " µs."
		}
		return capital(channel) + " goes no higher than " + strconv.Itoa(int(b)) + " µs."
	case fault.Stuck:
		return capital(channel) + " stays where it is now."
	case fault.Noisy:
		return capital(channel) + " trembles by up to " + strconv.Itoa(int(b)) + " µs to either side."
	case fault.OffCentre:
		if b < 0 {
			return capital(channel) + " reads " + strconv.Itoa(int(-b)) + " µs too low."
		}
		return capital(channel) + " reads " + strconv.Itoa(int(b)) + " µs too high."
	case fault.ChannelOut:
		return capital(channel) + " carries no pulse."
	case fault.ModeGap:
		mid := int(pulse.Centre / pulse.Eighths)
		return "From " + strconv.Itoa(mid-int(a)) + " to " + strconv.Itoa(mid+int(a)) + " µs the mode channel stands in no span: the craft flies in rate there."
	case fault.LowPack:
		return "The pack has " + Volts(int(a)) + "."
	case fault.WrongPropeller:
		return capital(faultPropeller(a)) + " is made to turn the other way."
	case fault.CableIn:
		return "The craft is plugged into a computer by its set-up cable."
	}
	return FaultName(d) + "."
}

func faultPropeller(n int32) string {
	if names := Places(); n >= 1 && int(n) <= len(names) {
		return "the " + names[n-1] + " propeller"
	}
	return "the propeller " + faultMotor(n)
}

func faultMotor(n int32) string {
	names := Places()
	if n < 1 || int(n) > len(names) {
		return "of motor " + strconv.Itoa(int(n))
	}
	return names[n-1]
}

// FaultSeen says what a pupil who looks for it notices of a fault with these numbers, at a craft.
func FaultSeen(d pulse.Deed, a, b int32, cfg *sim.Config) string {
	switch d {
	case fault.RadioOff:
		if facts.Loses(cfg, facts.Never, 0) == facts.NeverLost {
			return "The link is never lost, for the receiver goes on sending; but no stick and no switch reaches the craft any more, though the radio itself looks as ever."
		}
		return "The link is lost at some moment and does not come back, whatever the sticks do; the radio itself looks as ever."
	case fault.Dropouts:
		return dropoutsSeen(facts.Loses(cfg, int64(a), int64(b)), b == 0)
	}
	return word(faultSeen[:], int(d), "fault")
}

// dropoutsSeen says what is noticed of gaps that lose the link or do not.
func dropoutsSeen(lose facts.Gap, once bool) string {
	when, after := "now and then", "after each loss"
	if once {
		when, after = "once", "then"
	}
	switch lose {
	case facts.NeverLost:
		return "The link is never lost, but " + when + " what sticks and switches do arrives late."
	case facts.MayBeLost:
		return "The link may be lost " + when + ", and comes back by itself; after a loss the clean time runs again."
	}
	return "The link is lost " + when + " and comes back by itself; " + after + " the clean time runs again."
}

var faultSeen = [fault.Count]string{
	fault.Receiver:       "Nothing, until the radio is turned off: then the receiver hands on pulses where there should be silence, or nothing where there should be pulses.",
	fault.Reversed:       "That control works, but backwards; with both sticks in their top right corners one of the four values stands low.",
	fault.Swapped:        "Moving one control moves what belongs to another one.",
	fault.ShortTravel:    "That control does not reach its end value; a throttle that never comes below the low mark refuses arming.",
	fault.Stuck:          "That control can be moved, and nothing of it arrives: its channel stands still.",
	fault.Noisy:          "The channel's value never rests, though no hand is on it.",
	fault.OffCentre:      "The stick is let go and its channel does not read 1500 µs: in angle the craft drifts to one side.",
	fault.ChannelOut:     "The channel shows no pulse; of a stick or the arm switch the whole link counts as lost.",
	fault.ModeGap:        "The mode switch in its middle gives rate where a self-levelling mode should be.",
	fault.LowPack:        "The voltage is low; where the craft has a limit it refuses to arm.",
	fault.WrongPropeller: "On the air bench the craft rolls over that corner as the throttle rises.",
	fault.CableIn:        "The craft never arms and says that it is plugged into a computer.",
}

// FaultAnswer is a fault as one of the answers to choose from, when a pupil has looked for it.
func FaultAnswer(d pulse.Deed, number int32, l *layout.Config) string {
	a, b := fault.Numbers(d, number)
	channel := Channel(l, int(a)-1)
	switch d {
	case fault.RadioOff:
		return "the radio has stopped sending"
	case fault.Dropouts:
		if b == 0 {
			return "the link was interrupted once"
		}
		return "the link drops out again and again"
	case fault.Receiver:
		ours, trade := OnLoss(facts.OnLoss(a))
		return "the receiver " + ours + " when the radio is off (" + trade + ")"
	case fault.Reversed:
		return channel + " is reversed"
	case fault.Swapped:
		return channel + " and " + Channel(l, int(b)-1) + " are swapped"
	case fault.ShortTravel:
		if b < int32(pulse.Centre/pulse.Eighths) {
			return channel + " does not reach its low end"
		}
		return channel + " does not reach its high end"
	case fault.Stuck:
		return channel + " is stuck"
	case fault.Noisy:
		return channel + " trembles"
	case fault.OffCentre:
		return channel + " is off its centre"
	case fault.ChannelOut:
		return channel + " carries no pulse"
	case fault.ModeGap:
		return "the middle of the mode switch lies in no span"
	case fault.LowPack:
		return "the pack is low"
	case fault.WrongPropeller:
		return faultPropeller(a) + " is a wrong one"
	case fault.CableIn:
		return "the set-up cable is plugged in"
	}
	return FaultName(d)
}

// FaultQuantity labels one of the numbers of a fault; its unit stands with the value.
func FaultQuantity(q fault.What) string {
	switch q {
	case fault.Channel:
		return "channel"
	case fault.EndsAt:
		return "ends at"
	case fault.Within:
		return "to either side"
	case fault.Off:
		return "off by"
	case fault.Millis:
		return "silent for"
	case fault.Every:
		return "how often"
	case fault.MilliVolts:
		return "voltage"
	case fault.Motor:
		return "motor"
	case fault.Receives:
		return "on a silent radio"
	}
	return ""
}

// FaultValue writes one of the numbers of a fault as it is chosen.
func FaultValue(q fault.What, v int32, l *layout.Config) string {
	switch q {
	case fault.Nothing:
		return ""
	case fault.Channel:
		return Channel(l, int(v)-1)
	case fault.EndsAt:
		return strconv.Itoa(int(v)) + " µs"
	case fault.Within:
		return "±" + strconv.Itoa(int(v)) + " µs"
	case fault.Off:
		if v > 0 {
			return "+" + strconv.Itoa(int(v)) + " µs"
		}
		return "−" + strconv.Itoa(int(-v)) + " µs"
	case fault.Millis:
		return Seconds(int64(v))
	case fault.Every:
		if v == 0 {
			return "once"
		}
		return "every " + Seconds(int64(v))
	case fault.MilliVolts:
		return Volts(int(v))
	case fault.Motor:
		return faultMotor(v)
	case fault.Receives:
		ours, _ := OnLoss(facts.OnLoss(v))
		return ours
	}
	return strconv.Itoa(int(v))
}

// FaultDeed is the code word of planting or lifting a fault; empty for other deeds.
func FaultDeed(d pulse.Deed) string {
	if d > pulse.DeedLift {
		if c := fault.Code(d - pulse.DeedLift); c != "" {
			return "lift-" + c
		}
		return ""
	}
	return fault.Code(d)
}

// FaultSentence tells in the record that a fault was planted or lifted; ok is false for other deeds.
func FaultSentence(d pulse.Deed, number int32, l *layout.Config) (s string, ok bool) {
	switch {
	case d == pulse.DeedLiftAll:
		return "Every fault lifted.", true
	case d > pulse.DeedLift && fault.Code(d-pulse.DeedLift) != "":
		return "Fault lifted: " + FaultName(d-pulse.DeedLift) + ".", true
	case fault.Code(d) == "":
		return "", false
	case !fault.Right(d, number):
		return "A fault that does not exist was asked for: " + FaultName(d) + ", number " + strconv.Itoa(int(number)) + "; nothing was planted.", true
	}
	return "Fault planted: " + FaultName(d) + ". " + FaultDoes(d, number, l), true
}
