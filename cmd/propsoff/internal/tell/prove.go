package tell

import (
	"cmp"
	"math"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// Moved lists what the search moves: each control with its places, then what is not the radio's.
func Moved(l *prove.Layout) []words.Text {
	var out []words.Text
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		name, channel := ControlName(c), ChannelNumber(int(c.Channel))
		if c.Kind != handset.Switch {
			out = append(out, words.T("prove.moved-stick", words.Args{"name": name, "channel": channel, "low": Micros(c.Low), "high": Micros(c.High)}))
			continue
		}
		var at []words.Text
		for n := range c.Positions {
			at = append(at, ControlAt(c, n, c.Positions[n].Width))
		}
		out = append(out, words.T("prove.moved-switch", words.Args{"name": name, "channel": channel, "places": words.Listed(at...)}))
	}
	return append(out, words.T("prove.moved-rest"))
}

// StepsLeft counts the steps for which there is no room.
func StepsLeft(n int) words.Text { return words.T("prove.steps-left", words.Args{"n": words.Count(n)}) }

// Outcome is the word for what was found of a rule. begun is false before the first search.
func Outcome(o prove.Outcome, begun bool) words.Text {
	if !begun {
		return words.T("outcome.to-be-searched")
	}
	return words.Of("outcome", o.Code())
}

// About is a large number in words that can be read: "537,664", "348 million", "1.2 billion".
func About(n float64) words.Value {
	for _, u := range [...]struct {
		of   float64
		word words.ID
	}{{1e15, "prove.million-billions"}, {1e12, "prove.thousand-billions"}, {1e9, "prove.billions"}, {1e6, "prove.millions"}} {
		switch v := n / u.of; {
		case v >= 100:
			return words.T(u.word, words.Args{"n": words.Grouped(v + 0.5), "one": words.Flag(false)})
		case v >= 1:
			tenths := int64(math.Round(v * 10))
			return words.T(u.word, words.Args{"n": words.Fixed{N: tenths, Places: 1}, "one": words.Flag(tenths == 10)})
		}
	}
	return words.Grouped(n + 0.5)
}

// SituationsStand says how many situations were searched and how many they stand for.
func SituationsStand(n uint64, standing float64) words.Text {
	many := words.T("prove.situations", words.Args{"n": words.Grouped(n), "one": words.Flag(n == 1)})
	if standing < float64(n)+0.5 {
		return many
	}
	return words.T("prove.standing", words.Args{"situations": many, "many": About(standing)})
}

// Progress says how far a search is: it goes by movements first.
func Progress(p prove.Progress) words.Text {
	if p.Again { // its movements begin anew, and would look like going back
		return words.T("prove.searching-again", words.Args{"situations": SituationsStand(p.Situations, 0)})
	}
	return words.T("prove.searching", words.Args{"situations": SituationsStand(p.Situations, 0), "n": words.Count(p.Movements)})
}

// TimeLeft says about how long a search that has taken so many µs so far will go on; nothing where it cannot be told yet.
func TimeLeft(p prove.Progress, took int64) words.Text {
	if p.Expected <= p.Situations || p.Situations == 0 {
		return words.Text{}
	}
	left := float64(took) / 1e6 * (float64(p.Expected)/float64(p.Situations) - 1)
	return words.T("prove.time-left", words.Args{"n": words.Count(int(math.Ceil(left)))})
}

// Verdict is what a search came to, in a sentence or two.
func Verdict(r *prove.Report) words.Text {
	broken, open, with := r.Count(prove.Broken), r.Count(prove.Undecided), r.Count(prove.WithIt)
	searched := words.Args{"situations": SituationsStand(r.Situations, r.Standing)}
	said := []words.Text{words.T("prove.searched", searched)}
	if r.Partial {
		said[0] = words.T("prove.stopped", searched)
	}
	var parts []words.Text
	if broken > 0 {
		parts = append(parts, words.T("prove.rules-broken", words.Args{"n": words.Count(broken)}))
	}
	if open > 0 {
		parts = append(parts, words.T("prove.rules-open", words.Args{"n": words.Count(open)}))
	}
	switch {
	case len(parts) > 0:
		said = append(said, words.T("prove.sentence", words.Args{"what": words.Listed(parts...)}))
	case r.Partial:
		said = append(said, words.T("prove.none-broken-yet"))
	default:
		said = append(said, words.T("prove.none-broken"))
	}
	if broken == 0 && open > 0 {
		said = append(said, words.T("prove.none-of-these"))
	}
	if with > 0 {
		said = append(said, words.T("prove.comes-with", words.Args{"n": words.Count(with)}))
	}
	return words.Row(said...)
}

// RestCounted counts the rules that hold, and those that are not asked of this craft.
func RestCounted(r *prove.Report) words.Text {
	parts := []words.Text{words.T("prove.rules-hold", words.Args{"n": words.Count(r.Count(prove.Holds))})}
	if n := r.Count(prove.NotAsked); n > 0 {
		parts = append(parts, words.T("prove.rules-unasked", words.Args{"n": words.Count(n)}))
	}
	return words.T("prove.rest-listed", words.Args{"what": words.And(parts...)})
}

// Rules are all rules in their order.
func Rules() []prove.Rule {
	out := make([]prove.Rule, prove.RuleCount)
	for i := range out {
		out[i] = prove.Rule(i)
	}
	return out
}

// RuleFor is a rule as a sentence, with this craft's own time where it promises one.
func RuleFor(l *prove.Layout, r prove.Rule) words.Text {
	c := &l.Config
	promised := (int64(c.Link.SilenceSlots) + int64(c.Arming.SinkSlots)) * int64(c.SlotTicks)
	return words.Of("rule", r.Code(), fearValues(l, &prove.Result{Rule: r}, words.Args{"time": Seconds(promised)}))
}

// RuleShort is a rule in a few words.
func RuleShort(r prove.Rule) words.Text { return words.Of("rule-short", r.Code()) }

// contraries are rules of which the contrary is what comes with how a craft arms: then that is said in place of the rule, in short and whole.
var contraries = map[prove.Rule][2]words.ID{
	prove.MenuSticksNeverArm:  {"rule-short.menu-sticks-arm", "prove.menu-sticks-arm"},
	prove.ArmingStartsNoMotor: {"rule-short.motors-idle-armed", "prove.motors-idle-armed"},
}

// contrary is what is said in place of a rule, where that is so.
func contrary(r *prove.Result) (short, whole words.Text, found bool) {
	ids, has := contraries[r.Rule]
	if !has || r.Outcome != prove.WithIt {
		return words.Text{}, words.Text{}, false
	}
	return words.T(ids[0]), words.T(ids[1]), true
}

// FoundShort is a rule in a few words, by what was found.
func FoundShort(r *prove.Result) words.Text {
	if short, _, found := contrary(r); found {
		return short
	}
	return RuleShort(r.Rule)
}

// FoundRule is a rule as a sentence, by what was found.
func FoundRule(l *prove.Layout, r *prove.Result) words.Text {
	if _, whole, found := contrary(r); found {
		return whole
	}
	return RuleFor(l, r.Rule)
}

// RuleNote is what must be known of a rule of this craft however it comes out; it says nothing for most.
func RuleNote(l *prove.Layout, r prove.Rule) words.Text {
	why := neverSinks(&l.Config)
	if r != prove.LossStopsMotors || why.Empty() {
		return words.Text{}
	}
	return words.T("prove.never-sinks", words.Args{"why": why})
}

// Situations is a number of what a rule is held against: situations, or positions where it is about positions.
func Situations(r prove.Rule, n uint64) words.Text {
	many := words.Args{"n": words.Grouped(n), "one": words.Flag(n == 1)}
	switch r {
	case prove.GestureNeverArms, prove.MenuSticksNeverArm, prove.ArmedOpensNoMenu, prove.GestureCanBeMade, prove.GestureAlsoDisarms:
		return words.T("prove.gesture-situations", many) // of searches of their own
	case prove.EveryModeReached, prove.NoModeGap, prove.PowerUpLevels, prove.ModeStays, prove.SecondGoesOff, prove.SweepNeverArms, prove.ArmControlIsAlone, prove.NoRateOnTheWay, prove.NoStickMovesMode:
		return words.T("prove.positions", many)
	case prove.OneGestureAtATime:
		return words.T("prove.gesture-pairs", many)
	case prove.SilenceStopsSoon:
		return words.T("prove.flights", many)
	}
	if r.Tried() && !r.OfTwoRadios() {
		return words.T("prove.values", many)
	}
	return words.T("prove.situations", many)
}

// HeldAgainst says how many situations a rule was held against; a rule about positions against positions.
func HeldAgainst(r prove.Rule, n uint64) words.Text {
	return words.T("prove.held", words.Args{"what": Situations(r, n)})
}

// newsworth puts what a person must know first.
var newsworth = [prove.OutcomeCount]int{prove.Broken: 0, prove.WithIt: 1, prove.Undecided: 2, prove.Holds: 3, prove.NotAsked: 4}

// NewsFirst are the indices of results as they are shown: what is broken first, what is not asked last, else in order.
func NewsFirst(results []prove.Result) []int {
	order := make([]int, len(results))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(newsworth[results[a].Outcome], newsworth[results[b].Outcome])
	})
	return order
}

// WhyNotAsked says in half a sentence why a rule is not for this craft.
func WhyNotAsked(l *prove.Layout, r prove.Rule) words.Text {
	switch r {
	case prove.StoredNeverArms:
		return words.T("prove.no-stored")
	case prove.HeldNeverArms:
		return words.T("prove.no-repeated")
	case prove.UnheardIsSilent:
		if l.Config.Link.OnLoss == facts.FallsSilent {
			return words.T("prove.no-made-up")
		}
	case prove.EveryModeReached, prove.NoModeGap, prove.ModeStays:
		return words.T("prove.no-mode-control", words.Args{"mode": Mode(l.Config.Layout.FixedMode)})
	case prove.ArmControlStays:
		return words.T("prove.arms-by-sticks")
	case prove.CornerDisarmsInFlight:
		return words.T("prove.arms-by-switch")
	case prove.GestureNeverArms, prove.MenuSticksNeverArm, prove.ArmedOpensNoMenu, prove.OneGestureAtATime, prove.GestureCanBeMade, prove.GestureAlsoDisarms,
		prove.ArmingOpensNoMenu:
		return whyNoGestures(l, r)
	case prove.CanDisarm:
		return words.T("prove.never-arms")
	}
	if r.Tried() {
		return whyNotFeared(l, r)
	}
	return words.T("prove.nothing-bears")
}

// whyNoGestures is WhyNotAsked of a rule about gestures.
func whyNoGestures(l *prove.Layout, r prove.Rule) words.Text {
	switch g := l.Config.Gestures; {
	case g == nil || len(g.Patterns) == 0:
		return words.T("prove.no-gestures")
	case r == prove.GestureAlsoDisarms && !facts.BySticks(&l.Config):
		return words.T("prove.disarms-by-switch")
	case r == prove.ArmingOpensNoMenu && !facts.BySticks(&l.Config):
		return words.T("prove.arms-by-switch")
	case r == prove.MenuSticksNeverArm, r == prove.ArmingOpensNoMenu:
		return words.T("prove.no-gesture-menu")
	}
	return words.T("prove.nothing-bears")
}

// badness puts the worst callout first: what keeps the craft from arming or disarming, then what it never does, then what noise
// may bring about, then what is merely odd. What is only told is not here.
var badness = map[switches.Code]int{
	switches.StickUnsent: 1, switches.ThrottleHigh: 2, switches.YawShort: 3, switches.NotSent: 4, switches.NeverDisarms: 5, switches.NeverArms: 6,
	switches.NeverSinks: 7, switches.Narrow: 8, switches.NoisyFor: 9, switches.NoSpan: 10, switches.Unreached: 11, switches.TwoJobs: 12, switches.NoSwitch: 13,
}

// Callouts are what the layout sheet calls out, each with its place, the worst first. Of two near an edge the nearer one is the worse.
func Callouts(f *switches.Facts, cfg *sim.Config) []words.Text {
	all := callouts(f, cfg)
	says := make([]words.Text, len(all))
	for i, c := range all {
		says[i] = c.says
	}
	return says
}

// mostShort is how many callouts are named in short (ours).
const mostShort = 3

// CalloutsShort names the worst of them in a few words each, one switch for the same thing once; nothing where there are none.
func CalloutsShort(f *switches.Facts, cfg *sim.Config) words.Text {
	type kind struct {
		channel int8
		code    switches.Code
	}
	seen, parts := map[kind]bool{}, []words.Text(nil)
	for _, c := range callouts(f, cfg) {
		k := kind{c.Channel, c.Code}
		if seen[k] {
			continue
		}
		seen[k] = true
		if len(parts) == mostShort {
			return words.Clauses(append(parts, words.T("layout.short-more"))...)
		}
		parts = append(parts, c.short)
	}
	return words.Clauses(parts...)
}

// called is a callout with its sentence, and in short.
type called struct {
	switches.Callout
	margin      pulse.Width
	says, short words.Text
}

func callouts(f *switches.Facts, cfg *sim.Config) (all []called) {
	take := func(c switches.Callout, margin pulse.Width, of, says words.Text) {
		if badness[c.Code] == 0 {
			return
		}
		short := words.T(shortCallouts[c.Code])
		if !of.Empty() {
			short = CalloutPlaced(of, short)
		}
		all = append(all, called{c, margin, says, short})
	}
	for _, c := range f.Callouts {
		take(c, 0, words.Text{}, CalloutCraft(c, cfg))
	}
	for i := range f.Switches {
		s := &f.Switches[i]
		for _, c := range s.Callouts {
			take(c, 0, SwitchName(s), CalloutPlaced(SwitchName(s), calloutOf(s, c)))
		}
		for n := range s.Positions {
			p := &s.Positions[n]
			for _, c := range p.Callouts {
				take(c, p.Margin, SwitchName(s), words.T("prove.called", words.Args{"place": PositionPlace(s, p), "text": calloutAt(f, s, p, c)}))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b called) int {
		return cmp.Or(cmp.Compare(badness[a.Code], badness[b.Code]), cmp.Compare(a.margin, b.margin))
	})
	return all
}

// shortCallouts are what is called out in a few words.
var shortCallouts = map[switches.Code]words.ID{
	switches.StickUnsent: "layout.short-stick-unsent", switches.ThrottleHigh: "layout.short-throttle-high", switches.YawShort: "layout.short-yaw-short",
	switches.NotSent: "layout.short-not-sent", switches.NeverDisarms: "layout.short-never-disarms", switches.NeverArms: "layout.short-never-arms",
	switches.NeverSinks: "layout.short-never-sinks", switches.Narrow: "layout.short-narrow", switches.NoisyFor: "layout.short-noisy",
	switches.NoSpan: "layout.short-no-span", switches.Unreached: "layout.short-unreached", switches.TwoJobs: "layout.short-two-jobs", switches.NoSwitch: "layout.short-no-switch",
}

// CalledOut says how many things the layout sheet calls out, and the worst; key is that of the sheet.
func CalledOut(all []words.Text, key words.Text) words.Text {
	if len(all) == 0 {
		return words.T("prove.called-nothing", words.Args{"key": key})
	}
	return words.T("prove.called-worst", words.Args{"n": words.Count(len(all)), "worst": all[0], "key": key})
}
