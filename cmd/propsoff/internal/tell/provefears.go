package tell

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tworadios"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// fearValues adds what the rules on what practitioners fear are told with: their limits, and what this craft has in their place.
func fearValues(l *prove.Layout, r *prove.Result, args words.Args) words.Args {
	c := &l.Config
	clear := prove.ThrottleClear(l.Radio.On(c.Layout.Throttle))
	for name, v := range (words.Args{
		"most": Seconds(prove.MostTurning), "blind": Seconds(prove.MostBlind), "dwell": Seconds(prove.LeastDwell), "clear": unit("micros", Exact(clear)),
		"to": unit("micros", Exact(c.Arming.LowThrottle-clear)), "sinks": words.Flag(c.Arming.SinkSlots > 0), "corners": words.Flag(facts.BySticks(c)),
		"carries": Tenths(int64(c.Flight.SinkCarries)), "tilt": Degrees(int(c.Arming.TiltLimitTenths)), "over": words.Flag(c.Arming.TiltLimitTenths > onItsBack),
		"height": Length(prove.LowFlight), "touch": Speed(prove.MostTouch), "speed": Speed(float64(r.Value) / 1000),
		"power": Tenths(int64(pulse.Width(r.Value).ThrottleFraction()) * 1000 / pulse.ThrottleFull),
	}) {
		args[name] = v
	}
	return args
}

// onItsBack is from when on a craft that is laid over is told to lie on its back, in tenths of a degree (ours).
const onItsBack = 1350

// TwoRadios says what was searched of an instructor's radio beside the pupil's.
func TwoRadios(found *tworadios.Found) words.Text {
	radio := words.Quote(found.His.Name)
	if found.Takes < 0 {
		return words.T("prove.two-radios-none", words.Args{"radio": radio})
	}
	said := words.T("prove.two-radios", words.Args{"radio": radio, "takes": ControlName(&found.His.Controls[found.Takes]), "from": unit("micros", Exact(found.From)),
		"situations": SituationsStand(uint64(found.Situations), 0)})
	if found.Partial {
		said = words.Row(said, words.T("prove.two-stopped"))
	}
	return said
}

// whyNotFeared is WhyNotAsked of a rule on what practitioners fear.
func whyNotFeared(l *prove.Layout, r prove.Rule) words.Text {
	sticks := facts.BySticks(&l.Config)
	if r.OfTwoRadios() {
		if slices.ContainsFunc(l.Radio.Controls, func(c handset.Control) bool { return c.Tutors }) {
			return words.T("prove.never-takes")
		}
		return words.T("prove.no-instructor")
	}
	if ch := fearOf(l, r); ch != layout.NoChannel && l.Radio.On(ch) == nil {
		return words.T("prove.no-such-control")
	}
	switch r {
	case prove.SweepNeverArms, prove.ArmHasPositions, prove.ArmRestsOff, prove.ArmControlIsAlone:
		if sticks {
			return words.T("prove.arms-by-sticks")
		}
	case prove.StoredOffCorners, prove.CornersTakeTime, prove.CornersBelowPower:
		if !sticks {
			return words.T("prove.arms-by-switch")
		}
	}
	switch r {
	case prove.NoRateOnTheWay, prove.NoStickMovesMode:
		return words.T("prove.no-mode-control", words.Args{"mode": Mode(l.Config.Layout.FixedMode)})
	case prove.SecondGoesOff:
		return words.T("prove.no-second")
	case prove.ArmHasPositions:
		return words.T("prove.no-edge")
	case prove.ArmRestsOff:
		if c := l.Radio.On(l.Config.Layout.Arm); c != nil && !c.RestSeen && !c.Momentary {
			return words.T("prove.rest-unknown")
		}
		return words.T("prove.never-off")
	case prove.ArmControlIsAlone:
		return words.T("prove.no-other-switch")
	case prove.SilenceSinks, prove.SinkComesDown:
		return words.T("prove.never-set-to-sink")
	case prove.StoredOffCorners:
		return words.T("prove.no-stored")
	case prove.OneFrameIsNoLoss, prove.SilenceIsSeenSoon:
		return words.T("prove.fills-gaps")
	case prove.ThrottleLowIsClear:
		return words.T("prove.never-low")
	}
	return words.T("prove.nothing-bears")
}

// fearOf is the channel of the control that a rule is about, none where it is about no single one.
func fearOf(l *prove.Layout, r prove.Rule) int8 {
	switch c := &l.Config.Layout; r {
	case prove.SecondGoesOff:
		return c.Second
	case prove.SweepNeverArms, prove.ArmRestsOff, prove.ArmHasPositions, prove.ArmControlIsAlone:
		return c.Arm
	case prove.NoRateOnTheWay, prove.NoStickMovesMode:
		return c.Mode
	}
	return layout.NoChannel
}
