package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/flight"
	"propsoff/sim/handset"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
)

// Finding says what was found of a rule: why it is broken and what to set, what comes with the method, or what it was held against.
func Finding(l *prove.Layout, r *prove.Result) words.Text { return words.Row(FindingParts(l, r)) }

// FindingParts is Finding in two: what was found, and what to set or do about it, which says nothing where that is all.
func FindingParts(l *prove.Layout, r *prove.Result) (found, set words.Text) {
	switch r.Outcome {
	case prove.Holds:
		return words.T("prove.sentence", words.Args{"what": HeldAgainst(r.Rule, r.Searched)}), words.Text{}
	case prove.NotAsked:
		return words.T("prove.sentence", words.Args{"what": WhyNotAsked(l, r.Rule)}), words.Text{}
	case prove.Undecided:
		return words.T("prove.undecided"), words.Text{}
	case prove.WithIt:
		switch {
		case r.Rule == prove.GestureAlsoDisarms:
			return causeParts(l, r, prove.GestureInDisarmCorner)
		case r.Cause != prove.MenuUnknown:
			return words.T("prove.comes-with-sticks"), words.Text{}
		}
	}
	return causeParts(l, r, r.Cause)
}

// causeSets are what to set against a cause; nothing where that differs by rule, or nothing can be set.
var causeSets = [prove.CauseCount]words.ID{
	prove.HeldSwitch: "prove-set.fall-silent", prove.HeldSticks: "prove-set.fall-silent", prove.StoredSwitchOn: "prove-set.other-stored",
	prove.StoredSwitchOff: "prove-set.fall-silent", prove.StoredSticks: "prove-set.fall-silent", prove.StoredLate: "prove-set.fall-silent",
	prove.StoredCorner: "prove-set.fall-silent", prove.NeverPulse: "prove-set.travel", prove.ControlNoPulse: "prove-set.travel",
	prove.ArmNoPulse: "prove-set.travel", prove.ArmNeverOn: "prove-set.span-or-travel", prove.ArmNeverOff: "prove-set.edge",
	prove.ThrottleNeverLow: "prove-set.travel", prove.YawNeverRight: "prove-set.travel", prove.YawNeverLeft: "prove-set.travel",
	prove.SecondNeverOn: "prove-set.span-or-travel", prove.NeverSelfLevelling: "prove-set.give-span", prove.SpringsBack: "prove-set.stays",
	prove.ModeNoPosition: "prove-set.span-or-switch", prove.ModeNoTravel: "prove-set.span-or-travel", prove.GapBetween: "prove-set.touch",
	prove.GapBelow: "prove-set.reach", prove.GapAbove: "prove-set.reach", prove.RateAtRest: "prove-set.mode-order", prove.GapAtRest: "prove-set.reach-rest",
	prove.AlwaysRate: "prove-set.always-angle", prove.LowMarkHigh: "prove-set.low-mark", prove.GestureInArmCorner: "prove-set.other-gesture",
	prove.MenuUnknown: "prove-set.menu-throttle", prove.GestureTravel: "prove-set.travel", prove.GestureInDisarmCorner: "prove-set.on-ground",
	prove.NeverMade: "prove-set.gesture-times", prove.NoControl: "prove-set.give-control",
}

// causeParts says why a rule is broken, with the numbers that matter, and what to do about it.
func causeParts(l *prove.Layout, r *prove.Result, c prove.Cause) (why, set words.Text) {
	if c == prove.NoCause || c >= prove.CauseCount {
		c = prove.Unexplained
	}
	why = words.Of("prove-why", c.Code()+causeVariant(l, r, c), causeValues(l, r, c))
	id := causeSets[c]
	if c == prove.NoControl && (r.Rule == prove.EveryModeReached || r.Rule == prove.PowerUpLevels) {
		id = "prove-set.give-switch"
	}
	if id != "" {
		set = words.T(id)
	}
	return why, set
}

// causeVariant tells how a cause breaks this rule, where it breaks several: the end of the message's name.
func causeVariant(l *prove.Layout, r *prove.Result, c prove.Cause) string {
	back := r.Rule == prove.LinkBackNeverArms
	switch {
	case back && (c == prove.HeldSwitch || c == prove.HeldSticks || c == prove.StoredSticks):
		return "-back"
	case c == prove.HeldSticks && r.Rule == prove.HeldNeverArms:
		return "-alone"
	case c == prove.StoredSwitchOn && r.Rule == prove.StoredNeverArms:
		return "-arms"
	case c == prove.StoredSticks && facts.Silence(&l.Config).Ends != facts.Never:
		return "-flying"
	case c == prove.NoControl && r.Rule == prove.EveryModeReached:
		return "-modes"
	case c == prove.NoControl && r.Rule == prove.PowerUpLevels:
		return "-levels"
	case c == prove.ControlNoPulse && r.Rule == prove.OnlyArmControlArms:
		return "-arms"
	case c == prove.LowMarkHigh && l.Config.Flight.AtLowThrottle == flight.StandStill:
		return "-still"
	}
	return ""
}

// causeValues are what the causes are told with.
func causeValues(l *prove.Layout, r *prove.Result, c prove.Cause) words.Args {
	a := &l.Config.Arming
	span, limit := l.Config.Layout.ArmSpan, a.LowThrottle
	switch c {
	case prove.SecondNeverOn:
		span = l.Config.Layout.SecondSpan
	case prove.YawNeverRight:
		limit = a.YawRight
	case prove.YawNeverLeft:
		limit = a.YawLeft
	}
	name, place := provedControl(l, r)
	return words.Args{
		"name": name, "place": place, "value": ExactWidth(pulse.Width(r.Value)), "time": Seconds(r.Value), "mode": Mode(r.Mode),
		"channel": Channel(&l.Config.Layout, int(r.Value)-1), "span": SpanWords(span), "limit": Exact(limit),
		"low": Micros(pulse.Lowest), "high": Micros(pulse.Highest), "share": speedShare(facts.StartsAt(&l.Config)), "gesture": gestureName(int32(r.Gesture), &l.Config), "sticks": gestureSticks(l, r),
	}
}

// provedControl names the control of a result with its article, and its position, if any.
func provedControl(l *prove.Layout, r *prove.Result) (name, place words.Text) {
	if r.Control < 0 || r.Control >= len(l.Radio.Controls) {
		return words.T("prove.a-control"), words.Text{}
	}
	c := &l.Radio.Controls[r.Control]
	name = ControlName(c)
	if c.Kind != handset.Stick {
		name = words.T("prove.the", words.Args{"name": name})
	}
	if n := len(c.Positions); r.Position >= 0 && n > 0 {
		at := words.Args{"position": PositionWord(r.Position, n)}
		if place = words.T("prove.in-named", at); n > 3 {
			place = words.T("prove.in-numbered", at)
		}
	}
	return name, place
}

// gestureSticks names the sticks of a gesture where they stand as a result tells: in the step of a chain that breaks the rule.
func gestureSticks(l *prove.Layout, r *prove.Result) words.Text {
	name := gestureName(int32(r.Gesture), &l.Config)
	if g := l.Config.Gestures; g != nil && r.Gesture < len(g.Patterns) && g.Patterns[r.Gesture].Count > 1 {
		return words.T("prove.gesture-step", words.Args{"step": words.Whole(r.Part + 1), "gesture": name})
	}
	return words.T("prove.gesture-sticks", words.Args{"gesture": name})
}

// speedShare is a motor's speed as a share of full speed, in tenths of a percent.
func speedShare(speed uint16) words.Text {
	return Tenths((int64(speed)*1000 + flight.FullSpeed/2) / flight.FullSpeed)
}
