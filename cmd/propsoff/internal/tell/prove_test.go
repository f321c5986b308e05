package tell

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

func proveLayout() *prove.Layout {
	return &prove.Layout{Config: sim.Default(), Radio: handset.Ideal([]handset.Want{
		{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"},
		{Channel: 4, Job: "arm", Kind: handset.Switch}, {Channel: 5, Job: "mode", Kind: handset.Switch},
	})}
}

func TestEveryRuleAndCauseHasItsWords(t *testing.T) {
	shorts, sentences := map[string]bool{}, map[string]bool{}
	for _, r := range Rules() {
		short, sentence := spoken(RuleShort(r)), spoken(RuleFor(proveLayout(), r))
		assert.NotEmpty(t, short, r.Code())
		assert.True(t, strings.HasSuffix(sentence, "."), r.Code())
		assert.LessOrEqual(t, len(short), 34, r.Code())
		assert.LessOrEqual(t, utf8.RuneCountInString(words.In("de").Say(RuleShort(r))), 34, r.Code())
		shorts[short], sentences[sentence] = true, true
		saidInAll(t, r.Code(), RuleFor(proveLayout(), r))
	}
	assert.Len(t, shorts, int(prove.RuleCount))
	assert.Len(t, sentences, int(prove.RuleCount))
	l := proveLayout()
	last := spoken(Finding(l, &prove.Result{Outcome: prove.Broken, Cause: prove.CauseCount}))
	seen := map[string]prove.Cause{}
	for c := prove.NoCause + 1; c < prove.CauseCount; c++ {
		finding := Finding(l, &prove.Result{Outcome: prove.Broken, Cause: c, Control: 4, Position: 2, Value: int64(pulse.Micros(1700)), Mode: layout.Horizon})
		saidInAll(t, c.Code(), finding)
		s := spoken(finding)
		if c != prove.Unexplained {
			assert.NotEqual(t, last, s, c.Code())
			assert.Zero(t, seen[s], "%s and %s are told alike", c.Code(), seen[s].Code())
		}
		seen[s] = c
		assert.True(t, strings.HasSuffix(s, "."), c.Code())
		assert.NotContains(t, s, "  ", c.Code())
	}
	for o := prove.NotAsked; o < prove.OutcomeCount; o++ {
		saidInAll(t, o.Code(), Finding(l, &prove.Result{Outcome: o, Searched: 1, Control: -1, Position: -1}))
	}
}

func TestStepsOfAWay(t *testing.T) {
	l := proveLayout()
	frame := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
	w := &prove.Way{Movements: 4, Ms: 3000, Final: 2320, Claim: prove.Claim{Phase: 1}, Readings: []pulse.Reading{
		{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Power}, {Kind: pulse.Controls, Frame: frame}, {At: 20_000, Kind: pulse.Power, Value: 1},
	}, Steps: []prove.Step{
		{Kind: prove.Start, At: -20, Control: -1},
		{Kind: prove.PowerOn, Control: -1, Then: prove.LinkBack},
		{Kind: prove.Wait, At: 20, Ms: 1980, Control: -1, Then: prove.LinkClean | prove.Settled},
		{Kind: prove.Move, At: 2000, Control: 4, FromPosition: 0, ToPosition: 2, From: pulse.Low, To: pulse.High, Then: prove.Armed},
		{Kind: prove.Move, At: 2020, Control: 0, FromPosition: int(prove.AtLow), ToPosition: int(prove.AtHigh), From: pulse.Low, To: pulse.High},
		{Kind: prove.RadioOff, At: 2040, Control: -1, Then: prove.LinkLost | prove.Disarmed},
	}}
	assert.Equal(t, [][4]string{
		{"", "At the beginning: throttle fully down (988 µs), arm switch low (988 µs), mode switch low (988 µs); radio on, the craft without power.", "", "0.000 s"},
		{"1", "Connect the craft's pack.", "The link is there.", "0.020 s"},
		{"", "Wait 1.98 s.", "The link is good and it has stood still long enough.", "0.040 s"},
		{"2", "Arm switch to its high position (2012 µs).", "It ARMS.", "2.020 s"},
		{"3", "Throttle fully up (2012 µs).", "", "2.040 s"},
		{"4", "Radio off.", "The link is lost and it disarms.", "2.060 s"},
		{"", "At the end: DISARMED; mode angle, link lost.", "", "2.320 s"},
	}, spokenSteps(ProvedSteps(l, w)))
	assert.Equal(t, "the shortest way there: 4 movements, 3 s", spoken(WayTitle(&prove.Result{Outcome: prove.Broken, Way: w})))
	assert.Equal(t, "a try that does not get there: 4 movements, 3 s", spoken(WayTitle(&prove.Result{Rule: prove.CanArm, Outcome: prove.Broken, Way: w})))
	l.Radio.Controls[4].Called = "left lever"
	l.Radio.Controls[4].Positions = make([]handset.Position, 6)
	assert.Equal(t, "Arm switch (left lever) to position 3 of 6 (2012 µs).", spoken(ProvedSteps(l, w)[3].Text))
}

func TestNumbersOfASearch(t *testing.T) {
	for n, want := range map[uint64]string{0: "0", 999: "999", 1000: "1,000", 537_664: "537,664", 1_234_567: "1,234,567"} {
		assert.Equal(t, want, spoken(words.T("check.plain", words.Args{"n": words.Grouped(n)})))
	}
	for n, want := range map[float64]string{12: "12", 537_664: "537,664", 1e6: "1 million", 1.24e6: "1.2 million", 348_400_000: "348 million", 1.2e9: "1.2 billion", 5e12: "5 thousand billion", 2e17: "200 million billion"} {
		assert.Equal(t, want, spoken(words.T("check.plain", words.Args{"n": About(n)})))
	}
	assert.Equal(t, "537,664 situations, standing for 348 million with each position of each switch counted by itself", spoken(SituationsStand(537_664, 348e6)))
	assert.Equal(t, "12 situations", spoken(SituationsStand(12, 12)))
	r := prove.Report{Situations: 5, Standing: 5}
	assert.Equal(t, "Every situation was searched: 5 situations. No rule is broken.", spoken(Verdict(&r)))
	r.Partial = true
	r.Results = []prove.Result{{Outcome: prove.Broken}, {Outcome: prove.Undecided}, {Outcome: prove.Undecided}, {Outcome: prove.WithIt}}
	assert.Equal(t, "Stopped before the end, so this answer is partial: 5 situations. 1 rule is broken, 2 rules are undecided. 1 finding comes with a choice made for this craft.", spoken(Verdict(&r)))
}

// A broken rule is called by its breaking, what is not reached by a try, and what is not asked says why.
func TestWhatAWayIsCalled(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		one := prove.Result{Rule: r, Outcome: prove.Broken, Mode: layout.Horizon}
		name := spoken(WayName(&one))
		assert.False(t, strings.HasSuffix(name, ": "+spoken(RuleShort(r))), "%s names what should hold", name)
		assert.False(t, seen[name], name)
		seen[name] = true
		try := r == prove.CanArm || r == prove.CanDisarm || r == prove.EveryModeReached || r == prove.GestureCanBeMade
		assert.Equal(t, try, strings.HasPrefix(name, "a try that does not get there: "), name)
		assert.Equal(t, !try, strings.HasPrefix(name, "the way to a broken rule: "), name)
	}
	assert.True(t, seen["a try that does not get there: mode horizon is not reached"])
	assert.Equal(t, "a try that does not get there: a mode is not reached", spoken(WayName(&prove.Result{Rule: prove.EveryModeReached, Outcome: prove.Broken, Cause: prove.NoControl})))
	assert.Equal(t, "how it comes about: sticks disarm in flight too", spoken(WayName(&prove.Result{Rule: prove.CornerDisarmsInFlight, Outcome: prove.WithIt})))
}

func TestRulesOfThisCraft(t *testing.T) {
	l := proveLayout()
	assert.Equal(t, "this receiver stores no values", spoken(WhyNotAsked(l, prove.StoredNeverArms)))
	assert.Equal(t, "this craft arms by switch", spoken(WhyNotAsked(l, prove.CornerDisarmsInFlight)))
	l.Config.SlotTicks, l.Config.Link.SilenceSlots, l.Config.Arming.SinkSlots = 20, 11, 0
	assert.Equal(t, "When the radio falls silent, the motors stand and the craft is disarmed within the promised 0.22 s (the silence limit).", spoken(RuleFor(l, prove.LossStopsMotors)))
	l.Config.Arming.SinkSlots = 50
	assert.Contains(t, spoken(RuleFor(l, prove.LossStopsMotors)), "the promised 1.22 s (the silence limit and the sinking time)")
	assert.Contains(t, spoken(Finding(l, &prove.Result{Outcome: prove.Broken, Cause: prove.StopsLate, Value: 240})), "promised 0.24 s")

	r := prove.Report{Results: make([]prove.Result, prove.RuleCount)}
	for i := range r.Results {
		r.Results[i] = prove.Result{Rule: prove.Rule(i), Outcome: prove.Holds}
	}
	r.Results[prove.CanArm].Outcome, r.Results[prove.CanDisarm].Outcome = prove.Broken, prove.NotAsked
	assert.Contains(t, spoken(WhyNotAsked(l, prove.CanDisarm)), "never arms")
	order := NewsFirst(r.Results)
	assert.Equal(t, int(prove.CanArm), order[0])
	assert.Equal(t, int(prove.CanDisarm), order[len(order)-1])
}

// What comes with arming by sticks is said as it is, and every number says what it counts.
func TestWhatIsFoundIsSaidAsItIs(t *testing.T) {
	l := proveLayout()
	r := &prove.Result{Rule: prove.MenuSticksNeverArm, Outcome: prove.WithIt, Searched: 9}
	assert.Equal(t, "sticks in a menu arm too – comes with it", spoken(FoundShort(r))+" – "+spoken(Outcome(r.Outcome, true)))
	assert.Equal(t, "While a menu that a gesture opened is open, the sticks can arm the craft all the same.", spoken(FoundRule(l, r)))
	r.Outcome = prove.Holds
	assert.Equal(t, "sticks in a menu arm nothing – holds, 9 gesture situations", spoken(FoundShort(r))+" – "+spoken(Outcome(r.Outcome, true))+", "+spoken(Situations(r.Rule, r.Searched)))
	assert.Equal(t, spoken(RuleFor(l, r.Rule)), spoken(FoundRule(l, r)))
	assert.Equal(t, "held against 1 gesture pair", spoken(HeldAgainst(prove.OneGestureAtATime, 1)))
	assert.Equal(t, "held against 2 situations", spoken(HeldAgainst(prove.PowerUpNeverArms, 2)))
	assert.Equal(t, "3 situations, standing for 12 with each position of each switch counted by itself", spoken(SituationsStand(3, 12)))
	throttle := &l.Radio.Controls[0]
	throttle.Low, throttle.Rest = pulse.Micros(989), pulse.Micros(991)
	assert.Equal(t, "at rest (991 µs)", spoken(ControlAt(throttle, 0, throttle.Rest)))
	assert.Equal(t, "fully down (989 µs)", spoken(ControlAt(throttle, 0, throttle.Low)))
}

// The nearer of two edges is the worse, and what keeps it from arming is worse than either.
func TestTheWorstCalloutComesFirst(t *testing.T) {
	l := proveLayout()
	look := func() (*switches.Facts, []words.Text) {
		f := switches.Look(&l.Config, nil, &l.Radio)
		return f, Callouts(f, &l.Config)
	}
	_, none := look()
	assert.Empty(t, none)
	assert.Equal(t, "The layout sheet (F6) calls out nothing.", spoken(CalledOut(none, words.AsIs("F6"))))
	arm := &l.Radio.Controls[4]
	arm.Positions[0].Width, arm.Positions[1].Width = l.Config.Layout.ArmSpan.Low-pulse.Micros(20), l.Config.Layout.ArmSpan.Low-pulse.Micros(2)
	f, all := look()
	assert.Equal(t, 2, f.Warnings())
	require.Len(t, all, 2)
	assert.Contains(t, spoken(all[0]), ": only 2 µs from the edge at ")
	assert.Contains(t, spoken(all[1]), ": only 20 µs from the edge at ")
	assert.Equal(t, "The layout sheet (F6) calls out 2 things, the worst of them: "+spoken(all[0]), spoken(CalledOut(all, words.AsIs("F6"))))
	l.Radio.Controls[0].Low = l.Config.Arming.LowThrottle
	f, all = look()
	require.Len(t, all, f.Warnings())
	assert.Contains(t, spoken(all[0]), "The throttle goes no lower")
	for c := switches.NoSpan; c <= switches.NeverSinks; c++ {
		assert.Equal(t, c.Told(), badness[c] == 0, "callout %d", c)
	}
}

// A low mark above 1000 µs is told as the motors behave: those that stand still start there at a speed that is shown.
func TestALowMarkAboveIdle(t *testing.T) {
	l := prove.Layout{Config: sim.Default()}
	l.Config.Arming.LowThrottle = pulse.Micros(1100)
	r := prove.Result{Rule: prove.ThrottleUpNeverArms, Outcome: prove.Broken, Cause: prove.LowMarkHigh, Control: -1, Position: -1, Value: int64(pulse.Micros(1100))}
	l.Config.Flight.AtLowThrottle = flight.Idle
	assert.Equal(t, "The throttle counts as low below 1100 µs, but from 1000 µs on the motors are asked for more than idle. Bring low-throttle to 1000 or below.", spoken(Finding(&l, &r)))
	l.Config.Flight.AtLowThrottle = flight.StandStill
	// 9 % idle and a tenth of the 91 % above it, as 1100 µs is a tenth of the way from 1000 to 2000.
	l.Config.Flight.IdleSpeed = 900
	assert.Equal(t, "The throttle counts as low below 1100 µs: below that the motors stand still, and there they start at 18.1 % of full speed at once. Bring low-throttle to 1000 or below.", spoken(Finding(&l, &r)))
}

func spokenSteps(steps []ProvedStep) (out [][4]string) {
	for _, s := range steps {
		out = append(out, [4]string{s.Number, spoken(s.Text), spoken(s.Then), spoken(s.At)})
	}
	return out
}

// What a rule is called when it is broken, why it is not asked, and each kind of step and event, are said in every language; what a cause
// says of one rule in particular too.
func TestEveryWordOfProveIsSaid(t *testing.T) {
	l := proveLayout()
	for _, r := range Rules() {
		for o := prove.NotAsked; o < prove.OutcomeCount; o++ {
			one := prove.Result{Rule: r, Outcome: o, Mode: layout.Rate, Searched: 2, Control: 4, Position: 1, Way: &prove.Way{Movements: 2}}
			saidInAll(t, r.Code(), WayName(&one))
			saidInAll(t, r.Code(), WayTitle(&one))
			saidInAll(t, r.Code(), WayRule(l, &one))
			for c := prove.NoCause; c < prove.CauseCount; c++ {
				one.Cause = c
				saidInAll(t, r.Code()+" "+c.Code(), Finding(l, &one))
			}
		}
	}
	for k := prove.Kind(0); k < prove.KindCount; k++ {
		if k != prove.Start {
			saidInAll(t, codes.Step(k), stepText(l, &prove.Way{}, &prove.Step{Kind: k, Control: -1, Ms: 20}))
		}
	}
	saidInAll(t, "all events", stepThen(1<<12-1))
	assert.Len(t, codes.Events(1<<12-1), len(stepEvents))
	for r := prove.Rule(0); r < prove.RuleCount; r++ {
		saidInAll(t, r.Code(), HeldAgainst(r, 1))
		saidInAll(t, r.Code(), HeldAgainst(r, 1_000))
	}
	assert.Equal(t, "1,2 Milliarden", words.In("de").Say(words.T("check.plain", words.Args{"n": About(1.2e9)})))
	assert.Equal(t, "1 Billion", words.In("de").Say(words.T("check.plain", words.Args{"n": About(1e12)})))
}

// The two parts of a finding are the whole, and what to set stands in the second alone.
func TestWhatIsFoundAndWhatToSet(t *testing.T) {
	l := proveLayout()
	for c := prove.NoCause + 1; c < prove.CauseCount; c++ {
		r := &prove.Result{Rule: prove.PowerUpLevels, Outcome: prove.Broken, Cause: c, Control: 4, Position: 2}
		found, set := FindingParts(l, r)
		assert.Equal(t, strings.TrimSpace(spoken(found)+" "+spoken(set)), spoken(Finding(l, r)))
		first, rest, _ := strings.Cut(spoken(Finding(l, r)), ". ")
		assert.Equal(t, strings.TrimSuffix(spoken(found), "."), strings.TrimSuffix(first, "."), c.Code())
		assert.Equal(t, spoken(set), rest, c.Code())
	}
}

// How long a search will go on is told once it is known how many situations to expect, and not after it has found more.
func TestTimeLeft(t *testing.T) {
	left := func(found, expected uint64, seconds int64) string {
		text := TimeLeft(prove.Progress{Situations: found, Expected: expected}, seconds*1_000_000)
		saidInAll(t, "time left", text)
		return spoken(text)
	}
	assert.Equal(t, "About 30 seconds more.", left(1_000_000, 4_000_000, 10))
	assert.Equal(t, "About 1 second more.", left(3_999_000, 4_000_000, 10))
	for _, p := range []prove.Progress{{}, {Situations: 5}, {Situations: 5, Expected: 5}, {Situations: 6, Expected: 5}, {Expected: 5}} {
		assert.Equal(t, words.Text{}, TimeLeft(p, 1_000_000))
	}
}

// Of a missing clean time no more is said than this craft does: control comes back only where it sinks, and a receiver that fills every gap
// gives no link that comes and goes.
func TestAMissingCleanTimeIsToldByReceiverAndLoss(t *testing.T) {
	l := proveLayout()
	r := &prove.Result{Rule: prove.CleanTimeIsSet, Outcome: prove.Broken, Cause: prove.CleanNothing, Control: -1}
	for _, c := range []struct {
		sinks       uint16
		onLoss      facts.OnLoss
		goes, gives bool
	}{{0, facts.FallsSilent, true, false}, {50, facts.FallsSilent, true, true}, {50, facts.RepeatsLast, false, false}} {
		l.Config.Arming.SinkSlots, l.Config.Link.OnLoss = c.sinks, c.onLoss
		found, _ := FindingParts(l, r)
		saidInAll(t, "clean time", found)
		assert.Equal(t, c.goes, strings.Contains(spoken(found), "comes and goes"))
		assert.Equal(t, c.gives, strings.Contains(spoken(found), "gives control back"))
	}
}
