package tell

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
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
		case r.Rule == prove.ArmingStartsNoMotor:
			return causeParts(l, r, prove.IdlesArmed)
		case r.Cause != prove.MenuUnknown && !r.Rule.OfTwoRadios():
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
	prove.AlwaysRate: "prove-set.always-angle", prove.NoiseCrosses: "prove-set.off-edge", prove.NoiseNoPulse: "prove-set.travel", prove.MenuFirst: "prove-set.other-gesture", prove.LowMarkHigh: "prove-set.low-mark", prove.GestureInArmCorner: "prove-set.other-gesture",
	prove.MenuUnknown: "prove-set.menu-throttle", prove.GestureTravel: "prove-set.travel", prove.GestureInDisarmCorner: "prove-set.on-ground",
	prove.NeverMade: "prove-set.gesture-times", prove.NoControl: "prove-set.give-control",
	prove.SecondNeverOff: "prove-set.second-off", prove.OnBetween: "prove-set.to-an-end", prove.ArmRestsOn: "prove-set.turn-arm",
	prove.ArmSpringsOn: "prove-set.turn-arm", prove.ArmOnKnob: "prove-set.on-a-switch", prove.ArmIsSecond: "prove-set.of-its-own",
	prove.ArmIsMode: "prove-set.of-its-own", prove.RateBetween: "prove-set.rate-at-an-end", prove.SinksLong: "prove-set.sink-shorter",
	prove.HeldNoSink: "prove-set.fall-silent", prove.StoredNoSink: "prove-set.fall-silent", prove.SinkHovers: "prove-set.sink-carries",
	prove.SinkFalls: "prove-set.sink-carries", prove.StoredDisarms: "prove-set.fall-silent", prove.SilenceOneFrame: "prove-set.silence-longer", prove.SilenceLate: "prove-set.silence-shorter",
	prove.CleanNothing: "prove-set.clean-time", prove.StillNothing: "prove-set.still-time", prove.TiltPastUpright: "prove-set.tilt-limit",
	prove.ArmDwellBrief: "prove-set.dwell-longer", prove.DisarmDwellBrief: "prove-set.dwell-longer", prove.CornerInFlight: "prove-set.low-mark",
	prove.IdlesArmed: "prove-set.stand-still", prove.AirWakesLow: "prove-set.air-later", prove.LowEndNear: "prove-set.travel-to",
	prove.ThrottleSprings: "prove-set.no-spring", prove.ThrottleFalls: "prove-set.no-spring", prove.ModeOnStick: "prove-set.mode-on-switch", prove.ArmsTurned: "prove-set.of-its-own",
	prove.TutorNoSwitch: "prove-set.give-taking-switch", prove.TutorNeverTakes: "prove-set.taking-travel", prove.TutorNeverGives: "prove-set.taking-travel",
	prove.TutorNeverOn: "prove-set.his-arm-on", prove.TutorUnsent: "prove-set.his-arm", prove.TutorNeverOff: "prove-set.his-arm-off", prove.TutorOffCorner: "prove-set.his-travel",
	prove.PupilOffSticks: "prove-set.arm-both", prove.TutorFliesOn: "prove-set.his-first", prove.TutorFliesAlone: "prove-set.his-own",
	prove.TakingShowsOn: "prove-set.fall-silent", prove.TakingInCorner: "prove-set.mind-corners", prove.TakingIsArm: "prove-set.own-switch", prove.TakingBreaksLink: "prove-set.his-travel",
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
		set = words.T(id, fearValues(l, r, words.Args{"levelling": LevellingModes()}))
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
	case c == prove.SpringsBack && l.Config.Layout.ArmSpan.Contains(pulse.Width(r.Value)):
		return "-on"
	case c == prove.NoiseCrosses && r.Rule == prove.ModeStays:
		return "-mode"
	case c == prove.NoiseCrosses && facts.BySticks(&l.Config):
		return "-corner"
	case c == prove.NoiseCrosses && r.Rule != prove.NothingElseDisarms:
		return "-arms"
	case c == prove.ArmIsSecond && turnedRound(l):
		return "-turned"
	case c == prove.CleanNothing && l.Config.Link.OnLoss != facts.FallsSilent:
		return "-filled"
	case c == prove.LowMarkHigh && l.Config.Flight.AtLowThrottle == flight.StandStill:
		return "-still"
	}
	return ""
}

// turnedRound reports whether the arm switch and the second switch, one piece of the radio, go against one another.
func turnedRound(l *prove.Layout) bool {
	arm, second := l.Radio.On(l.Config.Layout.Arm), l.Radio.On(l.Config.Layout.Second)
	return arm != nil && second != nil && arm.Turned != second.Turned
}

// causeValues are what the causes are told with.
func causeValues(l *prove.Layout, r *prove.Result, c prove.Cause) words.Args {
	a := &l.Config.Arming
	span, limit := l.Config.Layout.ArmSpan, a.LowThrottle
	switch c {
	case prove.SecondNeverOn, prove.SecondNeverOff:
		span = l.Config.Layout.SecondSpan
	case prove.YawNeverRight:
		limit = a.YawRight
	case prove.YawNeverLeft:
		limit = a.YawLeft
	}
	name, place := provedControl(l, r)
	return fearValues(l, r, words.Args{
		"name": name, "place": place, "value": unit("micros", causeWidth(l, r, c)), "time": Seconds(r.Value), "mode": Mode(r.Mode),
		"channel": Channel(&l.Config.Layout, int(r.Value)-1), "span": SpanWords(span), "limit": Exact(limit),
		"low": Micros(pulse.Lowest), "high": Micros(pulse.Highest), "share": speedShare(facts.StartsAt(&l.Config)), "gesture": gestureName(int32(r.Gesture), &l.Config), "sticks": gestureSticks(l, r),
	})
}

// provedControl names the control of a result with its article, and its position, if any.
func provedControl(l *prove.Layout, r *prove.Result) (name, place words.Text) {
	if r.Control < 0 || r.Control >= len(l.Radio.Controls) {
		return words.T("prove.a-control"), words.Text{}
	}
	c := &l.Radio.Controls[r.Control]
	name = provedName(c)
	if n := len(c.Positions); r.Position >= 0 && n > 0 {
		at := words.Args{"position": PositionWord(r.Position, n)}
		if place = words.T("prove.in-named", at); n > 3 {
			place = words.T("prove.in-numbered", at)
		}
	}
	return name, place
}

// provedName names a control in a sentence, with its article where it has one.
func provedName(c *handset.Control) words.Text {
	if c.Kind == handset.Stick {
		return ControlName(c)
	}
	return words.T("prove.the", words.Args{"name": ControlName(c)})
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

// wayTries reports whether the way of a broken rule shows that something is not reached.
func wayTries(r prove.Rule) bool {
	return r == prove.CanArm || r == prove.CanDisarm || r == prove.EveryModeReached || r == prove.GestureCanBeMade
}

// WayTitle heads the way of a result: what it is, how many movements it takes, and how long.
func WayTitle(r *prove.Result) words.Text {
	how := words.T("prove.way-shortest")
	switch {
	case r.Outcome == prove.WithIt || wayTries(r.Rule) || r.Rule.Tried():
		how = WayKind(r)
	case r.Way.Movements == 0:
		how = words.T("prove.way-none")
	case r.Turning:
		how = words.T("prove.way-turning")
	}
	return words.T("prove.way-title", words.Args{"how": how, "n": words.Count(r.Way.Movements), "time": Seconds(r.Way.Ms)})
}

// WayKind says in a few words what a way is: to a broken rule, a try at what cannot be reached, or how something comes about.
func WayKind(r *prove.Result) words.Text {
	switch {
	case r.Outcome == prove.WithIt:
		return words.T("prove.way-with")
	case wayTries(r.Rule):
		return words.T("prove.way-try")
	}
	return words.T("prove.way-broken")
}

// WayName is what the script of a way is called: of a broken rule it names the breaking.
func WayName(r *prove.Result) words.Text {
	what := FoundShort(r)
	if r.Outcome == prove.Broken {
		what = ruleBreaking(r)
	}
	return words.T("prove.way-name", words.Args{"how": WayKind(r), "what": what})
}

// ruleBreaking is how a rule is broken in a few words, with the mode where it is about one.
func ruleBreaking(r *prove.Result) words.Text {
	mode := words.Text{}
	if r.Cause != prove.NoControl {
		mode = Mode(r.Mode)
	}
	return words.Of("rule-broken", r.Rule.Code(), words.Args{"mode": mode})
}

// WayRule says under the head of a script, in two lines, which rule its way is about, and what was found of it.
func WayRule(l *prove.Layout, r *prove.Result) words.Text {
	return words.T("prove.way-rule", words.Args{"rule": FoundRule(l, r), "outcome": Outcome(r.Outcome, true), "finding": Finding(l, r)})
}

// ProvedStep is one line of a way to a broken rule.
type ProvedStep struct {
	// Number is empty for the start, a wait, a letting go and a trembling: they are no movements.
	Number string
	// Text is what the hand does; Then what the bench did after it, or nothing; At when, counted from the beginning.
	Text, Then, At words.Text
}

// ProvedSteps are the lines of a way, movements numbered from 1, and a last one that says how it stands at the end. Times count
// from the beginning of the way.
func ProvedSteps(l *prove.Layout, w *prove.Way) []ProvedStep {
	var out []ProvedStep
	number := 0
	from := int64(0)
	if len(w.Steps) > 0 {
		from = w.Steps[0].At
	}
	for i := range w.Steps {
		st := &w.Steps[i]
		s := ProvedStep{Text: stepText(l, w, st), Then: stepThen(st.Then), At: Clock(st.At - from)}
		if st.Kind.Counts() {
			number++
			s.Number = strconv.Itoa(number)
		}
		out = append(out, s)
	}
	return append(out, ProvedStep{Text: wayEnd(w), At: Clock(w.Final)})
}

// wayEnd says how everything stands at the end of a way.
func wayEnd(w *prove.Way) words.Text {
	return words.T("prove-step.end", words.Args{"armed": Armed(w.Claim.Armed), "sinking": words.Flag(w.Claim.Sinking),
		"mode": Mode(layout.Mode(w.Claim.Mode)), "link": LinkWord(facts.Phase(w.Claim.Phase))})
}

// stepText says one step in words.
func stepText(l *prove.Layout, w *prove.Way, st *prove.Step) words.Text {
	var c *handset.Control
	if st.Control >= 0 && st.Control < len(l.Radio.Controls) {
		c = &l.Radio.Controls[st.Control]
	}
	switch st.Kind {
	case prove.Start:
		return wayStart(l, w)
	case prove.Move:
		if c == nil {
			return words.T("prove-step.move")
		}
		return stepMoves(&l.Config, c, st.ToPosition, st.To)
	case prove.LetGo:
		name := words.Text{}
		if c != nil {
			name = ControlName(c)
		}
		return words.T("prove-step.let-go", words.Args{"name": name})
	}
	name, at := words.T("prove.a-control"), Width(st.To)
	if c != nil {
		name, at = provedName(c), unit("micros", Shown(&l.Config, c.Channel, st.To))
	}
	return words.Of("prove-step", codes.Step(st.Kind), words.Args{"time": Seconds(st.Ms), "name": name, "at": at, "tilt": Degrees(int(st.Value)),
		"volts": Volts(int(st.Value))})
}

// stepMoves says where a control is moved to.
func stepMoves(cfg *sim.Config, c *handset.Control, position int, w pulse.Width) words.Text {
	name, at := ControlName(c), words.T("prove-step.no-pulse")
	if w.Valid() {
		at = unit("micros", Shown(cfg, c.Channel, w))
	}
	if c.Kind == handset.Switch {
		to := words.Args{"name": name, "position": PositionWord(position, len(c.Positions)), "at": at}
		if len(c.Positions) <= 3 {
			return words.T("prove-step.move-named", to)
		}
		return words.T("prove-step.move-numbered", to)
	}
	if stickWord(c, w).ID() == "control.in-middle" {
		return words.T("prove-step.move-middle", words.Args{"name": name, "at": at})
	}
	return words.T("prove-step.move-to", words.Args{"name": name, "place": controlStands(cfg, c, position, w)})
}

// wayStart says how everything stands at the beginning, from the readings of that moment.
func wayStart(l *prove.Layout, w *prove.Way) words.Text {
	frame, state := begins(w.Readings)
	two := w.Each[1] != nil
	var his pulse.Frame
	if two { // what comes of both radios is not where either stands
		frame, _ = begins(w.Each[0])
		his, _ = begins(w.Each[1])
	}
	var controls []words.Text
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		at := frame[c.Channel]
		if c.Tutors {
			at = his[c.Channel]
		}
		if c.Tutors && !two {
			continue
		}
		if c.Kind == handset.Stick && c.Job != "throttle" && at == c.Rest { // a stick at rest is no news
			continue
		}
		position := -1
		for n := range c.Positions {
			if c.Positions[n].Width == at {
				position = n
			}
		}
		controls = append(controls, words.T("prove-step.at", words.Args{"name": ControlName(c), "place": controlStands(&l.Config, c, position, at)}))
	}
	return words.T("prove-step.start", words.Args{"controls": words.Listed(controls...), "radio": words.Flag(state[pulse.Link] != 0),
		"pack": words.Flag(state[pulse.Power] != 0), "cable": words.Flag(state[pulse.Cable] != 0)})
}

// begins is what readings say of the beginning.
func begins(all []pulse.Reading) (frame pulse.Frame, state map[pulse.Kind]int32) {
	state = map[pulse.Kind]int32{}
	for i := range all {
		switch r := &all[i]; {
		case r.At > 0:
			return frame, state
		case r.Kind == pulse.Controls:
			frame = r.Frame
		default:
			state[r.Kind] = r.Value
		}
	}
	return frame, state
}

// stepEvents are the events of a step in the order in which they are told.
var stepEvents = [...]prove.Event{
	prove.LinkLost, prove.LinkBack, prove.LinkClean, prove.Settled, prove.ModeChanged, prove.Sinking, prove.SinkEnded, prove.Refused, prove.Disarmed,
	prove.GestureMade, prove.MenuOpens, prove.Armed,
}

// stepThen says what the bench did in a step.
func stepThen(e prove.Event) words.Text {
	var out []words.Text
	for _, one := range stepEvents {
		for _, code := range codes.Events(e & one) {
			out = append(out, words.Of("prove-then", code))
		}
	}
	if len(out) == 0 {
		return words.Text{}
	}
	return words.T("prove.sentence", words.Args{"what": words.And(out...)})
}
