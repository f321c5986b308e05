package phrase

import (
	"strconv"

	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/layout"
	"propsoff/sim/link"
	"propsoff/sim/pulse"
)

// Keys names the keys that a sentence may tell a person to press. Drive is true where the keyboard moves the sticks or
// would at the first press, as while the Demo pilot flies or Nobody does. A script or take is Played, then it has Ended.
type Keys struct {
	Drive, Demo, Nobody, Played, Ended                                bool
	Arm, Second, Down, Zero, YawLeft, YawRight, Pack, Radio, TakeOver string
	// After says who drives after TakeOver, once what was played has ended: 1 the demo pilot, 3 a radio (AfterName), else the keyboard.
	After     int
	AfterName string
}

// Next says what to do now to arm or to disarm this craft.
func Next(s *sim.Snapshot, cfg *sim.Config, k Keys) string {
	switch {
	case k.Demo:
		return "Watch the demo pilot, or press any stick key, such as " + k.Down + ", to take over."
	case k.Nobody:
		return "Press any stick key, such as " + k.Down + ", to drive by keyboard; or plug a radio in by USB."
	case k.Ended:
		return "What was played has ended. Press " + k.TakeOver + " to " + goOn(k) + "."
	case k.Played && !s.In.Powered:
		return "The craft has no power."
	case k.Played && !s.In.Transmitter && !s.Armed:
		return "The radio is off."
	case k.Played && s.Sinking && !s.In.Transmitter:
		return "The radio is off: the craft sinks (" + sinks(cfg) + "), then cuts."
	case !s.In.Powered:
		return "The craft has no power. Press " + k.Pack + " to connect its pack."
	case !s.In.Transmitter && !s.Armed:
		return "The radio is off. Press " + k.Radio + " to switch it on."
	case s.Sinking && !s.In.Transmitter:
		return "The radio is off: the craft sinks (" + sinks(cfg) + "), then cuts. Press " + k.Radio + " to switch it on."
	case s.Sinking:
		return "The link is lost: the craft sinks (" + sinks(cfg) + "), then cuts. Only a good link gives the pilot control again."
	case cfg.Arming.By == arming.BySticks:
		return nextBySticks(s, cfg, k)
	}
	return nextBySwitch(s, cfg, k)
}

// goOn says what pressing TakeOver does after what was played has ended.
func goOn(k Keys) string {
	switch {
	case k.After == 1:
		return "go back to the demo pilot"
	case k.After == 3 && k.AfterName != "":
		return "go on by " + k.AfterName
	case k.After == 3:
		return "go on by radio"
	}
	return "go on by keyboard"
}

func nextBySwitch(s *sim.Snapshot, cfg *sim.Config, k Keys) string {
	on, off := "move the arm switch on ("+switchWay(cfg, true)+")", "move the arm switch off ("+switchWay(cfg, false)+")"
	if k.Drive {
		on, off = "press "+k.Arm+" (arm switch on)", "press "+k.Arm+" (arm switch off)"
	}
	first := "First clear what refuses"
	switch {
	case s.Armed:
		return "To disarm, " + off + "."
	case s.Jobs.Arm == layout.Inside && s.Link != link.Never && s.Link != link.Lost:
		return "The arm switch is on, yet the craft is disarmed. " + capital(off) + "; clear what refuses; then move it on again."
	case s.Refusals == 0:
		return "To arm, " + on + "."
	case s.Refusals == arming.Set(0).With(arming.ThrottleUp, true):
		first = "First bring the throttle below " + Exact(cfg.Arming.LowThrottle)
		if k.Drive {
			first = "First hold " + k.Down + ", or press " + k.Zero + ", to bring the throttle below " + Exact(cfg.Arming.LowThrottle)
		}
	}
	return first + ". Then " + on + " to arm."
}

// switchWay says where the arm channel must go: "channel 5 to 1700 µs or above".
func switchWay(cfg *sim.Config, on bool) string {
	l := &cfg.Layout
	name := "channel " + strconv.Itoa(int(l.Arm)+1)
	if on {
		return name + " " + into(l.ArmSpan)
	}
	span := l.ArmSpan
	switch {
	case span.High >= pulse.Highest:
		return name + " below " + Exact(span.Low) + " µs"
	case span.Low <= pulse.Lowest:
		return name + " to " + Exact(span.High) + " µs or above"
	}
	return name + " out of " + Exact(span.Low) + " to " + Exact(span.High) + " µs"
}

func nextBySticks(s *sim.Snapshot, cfg *sim.Config, k Keys) string {
	a := &cfg.Arming
	armFor := Seconds(int64(a.ArmDwell) * int64(cfg.SlotTicks))
	disarmFor := Seconds(int64(a.DisarmDwell) * int64(cfg.SlotTicks))
	arm, disarm := "hold throttle low and yaw fully right for "+armFor, "hold throttle low and yaw fully left for "+disarmFor
	leave := "Let yaw go back"
	if k.Drive {
		arm, disarm = "hold "+k.Down+" and "+k.YawRight+" for "+armFor, "hold "+k.Down+" and "+k.YawLeft+" for "+disarmFor
		leave = "Let go of " + k.YawRight
	}
	switch {
	case s.Armed:
		return "To disarm, " + disarm + " (throttle low, yaw left)."
	case s.DwellIs == sim.DwellingSpent:
		return leave + ": this try is used up. Clear what refuses, then " + arm + "."
	case s.Refusals != 0:
		return "First clear what refuses. Then " + arm + " to arm."
	}
	return "To arm, " + arm + " (throttle low, yaw right)."
}

// Countdown is what runs down or fills at present, as a sentence and as a share 0 … 1; false where nothing does.
func Countdown(s *sim.Snapshot, cfg *sim.Config) (text string, share float64, ok bool) {
	slot := int(cfg.SlotTicks)
	part := func(leftMillis int, slots uint16) float64 {
		if slots == 0 {
			return 1
		}
		return 1 - float64(leftMillis)/float64(int(slots)*slot)
	}
	held := float64(s.Dwell) / 1000
	switch {
	case !s.In.Powered:
		return "", 0, false
	case s.Sinking:
		return "Sinking: the motors are cut in " + left(s.SinkLeftMillis) + ".", part(s.SinkLeftMillis, cfg.Arming.SinkSlots), true
	case s.DwellIs == sim.DwellingToArm:
		return "The arming corner is held …", held, true
	case s.DwellIs == sim.DwellingToDisarm:
		return "The disarming corner is held …", held, true
	case s.Armed:
		return "", 0, false
	case s.Link == link.Fresh && s.CleanLeftMillis >= s.StillLeftMillis:
		return "The link must stay clean for " + left(s.CleanLeftMillis) + " more.", part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.StillLeftMillis > 0:
		return "The craft must stand still for " + left(s.StillLeftMillis) + " more.", part(s.StillLeftMillis, cfg.Arming.StillSlots), true
	}
	return "", 0, false
}

// Standing is mode and motors in one short line.
func Standing(s *sim.Snapshot, cfg *sim.Config) string {
	if !s.In.Powered {
		return "No power: motors still."
	}
	motor := Motor(s.Motor[0], cfg.Flight.IdleSpeed)
	out := "Mode " + Mode(s.Mode)
	if s.AirAwake {
		out += ", air mode awake"
	}
	return out + "; motors " + motor + "; propellers off."
}

// WhyTitle heads the refusals, or what stands in their place while armed.
func WhyTitle(armed bool) string {
	if armed {
		return "while armed"
	}
	return "why not armed"
}

// WhySentence stands above the refusals, or in their place.
func WhySentence(s *sim.Snapshot, cfg *sim.Config, any bool) string {
	switch {
	case !s.In.Powered:
		return "A craft without power refuses nothing and does nothing."
	case s.Armed:
		return WhatDisarms(s, cfg)
	case !any && s.Jobs.Arm == layout.Inside:
		return "Nothing else refuses arming."
	case !any:
		return "Nothing refuses arming."
	}
	return ""
}

// WhatDisarms tells what ends the armed state of this craft.
func WhatDisarms(s *sim.Snapshot, cfg *sim.Config) string {
	if !s.In.Transmitting() && cfg.Link.OnLoss != link.FallsSilent {
		return "The radio is silent and the receiver goes on sending, so the craft cannot know. No stick or switch reaches it: " +
			"only the radio coming back, or pulling the pack, ends this."
	}
	span := func(slots uint16) string { return Seconds(int64(slots) * int64(cfg.SlotTicks)) }
	hand := "the arm switch off, at once"
	if cfg.Arming.By == arming.BySticks {
		hand = "throttle low and yaw fully left, held for " + span(cfg.Arming.DisarmDwell)
	}
	lost := ", which cuts the motors"
	if cfg.Arming.SinkSlots > 0 {
		lost = " and " + span(cfg.Arming.SinkSlots) + " of sinking"
	}
	silent := "a link lost for " + span(cfg.Link.SilenceSlots) + lost
	if cfg.Link.OnLoss != link.FallsSilent {
		silent = "not the radio going silent, for this receiver goes on sending"
	}
	return "What disarms now: " + hand + "; the pack pulled; " + silent + ". What refuses arming never disarms."
}

// WhoCures heads the refusals that the same hands cure.
func WhoCures(g arming.Group) string {
	switch g {
	case arming.Hand:
		return "in your hand"
	case arming.Link:
		return "on the link"
	}
	return "at the craft"
}

// LinkLine is the craft's judgement of the link in a few words.
func LinkLine(s *sim.Snapshot) string {
	if s.In.Powered && s.Receiving && !s.In.Transmitting() {
		return capital(Link(s)) + ", the craft thinks; the radio is silent"
	}
	return capital(Link(s))
}

// LinkTitle heads the link.
func LinkTitle() string { return "link: radio to craft" }

// ReceiversWay says what the receiver does when the radio goes silent, with the trade's word beside it.
func ReceiversWay(o link.OnLoss) string {
	ours, trade := OnLoss(o)
	return "When the radio goes silent the receiver " + ours + " (" + trade + ")."
}
