package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// FaultName is the short name of a fault.
func FaultName(d pulse.Deed) words.Text { return words.Of("fault.name", fault.Code(d)) }

// FaultDoes says what a planted fault does, with its numbers; nothing of numbers that it cannot have.
func FaultDoes(d pulse.Deed, number int32, l *layout.Config) words.Text {
	if !fault.Right(d, number) {
		return words.Text{}
	}
	a, b := fault.Numbers(d, number)
	const middle = int32(pulse.Centre / pulse.Eighths)
	args := words.Args{"channel": Channel(l, int(a)-1), "low": words.Flag(b < middle), "by": wholeMicros(int(max(b, -b)))}
	switch d {
	case fault.Dropouts:
		args["gap"], args["every"] = Seconds(int64(a)), words.Text{}
		if b != 0 {
			args["every"] = Seconds(int64(b))
		}
	case fault.Receiver:
		args["does"], args["trade"] = OnLoss(facts.OnLoss(a))
	case fault.Swapped:
		args["other"] = Channel(l, int(b)-1)
	case fault.ShortTravel:
		args["end"] = wholeMicros(int(b))
	case fault.OffCentre:
		args["low"] = words.Flag(b < 0)
	case fault.ModeGap:
		args["from"], args["to"] = words.Whole(middle-a), wholeMicros(int(middle+a))
	case fault.LowPack:
		args["volts"] = Volts(int(a))
	case fault.WrongPropeller:
		args["place"] = Places()[a-1]
	case fault.Breeze, fault.Gusts:
		args["wind"], args["from"] = FaultValue(fault.Wind, a, l), FaultValue(fault.From, b, l)
	case fault.LevelOff:
		args["bank"], args["nose"] = FaultValue(fault.Bank, a, l), FaultValue(fault.Nose, b, l)
		args["banked"], args["tipped"] = words.Flag(a != 0), words.Flag(b != 0)
	}
	return words.Of("fault.does", fault.Code(d), args)
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
		fault.Wind: "fault.wind", fault.From: "fault.from", fault.Bank: "fault.bank", fault.Nose: "fault.nose",
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
	case fault.Wind:
		return words.T("fault.blows", words.Args{"speed": words.Fixed{N: int64(v), Places: 1, Least: 1}})
	case fault.From:
		side := v // to the right of ahead, which is where the craft looks at the start
		if v > 180 {
			side = 360 - v
		}
		return words.T("fault.comes-from", words.Args{
			"ahead": words.Flag(v == 0), "behind": words.Flag(v == 180), "square": words.Flag(side == 90), "left": words.Flag(v > 180), "degrees": words.Whole(side),
		})
	case fault.Bank:
		return words.T("fault.banked", words.Args{"left": words.Flag(v < 0), "degrees": words.Fixed{N: int64(max(v, -v)), Places: 1, Least: 1}})
	case fault.Nose:
		return words.T("fault.tipped", words.Args{"down": words.Flag(v < 0), "degrees": words.Fixed{N: int64(max(v, -v)), Places: 1, Least: 1}})
	case fault.Receives:
		ours, _ := OnLoss(facts.OnLoss(v))
		return ours
	}
	return words.Text{}
}

// DeskPackLimit says what a craft makes of a pack, by its limit in mV, where that is nothing; else it says nothing. The pack has so many mV.
func DeskPackLimit(limit, pack int) words.Text {
	switch {
	case limit == 0:
		return words.T("desk.no-pack-limit")
	case pack >= limit:
		return words.T("desk.pack-above", words.Args{"limit": Volts(limit)})
	}
	return words.Text{}
}
