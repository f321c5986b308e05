package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/handset"
	"propsoff/sim/prove"
)

// CardArming is the arming rule in one sentence. arm and second are the numbers of the switches on the card, 0 for none.
func CardArming(cfg *sim.Config, r *handset.Radio, arm, second int) words.Text {
	if why, never := facts.NeverArms(cfg, r); never {
		cause, set := causeParts(&prove.Layout{Config: *cfg, Radio: *r}, &why, why.Cause)
		return words.Row(words.T("card.cannot-arm"), cause, set)
	}
	return cardArms(cfg, r, arm, second)
}

// CardCannotBeProved is said of a layout that cannot be searched.
func CardCannotBeProved(why words.Text) words.Text {
	return words.Row(words.T("card.no-proof"), NotSearched(why))
}

// CardVerdict is what a search came to. The card counts the situations that were searched and not those that they stand
// for, which would have to be explained.
func CardVerdict(r *prove.Report) words.Text {
	one := *r
	one.Standing = 0
	return Verdict(&one)
}

// CardWhy says why a rule is broken, and of that what to set alone; where nothing can be set the two are the same.
func CardWhy(l *prove.Layout, r *prove.Result) (why, set words.Text) {
	found, set := FindingParts(l, r)
	if set.Empty() {
		return found, found
	}
	return words.Row(found, set), set
}

// CardOutcome says what was found of a rule, and for one that holds against how much it was held.
func CardOutcome(r *prove.Result) words.Text {
	if r.Outcome == prove.Holds {
		return words.T("card.holds", words.Args{"what": Situations(r.Rule, r.Searched)})
	}
	return Outcome(r.Outcome, true)
}
