package phrase

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/happening"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// Note is Happening for the margin of the chart paper, which has no room for many reasons: of more than three it names two and counts
// the others.
func Note(h happening.Happening, cfg *sim.Config) string {
	if h.Code == happening.Refused {
		if all := whys(facts.Set(h.A), happening.SetUp(h.B)); len(all) > 3 {
			return "Arming refused: " + list(append(all[:2], count(len(all)-2, "more reason")), "and") + "."
		}
	}
	return Happening(h, cfg)
}

// Happening is one line of the record as a sentence.
func Happening(h happening.Happening, cfg *sim.Config) string {
	a := int64(h.A)
	switch h.Code {
	case happening.Armed:
		switch facts.Origin(h.A) {
		case facts.FromRepeat:
			return "ARMED by nobody's hand: the radio is silent, and the receiver repeats its last values."
		case facts.FromStore:
			return "ARMED by nobody's hand: the radio is silent, and the receiver's stored values say so."
		}
		return "Armed."
	case happening.Disarmed:
		return "Disarmed: " + causeSentence(happening.Cause(h.A)) + "."
	case happening.Refused:
		return "Arming refused: " + list(whys(facts.Set(h.A), happening.SetUp(h.B)), "and") + "."
	case happening.LinkLost:
		return "Link lost: no valid frame for " + Seconds(a) + "."
	case happening.LinkBack:
		return "The link is there; it must stay whole for the clean time."
	case happening.LinkClean:
		return "The link is good."
	case happening.Sinking:
		return "The craft sinks for " + Seconds(a) + ": " + sinks(cfg) + "."
	case happening.SinkEnded:
		return "The pilot has control again, after sinking for " + Seconds(a) + "."
	case happening.Mode:
		return "Mode " + Mode(layout.Mode(h.A)) + ", from " + Mode(layout.Mode(h.B)) + "."
	case happening.AirMode:
		return "Air mode woke: the motors keep turning at low throttle until disarmed."
	case happening.Settled:
		return "The craft has stood still long enough."
	case happening.Power:
		return pick(h.A, "Pack connected: the craft has power.", "Pack disconnected: the craft has no power.")
	case happening.Cable:
		return pick(h.A, "Set-up cable in.", "Set-up cable out.")
	case happening.Transmitter:
		return pick(h.A, "Radio on: it transmits.", "Radio off: it is silent.")
	case happening.Plug:
		return pick(h.A, "A radio, or what acts as one, is there.", "The radio, or what acts as one, is gone.")
	case happening.Tilted:
		if h.A == 0 {
			return "Craft set level."
		}
		return "Craft tilted by " + Degrees(int(h.A)) + "."
	case happening.Nudged:
		return "Craft nudged."
	case happening.Menu:
		return menuSentence(int(h.A))
	case happening.Pack:
		if h.A == 0 {
			return "The pack's voltage is no longer told."
		}
		return "The pack has " + Volts(int(h.A)) + "."
	case happening.TravelShort:
		return travelShort(h, cfg)
	case happening.ReadingsLost:
		if h.A == 0 {
			return "Readings were lost; the radio was read afresh."
		}
		return "Readings were lost for " + Seconds(a) + "; the radio was read afresh."
	case happening.Slept:
		return "The program did not run for " + Seconds(a) + "; for the craft the radio was silent meanwhile."
	case happening.Moved:
		return pick(h.A, "The craft stands on the air bench: it can fly.",
			"The craft stands on the desk bench: it cannot fly.")
	case happening.Fitted:
		return fitted(h.A)
	case happening.TookOff:
		return "The craft has left the ground."
	case happening.TouchedDown:
		if h.A >= hard {
			return "It hit the ground at " + Hundredths(int64(h.A), 1000) + " m/s, after " + Hundredths(int64(h.B), 1000) + " m at the highest: a real craft would be broken."
		}
		return "It touched down at " + Hundredths(int64(h.A), 1000) + " m/s, after " + Hundredths(int64(h.B), 1000) + " m at the highest."
	case happening.TippedOver:
		return "The craft lies on its side or on its back."
	}
	if text := moveSentence(h, cfg); text != "" {
		return text
	}
	return Code(h.Code) + " " + strconv.Itoa(int(h.A)) + " " + strconv.Itoa(int(h.B)) + "."
}

// setUpBy says what a craft was being set up by.
func setUpBy(by happening.SetUp) []string {
	var out []string
	for _, s := range [...]struct {
		by   happening.SetUp
		text string
	}{
		{happening.ByCable, "the craft was plugged in by its set-up cable"}, {happening.ByCraftMenu, "the craft's own menu was open"},
		{happening.ByCameraMenu, "the camera's menu was open"},
	} {
		if by&s.by != 0 {
			out = append(out, s.text)
		}
	}
	return out
}

// hard is the speed in mm/s from which a touch-down is told as a crash (ours).
const hard = 4000

func pick(on int32, yes, no string) string {
	if on != 0 {
		return yes
	}
	return no
}

// whys are refusals in the past; by is what the craft was being set up by, 0 where that is not known.
func whys(set facts.Set, by happening.SetUp) []string {
	var out []string
	for _, r := range everShown() {
		switch {
		case r == facts.BeingSetUp && set.Has(r) && by != 0:
			out = append(out, setUpBy(by)...)
		case set.Has(r):
			out = append(out, Reason(r))
		}
	}
	return out
}

func causeSentence(c happening.Cause) string {
	switch c {
	case happening.BySwitch:
		return "the arm channel was read as off"
	case happening.BySticks:
		return "the sticks were read in the disarming corner"
	case happening.ByLinkLoss:
		return "the link was lost, so the motors were cut"
	case happening.BySinkEnd:
		return "the link stayed lost, so the motors were cut at the end of sinking"
	case happening.ByPowerLoss:
		return "the pack was disconnected"
	case happening.ByStored:
		return "the radio is silent, and the receiver's stored values say so"
	case happening.ByRepeated:
		return "the radio is silent, and the receiver repeats the sticks in the disarming corner"
	}
	return Cause(c)
}

func menuSentence(m int) string {
	switch m {
	case pulse.MenuClosed:
		return "Menu closed."
	case pulse.MenuCraft:
		return "The craft's own menu opened."
	case pulse.MenuCamera:
		return "The camera's menu opened."
	}
	return capital(Menu(m)) + "."
}

// ShortEnd tells which end of which channel's travel a TravelShort speaks of: the lowest or the highest value.
func ShortEnd(h happening.Happening) (channel int, extreme pulse.Width, lowest bool) {
	w := pulse.Width(h.B)
	return int(h.A), w, w < pulse.Centre
}

func travelShort(h happening.Happening, cfg *sim.Config) string {
	c, w, lowest := ShortEnd(h)
	a := &cfg.Arming
	name := Channel(&cfg.Layout, c)
	switch {
	case c == int(cfg.Layout.Throttle):
		return "The sticks stop short of the corner: the lowest value seen of " + name + " is " + Micros(w) + " µs; arming and disarming by sticks need below " +
			Exact(a.LowThrottle) + ". Where the stick goes no lower, lower the end of its travel in the radio."
	case lowest:
		return "The sticks stop short of the corner: the lowest value seen of " + name + " is " + Micros(w) + " µs; disarming by sticks needs " +
			Exact(a.YawLeft) + " or below. Where the stick goes no further, lengthen its travel to the left in the radio."
	}
	return "The sticks stop short of the corner: the highest value seen of " + name + " is " + Micros(w) + " µs; arming by sticks needs " +
		Exact(a.YawRight) + " or above. Where the stick goes no further, lengthen its travel to the right in the radio."
}

// fitted tells how many propellers sit on the motors, and whether the pilot has checked them.
func fitted(v int32) string {
	hands, checked := pulse.PropellersOf(v)
	n := 0
	for _, h := range hands {
		if h != 0 {
			n++
		}
	}
	switch {
	case n == 0:
		return "No propeller is fitted."
	case checked:
		return "Propellers fitted: " + strconv.Itoa(n) + ", checked by the pilot."
	}
	return "Propellers fitted: " + strconv.Itoa(n) + ", not yet checked."
}

// Hundredths writes v/scale with two places, rounded to nearest.
func Hundredths(v, scale int64) string {
	return strconv.FormatFloat(float64(v)/float64(scale), 'f', 2, 64)
}
