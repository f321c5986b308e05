package tell

import (
	"propsoff/assets/words"
	"propsoff/sim/prove"
)

// wayTries reports whether the way of a broken rule shows that something is not reached.
func wayTries(r prove.Rule) bool {
	return r == prove.CanArm || r == prove.CanDisarm || r == prove.EveryModeReached || r == prove.GestureCanBeMade
}

// WayTitle heads the way of a result: what it is, how many movements it takes, and how long.
func WayTitle(r *prove.Result) words.Text {
	how := words.T("prove.way-shortest")
	switch {
	case r.Outcome == prove.WithIt || wayTries(r.Rule):
		how = WayKind(r)
	case r.Way.Movements == 0:
		how = words.T("prove.way-none")
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

// WrittenTo says where the script of a way is, and what replays it.
func WrittenTo(path string) words.Text {
	return words.T("prove.written", words.Args{"path": words.Quote(path)})
}
