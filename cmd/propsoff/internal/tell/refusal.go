package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// refusalSentences say what refuses, with the measured value in it. What to do about it is said where the hand that drives can: where the
// cure was tried and held.
var refusalSentences = [facts.RefusalCount]func(x *facts.Refusing, f *facts.Facts) words.Text{
	facts.ThrottleUp:       throttleUp,
	facts.OffFirst:         offFirst,
	facts.SecondSwitchOff:  secondSwitchOff,
	facts.NotSelfLevelling: notSelfLevelling,
	facts.NoLink:           noLink,
	facts.LinkTooFresh: func(x *facts.Refusing, f *facts.Facts) words.Text {
		return words.T("refusal.link-too-fresh", words.Args{"do": cured(x, f), "left": left(f.Snap.CleanLeftMillis)})
	},
	facts.ChannelMissing: channelMissing,
	facts.NotYetStill: func(x *facts.Refusing, f *facts.Facts) words.Text {
		return words.T("refusal.not-yet-still", words.Args{"do": words.Flag(!f.Plain), "left": left(f.Snap.StillLeftMillis)})
	},
	facts.IsTilted: func(x *facts.Refusing, f *facts.Facts) words.Text {
		return words.T("refusal.tilted", words.Args{"do": cured(x, f), "tilt": Degrees(int(f.Snap.Senses.TiltTenths)), "limit": Degrees(int(f.Craft.Arming.TiltLimitTenths))})
	},
	facts.BeingSetUp: beingSetUp,
	facts.PackLow: func(x *facts.Refusing, f *facts.Facts) words.Text {
		return words.T("refusal.pack-low", words.Args{"do": cured(x, f), "has": Volts(int(f.Snap.Senses.PackMilliVolts)), "needs": Volts(int(f.Craft.Arming.PackLimitMilliVolts))})
	},
	facts.PropellersUnchecked: func(x *facts.Refusing, f *facts.Facts) words.Text {
		return words.T("refusal.propellers-unchecked", words.Args{"do": cured(x, f)})
	},
}

// Sentence says what to do about one refusal, with the measured value in it.
func Sentence(x facts.Refusing, f *facts.Facts) words.Text {
	if int(x.Refusal) < len(refusalSentences) && refusalSentences[x.Refusal] != nil {
		return refusalSentences[x.Refusal](&x, f)
	}
	return words.AsIs(codes.Refusal(x.Refusal) + ".")
}

// Cleared is the sentence of a refusal as it is crossed off, where the one that stood names a cause that something else may have ended.
func Cleared(r facts.Refusal, stood words.Text) words.Text {
	if r == facts.NoLink {
		return words.T("refusal.there-was-no-link")
	}
	return stood
}

// cured chooses between what to do and what must be so. Nobody is told to move a stick or a switch that reaches the craft only once the
// radio is back.
func cured(x *facts.Refusing, f *facts.Facts) words.Flag {
	first := x.Cure.Deed[0].Do
	return words.Flag(!f.Plain && x.Cure.OK && (x.Refusal == facts.NoLink || first != facts.RadioOn && first != facts.PlugIn))
}

// byReceiver tells what a receiver makes up from what the radio sends.
func byReceiver(f *facts.Facts) words.Flag { return f.Hearing == facts.ItsReceiver }

func secondSwitchOff(x *facts.Refusing, f *facts.Facts) words.Text {
	l := &f.Craft.Layout
	return words.T("refusal.second-switch-off", words.Args{
		"reading": channelReads(&f.Snap, l.Second), "receiver": byReceiver(f), "do": cured(x, f), "into": spanInto(l.SecondSpan), "stands": spanStands(l.SecondSpan),
	})
}

func notSelfLevelling(x *facts.Refusing, f *facts.Facts) words.Text {
	var reading words.Text
	if c := f.Craft.Layout.Mode; c != layout.NoChannel {
		reading = channelReads(&f.Snap, c)
	}
	return words.T("refusal.not-self-levelling", words.Args{
		"mode": Mode(f.Snap.Mode), "levelling": LevellingModes(), "reading": reading, "receiver": byReceiver(f), "do": cured(x, f),
	})
}

// beingSetUp says what the craft is being set up by, and how to end it.
func beingSetUp(x *facts.Refusing, f *facts.Facts) words.Text {
	by := f.SetUpBy()
	return words.T("refusal.being-set-up", words.Args{
		"cable": words.Flag(by&happening.ByCable != 0), "menu": words.Flag(by != happening.ByCable), "camera": words.Flag(by&happening.ByCameraMenu != 0), "do": cured(x, f),
	})
}

// restsAfter is how long a throttle must stand before it is taken for one that goes no lower, in ms (ours).
const restsAfter = 1000

// throttleUp tells a hand that has not lowered the stick from a stick that goes no lower: the second is cured in the
// radio. A stick within "fully low" (1064.8 µs) stands as low as the hand can bring it.
func throttleUp(x *facts.Refusing, f *facts.Facts) words.Text {
	s, cfg := &f.Snap, &f.Craft
	now, limit := s.Jobs.Throttle, cfg.Arming.LowThrottle
	lowest := s.Seen[cfg.Layout.Throttle].Low
	switch {
	case f.Hearing == facts.ItsReceiver, x.Cure.OK && f.ByKeys,
		now > pulse.FullyLow || lowest < limit || !lowest.Valid() || s.ThrottleStillMillis < restsAfter:
		return words.T("refusal.throttle-up", words.Args{"now": Micros(now), "receiver": byReceiver(f), "do": cured(x, f), "limit": Exact(limit)})
	}
	return words.T("refusal.throttle-no-lower", words.Args{"lowest": Micros(lowest), "sticks": words.Flag(f.BySticks), "do": words.Flag(!f.Plain), "limit": Exact(limit)})
}

func offFirst(x *facts.Refusing, f *facts.Facts) words.Text {
	s, cfg := &f.Snap, &f.Craft
	if f.BySticks {
		return words.T("refusal.corner-first", words.Args{
			"throttle": Micros(s.Jobs.Throttle), "yaw": Micros(s.Jobs.Yaw), "receiver": byReceiver(f), "do": cured(x, f), "leave": Micros(cfg.Arming.LeaveRight),
		})
	}
	// It may itself stand at off where only its reading counts.
	return words.T("refusal.off-first", words.Args{
		"reads": words.Flag(f.Unsure || f.Hearing == facts.ItsReceiver), "reading": channelReads(s, cfg.Layout.Arm), "receiver": byReceiver(f), "do": cured(x, f),
	})
}

// noLink looks for the nearest reason why no valid frame comes.
func noLink(x *facts.Refusing, f *facts.Facts) words.Text {
	s := &f.Snap
	since, do := silentFor(s), cured(x, f) && !words.Flag(f.RadioWaits()) // else the sentence of Next says what comes first
	switch {
	case f.Silent == facts.Unplugged && f.Nobody:
		return words.T("refusal.no-link-nobody", words.Args{"since": since})
	case f.Silent == facts.Unplugged:
		return words.T("refusal.no-link-unplugged", words.Args{"since": since, "do": do})
	case f.Silent == facts.SwitchedOff:
		return words.T("refusal.no-link-off", words.Args{"since": since, "do": do})
	case f.Silent == facts.Unread:
		return words.T("refusal.no-link-unread", words.Args{"since": since, "do": do})
	}
	if m := missing(s, &f.Craft, f.Craft.Link.Needed); !m.Empty() && s.Receiving {
		return words.T("refusal.no-link-missing", words.Args{"since": since, "missing": m, "receiver": byReceiver(f), "do": mended(f)})
	}
	return words.T("refusal.no-link", words.Args{"since": since})
}

func channelMissing(x *facts.Refusing, f *facts.Facts) words.Text {
	m := missing(&f.Snap, &f.Craft, f.Snap.Jobs.Missing)
	if m.Empty() {
		m = words.T("reading.some-channel")
	}
	return words.T("refusal.channel-missing", words.Args{"missing": m, "receiver": byReceiver(f), "do": mended(f)})
}

// mended reports whether to say how to come by a channel that carries no pulse: not where no radio sends it.
func mended(f *facts.Facts) words.Flag {
	return words.Flag(f.Hearing != facts.ItsReceiver && !f.ByKeys && !f.Plain)
}

// WhatDisarms tells what ends the armed state of this craft, and what does not.
func WhatDisarms(f *facts.Facts) words.Text {
	if !f.Reaches() && f.Hearing == facts.ItsReceiver {
		return keepsOn(f)
	}
	ways := words.Clauses(handDisarms(f), radioBackDisarms(f), words.T("disarms.pack"), silenceDisarms(f))
	now := words.T("disarms.now", words.Args{"ways": ways})
	if i := f.Disarm[facts.ByItself]; i.OK {
		now = words.T("disarms.by-itself", words.Args{"left": left(int(i.Ms)), "ways": ways})
	}
	return words.Row(now, words.T("disarms.refusals-not"))
}

// handDisarms is what a hand does, or what must be read where that is what counts.
func handDisarms(f *facts.Facts) words.Text {
	hand := f.Disarm[facts.ByHand].OK
	switch {
	case !f.Reaches():
		return words.Text{}
	case !hand || f.Unsure:
		return words.T("disarms.reading", words.Args{"what": disarmedBy(&f.Craft), "beyond": words.Flag(!hand && f.Tried)})
	case f.BySticks:
		return words.T("disarms.corner", words.Args{"time": slots(&f.Craft, f.Craft.Arming.DisarmDwell)})
	}
	return words.T("disarms.switch")
}

func radioBackDisarms(f *facts.Facts) words.Text {
	if !f.Disarm[facts.ByRadioBack].OK {
		return words.Text{}
	}
	return words.T("disarms.radio-back", words.Args{"corner": words.Flag(f.BySticks)})
}

// silenceDisarms says whether a radio that goes silent disarms; nothing where a drill may ask for just this.
func silenceDisarms(f *facts.Facts) words.Text {
	switch {
	case f.Plain || f.IfSilent == facts.Unchanged:
		return words.Text{}
	case f.ReceiverHidden:
		return words.T("disarms.silence-hidden")
	case f.IfSilent == facts.Cuts:
		return words.T("disarms.silence-cuts", words.Args{"radio": silentRadio(f), "broken": words.Flag(f.Snap.In.Air && f.Snap.Air.Wreck != 0)})
	case f.IfSilent == facts.Sinks:
		return silentRadio(f)
	case f.IfSilent == facts.DisarmsStored:
		return words.T("disarms.silence-stored")
	case f.IfSilent == facts.DisarmsHeld:
		return words.T("disarms.silence-held")
	}
	return words.T("disarms.silence-not")
}

// silentRadio is what must be silent, and for how long, for the radio's silence to disarm.
func silentRadio(f *facts.Facts) words.Text {
	lost := slots(&f.Craft, f.Craft.Link.SilenceSlots)
	switch f.IfSilent {
	case facts.Cuts:
		return words.T("disarms.silent-for", words.Args{"time": lost})
	case facts.Sinks:
		return words.T("disarms.silent-and-sunk", words.Args{"time": lost, "sinking": slots(&f.Craft, f.Craft.Arming.SinkSlots)})
	}
	return words.T("disarms.silent")
}

// keepsOn is said of an armed craft whose receiver goes on sending while the radio is silent.
func keepsOn(f *facts.Facts) words.Text {
	if i := f.Disarm[facts.ByItself]; i.OK {
		return words.T("disarms.keeps-on-itself", words.Args{"left": left(int(i.Ms))})
	}
	back := f.Disarm[facts.ByRadioBack].OK
	return words.T("disarms.keeps-on", words.Args{"corner": words.Flag(back && f.BySticks), "switch": words.Flag(back && !f.BySticks)})
}
