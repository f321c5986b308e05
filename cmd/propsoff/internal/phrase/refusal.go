package phrase

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// refusalSentences say what refuses, with the measured value in it. What to do about it is said where the hand that drives can: where the
// cure was tried and held.
var refusalSentences = [facts.RefusalCount]func(x *facts.Refusing, f *facts.Facts) string{
	facts.ThrottleUp:       throttleUp,
	facts.OffFirst:         offFirst,
	facts.SecondSwitchOff:  secondSwitchOff,
	facts.NotSelfLevelling: notSelfLevelling,
	facts.NoLink:           noLink,
	facts.LinkTooFresh: func(x *facts.Refusing, f *facts.Facts) string {
		return "The link is only just there; " + cured(x, f, "wait ", "it must stay whole for ") + left(f.Snap.CleanLeftMillis) + " more."
	},
	facts.ChannelMissing: channelMissing,
	facts.NotYetStill: func(x *facts.Refusing, f *facts.Facts) string {
		return "The craft must stand still for " + left(f.Snap.StillLeftMillis) + " more" + unlessPlain(f, "; do not move it") + "."
	},
	facts.IsTilted: func(x *facts.Refusing, f *facts.Facts) string {
		return "The craft is tilted by " + Degrees(int(f.Snap.Senses.TiltTenths)) + "; " + cured(x, f, "set it down within ", "it must stand within ") +
			Degrees(int(f.Craft.Arming.TiltLimitTenths)) + " of level."
	},
	facts.BeingSetUp: beingSetUp,
	facts.PackLow: func(x *facts.Refusing, f *facts.Facts) string {
		return "The pack has " + Volts(int(f.Snap.Senses.PackMilliVolts)) + " and this craft asks for " + Volts(int(f.Craft.Arming.PackLimitMilliVolts)) +
			cured(x, f, "; connect a charged one.", ".")
	},
	facts.PropellersUnchecked: func(x *facts.Refusing, f *facts.Facts) string {
		return "The propellers have not been checked yet" + cured(x, f, "; put each one where its mark and its turning direction belong.", ".")
	},
}

// Sentence says what to do about one refusal, with the measured value in it.
func Sentence(x facts.Refusing, f *facts.Facts) string {
	if int(x.Refusal) < len(refusalSentences) && refusalSentences[x.Refusal] != nil {
		return refusalSentences[x.Refusal](&x, f)
	}
	return Refusal(x.Refusal) + "."
}

// Cleared is the sentence of a refusal as it is crossed off, where the one that stood names a cause that something else may have ended.
func Cleared(r facts.Refusal, stood string) string {
	if r == facts.NoLink {
		return "There was no link."
	}
	return stood
}

// cured chooses between what to do and what must be so. Nobody is told to move a stick or a switch that reaches the craft only once the
// radio is back.
func cured(x *facts.Refusing, f *facts.Facts, do, must string) string {
	if f.Plain {
		return must
	}
	if first := x.Cure.Deed[0].Do; x.Cure.OK && (x.Refusal == facts.NoLink || first != facts.RadioOn && first != facts.PlugIn) {
		return do
	}
	return must
}

// unlessPlain is what to do beside what was tried.
func unlessPlain(f *facts.Facts, do string) string {
	if f.Plain {
		return ""
	}
	return do
}

// byItself tells what a receiver makes up from what the radio sends.
func byItself(f *facts.Facts) string {
	if f.Hearing == facts.ItsReceiver {
		return ", by the receiver alone"
	}
	return ""
}

func secondSwitchOff(x *facts.Refusing, f *facts.Facts) string {
	l := &f.Craft.Layout
	return "The second switch is off: " + reading(&f.Snap, l, l.Second) + byItself(f) + cured(x, f, "; move it "+into(l.SecondSpan), "; arming needs it "+stands(l.SecondSpan)) + "."
}

func notSelfLevelling(x *facts.Refusing, f *facts.Facts) string {
	l, on := &f.Craft.Layout, ""
	if l.Mode != layout.NoChannel {
		on = " (" + reading(&f.Snap, l, l.Mode) + byItself(f) + ")"
	}
	return "The mode is " + Mode(f.Snap.Mode) + on + ", and this craft arms only in angle or horizon" + cured(x, f, "; move the mode switch.", ".")
}

// beingSetUp says what the craft is being set up by, and how to end it.
func beingSetUp(x *facts.Refusing, f *facts.Facts) string {
	by := f.SetUpBy()
	menu := "the craft's own menu is open"
	if by&happening.ByCameraMenu != 0 {
		menu = "the camera's menu is open"
	}
	cable := by&happening.ByCable != 0
	switch {
	case cable && by != happening.ByCable:
		return "The craft is plugged into a computer by its set-up cable, and " + menu + cured(x, f, "; pull the cable out and leave the menu.", ".")
	case cable:
		return "The craft is plugged into a computer by its set-up cable" + cured(x, f, "; pull the cable out.", ".")
	}
	return capital(menu) + cured(x, f, "; leave it first.", ".")
}

// sinks says how this craft sinks.
func sinks(cfg *sim.Config) string {
	return "level, carrying at most " + fixed(int64(cfg.Flight.SinkCarries), 1) + " % of its weight"
}

// reading says what a channel carries: "channel 5 reads 2012 µs".
func reading(s *sim.Snapshot, l *layout.Config, channel int8) string {
	if channel == layout.NoChannel {
		return "no channel carries it"
	}
	name := "channel " + strconv.Itoa(int(channel)+1)
	w := s.Received[channel]
	if !w.Valid() {
		return name + " carries " + noPulse(w)
	}
	return name + " reads " + Micros(w) + " µs"
}

// noPulse says why a width is no pulse.
func noPulse(w pulse.Width) string {
	if w == pulse.Missing {
		return "no pulse"
	}
	return "no valid pulse (" + Micros(w) + " µs is outside " + Micros(pulse.Lowest) + " to " + Micros(pulse.Highest) + ")"
}

// into says where a switch must go to stand inside span.
func into(span layout.Span) string {
	switch {
	case span.Low <= pulse.Lowest:
		return "below " + Exact(span.High) + " µs"
	case span.High >= pulse.Highest:
		return "to " + Exact(span.Low) + " µs or above"
	}
	return "between " + Exact(span.Low) + " and " + Exact(span.High) + " µs"
}

// restsAfter is how long a throttle must stand before it is taken for one that goes no lower, in ms (ours).
const restsAfter = 1000

// throttleUp tells a hand that has not lowered the stick from a stick that goes no lower: the second is cured in the
// radio. A stick within "fully low" (1064.8 µs) stands as low as the hand can bring it.
func throttleUp(x *facts.Refusing, f *facts.Facts) string {
	s, cfg := &f.Snap, &f.Craft
	now, limit := s.Jobs.Throttle, cfg.Arming.LowThrottle
	lowest := s.Seen[cfg.Layout.Throttle].Low
	switch {
	case f.Hearing == facts.ItsReceiver, x.Cure.OK && f.ByKeys,
		now > pulse.FullyLow || lowest < limit || !lowest.Valid() || s.ThrottleStillMillis < restsAfter:
		return "Throttle reads " + Micros(now) + " µs" + byItself(f) + "; " + cured(x, f, "bring it below ", "arming needs below ") + Exact(limit) + "."
	}
	what := "arming"
	if f.BySticks {
		what = "arming by sticks"
	}
	return "Throttle has gone no lower than " + Micros(lowest) + " µs; " + what + " needs below " + Exact(limit) + unlessPlain(f, ". Where the stick stops there, lower the end of its travel in the radio") + "."
}

func offFirst(x *facts.Refusing, f *facts.Facts) string {
	s, cfg := &f.Snap, &f.Craft
	if f.BySticks {
		return "The sticks were in the arming corner too soon (throttle " + Micros(s.Jobs.Throttle) + " µs, yaw " + Micros(s.Jobs.Yaw) + " µs" + byItself(f) + "); " +
			cured(x, f, "let yaw go below "+Micros(cfg.Arming.LeaveRight)+" first, then hold the corner again.", "yaw must go below "+Micros(cfg.Arming.LeaveRight)+" first.")
	}
	is := "is already on: "
	if f.Unsure || f.Hearing == facts.ItsReceiver { // and may itself stand at off
		is = "reads as on: "
	}
	return "The arm switch " + is + reading(s, &cfg.Layout, cfg.Layout.Arm) + byItself(f) + cured(x, f, "; move it off first, then on again.", "; it must be seen off first.")
}

// noLink looks for the nearest reason why no valid frame comes.
func noLink(x *facts.Refusing, f *facts.Facts) string {
	s := &f.Snap
	since := ""
	if s.SilentMillis >= 100 {
		since = " for " + Seconds(s.SilentMillis/100*100)
	}
	no := "No link" + since + ": "
	switch {
	case f.Silent == facts.Unplugged && f.Nobody:
		return no + "nothing acts as a radio yet."
	case f.Silent == facts.Unplugged:
		return no + "the radio is not plugged in" + cured(x, f, "; plug its USB cable in.", ".")
	case f.Silent == facts.SwitchedOff:
		return no + "the radio is off" + cured(x, f, "; switch it on.", ".")
	case f.Silent == facts.Unread:
		return no + "nothing has been read from the radio yet" + cured(x, f, "; move a stick.", ".")
	}
	if m := missing(s, &f.Craft, f.Craft.Link.Needed); m != "" && s.Receiving {
		return no + "frames come, but " + m + mended(f)
	}
	return no + "no valid frame has come."
}

func channelMissing(x *facts.Refusing, f *facts.Facts) string {
	m := missing(&f.Snap, &f.Craft, f.Snap.Jobs.Missing)
	if m == "" {
		m = "a channel carries no pulse"
	}
	return capital(m) + mended(f)
}

// mended says how to come by a channel that carries no pulse: nothing where no radio sends it.
func mended(f *facts.Facts) string {
	if f.Hearing == facts.ItsReceiver || f.ByKeys {
		return byItself(f) + "."
	}
	return unlessPlain(f, "; see that the radio sends it and the radio file names its control") + "."
}

// missing names the first channels of the mask that carry no valid pulse: "channel 5 (arm) carries no pulse".
func missing(s *sim.Snapshot, cfg *sim.Config, mask uint16) string {
	var names []string
	var last pulse.Width
	for c := range pulse.Channels {
		if w := s.Received[c]; mask>>c&1 == 1 && !w.Valid() {
			names = append(names, Channel(&cfg.Layout, c))
			last = w
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return names[0] + " carries " + noPulse(last)
	}
	return list(names, "and") + " carry no valid pulse"
}

// reasons are refusals as they stand in the sentence of a refused arming, where the measured values are gone by.
var reasons = [facts.RefusalCount]string{
	facts.ThrottleUp:          "the throttle was up",
	facts.OffFirst:            "the arm control had not been seen off first",
	facts.SecondSwitchOff:     "the second switch was off",
	facts.NotSelfLevelling:    "the mode does not level the craft by itself",
	facts.NoLink:              "there was no link",
	facts.LinkTooFresh:        "the link was only just there",
	facts.ChannelMissing:      "a channel carried no valid pulse",
	facts.NotYetStill:         "the craft had not yet stood still",
	facts.IsTilted:            "the craft was tilted",
	facts.BeingSetUp:          "the craft was being set up",
	facts.PackLow:             "the pack was low",
	facts.PropellersUnchecked: "the propellers had not been checked",
	facts.WasOnCable:          "the craft was plugged in by its set-up cable",
	facts.WasMenuOpen:         "a menu was open",
}

// Reason is a refusal in a few words of the past, for the record.
func Reason(r facts.Refusal) string { return word(reasons[:], int(r), "refusal") }
