package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/fault"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// FaultName is the short name of a fault.
func FaultName(d pulse.Deed) words.Text { return words.Of("fault.name", fault.Code(d)) }

// FaultDoes says what a planted fault does, with its numbers; nothing of numbers that it cannot have.
func FaultDoes(d pulse.Deed, number int32, l *layout.Config) words.Text {
	if !fault.Right(d, number) {
		return words.Text{}
	}
	a, b := fault.Numbers(d, number)
	channel := Channel(l, int(a)-1)
	const middle = int32(pulse.Centre / pulse.Eighths)
	switch d {
	case fault.RadioOff, fault.CableIn:
		return words.Of("fault.does", fault.Code(d))
	case fault.Dropouts:
		every := words.Text{}
		if b != 0 {
			every = Seconds(int64(b))
		}
		return words.T("fault.does.dropouts", words.Args{"gap": Seconds(int64(a)), "every": every})
	case fault.Receiver:
		ours, trade := OnLoss(facts.OnLoss(a))
		return words.T("fault.does.receiver", words.Args{"does": ours, "trade": trade})
	case fault.Swapped:
		return words.T("fault.does.swapped", words.Args{"channel": channel, "other": Channel(l, int(b)-1)})
	case fault.ShortTravel:
		return words.T("fault.does.short-travel", words.Args{"channel": channel, "low": words.Flag(b < middle), "end": wholeMicros(int(b))})
	case fault.Noisy:
		return words.T("fault.does.noisy", words.Args{"channel": channel, "by": wholeMicros(int(b))})
	case fault.OffCentre:
		return words.T("fault.does.off-centre", words.Args{"channel": channel, "low": words.Flag(b < 0), "by": wholeMicros(int(max(b, -b)))})
	case fault.ModeGap:
		return words.T("fault.does.mode-gap", words.Args{"from": words.Whole(middle - a), "to": wholeMicros(int(middle + a))})
	case fault.LowPack:
		return words.T("fault.does.low-pack", words.Args{"volts": Volts(int(a))})
	case fault.WrongPropeller:
		return words.T("fault.does.wrong-propeller", words.Args{"place": Places()[a-1]})
	}
	return words.Of("fault.does", fault.Code(d), words.Args{"channel": channel})
}

// FaultSeen says what a pupil who looks for it notices of a fault with these numbers, at a craft.
func FaultSeen(d pulse.Deed, a, b int32, cfg *sim.Config) words.Text {
	switch d {
	case fault.RadioOff:
		if facts.Loses(cfg, facts.Never, 0) == facts.NeverLost {
			return words.T("fault.seen.radio-off-unnoticed")
		}
	case fault.Dropouts:
		once := words.Args{"once": words.Flag(b == 0)}
		switch facts.Loses(cfg, int64(a), int64(b)) {
		case facts.NeverLost:
			return words.T("fault.seen.dropouts-unnoticed", once)
		case facts.MayBeLost:
			return words.T("fault.seen.dropouts-perhaps", once)
		}
		return words.T("fault.seen.dropouts", once)
	}
	return words.Of("fault.seen", fault.Code(d))
}

// FaultQuantity labels one of the numbers of a fault; its unit stands with the value.
func FaultQuantity(q fault.What) words.Text {
	return words.T([...]words.ID{
		fault.Nothing: "", fault.Channel: "fault.channel", fault.EndsAt: "fault.ends-at", fault.Within: "fault.within", fault.Off: "fault.off",
		fault.Millis: "fault.silent-for", fault.Every: "fault.how-often", fault.MilliVolts: "fault.voltage", fault.Motor: "fault.motor", fault.Receives: "fault.receives",
	}[q])
}

// FaultValue writes one of the numbers of a fault as it is chosen.
func FaultValue(q fault.What, v int32, l *layout.Config) words.Text {
	switch q {
	case fault.Channel:
		return Channel(l, int(v)-1)
	case fault.EndsAt:
		return wholeMicros(int(v))
	case fault.Within:
		return words.T("fault.either-way", words.Args{"by": wholeMicros(int(v))})
	case fault.Off:
		return words.T("fault.off-by", words.Args{"low": words.Flag(v < 0), "by": wholeMicros(int(max(v, -v)))})
	case fault.Millis:
		return Seconds(int64(v))
	case fault.Every:
		if v == 0 {
			return words.T("fault.once")
		}
		return words.T("fault.every", words.Args{"time": Seconds(int64(v))})
	case fault.MilliVolts:
		return Volts(int(v))
	case fault.Motor:
		return Places()[v-1]
	case fault.Receives:
		ours, _ := OnLoss(facts.OnLoss(v))
		return ours
	}
	return words.Text{}
}

// FaultSentence tells in the record that a fault was planted or lifted; it says nothing of other deeds.
func FaultSentence(d pulse.Deed, number int32, l *layout.Config) words.Text {
	switch {
	case d == pulse.DeedLiftAll:
		return words.T("fault.all-lifted")
	case d > pulse.DeedLift && fault.Code(d-pulse.DeedLift) != "":
		return words.T("fault.lifted", words.Args{"fault": FaultName(d - pulse.DeedLift)})
	case fault.Code(d) == "":
		return words.Text{}
	case !fault.Right(d, number):
		return words.T("fault.unknown", words.Args{"fault": FaultName(d), "number": words.Whole(number)})
	}
	return words.T("fault.was-planted", words.Args{"fault": FaultName(d), "does": FaultDoes(d, number, l)})
}
