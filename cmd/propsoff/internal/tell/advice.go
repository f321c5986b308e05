package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
)

// Keys names the keys that a sentence may tell a person to press; one that does nothing now is empty. Drive is true where the keyboard
// moves the sticks or would at the first press, as while the Demo pilot flies or Nobody does, Finger where one pulls drawn ones instead. A script or take is
// Played, then it has Ended.
type Keys struct {
	Drive, Finger, Demo, Nobody, Played, Ended                        bool
	Arm, Second, Down, Zero, YawLeft, YawRight, Pack, Radio, TakeOver words.Text
	// After says who drives after TakeOver, once what was played has ended: 1 the demo pilot, 3 a radio (AfterName), else the keyboard.
	After     int
	AfterName string
}

// advice are the sentences on what to do now, one for each code of facts.Next.
var advice = [facts.NextCount]func(f *facts.Facts, k *Keys) words.Text{
	facts.NextWatch: watch,
	facts.NextPack:  packIn,
	facts.NextDisarmByHand: func(f *facts.Facts, k *Keys) words.Text {
		return words.T("advice.disarm", words.Args{"do": toDisarm(f, k)})
	},
	facts.NextDisarmNeeds:  needsToDisarm,
	facts.NextDisarmByBack: disarmByBack,
	facts.NextDisarmItself: itself,
	facts.NextDisarmByPack: func(f *facts.Facts, k *Keys) words.Text {
		return words.Row(unreached(f), words.T("advice.pull-pack", words.Args{"key": k.Pack}))
	},
	facts.NextArm:          func(f *facts.Facts, k *Keys) words.Text { return words.T("advice.arm", words.Args{"do": toArm(f, k)}) },
	facts.NextCureThenArm:  cureThenArm,
	facts.NextClearThenArm: clearThenArm,
	facts.NextSwitchOver:   switchOver,
	facts.NextRadio:        radioFirst,
	facts.NextCannotArm:    cannotArm,
}

// Next says what to do now, or what there is where nobody can do anything or somebody else asks for something.
func Next(f *facts.Facts, k Keys) words.Text {
	switch {
	case f.Plain:
		return switchedOff(f)
	case k.Demo:
		return words.T("advice.demo-drives", words.Args{"key": k.Down})
	case k.Nobody:
		return words.T("advice.nobody-drives", words.Args{"key": k.Down})
	case k.Ended:
		return words.T("advice.played", words.Args{
			"key": k.TakeOver, "demo": words.Flag(k.After == 1), "radio": words.Flag(k.After == 3), "name": words.Quote(k.AfterName),
		})
	}
	return advice[f.Next()](f, &k)
}

// keyed is a key of the keyboard's hand, nothing where another hand drives.
func keyed(key words.Text, k *Keys) words.Text {
	if !k.Drive {
		return words.Text{}
	}
	return key
}

// packIn is for a craft without power. What would refuse arming, or could turn motors, is brought down first: no pack goes in before.
func packIn(f *facts.Facts, k *Keys) words.Text {
	var first []words.Text
	if f.HoldsUp {
		first = append(first, words.T("advice.throttle-down", words.Args{"key": keyed(k.Zero, k)}))
	}
	switch {
	case f.HoldsOn && f.BySticks:
		first = append(first, words.T("advice.yaw-middle"))
	case f.HoldsOn:
		first = append(first, words.T("advice.arm-switch-off", words.Args{"key": keyed(k.Arm, k)}))
	}
	return words.T("advice.pack", words.Args{"first": words.Clauses(first...), "key": k.Pack})
}

// watch says what there is while what drives takes no orders.
func watch(f *facts.Facts, _ *Keys) words.Text {
	s := &f.Snap
	switch off := switchedOff(f); {
	case !off.Empty() && !s.Armed:
		return off
	case s.Sinking:
		return words.T("advice.watch-sinking", untilItCuts(f))
	case f.Silent == facts.SwitchedOff && s.Armed:
		return words.T("advice.watch-armed")
	case f.Nobody:
		return words.T("advice.watch-nobody")
	}
	return words.T("advice.watch")
}

// switchedOff says what is off, and gives nothing away of what comes of it; nothing where all is on.
func switchedOff(f *facts.Facts) words.Text {
	switch {
	case f.Hearing == facts.NoPower:
		return words.T("advice.no-power")
	case f.Silent == facts.SwitchedOff:
		return words.T("advice.radio-off")
	}
	return words.Text{}
}

// untilItCuts is what a craft does that sinks, where it is.
func untilItCuts(f *facts.Facts) words.Args {
	does := placed(f.Place())
	does["climbs"], does["how"] = climbsFirst(f), sinks(&f.Craft)
	return words.Args{"broken": does["broken"], "does": words.T("advice.until-it-cuts", does)}
}

// climbsFirst reports whether a sinking craft climbs on before it sinks, fast enough to be said.
func climbsFirst(f *facts.Facts) words.Flag { return words.Flag(f.SinkKnown && f.Sink.Climbs >= 0.25) }

// armedBy and disarmedBy say what the craft must read to arm and to disarm: "channel 5 at 1700 µs or above", "throttle below 1000 µs and
// yaw at 1935.2 or above, for 0.8 s".
func armedBy(cfg *sim.Config) words.Text {
	a := &cfg.Arming
	if c := cfg.Layout.Arm; c != layout.NoChannel {
		return words.T("advice.arm-channel", words.Args{"channel": ChannelNumber(int(c)), "stands": spanStands(cfg.Layout.ArmSpan)})
	}
	return words.T("advice.arm-corner", words.Args{"throttle": Exact(a.LowThrottle), "yaw": Exact(a.YawRight), "time": slots(cfg, a.ArmDwell)})
}

func disarmedBy(cfg *sim.Config) words.Text {
	a := &cfg.Arming
	if c := cfg.Layout.Arm; c != layout.NoChannel {
		return words.T("advice.arm-channel", words.Args{"channel": ChannelNumber(int(c)), "stands": spanStandsOutside(cfg.Layout.ArmSpan)})
	}
	return words.T("advice.disarm-corner", words.Args{"throttle": Exact(a.LowThrottle), "yaw": Exact(a.YawLeft), "time": slots(cfg, a.DisarmDwell)})
}

// toArm and toDisarm are what the hand does, as a clause. Where what is planted may bend it, the craft's reading counts, and that is said
// instead of the way to go.
func toArm(f *facts.Facts, k *Keys) words.Text {
	return handDoes(f, k, armedBy(&f.Craft), k.YawRight, f.Craft.Arming.ArmDwell, true)
}

func toDisarm(f *facts.Facts, k *Keys) words.Text {
	return handDoes(f, k, disarmedBy(&f.Craft), k.YawLeft, f.Craft.Arming.DisarmDwell, false)
}

func handDoes(f *facts.Facts, k *Keys, what, yaw words.Text, dwell uint16, arm words.Flag) words.Text {
	held := slots(&f.Craft, dwell)
	switch {
	case f.BySticks && f.Unsure:
		return words.T("advice.hold-reading", words.Args{"what": what})
	case f.BySticks && k.Drive:
		return words.T("advice.hold-keys", words.Args{"down": k.Down, "yaw": yaw, "time": held, "arm": arm})
	case f.BySticks:
		return words.T("advice.hold-sticks", words.Args{"time": held, "arm": arm})
	case k.Drive && f.Unsure:
		return words.T("advice.press-reading", words.Args{"key": k.Arm, "what": what})
	case k.Drive:
		return words.T("advice.press-arm", words.Args{"key": k.Arm, "arm": arm})
	case f.Unsure:
		return words.T("advice.move-reading", words.Args{"what": what})
	case k.Finger: // the drawn switch has no position between
		what = words.Text{}
	}
	return words.T("advice.move-switch", words.Args{"what": what, "arm": arm})
}

// needs turns what must be read into a clause: "channel 5 must read 1700 µs or above".
func needs(f *facts.Facts, arm bool) words.Text {
	cfg := &f.Craft
	channel := ChannelNumber(int(cfg.Layout.Arm))
	switch span := cfg.Layout.ArmSpan; {
	case f.BySticks && arm:
		return words.T("advice.needs-corner-anew", words.Args{"leave": Micros(cfg.Arming.LeaveRight), "what": armedBy(cfg)})
	case f.BySticks:
		return words.T("advice.needs-corner", words.Args{"what": disarmedBy(cfg)})
	case arm:
		return words.T("advice.needs-channel-anew", words.Args{"channel": channel, "off": spanOutside(span), "on": spanReads(span)})
	default:
		return words.T("advice.needs-channel", words.Args{"channel": channel, "off": spanOutside(span)})
	}
}

// needsToDisarm says what the craft must read, of a craft that hears the radio and does not read it.
func needsToDisarm(f *facts.Facts, k *Keys) words.Text {
	var instructor, gone, silence words.Text
	if f.SticksTaken {
		instructor = words.T("advice.sticks-taken")
	}
	if m := missing(&f.Snap, &f.Craft, f.Craft.Link.Needed); f.Hearing == facts.Damaged && !m.Empty() {
		gone = words.T("advice.clause", words.Args{"clause": m})
	}
	if f.Disarm[facts.BySilence].OK && !f.ReceiverHidden {
		silence = words.T("advice.silence-too", words.Args{"radio": silentRadio(f)})
	}
	return words.Row(instructor, nowReads(f), gone, silence, words.T("advice.or-pull-pack", words.Args{"key": k.Pack}))
}

// nowReads says what must be read to disarm, and what the arm channel reads now.
func nowReads(f *facts.Facts) words.Text {
	now, c := words.Text{}, f.Craft.Layout.Arm
	if c != layout.NoChannel && f.Snap.Received[c].Valid() {
		now = Width(f.Snap.Received[c])
	}
	return words.T("advice.disarm-needs", words.Args{"needs": needs(f, false), "channel": words.Flag(c != layout.NoChannel), "now": now})
}

// itself says that a craft disarms without anybody's doing.
func itself(f *facts.Facts, k *Keys) words.Text {
	in := left(int(f.Disarm[facts.ByItself].Ms))
	var back words.Text
	off := f.Silent == facts.SwitchedOff
	if off && !k.Radio.Empty() {
		back = words.T("advice.press-radio", words.Args{"key": k.Radio})
	}
	if !f.Snap.Sinking {
		return words.Row(words.T("advice.by-itself", words.Args{"silent": silentNow(f), "left": in}), back)
	}
	args, control := untilItCuts(f), words.T("advice.only-a-good-link")
	args["off"], args["left"] = words.Flag(off), in
	if f.Place() == happening.Broken {
		control = words.Text{}
	}
	return words.Row(words.T("advice.sinks-by-itself", args), back, control)
}

// silentNow says why what the hand does reaches nobody now, as a clause.
func silentNow(f *facts.Facts) words.Text {
	switch f.Silent {
	case facts.Unplugged:
		return words.T("advice.silent-unplugged")
	case facts.SwitchedOff:
		return words.T("advice.silent-off")
	}
	return words.T("advice.silent-frames")
}

// unreached says that nothing of the hand's reaches the craft.
func unreached(f *facts.Facts) words.Text {
	return words.T("advice.unreached", words.Args{"silent": silentNow(f), "receiver": byReceiver(f)})
}

// disarmByBack says how the radio, back again, disarms.
func disarmByBack(f *facts.Facts, k *Keys) words.Text {
	on := words.T("advice.radio-on", words.Args{"key": k.Radio})
	if f.Silent == facts.Unplugged {
		on = words.T("advice.plug-in", words.Args{"on": words.Flag(!f.Snap.In.Transmitter)})
	}
	do := words.Text{}
	if f.BySticks {
		do = toDisarm(f, k)
	}
	return words.Row(unreached(f), words.T("advice.disarm-back", words.Args{"back": on, "do": do, "key": k.Pack}))
}

// cureThenArm names the one thing to clear first where that is the throttle.
func cureThenArm(f *facts.Facts, k *Keys) words.Text {
	if !f.ThrottleUp() || f.N != 1 || f.Unsure {
		return clearThenArm(f, k)
	}
	return words.T("advice.lower-then-arm", words.Args{
		"down": keyed(k.Down, k), "zero": k.Zero, "limit": Exact(f.Craft.Arming.LowThrottle), "do": toArm(f, k),
	})
}

func clearThenArm(f *facts.Facts, k *Keys) words.Text {
	return words.T("advice.clear-then-arm", words.Args{"do": toArm(f, k)})
}

// switchOver is for an arm control that stands at on though the craft is disarmed.
func switchOver(f *facts.Facts, k *Keys) words.Text {
	if !f.BySticks {
		return words.T("advice.switch-over", words.Args{"do": toDisarm(f, k)})
	}
	return words.T("advice.corner-anew", words.Args{"key": keyed(k.YawRight, k), "do": toArm(f, k)})
}

// radioFirst is for a silent radio. It warns where the craft arms in the moment in which the radio is heard.
func radioFirst(f *facts.Facts, k *Keys) words.Text {
	var sudden words.Text
	if f.Arm.Sudden {
		sudden = words.T("advice.arms-at-once")
	}
	before := f.RadioWaits()
	how := words.T("advice.radio-back", words.Args{
		"switch": words.Flag(before && !f.BySticks), "corner": words.Flag(before && f.BySticks), "back": radioBack(f, k),
	})
	return words.Row(words.T("advice.silent", words.Args{"silent": silentNow(f), "receiver": byReceiver(f)}), how, sudden)
}

// radioBack is what brings the radio back, as a clause.
func radioBack(f *facts.Facts, k *Keys) words.Text {
	if f.Silent == facts.Unplugged {
		return words.T("advice.plug-cable-in", words.Args{"on": words.Flag(!f.Snap.In.Transmitter)})
	}
	return words.T("advice.switch-it-on", words.Args{"key": k.Radio})
}

// cannotArm says what arms the craft where no way of this hand's was found.
func cannotArm(f *facts.Facts, _ *Keys) words.Text {
	switch {
	case f.ArmHeld && !f.ArmOn():
		return words.T("advice.arm-held")
	case f.SticksTaken:
		return words.T("advice.sticks-taken")
	}
	return words.T("advice.arm-needs", words.Args{"first": words.Flag(f.N > 0), "needs": needs(f, true)})
}
