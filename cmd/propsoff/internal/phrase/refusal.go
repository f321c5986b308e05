package phrase

import (
	"strconv"

	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// Sentence says what to do about one refusal, with the measured value in it.
func Sentence(r arming.Refusal, s *sim.Snapshot, cfg *sim.Config) string {
	switch r {
	case arming.ThrottleUp:
		return throttleUp(s, cfg)
	case arming.OffFirst:
		return offFirst(s, cfg)
	case arming.SecondSwitchOff:
		return "The second switch is off: " + reading(s, &cfg.Layout, cfg.Layout.Second) + "; move it " + into(cfg.Layout.SecondSpan) + "."
	case arming.NotSelfLevelling:
		at := ""
		if cfg.Layout.Mode != layout.NoChannel {
			at = " (" + reading(s, &cfg.Layout, cfg.Layout.Mode) + ")"
		}
		return "The mode is " + Mode(s.Mode) + at + ", and this craft arms only in angle or horizon; move the mode switch."
	case arming.NoLink:
		return noLink(s, cfg)
	case arming.LinkTooFresh:
		return "The link is only just there; wait " + left(s.CleanLeftMillis) + " more."
	case arming.ChannelMissing:
		return channelMissing(s, cfg)
	case arming.NotYetStill:
		return "The craft must stand still for " + left(s.StillLeftMillis) + " more; do not move it."
	case arming.IsTilted:
		return "The craft is tilted by " + Degrees(int(s.In.Craft.TiltTenths)) + "; set it down within " + Degrees(int(cfg.Arming.TiltLimitTenths)) + " of level."
	case arming.BeingSetUp:
		return beingSetUp(&s.In.Craft)
	case arming.PackLow:
		return "The pack has " + Volts(int(s.In.Craft.PackMilliVolts)) + " and this craft asks for " + Volts(int(cfg.Arming.PackLimitMilliVolts)) + "; connect a charged one."
	case arming.PropellersUnchecked:
		return "The propellers have not been checked yet; put each one where its mark and its turning direction belong."
	}
	return Refusal(r) + "."
}

// beingSetUp says what the craft is being set up by, and how to end it.
func beingSetUp(c *arming.Conditions) string {
	menu := "the craft's own menu is open"
	if c.Menu == pulse.MenuCamera {
		menu = "the camera's menu is open"
	}
	switch {
	case c.Cable && c.Menu != pulse.MenuClosed:
		return "The craft is plugged into a computer by its set-up cable, and " + menu + "; pull the cable out and leave the menu."
	case c.Cable:
		return "The craft is plugged into a computer by its set-up cable; pull the cable out."
	}
	return capital(menu) + "; leave it first."
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
func throttleUp(s *sim.Snapshot, cfg *sim.Config) string {
	now, limit := s.Jobs.Throttle, cfg.Arming.LowThrottle
	lowest := s.Seen[cfg.Layout.Throttle].Low
	if now > pulse.FullyLow || lowest < limit || !lowest.Valid() || s.ThrottleStillMillis < restsAfter {
		return "Throttle reads " + Micros(now) + " µs; bring it below " + Exact(limit) + "."
	}
	what := "arming"
	if cfg.Arming.By == arming.BySticks {
		what = "arming by sticks"
	}
	return "Throttle goes no lower than " + Micros(lowest) + " µs; " + what + " needs below " + Exact(limit) + ": lower the end of its travel in the radio."
}

func offFirst(s *sim.Snapshot, cfg *sim.Config) string {
	if cfg.Arming.By == arming.BySticks {
		return "The sticks were in the arming corner too soon (throttle " + Micros(s.Jobs.Throttle) + " µs, yaw " + Micros(s.Jobs.Yaw) +
			" µs); let yaw go below " + Micros(cfg.Arming.LeaveRight) + " first, then hold the corner again."
	}
	return "The arm switch is already on: " + reading(s, &cfg.Layout, cfg.Layout.Arm) + "; move it off first, then on again."
}

// noLink looks for the nearest reason why no valid frame comes.
func noLink(s *sim.Snapshot, cfg *sim.Config) string {
	since := ""
	if s.SilentMillis > 0 {
		since = " for " + Seconds(s.SilentMillis/100*100)
		if s.SilentMillis < 100 {
			since = ""
		}
	}
	switch in := &s.In; {
	case !in.Plugged:
		return "No link" + since + ": the radio is not plugged in; plug its USB cable in."
	case !in.Transmitter:
		return "No link" + since + ": the radio is off; switch it on."
	case !in.HasSent:
		return "No link" + since + ": nothing has been read from the radio yet; move a stick."
	}
	if m := missing(s, cfg, cfg.Link.Needed); m != "" && s.Receiving {
		return "No link" + since + ": frames come, but " + m + "; see that the radio sends it and the radio file names its control."
	}
	return "No link" + since + ": no valid frame has come; wait for the radio."
}

func channelMissing(s *sim.Snapshot, cfg *sim.Config) string {
	m := missing(s, cfg, s.Jobs.Missing)
	if m == "" {
		m = "a channel carries no pulse"
	}
	return capital(m) + "; see that the radio sends it and the radio file names its control."
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
var reasons = [arming.RefusalCount]string{
	arming.ThrottleUp:          "the throttle was up",
	arming.OffFirst:            "the arm control had not been seen off first",
	arming.SecondSwitchOff:     "the second switch was off",
	arming.NotSelfLevelling:    "the mode does not level the craft by itself",
	arming.NoLink:              "there was no link",
	arming.LinkTooFresh:        "the link was only just there",
	arming.ChannelMissing:      "a channel carried no valid pulse",
	arming.NotYetStill:         "the craft had not yet stood still",
	arming.IsTilted:            "the craft was tilted",
	arming.BeingSetUp:          "the craft was being set up",
	arming.PackLow:             "the pack was low",
	arming.PropellersUnchecked: "the propellers had not been checked",
	arming.WasOnCable:          "the craft was plugged in by its set-up cable",
	arming.WasMenuOpen:         "a menu was open",
}

// Reason is a refusal in a few words of the past, for the record.
func Reason(r arming.Refusal) string { return word(reasons[:], int(r), "refusal") }
