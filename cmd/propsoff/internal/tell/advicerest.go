package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/layout"
)

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
	need := needs(f, false)
	c := f.Craft.Layout.Arm
	if c == layout.NoChannel {
		return words.T("advice.disarm-needs", words.Args{"needs": need})
	}
	if w := f.Snap.Received[c]; w.Valid() {
		return words.T("advice.disarm-needs-reads", words.Args{"needs": need, "now": Width(w)})
	}
	return words.T("advice.disarm-needs-nothing", words.Args{"needs": need})
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
	return words.Row(words.T("advice.sinks-by-itself", words.Args{"off": words.Flag(off), "climbs": climbsFirst(f), "how": sinks(&f.Craft), "left": in}), back,
		words.T("advice.only-a-good-link"))
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
	if f.BySticks {
		return words.Row(unreached(f), words.T("advice.disarm-by-corner", words.Args{"back": on, "do": toDisarm(f, k), "key": k.Pack}))
	}
	return words.Row(unreached(f), words.T("advice.disarm-by-switch", words.Args{"back": on, "key": k.Pack}))
}

// cureThenArm names the one thing to clear first where that is the throttle.
func cureThenArm(f *facts.Facts, k *Keys) words.Text {
	if !f.ThrottleUp() || f.N != 1 || f.Unsure {
		return clearThenArm(f, k)
	}
	limit := Exact(f.Craft.Arming.LowThrottle)
	if k.Drive {
		return words.T("advice.lower-by-keys-then-arm", words.Args{"down": k.Down, "zero": k.Zero, "limit": limit, "do": toArm(f, k)})
	}
	return words.T("advice.lower-then-arm", words.Args{"limit": limit, "do": toArm(f, k)})
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
	first := f.RadioFirst()
	back := words.Args{"back": radioBack(f, k)}
	how := words.T("advice.radio-back", back)
	if len(first) > 0 && (first[0].Do == facts.Move || first[0].Do == facts.LeaveCorner) {
		how = words.T("advice.radio-back-switch", back)
		if f.BySticks {
			how = words.T("advice.radio-back-corner", back)
		}
	}
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
